"""Worked cases of the rules for ignition sources that are not electrical, each with its source."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from areafit.registry import RULES
from areafit.rule import Family
from areafit.verdict import Verdict, worst

Tree = dict[str, Any]
CASES: list[Tree] = YAML(typ="safe", pure=True).load(
    (Path(__file__).parent / "ignition_cases.yaml").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", CASES, ids=[f"{c['rule']} {c['title']}" for c in CASES])
def test_the_rule_agrees(case: Tree, judging: Callable[..., Any]) -> None:
    place = case["place"]
    place = {"area": place} if isinstance(place, list) else place
    part = plain(case["part"])
    found = judging(case["rule"], part, place, case.get("law", "IEC"))
    words = "\n".join(f"{each.verdict.value}: {each.message}" for each in found)
    if case["expect"] == "not asked":
        assert found == [], words
    else:
        assert worst(each.verdict for each in found) is Verdict(case["expect"]), words


def plain(value: Any) -> Any:
    """Dates as the text that a list has."""
    if isinstance(value, dict):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list):
        return [plain(each) for each in value]
    return value if isinstance(value, str | bool) else str(value)


def test_every_case_names_its_source_and_is_there_once() -> None:
    assert all(case["source"] for case in CASES)
    named = Counter((case["rule"], case["title"]) for case in CASES)
    assert [name for name, count in named.items() if count > 1] == []


IGNITION = [rule for rule in RULES if rule.family is Family.IGNITION]
ASSEMBLY = [rule for rule in RULES if rule.family is Family.ASSEMBLY]


@pytest.mark.parametrize("rule", IGNITION, ids=lambda rule: rule.id)
def test_every_rule_has_each_verdict_among_cases_and_examples(rule: Any) -> None:
    seen = {case["expect"] for case in CASES if case["rule"] == rule.id}
    seen |= {example.verdict.value for example in rule.examples}
    assert {"pass", "flag", "unproven"} - seen <= _NEVER.get(rule.id, set())


# No energy is tabulated, so that no blow is known to fail.
_NEVER = {"impact": {"flag"}}


@pytest.mark.parametrize("rule", [*IGNITION, *ASSEMBLY], ids=lambda rule: rule.id)
def test_findings_say_what_was_required_and_found(rule: Any, judging: Callable[..., Any]) -> None:
    for case in CASES:
        if case["rule"] != rule.id:
            continue
        place = {"area": case["place"]} if isinstance(case["place"], list) else case["place"]
        for each in judging(rule.id, plain(case["part"]), place, case.get("law", "IEC")):
            assert each.required, case["title"]
            assert each.found, case["title"]
            assert each.message.endswith("."), each.message
            assert len(each.message) <= 300
