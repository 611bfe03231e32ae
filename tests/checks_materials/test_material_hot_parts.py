"""A part that is hotter than what wets it is judged at its own heat.

Sources stand at each test; `from memory`: textbook knowledge, not read again.
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
LOADED = {"welded": True, "stressed": True}


def test_caustic_cracks_the_wall_of_a_heater(resist: Any) -> None:
    # caustic cracking of austenitic steel from about 100-120 °C: NACE caustic chart, from memory
    bath = ("304", "sodium hydroxide", "5 %", "40 °C")
    assert resist(*bath, of_material=LOADED).verdict is PASS
    hot = resist(*bath, of_material=LOADED | {"temperature": "130 °C"})
    assert hot.verdict is FLAG
    assert "40..130 °C by the heat of the part itself" in hot.text


@pytest.mark.parametrize("exposure", ["immersed", "splash", "washdown", "fume"])
def test_what_is_wetted_has_the_heat_of_its_surface(resist: Any, exposure: str) -> None:
    # PVC-U serves to 60 °C, in ammonia water too: charts of pipe makers, from memory
    water = ("PVC-U", "ammonia solution", "10 %", "20 °C", exposure)
    assert resist(*water).verdict is PASS
    assert resist(*water, of_material={"temperature": "75 °C"}).verdict is not PASS


def test_a_hot_part_in_the_air_of_a_room_stays_drier(resist: Any) -> None:
    # common practice, no source: what is warmer than the room is not condensed upon
    room = ("304", "sodium hydroxide", "5 %", "40 °C", "room")
    assert resist(*room, of_material={"temperature": "130 °C"}).verdict is PASS


def test_a_cooled_part_is_judged_at_the_heat_of_the_bath(resist: Any) -> None:
    # fail closed: what cools a wall may stop
    bath = ("PVC-U", "nitric acid", "10 %", "75 °C")
    warm, cooled = resist(*bath), resist(*bath, of_material={"temperature": "5..20 °C"})
    assert warm.verdict is cooled.verdict is not PASS


@pytest.mark.parametrize(
    ("material", "surface", "expected"),
    [
        ("316L", "30 °C", PASS),
        ("316L", "70 °C", FLAG),  # external cracking of hot pipe by the sea, 50-60 °C: SSINA
        ("304", "70 °C", FLAG),
        ("2205", "70 °C", PASS),  # duplex typically to 80-100 °C: from memory
    ],
)
def test_salt_air_cracks_what_is_hot(
    ask: Any, material: str, surface: str, expected: Verdict
) -> None:
    use = {"material": material, "exposure": "immersed", "temperature": surface, **LOADED}
    air = {"chemicals": [{"name": "marine air"}], "ambient": "0..35 °C"}
    assert ask("stress-corrosion", air, {"materials": [use]}).verdict is expected
