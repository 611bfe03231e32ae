"""`areafit part` as typer tells it; `quick` reads the usual call without typer."""

from enum import Enum
from typing import Annotated, Any

import typer

from areafit.verdict import Basis
from areafit_cli import answers, query

_PART, _PLACE, _EVIDENCE, _GATE = "The part", "The place", "What is on file", "Gate and report"
Strings = list[str] | None


def _many(help_: str, panel: str, metavar: str = "TEXT") -> Any:  # noqa: ANN401 - typer says so itself
    return typer.Option(metavar=metavar, help=f"{help_} May be repeated.", rich_help_panel=panel)


def _one(help_: str, panel: str, metavar: str = "TEXT") -> Any:  # noqa: ANN401 - typer says so itself
    return typer.Option(metavar=metavar, help=help_, rich_help_panel=panel)


def command(
    marking: Annotated[
        Strings, typer.Argument(metavar="[MARKING]...", help="As on the nameplate.")
    ] = None,
    *,
    area: Annotated[Strings, _many("As the classification document writes it.", _PLACE)] = None,
    substance: Annotated[Strings, _many("Gas, vapour or dust present, or none.", _PLACE)] = None,
    chemical: Annotated[
        Strings, _many('What corrodes: "sodium hydroxide, 2 %, 60 °C", or none.', _PLACE)
    ] = None,
    ambient: Annotated[str | None, _one("Air at the place, 5..40 °C.", _PLACE)] = None,
    layer: Annotated[str | None, _one("Dust layer to be expected, 5 mm.", _PLACE)] = None,
    document: Annotated[str | None, _one("The area classification document.", _PLACE)] = None,
    code: Annotated[
        str | None,
        _one("NEC, IEC or ATEX. Without it NEC where an area names a Class, else IEC.", _PLACE),
    ] = None,
    edition: Annotated[str | None, _one("Edition of that code.", _PLACE)] = None,
    kind: Annotated[Strings, _many("electrical, mechanical, structural …", _PART)] = None,
    material: Annotated[Strings, _many("A material of the part.", _PART)] = None,
    exposure: Annotated[
        Strings, _many("Of the n-th material, or of all: immersed, splash, fume …", _PART)
    ] = None,
    materials_complete: Annotated[
        bool, typer.Option("--materials-complete", help="All are named.", rich_help_panel=_PART)
    ] = False,
    no_contacts: Annotated[
        bool,
        typer.Option("--no-contacts", help="It touches no other metal.", rich_help_panel=_PART),
    ] = False,
    rated_ambient: Annotated[str | None, _one("Catalogue range, -25..70 °C.", _PART)] = None,
    surface_temperature: Annotated[str | None, _one("Hottest surface, 75 °C.", _PART)] = None,
    ingress: Annotated[str | None, _one("Enclosure rating, IP67.", _PART)] = None,
    electrical_content: Annotated[
        str | None, _one("What is electrical in a mechanical part, or none.", _PART)
    ] = None,
    entries: Annotated[
        str | None, _one("none: the enclosure has no opening for a cable.", _PART)
    ] = None,
    device: Annotated[
        str | None, _one("What an electrical part is: luminaire, junction box …", _PART)
    ] = None,
    bonded: Annotated[
        bool, typer.Option("--bonded", help="Its metal is bonded.", rich_help_panel=_PART)
    ] = False,
    listing: Annotated[Strings, _many("Number of a listing.", _EVIDENCE)] = None,
    certificate: Annotated[Strings, _many("Number of a certificate.", _EVIDENCE)] = None,
    declaration: Annotated[Strings, _many("Number of a declaration.", _EVIDENCE)] = None,
    control_drawing: Annotated[Strings, _many("Number of a control drawing.", _EVIDENCE)] = None,
    assessment: Annotated[
        Strings, _many("Number of an ignition hazard assessment.", _EVIDENCE)
    ] = None,
    accept_unproven: Annotated[
        Strings, _many("Let what this rule cannot prove pass.", _GATE, "RULE")
    ] = None,
    least_basis: Annotated[
        Basis, typer.Option(help="The weakest basis of a pass.", rich_help_panel=_GATE)
    ] = Basis.MEMORY,
    quiet: Annotated[
        bool, typer.Option("--quiet", help="Open points only.", rich_help_panel=_GATE)
    ] = False,
    exit_zero: Annotated[
        bool,
        typer.Option("--exit-zero", help="Status 0 for a failed gate too.", rich_help_panel=_GATE),
    ] = False,
    format_: Annotated[
        answers.AnswerFormat, typer.Option("--format", rich_help_panel=_GATE)
    ] = answers.AnswerFormat.TEXT,
) -> None:
    """Judge one part at one place. What is left out is not stated, and so unproven."""
    stated = {
        name: value.value if isinstance(value, Enum) else value
        for name, value in locals().items()
        if value is not None
    }
    raise typer.Exit(query.answer(**stated))
