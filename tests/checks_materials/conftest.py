"""Small lists about materials, judged by the whole engine."""

import json
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport
from areafit.options import Options
from areafit.rule import Judgement
from areafit.tables import Tables
from areafit.verdict import Basis, Verdict, worst

Judge = Callable[..., "Answer"]


class Answer:
    """What one rule says over a whole list."""

    def __init__(self, report: BomReport) -> None:
        subjects = report.subjects()
        self.judgements: list[Judgement] = [
            judged.judgement
            for subject in subjects
            for block in subject.blocks
            for judged in block.judged
        ]

    @property
    def verdict(self) -> Verdict:
        return worst(one.verdict for one in self.judgements)

    @property
    def text(self) -> str:
        return " ".join(one.message for one in self.judgements)

    @property
    def decisive(self) -> Judgement:
        return next(one for one in self.judgements if one.verdict is self.verdict)


def tree(place: dict[str, Any], *parts: dict[str, Any], law: str = "IEC") -> dict[str, Any]:
    listed = [
        {"item": str(i), "location": "case", "kind": "structural", **part}
        for i, part in enumerate(parts, 1)
    ]
    return {
        "areafit": 1,
        "assembly": {"number": "CASE-1"},
        "code": law,
        "locations": {"case": place},
        "parts": listed,
    }


@pytest.fixture(scope="session")
def ask() -> Judge:
    """Judge one rule over a place and its parts; JSON is YAML."""

    def run(
        rule: str,
        place: dict[str, Any],
        *parts: dict[str, Any],
        law: str = "IEC",
        least: Basis = Basis.MEMORY,
        tables: Tables | None = None,
    ) -> Answer:
        text = json.dumps(tree(place, *(parts or ({},)), law=law), ensure_ascii=False)
        bom = areafit.read(text.encode(), "case.yaml")
        options = Options(as_of=date(2026, 1, 1), only=frozenset({rule}), least_basis=least)
        return Answer(judge(bom, tables or Tables.shipped(), options))

    return run


@pytest.fixture(scope="session")
def resist(ask: Judge) -> Judge:
    """Judge a material in one chemical by `chemical-resistance`."""

    def run(
        material: str,
        chemical: str,
        concentration: str | None = None,
        temperature: str | None = "25 °C",
        exposure: str | None = "immersed",
        *,
        least: Basis = Basis.MEMORY,
        of_chemical: dict[str, Any] | None = None,
        of_material: dict[str, Any] | None = None,
    ) -> Answer:
        met = {"name": chemical, **(of_chemical or {})}
        if concentration is not None:
            met["concentration"] = concentration
        if temperature is not None:
            met["temperature"] = temperature
        use = {"material": material, **(of_material or {})}
        if exposure is not None:
            use["exposure"] = exposure
        return ask("chemical-resistance", {"chemicals": [met]}, {"materials": [use]}, least=least)

    return run
