"""Hydrogen from acids and caustics: on the place, and on every electrical part that falls short.

EPA-600/2-80-076 cells 1-23 and 2-23 (acids on sheet metal); caustic on aluminium and zinc is
added by the tables. ISO/IEC 80079-20-1:2017: hydrogen is IIC, NFPA 70-2023 500.6(A)(2): Group B.
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
ACID = {"name": "hydrochloric acid", "concentration": "10 %", "temperature": "25 °C"}
LYE = {"name": "sodium hydroxide", "concentration": "5 %", "temperature": "25 °C"}
STRONG = {"name": "sulfuric acid", "concentration": "98 %", "temperature": "25 °C"}


def place(area: str | None, *chemicals: dict[str, Any]) -> dict[str, Any]:
    stated = {"chemicals": list(chemicals), "substances": ["toluene"], "document": "AC-1"}
    return {**stated, **({"area": area} if area else {})}


def metal(material: str, exposure: str | None = "immersed", **more: Any) -> dict[str, Any]:
    use = {"material": material, **({"exposure": exposure} if exposure else {}), **more}
    return {"materials": [use]}


CASES = [
    ("Zone 1, IIA, T1", ACID, metal("galvanised steel"), FLAG),
    ("Zone 1, IIB+H2, T1", ACID, metal("galvanised steel"), PASS),
    ("Zone 1, IIC, T1", ACID, metal("carbon steel"), PASS),
    ("Zone 1", ACID, metal("carbon steel"), UNPROVEN),
    ("unclassified", ACID, metal("carbon steel"), UNPROVEN),
    (None, ACID, metal("carbon steel"), UNPROVEN),
    ("Zone 1, IIA, T1", ACID, metal("carbon steel", None), UNPROVEN),
    ("Zone 1, IIA, T1", ACID, metal("carbon steel", "fume"), UNPROVEN),
    ("Zone 1, IIA, T1", ACID, metal("carbon steel", "room"), SILENT),
    ("Zone 1, IIA, T1", ACID, metal("304"), SILENT),
    ("Zone 1, IIA, T1", ACID, metal("nickel-plated steel"), UNPROVEN),
    ("Zone 1, IIA, T1", ACID, metal("epoxy coating", substrate="carbon steel"), UNPROVEN),
    ("Zone 1, IIA, T1", ACID, metal("epoxy coating", "fume", substrate="carbon steel"), SILENT),
    ("Zone 1, IIA, T1", LYE, metal("6082", "splash"), FLAG),
    ("Zone 1, IIA, T1", LYE, metal("carbon steel"), SILENT),
    # what does not corrode evolves nothing, as long as the acid stays strong
    ("Zone 1, IIA, T1", STRONG, metal("carbon steel"), SILENT),
    ("Zone 1, IIA, T1", STRONG, metal("carbon steel", "splash"), FLAG),
    # the other chemical of the place does not count where `to` leaves it out
    ("Zone 1, IIA, T1", ACID, metal("6082", to=["toluene"]), SILENT),
]


@pytest.mark.parametrize(("area", "chemical", "part", "expected"), CASES)
def test_the_place(
    ask: Any, area: str | None, chemical: dict[str, Any], part: dict[str, Any], expected: Verdict
) -> None:
    answer = ask("hydrogen-evolution", place(area, chemical), part)
    assert answer.verdict is expected, answer.text


SENSOR = {"kind": "electrical", "marking": "Ex db IIA T1 Gb"}


@pytest.mark.parametrize(
    ("marking", "exposure", "expected"),
    [
        ("Ex db IIA T1 Gb", "immersed", UNPROVEN),  # flag where stated air is too little
        ("Ex db IIC T1 Gb", "immersed", PASS),
        ("Ex db IIB+H2 T1 Gb", "immersed", PASS),
        ("Ex db IIA T1 Gb", "fume", UNPROVEN),
        ("Ex db IIC T1 Gb", "fume", PASS),
        ("Ex db IIA T1 Gb", "room", PASS),
    ],
)
def test_the_electrical_parts(ask: Any, marking: str, exposure: str, expected: Verdict) -> None:
    answer = (
        ask(
            "gas-group",
            place("Zone 1, IIA, T1", ACID),
            {"kind": "electrical", "marking": marking},
            metal("galvanised steel", exposure),
            metal("galvanised steel", "fume"),
        )
        if exposure == "immersed"
        else ask(
            "gas-group",
            place("Zone 1, IIA, T1", ACID),
            {"kind": "electrical", "marking": marking},
            metal("galvanised steel", exposure),
        )
    )
    assert answer.verdict is expected, answer.text


def test_two_systems_in_a_north_american_place(ask: Any) -> None:
    where = place("Class I, Division 1, Group D", ACID)
    part = metal("galvanised steel")
    assert ask("hydrogen-evolution", where, part, law="NEC").verdict is FLAG
    where = place("Class I, Division 1, Groups B and D", ACID)
    assert ask("hydrogen-evolution", where, part, law="NEC").verdict is PASS
    where = place("Class I, Division 1, Group A", ACID)
    assert ask("hydrogen-evolution", where, part, law="NEC").verdict is UNPROVEN


def test_the_items_that_give_off_hydrogen_are_named(ask: Any) -> None:
    zone = place("Zone 1, IIB, T1", LYE)
    parts = (metal("zinc-plated steel", "splash"), *[metal("6082", "splash")] * 7)
    answer = ask("hydrogen-evolution", zone, *parts)
    assert "on 6082 (items 2, 3, 4, 5, 6 and 2 more) and zinc-plated steel (item 1)" in answer.text
    five = ask("hydrogen-evolution", zone, *[metal("6082", "splash")] * 5)
    assert "on 6082 (items 1, 2, 3, 4, 5), and the area" in five.text
    alone = ask("hydrogen-evolution", zone, metal("6082", "splash"))
    assert "Sodium hydroxide makes hydrogen on 6082 (item 1), and the area" in alone.text
