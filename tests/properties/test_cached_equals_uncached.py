"""What a run remembers changes its speed and not a byte of its report.

Source of the property: the project's own design; no standard states it.
"""

import json
import random
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from properties_lists import Lines, lists  # made importable by conftest

import areafit
from areafit.facts.part import Body, Equipment, MaterialUse, Wetting
from areafit.file.model.part import PartModel
from areafit.options import Options
from areafit.reads import narrowing
from areafit.registry import RULES
from areafit.rule import Subject
from areafit.tables import Tables
from areafit_cli import render
from areafit_cli.render.look import Look

_OPTIONS = Options(as_of=date(2026, 1, 1))
_IDENTITY = {"item", "kind", "location", "parent", "alternates"}


class Forgetful(Tables):
    """Tables that work everything out again each time it is asked for."""

    def remembered(self, key: tuple[Any, ...], make: Callable[[], Any]) -> Any:
        del key
        return make()


def _reports(seed: int, lines: int) -> tuple[str, str]:
    text = json.dumps(lists(seed, lines), ensure_ascii=False).encode()
    bom = areafit.read(text, "list.yaml")
    cached = areafit.judge(bom, Tables.shipped(), _OPTIONS, remember=True)
    uncached = areafit.judge(bom, Forgetful(), _OPTIONS, remember=False)
    bodies = [render.find(kind).body for kind in ("json", "text")]
    told = [["".join(body(each, Look())) for body in bodies] for each in (cached, uncached)]
    return "".join(told[0]), "".join(told[1])


@pytest.mark.parametrize("seed", range(40))
def test_a_run_without_memory_reports_the_same(seed: int) -> None:
    cached, uncached = _reports(seed, 12)
    assert cached == uncached


@pytest.mark.long
@pytest.mark.parametrize("thousand", range(10))
def test_ten_thousand_lists_report_the_same(thousand: int) -> None:
    for seed in range(thousand * 1000 + 100, thousand * 1000 + 1100):
        cached, uncached = _reports(seed, 6)
        assert cached == uncached, seed


def test_the_lists_may_state_every_key_of_a_line() -> None:
    keys = {names[0] for names in PartModel.keys().values()} - _IDENTITY
    assert keys == set(Lines(random.Random(0)).line)  # noqa: S311 - repeatable, nothing secret


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.reads], ids=lambda rule: rule.id)
def test_a_rule_reads_facts_that_its_subject_has(rule: Any) -> None:
    kinds = {
        Subject.EQUIPMENT: Equipment,
        Subject.BODY: Body,
        Subject.MATERIAL: MaterialUse,
        Subject.WETTING: Wetting,
    }
    assert rule.subject in kinds
    tree = {**lists(1, 1)["parts"][0], "evidence": [{"type": "certificate"}], "materials": ["316"]}
    whole = {**lists(1, 1), "parts": [{**tree, "location": "a", "contacts": "none"}]}
    part = areafit.read(json.dumps(whole).encode(), "list.yaml").parts[0]
    subject = part.body if rule.subject is Subject.BODY else part.equipment
    assert type(narrowing(rule.reads)(subject)) is kinds[rule.subject]
