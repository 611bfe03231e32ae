"""Parts against requirements: one mark a cell, the worst of the part for that rule."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.registry import RULES
from areafit.verdict import Verdict, worst
from areafit_cli.render.html.markup import isolated, legend, mark, text, word

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, PartReport


def matrix(report: "BomReport") -> Iterator[str]:
    """The matrix of one list; rules that no part was asked about have no column."""
    found = [(part, _by_rule(part)) for part in report.parts]
    asked = {rule for _, verdicts in found for rule in verdicts}
    rules = [rule for rule in RULES if rule.id in asked]
    caption = "Parts against requirements"
    yield f"<h3>{caption}</h3>\n<p>{text(legend())}. An empty cell: the rule was not asked.</p>\n"
    yield (
        f'<div class="scroll" tabindex="0" role="region" aria-label="{caption}">'
        f'<table class="matrix"><caption class="away">{caption}</caption><thead><tr>'
        '<th scope="col">Item</th><th scope="col">Verdict</th>'
    )
    for rule in rules:
        yield f'<th scope="col" class="rule">{text(rule.id)}</th>'
    yield "</tr></thead>\n<tbody>\n"
    for part, verdicts in found:
        yield f'<tr><th scope="row">{_name(part)}</th><td>{word(part.verdict)}</td>'
        for rule in rules:
            verdict = verdicts.get(rule.id)
            yield f"<td>{mark(verdict) if verdict is not None else ''}</td>"
        yield "</tr>\n"
    yield "</tbody></table></div>\n"


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
