"""One part at one place, judged by the engine that judges lists: the work of `areafit part`."""

import os
import sys
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import areafit
from areafit.facts.evidence import EvidenceType
from areafit.verdict import Basis
from areafit.version import __version__
from areafit_cli import choices, one_part, printing, render, terminal
from areafit_cli.alone import alone
from areafit_cli.exits import Exit
from areafit_cli.render.look import Look
from areafit_cli.render.run import Run, summarise

if TYPE_CHECKING:
    from areafit import Tables
    from areafit.findings.report import BomReport

Strings = Sequence[str]


def answer(
    *,
    marking: Strings = (),
    area: Strings = (),
    substance: Strings = (),
    chemical: Strings = (),
    ambient: str | None = None,
    layer: str | None = None,
    document: str | None = None,
    code: str | None = None,
    edition: str | None = None,
    kind: Strings = (),
    material: Strings = (),
    exposure: Strings = (),
    materials_complete: bool = False,
    no_contacts: bool = False,
    rated_ambient: str | None = None,
    surface_temperature: str | None = None,
    ingress: str | None = None,
    electrical_content: str | None = None,
    entries: str | None = None,
    device: str | None = None,
    bonded: bool = False,
    listing: Strings = (),
    certificate: Strings = (),
    declaration: Strings = (),
    control_drawing: Strings = (),
    assessment: Strings = (),
    accept_unproven: Strings = (),
    least_basis: str = Basis.MEMORY.value,
    quiet: bool = False,
    exit_zero: bool = False,
    format_: str = "text",
) -> Exit:
    """Judge the part, print the report and return the status of the gate.

    Raises:
        CallError: something stated cannot be read.
    """
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
            area=tuple(area),
            substances=tuple(substance),
            layer=layer,
            ambient=ambient,
            document=document,
            chemicals=tuple(chemical),
            markings=tuple(marking),
            kinds=tuple(kind),
            rated_ambient=rated_ambient,
            surface_temperature=surface_temperature,
            ingress=ingress,
            evidence=tuple((type_, text) for type_, texts in documents for text in texts),
            materials=tuple(material),
            exposures=tuple(exposure),
            materials_complete=materials_complete or None,
            no_contacts=no_contacts,
            electrical_content=electrical_content,
            entries=entries,
            device=device,
            bonded=bonded or None,
        )
    )
    options = choices.options(
        only=(),
        skip=(),
        accept_unproven=accept_unproven,
        least_basis=Basis(least_basis),
        as_of=None,
    )
    tables = areafit.Tables.shipped()
    report = alone(areafit.judge(bom, tables, options))
    width = terminal.width(sys.stdout, os.environ)
    look = Look(width, terminal.colours(sys.stdout, os.environ), quiet, brief=True)
    printing.write(_whole(report, tables, format_, look))
    return Exit.PASSED if exit_zero or report.passes else Exit.FAILED


def _whole(report: "BomReport", tables: "Tables", kind: str, look: Look) -> Iterator[str]:
    run = Run(__version__, tables.digest, (summarise(report),))
    shape = render.find(kind)
    yield from shape.head(run, look)
    yield from shape.body(report, look)
    yield from shape.tail(run, look)
