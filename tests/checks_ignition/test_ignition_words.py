"""What the rules on static, light metals and earth say, and what they ask for."""

from collections.abc import Callable
from typing import Any

import pytest

from areafit.rule import Judgement
from areafit.verdict import Role

Judging = Callable[..., list[Judgement]]
ZONE = "Zone 1, IIB, T3"


def part(material: str | None, **more: Any) -> dict[str, Any]:
    listed = {} if material is None else {"materials": [{"material": material, **more}]}
    return {"kind": "structural", **listed}


NEITHER = "and neither `surface_resistance` nor `surface_area` is stated."


@pytest.mark.parametrize(
    ("material", "message"),
    [
        ("PVC", "PVC insulates, and the size of its surface is not stated."),
        ("NBR", f"NBR may insulate, by filler or moisture, {NEITHER}"),
    ],
)
def test_a_surface_of_no_known_size_is_said_in_a_sentence(
    judging: Judging, material: str, message: str
) -> None:
    assert judging("static-surface", part(material), ZONE)[0].message == message


def test_a_surface_that_may_insulate_is_over_the_limit_if_it_does(judging: Judging) -> None:
    found = judging("static-surface", part("NBR", surface_area="1 m²"), ZONE)[0]
    assert (
        found.message
        == "NBR may insulate, by filler or moisture, and is over the limit if it does."
    )


@pytest.mark.parametrize("rule", ["static-surface", "light-metal"])
def test_a_misspelt_material_is_said_to_be_one(judging: Judging, rule: str) -> None:
    found = judging(rule, part("gray cast irn"), ZONE)[0]
    assert "'gray cast irn' is in no table" in found.message
    assert "Nearest known: gray cast iron" in found.message
    assert found.remedy.startswith("Use a known name, such as gray cast iron")


@pytest.mark.parametrize("rule", ["static-surface", "light-metal"])
def test_materials_that_are_missing_are_asked_for(judging: Judging, rule: str) -> None:
    assert judging(rule, part(None), ZONE)[0].remedy.startswith("State `materials`")


def test_a_group_beyond_the_declared_one_is_explained(judging: Judging) -> None:
    place = {
        "area": ZONE,
        "substances": ["toluene"],
        "chemicals": [{"name": "caustic soda", "concentration": "2 %", "temperature": "60 °C"}],
    }
    for rule in ("static-surface", "bonding"):
        found = judging(rule, part("EN AW-6060", exposure="splash"), place)[0]
        assert "IIC: hydrogen from caustic soda on EN AW-6060)" in found.required
    plain = judging("static-surface", part("PVC"), ZONE)[0]
    assert "(EPL Gb, IIB)" in plain.required


def test_a_surface_over_the_limit_names_its_group_once(judging: Judging) -> None:
    (found,) = judging(
        "static-surface",
        part("polycarbonate", surface_area="150 cm²"),
        "Class I, Division 2, Group D",
        law="NEC",
    )
    assert found.message == "polycarbonate insulates, and its surface is over the limit."
    assert "(EPL Gc, IIB)" in found.required
    assert found.remedy.startswith("Make the surface smaller than the limit, choose")
    assert found.answer_by is Role.DESIGNER


def test_where_the_milder_group_would_do_no_better_it_is_said(judging: Judging) -> None:
    (found,) = judging(
        "static-surface", part("polycarbonate", surface_area="150 cm²"), "Zone 1, T3"
    )
    assert found.message.endswith("even that of IIA.")


def test_the_supplier_answers_for_what_is_bought(judging: Judging) -> None:
    bought = {**part("PVC"), "kind": "mechanical"}
    assert judging("static-surface", bought, ZONE)[0].answer_by is Role.SUPPLIER


@pytest.mark.parametrize(
    ("marking", "place", "words"),
    [
        ("", "area: 'Zone 1, IIB, T3'", "No temperature class is marked"),
        ("marking: Ex db IIB T4 Gb", "area: 'Zone 1, IIB, T3'", "of the electrical half"),
        ("marking: Ex h IIB T4 Gc", "area: 'Zone 1, IIB, T3'", "for a lower level"),
        ("marking: Ex h IIIC T120 °C Db", "area: 'Zone 1, IIB, T3'", "for another hazard"),
        ("marking: Ex h IIB Gb", "area: 'Zone 1, IIB, T3'", "No temperature class is marked"),
    ],
)
def test_what_is_said_of_the_class_is_true_of_the_plate(
    tell: Callable[..., str], marking: str, place: str, words: str
) -> None:
    # ISO 80079-36:2016 6.2, 11: the class is that of the equipment and level that the plate names
    part = "kind: [electrical, mechanical]" + (f", {marking}" if marking else "")
    assert words in tell("hot-surface", part, place)
    if marking and "No temperature" not in words:
        assert "No temperature class" not in tell("hot-surface", part, place)
