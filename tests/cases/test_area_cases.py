"""The first set of worked area cases, in the terms of the format.

Every case names its source; all are one engineer's reading of it, from memory.
"""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from areafit.registry import RULES
from areafit.verdict import Verdict

Tree = dict[str, Any]
CASES: list[Tree] = json.loads(
    (Path(__file__).parent / "area_cases_open.json").read_text(encoding="utf-8")
)
KNOWN = {rule.id for rule in RULES}


def tree(case: Tree) -> Tree:
    """The case as a list: its place, a place outside, its part or its loop with both ends.

    Cases on what an area is declared as presuppose its document, which the format asks for.
    """
    places = dict(case.get("locations") or {"case": case["location"]})
    for place in places.values():
        place.setdefault("document", "AC-1")
    found: Tree = {
        "areafit": 1,
        "assembly": {"number": case["id"]},
        "code": case["code"],
        "locations": {**places, "unclassified": {"area": "unclassified", "document": "AC-1"}},
        "parts": case.get("parts") or [_part(case["part"])],
    }
    if "loop" in case:
        found["loops"] = [case["loop"]]
    return found


def _part(part: Tree) -> Tree:
    return {"item": "10", "location": "case", **part}


@pytest.mark.parametrize("case", CASES, ids=[f"{c['id']} {c['title']}" for c in CASES])
def test_the_named_rule_agrees(case: Tree, judging: Callable[[Tree], Any]) -> None:
    rule = case["rule"]
    if rule not in KNOWN:
        pytest.skip(f"rule {rule} not yet")
    found = judging(tree(case))
    assert found.verdict([rule]) is Verdict(case["expect"]), found.words([rule])
    if "part_verdict" in case:
        assert found.report.parts[0].verdict is Verdict(case["part_verdict"])


def test_every_case_names_its_source() -> None:
    assert all(case["source"] for case in CASES)
    assert len({case["id"] for case in CASES}) == len(CASES)
