"""What a run keeps changes its speed and not a byte of its report.

Source of the property: the project's own design; no standard states it.
"""

import json
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import cycle, islice
from typing import Any

import pytest
from properties_lists import Lines, lists  # made importable by conftest

import areafit
from areafit import engine, registry
from areafit.demands import Demands
from areafit.facts.part import Body
from areafit.file.part_model import PartModel
from areafit.options import Options
from areafit.rule import Answer, Ask, Family, Judgement, Rule, Subject
from areafit.tables import Tables
from areafit.values import replace
from areafit.verdict import Role, Verdict
from areafit_cli import render
from areafit_cli.render import Style

_OPTIONS = Options(as_of=date(2026, 1, 1))
_IDENTITY = {"item", "kind", "location", "parent", "inside", "process_side", "alternates"}
# No rule reads these, and what is proposed keeps a line unproven whatever else is stated.
_IDENTITY |= {"line_id", "maker", "maker_number", "vendor", "note", "proposed", "answered"}


class Forgetful(Tables):
    """Tables that work everything out again each time it is asked for."""

    def remembered(self, key: tuple[Any, ...], make: Callable[[], Any]) -> Any:
        del key
        return make()


class Nothing(dict[Any, Any]):
    """A cache that keeps nothing."""

    def __setitem__(self, key: object, value: object) -> None:
        del key, value


def _reports(seed: int, lines: int) -> tuple[str, str]:
    text = json.dumps(lists(seed, lines), ensure_ascii=False).encode()
    bom = areafit.read(text, "list.yaml")
    cached = areafit.judge(bom, Tables.shipped(), _OPTIONS)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(engine, "Cache", Nothing)
        uncached = areafit.judge(bom, Forgetful(), _OPTIONS)
    bodies = [render.find(kind).body for kind in ("json", "text")]
    told = [["".join(body(each, Style())) for body in bodies] for each in (cached, uncached)]
    return "".join(told[0]), "".join(told[1])


@pytest.mark.parametrize("seed", range(40))
def test_a_run_without_cache_reports_the_same(seed: int) -> None:
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
    stated = set(Lines(random.Random(0)).line)  # noqa: S311 - repeatable, nothing secret
    assert not keys - stated, f"Give values in properties_lists.py: {sorted(keys - stated)}"
    assert not stated - keys, f"properties_lists.py states no key: {sorted(stated - keys)}"


@dataclass(frozen=True)
class Said:
    """What the rule of this test asks of a line."""

    description: str | None
    insulated: bool


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Said]]:
    insulated = demands.classified and body.bonded is False
    yield Ask(Said(body.equipment.description, insulated), "description")


def _judge(said: Said) -> Judgement:
    if said.insulated or said.description is None:
        return Answer().flagged("It is insulated, or nothing says what it is.")
    return Answer().passed("It is described.")


OWN = Rule[Said](
    id="own",
    title="A rule of this test",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="common practice",
    why="It reads facts that no other rule reads together.",
    remedy="None.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(),
)


@pytest.mark.parametrize("length", [1, 40, 41, 500])
def test_a_rule_of_ones_own_says_the_same_in_a_list_of_any_length(
    length: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(registry, "on", lambda subject: (OWN,) if subject is OWN.subject else ())
    lines = [
        {"item": str(n), "location": "here", "kind": "structural", **said}
        for n, (said, _) in enumerate(islice(cycle(SAID), length))
    ]
    tree = {
        "areafit": 1,
        "assembly": {"number": "T-1"},
        "code": "IEC",
        "locations": {"here": {"area": "Zone 1"}},
        "parts": lines,
    }
    bom = areafit.read(json.dumps(tree).encode(), "list.yaml")
    report = areafit.judge(bom, Tables.shipped(), replace(_OPTIONS, only=frozenset({"own"})))
    expected = [verdict for _, verdict in islice(cycle(SAID), length)]
    assert [part.verdict for part in report.parts] == expected


SAID: tuple[tuple[dict[str, object], Verdict], ...] = (
    ({"description": "bracket", "bonded": True}, Verdict.PASS),
    ({"description": "bracket", "bonded": False}, Verdict.FLAG),
    ({"bonded": True}, Verdict.FLAG),
    ({"description": "plate"}, Verdict.PASS),
)
