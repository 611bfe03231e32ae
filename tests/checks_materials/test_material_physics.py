"""What corrosion engineers know of materials, with the source beside each.

BSSA: articles of the British Stainless Steel Association. Sandia: report abstract on equilibrium
swelling of elastomers. `from memory`: textbook knowledge, not read again. `practice`: common
practice, no source.
"""

from typing import Any

import pytest

from areafit.verdict import Basis, Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN

IMMERSED = [
    # 304 is preferred to 316 in nitric acid: BSSA, nitric acid
    ("304", "nitric acid", "60 %", "50 °C", PASS),
    ("316", "nitric acid", "60 %", "50 °C", UNPROVEN),
    # molybdenum helps in dilute sulfuric acid: BSSA, sulfuric acid
    ("304", "sulfuric acid", "3 %", "25 °C", UNPROVEN),
    ("316", "sulfuric acid", "3 %", "25 °C", PASS),
    # no common stainless steel stands hydrochloric acid: BSSA, hydrochloric acid
    ("304", "hydrochloric acid", "1 %", "20 °C", FLAG),
    ("316", "hydrochloric acid", "1 %", "20 °C", FLAG),
    # nor hydrofluoric acid: from memory
    ("304", "hydrofluoric acid", "2 %", "20 °C", FLAG),
    ("316", "hydrofluoric acid", "2 %", "20 °C", FLAG),
    # the window of 316 in sulfuric acid, both ends and the middle: BSSA, sulfuric acid
    ("316", "sulfuric acid", "2 %", "40 °C", PASS),
    ("316", "sulfuric acid", "2 %", "90 °C", UNPROVEN),
    ("316", "sulfuric acid", "50 %", "25 °C", FLAG),
    ("316", "sulfuric acid", "96 %", "25 °C", PASS),
    ("316", "sulfuric acid", "96 %", "60 °C", FLAG),
    # titanium needs moisture in chlorine and burns in dry: Chlorine Institute Pamphlet 1
    ("titanium grade 2", "chlorine-wet", None, "25 °C", PASS),
    ("titanium grade 2", "chlorine-dry", None, "25 °C", FLAG),
    # titanium cracks in methanol without water: abstract in Corrosion (journal)
    ("titanium grade 2", "methanol", None, "25 °C", FLAG),
    # fluororubber swells to twice its size in ketones: Sandia
    ("FKM", "acetone", None, "25 °C", FLAG),
    ("FKM", "methyl ethyl ketone", None, "25 °C", FLAG),
    # EPDM stands ketones and swells in oils: Sandia; ISO/TR 7620 kind, from memory
    ("EPDM", "acetone", None, "25 °C", PASS),
    ("EPDM", "mineral oil", None, "25 °C", FLAG),
    ("EPDM", "gasoline", None, "25 °C", FLAG),
    # acetal in alkali: copolymer yes, homopolymer no, neither in acid: from memory
    ("POM-C", "sodium hydroxide", "10 %", "25 °C", PASS),
    ("POM-H", "sodium hydroxide", "10 %", "25 °C", FLAG),
    ("POM-C", "hydrochloric acid", "10 %", "25 °C", FLAG),
    ("POM-H", "hydrochloric acid", "10 %", "25 °C", FLAG),
    # aluminium's oxide is stable from about pH 4 to 8.5: water-treatment handbook
    ("6061", "sodium hydroxide", "1 %", "25 °C", FLAG),
    ("6061", "deionised water", None, "25 °C", PASS),
    ("6061", "sulfuric acid", "5 %", "25 °C", FLAG),
    # the mixed acid is made to dissolve stainless steel: SSINA, descaling
    ("316L", "mixed pickling acid", None, "50 °C", FLAG),
    # 0.1 mm a year or less by a stainless maker's tables, and one step hotter or one grade lower
    ("304L", "nitric acid", "5 %", "20 °C", PASS),
    ("304L", "nitric acid", "30 %", "20 °C", PASS),
    ("304", "nitric acid", "30 %", "20 °C", PASS),
    ("titanium grade 2", "sodium hydroxide", "45 %", "60 °C", PASS),
    ("titanium grade 2", "sodium hydroxide", "45 %", "100 °C", UNPROVEN),
    ("316L", "acetic acid", "5 %", "75 °C", PASS),
    # one maker's word against recalled rows: disputed, and the stricter stays
    ("304L", "acetic acid", "5 %", "75 °C", FLAG),
    # dichloromethane pits stainless steel near its boiling point unless it is dry: a maker's tables
    ("304L", "dichloromethane", None, "40 °C", UNPROVEN),
    ("316L", "dichloromethane", None, "40 °C", UNPROVEN),
    ("316L", "dichloromethane", None, "20 °C", PASS),
    ("PTFE", "dichloromethane", None, "40 °C", PASS),
    # carbon steel in boiling acetone: a maker's tables; cold it holds: an abstract, reported
    ("carbon steel", "acetone", "100 %", "56 °C", FLAG),
    ("carbon steel", "acetone", "100 %", "20 °C", PASS),
    ("316", "acetone", "100 %", "56 °C", PASS),
    # plastics and rubbers by the charts of their rows, beside one that holds there
    ("POM-C", "acetic acid", "10 %", "20 °C", FLAG),
    ("HDPE", "acetic acid", "10 %", "20 °C", PASS),
    ("FKM", "ethanol", "70 %", "20 °C", FLAG),
    ("EPDM", "ethanol", "70 %", "20 °C", PASS),
    ("ABS", "ethanol", "70 %", "20 °C", FLAG),
    ("PP", "ethanol", "70 %", "20 °C", PASS),
    ("ABS", "n-butanol", None, "20 °C", FLAG),
    ("ABS", "acetic acid", "20 %", "20 °C", FLAG),
    ("PMMA", "methanol", None, "20 °C", FLAG),
    ("PMMA", "ethanol", "100 %", "20 °C", FLAG),
    ("PMMA", "ethanol", "96 %", "20 °C", UNPROVEN),
    ("PP", "acetone", None, "20 °C", FLAG),
    ("PTFE", "acetone", None, "40 °C", PASS),
    ("PVC-U", "cyclohexane", None, "20 °C", FLAG),
    ("PVDF", "cyclohexane", None, "20 °C", PASS),
    ("PVDF", "sodium hydroxide", "0.1 %", "40 °C", FLAG),
    ("PP", "sodium hydroxide", "0.1 %", "40 °C", PASS),
    ("PVC-C", "acetic acid", "50 %", "20 °C", FLAG),
    ("PVC-C", "sodium hydroxide", "30 %", "20 °C", FLAG),
    ("PVC-U", "sodium hydroxide", "30 %", "20 °C", PASS),
    # free silicon in reaction-bonded silicon carbide: glossary and lexicon of seals, reported;
    # a name that does not say which kind may be that one
    ("SiSiC", "sodium hydroxide", "10 %", "25 °C", FLAG),
    ("SSiC", "sodium hydroxide", "10 %", "25 °C", PASS),
    ("SiC", "sodium hydroxide", "10 %", "25 °C", FLAG),
    ("SiSiC", "hydrofluoric acid", "10 %", "25 °C", FLAG),
    ("SSiC", "hydrofluoric acid", "10 %", "25 °C", PASS),
    ("SiSiC", "deionised water", None, "80 °C", PASS),
    # the copper under gold shows in its pores: from memory
    ("gold plated", "nitric acid", "30 %", "25 °C", FLAG),
    ("SiC", "deionised water", None, "80 °C", PASS),
]


@pytest.mark.parametrize("case", IMMERSED, ids=str)
def test_immersed(resist: Any, case: tuple[str, str, str | None, str, Verdict]) -> None:
    material, chemical, strength, heat, expected = case
    answer = resist(material, chemical, strength, heat, least=Basis.JUDGEMENT)
    assert answer.verdict is expected, answer.text


# Common practice, no source: 304 for frames that stand in the room, 316 beside and above baths.
HOLDS = [
    ("nitric acid", "20 %"),
    ("phosphoric acid", "20 %"),
    ("citric acid", "10 %"),
    ("sulfuric acid", "5 %"),
    ("deionised water", None),
]
FAILS = [
    ("hydrochloric acid", "10 %"),
    ("hydrofluoric acid", "5 %"),
    ("sodium hypochlorite", "5 %"),
    ("ferric chloride", "40 %"),
]


@pytest.mark.parametrize(("chemical", "strength"), HOLDS)
def test_frame_practice_holds(resist: Any, chemical: str, strength: str | None) -> None:
    frame = resist("304", chemical, strength, exposure="room", least=Basis.JUDGEMENT)
    beside = resist(
        "316",
        chemical,
        strength,
        exposure="fume",
        least=Basis.JUDGEMENT,
        of_chemical={"mist": False},
    )
    assert (frame.verdict, beside.verdict) == (PASS, PASS), frame.text + beside.text


@pytest.mark.parametrize("exposure", ["room", "fume", "splash"])
@pytest.mark.parametrize("material", ["304", "316"])
@pytest.mark.parametrize(("chemical", "strength"), FAILS)
def test_frame_practice_fails(
    resist: Any, chemical: str, strength: str, material: str, exposure: str
) -> None:
    answer = resist(material, chemical, strength, exposure=exposure, of_chemical={"mist": False})
    assert answer.verdict is FLAG, answer.text


def test_a_drop_of_dilute_sulfuric_acid_dries_to_the_bad_middle(resist: Any) -> None:
    assert resist("316", "sulfuric acid", "2 %").verdict is PASS
    splash = resist("316", "sulfuric acid", "2 %", exposure="splash")
    assert splash.verdict is FLAG
    assert "70 % as the drop dries" in splash.text


def test_strong_sulfuric_acid_drinks_water_and_reaches_the_bad_middle_too(resist: Any) -> None:
    assert resist("carbon steel", "sulfuric acid", "98 %").verdict is PASS
    assert resist("carbon steel", "sulfuric acid", "98 %", exposure="splash").verdict is FLAG


def test_the_vapour_of_a_weak_bath_is_no_weak_acid(resist: Any) -> None:
    # vapour above hydrochloric acid condenses at 10 to 25 %: it evaporates unchanged at 20 % where
    # it boils and at 25 % in a room, by partial pressures
    assert resist("C276", "hydrochloric acid", "5 %", "40 °C").verdict is PASS
    fume = resist("C276", "hydrochloric acid", "5 %", "40 °C", "fume")
    assert fume.verdict is UNPROVEN
    assert "10..25 % as condensate" in fume.text


def test_moist_vapour_of_a_strong_acid_condenses_weaker(resist: Any) -> None:
    # aluminium stores strong nitric acid and fails in weaker: BSSA, nitric acid, and from memory
    assert resist("6061", "nitric acid", "98 %", least=Basis.JUDGEMENT).verdict is PASS
    for exposure in ("fume", "room"):
        answer = resist("6061", "nitric acid", "98 %", exposure=exposure)
        assert answer.verdict is FLAG, answer.text
        assert "0..98 % as condensate" in answer.text
    # carbon steel stores strong sulfuric acid, which drinks water from the air: from memory
    fume = resist("carbon steel", "sulfuric acid", "98 %", exposure="fume")
    assert fume.verdict is FLAG
    # 304 stands every strength below: BSSA, nitric acid
    assert resist("304", "nitric acid", "60 %", exposure="fume").verdict is PASS


def test_nickel_copper_cracks_in_the_moist_vapour_of_hydrofluoric_acid(resist: Any) -> None:
    # from memory
    assert resist("alloy 400", "hydrofluoric acid", "40 %").verdict is PASS
    fume = resist("alloy 400", "hydrofluoric acid", "40 %", exposure="fume")
    assert fume.verdict is UNPROVEN
    assert "moist, aerated vapour" in fume.text


def test_brass_at_traces_of_ammonia_and_rubber_at_traces_of_ozone(resist: Any) -> None:
    # season cracking page; encyclopaedic article on ozone cracking
    assert resist("CW614N", "ammonia gas", exposure="room").verdict is FLAG
    assert resist("NBR", "ozone", exposure="room").verdict is FLAG
    assert resist("EPDM", "ozone", exposure="room", least=Basis.JUDGEMENT).verdict is PASS


def test_zinc_in_the_room_with_acid_vapour(resist: Any) -> None:
    # formic and acetic acid white-rust zinc at parts per million: from memory
    assert resist("zinc-plated steel", "hydrochloric acid", "20 %", exposure="room").verdict is FLAG


def test_alkaline_foam_strips_aluminium_and_zinc_however_short(resist: Any) -> None:
    for material in ("6082", "hard anodised aluminium"):
        answer = resist(
            material,
            "alkaline foam cleaner",
            "2 %",
            "50 °C",
            "washdown",
            of_chemical={"rinsed": True},
        )
        assert answer.verdict is FLAG, answer.text


def test_chlorinated_foam_counts_as_hypochlorite_too(resist: Any) -> None:
    plain = resist(
        "304", "alkaline foam cleaner", "2 %", "25 °C", "washdown", least=Basis.JUDGEMENT
    )
    chlorinated = resist(
        "304", "chlorinated foam cleaner", "2 %", "25 °C", "washdown", least=Basis.JUDGEMENT
    )
    assert plain.verdict is PASS, plain.text
    assert chlorinated.verdict is not PASS
    assert "free chlorine" in chlorinated.text


def test_a_spring_cracks_where_a_plate_is_of_limited_use(resist: Any) -> None:
    # any "limited by cracking" is unsuitable for a spring: reasoned
    plate = resist("304", "hot water", None, "80 °C")
    spring = resist("304", "hot water", None, "80 °C", of_material={"component": "spring"})
    assert (plate.verdict, spring.verdict) == (UNPROVEN, FLAG), plate.text + spring.text


def test_a_plastic_that_stress_cracks_needs_to_be_free_of_stress(resist: Any) -> None:
    # polycarbonate in acetic acid: plastics textbook, from memory
    asked = ("polycarbonate", "acetic acid", "20 %")
    open_ = resist(*asked)
    loaded = resist(*asked, of_material={"stressed": True})
    free = resist(*asked, of_material={"stressed": False}, least=Basis.JUDGEMENT)
    assert (open_.verdict, loaded.verdict, free.verdict) == (UNPROVEN, FLAG, PASS)


@pytest.mark.parametrize(
    ("strength", "missing"),
    [("500 mg/L", False), ("9 g/L", False), ("100 g/L", True), ("9 % v/v", True)],
)
def test_a_dilute_solution_is_as_strong_as_it_says(
    resist: Any, strength: str, *, missing: bool
) -> None:
    # of 1 % and less a litre weighs a kilogram, so that nothing is left to ask: arithmetic
    answer = resist("EPDM", "nitric acid", strength, "20 °C")
    assert ("by the concentration" in answer.text) is missing, answer.text
