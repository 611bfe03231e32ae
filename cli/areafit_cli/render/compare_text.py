"""A comparison of two lists in plain text."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit_cli.render import compare_words as words

if TYPE_CHECKING:
    from areafit.answers.compare import Comparison, SubjectChange
    from areafit.findings.report import BomReport
    from areafit_cli.render.paper import Paper


def lines(
    found: "Comparison", reports: "tuple[BomReport, BomReport]", paper: "Paper"
) -> Iterator[str]:
    """Sums first, then every subject that differs."""
    yield from paper.labelled("old", words.name(reports[0]), 0, 5)
    yield from paper.labelled("new", words.name(reports[1]), 0, 5)
    yield f"\nGATE {paper.paint(found.old_gate)} → {paper.paint(found.new_gate)}\n"
    totals = [row for row in words.totals(found) if row[0] != "gate"]
    column = 2 + max(len(label) for label, _, _ in totals)
    for label, old, new in totals:
        both = old if old == new else f"{old} → {new}"
        yield from paper.labelled(label, both, 2, column)
    yield paper.heading("Changes")
    if not found.subjects:
        yield f"{words.NO_CHANGE}\n"
    for change in found.subjects:
        yield from _subject(change, paper)


def _subject(change: "SubjectChange", paper: "Paper") -> Iterator[str]:
    yield "\n"
    title = f"{words.subject(change)}: {words.verdicts(change.old, change.new)}"
    yield from paper.wrap(title)
    if change.old is None or change.new is None:
        return
    for label, changes in (("fact", change.facts), ("requires", change.requirements)):
        for each in changes:
            yield from paper.labelled(label, words.fact(each), 2, 10)
    for finding in change.findings:
        yield from paper.labelled("finding", words.finding(finding), 2, 10)
