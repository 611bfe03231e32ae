"""The open points of a list in plain text: subject by subject, alike ones told once.

A long list has parts that agree in one finding and not in the next, so above `_EACH` parts every
finding is told once instead, with all whom it is about.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.report import PartReport, PlaceReport
from areafit.verdict import Verdict
from areafit_cli.render.alike import Entry, Gatherer, Wanted
from areafit_cli.render.finding_text import details
from areafit_cli.render.paper import Paper
from areafit_cli.render.points import Point, points
from areafit_cli.render.walk import alternate

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.findings.report import BomReport, Finding, SubjectReport

_INDENT, _COLUMN = 4, 10
_EACH = 200
_NOTHING_JUDGED = "No requirement could be judged, so nothing is shown."


def is_open(verdict: Verdict) -> bool:
    """Whether a verdict holds the gate."""
    return not verdict.passes


def is_waived(verdict: Verdict) -> bool:
    """Whether somebody answers for it."""
    return verdict is Verdict.WAIVED


def of(report: "BomReport", wanted: Wanted, paper: Paper, *, terse: bool = False) -> Iterator[str]:
    """The wanted findings of places, parts in the order of the file, loops and the list itself.

    Subjects whose findings read the same stand together.
    """
    if len(report.parts) > _EACH:
        for point in points(report, wanted):
            yield from _point(point, paper, terse=terse)
        return
    for entry in Gatherer(report, wanted).entries():
        yield from _entry(entry, paper, terse=terse)


def _title(subject: "SubjectReport") -> str:
    match subject:
        case PartReport(part=part):
            words = (part.part_number, part.description, "at " + ", ".join(part.locations))
            return _joined(f"item {part.item}", *words)
        case PlaceReport(name=name):
            place = subject.bom.places.get(name)
            return _joined(f"location {name}", place.title if place else None)
    if subject.blocks and not subject.blocks[0].prefix:
        return "the list as a whole"
    return f"loop {subject.name}"


def _joined(*words: str | None) -> str:
    return " · ".join(word for word in words if word)


def where(position: "Position") -> str:
    """`file:line:column`; only a name where the fact came from no file."""
    if not position.line:
        return position.file
    return f"{position.file}:{position.line}:{position.column}"


def _entry(entry: Entry, paper: Paper, *, terse: bool) -> Iterator[str]:
    yield "\n"
    count = len(entry.subjects)
    if count > 1:
        yield f"{paper.paint(entry.verdict.value)} {count} alike:\n"
    lead = "- " if count > 1 else f"{paper.paint(entry.verdict.value)} "
    for subject, position in entry.subjects:
        yield from paper.wrap(f"{_title(subject)} · {where(position)}", lead, "    ")
    if not entry.findings:
        yield from paper.wrap(_NOTHING_JUDGED, " " * _INDENT, " " * _INDENT)
    for finding in entry.findings:
        other = alternate(entry.subjects[0][0], finding.path)
        yield from _finding(finding, paper, other, position=count == 1, terse=terse)


def _point(point: Point, paper: Paper, *, terse: bool) -> Iterator[str]:
    yield "\n"
    yield from _finding(point.finding, paper, "", position=True, terse=terse)
    bearers = point.bearers
    kind = bearers[0].subject.kind
    if len(bearers) == 1:
        names = bearers[0].title
    else:
        names = f"{len(bearers)} {kind}s: {', '.join(bearer.short for bearer in bearers)}"
    yield from paper.labelled("for", names, _INDENT, _COLUMN)


def _finding(
    finding: "Finding", paper: Paper, other: str, *, position: bool, terse: bool
) -> Iterator[str]:
    reason = f" ({finding.reason.value})" if finding.reason else ""
    about = _joined(finding.rule.id, other, finding.component, finding.location)
    yield from paper.wrap(about + reason, f"  {paper.paint(finding.verdict.value)}  ", "    ")
    yield from paper.wrap(finding.message, " " * _INDENT, " " * _INDENT)
    see = where(finding.position) if position else ""
    yield from details(finding, paper, _INDENT, see, terse=terse)
