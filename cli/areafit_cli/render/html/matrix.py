"""Parts against requirements: one mark a cell, the worst of the part for that rule.

Rules that ask about no part have no column. A long list would make a matrix that nobody reads, so
above `_EACH` parts those with the same marks share a row.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from areafit.registry import RULES
from areafit.verdict import Verdict, worst
from areafit_cli.render.html.markup import framed, isolated, legend, mark, text, word

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, PartReport
    from areafit.rule import Rule

_EACH = 200
_ONE_PAGE = 20  # rows that print keeps together
_WIDEST = 26  # columns that stand side by side on a page of A4 across

Marks = tuple[Verdict, dict[str, Verdict]]


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
    words = (facts.item, facts.part_number, facts.description)
    return " · ".join(isolated(each) for each in words if each)
