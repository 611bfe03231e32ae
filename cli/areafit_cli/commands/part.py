"""`areafit part` as typer tells it; `query` reads the usual call without typer."""

from enum import Enum
from typing import Annotated

import typer

from areafit.verdict import Basis
from areafit_cli import query
from areafit_cli.options import AnswerFormat, Strings, flag, value

EXAMPLE = (
    'areafit part "Ex db IIC T4 Gb" --area "Zone 1, IIB, T3" --document "AC-014 rev B" '
    '--substance toluene --chemical none --ambient "5..40 °C" '
    '--certificate "IECEx QQQ 20.0001" --entries none --bonded --material 316L '
    "--exposure room --materials-complete --no-contacts"
)
_PART, _PLACE, _EVIDENCE, _GATE = "The part", "The place", "What is on file", "Gate and report"


def _many(help_: str, panel: str, metavar: str = "TEXT") -> typer.models.OptionInfo:
    return value(f"{help_} May be repeated.", panel, metavar)


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
    ambient: Annotated[str | None, value("Air at the place, 5..40 °C.", _PLACE)] = None,
    layer: Annotated[str | None, value("Dust layer to be expected, 5 mm.", _PLACE)] = None,
    document: Annotated[str | None, value("The area classification document.", _PLACE)] = None,
    code: Annotated[
        str | None,
        value("NEC, IEC or ATEX. Without it NEC where an area names a Class, else IEC.", _PLACE),
    ] = None,
    edition: Annotated[str | None, value("Edition of that code.", _PLACE)] = None,
    kind: Annotated[Strings, _many("electrical, mechanical, structural …", _PART)] = None,
    material: Annotated[Strings, _many("A material of the part.", _PART)] = None,
    exposure: Annotated[
        Strings, _many("Of the n-th material, or of all: immersed, splash, fume …", _PART)
    ] = None,
    materials_complete: Annotated[
        bool, flag("--materials-complete", "All are named.", _PART)
    ] = False,
    no_contacts: Annotated[
        bool,
        flag("--no-contacts", "It touches no other metal.", _PART),
    ] = False,
    rated_ambient: Annotated[str | None, value("Catalogue range, -25..70 °C.", _PART)] = None,
    surface_temperature: Annotated[str | None, value("Hottest surface, 75 °C.", _PART)] = None,
    ingress: Annotated[str | None, value("Enclosure rating, IP67.", _PART)] = None,
    electrical_content: Annotated[
        str | None, value("What is electrical in a mechanical part, or none.", _PART)
    ] = None,
    entries: Annotated[
        str | None, value("none: the enclosure has no opening for a cable.", _PART)
    ] = None,
    device: Annotated[
        str | None, value("What an electrical part is: luminaire, junction box …", _PART)
    ] = None,
    bonded: Annotated[bool, flag("--bonded", "Its metal is bonded.", _PART)] = False,
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
        Basis, value("The weakest basis of a pass.", _GATE, None)
    ] = Basis.MEMORY,
    quiet: Annotated[bool, flag("--quiet", "Open points only.", _GATE)] = False,
    exit_zero: Annotated[
        bool,
        flag("--exit-zero", "Status 0 for a failed gate too.", _GATE),
    ] = False,
    format_: Annotated[AnswerFormat, value("", _GATE, None, name="--format")] = AnswerFormat.TEXT,
) -> None:
    """Judge one part at one place. What is left out is not stated, and so unproven."""
    stated = {
        name: given.value if isinstance(given, Enum) else given
        for name, given in locals().items()
        if given is not None
    }
    raise typer.Exit(query.answer(**stated))
