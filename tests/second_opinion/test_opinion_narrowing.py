"""Facts that nobody must state count when they are: each closes the gate of a list that passes.

Source of the property: the project's own principle (fail closed); no standard states it. The
keys are those that DEVELOPERS.md names as lifting only their own objection.
"""

import json
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.tables import Tables

Tree = dict[str, Any]
STEEL = {
    "component": "body",
    "material": "316",
    "exposure": "room",
    "welded": False,
    "crevice": False,
    "stressed": False,
}
COMMON = {"materials_complete": True, "contacts": "none", "bonded": True, "location": "spot"}
CERTIFICATE = {"type": "certificate", "number": "IECEx QQQ 21.0001"}


def world(place: Tree, electrical: Tree, fixed: Tree, document: Tree, material: Tree) -> Tree:
    """A list of one electrical and one fixed part, each with further facts."""
    return {
        "areafit": 1,
        "assembly": {"number": "W-1", "assessment": "IHA-1"},
        "code": "IEC",
        "locations": {
            "spot": {
                "area": "Zone 1, IIA, T3",
                "substances": [{"name": "n-hexane"}],
                "chemicals": "none",
                "ambient": "0..40 °C",
                "document": "AC-1",
                **place,
            }
        },
        "parts": [
            {
                "item": "1",
                "kind": "electrical",
                "part_number": "PN-1",
                "marking": "Ex db IIB T4 Gb",
                "ingress": "IP66",
                "entries": "none",
                "evidence": [{**CERTIFICATE, **document}],
                "materials": [STEEL],
                **COMMON,
                **electrical,
            },
            {
                "item": "2",
                "kind": "structural",
                "materials": [{**STEEL, **material}],
                **COMMON,
                **fixed,
            },
        ],
    }


def opens(**more: Tree) -> bool:
    """Whether the gate opens."""
    facts: dict[str, Tree] = {
        name: more.get(name, {})
        for name in ("place", "electrical", "fixed", "document", "material")
    }
    bom = areafit.read(json.dumps(world(**facts)).encode(), "world.yaml")
    return judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1))).passes


AGAINST = [
    ("place", "ingress", "IP68"),
    ("place", "required_epl", "Ga"),
    ("place", "pressure", "300 kPa"),
    ("place", "oxygen", "25 %"),
    ("place", "substances", [{"name": "n-hexane", "autoignition": "50 °C", "source": "SDS"}]),
    ("place", "substances", [{"name": "n-hexane", "temperature": "90 °C"}]),
    ("electrical", "ambient", "0..30 °C"),
    ("electrical", "surface_temperature", "400 °C"),
    ("electrical", "resistance_to_earth", "1e9 ohm"),
    ("electrical", "optical_power", "2 W"),
    ("electrical", "battery", {"charged": "inside the area"}),
    ("electrical", "description", "Sensor with battery"),
    ("fixed", "brake", {"use": "parking", "interlocked": False}),
    ("fixed", "slip", "possible"),
    ("fixed", "liquid", {"flash_point": "60 °C", "hottest": "80 °C"}),
    ("electrical", "optical_irradiance", "1 W/mm²"),
    ("electrical", "radio_power", "20 W"),
    ("electrical", "ultrasound_intensity", "1 W/cm²"),
    ("electrical", "description", "Laser scanner"),
    ("fixed", "surface_temperature", "400 °C"),
    ("fixed", "rubbing_speed", "20 m/s"),
    ("fixed", "drop_height", "3 m"),
    ("fixed", "electrical_content", "coil"),
    ("document", "valid_until", "2020-01-01"),
    ("document", "level", "Gc"),
    ("document", "ambient", "0..20 °C"),
    ("document", "covers", "PN-2"),
    ("document", "conditions", [{"text": "keep dry", "met": False}]),
    ("material", "temperature", "900 °C"),
    ("material", "form", "belt"),
    ("material", "surface_resistance", "1e15 ohm"),
    ("material", "composition", {"Mg": "95 %"}),
    ("material", "to", ["nobody lists this"]),
]


def test_without_them_the_list_passes() -> None:
    assert opens()


@pytest.mark.parametrize(("where", "key", "value"), AGAINST)
def test_a_fact_stated_against_the_list_counts(where: str, key: str, value: object) -> None:
    assert not opens(**{where: {key: value}})


def test_a_stainless_counterface_counts_for_what_runs_in_it() -> None:
    assert opens(material={"component": "sleeve"})
    assert not opens(material={"component": "sleeve", "counterface": "316"})


def test_heat_tint_counts_where_chloride_does() -> None:
    water = {"chemicals": [{"name": "tap water", "chloride": "150 mg/L", "temperature": "20 °C"}]}
    wet = {"exposure": "immersed", "welded": True}
    assert opens(place=water, material={**wet, "finish": "pickled"})
    assert not opens(place=water, material={**wet, "finish": "as welded"})
    assert not opens(place=water, material=wet)
    assert opens(place=water, material={"exposure": "immersed"})


def test_a_component_that_holds_pressure_counts_in_the_cold() -> None:
    cold = {"ambient": "-30..20 °C", "atmosphere": "normal"}
    certified = {"ambient": "-40..40 °C"}
    bolt = {"material": "8.8", "component": "bolt"}
    assert opens(place=cold, document=certified, material=bolt)
    assert not opens(place=cold, document=certified, material={**bolt, "component": "flange bolt"})
