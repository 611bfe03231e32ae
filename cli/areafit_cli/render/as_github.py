"""Workflow commands that a GitHub job turns into annotations; flags first, a summary line last."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.subjects import open_findings
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.findings.report import BomReport
    from areafit_cli.render import Run, Style

_COMMAND = {Verdict.FLAG: "error", Verdict.UNPROVEN: "warning"}


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """What could not be read."""
    for error in run.errors:
        place = _properties(error.position, "input")
        yield f"::error {place}::{_data(f'{error.message}; {error.remedy}')}\n"


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """Open findings of one list. Only the first ten of a kind are shown, so flags come first."""
    found = list(open_findings(report))
    for verdict, command in _COMMAND.items():
        for subject, finding in found:
            if finding.verdict is verdict:
                place = _properties(finding.position, finding.rule.id)
                yield f"::{command} {place}::{_data(wording.described(subject, finding))}\n"
    for outcome in wording.void_waivers(report):
        place = _properties(outcome.waiver.position, "waiver")
        yield f"::notice {place}::{_data(wording.waiver_words(outcome))}\n"


def _properties(at: "Position", title: str) -> str:
    line, column = max(at.line, 1), max(at.column, 1)
    return f"file={_property(at.file)},line={line},col={column},title={_property(title)}"


def _data(text: str) -> str:
    """A message in which nothing can end the command or start another."""
    return clean(text).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """One line that sums up the run and is not cut off."""
    total = sum(bom.counts.total for bom in run.boms)
    gates = ", ".join(f"{bom.path} {bom.gate}" for bom in run.boms)
    parts, lists = wording.counted(total, "part"), wording.counted(len(run.boms), "list")
    summed = f"{parts} in {lists}. {gates}." if gates else "No list judged."
    said = " ".join((summed, *wording.notices(run), CAUTIONS[1]))
    yield f"::notice title={_property(f'areafit gate {run.gate}')}::{_data(said)}\n"


FORMAT = Format(head=head, body=body, tail=tail)
