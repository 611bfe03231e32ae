"""Whole lists of certified equipment: they pass as a reviewer would sign them, and only as stated.

Source of the property: the project's own principles (fail closed, monotone); no standard states it.
What the parts bear is common practice: a luminaire with a cover of polycarbonate, a GRP box, a coil
with its X met, a level transmitter in the wall of a vessel, a module in a cabinet; in Division 1 a
listed luminaire, a splice box with small conduit, an assessed gearbox.
"""

from typing import Any

import pytest
from properties_world import Tree, leaves, opens, replaced, run, without

_GLAND = {
    "type": "cable gland",
    "marking": "II 2G Ex eb IIC Gb -40°C ≤ Ta ≤ +80°C",
    "thread": "M20x1.5",
    "hole": "M20x1.5",
    "ingress": "IP66",
}
_DONE = {"materials_complete": True, "bonded": True, "contacts": "none"}


def _papers(number: str, **more: Any) -> list[Tree]:
    return [
        {"type": "certificate", "number": number, **more},
        {"type": "declaration", "number": f"DC-{number[-4:].strip()}"},
    ]


_PLACE = {
    "substances": ["ethanol"],
    "ambient": "5..40 °C",
    "chemicals": "none",
    "document": "AC-1",
    "atmosphere": "normal",
}
_ZONE_1: Tree = {
    "areafit": 1,
    "assembly": {"number": "Z-1", "assessment": "IHA-9"},
    "code": "ATEX",
    "edition": "2014",
    "locations": {
        "hall": {"area": "Zone 1, IIB, T3", "ingress": "IP54", **_PLACE},
        "vessel": {"area": "Zone 0, IIB, T3", **_PLACE},
    },
    "parts": [
        {
            "item": "1",
            "location": "hall",
            "kind": "electrical",
            "part_number": "LU-1",
            "device": "luminaire",
            "marking": "II 2G Ex db eb IIC T4 Gb -20°C ≤ Ta ≤ +50°C",
            "ingress": "IP66",
            "evidence": _papers("ABC 21 ATEX 0001"),
            "materials": [
                {
                    "component": "cover",
                    "material": "PC",
                    "exposure": "room",
                    "surface_area": "900 cm²",
                },
                {"component": "housing", "material": "aluminium 6082", "exposure": "room"},
            ],
            "entries": [{**_GLAND, "into": "e"}],
            **_DONE,
        },
        {
            "item": "2",
            "location": "hall",
            "kind": "electrical",
            "part_number": "JB-1",
            "device": "junction box",
            "marking": "II 2G Ex eb IIC T6 Gb",
            "ingress": "IP66",
            "evidence": _papers("ABC 21 ATEX 0002", covers="JB-1 with TB-4"),
            "materials": [
                {
                    "component": "box",
                    "material": "GRP",
                    "exposure": "room",
                    "surface_area": "700 cm²",
                }
            ],
            "inside_ambient": "5..45 °C",
            "entries": [_GLAND],
            **_DONE,
        },
        {
            "item": "3",
            "location": "hall",
            "kind": "electrical",
            "part_number": "SV-1",
            "device": "solenoid",
            "marking": "II 2G Ex mb IIC T4 Gb X",
            "ingress": "IP65",
            "evidence": _papers(
                "ABC 21 ATEX 0003 X",
                conditions=[{"text": "avoid static charge", "met_by": "sign", "document": "MAN-4"}],
            ),
            "materials": [
                {
                    "component": "coil",
                    "material": "epoxy",
                    "exposure": "room",
                    "surface_area": "400 cm²",
                }
            ],
            **_DONE,
        },
        {
            "item": "4",
            "location": ["vessel", "hall"],
            "process_side": "vessel",
            "kind": "electrical",
            "part_number": "LT-1",
            "marking": "II 1/2G Ex ia/db IIC T6 Ga/Gb",
            "intrinsic_safety": "inside only",
            "ingress": "IP67",
            "evidence": _papers("ABC 21 ATEX 0004"),
            "materials": [
                {"component": "housing", "material": "aluminium 6082", "exposure": "room"}
            ],
            "entries": [{**_GLAND, "marking": "II 2G Ex db IIC Gb -40°C ≤ Ta ≤ +80°C"}],
            **_DONE,
        },
        {
            "item": "5",
            "location": "hall",
            "kind": "electrical",
            "part_number": "TB-4",
            "marking": "II 2G Ex eb IIC Gb U",
            "inside": "2",
            "ambient": "-40..80 °C",
            "evidence": _papers("ABC 21 ATEX 0005 U"),
            "materials": [{"component": "body", "material": "PA", "exposure": "enclosed"}],
            **_DONE,
        },
    ],
}
_LISTED: Tree = {"type": "listing", "number": "E-1"}
_SEAL = {
    "type": "conduit seal",
    "marking": "Class I, Division 1, Groups C, D",
    "thread": "NPT 3/4",
    "hole": "NPT 3/4",
    "ingress": "Type 4X",
}
_DIVISION_1: Tree = {
    "areafit": 1,
    "assembly": {"number": "D-1", "assessment": "IHA-9"},
    "code": "NEC",
    "edition": "2023",
    "locations": {"head": {"area": "Class I, Division 1, Group D", "required_epl": "Gb", **_PLACE}},
    "parts": [
        {
            "item": "1",
            "location": "head",
            "kind": "electrical",
            "part_number": "LU-1",
            "device": "luminaire",
            "marking": "Class I, Division 1, Groups C, D T4",
            "ingress": "Type 4X",
            "evidence": [_LISTED],
            "materials": [
                {
                    "component": "cover",
                    "material": "PC",
                    "exposure": "room",
                    "surface_area": "900 cm²",
                },
                {"component": "housing", "material": "aluminium 6061", "exposure": "room"},
            ],
            "entries": [{**_SEAL, "within": "4 in"}],
            **_DONE,
        },
        {
            "item": "2",
            "location": "head",
            "kind": "electrical",
            "part_number": "JB-1",
            "device": "junction box",
            "marking": "Class I, Division 1, Groups C, D T6",
            "ingress": "Type 4X",
            "evidence": [_LISTED],
            "materials": [{"component": "box", "material": "aluminium 6061", "exposure": "room"}],
            "entries": [{**_SEAL, "trade_size": "3/4"}],
            **_DONE,
        },
        {
            "item": "3",
            "location": "head",
            "kind": "mechanical",
            "electrical_content": "none",
            "evidence": [{"type": "assessment", "number": "IHA-3", "level": "Gb"}],
            "materials": [
                {
                    "component": "housing",
                    "material": "aluminium 6061",
                    "exposure": "room",
                    "counterface": "none",
                }
            ],
            "drive": "pneumatic",
            "air_supply": {
                "source": "outside the area",
                "exhaust": "outside the area",
                "on_loss": "safe",
            },
            "rubbing_speed": "0.5 m/s",
            "drop_height": "none",
            "end_stops": "damped",
            "loose_parts": "contained",
            "protects": False,
            "surface_temperature": {
                "value": "60 °C",
                "at_ambient": "40 °C",
                "case": "expected malfunction",
                "source": "TR-1",
            },
            **_DONE,
        },
    ],
}
_LISTS = {"zone 1": _ZONE_1, "division 1": _DIVISION_1}
Change = tuple[str, tuple[Any, ...], Any]
_WORSE: tuple[Change, ...] = (
    ("zone 1", ("parts", 0, "materials", 0, "component"), "rain cover"),
    ("zone 1", ("parts", 0, "evidence", 0, "number"), "to follow"),
    ("zone 1", ("parts", 0, "evidence", 0, "number"), "ABC 21 ATEX 0001 U"),
    ("zone 1", ("parts", 0, "evidence", 0, "number"), "IECEx ABC 21.0001"),
    ("zone 1", ("parts", 0, "marking"), "II 2G Ex db eb IIA T4 Gb"),
    ("zone 1", ("parts", 0, "entries", 0, "into"), "d"),
    ("zone 1", ("parts", 1, "ingress"), "IP44"),
    ("zone 1", ("parts", 1, "evidence", 0, "covers"), "JB-1"),
    ("zone 1", ("parts", 1, "evidence", 0, "covers"), "TB-4"),
    ("zone 1", ("parts", 1, "inside_ambient"), "5..95 °C"),
    ("zone 1", ("parts", 2, "evidence", 0, "conditions", 0, "document"), "tbd"),
    ("zone 1", ("parts", 2, "materials", 0, "component"), "label"),
    ("zone 1", ("parts", 3, "process_side"), "hall"),
    ("zone 1", ("parts", 3, "marking"), "II 2G Ex db IIC T6 Gb"),
    ("zone 1", ("locations", "hall", "ambient"), "5..60 °C"),
    ("zone 1", ("locations", "hall", "area"), "Zone 0, IIB, T3"),
    ("division 1", ("locations", "head", "required_epl"), "Ga"),
    ("division 1", ("parts", 0, "evidence", 0, "number"), "IECEx ABC 21.0001"),
    ("division 1", ("parts", 0, "marking"), "Class I, Zone 1, AEx db IIB T4 Gb"),
    ("division 1", ("parts", 0, "materials", 0, "component"), "label"),
    ("division 1", ("parts", 0, "entries", 0, "within"), "1 m"),
    ("division 1", ("parts", 1, "entries", 0, "trade_size"), "2"),
    ("division 1", ("parts", 2, "evidence", 0, "number"), "tbd"),
    ("division 1", ("parts", 2, "evidence", 0, "level"), "Gc"),
)
# What a line is: without its number nothing says that a document is for another part.
_KEPT = {"item", "part_number"}
# What is stated against a part only: DEVELOPERS.md names it.
_LIFTS = {"component", "level", "within", "ambient", "inside_ambient", "materials", "required_epl"}


@pytest.mark.parametrize("name", _LISTS)
def test_a_list_that_a_reviewer_would_sign_passes(name: str) -> None:
    report = run(_LISTS[name])
    open_points = [
        f"{one.name}: {each.rule.id}: {each.judgement.message}"
        for one in report.subjects()
        for block in one.blocks
        for each in block.judged
        if not each.judgement.verdict.passes
    ]
    assert open_points == []
    assert report.gate == "pass"


@pytest.mark.parametrize(("name", "path", "value"), _WORSE)
def test_each_defect_closes_the_gate_and_no_fact_less_opens_it(
    name: str, path: tuple[Any, ...], value: Any
) -> None:
    worse = replaced(_LISTS[name], path, value)
    assert not opens(worse)
    opened = [leaf for leaf in leaves(worse) if _asked(leaf, path) and opens(without(worse, leaf))]
    assert opened == []


def _asked(leaf: tuple[Any, ...], path: tuple[Any, ...]) -> bool:
    """Of the line or place that was made worse; but what is stated against a part lifts itself."""
    near = len(leaf) > 1 and leaf[:2] == path[:2]
    return near and leaf[-1] not in _KEPT and not (leaf == path and leaf[-1] in _LIFTS)
