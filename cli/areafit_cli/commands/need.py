"""`areafit need`: what to write into the purchase specification of a place."""

from enum import Enum
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit.answers.need import Need, need
from areafit.facts.part import Exposure
from areafit.values import replace
from areafit.verdict import Basis
from areafit_cli import answers, choices, config_option, judging, one_list, one_part
from areafit_cli.faults import CallError, unknown
from areafit_cli.shared_options import TablesOption

if TYPE_CHECKING:
    from areafit.facts.bom import Bom

_PLACE = "A place without a list"
Strings = list[str] | None


class NeedFormat(Enum):
    """The formats of a purchase specification."""

    TEXT = "text"
    JSON = "json"
    MARKDOWN = "markdown"


def _option(help_: str, metavar: str = "TEXT") -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(
        metavar=metavar, help=help_, rich_help_panel=_PLACE
    )
    return option


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
        bool, typer.Option("--all-exposures", help="Materials for every exposure.")
    ] = False,
    area: Annotated[Strings, _option("As the classification document writes it.")] = None,
    substance: Annotated[Strings, _option("Gas, vapour or dust present, or none.")] = None,
    chemical: Annotated[
        Strings, _option('What corrodes: "sodium hydroxide, 2 %, 60 °C", or none.')
    ] = None,
    ambient: Annotated[str | None, _option("Air at the place, 5..40 °C.")] = None,
    layer: Annotated[str | None, _option("Dust layer to be expected, 5 mm.")] = None,
    ingress: Annotated[str | None, _option("Least enclosure rating, IP65.")] = None,
    document: Annotated[str | None, _option("The area classification document.")] = None,
    code: Annotated[str | None, _option("NEC, IEC or ATEX.")] = None,
    edition: Annotated[str | None, _option("Edition of that code.")] = None,
    format_: Annotated[NeedFormat, typer.Option("--format")] = NeedFormat.TEXT,
    tables: TablesOption = None,
    no_config: config_option.NoConfigOption = False,
    config_: config_option.ConfigOption = None,
) -> None:
    """Tell what a place asks of what is bought for it: markings, enclosure, materials."""
    del no_config, config_
    stated = one_part.Stated(
        code=code,
        edition=edition,
        area=tuple(area or ()),
        substances=tuple(substance or ()),
        layer=layer,
        ambient=ambient,
        document=document,
        chemicals=tuple(chemical or ()),
        kinds=("structural",),
    )
    if bom is None and not area:
        raise CallError("name a list, or state a place by --area and what is present in it")
    if bom is not None and (stated != one_part.Stated(kinds=("structural",)) or ingress):
        raise CallError("a list states its places itself; give either a list or --area")
    known = one_list.read(bom) if bom is not None else _place(stated, ingress)
    asked = tuple(Exposure) if all_exposures else tuple(exposure or ())
    found = _needs(known, location, tables, asked)
    _say(found, format_)


def _place(stated: one_part.Stated, ingress: str | None) -> "Bom":
    built = one_part.build(stated)
    places = {name: replace(place, ingress=ingress) for name, place in built.places.items()}
    return replace(built, places=places)


def _needs(
    bom: "Bom", location: str | None, tables: str | None, exposures: tuple[Exposure, ...]
) -> list[Need]:
    """The needs of the places, derived as the report derives them."""
    if location is not None and location not in bom.places:
        raise unknown("location", location, bom.places)
    options = choices.options(
        only=(), skip=(), accept_unproven=(), least_basis=Basis.MEMORY, as_of=None
    )
    known = judging.tables(judging.read_overlays(tables), options.as_of)
    report = areafit.judge(bom, known, options)
    return [
        need(place.demands, exposures or _used(bom, place.name))
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


def _say(found: list[Need], format_: NeedFormat) -> None:
    match format_:
        case NeedFormat.JSON:
            answers.say_json({"locations": [answers.plain(one) for one in found]})
        case NeedFormat.MARKDOWN:
            from areafit_cli.render import need_markdown  # noqa: PLC0415 - one format is used

            answers.say(need_markdown.lines(found))
        case NeedFormat.TEXT:
            from areafit_cli.render import need_text  # noqa: PLC0415 - as above

            answers.say(need_text.lines(found, answers.paper()))
