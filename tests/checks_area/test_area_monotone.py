"""Nothing that makes a part or its place worse turns a part that did not pass into one that does.

A world is a list of dimensions, each ordered from good to worse; a state is one step of each.
If the worse of two neighbouring states passes, the better one must pass too.
"""

import json
from dataclasses import dataclass
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.registry import RULES
from areafit.rule import Family
from areafit.tables import Tables
from areafit.verdict import Verdict

Tree = dict[str, Any]
AREA = frozenset(r.id for r in RULES if r.family in (Family.AREA, Family.PROOF))
PLACES = frozenset(
    {"declared-area", "substance-known", "place-stated", "flash-point", "standard-atmosphere"}
)
AMBIENTS = ("10..30 °C", "0..40 °C", "-20..40 °C", "-25..40 °C", "-25..55 °C")
T_MARKS = ("T6", "T5", "T4", "T3", "T2", "T1")
DUST_MARKS = ("T80°C", "T120°C", "T165°C", "T200°C", "T300°C")
EVIDENCE = [
    {"type": "listing", "number": "E-1"},
    {"type": "control drawing", "number": "CD-1"},
    {"type": "declaration", "number": "DC-1"},
    {"type": "certificate", "number": "ABC 21 ATEX 0001"},
    {"type": "certificate", "number": "IECEx ABC 21.0001"},
]


@dataclass(frozen=True)
class World:
    """One system. `area` and `marking` hold fields that dimensions fill."""

    law: str
    area: str
    marking: str
    zones: tuple[tuple[str, ...], ...]  # area number
    area_groups: tuple[str, ...]
    area_heat: tuple[str, ...]
    substances: tuple[tuple[str, ...], ...]
    types: tuple[str, ...]
    groups: tuple[str, ...]
    heat: tuple[str, ...]
    fitting: str

    def dimensions(self) -> tuple[int, ...]:
        """How many steps each dimension has."""
        return (
            len(self.zones),
            len(self.area_groups),
            len(self.area_heat),
            len(self.substances),
            len(AMBIENTS),
            len(self.types),
            len(self.groups),
            len(self.heat),
        )

    def tree(self, state: tuple[int, ...], dropped: str | None = None) -> Tree:
        """The list of a state, one key of the part left out."""
        zone, area_group, area_heat, substances, ambient, kind, group, heat = state
        place = {
            "area": self.area.format(
                zone=self.zones[zone][0],
                group=self.area_groups[area_group],
                heat=self.area_heat[area_heat],
            ),
            "substances": list(self.substances[substances]),
            "ambient": AMBIENTS[ambient],
            "chemicals": "none",
            "layer": "none",
            "document": "AC-1",
            "ingress": "IP65",
        }
        part = {
            "kind": "electrical",
            "marking": self.marking.format(
                type=self.types[kind], group=self.groups[group], heat=self.heat[heat]
            ),
            "ambient": "-40..60 °C",
            "ingress": "IP66",
            "evidence": EVIDENCE,
            "entries": [
                {
                    "type": "cable gland",
                    "marking": self.fitting,
                    "thread": "M20x1.5",
                    "hole": "M20",
                    "ingress": "IP66",
                }
            ],
        }
        part.pop(dropped or "", None)
        return {
            "areafit": 1,
            "assembly": {"number": "W-1"},
            "code": self.law,
            "locations": {"case": place},
            "parts": [{"item": "1", "location": "case", **part}],
        }


GASES = (("propane",), ("propane", "ethylene"), ("propane", "ethylene", "hydrogen"))
DUSTS = (("sugar",), ("sugar", "wheat flour"), ("sugar", "wheat flour", "aluminium dust"))
ZONES = (("2",), ("1",), ("0",))
ZONE_GROUPS = ("IIA", "IIB", "IIC")
COVER = ("IIC", "IIB", "IIA")
LETTERS = ("A, B, C, D", "B, C, D", "C, D", "D")
CLASSES = ("T1", "T2", "T3", "T4")
WORLDS = {
    "NEC division": World(
        "NEC",
        "Class I, Division {zone}, Groups {group}, {heat}",
        "Class I, Division {type}, Groups {group} {heat}",
        (("2",), ("1",)),
        ("D", "C, D", "B, C, D", "A, B, C, D"),
        CLASSES,
        GASES,
        ("1", "2"),
        LETTERS,
        T_MARKS,
        "Class I, Division 1, Groups A, B, C, D",
    ),
    "NEC zone equipment in divisions": World(
        "NEC",
        "Class I, Division {zone}, Groups {group}, {heat}",
        "Class I, Zone {type} {heat}",
        (("2",), ("1",)),
        # One declared letter, and propane accounts for it: a letter that no listed substance
        # accounts for stays open until one is listed, which is an answer and no worsening.
        ("D",),
        CLASSES,
        GASES,
        ("0, AEx ia IIC", "1, AEx ib IIC", "2, AEx ic IIC", "2, AEx ic IIB", "2, AEx ic IIA"),
        ("",),
        T_MARKS,
        "Class I, Division 1, Groups A, B, C, D",
    ),
    "NEC zone": World(
        "NEC",
        "Class I, Zone {zone}, {group}, {heat}",
        "Class I, Zone {type} {group} {heat}",
        ZONES,
        ZONE_GROUPS,
        CLASSES,
        GASES,
        ("0, AEx da", "1, AEx db", "2, AEx dc"),
        COVER,
        T_MARKS,
        "Class I, Zone 0, AEx da IIC",
    ),
    "IEC": World(
        "IEC",
        "Zone {zone}, {group}, {heat}",
        "Ex {type} {group} {heat}",
        ZONES,
        ZONE_GROUPS,
        CLASSES,
        GASES,
        ("da", "db", "dc"),
        COVER,
        T_MARKS,
        "Ex da IIC Ga",
    ),
    "ATEX": World(
        "ATEX",
        "Zone {zone}, {group}, {heat}",
        "II {type} {group} {heat}",
        ZONES,
        ZONE_GROUPS,
        CLASSES,
        GASES,
        ("1G Ex ma", "2G Ex mb", "3G Ex mc"),
        COVER,
        T_MARKS,
        "II 1G Ex da IIC Ga",
    ),
    "IEC dust": World(
        "IEC",
        "Zone {zone}, {group}, {heat}",
        "Ex {type} {group} {heat}",
        (("22",), ("21",), ("20",)),
        ("IIIA", "IIIB", "IIIC"),
        ("T250°C", "T200°C", "T135°C"),
        DUSTS,
        ("ta", "tb", "tc"),
        ("IIIC", "IIIB", "IIIA"),
        DUST_MARKS,
        "Ex ta IIIC Da",
    ),
    "NEC dust": World(
        "NEC",
        "Class II, Division {zone}, Groups {group}",
        "Class II, Division {type}, Groups {group} {heat}",
        (("2",), ("1",)),
        ("G", "F, G"),
        ("",),
        DUSTS[:2],
        ("1", "2"),
        ("E, F, G", "F, G", "G"),
        ("T6", "T4", "T3B", "T3", "T2"),
        "Class II, Division 1, Groups E, F, G",
    ),
}


def passes(tree: Tree, rules: frozenset[str] = AREA) -> bool:
    """Whether the part passes every area and proof rule."""
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "world.yaml")
    report = judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1), only=rules))
    return all(part.verdict is Verdict.PASS for part in report.parts)


@pytest.mark.parametrize("name", WORLDS)
def test_the_best_state_passes_and_the_worst_does_not(name: str) -> None:
    """A world in which nothing passes would prove nothing."""
    world = WORLDS[name]
    best = tuple(0 for _ in world.dimensions())
    assert passes(world.tree(best))
    assert not passes(world.tree(tuple(n - 1 for n in world.dimensions())))


@pytest.mark.parametrize("name", WORLDS)
@settings(deadline=None, max_examples=60)
@given(data=st.data())
def test_a_worse_step_never_helps(name: str, data: st.DataObject) -> None:
    world = WORLDS[name]
    sizes = world.dimensions()
    # States near the best one pass often enough to tell.
    state = tuple(data.draw(st.integers(0, size - 1).map(lambda n: n // 2)) for size in sizes)
    which = data.draw(st.integers(0, len(sizes) - 1))
    if state[which] + 1 >= sizes[which]:
        return
    worse = tuple(n + (i == which) for i, n in enumerate(state))
    if passes(world.tree(worse)):
        assert passes(world.tree(state)), (world.tree(state), world.tree(worse))


# A catalogue range of ambient is left out: it can only narrow the certified one, so a list that
# says nothing of it is judged by the certified range alone (IEC 60079-0:2017 5.1.1).
KEYS = ("marking", "ingress", "evidence", "entries")


@pytest.mark.parametrize("name", WORLDS)
@settings(deadline=None, max_examples=40)
@given(data=st.data())
def test_a_removed_fact_never_helps(name: str, data: st.DataObject) -> None:
    world = WORLDS[name]
    state = tuple(
        data.draw(st.integers(0, n - 1).map(lambda v: v // 2)) for n in world.dimensions()
    )
    key = data.draw(st.sampled_from(KEYS))
    if passes(world.tree(state, key)):
        assert passes(world.tree(state)), (key, world.tree(state))


FACTS = {
    "device": st.sampled_from(
        ("squirrel-cage motor", "relay", "heater", "transformer", "receptacle")
    ),
    "arcing": st.booleans(),
    "contact_protection": st.sampled_from(("hermetically sealed", "none")),
    "enclosure": st.sampled_from(("totally enclosed", "dusttight", "open")),
    "heat_producing": st.booleans(),
    "inverter_fed": st.booleans(),
    "space_heater": st.booleans(),
    "overloadable": st.booleans(),
    "surface_temperature": st.sampled_from(("100 °C", "150 °C", "170 °C", "300 °C")),
    "ambient": st.sampled_from(("-40..60 °C", "10..30 °C")),
    "marking": st.sampled_from(
        (
            "none",
            "Class I, Division 2, Groups C, D T4",
            "Class I, Division 2, Groups C, D",
            "Type Z pressurization",
            "Type X pressurization",
        )
    ),
    "pressurization": st.fixed_dictionaries(
        {},
        optional={
            "contents": st.sampled_from(("general purpose", "Division 2")),
            "on_loss": st.sampled_from(("power cut", "alarm", "nothing")),
        },
    ).filter(bool),
    "evidence": st.just(EVIDENCE),
}
D2 = ("Class I, Division 2, Group D", "Class I, Division 1, Group D")
FIBRES = ("Class III, Division 2", "Class III, Division 1")


def device(area: str, facts: Tree) -> Tree:
    gas = area.startswith("Class I,")
    place = {
        "area": area,
        "ambient": "0..40 °C",
        "substances": ["n-hexane"] if gas else "none",
        "document": "AC-1",
    }
    return {
        "areafit": 1,
        "assembly": {"number": "W-1"},
        "code": "NEC",
        "locations": {"case": place},
        "parts": [{"item": "1", "location": "case", "kind": "electrical", **facts}],
    }


@pytest.mark.parametrize("areas", [D2, FIBRES], ids=["gas", "fibres"])
@settings(deadline=None, max_examples=250)
@given(facts=st.fixed_dictionaries({}, optional=FACTS), data=st.data())
def test_devices_without_a_fact_or_in_division_1(
    areas: tuple[str, str], facts: Tree, data: st.DataObject
) -> None:
    if passes(device(areas[1], facts)):
        assert passes(device(areas[0], facts))
    if facts:
        key = data.draw(st.sampled_from(sorted(facts)))
        if key in {"ambient", "device", "inverter_fed"} and facts.get("marking", "none") != "none":
            return
        fewer = {k: v for k, v in facts.items() if k != key}
        if passes(device(areas[0], fewer)):
            assert passes(device(areas[0], facts)), (key, facts)


def test_devices_do_pass_somewhere() -> None:
    facts = {
        "marking": "none",
        "device": "relay",
        "arcing": True,
        "contact_protection": "hermetically sealed",
        "surface_temperature": {"value": "100 °C", "at_ambient": "40 °C"},
        "ambient": "-40..60 °C",
    }
    assert passes(device(D2[0], facts))


PLACE_STEPS: tuple[tuple[str, tuple[Any, ...]], ...] = (
    ("area", ("Zone 2, IIB, T2", "Zone 2, IIA, T2", "Zone 2, IIB, T1")),
    ("substances", (["ethanol"], ["ethanol", "hydrogen"], ["ethanol", "oxygen"])),
    ("ambient", ("5..40 °C", "5..65 °C", "-30..65 °C")),
    ("pressure", ("100 kPa", "3 bar")),
    ("oxygen", ("21 %", "30 %")),
    ("chemicals", ("none", ["ozone"])),
)


def place_passes(state: tuple[int, ...], dropped: str | None = None) -> bool:
    place = {key: steps[n] for (key, steps), n in zip(PLACE_STEPS, state, strict=True)}
    place["document"] = "AC-1"
    place.pop(dropped or "", None)
    tree = {
        "areafit": 1,
        "assembly": {"number": "W-1"},
        "code": "IEC",
        "locations": {"case": place},
        "parts": [{"item": "1", "location": "case", "kind": "structural"}],
    }
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "world.yaml")
    report = judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1), only=PLACES))
    return report.places[0].verdict is Verdict.PASS


def test_places_never_get_better_by_getting_worse() -> None:
    """Every single step, and every fact left out; `pressure` and `oxygen` are claims about the
    air and stand for free air where they are not made."""
    best = tuple(0 for _ in PLACE_STEPS)
    assert place_passes(best)
    for which, (key, steps) in enumerate(PLACE_STEPS):
        for step in range(1, len(steps)):
            assert not place_passes(tuple(step if i == which else 0 for i in range(len(best))))
        if key not in ("pressure", "oxygen"):
            assert not place_passes(best, key)
    assert not place_passes(best, "document")
