"""What a second reading of the rules on materials found; the source stands at each test."""

from collections.abc import Callable
from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
Say = Callable[..., Verdict]
ACID = (
    "substances: none, ambient: 5..40 °C, "
    "chemicals: [{name: hydrochloric acid, concentration: 30 %, temperature: 40 °C}]"
)


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: structural, exposure: immersed", UNPROVEN),
        ("kind: structural, exposure: room", UNPROVEN),
        ("kind: mechanical, exposure: room", UNPROVEN),
        ("kind: electrical, exposure: splash", UNPROVEN),
        ("kind: electrical, exposure: washdown", UNPROVEN),
        ("kind: electrical", UNPROVEN),
        ("kind: electrical, exposure: enclosed", SILENT),
        ("kind: loose item, exposure: room", SILENT),
    ],
)
def test_a_part_has_a_material(part: str, expected: Verdict, say: Say) -> None:
    # common practice, no source
    said = f"{part}, materials: none, materials_complete: true, contacts: none"
    assert say("materials-listed", said, ACID) is expected


WARM = "substances: [{{name: xylene, temperature: {}}}], ambient: 0..20 °C, chemicals: {}"


@pytest.mark.parametrize("exposure", ["immersed", "splash"])
def test_a_liquid_that_burns_brings_its_own_temperature(exposure: str, say: Say) -> None:
    # the list: each substance counts as a chemical too; common practice, no source
    part = f"kind: structural, materials: [{{material: FKM, exposure: {exposure}}}]"
    assert say("chemical-resistance", part, WARM.format("20 °C", "none")) is PASS
    assert say("chemical-resistance", part, WARM.format("59 °C", "none")) is UNPROVEN


def test_the_hotter_of_two_temperatures_of_one_liquid_counts(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{material: FKM, exposure: immersed}]"
    cool = "[{name: xylene, concentration: 100 %, temperature: 20 °C}]"
    assert say("chemical-resistance", part, WARM.format("20 °C", cool)) is PASS
    assert say("chemical-resistance", part, WARM.format("59 °C", cool)) is UNPROVEN


def test_vapour_has_the_temperature_of_the_air(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{material: FKM, exposure: fume}]"
    assert say("chemical-resistance", part, WARM.format("59 °C", "none")) is PASS


def test_a_hot_substance_is_held_against_the_service_temperature(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{{material: PVC-U, exposure: {}}}]"
    place = WARM.format("90 °C", "none")
    assert say("material-temperature", part.format("immersed"), place) is FLAG
    assert say("material-temperature", part.format("room"), place) is PASS


PLAIN = (
    "xylene",
    "methyl ethyl ketone",
    "n-heptane",
    "white spirit",
    "kerosene",
    "diesel",
    "1-butanol",
    "acetone",
    "ethanol",
    "isopropanol",
    "n-hexane",
    "toluene",
)
INERT = (
    *("303", "304", "304L", "316", "316L", "316Ti", "321", "S235JR", "EN-GJL-250", "EN-GJS-400"),
    *("AL-6061", "EN AW-6063", "AL-6082", "AlSi10Mg", "PTFE", "borosilicate glass"),
)


@pytest.mark.parametrize("material", INERT)
@pytest.mark.parametrize("solvent", PLAIN)
def test_metals_ptfe_and_glass_stand_plain_solvents(solvent: str, material: str, say: Say) -> None:
    # corrosion textbooks, from memory: dry, neutral and not hot
    part = f"kind: structural, materials: [{{material: {material}, exposure: room}}]"
    place = f"substances: [{solvent}], ambient: 5..40 °C, chemicals: none"
    assert say("chemical-resistance", part.replace("303", "'303'"), place) is PASS


@pytest.mark.parametrize("iron", ["EN-GJL-250", "EN-GJS-400"])
def test_cast_iron_serves_at_the_ordinary_lowest_ambient(iron: str, say: Say) -> None:
    # IEC 60079-0:2017 5.1.1: -20 °C; that housings are cast for it: from memory
    part = f"kind: structural, materials: [{{material: {iron}, exposure: room}}]"
    assert say("material-temperature", part, "ambient: -20..40 °C") is PASS
    assert say("material-temperature", part, "ambient: -25..40 °C") is FLAG


@pytest.mark.parametrize(
    ("chloride", "exposure", "more", "expected"),
    [
        (15, "splash", "", PASS),
        (120, "splash", "", UNPROVEN),
        (200, "splash", "", UNPROVEN),
        (220, "splash", "", FLAG),
        (120, "splash", ", crevice: true", FLAG),
        (120, "immersed", ", crevice: true", FLAG),
        (120, "immersed", ", crevice: false", PASS),
    ],
)
def test_sinks_of_304_stand_in_tap_water(
    chloride: int, exposure: str, more: str, expected: Verdict, say: Say
) -> None:
    # the 200 mg/L of the table, from memory; that drops concentrate it: common practice
    part = f"kind: structural, materials: [{{material: '304', exposure: {exposure}{more}}}]"
    water = f"chemicals: [{{name: tap water, chloride: {chloride} mg/L, temperature: 20 °C}}]"
    assert say("pitting", part, water) is expected


@pytest.mark.parametrize(
    ("more", "expected"), [("", UNPROVEN), (", stressed: true, welded: true", UNPROVEN)]
)
@pytest.mark.parametrize("exposure", ["room", "fume"])
def test_loaded_316_in_sour_air_is_not_refused(
    exposure: str, more: str, expected: Verdict, say: Say
) -> None:
    # ISO 15156-3:2020 Table A.2, from memory: to 60 °C and 100 kPa, in any chloride
    part = f"kind: structural, materials: [{{material: '316', exposure: {exposure}{more}}}]"
    place = "substances: [hydrogen sulfide], ambient: 0..40 °C, chemicals: none"
    assert say("chemical-resistance", part, place) is expected


def test_304_in_sour_air_stays_refused_under_load(say: Say) -> None:
    # corrosion textbooks, from memory
    part = "kind: structural, materials: [{material: '304', exposure: room, stressed: true}]"
    place = "substances: [hydrogen sulfide], ambient: 0..20 °C, chemicals: none"
    assert say("chemical-resistance", part, place) is FLAG


HYDROGEN = "substances: [hydrogen], ambient: 0..40 °C, chemicals: none"


@pytest.mark.parametrize("exposure", ["room", "fume", "enclosed"])
@pytest.mark.parametrize(
    "steel", ["alloy steel, property_class: '12.9'", "17-4PH", "17-4PH, stressed: true"]
)
def test_leaked_hydrogen_does_not_charge_dry_steel(steel: str, exposure: str, say: Say) -> None:
    # ASME B31.12 speaks of wetted, pressurised metal; from memory
    part = f"kind: structural, materials: [{{material: {steel}, exposure: {exposure}}}]"
    assert say("chemical-resistance", part, HYDROGEN) is UNPROVEN
    assert say("hydrogen-embrittlement", part, HYDROGEN) is SILENT


def test_hydrogen_that_fills_a_part_charges_hard_steel(say: Say) -> None:
    # ISO 11114-1, from memory
    part = (
        "kind: structural, materials: [{material: '12.9', property_class: '12.9', "
        "exposure: immersed}]"
    )
    assert say("chemical-resistance", part, HYDROGEN) is FLAG
    assert say("hydrogen-embrittlement", part, HYDROGEN) is FLAG


@pytest.mark.parametrize("material", ["NBR", "PVC cable jacket"])
@pytest.mark.parametrize(
    ("exposure", "area", "expected"),
    [
        ("room", "area: 'Zone 1, IIA, T1', ", SILENT),
        ("enclosed", "area: 'Zone 1, IIA, T1', ", SILENT),
        ("room", "area: unclassified, ", SILENT),
        ("room", "area: 'Class I, Division 1, Group D', ", SILENT),
        ("room", "area: 'Zone 0, IIA, T1', ", FLAG),
        ("enclosed", "area: 'Zone 0, IIA, T1', ", FLAG),
        ("room", "area: 'Zone 1, IIA, T1', required_epl: Ga, ", FLAG),
        ("room", "area: 'Class I, Division 1, Group D', required_epl: Ga, ", FLAG),
        ("room", "area: 'Zone 7, nothing', ", FLAG),
        ("room", "", FLAG),
        ("fume", "area: 'Zone 1, IIA, T1', ", FLAG),
        ("immersed", "area: 'Zone 1, IIA, T1', ", FLAG),
    ],
)
def test_what_leaks_into_a_room_is_no_chemical_there(
    material: str, exposure: str, area: str, expected: Verdict, say: Say
) -> None:
    # common practice, no source: a neutral solvent in the air of a room corrodes nothing
    part = f"kind: structural, materials: [{{material: {material}, exposure: {exposure}}}]"
    place = f"{area}substances: [acetone], ambient: 5..40 °C, chemicals: none"
    assert say("chemical-resistance", part, place) is expected


LYE = (
    "chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 40 °C}], "
    "atmosphere: severe"
)


@pytest.mark.parametrize(
    ("own", "exposure", "expected"),
    [
        ("S235JR", "washdown", UNPROVEN),
        ("S235JR", "splash", UNPROVEN),
        ("S235JR", "room", PASS),
        ("copper-C110", "washdown", PASS),
    ],
)
def test_a_contact_between_washed_parts_is_not_dry(
    own: str, exposure: str, expected: Verdict, ask: Any
) -> None:
    # common practice, no source
    lye = {"name": "sodium hydroxide", "concentration": "2 %", "temperature": "40 °C"}
    case = {"chemicals": [lye], "atmosphere": "severe"}
    use = {"material": own, "exposure": exposure}
    plate = {"material": "copper-C110", "exposure": "washdown"}
    first = {"materials": [use], "contacts": [{"with": "2", "wet": False}]}
    second = {"materials": [plate], "contacts": "none"}
    assert ask("galvanic-couple", case, first, second).verdict is expected


@pytest.mark.parametrize(
    ("plate", "screws", "exposure", "expected"),
    [
        ("S235JR", "316", "immersed", UNPROVEN),
        ("S235JR", "316", "room", SILENT),
        ("304", "316", "immersed", SILENT),
        ("PTFE", "316", "immersed", SILENT),
    ],
)
def test_two_metals_of_one_wetted_part_are_a_couple(
    plate: str, screws: str, exposure: str, expected: Verdict, say: Say
) -> None:
    # common practice, no source
    part = (
        f"kind: structural, materials: [{{component: plate, material: '{plate}', exposure: "
        f"{exposure}}}, {{component: screws, material: '{screws}', exposure: {exposure}}}], "
        "contacts: none"
    )
    assert say("galvanic-couple", part, LYE) is expected
    assert say("galvanic-couple", part, "chemicals: none, atmosphere: severe") is SILENT


@pytest.mark.parametrize("solvent", ["acetone", "ethanol"])
def test_a_bronze_tool_stands_plain_solvents(solvent: str, say: Say) -> None:
    # corrosion textbooks, from memory
    part = "kind: loose item, materials: [{material: CuAl10Fe5Ni5, exposure: room}]"
    place = f"substances: [{solvent}], ambient: 5..40 °C, chemicals: none"
    assert say("chemical-resistance", part, place) is PASS


@pytest.mark.parametrize(
    ("rubber", "expected"), [("silicone", UNPROVEN), ("VMQ", UNPROVEN), ("FVMQ", PASS)]
)
def test_hydrogen_goes_through_silicone(rubber: str, expected: Verdict, say: Say) -> None:
    # a university laboratory's wiki on materials: somewhat incompatible with natural rubber and
    # silicone; from memory it does the rubber itself nothing: disputed, and the stricter governs
    part = f"kind: structural, materials: [{{material: {rubber}, exposure: room}}]"
    assert say("chemical-resistance", part, HYDROGEN) is expected
