"""What the rules on static, light metals and earth say, and what they ask for."""

from collections.abc import Callable
from typing import Any

import pytest
from ruamel.yaml import YAML

from areafit.rule import Judgement
from areafit.verdict import Role, Verdict

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
        (
            "marking: [Ex db IIB T4 Gb, Ex h IIB T4]",
            "area: 'Zone 1, IIB, T3'",
            "not shown to reach",
        ),
        (
            "marking: [Ex db IIB T4 Gb, Ex h IIIC T120 °C Db]",
            "area: 'Zone 1, IIB, T3'",
            "for another hazard",
        ),
        ("marking: [Ex db IIB T4 Gb, Ex h IIB]", "area: 'Zone 1, IIB, T3'", "electrical half"),
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


@pytest.mark.parametrize(
    ("device", "place", "law", "verdict"),
    [
        ("switch", "area: 'Zone 1, IIC, T6', ambient: 0..40 °C", "IEC", Verdict.PASS),
        ("junction box", "area: 'Zone 0, IIC, T4', ambient: 0..40 °C", "ATEX", Verdict.PASS),
        ("switch", "area: 'Zone 1, IIC, T6', ambient: 0..50 °C", "IEC", Verdict.UNPROVEN),
        ("switch", "area: 'Zone 21, IIIB, T80 °C', ambient: 0..40 °C", "IEC", Verdict.UNPROVEN),
        ("resistor", "area: 'Zone 1, IIC, T4', ambient: 0..40 °C", "IEC", Verdict.UNPROVEN),
    ],
)
def test_a_switch_as_simple_apparatus_is_taken_as_85_degrees(
    say: Callable[..., Verdict], device: str, place: str, law: str, verdict: Verdict
) -> None:
    # IEC 60079-11:2011 5.7, from memory: T6 at 40 °C for what holds nothing that heats
    part = f"kind: simple apparatus, device: {device}, generates: none"
    assert say("hot-surface", part, place, law) is verdict


@pytest.mark.parametrize(
    ("part", "asked"),
    [
        ("kind: mechanical, marking: Ex h IIB T4 Gc", False),  # the level is flagged
        ("kind: mechanical, marking: Ex h IIA T4 Gb", False),  # the group
        ("kind: mechanical, marking: Ex h IIIC T120 °C Db", False),  # the hazard
        ("kind: mechanical, marking: Ex h IIB T4", True),  # nothing is flagged, the level open
        ("kind: mechanical", True),
    ],
)
def test_of_a_plate_that_is_flagged_nothing_more_is_asked(
    say: Callable[..., Verdict], part: str, *, asked: bool
) -> None:
    # Common practice, no source: the part goes back, and the next one brings its own plate.
    def is_open(rule: str, more: str = "") -> bool:
        verdict = say(rule, f"{part}{more}", "area: 'Zone 1, IIB, T3'")
        return verdict in {Verdict.UNPROVEN, Verdict.FLAG}

    aluminium = ", materials: [{component: housing, material: aluminium}]"
    assert [is_open(rule) for rule in ("hot-surface", "rubbing-speed", "impact")] == [asked] * 3
    assert is_open("rubbing-speed", ", rubbing_speed: 5 m/s") is asked
    assert is_open("light-metal", aluminium) is asked
    assert is_open("static-surface", ", materials: [{component: cover, material: PC}]") is asked
    # What moves behind an electrical plate is its designer's, whichever plate comes.
    wired = f"kind: [electrical, mechanical], marking: Ex db IIB T4 {'Gb' if asked else 'Gc'}"
    assert say("rubbing-speed", f"{wired}, rubbing_speed: 5 m/s", "area: 'Zone 1, IIB, T3'") is (
        Verdict.FLAG
    )
    # What is over for sure is told of any part.
    hot = ", surface_temperature: {value: 300 °C, case: normal}"
    assert is_open("hot-surface", hot) is ("T4 Gb" not in part)  # there the class speaks
    assert is_open("light-metal", ", materials: [{component: housing, material: AZ91}]")


LIGHT = "kind: electrical, marking: Ex db IIB T4 Gb"
CERTIFICATE = "evidence: [{type: certificate, number: IECEx ABC 21.0001}]"


@pytest.mark.parametrize(
    ("more", "asked"),
    [
        (CERTIFICATE, True),  # and passes by it
        ("evidence: none", False),
        ("evidence: [{type: certificate, number: tbd}]", False),
        (f"{CERTIFICATE}, ambient: 0..30 °C", False),
    ],
)
def test_the_metal_of_a_housing_waits_for_its_papers(
    judging: Judging, more: str, *, asked: bool
) -> None:
    """IEC 60079-0:2017 8 is examined with the equipment; from memory."""
    part = YAML(typ="safe").load(f"{{{LIGHT}, {more}}}")
    found = judging("light-metal", part, {"area": ZONE, "ambient": "-20..40 °C"})
    assert bool(found) is asked
    assert all(each.verdict is Verdict.PASS for each in found)


def test_what_is_listed_of_a_housing_is_judged_without_papers(judging: Judging) -> None:
    part = YAML(typ="safe").load(f"{{{LIGHT}, evidence: none, materials: [{{material: AZ91}}]}}")
    assert judging("light-metal", part, ZONE)[0].verdict is Verdict.FLAG


@pytest.mark.parametrize("rule", ["ignition-hazard", "impact", "hand-tools", "loose-parts"])
@pytest.mark.parametrize(
    ("part", "asked"),
    [
        ("{kind: loose item, description: Gas monitor, marking: Ex ia IIC T4 Ga}", False),
        ("{kind: loose item, description: Gas monitor}", True),
        ("{kind: [electrical, loose item], marking: Ex ic IIC T4 Gc}", False),
        ("{kind: [electrical, loose item], marking: Ex ia IIC T4 Ga, evidence: none}", False),
        ("{kind: [electrical, loose item], description: Hammer}", True),
        ("{kind: loose item, description: Puller, marking: Ex h IIC T4 Gb}", True),
    ],
)
def test_what_an_electrical_plate_answers_is_not_asked_as_of_a_tool(
    judging: Judging, rule: str, part: str, *, asked: bool
) -> None:
    """IEC 60079-0:2017 26.4.3 drops what is carried; what it lacks holds the part. From memory."""
    assert bool(judging(rule, YAML(typ="safe").load(part), ZONE)) is asked
