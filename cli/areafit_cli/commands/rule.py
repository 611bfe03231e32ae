"""`areafit rule`: the rules, one rule with its clause and examples, or what no rule judges."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

import areafit
from areafit.tables.coverage import CoverageOutcome, CoverageRow, coverage
from areafit_cli import terminal
from areafit_cli.errors import CallError, unknown
from areafit_cli.options import PageFormat, flag
from areafit_cli.render.as_markdown import escape

if TYPE_CHECKING:
    from areafit.rule import Rule


EXAMPLE = "areafit rule gas-group"


def command(
    identity: Annotated[
        str | None, typer.Argument(metavar="[ID]", help="A rule; all of them where none is given.")
    ] = None,
    *,
    covered: Annotated[
        bool,
        flag("--coverage", "Clause by clause: the rule that judges it, or who should."),
    ] = False,
    format_: Annotated[PageFormat, typer.Option("--format")] = PageFormat.TEXT,
) -> None:
    """List the rules, tell one with clause, reason, remedy and examples, or what they cover."""
    if covered and identity is not None:
        raise CallError("name a rule or ask for --coverage, not both")
    rules: tuple[Rule[Any], ...] = areafit.RULES
    if covered:
        rows = coverage()
        data = {"coverage": [_row_data(row) for row in rows]}
        _tell(format_, data, _coverage_lines(rows), _coverage_markdown(rows))
    elif identity is None:
        if format_ is PageFormat.TEXT and terminal.looked_at():
            shown = ((rule.family.value, rule.id, rule.title) for rule in rules)
            terminal.grid(("family", "rule", "what it asks"), shown)
            return
        _tell(format_, [as_data(rule) for rule in rules], _list(rules), _list_markdown(rules))
    else:
        rule = next((one for one in rules if one.id == identity.casefold()), None)
        if rule is None:
            raise unknown("rule", identity, [one.id for one in rules])
        _tell(format_, as_data(rule), _lines(rule), _markdown(rule))


def _tell(format_: PageFormat, data: object, lines: Iterator[str], markdown: Iterator[str]) -> None:
    match format_:
        case PageFormat.JSON:
            terminal.write_json(data)
        case PageFormat.MARKDOWN:
            terminal.write(markdown)
        case PageFormat.TEXT:
            terminal.write(lines)


def as_data(rule: "Rule[Any]") -> dict[str, object]:
    """The rule in the vocabulary of the JSON answers."""
    return {
        "id": rule.id,
        "title": rule.title,
        "family": rule.family,
        "subject": rule.subject,
        "clause": rule.clause,
        "why": rule.why,
        "note": rule.note or None,
        "remedy": rule.remedy,
        "answer_by": rule.answer_by,
        "examples": [
            {
                "title": example.title,
                "verdict": example.verdict,
                "code": example.law,
                "place": example.place,
                "part": example.part,
                "more": example.more or None,
            }
            for example in rule.examples
        ],
    }


def _list(rules: "tuple[Rule[Any], ...]") -> Iterator[str]:
    paper = terminal.paper()
    family = None
    for rule in rules:
        if rule.family is not family:
            family = rule.family
            yield paper.heading(family.value)
        yield from paper.labelled(rule.id, rule.title, 2, 24)


def _lines(rule: "Rule[Any]") -> Iterator[str]:
    paper = terminal.paper()
    yield f"{paper.paint(rule.id, 'title')}\n"
    yield from paper.wrap(rule.title)
    yield "\n"
    for label, text in _texts(rule):
        yield from paper.labelled(label, text, 2, 10)
    yield paper.heading("Examples")
    for example in rule.examples:
        yield "\n"
        lead = f"{paper.paint(example.verdict.value)}  "
        yield from paper.wrap(example.title, lead, "  ")
        text = example.as_list.strip("\n")
        yield from (f"  {paper.paint(line, 'plain')}\n" for line in text.split("\n"))


def _texts(rule: "Rule[Any]") -> Iterator[tuple[str, str]]:
    texts = (
        ("clause", rule.clause),
        ("why", rule.why),
        ("note", rule.note),
        ("to pass", rule.remedy),
        ("who", rule.answer_by.value),
    )
    yield from ((label, text) for label, text in texts if text)


def _list_markdown(rules: "tuple[Rule[Any], ...]") -> Iterator[str]:
    yield "| rule | family | what it asks |\n| --- | --- | --- |\n"
    for rule in rules:
        yield f"| {escape(rule.id)} | {escape(rule.family.value)} | {escape(rule.title)} |\n"


def _markdown(rule: "Rule[Any]") -> Iterator[str]:
    yield f"## {escape(rule.id)}\n\n{escape(rule.title)}\n\n"
    for label, text in _texts(rule):
        yield f"- {label}: {escape(text)}\n"
    for example in rule.examples:
        yield f"\n### {escape(example.title)}: {example.verdict.value}\n\n"
        yield f"```yaml\n{example.as_list.strip()}\n```\n"


# What a review touches, and what becomes of each


def _row_data(row: CoverageRow) -> dict[str, object]:
    return {
        "document": row.document,
        "clause": row.section,
        "about": row.about,
        "outcome": row.outcome,
        "rules": row.rules,
        "reason": row.reason or None,
        "who": row.who or None,
        "codes": row.laws,
        "basis": row.basis,
    }


def _fate(row: CoverageRow) -> str:
    """What becomes of a requirement, in words."""
    if row.outcome is CoverageOutcome.JUDGED:
        return ", ".join(row.rules)
    who = f"; ask the {row.who}" if row.who else ""
    return f"{row.outcome.value}: {row.reason}{who}"


def _coverage_lines(rows: tuple[CoverageRow, ...]) -> Iterator[str]:
    paper = terminal.paper()
    document = ""
    for row in rows:
        if row.document != document:
            document = row.document
            yield paper.heading(document)
        yield from paper.labelled(row.section, row.about, 2, 11)
        yield from paper.wrap(_fate(row), " " * 13, " " * 13)


def _coverage_markdown(rows: tuple[CoverageRow, ...]) -> Iterator[str]:
    document = ""
    for row in rows:
        if row.document != document:
            yield f"{'' if not document else chr(10)}### {escape(row.document)}\n\n"
            yield "| clause | about | judged by |\n| --- | --- | --- |\n"
            document = row.document
        yield f"| {escape(row.section)} | {escape(row.about)} | {escape(_fate(row))} |\n"
