"""`areafit part`: one part at one place, judged by the engine that judges lists, without a file."""

import os
import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

import areafit
from areafit.facts.evidence import EvidenceType
from areafit.verdict import Basis
from areafit.version import __version__
from areafit_cli import answers, choices, one_part, output, render, terminal
from areafit_cli.exits import Exit
from areafit_cli.render.look import Look
from areafit_cli.render.run import Run, summarise

if TYPE_CHECKING:
    from areafit import Tables
    from areafit.findings.report import BomReport

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
    documents = (
        (EvidenceType.LISTING, listing),
        (EvidenceType.CERTIFICATE, certificate),
        (EvidenceType.DECLARATION, declaration),
        (EvidenceType.CONTROL_DRAWING, control_drawing),
        (EvidenceType.ASSESSMENT, assessment),
    )
    bom = one_part.build(
        one_part.Stated(
            code=code,
            edition=edition,
            area=tuple(area or ()),
            substances=tuple(substance or ()),
            layer=layer,
            ambient=ambient,
            document=document,
            chemicals=tuple(chemical or ()),
            markings=tuple(marking or ()),
            kinds=tuple(kind or ()),
            rated_ambient=rated_ambient,
            surface_temperature=surface_temperature,
            ingress=ingress,
            evidence=tuple((kind_, text) for kind_, texts in documents for text in texts or ()),
            materials=tuple(material or ()),
            exposures=tuple(exposure or ()),
            materials_complete=materials_complete or None,
            no_contacts=no_contacts,
            electrical_content=electrical_content,
        )
    )
    options = choices.options(
        only=(), skip=(), accept_unproven=accept_unproven or (), least_basis=least_basis, as_of=None
    )
    tables = areafit.Tables.shipped()
    report = areafit.judge(bom, tables, options)
    width = terminal.width(sys.stdout, os.environ)
    look = Look(width, terminal.colours(sys.stdout, os.environ), quiet)
    output.write(_whole(report, tables, format_.value, look))
    passed = exit_zero or report.passes
    raise typer.Exit(Exit.PASSED if passed else Exit.FAILED)


def _whole(report: "BomReport", tables: "Tables", kind: str, look: Look) -> Iterator[str]:
    run = Run(__version__, tables.digest, (summarise(report),))
    shape = render.find(kind)
    yield from shape.head(run, look)
    yield from shape.body(report, look)
    yield from shape.tail(run, look)
