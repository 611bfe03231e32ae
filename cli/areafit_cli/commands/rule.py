"""`areafit rule`: the rules, or one rule with its clause, its reason and its examples."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import typer

import areafit
from areafit_cli import terminal
from areafit_cli.errors import unknown
from areafit_cli.options import AnswerFormat

if TYPE_CHECKING:
    from areafit.rule import Rule


EXAMPLE = "areafit rule gas-group"


def command(
    identity: Annotated[
        str | None, typer.Argument(metavar="[ID]", help="A rule; all of them where none is given.")
    ] = None,
    format_: Annotated[AnswerFormat, typer.Option("--format")] = AnswerFormat.TEXT,
) -> None:
    """List the rules, or tell one rule with clause, reason, remedy and examples."""
    rules: tuple[Rule[Any], ...] = areafit.RULES
    as_json = format_ is AnswerFormat.JSON
    if identity is None:
        if as_json:
            terminal.write_json([as_data(rule) for rule in rules])
        else:
            terminal.write(_list(rules))
        return
    rule = next((one for one in rules if one.id == identity.casefold()), None)
    if rule is None:
        raise unknown("rule", identity, [one.id for one in rules])
    if as_json:
        terminal.write_json(as_data(rule))
    else:
        terminal.write(_lines(rule))


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
    texts = (
        ("clause", rule.clause),
        ("why", rule.why),
        ("note", rule.note),
        ("to pass", rule.remedy),
        ("ask", rule.answer_by.value),
    )
    for label, text in texts:
        if text:
            yield from paper.labelled(label, text, 2, 10)
    yield paper.heading("Examples")
    for example in rule.examples:
        yield "\n"
        lead = f"{paper.paint(example.verdict.value)}  "
        yield from paper.wrap(example.title, lead, "  ")
        text = example.as_list.strip("\n")
        yield from (f"  {paper.paint(line, 'plain')}\n" for line in text.split("\n"))
