"""`areafit need`: what to write into the purchase specification of a place."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.answers.need import Need, part_needs
from areafit.answers.need import need as need_of
from areafit.facts.part import Exposure
from areafit.facts.quantity import number as plain
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
from areafit_cli.render import purchase, wording
from areafit_cli.render.as_markdown import escape
from areafit_cli.render.json_text import fields

if TYPE_CHECKING:
    from areafit.answers.need import ExposureNeed, HazardNeed, Suit
    from areafit.facts.bom import Bom
    from areafit.facts.part import Part
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
    vendor: Annotated[
        str | None,
        typer.Option(metavar="NAME", help="Text for the order of what this vendor delivers."),
    ] = None,
    full: Annotated[
        bool, flag("--full", "Every marking and material, with clauses and reasons.")
    ] = False,
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
    if vendor is not None and bom is None:
        raise CallError("--vendor needs the list whose lines name it")
    known = lists.read(bom) if bom is not None else _place(stated, ingress)
    asked = tuple(Exposure) if all_exposures else tuple(exposure or ())
    found = _needs(known, location, tables, asked)
    match format_:
        case PageFormat.JSON:
            terminal.write_json({"locations": [fields(one) for one in found]})
        case PageFormat.MARKDOWN:
            terminal.write(_markdown(found))
        case PageFormat.TEXT:
            paper = terminal.paper()
            if vendor is not None:
                terminal.write(_order(found, known, vendor, paper))
            else:
                terminal.write(_text(found, paper) if full else _short(found, paper))


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
    asked = part_needs(bom, known, options)
    return [
        need_of(place.demands, exposures or _used(bom, place.name), asked.get(place.name, ()))
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


# In short: what to write into an order, at most forty lines a place

_MARKINGS, _EACH, _LINES = 3, 4, 40
_AVOID = 2  # of a class: what else to avoid is counted


def _short(needs: Iterable[Need], paper: "Paper") -> Iterator[str]:
    """One block a place, what suits before what to avoid."""
    for place, need in enumerate(needs):
        if place:
            yield "\n"
        head = [*_place_lines(need, paper), *_sorts(need, paper)]
        materials = list(_materials(need, paper))
        if len(head) + len(materials) > _LINES:  # what waits for a condition stands in --full
            materials = list(_materials(need, paper, limited=False))
        yield from _capped([*head, *materials], need, paper)
    yield "\n"
    yield from paper.wrap(purchase.DEFERS)


def _capped(lines: list[str], need: Need, paper: "Paper") -> Iterator[str]:
    if len(lines) <= _LINES:
        yield from lines
        return
    yield from lines[: _LINES - 1]
    left = len(lines) - _LINES + 1
    yield from paper.wrap(f"{left} more lines: areafit need … {need.place} --full", "  ", "  ")


def _place_lines(need: Need, paper: "Paper") -> Iterator[str]:
    yield from paper.wrap(paper.paint(purchase.title(need), "title"))
    edition = need.edition or "edition not stated"
    words = (f"{need.law} {edition}", need.area, ", ".join(need.substances), need.document)
    yield from paper.labelled("for", " · ".join(filter(None, words)), 2, _COLUMN)
    for label, text in purchase.liquids(need, method=False):
        yield from paper.labelled(label, text, 2, _COLUMN)
    for point in purchase.open_points(need):
        yield from paper.labelled("open", point, 2, _COLUMN)
    for hazard in need.hazards:
        yield from _markings(hazard, paper)
    if not need.hazards:
        yield "  No classified area is declared: no marking is asked for.\n"
    for label, text in purchase.facts(need):
        if label in ("ambient", "enclosure"):
            yield from paper.labelled(label, text, 2, _COLUMN)


def _markings(hazard: "HazardNeed", paper: "Paper") -> Iterator[str]:
    options = [option.text for option in hazard.options]
    for number, text in enumerate(options[:_MARKINGS]):
        lead = f"{hazard.hazard}: marked" if not number else "or"
        yield from paper.labelled(lead, text, 2, _COLUMN)
    if len(options) > _MARKINGS:
        yield from paper.labelled("", f"{len(options) - _MARKINGS} more by --full", 2, _COLUMN)
    for label, text in purchase.surface(hazard):
        if label == "surfaces":
            yield from paper.labelled(label, text, 2, _COLUMN)
    if hazard.options:
        yield from paper.labelled("with", "; ".join(purchase.evidence(hazard)), 2, _COLUMN)


def _sorts(need: Need, paper: "Paper") -> Iterator[str]:
    """Mechanical parts, fasteners, hoses and hand tools, a paragraph each."""
    if not need.hazards:
        return
    for each in need.parts:
        asks = "; ".join(map(wording.short, each.asks))
        yield from paper.wrap(asks, f"  {paper.paint(each.sort, 'title')}: ", "    ")


def _materials(need: Need, paper: "Paper", *, limited: bool = True) -> Iterator[str]:
    """What suits before what to avoid, usual materials first; exposures that agree are one."""
    if purchase.no_material(need):
        yield f"  {purchase.no_material(need)}\n"
        return
    alike: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for one in need.exposures:
        if one.unknown:
            text = f"no data: {', '.join(one.unknown)}; no material can be named"
            yield from paper.labelled(one.exposure, text, 2, _COLUMN)
            continue
        told = (
            ("suit", _few(one.suits)),
            ("limited", _few(one.limited) if limited else ""),
            ("avoid", _few(one.avoid, _AVOID)),
        )
        if any(names for _, names in told):
            alike.setdefault(told, []).append(one.exposure)
    for rows, exposures in alike.items():
        yield from paper.wrap(f"materials, {', '.join(exposures)}:", "  ", "  ")
        for label, names in rows:
            if names:
                yield from paper.labelled(label, names, 4, _COLUMN - 2)


def _few(suits: Iterable["Suit"], each: int = _EACH) -> str:
    """The most usual of each class of materials: `metals 304, 316L; plastics PP; and 20 more`."""
    classes: dict[str, dict[str, None]] = {}
    for suit in suits:
        name = suit.material.removesuffix(f" {suit.family}")
        classes.setdefault(_class_of(suit.family), {})[name] = None
    shown = {name: list(classes[name])[:each] for name in _CLASSES if name in classes}
    left = sum(map(len, classes.values())) - sum(map(len, shown.values()))
    told = [f"{name} {', '.join(names)}" for name, names in shown.items()]
    return "; ".join([*told, *([f"and {left} more"] if left else [])])


_CLASSES = ("metals", "plastics", "elastomers", "glass and ceramics")


def _class_of(family: str) -> str:
    if family.startswith("elastomer"):
        return "elastomers"
    if family in ("glass", "ceramic", "carbon"):
        return "glass and ceramics"
    plastic = ("thermoplastic", "fluoropolymer", "cable jacket", "composite", "carbon composite")
    return "plastics" if family in plastic else "metals"


def _order(needs: Iterable[Need], bom: "Bom", vendor: str, paper: "Paper") -> Iterator[str]:
    """Sentences for the order of what a vendor delivers, a block a place.

    Raises:
        CallError: no line names the vendor.
    """
    own = [part for part in bom.parts if part.vendor == vendor]
    if not own:
        raise unknown("vendor", vendor, {part.vendor for part in bom.parts if part.vendor})
    for need in needs:
        lines = [part for part in own if need.place in part.locations]
        if lines:
            kinds = {kind.value for part in lines for kind in part.equipment.kinds or ()}
            head = [f"Order to {vendor}, for {need.area or 'a place whose area is not stated'}:\n"]
            head += (text for part in lines for text in _ordered(part, paper))
            yield from _capped([*head, *_asked_of(need, kinds, paper)], need, paper)
            yield "\n"
    yield from paper.wrap(purchase.DEFERS)


def _ordered(part: "Part", paper: "Paper") -> Iterator[str]:
    amount = f"{plain(part.quantity)} × " if part.quantity is not None else ""
    words = ", ".join(word for word in (part.part_number, part.description) if word)
    yield from paper.wrap(f"{amount}{words} (item {part.item})", "  - ", "    ")


def _asked_of(need: Need, kinds: set[str], paper: "Paper") -> Iterator[str]:
    """What is asked of parts of these kinds, a sentence each."""
    electrical = bool(kinds & {"electrical", "unknown"})
    papers = ["a list of every material with its grade, seals, springs, grease, fasteners"]
    for hazard in need.hazards if electrical else ():
        options = [option.text for option in hazard.options][:_MARKINGS]
        yield from _sentence("The electrical parts are marked", "; or ".join(options), paper)
        papers = [*purchase.evidence(hazard), *papers]
    if "mechanical" in kinds and need.hazards:
        papers.insert(0, "the assessment of ignition hazards by its number")
    if need.ambient and need.hazards:
        yield from _sentence("They are certified for air of", need.ambient, paper)
    if need.ingress:
        yield from _sentence("Enclosures are at least", need.ingress, paper)
    wanted = {sort for kind in kinds for sort in _SORTS.get(kind, ())}
    for each in need.parts if need.hazards else ():
        for text in each.asks if each.sort in wanted else ():
            yield from _sentence(f"{each.sort.capitalize()}, {wording.short(text)}", "", paper)
    chemicals = ", ".join(need.chemicals)
    for said, exposures in _suiting(need):
        where = f"{', '.join(exposures)} of {chemicals}"
        yield from _sentence(f"Materials that suit ({where}):", said, paper)
    yield from _sentence("With the goods come:", "; ".join(papers), paper)


_SORTS = {
    "mechanical": ("mechanical parts", "hoses"),
    "structural": ("fasteners", "hoses"),
    "loose item": ("hand tools",),
}


def _suiting(need: Need) -> Iterable[tuple[str, list[str]]]:
    """Materials that suit, exposures that agree together."""
    found: dict[str, list[str]] = {}
    for exposure in purchase.notable(need):
        if exposure.suits:
            found.setdefault(_few(exposure.suits), []).append(exposure.exposure)
    return found.items()


def _sentence(lead: str, text: str, paper: "Paper") -> list[str]:
    return list(paper.wrap(f"{lead} {text}".strip().rstrip(".") + "."))


# As text


def _text(needs: Iterable[Need], paper: "Paper") -> Iterator[str]:
    """One block a place."""
    for place, need in enumerate(needs):
        if place:
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
        for each in need.parts if need.hazards else ():
            yield f"\n### {escape(each.sort.capitalize())}\n\n"
            yield from (f"- {escape(text)}\n" for text in each.asks)
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
