"""`areafit loop`: one intrinsically safe circuit by its values."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

import areafit
from areafit import registry
from areafit.findings.cautions import CAUTIONS
from areafit.findings.report import Gate
from areafit.rule import Subject
from areafit.verdict import Basis, Verdict
from areafit_cli import answers, choices, one_loop
from areafit_cli.examples import EXAMPLES
from areafit_cli.exits import Exit
from areafit_cli.faults import CallError
from areafit_cli.render import cautions_text
from areafit_cli.render.finding_text import details
from areafit_cli.shared_options import ExitZeroOption, LeastBasisOption

if TYPE_CHECKING:
    from areafit.findings.report import Finding, SubjectReport

Strings = list[str] | None
_CIRCUIT, _PLACE, _REPORT = "The circuit", "The place", "Report"
_SOURCE = "What comes out at most: 'Uo 28 V, Io 93 mA, Po 0.65 W, Co 83 nF, Lo 4.2 mH, Um 250 V'."
_DEVICE = "What may go in: 'Ui 30 V, Ii 100 mA, Pi 1 W, Ci 5 nF, Li 10 µH'. May be repeated."
_CABLE = "'200 m, 180 pF/m, 0.7 µH/m', with L/R in µH/Ω, or '200 m, default'."
_OF_LISTS = "loop-items"  # that a circuit names lines of the list; here there is none
_PLATE = "May be repeated; the n-th for the n-th, one for all."


def command(
    *,
    source: Annotated[
        Strings, typer.Option(metavar="VALUES", help=_SOURCE, rich_help_panel=_CIRCUIT)
    ] = None,
    device: Annotated[
        Strings, typer.Option(metavar="VALUES", help=_DEVICE, rich_help_panel=_CIRCUIT)
    ] = None,
    cable: Annotated[
        str | None, typer.Option(metavar="VALUES", help=_CABLE, rich_help_panel=_CIRCUIT)
    ] = None,
    group: Annotated[
        str | None,
        typer.Option(
            metavar="GROUP", help="That Co and Lo are stated for.", rich_help_panel=_CIRCUIT
        ),
    ] = None,
    source_marking: Annotated[
        Strings,
        typer.Option(
            metavar="TEXT", help=f"Nameplate of the source. {_PLATE}", rich_help_panel=_CIRCUIT
        ),
    ] = None,
    device_marking: Annotated[
        Strings,
        typer.Option(
            metavar="TEXT", help=f"Nameplate of a device. {_PLATE}", rich_help_panel=_CIRCUIT
        ),
    ] = None,
    area: Annotated[
        Strings,
        typer.Option(
            metavar="TEXT", help="Where the devices stand. May be repeated.", rich_help_panel=_PLACE
        ),
    ] = None,
    source_area: Annotated[
        Strings,
        typer.Option(
            metavar="TEXT", help="Where the source stands: unclassified.", rich_help_panel=_PLACE
        ),
    ] = None,
    substance: Annotated[
        Strings,
        typer.Option(
            metavar="TEXT",
            help="Gas, vapour or dust at the devices. May be repeated.",
            rich_help_panel=_PLACE,
        ),
    ] = None,
    code: Annotated[
        str | None,
        typer.Option(
            metavar="CODE",
            help="NEC, IEC or ATEX. Without it NEC where an area names a Class, else IEC.",
            rich_help_panel=_PLACE,
        ),
    ] = None,
    least_basis: LeastBasisOption = Basis.MEMORY,
    exit_zero: ExitZeroOption = False,
    format_: Annotated[
        answers.AnswerFormat, typer.Option("--format", rich_help_panel=_REPORT)
    ] = answers.AnswerFormat.TEXT,
) -> None:
    """Compare source, devices and cable of one circuit. What is left out is not stated.

    Status 0 where everything passes, 1 where something is flagged or unproven.
    """
    stated = one_loop.Stated(
        sources=tuple(source or ()),
        devices=tuple(device or ()),
        cable=cable,
        group=group,
        area=tuple(area or ()),
        source_area=tuple(source_area or ()),
        substances=tuple(substance or ()),
        source_markings=tuple(source_marking or ()),
        device_markings=tuple(device_marking or ()),
        code=code,
    )
    if not stated.sources and not stated.devices:
        raise CallError(f"state --source and --device, such as: {EXAMPLES['loop']}")
    bom = one_loop.build(stated)
    options = choices.options(
        only=[rule.id for rule in registry.on(Subject.LOOP) if rule.id != _OF_LISTS],
        skip=(),
        accept_unproven=(),
        least_basis=least_basis,
        as_of=None,
    )
    (report,) = areafit.judge(bom, areafit.Tables.shipped(), options).loops
    if format_ is answers.AnswerFormat.JSON:
        answers.say_json(_data(report))
    else:
        answers.say(_lines(report, stated))
    passes = report.verdict.passes or exit_zero
    raise typer.Exit(Exit.PASSED if passes else Exit.FAILED)


def _gate(report: "SubjectReport") -> str:
    return Gate.word(passes=report.verdict.passes)


def _data(report: "SubjectReport") -> dict[str, object]:
    """The circuit in the vocabulary of the JSON report."""
    return {
        "code": report.bom.law,
        "verdict": report.verdict,
        "gate": _gate(report),
        "findings": [_finding(finding) for finding in report.findings()],
        "cautions": CAUTIONS,
    }


def _finding(finding: "Finding") -> dict[str, object]:
    return {
        "rule": finding.rule.id,
        "verdict": finding.verdict,
        "about": finding.position.file,
        "message": finding.message,
        "required": finding.required,
        "found": finding.found,
        "clause": finding.clause,
        "sources": finding.sources,
        "basis": finding.basis,
        "reason": finding.reason,
        "remedy": finding.remedy,
        "answer_by": finding.answer_by,
    }


def _lines(report: "SubjectReport", stated: one_loop.Stated) -> Iterator[str]:
    paper = answers.paper()
    yield f"GATE {paper.paint(_gate(report))} under {report.bom.law.value}\n"
    findings = sorted(report.findings(), key=lambda f: list(Verdict).index(f.verdict))
    for finding in findings:
        reason = f" ({finding.reason.value})" if finding.reason else ""
        yield f"\n{paper.paint(finding.verdict.value)} {finding.rule.id}{reason}\n"
        yield from paper.wrap(finding.message, "  ", "  ")
        yield from details(finding, paper, 2, _see(finding, stated))
    yield from cautions_text.lines(paper, brief=True)


def _see(finding: "Finding", stated: one_loop.Stated) -> str:
    """The option behind a finding, and which others were not given where a fact is missing."""
    if finding.verdict.passes:
        return ""
    missing = one_loop.left_out(finding.path, stated) if finding.reason else []
    return finding.position.file + (f"; not given: {', '.join(missing)}" if missing else "")
