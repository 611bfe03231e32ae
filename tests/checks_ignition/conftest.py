"""Parts at one place, judged by one rule through reader and engine."""

import json
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.rule import Judgement
from areafit.tables import Tables

Tree = dict[str, Any]
Judge = Callable[..., list[Judgement]]


def judgements(rule: str, part: Tree, place: Tree | str, law: str = "IEC") -> list[Judgement]:
    """What one rule says of a part at a place; a place may be given by its area alone."""
    tree = {
        "areafit": 1,
        "assembly": {"number": "CASE-1"},
        "code": law,
        "locations": {"case": {"area": place} if isinstance(place, str) else place},
        "parts": [{"item": "1", "location": "case", **part}],
    }
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "case.yaml")
    options = Options(as_of=date(2026, 1, 1), only=frozenset({rule}))
    report = judge(bom, Tables.shipped(), options)
    subjects = report.subjects()
    return [
        judged.judgement
        for subject in subjects
        for block in subject.blocks
        for judged in block.judged
    ]


@pytest.fixture(scope="session")
def judging() -> Judge:
    """The function above, for tests that stand beside this file."""
    return judgements
