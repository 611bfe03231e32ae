"""Workflow commands that a GitHub job turns into annotations; flags first, a summary line last."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format, remarks
from areafit_cli.render.walk import open_findings, told
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_COMMAND = {Verdict.FLAG: "error", Verdict.UNPROVEN: "warning"}


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """What could not be read."""
    for fault in run.faults:
        place = _properties(fault.path, fault.line, fault.column, "input")
        yield f"::error {place}::{_data(f'{fault.message}; {fault.remedy}')}\n"


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """Open findings of one list. Only the first ten of a kind are shown, so flags come first."""
    found = list(open_findings(report))
    for verdict, command in _COMMAND.items():
        for subject, finding in found:
            if finding.verdict is verdict:
                position = finding.position
                place = _properties(position.file, position.line, position.column, finding.rule.id)
                yield f"::{command} {place}::{_data(told(subject, finding))}\n"
    for outcome in remarks.void_of(report):
        position = outcome.waiver.position
        place = _properties(position.file, position.line, position.column, "waiver")
        yield f"::notice {place}::{_data(remarks.told(outcome))}\n"


def _properties(file: str, line: int, column: int, title: str) -> str:
    return (
        f"file={_property(file)},line={max(line, 1)},col={max(column, 1)},title={_property(title)}"
    )


def _data(text: str) -> str:
    """A message in which nothing can end the command or start another."""
    return clean(text).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def tail(run: "Run", _look: "Look") -> Iterator[str]:
    """One line that sums up the run and is not cut off."""
    total = sum(bom.counts.total for bom in run.boms)
    gates = ", ".join(f"{bom.path} {bom.gate}" for bom in run.boms)
    parts, lists = remarks.counted(total, "part"), remarks.counted(len(run.boms), "list")
    summed = f"{parts} in {lists}. {gates}." if gates else "No list judged."
    said = " ".join((summed, *remarks.of(run), CAUTIONS[1]))
    yield f"::notice title={_property(f'areafit gate {run.gate}')}::{_data(said)}\n"


FORMAT = Format(head=head, body=body, tail=tail)
