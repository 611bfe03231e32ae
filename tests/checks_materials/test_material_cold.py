"""Steel in the cold: fasteners by their class, structural steel by subgrade, the rest open.

ISO 898-1 (use of fasteners from -50 °C), EN 10025 (impact tests: JR at +20 °C, J0 at 0 °C, J2 at
-20 °C, NL and ML at -50 °C), EN 1993-1-10 (thickness and load below): all from memory.
"""

from typing import Any

import pytest

from areafit.tables import Tables
from areafit.tables.materials import SteelToughness
from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN


def serves(ask: Any, material: str, coldest: int, **more: str) -> Any:
    use = {"material": material, "exposure": "room", **more}
    place = {"ambient": f"{coldest}..40 °C", "chemicals": "none"}
    return ask("material-temperature", place, {"materials": [use]})


@pytest.mark.parametrize("material", ["carbon steel", "zinc-plated steel", "HDG"])
@pytest.mark.parametrize("grade", ["8.8", "10.9", "5.6"])
def test_fasteners_serve_by_their_property_class(ask: Any, material: str, grade: str) -> None:
    for component in ("screw", "hex bolts"):
        for coldest, expected in ((-20, PASS), (-30, PASS), (-50, PASS), (-51, FLAG)):
            use = {"component": component, "property_class": grade}
            found = serves(ask, material, coldest, **use)
            assert found.verdict is expected, found.text


@pytest.mark.parametrize("name", ["8.8", "12.9", "10.9", "property class 8.8"])
def test_a_class_as_the_name_of_the_material_counts(ask: Any, name: str) -> None:
    assert serves(ask, name, -40).verdict is PASS
    assert serves(ask, name, -60).verdict is FLAG


def test_a_screw_without_a_class_is_asked_for_it(ask: Any) -> None:
    open_ = serves(ask, "zinc-plated steel", -30, component="screw")
    assert open_.verdict is UNPROVEN
    assert "property_class" in open_.decisive.remedy
    assert serves(ask, "zinc-plated steel", -20, component="screw").verdict is PASS


def test_a_class_of_something_that_is_no_fastener_shows_nothing(ask: Any) -> None:
    use = {"component": "bracket", "property_class": "8.8"}
    assert serves(ask, "carbon steel", -30, **use).verdict is UNPROVEN


@pytest.mark.parametrize("steel", ["carbon steel", "S235JR", "S355J2", "C45", "hard chrome", "HDG"])
def test_structural_steel_is_open_below_20_degrees_of_frost(ask: Any, steel: str) -> None:
    assert serves(ask, steel, -20).verdict is PASS
    open_ = serves(ask, steel, -21)
    assert open_.verdict is UNPROVEN, open_.text
    assert "EN 1993-1-10" in open_.decisive.remedy


@pytest.mark.parametrize("component", ["flange", "pressure vessel shell", "valve body", "pipe"])
def test_pressure_parts_are_for_their_design_code(ask: Any, component: str) -> None:
    open_ = serves(ask, "carbon steel", -30, component=component)
    assert open_.verdict is UNPROVEN
    assert "design code" in open_.text
    # the class of a flange's bolts is no answer either
    use = {"component": "flange bolts", "property_class": "8.8"}
    assert serves(ask, "carbon steel", -30, **use).verdict is UNPROVEN


def test_subgrades_are_tested_where_the_standard_says() -> None:
    tested = {
        row.subgrade: int(row.tested_c)
        for row in Tables.shipped().rows("steel_toughness", SteelToughness)
    }
    assert (tested["JR"], tested["J0"], tested["J2"]) == (20, 0, -20)
    assert tested["NL"] == tested["ML"] == -50


def test_cast_iron_and_springs_keep_their_limits(ask: Any) -> None:
    assert serves(ask, "EN-GJL-250", -25).verdict is FLAG
    assert serves(ask, "304", -100).verdict is PASS
    assert serves(ask, "spring steel", -30, component="spring").verdict is UNPROVEN


def test_colder_never_helps_and_no_fact_less_passes_more(ask: Any) -> None:
    order = [PASS, UNPROVEN, FLAG]
    for use in ({"component": "screw", "property_class": "8.8"}, {"component": "screw"}, {}):
        found = [order.index(serves(ask, "8.8", t, **use).verdict) for t in (-10, -30, -50, -70)]
        assert found == sorted(found)
