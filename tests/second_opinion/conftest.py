"""One part at one place, written as in the format, and what one rule says of it."""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport, Judged
from areafit.options import Options
from areafit.rule import Judgement
from areafit.tables import Tables
from areafit.verdict import Verdict


def _report(part: str, place: str, law: str, more: str) -> BomReport:
    text = (
        "areafit: 1\n"
        "assembly: {number: T-1}\n"
        f"code: {law}\n"
        f"locations:\n  case: {{{place}}}\n"
        "  outside: {area: unclassified, document: AC-1}\n"
        f"parts:\n  - {{item: '1', location: case, {part}}}\n{more}"
    )
    bom = areafit.read(text.encode(), "case.yaml")
    return judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1)))


def _judged(report: BomReport) -> list[Judged]:
    subjects = report.subjects()
    return [each for one in subjects for block in one.blocks for each in block.judged]


@pytest.fixture(scope="session")
def ask() -> Callable[..., Judgement]:
    """`ask(rule, part, place, law)`: the worst judgement of a rule; `not applicable` if none."""
    order = list(Verdict)

    def run(
        rule: str, part: str = "kind: structural", place: str = "", law: str = "IEC", more: str = ""
    ) -> Judgement:
        found = [j.judgement for j in _judged(_report(part, place, law, more)) if j.rule.id == rule]
        silent = Judgement(Verdict.NOT_APPLICABLE, "")
        return min(found, key=lambda each: order.index(each.verdict), default=silent)

    return run
