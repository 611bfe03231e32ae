"""Circuits as facts: a source outside, devices in one place, judged by the loop rules alone."""

import sys
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from functools import lru_cache
from types import ModuleType

import pytest

from areafit import registry
from areafit.demands import Demands, derive
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable, Loop, LoopDevice, LoopSource
from areafit.facts.part import Equipment, Item, Kind
from areafit.facts.place import Place, PresentSubstance
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, parse
from areafit.marking import decode, read_area
from areafit.rule import Judgement, Subject
from areafit.subjects import LoopCase, LoopEnd
from areafit.tables import Tables
from areafit.values import Frozen
from areafit.verdict import Verdict, worst

DAY = date(2026, 1, 1)
OUTSIDE = "unclassified"


@lru_cache
def demands(
    area: str | None, substances: tuple[str, ...] = (), law: Law = Law.IEC, name: str = "case"
) -> Demands:
    reading = None if area is None else read_area(area)
    listed = tuple(PresentSubstance(each) for each in substances) or None
    return derive(Place(name, law, area=reading, substances=listed), Tables.shipped(), DAY)


_decoded = lru_cache(decode)


def equipment(marking: str | None, kind: Kind = Kind.ELECTRICAL, **more: object) -> Equipment:
    markings = None if marking is None else (_decoded(marking),)
    return Equipment(frozenset({kind}), markings, **more)  # type: ignore[arg-type]


def amount(text: str | None, dimension: Dimension) -> Decimal | None:
    return None if text is None else parse(text, dimension)


def source(
    u: str | None = "28 V",
    i: str | None = "93 mA",
    p: str | None = "0.65 W",
    c: str | None = "83 nF",
    l: str | None = "4.2 mH",  # noqa: E741
    *,
    item: str = "9",
    **more: object,
) -> LoopSource:
    reactances = (
        None if text is None else ByGroup(any=parse(text, dimension))
        for text, dimension in ((c, Dimension.CAPACITANCE), (l, Dimension.INDUCTANCE))
    )
    values = (
        amount(u, Dimension.VOLTAGE),
        amount(i, Dimension.CURRENT),
        amount(p, Dimension.POWER),
    )
    safe_side = {"maximum_voltage": Decimal(250), "supply": Decimal(230)}
    return LoopSource(item, *values, *reactances, **{**safe_side, **more})  # type: ignore[arg-type]


def device(
    u: str | None = "30 V",
    i: str | None = "300 mA",
    p: str | None = "1 W",
    c: str | None = "5 nF",
    l: str | None = "10 µH",  # noqa: E741
    *,
    item: str = "1",
    active: bool | None = None,
) -> LoopDevice:
    return LoopDevice(
        Item(item),
        amount(u, Dimension.VOLTAGE),
        amount(i, Dimension.CURRENT),
        amount(p, Dimension.POWER),
        amount(c, Dimension.CAPACITANCE),
        amount(l, Dimension.INDUCTANCE),
        active,
    )


def cable(
    length: str | None = "200 m",
    c: str | None = None,
    l: str | None = None,  # noqa: E741
    ratio: str | None = None,
    *,
    default: bool = True,
) -> Cable:
    return Cable(
        amount(length, Dimension.LENGTH),
        amount(c, Dimension.CAPACITANCE_PER_LENGTH),
        amount(l, Dimension.INDUCTANCE_PER_LENGTH),
        amount(ratio, Dimension.INDUCTANCE_PER_RESISTANCE),
        default,
    )


class Setting(Frozen):
    """A loop with the nameplates and places at its ends."""

    sources: tuple[LoopSource, ...] = (source(),)
    devices: tuple[LoopDevice, ...] = (device(),)
    cable: Cable | None = cable()
    group: Group | None = Group.IIC
    area: str | None = "Zone 1, IIC, T4"
    substances: tuple[str, ...] = ("hydrogen",)
    law: Law = Law.IEC
    barrier: Equipment | None = equipment("[Ex ia Ga] IIC")
    sensor: Equipment | None = equipment("Ex ia IIC T4 Ga")
    outside: str | None = OUTSIDE
    alternates: int = 0
    crossed: tuple[Demands, ...] = ()

    def case(self) -> LoopCase:
        here = demands(self.area, self.substances, self.law)
        there = demands(self.outside, (), self.law, "safe")
        return LoopCase(
            Loop(0, "LS-1", self.group, self.sources, self.devices, self.cable),
            tuple(self._end(s.item, self.barrier, there) for s in self.sources),
            tuple(self._end(d.item, self.sensor, here) for d in self.devices),
            self.crossed,
        )

    def _end(self, item: str, part: Equipment | None, place: Demands) -> LoopEnd:
        return LoopEnd(Item(item), part, () if part is None else (place,), self.alternates)

    def answers(self, rule_id: str | None = None) -> Iterator[tuple[str, Judgement]]:
        case = self.case()
        for rule in registry.on(Subject.LOOP):
            if rule_id in (None, rule.id):
                for ask in rule.ask(case, None):
                    yield rule.id, rule.judge(ask.question)

    def verdict(self, rule_id: str | None = None) -> Verdict:
        return worst(judgement.verdict for _, judgement in self.answers(rule_id))

    def verdicts(self) -> dict[str, Verdict]:
        """The verdict of each rule that asked, and of the whole loop as `loop`."""
        found: dict[str, list[Verdict]] = {}
        for rule_id, judgement in self.answers():
            found.setdefault(rule_id, []).append(judgement.verdict)
        each = {rule_id: worst(verdicts) for rule_id, verdicts in found.items()}
        return {**each, "loop": worst(each.values())}

    def only(self, rule_id: str) -> Judgement:
        """The worst judgement of one rule."""
        found = [judgement for _, judgement in self.answers(rule_id)]
        return min(found, key=lambda judgement: list(Verdict).index(judgement.verdict))


@pytest.fixture(scope="session")
def kit() -> ModuleType:
    """What this module offers, since tests are no package to import from."""
    return sys.modules[__name__]
