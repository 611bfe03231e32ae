"""What was found: the title block of a list, its matrix, and its findings in full."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from areafit.registry import RULES
from areafit.verdict import Verdict, worst
from areafit_cli.render import wording
from areafit_cli.render.html import (
    anchor,
    facts,
    framed,
    gate,
    isolated,
    legend,
    mark,
    table,
    text,
    word,
)
from areafit_cli.render.subjects import SharedFinding, shared_findings

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding, PartReport
    from areafit.rule import Rule

_EACH = 200
_ONE_PAGE = 20  # rows that print keeps together
_WIDEST = 26  # columns that stand side by side on a page of A4 across
_SHOWN = frozenset({Verdict.FLAG, Verdict.UNPROVEN, Verdict.WAIVED})
_MOST = 400
_NAMED = 40

Marks = tuple[Verdict, dict[str, Verdict]]


# The title block: what was judged, by which rules, and how it fared


def title(report: "BomReport") -> Iterator[str]:
    """Heading, gate and facts of one list."""
    bom, counts = report.bom, report.counts
    name = map(isolated, (wording.assembly_name(bom.assembly), bom.assembly.title))
    yield f'<h2 id="{anchor(bom.name)}">{wording.joined(*name)}</h2>\n'
    yield f"<p>Gate: {gate(report.gate)}</p>\n"
    yield facts(
        (
            ("List", isolated(bom.name)),
            ("Rules", isolated(f"{bom.law.value} {wording.edition_words(bom.edition)}")),
            ("Jurisdiction", isolated(bom.jurisdiction)),
            ("Scope", text(wording.scope(report))),
            ("Parts", _tally(counts.parts)),
            ("Locations", _tally(counts.places)),
            ("Loops", _tally(counts.loops)),
            ("Passes rest on", text(wording.bases(counts))),
            ("Waivers", text(_waivers(report))),
        )
    )
    yield from _others(report)


def _tally(counts: Mapping[Verdict, int]) -> str:
    total = sum(counts.values())
    return text(f"{total}: {wording.tally(counts, Verdict)}") if total else ""


def _waivers(report: "BomReport") -> str:
    found = report.waivers
    counted = (
        (found.used, "used"),
        (found.expired, "past their date"),
        (found.stale, "void, since facts changed or a document is missing"),
        (found.unmatched, "match nothing"),
    )
    return ", ".join(f"{amount} {said}" for amount, said in counted if amount)


def _others(report: "BomReport") -> Iterator[str]:
    """Verdicts of all that is no part, so that none of them is missed beside the matrix."""
    rows = [(f"list {isolated(report.own.name)}", word(report.own.verdict))]
    for place in report.places:
        facts_of = report.bom.places.get(place.name)
        title = isolated(facts_of.title if facts_of else None)
        name = wording.joined(f"location {isolated(place.name)}", title)
        rows.append((name, word(place.verdict)))
    rows += [(f"loop {isolated(loop.name)}", word(loop.verdict)) for loop in report.loops]
    head = ("Subject", "Verdict")
    yield table("The list as a whole, its locations and loops", head, rows, "narrow")


# Parts against requirements: one mark a cell, the worst of the part for that rule.
# Rules that ask about no part have no column. A long list would make a matrix that nobody reads, so
# above `_EACH` parts those with the same marks share a row.


def matrix(report: "BomReport") -> Iterator[str]:
    """The matrix of one list, in several tables where there are many columns."""
    rows = list(_rows(report.parts))
    asked = {
        rule
        for _, (_, marks) in rows
        for rule, verdict in marks.items()
        if verdict is not Verdict.NOT_APPLICABLE
    }
    left = {rule for _, (_, marks) in rows for rule in marks} - asked
    yield f"<p>{text(legend())}. An empty cell: the rule does not ask about the part.</p>\n"
    if len(report.parts) > _EACH:
        yield (
            f"<p>{len(report.parts)} parts: those with the same marks share a row, and are named "
            "by their item.</p>\n"
        )
    columns = list(_columns([rule for rule in RULES if rule.id in asked]))
    for number, rules in enumerate(columns, 1):
        families = " and ".join(dict.fromkeys(rule.family.value for rule in rules))
        share = f", {number} of {len(columns)}: {families}" if len(columns) > 1 else ""
        yield framed(
            f"Parts against requirements{share}",
            _table(rows, rules),
            "matrix",
            short=len(rows) <= _ONE_PAGE,
        )
    if left:
        names = ", ".join(rule.id for rule in RULES if rule.id in left)
        yield f'<p class="soft">Not applicable to any part: {text(names)}.</p>\n'


def _columns(rules: "Sequence[Rule[object]]") -> "Iterator[list[Rule[object]]]":
    """As few tables as fit a page, of about the same width, in the order of the rules."""
    tables = -(-len(rules) // _WIDEST)
    for number in range(tables):
        yield list(rules[len(rules) * number // tables : len(rules) * (number + 1) // tables])


def _table(rows: "Iterable[tuple[str, Marks]]", rules: "Sequence[Rule[object]]") -> str:
    head = "".join(
        f'<th scope="col" class="rule"><span>{text(rule.id)}</span></th>' for rule in rules
    )
    lines = [
        '<thead><tr><th scope="col">Item</th><th scope="col">Verdict</th>',
        f"{head}</tr></thead>\n<tbody>\n",
    ]
    for name, (verdict, marks) in rows:
        known = (marks.get(rule.id) for rule in rules)
        cells = "".join(f"<td>{mark(one) if one else ''}</td>" for one in known)
        lines.append(f'<tr><th scope="row">{name}</th><td>{word(verdict)}</td>{cells}</tr>\n')
    return "".join((*lines, "</tbody>"))


def _rows(parts: "Sequence[PartReport]") -> "Iterator[tuple[str, Marks]]":
    if len(parts) <= _EACH:
        yield from ((_name(part), (part.verdict, _by_rule(part))) for part in parts)
        return
    alike: dict[tuple[object, ...], tuple[list[PartReport], Marks]] = {}
    for part in parts:
        marks = _by_rule(part)
        key = (part.verdict, *marks.items())
        alike.setdefault(key, ([], (part.verdict, marks)))[0].append(part)
    for members, shown in alike.values():
        names = isolated(", ".join(member.part.item for member in members))
        yield f"{len(members)} alike: {names}" if len(members) > 1 else _name(members[0]), shown


def _by_rule(part: "PartReport") -> dict[str, Verdict]:
    found: dict[str, Verdict] = {}
    for block in part.blocks:
        for judged in block.judged:
            known = found.get(judged.rule.id, Verdict.NOT_APPLICABLE)
            found[judged.rule.id] = worst((known, judged.judgement.verdict))
    return found


def _name(part: "PartReport") -> str:
    facts = part.part
    return wording.joined(*map(isolated, (facts.item, facts.part_number, facts.description)))


# Findings in full, grouped by the location that they hold for.
# A finding that reads the same for several parts of a location is told once. Above `_MOST` of them
# a page is no longer read; the rest is counted, and stands in the other formats.


def findings(report: "BomReport") -> Iterator[str]:
    """Open and waived findings by location; what holds for no one location stands first."""
    found = shared_findings(report, _SHOWN.__contains__)
    by_place: dict[str | None, list[SharedFinding]] = {}
    for shared in found[:_MOST]:
        by_place.setdefault(shared.finding.location, []).append(shared)
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
            title = wording.joined(*map(isolated, (place, facts_of.title if facts_of else None)))
            yield f"<h4>{title or 'The list and its loops'}</h4>\n"
            yield f'<div class="findings">\n{"".join(map(_finding, told))}</div>\n'


def _finding(shared: SharedFinding) -> str:
    finding = shared.finding
    reason = f' <span class="soft">({finding.reason.value})</span>' if finding.reason else ""
    rows = facts(
        (
            ("For", wording.joined(_bearers(shared), isolated(finding.component))),
            ("Required", isolated(finding.required)),
            ("Found", isolated(finding.found)),
            ("To pass", isolated(finding.remedy)),
            ("Waived", isolated(wording.granted(finding.waiver)) if finding.waiver else ""),
            ("Clause", isolated(finding.clause)),
            ("Sources", isolated("; ".join(finding.sources))),
            ("Rests on", text(_basis(finding))),
            ("Stated by", isolated(wording.stated_by(finding))),
            ("Proposed", isolated(wording.proposed(finding))),
            ("Who answers", text(finding.answer_by.value)),
            ("Where", _where(shared)),
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
    return "" if finding.sources else wording.basis_words(finding.basis)


def _bearers(shared: SharedFinding) -> str:
    bearers = shared.bearers
    if len(bearers) <= 3:
        return "; ".join(isolated(bearer.title) for bearer in bearers)
    kind = bearers[0].subject.kind
    names = ", ".join(bearer.short for bearer in bearers[:_NAMED])
    return f"{len(bearers)} {text(kind)}s: {isolated(names)}{_rest(len(bearers))}"


def _where(shared: SharedFinding) -> str:
    shown = shared.bearers[:_NAMED]
    first = shown[0].position
    if not first.line:
        return isolated(first.file)
    lines = [f"{first.file}:{first.line}:{first.column}"]
    for bearer in shown[1:]:
        position = bearer.position
        file = "" if position.file == first.file else position.file
        lines.append(f"{file}:{position.line}:{position.column}")
    return isolated(", ".join(dict.fromkeys(lines))) + _rest(len(shared.bearers))


def _rest(count: int) -> str:
    return f" and {count - _NAMED} more" if count > _NAMED else ""
