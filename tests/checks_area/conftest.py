"""One part at one place, written as in the format, and what one rule says of it."""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.findings.report import Judged
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict, worst


def _judged(rule: str, part: str, place: str, law: str, as_of: date) -> list[Judged]:
    text = (
        "areafit: 1\n"
        "assembly: {number: T-1}\n"
        f"code: {law}\n"
        f"locations:\n  case: {{{place}}}\n"
        f"parts:\n  - {{item: '1', location: case, {part}}}\n"
    )
    bom = areafit.read(text.encode(), "case.yaml")
    report = judge(bom, Tables.shipped(), Options(as_of=as_of, only=frozenset({rule})))
    subjects = (*report.parts, *report.places)
    found = [j for subject in subjects for block in subject.blocks for j in block.judged]
    return [each for each in found if each.rule.id == rule]


@pytest.fixture(scope="session")
def say() -> Callable[..., Verdict]:
    """`say(rule, part, place, law)`: the worst verdict of the rule."""

    def run(
        rule: str,
        part: str = "kind: structural",
        place: str = "",
        law: str = "IEC",
        as_of: date = date(2026, 1, 1),
    ) -> Verdict:
        return worst(j.judgement.verdict for j in _judged(rule, part, place, law, as_of))

    return run


@pytest.fixture(scope="session")
def tell() -> Callable[..., str]:
    """`tell(rule, part, place, law)`: every message, requirement and finding of the rule."""

    def run(
        rule: str,
        part: str = "kind: structural",
        place: str = "",
        law: str = "IEC",
        as_of: date = date(2026, 1, 1),
    ) -> str:
        return "\n".join(
            f"{j.judgement.message} | {j.judgement.required} | {j.judgement.found}"
            for j in _judged(rule, part, place, law, as_of)
        )

    return run


@pytest.fixture(scope="session")
def remedies() -> Callable[..., list[str]]:
    """`remedies(rule, part, place, law)`: what would pass, for every finding that does not."""

    def run(
        rule: str,
        part: str = "kind: structural",
        place: str = "",
        law: str = "IEC",
        as_of: date = date(2026, 1, 1),
    ) -> list[str]:
        judged = _judged(rule, part, place, law, as_of)
        return [
            j.judgement.remedy or j.rule.remedy for j in judged if not j.judgement.verdict.passes
        ]

    return run
