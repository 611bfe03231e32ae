"""Worked cases are judged like any list: text, facts, rules, report."""

import json
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport, Judged
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict, worst

Tree = dict[str, Any]


class Judging:
    """The report of one list, asked by rule."""

    def __init__(self, report: BomReport) -> None:
        self.report = report

    def _judged(self, rules: Iterable[str]) -> Iterator[Judged]:
        wanted = set(rules)
        report = self.report
        for subject in report.subjects():
            for block in subject.blocks:
                yield from (each for each in block.judged if each.rule.id in wanted)

    def verdict(self, rules: Iterable[str]) -> Verdict:
        """The worst verdict of some rules; `not applicable` if none of them was asked."""
        return worst(each.judgement.verdict for each in self._judged(rules))

    def words(self, rules: Iterable[str]) -> str:
        """What the rules said, for the message of a failed test."""
        return "\n".join(
            f"{each.rule.id}: {each.judgement.verdict.value}: {each.judgement.message}"
            for each in self._judged(rules)
        )


@pytest.fixture(scope="session")
def judging() -> Callable[[Tree], Judging]:
    """Read and judge a list given as plain data; JSON is YAML."""

    def run(tree: Tree) -> Judging:
        bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "case.yaml")
        return Judging(judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1))))

    return run
