"""`areafit need`: what to write into the purchase specification of a place."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.answers.need import Need
from areafit.answers.need import need as need_of
from areafit.facts.part import Exposure
from areafit.values import replace
from areafit_cli import lists, one_part, terminal, words
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import (
    ConfigOption,
    NoConfigOption,
    PageFormat,
    Strings,
    TablesOption,
    flag,
    value,
)
from areafit_cli.render import purchase
from areafit_cli.render.as_markdown import escape
from areafit_cli.render.json_text import fields

if TYPE_CHECKING:
    from areafit.answers.need import ExposureNeed, HazardNeed
    from areafit.facts.bom import Bom
    from areafit_cli.render.paper import Paper

EXAMPLE = "areafit need bom.yaml filling-head --exposure splash"
_PLACE = "A place without a list"
_COLUMN = 11


def command(
    bom: Annotated[
        str | None, typer.Argument(metavar="[BOM]", help="A list, or - for input.")
    ] = None,
    location: Annotated[
        str | None, typer.Argument(metavar="[LOCATION]", help="One of its locations; all without.")
    ] = None,
    *,
    exposure: Annotated[
        list[Exposure] | None,
        typer.Option(
            help="Materials for this exposure only. May be repeated. Without it those that the "
            "list states at the place; all of them where it states none."
        ),
    ] = None,
    all_exposures: Annotated[
        bool, flag("--all-exposures", "Materials for every exposure.")
    ] = False,
    area: Annotated[Strings, value("As the classification document writes it.", _PLACE)] = None,
    substance: Annotated[Strings, value("Gas, vapour or dust present, or none.", _PLACE)] = None,
    chemical: Annotated[
        Strings, value('What corrodes: "sodium hydroxide, 2 %, 60 °C", or none.', _PLACE)
    ] = None,
    ambient: Annotated[str | None, value("Air at the place, 5..40 °C.", _PLACE)] = None,
    layer: Annotated[str | None, value("Dust layer to be expected, 5 mm.", _PLACE)] = None,
    ingress: Annotated[str | None, value("Least enclosure rating, IP65.", _PLACE)] = None,
    document: Annotated[str | None, value("The area classification document.", _PLACE)] = None,
    code: Annotated[str | None, value("NEC, IEC or ATEX.", _PLACE)] = None,
    edition: Annotated[str | None, value("Edition of that code.", _PLACE)] = None,
    format_: Annotated[PageFormat, typer.Option("--format")] = PageFormat.TEXT,
    tables: TablesOption = None,
    no_config: NoConfigOption = False,
    config_: ConfigOption = None,
) -> None:
    """Tell what a place asks of what is bought for it: markings, enclosure, materials."""
    del no_config, config_
    stated = one_part.stated(
        code=code,
        edition=edition,
        area=area,
        substance=substance,
        layer=layer,
        ambient=ambient,
        document=document,
        chemical=chemical,
    )
    if bom is None and not area:
        raise CallError("name a list, or state a place by --area and what is present in it")
    if bom is not None and (stated or ingress):
        raise CallError("a list states its places itself; give either a list or --area")
    known = lists.read(bom) if bom is not None else _place(stated, ingress)
    asked = tuple(Exposure) if all_exposures else tuple(exposure or ())
    found = _needs(known, location, tables, asked)
    match format_:
        case PageFormat.JSON:
            terminal.write_json({"locations": [fields(one) for one in found]})
        case PageFormat.MARKDOWN:
            terminal.write(_markdown(found))
        case PageFormat.TEXT:
            terminal.write(_text(found, terminal.paper()))


def _place(stated: one_part.Stated, ingress: str | None) -> "Bom":
    built = one_part.build({**stated, "kind": ("structural",)})
    places = {name: replace(place, ingress=ingress) for name, place in built.places.items()}
    return replace(built, places=places)


def _needs(
    bom: "Bom", location: str | None, tables: str | None, exposures: tuple[Exposure, ...]
) -> list[Need]:
    """The needs of the places, derived as the report derives them."""
    if location is not None and location not in bom.places:
        raise unknown("location", location, bom.places)
    options = words.options()
    known = lists.known_tables(lists.read_overlays(tables), options.as_of)
    report = areafit.judge(bom, known, options)
    return [
        need_of(place.demands, exposures or _used(bom, place.name))
        for place in report.places
        if place.demands is not None and location in (None, place.name)
    ]


def _used(bom: "Bom", place: str) -> tuple[Exposure, ...]:
    """The exposures that the list states at a place, the most severe first; all where it has none.

    An alternate may stand elsewhere than its line.
    """
    parts = [one for part in bom.parts for one in (part, *part.alternates)]
    used = {
        use.exposure or part.exposure
        for part in parts
        if place in part.locations
        for use in part.materials or ()
    }
    return tuple(each for each in Exposure if each in used) or tuple(Exposure)


# As text


def _text(needs: Iterable[Need], paper: "Paper") -> Iterator[str]:
    """One block a place."""
    for number, need in enumerate(needs):
        if number:
            yield "\n"
        yield from paper.wrap(paper.paint(purchase.title(need), "title"))
        for label, text in purchase.facts(need):
            yield from paper.labelled(label, text, 2, _COLUMN)
        for hazard in need.hazards:
            yield from _hazard(hazard, paper)
        if not need.hazards:
            yield "\n  No classified area is declared: no marking is asked for.\n"
        yield from _open(need, paper)
        if purchase.no_material(need):
            yield f"\n  {purchase.no_material(need)}\n"
        for exposure in purchase.notable(need):
            yield from _exposure(exposure, paper)
        if any(exposure.suits or exposure.limited for exposure in need.exposures):
            yield "\n"
            yield from paper.wrap(purchase.RULES_LEFT, "  ", "  ")
    yield "\n"
    yield from paper.wrap(purchase.DEFERS)


def _hazard(hazard: "HazardNeed", paper: "Paper") -> Iterator[str]:
    yield paper.heading(f"  {hazard.hazard}: {'; '.join(hazard.area)}")
    for label, text in purchase.surface(hazard):
        yield from paper.labelled(label, text, 2, _COLUMN)
    for system, markings in purchase.by_system(hazard):
        yield from paper.wrap(f"Marked, {system}, with one of:", "  ", "  ")
        for marking in markings:
            yield from paper.wrap(marking, "  - ", "    ")
    for text in purchase.evidence(hazard):
        yield from paper.labelled("with", text, 2, _COLUMN)


def _open(need: Need, paper: "Paper") -> Iterator[str]:
    points = purchase.open_points(need)
    if points:
        yield paper.heading("  open points")
        for point in points:
            yield from paper.wrap(point, "  - ", "    ")


def _exposure(exposure: "ExposureNeed", paper: "Paper") -> Iterator[str]:
    yield paper.heading(f"  materials, {exposure.exposure}")
    if exposure.unknown:
        text = f"no data: {', '.join(exposure.unknown)}; no material can be named"
        yield from paper.wrap(text, "  ", "  ")
    for label, suits in purchase.fitness(exposure):
        if suits:
            yield f"  {label}:\n"
        for condition, families in purchase.by_condition(suits):
            if condition:
                yield from paper.wrap(condition, "  * ", "    ")
            for text in families:
                yield from paper.wrap(text, "  - " if not condition else "    - ", "      ")
    if exposure.no_data:
        yield f"  {exposure.no_data} more materials have no data for all chemicals here.\n"


# As Markdown


def _markdown(needs: Iterable[Need]) -> Iterator[str]:
    """One section a place."""
    for need in needs:
        yield f"## {escape(purchase.title(need))}\n\n"
        for label, text in purchase.facts(need):
            yield f"- {label}: {escape(text)}\n"
        for hazard in need.hazards:
            yield from _hazard_markdown(hazard)
        if not need.hazards:
            yield "\nNo classified area is declared: no marking is asked for.\n"
        points = purchase.open_points(need)
        if points:
            yield "\n### Open points\n\n"
            yield from (f"- [ ] {escape(point)}\n" for point in points)
        if purchase.no_material(need):
            yield f"\n{escape(purchase.no_material(need))}\n"
        for exposure in purchase.notable(need):
            yield from _exposure_markdown(exposure)
        yield "\n"
    yield f"{escape(purchase.RULES_LEFT)}\n\n{escape(purchase.DEFERS)}\n"


def _hazard_markdown(hazard: "HazardNeed") -> Iterator[str]:
    yield f"\n### {escape(hazard.hazard.capitalize())}: {escape('; '.join(hazard.area))}\n\n"
    for label, text in purchase.surface(hazard):
        yield f"- {label}: {escape(text)}\n"
    for text in purchase.evidence(hazard):
        yield f"- with: {escape(text)}\n"
    for system, markings in purchase.by_system(hazard):
        yield f"\nMarked, {escape(system)}, with one of:\n\n"
        yield from (f"- {escape(marking)}\n" for marking in markings)


def _exposure_markdown(exposure: "ExposureNeed") -> Iterator[str]:
    yield f"\n### Materials, {escape(exposure.exposure)}\n\n"
    if exposure.unknown:
        yield f"No data: {escape(', '.join(exposure.unknown))}; no material can be named.\n"
        return
    yield "| fitness | why | materials |\n| --- | --- | --- |\n"
    for label, suits in purchase.fitness(exposure):
        for condition, families in purchase.by_condition(suits):
            yield f"| {label} | {escape(condition)} | {escape('; '.join(families))} |\n"
    yield f"\n{exposure.no_data} more materials have no data for all chemicals here.\n"
