"""A comparison of two lists in Markdown, for a merge request."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit_cli.render import compare_words as words
from areafit_cli.render.as_markdown import escape

if TYPE_CHECKING:
    from areafit.answers.compare import Comparison
    from areafit.findings.report import BomReport


def lines(found: "Comparison", reports: "tuple[BomReport, BomReport]") -> Iterator[str]:
    """A table of sums and one of subjects that differ."""
    old, new = map(words.name, reports)
    yield f"## {escape(old)} → {escape(new)}\n\n"
    yield "| | old | new |\n| --- | --- | --- |\n"
    for row in words.totals(found):
        yield f"| {' | '.join(map(escape, row))} |\n"
    if not found.subjects:
        yield f"\n{words.NO_CHANGE}\n"
        return
    yield "\n| subject | verdict | facts | requirements | findings |\n"
    yield "| --- | --- | --- | --- | --- |\n"
    for change in found.subjects:
        there = change.old is not None and change.new is not None
        cells = (
            words.subject(change),
            words.verdicts(change.old, change.new),
            "; ".join(map(words.fact, change.facts)) if there else "",
            "; ".join(map(words.fact, change.requirements)) if there else "",
            "; ".join(map(words.finding, change.findings)),
        )
        yield f"| {' | '.join(map(escape, cells))} |\n"
