"""Workflow commands that a GitHub job turns into annotations; flags first, a summary line last."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.causes import CauseKind, causes
from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
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
    """Each cause of one list, where it first stands. Only the first ten of a kind are shown."""
    for cause in causes(report):
        rules = dict.fromkeys(bearer.finding.rule.id for bearer in cause.bearers)
        place = _properties(cause.first.position, " ".join(rules))
        said = dict.fromkeys((cause.what, cause.first.message))
        who = f"{cause.who.value} {cause.vendor}" if cause.vendor else cause.who.value
        text = f"{cause.kind.value}: {' '.join(said)} For {wording.subjects_of(cause)}. "
        text += cause.closes if cause.kind is CauseKind.CHANGE else f"Asked: {who}."
        yield f"::{_COMMAND[cause.first.verdict]} {place}::{_data(text)}\n"
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
