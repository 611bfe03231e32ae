"""What was found: the matrix of a list, its findings by cause, and why what passes does."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from areafit.answers.causes import CauseKind
from areafit.registry import RULES
from areafit.verdict import Reason, Verdict, worst
from areafit_cli.render import wording
from areafit_cli.render.html import framed, isolated, legend, mark, table, text, word
from areafit_cli.render.html.front import numbered
from areafit_cli.render.subjects import shared_findings

if TYPE_CHECKING:
    from areafit.answers.causes import Cause
    from areafit.findings.report import BomReport, Finding, PartReport
    from areafit.rule import Rule
    from areafit_cli.render import Style

_EACH = 200
_ONE_PAGE = 20  # rows that print keeps together
_WIDEST = 26  # columns that stand side by side on a page of A4 across
_MOST = 400
_NAMED = 12

Marks = tuple[Verdict, dict[str, Verdict]]


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


# Why what passes does: for a reader who has this page alone, and asks of a line what a mark in the
# matrix rests on and who said so. In the order of its columns; what reads alike is told once.


def passes(report: "BomReport", numbers: "Numbers") -> Iterator[str]:
    """Every pass of the lines, with what was asked and found, who states it, clause and sources."""
    if len(report.parts) > _EACH:
        yield (
            f"<p>{len(report.parts)} parts: what each of them passes by stands in the formats csv "
            "and json.</p>\n"
        )
        return
    alike: dict[str, dict[tuple[str, ...], dict[str, None]]] = {rule.id: {} for rule in RULES}
    for part in report.parts:
        for finding in part.findings():
            if finding.verdict is Verdict.PASS:
                several = len(part.part.locations) > 1 and finding.location
                other = wording.alternate(part, finding.path)
                which = ", ".join(filter(None, (other, finding.location if several else "")))
                name = f"{part.part.item} ({which})" if which else part.part.item
                alike[finding.rule.id].setdefault(_pass(finding, numbers), {})[name] = None
    rows = [
        (f'{isolated(", ".join(items))} <span class="soft">{text(rule)}</span>', *cells)
        for rule, found in alike.items()
        for cells, items in found.items()
    ]
    if rows:
        head = ("Items, requirement", "Passes", "Required / found", "Stated by", "Clause, sources")
        yield table("Passes by requirement", head, rows, "passes")


def _pass(finding: "Finding", numbers: "Numbers") -> tuple[str, ...]:
    piece = finding.component
    return (
        isolated(finding.message)
        + (f' <span class="soft">{isolated(piece)}</span>' if piece else ""),
        " / ".join(filter(None, (isolated(finding.required), isolated(finding.found)))),
        isolated(wording.stated_by(finding)) or "the line itself",
        wording.joined(isolated(wording.short(finding.clause)), text(numbers.cited(finding))),
    )


# Findings by cause: each once, with its lines whole, what closes it and what it rests on.
# Above `_MOST` causes of a kind a page is no longer read; the rest is counted, and stands in the
# other formats.


class Numbers:
    """The sources of a list by number, in the order in which its rows name them first."""

    def __init__(self) -> None:
        self.known: dict[str, int] = {}

    def cited(self, finding: "Finding") -> str:
        """The sources of a finding by their numbers, and how far its rows were checked."""
        numbers = {
            self.known.setdefault(row.source_id, len(self.known) + 1) for row in finding.rows
        }
        cited = ", ".join(f"[{number}]" for number in sorted(numbers))
        basis = finding.basis.value if finding.basis is not None else ""
        return ", ".join(filter(None, (basis, cited)))


def by_cause(
    report: "BomReport", causes: "Sequence[Cause]", numbers: Numbers, style: "Style"
) -> Iterator[str]:
    """What must change, who must answer, what to accept."""
    if not causes:
        yield "<p>No requirement is open.</p>\n"
    for kind in CauseKind:
        own = numbered(causes, kind)
        if not own:
            continue
        if len(own) > _MOST:
            yield (
                f"<p><strong>{len(own) - _MOST} of {len(own)} causes are left out here</strong>; "
                "the formats csv, json and text hold every one.</p>\n"
            )
        told = [
            _cause(number, cause, numbers, wording.asked(report, [cause], style.asked, style.on))
            for number, cause in own[:_MOST]
        ]
        rows = list(_alike(told))
        yield table(f"{kind.value.capitalize()}: {len(own)}", _HEADS[kind], rows, "causes")
    yield from _waived(report)


_REST = ("Required / found", "Clause, basis, sources, rule, line")
_HEADS = {
    CauseKind.CHANGE: ("Cause", "Items", "To pass", *_REST),
    CauseKind.ANSWER: ("Question", "Items", "Who", *_REST),
    CauseKind.ACCEPT: ("Condition", "Items", "Who, and what closes it", *_REST),
}


def _alike(rows: "Iterable[tuple[str, ...]]") -> "Iterator[tuple[str, ...]]":
    """Rows in which what says the same as the row above is not told again."""
    above: tuple[str, ...] = ()
    for row in rows:
        name, items, *cells, found, line = row
        told = [
            '<span class="soft">as above</span>' if above and cell and cell == before else cell
            for cell, before in zip(cells, above[2:-2] or cells, strict=True)
        ]
        closes, required, clause = told
        compared = " / ".join(filter(None, (required, found)))
        yield (name, items, closes, compared, wording.joined(clause, line))
        above = row


def _cause(number: str, cause: "Cause", numbers: Numbers, asked: str) -> tuple[str, ...]:
    first = cause.first
    who = f"{cause.who.value} {cause.vendor}" if cause.vendor else cause.who.value
    if cause.kind is CauseKind.CHANGE:
        closes = isolated(cause.closes)
    elif cause.kind is CauseKind.ANSWER:
        closes = isolated(who)
    else:
        closes = f"{isolated(who)}: {isolated(cause.closes)}"
    said = [cause.what]
    if first.reason is not Reason.NO_DATA:
        said.append(first.message)
    findings = [bearer.finding for bearer in cause.bearers[:_NAMED]]
    stated = dict.fromkeys(
        f"{one.document} ({one.role}, {one.level.value})"
        for finding in findings
        for one in finding.stated_by
    )
    open_ = dict.fromkeys(filter(None, map(wording.proposed, findings)))
    asked_ = (asked,) if asked and cause.kind is CauseKind.ANSWER else ()
    notes = "; ".join((*asked_, *(f"stated by {one}" for one in stated), *open_))
    below = f'<br><span class="soft">{isolated(notes)}</span>' if notes else ""
    position = first.position
    rules = dict.fromkeys(bearer.finding.rule.id for bearer in cause.bearers)
    return (
        f"{text(number)} {word(first.verdict)} {isolated(' '.join(dict.fromkeys(said)))}{below}",
        isolated(wording.subjects_of(cause))
        + (f'<br><span class="soft">{text(who)}</span>' if cause.kind is CauseKind.CHANGE else ""),
        closes,
        isolated(first.required),
        wording.joined(
            isolated(wording.short(first.clause)),
            text(numbers.cited(first)),
            text(", ".join(rules)),
        ),
        isolated(first.found),
        f"line {position.line}" if position.line else "",
    )


def _waived(report: "BomReport") -> Iterator[str]:
    """What somebody answers for, each with who and until when."""
    rows = []
    for shared in shared_findings(report, lambda verdict: verdict is Verdict.WAIVED):
        finding = shared.finding
        rows.append(
            (
                f"{word(finding.verdict)} {isolated(finding.message)}",
                isolated("; ".join(bearer.title for bearer in shared.bearers[:_NAMED])),
                isolated(wording.granted(finding.waiver) if finding.waiver else None),
            )
        )
    if rows:
        yield table("Waived", ("Finding", "For", "By whom, until when"), rows, "causes")
