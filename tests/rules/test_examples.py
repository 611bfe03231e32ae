"""Every rule's own examples hold, and say what a designer needs to see."""

from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.registry import RULES
from areafit.rule import Example, Rule
from areafit.tables import Tables
from areafit.verdict import Verdict, worst

CASES = [(rule, example) for rule in RULES for example in rule.examples]


def verdict_of(rule: Rule[object], example: Example) -> Verdict:
    """The worst verdict of the one rule over the whole list."""
    bom = areafit.read(example.as_list.encode(), "case.yaml")
    options = Options(as_of=date(2026, 1, 1), only=frozenset({rule.id}))
    report = judge(bom, Tables.shipped(), options)
    subjects = report.subjects()
    return worst(
        judged.judgement.verdict
        for subject in subjects
        for block in subject.blocks
        for judged in block.judged
    )


@pytest.mark.parametrize(("rule", "example"), CASES, ids=lambda v: getattr(v, "id", None))
def test_examples_hold(rule: Rule[object], example: Example) -> None:
    assert verdict_of(rule, example) is example.verdict, example.title


def test_identities_are_unique_and_kebab_case() -> None:
    identities = [rule.id for rule in RULES]
    assert len(set(identities)) == len(identities)
    assert all(i == i.lower() and i.replace("-", "").isalpha() for i in identities)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_shows_a_pass_and_a_failure(rule: Rule[object]) -> None:
    verdicts = {example.verdict for example in rule.examples}
    assert (Verdict.NOT_APPLICABLE if rule.always else Verdict.PASS) in verdicts
    assert verdicts & {Verdict.FLAG, Verdict.UNPROVEN}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_fits_a_report(rule: Rule[object]) -> None:
    assert len(rule.title) <= 70
    assert rule.clause
    assert rule.why.endswith(".")
    assert rule.remedy.endswith(".")
