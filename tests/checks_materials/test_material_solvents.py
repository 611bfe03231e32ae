"""Solvents: the water in them, what cracks in them, and where they count as chemicals at all.

Sources stand at each test; `from memory`: textbook knowledge, not read again.
"""

from typing import Any

import pytest

from areafit.tables import Tables
from areafit.tables.resistance import ClassResistance
from areafit.tables.vapours import Solvent, SolventClass
from areafit.verdict import Reason, Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
WETTED = ("immersed", "splash", "washdown")


# The water in a solvent: Cavalcanti and others, Electrochimica Acta 1987 (localised attack with
# 4.8 and 10 % of water in ethanol, none in pure), as quoted; steel rusts in water: from memory


@pytest.mark.parametrize("exposure", WETTED)
@pytest.mark.parametrize("strength", ["5 %", "50 %", "80 %", "94 %", "70 % v/v", "40..99.9 %"])
@pytest.mark.parametrize("solvent", ["isopropanol", "ethanol", "acetone", "n-butanol", "MEK"])
def test_steel_in_watery_solvent_fares_as_in_water(
    resist: Any, solvent: str, strength: str, exposure: str
) -> None:
    answer = resist("carbon steel", solvent, strength, exposure=exposure)
    assert answer.verdict is FLAG, answer.text
    assert "the water in it attacks" in answer.text


@pytest.mark.parametrize("steel", ["S355J2", "EN-GJL-250", "EN-GJS-400", "8.8"])
def test_every_bare_steel_rusts_in_watery_isopropanol(resist: Any, steel: str) -> None:
    assert resist(steel, "isopropanol", "70 %").verdict is FLAG
    assert resist(steel, "isopropanol", "96 %").verdict is UNPROVEN
    assert resist(steel, "isopropanol", "99 %").verdict is PASS


@pytest.mark.parametrize("steel", ["zinc-plated steel", "hot-dip galvanised steel", "410", "AZ91"])
def test_other_metals_that_water_attacks_do_not_pass_wet(resist: Any, steel: str) -> None:
    # their rows in tap water: corrosion textbooks, from memory
    wet, water = resist(steel, "acetone", "60 %"), resist(steel, "tap water")
    if water.verdict is not PASS:
        assert wet.verdict is not PASS, wet.text


def test_hard_chrome_and_nickel_are_judged_by_their_row_in_water(resist: Any) -> None:
    assert resist("hard chrome", "ethanol", "40 %").verdict is not PASS
    assert resist("hard chrome", "ethanol", "99.5 %").verdict is PASS


@pytest.mark.parametrize("metal", ["304", "316L", "6061", "titanium grade 2", "tin bronze"])
def test_what_water_leaves_alone_stands_watery_solvent(resist: Any, metal: str) -> None:
    for solvent in ("isopropanol", "acetone"):
        assert resist(metal, solvent, "50 %").verdict is PASS


@pytest.mark.parametrize("strength", ["95 %", "96 %", "98.9 %"])
def test_a_few_percent_of_water_are_open(resist: Any, strength: str) -> None:
    answer = resist("carbon steel", "acetone", strength)
    assert answer.verdict is UNPROVEN
    assert "pit" in answer.text


def test_saying_nothing_of_the_strength_never_passes_more(resist: Any) -> None:
    answer = resist("carbon steel", "isopropanol")
    assert answer.verdict is UNPROVEN
    assert answer.decisive.reason is Reason.FACT_MISSING
    assert "State the concentration" in answer.decisive.remedy
    # nobody need say so of a solvent that takes up no water, nor of a metal that does not rust
    assert resist("carbon steel", "toluene").verdict is PASS
    assert resist("316L", "isopropanol").verdict is PASS


def test_watery_solvent_in_the_room_rusts_nothing(resist: Any) -> None:
    # common practice, no source: its vapour is no liquid water
    assert resist("carbon steel", "isopropanol", "50 %", exposure="room").verdict is PASS


# Stress corrosion in alcohols: API 939-D, from memory

TANK = {"material": "carbon steel", "exposure": "immersed"}


@pytest.mark.parametrize("alcohol", ["ethanol", "methanol"])
@pytest.mark.parametrize(
    ("strength", "more", "expected"),
    [
        ("99 %", {"welded": True}, UNPROVEN),
        ("99 %", {"stressed": True, "welded": False}, UNPROVEN),
        ("99 %", {}, UNPROVEN),
        ("99 %", {"welded": False}, UNPROVEN),
        ("99 %", {"welded": False, "stressed": False}, PASS),
        ("99 %", {"welded": False, "stressed": False, "component": "spring"}, UNPROVEN),
        ("95.5 %", {"welded": True}, UNPROVEN),
        ("95 %", {"welded": True}, SILENT),
        ("60 %", {"welded": True}, SILENT),
        ("99 %", {"welded": True, "exposure": "splash"}, UNPROVEN),
        ("99 %", {"welded": True, "exposure": "fume"}, SILENT),
        ("99 %", {"welded": True, "exposure": "room"}, SILENT),
    ],
)
def test_welded_or_loaded_steel_in_alcohol_of_little_water(
    ask: Any, alcohol: str, strength: str, more: dict[str, Any], expected: Verdict
) -> None:
    met = {"name": alcohol, "concentration": strength, "temperature": "25 °C"}
    answer = ask("stress-corrosion", {"chemicals": [met]}, {"materials": [{**TANK, **more}]})
    assert answer.verdict is expected, answer.text


# Liquefied ammonia, none from 0.2 % of water on: abstract of a paper, NACE C1976-76051


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({"welded": True}, UNPROVEN),
        ({}, UNPROVEN),
        ({"welded": False, "stressed": False}, PASS),
        ({"welded": True, "exposure": "room"}, SILENT),
        ({"welded": True, "material": "304"}, SILENT),
    ],
)
def test_welded_or_loaded_steel_in_liquefied_ammonia(
    ask: Any, more: dict[str, Any], expected: Verdict
) -> None:
    met = {"name": "anhydrous ammonia", "temperature": "25 °C"}
    answer = ask("stress-corrosion", {"chemicals": [met]}, {"materials": [{**TANK, **more}]})
    assert answer.verdict is expected, answer.text


@pytest.mark.parametrize(("water", "expected"), [("0.1", UNPROVEN), ("0.2", SILENT)])
def test_a_little_water_keeps_ammonia_from_cracking_steel(
    ask: Any, water: str, expected: Verdict
) -> None:
    met = {"name": "anhydrous ammonia", "temperature": "25 °C"}
    met["concentration"] = f"{100 - float(water)} %"
    use = {**TANK, "welded": True}
    assert ask("stress-corrosion", {"chemicals": [met]}, {"materials": [use]}).verdict is expected


def test_ammonia_in_the_air_cracks_no_tank_of_water(ask: Any) -> None:
    place = {"substances": ["ammonia"], "chemicals": [{"name": "tap water", "chloride": "20 mg/L"}]}
    use = {**TANK, "welded": True}
    assert ask("stress-corrosion", place, {"materials": [use]}).verdict is SILENT


def test_other_alloys_and_alcohols_do_not_crack_so(ask: Any) -> None:
    for material, alcohol in (("304", "ethanol"), ("6061", "ethanol"), (TANK, "isopropanol")):
        use = material if isinstance(material, dict) else {**TANK, "material": material}
        met = {"name": alcohol, "concentration": "99 %", "temperature": "25 °C"}
        place = {"chemicals": [met]}
        answer = ask("stress-corrosion", place, {"materials": [{**use, "welded": True}]})
        assert answer.verdict is SILENT, answer.text


@pytest.mark.parametrize(("water", "expected"), [("0.1", FLAG), ("1.9", FLAG), ("8", PASS)])
def test_titanium_needs_water_in_methanol(resist: Any, water: str, expected: Verdict) -> None:
    # abstract in Corrosion (journal); from about 2 % of water on it holds: from memory
    strength = f"{100 - float(water)} %"
    assert resist("titanium grade 2", "methanol", strength).verdict is expected


# Where a listed solvent counts as a chemical

NEUTRAL = ("acetone", "ethanol", "n-heptane", "turpentine", "isooctane", "THF", "isobutyl acetate")
COUNTS = (
    ("copper", "acetylene", "copper-alloy", FLAG),
    ("brass", "ammonia", "copper-alloy", FLAG),
    ("copper", "ethylene oxide", "chemical-resistance", None),
    ("carbon steel", "formic acid", "chemical-resistance", None),
    ("silver", "hydrogen sulfide", "chemical-resistance", None),
    ("PC", "triethylamine", "chemical-resistance", None),
    ("PC", "dichloromethane", "chemical-resistance", None),
    ("NBR", "acetaldehyde", "chemical-resistance", None),
    ("NBR", "methane", "chemical-resistance", PASS),
    ("PVC-U", "acrylonitrile", "chemical-resistance", None),
)
AREA = {"area": "Zone 1, IIC T2", "ambient": "5..40 °C", "chemicals": "none"}


@pytest.mark.parametrize("material", ["PC", "ABS", "NBR", "carbon steel", "zinc-plated steel"])
@pytest.mark.parametrize("solvent", NEUTRAL)
def test_neutral_solvents_are_no_chemicals_in_a_room(ask: Any, solvent: str, material: str) -> None:
    # common practice, no source
    place = {**AREA, "substances": [solvent]}
    for exposure in ("room", "enclosed"):
        use = {"materials": [{"material": material, "exposure": exposure}]}
        assert ask("chemical-resistance", place, use).verdict is SILENT
        listed = {**use, "exposure": exposure}
        assert ask("materials-listed", place, listed).verdict is SILENT
    for exposure in ("fume", *WETTED):
        use = {"materials": [{"material": material, "exposure": exposure}]}
        assert ask("chemical-resistance", place, use).verdict is not SILENT


@pytest.mark.parametrize(
    "area", [{"area": "Zone 0, IIC T2"}, {"area": "Zone 1, IIC T2", "required_epl": "Ga"}]
)
def test_where_vapour_is_there_for_long_they_are(ask: Any, area: dict[str, str]) -> None:
    place = {**AREA, **area, "substances": ["acetone"]}
    for exposure in ("room", "enclosed"):
        use = {"materials": [{"material": "NBR", "exposure": exposure}]}
        assert ask("chemical-resistance", place, use).verdict is FLAG


QUIET = ("hydrogen", "methane", "propane", "n-butane", "ethylene", "natural gas", "LPG", "R-290")
DEVICE = {"kind": "electrical", "marking": "Ex db IIC T4 Gb", "exposure": "room"}


@pytest.mark.parametrize("gas", QUIET)
def test_a_light_gas_that_leaks_asks_no_material_of_a_marked_device(ask: Any, gas: str) -> None:
    """From memory: ISO 11114-1 and 11114-2 hold such gases neat, at pressure, in usual materials.

    The vapour of petrol, of which nothing is asked in a room, swells rubber more.
    """
    place, silent = {**AREA, "substances": [gas]}, Verdict.NOT_APPLICABLE
    for exposure in ("room", "enclosed"):
        part = {**DEVICE, "exposure": exposure}
        assert ask("materials-listed", place, part).verdict is silent
    cable: dict[str, Any] = {
        "kind": "electrical",
        "wiring": {"method": "MI cable"},
        "exposure": "room",
    }
    assert ask("materials-listed", place, cable).verdict is silent
    more: list[dict[str, Any]] = [
        {**DEVICE, "exposure": "fume"},
        {**DEVICE, "exposure": "immersed"},
        {**DEVICE, "marking": "none"},
        {**DEVICE, "kind": ["electrical", "mechanical"]},
        {"kind": "mechanical", "exposure": "room"},
        {key: DEVICE[key] for key in ("kind", "marking")},
    ]
    for part in more:
        assert ask("materials-listed", place, part).verdict is UNPROVEN, part
    for worse in ({"area": "Zone 0, IIC T1"}, {"required_epl": "Ga"}):
        assert ask("materials-listed", {**place, **worse}, DEVICE).verdict is UNPROVEN
    for name in ("ammonia", "acetylene", "carbon monoxide", "biogas", "LNG", "dimethyl ether"):
        with_it = {**place, "substances": [gas, name]}
        assert ask("materials-listed", with_it, DEVICE).verdict is UNPROVEN, name
    also = {**place, "chemicals": [{"name": "acetic acid", "temperature": "20 °C"}]}
    assert ask("materials-listed", also, DEVICE).verdict is UNPROVEN


@pytest.mark.parametrize(("material", "substance", "rule", "expected"), COUNTS)
def test_gases_acids_amines_and_the_like_count_everywhere(
    ask: Any, material: str, substance: str, rule: str, expected: Verdict | None
) -> None:
    # copper with acetylene: 46 CFR 56.50-103; brass with ammonia: season cracking page
    place = {**AREA, "substances": [substance]}
    for exposure in ("room", "enclosed"):
        use = {"materials": [{"material": material, "exposure": exposure}]}
        found = ask(rule, place, use)
        assert found.verdict is not SILENT
        assert expected is None or found.verdict is expected, found.text


def test_a_solvent_that_is_listed_as_a_chemical_stays_one(ask: Any) -> None:
    place = {**AREA, "chemicals": [{"name": "acetone", "temperature": "20 °C"}]}
    use = {"materials": [{"material": "PC", "exposure": "room"}]}
    assert ask("chemical-resistance", {**place, "substances": ["acetone"]}, use).verdict is FLAG


def test_an_exposure_that_is_not_stated_is_asked_for_and_no_flag(ask: Any) -> None:
    place = {**AREA, "substances": ["acetone", "ethanol"]}
    open_ = ask("chemical-resistance", place, {"materials": [{"material": "NBR"}]})
    assert open_.verdict is UNPROVEN
    assert open_.text.count("How NBR meets") == 1
    # what stands it as fume stands it everywhere
    assert ask("chemical-resistance", place, {"materials": [{"material": "304"}]}).verdict is PASS
    # what counts everywhere is judged as fume
    gas = {**AREA, "substances": ["ammonia"]}
    assert ask("chemical-resistance", gas, {"materials": [{"material": "brass"}]}).verdict is FLAG


METALS = ("AL-5083", "2205", "brass", "copper", "nickel 200", "zinc die casting", "titanium", "420")
DRY = ("turpentine", "isooctane", "cumene", "1-hexanol", "2-pentanone", "n-propyl acetate", "MTBE")


@pytest.mark.parametrize("material", [*METALS, "PTFE", "borosilicate glass", "S235JR", "430"])
@pytest.mark.parametrize("solvent", DRY)
def test_metals_glass_and_ptfe_pass_in_dry_solvents_by_class(
    ask: Any, solvent: str, material: str
) -> None:
    # corrosion textbooks and charts for PTFE, from memory
    place = {**AREA, "substances": [solvent]}
    for exposure in ("fume", "splash"):
        use = {"materials": [{"material": material, "exposure": exposure}]}
        found = ask("chemical-resistance", place, use)
        assert found.verdict is PASS, found.text


@pytest.mark.parametrize("material", ["PC", "NBR", "PVDF", "FKM", "AZ91"])
def test_a_class_speaks_for_no_plastic_and_not_for_magnesium_in_alcohol(
    ask: Any, material: str
) -> None:
    place = {**AREA, "substances": ["1-hexanol"]}
    use = {"materials": [{"material": material, "exposure": "fume"}]}
    assert ask("chemical-resistance", place, use).verdict is UNPROVEN


def test_a_class_never_outweighs_a_row_of_the_pair(resist: Any) -> None:
    # titanium cracks in dry methanol: abstract in Corrosion (journal), also the grade beside it
    assert resist("titanium grade 5", "methanol", "99.9 %").verdict is FLAG
    assert resist("AL-5083", "methanol", "99.9 %", "50 °C").verdict is not PASS
    assert resist("brass", "n-propanol", "99 %", "200 °C").verdict is UNPROVEN


def test_the_class_row_is_cited_with_its_table(resist: Any) -> None:
    rows = resist("brass", "n-propanol", "99 %").decisive.rows
    assert [row.table for row in rows] == ["class_resistance"]


def test_no_solvent_holds_more_than_carbon_hydrogen_and_oxygen() -> None:
    tables = Tables.shipped()
    for row in tables.rows("solvents", Solvent):
        found = tables.substance(row.substance)
        assert found is not None
        assert set(filter(str.isalpha, found.formula)) <= set("CHO"), row.substance
        hydrocarbon = row.solvent_class is SolventClass.HYDROCARBON
        assert not (hydrocarbon and "O" in found.formula), row.substance
        assert hydrocarbon or not found.formula or "O" in found.formula, row.substance


def test_every_solvent_is_a_liquid_by_the_chemicals_library() -> None:
    # boiling points and classes of the chemicals library; gases count as chemicals everywhere
    from chemicals.phase_change import Tb

    tables = Tables.shipped()
    for row in tables.rows("solvents", Solvent):
        found = tables.substance(row.substance)
        assert found is not None
        boils = Tb(found.cas) if found.cas else None
        assert boils is None or boils > 273.15 + 20, row.substance


def test_class_rows_name_materials_families_and_classes_that_are_there() -> None:
    tables = Tables.shipped()
    known = {tables.materials(one)[0] for one in tables.ids("materials")}
    names = {one.family for one in known} | {one.id for one in known}
    classes = {one.value for one in SolventClass}
    for row in tables.rows("class_resistance", ClassResistance):
        assert row.material in names
        assert row.chemical in classes
        assert set(row.but_not) <= set(tables.ids("chemicals"))
