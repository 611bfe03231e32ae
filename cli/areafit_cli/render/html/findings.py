"""Findings in full, grouped by the location that they hold for."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Verdict
from areafit_cli.render.html.markup import facts, isolated, text, word
from areafit_cli.render.walk import Subject, subjects

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding

_SHOWN = frozenset({Verdict.FLAG, Verdict.UNPROVEN})
Told = tuple[Subject, "Finding"]


def findings(report: "BomReport") -> Iterator[str]:
    """Open findings by location; what holds for no one location stands first."""
    yield "<h3>Findings by location</h3>\n"
    by_place: dict[str | None, list[Told]] = {}
    for subject in subjects(report):
        if subject.report.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE):
            continue
        for finding in subject.report.findings():
            if finding.verdict in _SHOWN:
                by_place.setdefault(finding.location, []).append((subject, finding))
    if not by_place:
        yield "<p>No open findings.</p>\n"
    for place in (None, *report.bom.places):
        told = by_place.get(place)
        if told:
            yield f"<h4>{isolated(place) if place else 'The list and its loops'}</h4>\n"
            for subject, finding in sorted(told, key=lambda each: _rank(each[1])):
                yield _finding(subject, finding)


def _rank(finding: "Finding") -> int:
    return list(Verdict).index(finding.verdict)


def _finding(subject: Subject, finding: "Finding") -> str:
    component = f" · {isolated(finding.component)}" if finding.component else ""
    position = finding.position
    reason = f" ({finding.reason.value})" if finding.reason else ""
    rows = facts(
        (
            ("Required", isolated(finding.required)),
            ("Found", isolated(finding.found)),
            ("To pass", isolated(finding.remedy)),
            ("Clause", text(finding.clause)),
            ("Sources", text("; ".join(finding.sources))),
            ("Who answers", text(finding.answer_by.value)),
            ("Where", isolated(f"{position.file}:{position.line}:{position.column}")),
        )
    )
    return (
        f'<div class="finding {finding.verdict.value}">'
        f"<p>{word(finding.verdict)} · {text(finding.rule.id)}{text(reason)} · "
        f"{isolated(subject.title)}{component}</p>"
        f"<p>{isolated(finding.message)}</p>{rows}</div>\n"
    )
