"""A finding in plain text: the same labels in the same order wherever one is told."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Basis, Verdict
from areafit_cli.render import remarks

if TYPE_CHECKING:
    from areafit.findings.report import Finding
    from areafit_cli.render.paper import Paper

_COLUMN = 10


def details(
    finding: "Finding", paper: "Paper", indent: int, see: str, *, terse: bool = False
) -> Iterator[str]:
    """All but the message. What would pass, and who knows, is told of what does not.

    `terse` leaves out what was required and found where the message says that nothing is stated.
    """
    met = finding.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE)
    left = terse and finding.found == "not stated"
    rows = (
        ("required", "" if left else finding.required),
        ("found", "" if left else finding.found),
        ("to pass", "" if met else finding.remedy or finding.rule.remedy),
        ("clause", finding.clause),
        ("source", "; ".join(finding.sources)),
        ("basis", _basis(finding.basis)),
        ("waiver", remarks.granted(finding.waiver) if finding.waiver else ""),
        ("ask", "" if met else finding.answer_by.value),
        ("see", see),
    )
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, indent, _COLUMN)


def _basis(basis: Basis | None) -> str:
    match basis:
        case Basis.MEMORY:
            return "memory: recalled from the source, not read again"
        case Basis.JUDGEMENT:
            return "judgement: reasoned, or carried over from a similar case"
        case _:
            return ""
