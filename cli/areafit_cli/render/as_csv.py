"""The compliance matrix: one line a requirement judged, passes too, for a spreadsheet."""

import csv
import io
from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers import register
from areafit.findings.cautions import CAUTIONS
from areafit.pattern import pattern
from areafit_cli.render import Format, wording
from areafit_cli.render.subjects import NamedReport, subjects
from areafit_cli.safe_text import clean, obeyed

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding
    from areafit_cli.render import Run, Style

_COLUMNS = (
    "list",
    "subject",
    "name",
    "words",
    "alternate",
    "location",
    "component",
    "rule",
    "verdict",
    "reason",
    "message",
    "required",
    "found",
    "to_pass",
    "clause",
    "sources",
    "basis",
    "answer_by",
    "waiver",
    "fingerprint",
    "file",
    "line",
    "column",
)


def head(_run: "Run", _style: "Style") -> Iterator[str]:
    """The names of the columns."""
    yield _line(dict(zip(_COLUMNS, _COLUMNS, strict=True)))


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """Every requirement of one list, its gate, and its waivers that do not hold."""
    for subject in subjects(report):
        for finding in subject.report.findings():
            yield _line({"list": report.bom.name, **_cells(subject, finding)})
    yield _line(
        {
            "list": report.bom.name,
            "subject": "gate",
            "name": report.bom.assembly.number,
            "verdict": report.gate,
            "message": f"Scope {wording.scope(report) or report.scope}.",
        }
    )
    for outcome in wording.void_waivers(report):
        position = outcome.waiver.position
        yield _line(
            {
                "list": report.bom.name,
                "subject": "waiver",
                "name": f"{outcome.waiver.subject.value} {outcome.waiver.name}",
                "rule": outcome.waiver.rule,
                "verdict": outcome.state.value,
                "message": wording.waiver_words(outcome),
                "waiver": wording.granted(outcome.waiver),
                "fingerprint": outcome.waiver.fingerprint,
                "file": position.file,
                "line": str(position.line or ""),
                "column": str(position.column or ""),
            }
        )


def _cells(subject: NamedReport, finding: "Finding") -> dict[str, str]:
    position = finding.position
    return {
        "subject": subject.kind,
        "name": subject.name,
        "words": subject.words,
        "alternate": wording.alternate(subject.report, finding.path),
        "location": finding.location or "",
        "component": finding.component or "",
        "rule": finding.rule.id,
        "verdict": finding.verdict.value,
        "reason": finding.reason.value if finding.reason else "",
        "message": finding.message,
        "required": finding.required,
        "found": finding.found,
        "to_pass": finding.remedy,
        "clause": finding.clause,
        "sources": "; ".join(finding.sources),
        "basis": finding.basis.value if finding.basis else "",
        "answer_by": finding.answer_by.value,
        "waiver": wording.granted(finding.waiver) if finding.waiver else "",
        "fingerprint": finding.fingerprint,
        "file": position.file,
        "line": str(position.line or ""),
        "column": str(position.column or ""),
    }


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """What could not be read, the gate of the run, remarks and cautions."""
    for error in run.errors:
        yield _line(
            {
                "list": error.position.file,
                "subject": "input",
                "message": error.message,
                "to_pass": error.remedy,
                "file": error.position.file,
                "line": str(error.position.line or ""),
                "column": str(error.position.column or ""),
            }
        )
    yield _line({"subject": "run", "verdict": run.gate, "message": " ".join(wording.notices(run))})
    for caution in CAUTIONS:
        yield _line({"subject": "caution", "message": caution})


def _line(cells: dict[str, str]) -> str:
    stream = io.StringIO()
    row = [inert(cells.get(name, "")) for name in _COLUMNS]
    csv.writer(stream, lineterminator="\r\n").writerow(row)
    return stream.getvalue()


_NUMBER = pattern(r"[+-]?\d+(\.\d+)?")


def inert(cell: str) -> str:
    """A cell that a spreadsheet will not take for a formula; numbers stay numbers.

    Where semicolons part cells, a formula could stand behind one, so it is made inert there too.
    """
    text = clean(cell)
    if _NUMBER.fullmatch(text):
        return text
    safe = register.inert(text)
    return (
        f"'{safe}" if obeyed(safe) else safe
    )  # its first cell begins a row, which a log may print


FORMAT = Format(head=head, body=body, tail=tail)
