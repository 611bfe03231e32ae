"""Findings in full, grouped by the location that they hold for.

A finding that reads the same for several parts of a location is told once. Above `_MOST` of them a
page is no longer read; the rest is counted, and stands in the other formats.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Basis, Verdict
from areafit_cli.render import remarks
from areafit_cli.render.html.markup import facts, isolated, text, word
from areafit_cli.render.points import Point, points

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding

_SHOWN = frozenset({Verdict.FLAG, Verdict.UNPROVEN, Verdict.WAIVED})
_MOST = 400
_NAMED = 40
_BASIS = {
    Basis.MEMORY: "memory: recalled from the source, not read again",
    Basis.JUDGEMENT: "judgement: reasoned, or carried over from a similar case",
}


def findings(report: "BomReport") -> Iterator[str]:
    """Open and waived findings by location; what holds for no one location stands first."""
    found = points(report, _SHOWN.__contains__)
    by_place: dict[str | None, list[Point]] = {}
    for point in found[:_MOST]:
        by_place.setdefault(point.finding.location, []).append(point)
    if not found:
        yield "<p>No requirement is open or waived.</p>\n"
    if len(found) > _MOST:
        yield (
            f"<p><strong>{len(found) - _MOST} of {len(found)} findings are left out here</strong>, "
            "flags last of all; the formats csv, json and text hold every one.</p>\n"
        )
    for place in dict.fromkeys((None, *report.bom.places, *by_place)):
        told = by_place.get(place)
        if told:
            facts_of = report.bom.places.get(place) if place else None
            words = (place, facts_of.title if facts_of else None)
            title = " · ".join(isolated(each) for each in words if each)
            yield f"<h4>{title or 'The list and its loops'}</h4>\n"
            yield f'<div class="findings">\n{"".join(map(_finding, told))}</div>\n'


def _finding(point: Point) -> str:
    finding = point.finding
    reason = f' <span class="soft">({finding.reason.value})</span>' if finding.reason else ""
    component = f" · {isolated(finding.component)}" if finding.component else ""
    rows = facts(
        (
            ("For", _bearers(point) + component),
            ("Required", isolated(finding.required)),
            ("Found", isolated(finding.found)),
            ("To pass", isolated(finding.remedy)),
            ("Waived", isolated(remarks.granted(finding.waiver)) if finding.waiver else ""),
            ("Clause", isolated(finding.clause)),
            ("Sources", isolated("; ".join(finding.sources))),
            ("Rests on", text(_basis(finding))),
            ("Who answers", text(finding.answer_by.value)),
            ("Where", _where(point)),
        )
    )
    return (
        f'<div class="finding {finding.verdict.value}">'
        f"<p>{word(finding.verdict)} {text(finding.rule.title)} "
        f'<span class="soft">[{text(finding.rule.id)}]</span>{reason}</p>'
        f"<p>{isolated(finding.message)}</p>{rows}</div>\n"
    )


def _basis(finding: "Finding") -> str:
    """How far the finding was checked; where rows are cited, each says so itself."""
    return "" if finding.basis is None or finding.sources else _BASIS.get(finding.basis, "")


def _bearers(point: Point) -> str:
    bearers = point.bearers
    if len(bearers) <= 3:
        return "; ".join(isolated(bearer.title) for bearer in bearers)
    kind = bearers[0].subject.kind
    names = ", ".join(bearer.short for bearer in bearers[:_NAMED])
    return f"{len(bearers)} {text(kind)}s: {isolated(names)}{_rest(len(bearers))}"


def _where(point: Point) -> str:
    shown = point.bearers[:_NAMED]
    first = shown[0].position
    if not first.line:
        return isolated(first.file)
    lines = [f"{first.file}:{first.line}:{first.column}"]
    for bearer in shown[1:]:
        position = bearer.position
        file = "" if position.file == first.file else position.file
        lines.append(f"{file}:{position.line}:{position.column}")
    return isolated(", ".join(dict.fromkeys(lines))) + _rest(len(point.bearers))


def _rest(count: int) -> str:
    return f" and {count - _NAMED} more" if count > _NAMED else ""
