"""What evaporates, what a drop becomes, and what rinsing saves from.

Sources stand at each test; `from memory`: textbook knowledge, not read again.
"""

from decimal import Decimal
from typing import Any

import pytest

from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.vapours import SolutionVapour, VapourPressure, solution_vapour
from areafit.verdict import Basis, Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
CALM = {"mist": False}
TABLES = Tables.shipped()


# Nothing rises from dilute sulfuric acid, phosphoric acid, caustic or salts: from memory


@pytest.mark.parametrize("exposure", ["fume", "room", "enclosed"])
@pytest.mark.parametrize("material", ["304", "PC", "PA6", "brass"])
@pytest.mark.parametrize(
    "bath",
    [
        ("sulfuric acid", "5 %", "25 °C"),
        ("sulfuric acid", "30 %", "35 °C"),
        ("sulfuric acid", "85 %", "20 °C"),
        ("phosphoric acid", "20 %", "25 °C"),
        ("phosphoric acid", "75 %", "80 °C"),
        ("sodium hydroxide", "30 %", "60 °C"),
    ],
)
def test_where_nothing_rises_nothing_is_attacked(
    resist: Any, bath: tuple[str, str, str], material: str, exposure: str
) -> None:
    answer = resist(material, *bath, exposure, of_chemical=CALM)
    assert answer.verdict is PASS, answer.text


@pytest.mark.parametrize(
    ("strength", "heat", "expected"),
    [
        ("10 %", "25 °C", PASS),
        ("10 %", "40 °C", PASS),
        ("10 %", "60 °C", UNPROVEN),  # heated: traces at most
        ("80 %", "100 °C", FLAG),
        ("93 %", "25 °C", FLAG),  # fumes of itself, and condenses through the middle
    ],
)
@pytest.mark.parametrize("exposure", ["fume"])
def test_304_above_sulfuric_acid(
    resist: Any, strength: str, heat: str, expected: Verdict, exposure: str
) -> None:
    # Ayers and others, Geophysical Research Letters 7 (1980), from memory
    answer = resist("304", "sulfuric acid", strength, heat, exposure, of_chemical=CALM)
    assert answer.verdict is expected, answer.text


def test_mist_is_splash_and_must_be_ruled_out_at_fume(resist: Any) -> None:
    # common practice, no source
    asked = ("304", "sulfuric acid", "10 %", "25 °C", "fume")
    assert resist(*asked, of_chemical=CALM).verdict is PASS
    assert resist(*asked, of_chemical={"mist": True}).verdict is FLAG
    open_ = resist(*asked)
    assert open_.verdict is UNPROVEN
    assert "mist: false" in open_.decisive.remedy
    # what is thrown about reaches the room too, if thinner
    room = resist("304", "sulfuric acid", "10 %", exposure="room", of_chemical={"mist": True})
    assert room.verdict is UNPROVEN


def test_a_bath_that_gasses_by_its_row_is_not_calm(resist: Any) -> None:
    # chromium baths throw a mist: from memory
    assert resist("304", "chromic acid", "25 %", "50 °C", "fume").verdict is not PASS


@pytest.mark.parametrize("exposure", ["room", "fume"])
@pytest.mark.parametrize(
    ("strength", "heat", "expected"),
    [
        ("1 %", "20 °C", UNPROVEN),
        ("2 %", "25 °C", UNPROVEN),
        ("5 %", "20 °C", UNPROVEN),
        ("5 %", "50 °C", FLAG),
        ("10 %", "25 °C", FLAG),
        ("37 %", "20 °C", FLAG),
    ],
)
def test_304_and_hydrochloric_acid_by_its_partial_pressure(
    resist: Any, exposure: str, strength: str, heat: str, expected: Verdict
) -> None:
    # Perry's handbook, partial pressures of the acid, from memory; the line is our own
    answer = resist("304", "hydrochloric acid", strength, heat, exposure)
    assert answer.verdict is expected, answer.text


@pytest.mark.parametrize(
    ("molality", "activity"), [("0.5", "0.720"), ("1", "0.724"), ("2", "0.793"), ("2.8", "0.88")]
)
def test_nitric_acid_by_its_activity(molality: str, activity: str) -> None:
    # p = (m γ)² / K: Hamer and Wu, and K = 2.45e6 mol²/kg²/atm by Clegg and Brimblecombe, from
    # memory; a row holds for the strongest of its band
    solute = Decimal(molality) * Decimal("63.01") / 1000
    share = 100 * solute / (1 + solute)
    theirs = (float(molality) * float(activity)) ** 2 / 2.45e6 * 101325
    row = solution_vapour("nitric-acid", Range.of(share), Range.of(Decimal(25)))
    assert row is not None
    assert theirs < float(row.pressure(Decimal(25))) < 10 * theirs


@pytest.mark.parametrize("exposure", ["room", "fume"])
@pytest.mark.parametrize(
    ("strength", "heat", "expected"),
    [
        ("3 %", "20 °C", UNPROVEN),
        ("10 %", "25 °C", UNPROVEN),
        ("10 %", "60 °C", FLAG),
        ("20 %", "25 °C", FLAG),
        ("65 %", "20 °C", FLAG),
    ],
)
def test_aluminium_and_nitric_acid_by_its_partial_pressure(
    resist: Any, exposure: str, strength: str, heat: str, expected: Verdict
) -> None:
    # the line is our own; aluminium in weak nitric acid: BSSA, nitric acid, and from memory
    answer = resist("6061", "nitric acid", strength, heat, exposure)
    assert answer.verdict is expected, answer.text


@pytest.mark.parametrize("material", ["zinc-plated steel", "carbon steel", "AZ91"])
def test_traces_suffice_for_zinc_steel_and_magnesium(resist: Any, material: str) -> None:
    # from memory: they rust and whiten at parts per million
    assert resist(material, "hydrochloric acid", "2 %", exposure="room").verdict is FLAG


def test_a_strength_that_is_not_stated_evaporates_freely(resist: Any) -> None:
    answer = resist("304", "hydrochloric acid", None, "25 °C", "room")
    assert answer.verdict is FLAG
    assert resist("304", "hydrochloric acid", "2 %", None, "room").verdict is FLAG


def test_bare_steel_above_a_calm_bath_is_wetted_by_its_water(resist: Any) -> None:
    # own reasoning: the vapour of the bath condenses on it
    asked = ("carbon steel", "phosphoric acid", "20 %", "25 °C", "fume")
    assert resist(*asked, of_chemical=CALM).verdict is FLAG


@pytest.mark.parametrize("chemical", ["sodium hydroxide", "phosphoric acid", "sodium chloride"])
@pytest.mark.parametrize("material", ["carbon steel", "zinc-plated steel", "6061"])
def test_a_calm_bath_leaves_its_room_alone(resist: Any, material: str, chemical: str) -> None:
    # own reasoning: nothing rises, nothing is thrown; said of no bath, it stays open
    asked = (material, chemical, "5 %", "25 °C")
    if resist(*asked).verdict is PASS:
        return
    assert resist(*asked, "room", of_chemical=CALM).verdict is PASS
    damp_does_nothing = material == "6061"  # ISO 9223, from memory: aluminium in damp air
    assert (resist(*asked, "room").verdict is PASS) is damp_does_nothing
    assert resist(*asked, "room", of_chemical={"mist": True}).verdict is not PASS
    assert resist(*asked, "fume", of_chemical=CALM).verdict is not PASS


@pytest.mark.parametrize(
    ("rule", "material", "more"),
    [
        ("weld-sensitisation", "304", {"welded": True}),
        ("hydrogen-embrittlement", "12.9", {}),
    ],
)
def test_what_does_not_rise_neither_charges_nor_eats_welds(
    ask: Any, rule: str, material: str, more: dict[str, Any]
) -> None:
    use = {"material": material, "exposure": "fume", **more}
    bath = {"name": "sulfuric acid", "concentration": "10 %", "temperature": "25 °C"}
    calm = ask(rule, {"chemicals": [{**bath, "mist": False}]}, {"materials": [use]})
    assert calm.verdict is Verdict.NOT_APPLICABLE
    for told in ({}, {"mist": True}):
        found = ask(rule, {"chemicals": [{**bath, **told}]}, {"materials": [use]})
        assert found.verdict in {FLAG, UNPROVEN}, found.text


def test_ferric_chloride_gives_off_hydrogen_chloride(resist: Any) -> None:
    # hydrolysis, from memory: it has no row among those from which nothing rises
    answer = resist("304", "ferric chloride", "40 %", exposure="room", of_chemical=CALM)
    assert answer.verdict is FLAG


# The rows of vapour


def test_antoine_rows_agree_with_another_correlation_of_the_chemicals_library() -> None:
    # Perry's Table 2-8 (DIPPR 101) as carried by the chemicals library: within 5 %
    from chemicals import vapor_pressure as library
    from chemicals.dippr import EQ101

    dippr_101: Any = EQ101
    other = library.Psat_data_Perrys2_8
    compared = 0
    for row in TABLES.rows("vapour_pressures", VapourPressure):
        cas = row.locator.removeprefix("CAS ")
        middle = (row.temp_min_c + row.temp_max_c) / 2
        kelvin = float(middle) + 273.15
        if cas not in other.index:
            continue
        line = other.loc[cas]
        if not line["Tmin"] <= kelvin <= line["Tmax"]:
            continue
        theirs = float(dippr_101(kelvin, *(line[f"C{i}"] for i in range(1, 6))))
        assert float(row.pressure(middle)) == pytest.approx(theirs, rel=0.05), row.substance
        compared += 1
    assert compared > 80


@pytest.mark.parametrize(
    ("substance", "boiling"),
    [("water", "100"), ("ethanol", "78.3"), ("acetone", "56.1"), ("toluene", "110.6")],
)
def test_liquids_boil_at_one_atmosphere(substance: str, boiling: str) -> None:
    # normal boiling points: CRC Handbook, from memory
    rows = TABLES.rows("vapour_pressures", VapourPressure)
    row = next(one for one in rows if one.substance == substance)
    assert float(row.pressure(Decimal(boiling))) == pytest.approx(101325, rel=0.02)


@pytest.mark.parametrize(
    ("molality", "activity"),
    [
        ("0.5", "0.757"),
        ("1", "0.809"),
        ("3", "1.316"),
        ("5", "2.38"),
        ("7", "4.37"),
        ("10", "10.4"),
    ],
)
def test_hydrochloric_acid_by_its_activity(molality: str, activity: str) -> None:
    # p = (m γ)² / K: Robinson and Stokes, and K = 2.04e6 mol²/kg²/atm by Clegg and Brimblecombe,
    # from memory; a row holds for the strongest of its band, which is up to 2 % more
    solute = Decimal(molality) * Decimal("36.46") / 1000
    share = 100 * solute / (1 + solute)
    theirs = (float(molality) * float(activity)) ** 2 / 2.04e6 * 101325
    row = solution_vapour("hydrochloric-acid", Range.of(share), Range.of(Decimal(25)))
    assert row is not None
    ours = float(row.pressure(Decimal(25)))
    assert 0.8 * theirs < ours < 5 * theirs


def test_stronger_and_hotter_never_evaporate_less() -> None:
    rows = TABLES.rows("solution_vapours", SolutionVapour)
    for chemical in {row.chemical for row in rows}:
        pressures: dict[int, list[Decimal]] = {}
        for percent in range(1, 39):
            for heat in (10, 25, 40, 41, 60, 90):
                found = solution_vapour(
                    chemical, Range.of(Decimal(percent)), Range.of(Decimal(heat))
                )
                # beyond the rows it is taken to rise freely
                pressure = Decimal("inf") if found is None else found.pressure(Decimal(heat))
                pressures.setdefault(heat, []).append(pressure)
        assert all(listed == sorted(listed) for listed in pressures.values()), chemical
        columns = zip(*pressures.values(), strict=True)
        assert all(list(one) == sorted(one) for one in columns), chemical


# What a drop becomes, and what rinsing saves from: own reasoning, no source


@pytest.mark.parametrize("exposure", ["splash", "washdown"])
@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        # uniform attack by what dries: the bath strength counts
        (("316L", "sulfuric acid", "1 %"), PASS),
        (("316", "sulfuric acid", "2 %"), PASS),
        (("304", "phosphoric acid", "5 %"), PASS),
        # no relief where the bath itself attacks
        (("304", "sulfuric acid", "10 %"), None),
        # pitting, hydrofluoric acid, oxidisers
        (("304", "sodium chloride", "0.001 %"), None),
        (("316", "ferric chloride", "0.1 %"), FLAG),
        (("316", "hydrofluoric acid", "1 %"), FLAG),
        (("borosilicate glass", "hydrofluoric acid", "1 %"), FLAG),
    ],
)
def test_what_is_rinsed_off_before_it_dries(
    resist: Any, asked: tuple[str, str, str], expected: Verdict | None, exposure: str
) -> None:
    answer = resist(*asked, exposure=exposure, of_chemical={"rinsed": True})
    if expected is None:
        assert answer.verdict is not PASS, answer.text
    else:
        assert answer.verdict is expected, answer.text


@pytest.mark.parametrize("exposure", ["splash", "washdown"])
def test_rinsing_is_the_same_at_splash_and_washdown(resist: Any, exposure: str) -> None:
    asked = ("316L", "sulfuric acid", "1 %", "25 °C", exposure)
    left = resist(*asked)
    assert left.verdict is FLAG
    assert "In the bath of 1 % it is suitable; the drop that dries to 70 % attacks" in left.text
    assert "rinsed: true" in left.decisive.remedy
    assert resist(*asked, of_chemical={"rinsed": True}).verdict is PASS


def test_a_finding_tells_no_tale_where_the_bath_attacks_alike(resist: Any) -> None:
    answer = resist("316", "hydrochloric acid", "10 %", exposure="splash")
    assert answer.verdict is FLAG
    assert "In the bath" not in answer.text


def test_what_condenses_stronger_is_told(resist: Any) -> None:
    # vapour above hydrochloric acid condenses at 10 to 25 %: from memory
    answer = resist("C276", "hydrochloric acid", "5 %", "50 °C", "fume", least=Basis.JUDGEMENT)
    assert answer.verdict is UNPROVEN
    assert "what condenses, of 10..25 %, attacks" in answer.text
