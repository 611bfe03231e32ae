"""The compliance matrix: one line a requirement judged, passes too, for a spreadsheet."""

import csv
import io
from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit_cli.render import Format
from areafit_cli.render.walk import subjects
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_COLUMNS = (
    "list",
    "subject",
    "name",
    "words",
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
    "fingerprint",
    "file",
    "line",
    "column",
)


def head(_run: "Run", _look: "Look") -> Iterator[str]:
    """The names of the columns."""
    yield _line(_COLUMNS)


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """Every requirement of one list."""
    for subject in subjects(report):
        for finding in subject.report.findings():
            position = finding.position
            yield _line(
                (
                    report.bom.name,
                    subject.kind,
                    subject.name,
                    subject.words,
                    finding.location or "",
                    finding.component or "",
                    finding.rule.id,
                    finding.verdict.value,
                    finding.reason.value if finding.reason else "",
                    finding.message,
                    finding.required,
                    finding.found,
                    finding.remedy,
                    finding.clause,
                    "; ".join(finding.sources),
                    finding.basis.value if finding.basis else "",
                    finding.answer_by.value,
                    finding.fingerprint,
                    position.file,
                    str(position.line),
                    str(position.column),
                )
            )


def _line(cells: tuple[str, ...]) -> str:
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\r\n").writerow([inert(cell) for cell in cells])
    return stream.getvalue()


def inert(cell: str) -> str:
    """A cell that a spreadsheet will not take for a formula."""
    text = clean(cell)
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text


def tail(run: "Run", _look: "Look") -> Iterator[str]:
    """The gate and the cautions, as lines of their own kind."""
    empty = ("",) * (len(_COLUMNS) - 3)
    yield _line(("", "gate", run.gate, *empty))
    for caution in CAUTIONS:
        yield _line(("", "caution", caution, *empty))


FORMAT = Format(head=head, body=body, tail=tail)
