"""What makes a circuit worse never makes a verdict better, and silence never makes a pass."""

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import fields

from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable, LoopDevice, LoopSource
from areafit.facts.part import Item
from areafit.values import replace
from areafit.verdict import Verdict

RULES = (
    "loop-voltage",
    "loop-current",
    "loop-power",
    "loop-capacitance",
    "loop-inductance",
    "loop-group",
    "loop-level",
    "loop-supply",
    "loop",  # all of them
)
ORDER = list(Verdict)
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


def of(*texts: str) -> Any:
    """A few telling values, unknown among them."""
    return st.sampled_from([None, *(Decimal(text) for text in texts)])


def stated(*texts: str) -> Any:
    return st.sampled_from([Decimal(text) for text in texts])


def by_group(*texts: str) -> Any:
    """A figure for the loop's own group, or figures that grow as the group gets milder."""
    values = sorted(Decimal(text) for text in texts)
    table = tuple(zip((Group.IIC, Group.IIB, Group.IIA), values, strict=False))
    tables = [ByGroup(groups=table[n:m]) for n in range(3) for m in range(n + 1, 4)]
    return st.one_of(
        st.none(),
        st.builds(ByGroup, any=stated(*texts)),
        st.sampled_from(tables),
    )


SOURCES = st.builds(
    LoopSource,
    item=st.just("9"),
    voltage=of("20", "28", "30"),
    current=of("0.05", "0.093", "0.3", "4"),
    power=of("0.4", "0.65", "1"),
    capacitance=by_group("83E-9", "650E-9", "3E-6"),
    inductance=by_group("1E-3", "4.2E-3", "15E-3"),
    inductance_per_resistance=of("20E-6", "30E-6", "55E-6"),
    maximum_voltage=of("60", "250"),
    supply=of("24", "230", "400"),
)
DEVICES = st.builds(
    LoopDevice,
    item=st.sampled_from(["1", "2"]),
    voltage=of("24", "28", "30", "Infinity"),
    current=of("0.093", "0.1", "Infinity"),
    power=of("0.5", "0.65", "1"),
    capacitance=of("0", "0.83E-9", "1E-9", "5E-9", "6.5E-9", "90E-9"),
    inductance=of("0", "10E-6", "42E-6", "50E-6", "150E-6", "2E-3"),
)
CABLES = st.one_of(
    st.none(),
    st.builds(
        Cable,
        length=of("0", "10", "200", "390", "3000"),
        capacitance=of("100E-12", "200E-12", "400E-12"),
        inductance=of("0.5E-6", "1E-6", "2E-6"),
        inductance_per_resistance=of("20E-6", "30E-6", "60E-6"),
        default=st.booleans(),
    ),
)
AREAS = ("unclassified", "Zone 2, IIA, T3", "Zone 1, IIB, T4", "Zone 0, IIC, T4")


@st.composite
def circuits(draw: Any) -> dict[str, Any]:
    return {
        "sources": tuple(draw(st.lists(SOURCES, min_size=1, max_size=2))),
        "devices": tuple(draw(st.lists(DEVICES, min_size=1, max_size=3))),
        "cable": draw(CABLES),
        "group": draw(st.sampled_from([None, Group.IIA, Group.IIB, Group.IIB_H2, Group.IIC])),
        "area": draw(st.sampled_from(AREAS)),
        "substances": (),
    }


def never_better(kit: Any, before: dict[str, Any], after: dict[str, Any]) -> None:
    first, second = kit.Setting(**before).verdicts(), kit.Setting(**after).verdicts()
    for rule in RULES:
        if rule in second and second[rule].passes:  # without a source there is no safe side
            assert first[rule].passes, (rule, first[rule], second[rule])


def grown(value: Decimal | None, factor: Decimal) -> Decimal | None:
    return None if value is None else value * factor


FACTORS = st.sampled_from([Decimal("1.001"), Decimal("1.5"), Decimal(10)])
GIVEN = settings(max_examples=60, deadline=None, suppress_health_check=SLOW)


@GIVEN
@given(facts=circuits(), factor=FACTORS)
def test_a_longer_or_worse_cable(kit: Any, facts: dict[str, Any], factor: Decimal) -> None:
    cable = facts["cable"]
    if cable is None:
        return
    for name in ("length", "capacitance", "inductance", "inductance_per_resistance"):
        worse = replace(cable, **{name: grown(getattr(cable, name), factor)})
        never_better(kit, facts, {**facts, "cable": worse})


@GIVEN
@given(facts=circuits(), factor=FACTORS)
def test_a_stronger_source(kit: Any, facts: dict[str, Any], factor: Decimal) -> None:
    for name in ("voltage", "current", "power", "supply"):
        worse = tuple(
            replace(s, **{name: grown(getattr(s, name), factor)}) for s in facts["sources"]
        )
        never_better(kit, facts, {**facts, "sources": worse})


@GIVEN
@given(facts=circuits(), factor=FACTORS)
def test_a_source_that_permits_less(kit: Any, facts: dict[str, Any], factor: Decimal) -> None:
    for name in ("capacitance", "inductance"):
        worse = tuple(
            replace(s, **{name: _less(getattr(s, name), factor)}) for s in facts["sources"]
        )
        never_better(kit, facts, {**facts, "sources": worse})
    worse = tuple(
        replace(s, maximum_voltage=grown(s.maximum_voltage, 1 / factor)) for s in facts["sources"]
    )
    never_better(kit, facts, {**facts, "sources": worse})


def _less(figures: ByGroup | None, factor: Decimal) -> ByGroup | None:
    if figures is None:
        return None
    own = None if figures.any is None else figures.any / factor
    return ByGroup(own, tuple((group, value / factor) for group, value in figures.groups))


@GIVEN
@given(facts=circuits(), factor=FACTORS, n=st.integers(0, 2))
def test_a_device_that_lumps_more_or_bears_less(
    kit: Any, facts: dict[str, Any], factor: Decimal, n: int
) -> None:
    devices = facts["devices"]
    n %= len(devices)
    for name in ("capacitance", "inductance", "voltage", "current", "power"):
        value = getattr(devices[n], name)
        if value is None:
            continue
        worse = value * factor if name in ("capacitance", "inductance") else value / factor
        changed = (*devices[:n], replace(devices[n], **{name: worse}), *devices[n + 1 :])
        never_better(kit, facts, {**facts, "devices": changed})


@GIVEN
@given(facts=circuits(), device=DEVICES)
def test_one_more_device(kit: Any, facts: dict[str, Any], device: LoopDevice) -> None:
    never_better(kit, facts, {**facts, "devices": (*facts["devices"], device)})


@GIVEN
@given(facts=circuits(), source=SOURCES)
def test_one_more_source(kit: Any, facts: dict[str, Any], source: LoopSource) -> None:
    never_better(
        kit, facts, {**facts, "sources": (*facts["sources"], replace(source, item=Item("8")))}
    )


@GIVEN
@given(facts=circuits())
def test_a_more_onerous_place(kit: Any, facts: dict[str, Any]) -> None:
    ladder = AREAS[AREAS.index(facts["area"]) :]
    for harder in ladder[1:]:
        never_better(kit, facts, {**facts, "area": harder})
    never_better(kit, facts, {**facts, "area": None})
    never_better(kit, facts, {**facts, "crossed": (kit.demands("Zone 0, IIC, T4", name="pit"),)})


@GIVEN
@given(facts=circuits())
def test_weaker_nameplates(kit: Any, facts: dict[str, Any]) -> None:
    for name, texts in (
        ("barrier", ("[Ex ib Gb] IIC", "[Ex ia Ga] IIB", "[Ex ic Gc] IIA", None)),
        ("sensor", ("Ex ib IIC T4 Gb", "Ex ia IIB T4 Ga", "Ex ic IIA T4 Gc", None)),
    ):
        for text in texts:
            never_better(kit, facts, {**facts, name: kit.equipment(text)})
        never_better(kit, facts, {**facts, name: None})


@GIVEN
@given(facts=circuits())
def test_a_value_left_out(kit: Any, facts: dict[str, Any]) -> None:
    """A cable that asks for default values states them where nothing else is stated, so only its
    length is left out."""
    never_better(kit, facts, {**facts, "group": None})
    never_better(kit, facts, {**facts, "cable": None})
    cable = facts["cable"]
    if cable is not None:
        names = (
            ["length"] if cable.default else [f.name for f in fields(cable) if f.name != "default"]
        )
        for name in names:
            never_better(kit, facts, {**facts, "cable": replace(cable, **{name: None})})
        never_better(kit, facts, {**facts, "cable": replace(cable, default=False)})
    for key in ("sources", "devices"):
        first, *rest = facts[key]
        for field in fields(first):
            if field.name not in ("item", "linear", "active"):
                without = (replace(first, **{field.name: None}), *rest)
                never_better(kit, facts, {**facts, key: without})
        never_better(kit, facts, {**facts, key: ()})


@pytest.mark.parametrize("rule", RULES)
def test_the_usual_circuit_passes(kit: Any, rule: str) -> None:
    assert kit.Setting().verdicts()[rule] is Verdict.PASS
