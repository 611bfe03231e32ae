"""Each rule on materials, case by case; sources stand in the tables, numbers beside the case."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from areafit.checks.materials.resistance import CHEMICAL_RESISTANCE as RULE
from areafit.demands import derive
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import Concentration, ConcentrationUnit, Place, PresentChemical
from areafit.facts.protection import Law
from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.verdict import Basis, Reason, Role, Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
Facts = dict[str, Any]


def chem(name: str, strength: str | None = None, heat: str | None = "25 °C", **more: Any) -> Facts:
    stated = {"concentration": strength, "temperature": heat, **more}
    return {"name": name, **{key: value for key, value in stated.items() if value is not None}}


def place(*chemicals: Facts | str, **more: Any) -> Facts:
    return {"chemicals": list(chemicals) or "none", **more}


def use(material: str, exposure: str | None = "immersed", **more: Any) -> Facts:
    return {"material": material, **({"exposure": exposure} if exposure else {}), **more}


NITRIC = chem("nitric acid", "20 %")
HCL = chem("hydrochloric acid", "10 %")
TAP_190 = chem("tap water", chloride="190 mg/L")
SALT_190 = chem("sodium chloride", "0.0313 %")  # 190 mg/L of chloride

CASES = [
    # chemical-resistance: names and facts that are missing
    ("chemical-resistance", place(), use("304"), SILENT, ""),
    ("chemical-resistance", {}, use("304"), SILENT, ""),
    ("chemical-resistance", place(NITRIC), use("unobtainium 9"), UNPROVEN, "no known material"),
    ("chemical-resistance", place(NITRIC), use("3O4"), UNPROVEN, "Nearest known"),
    ("chemical-resistance", place("sludge"), use("304"), UNPROVEN, "no known chemical"),
    ("chemical-resistance", place(NITRIC), use("304", None), UNPROVEN, "not stated"),
    ("chemical-resistance", place(NITRIC), use("304", to=["bleach"]), UNPROVEN, "of this place"),
    ("chemical-resistance", place(NITRIC, HCL), use("304", to=["HNO3"]), PASS, "nitric"),
    # narrowed to nothing known of the place and to the wrong name: `to` does not silence
    ("chemical-resistance", place(NITRIC, HCL), use("304"), FLAG, "hydrochloric"),
    # ranges are judged whole
    ("chemical-resistance", place(chem("nitric acid", "20..60 %")), use("304"), PASS, "resists"),
    (
        "chemical-resistance",
        place(chem("nitric acid", "20 %", "20..90 °C")),
        use("304"),
        UNPROVEN,
        "",
    ),
    ("chemical-resistance", place(chem("sulfuric acid", "2..50 %")), use("316"), FLAG, ""),
    # beyond the data
    (
        "chemical-resistance",
        place(chem("nitric acid", "20 %", "150 °C")),
        use("304"),
        UNPROVEN,
        "hotter",
    ),
    ("chemical-resistance", place(chem("oleum")), use("CR"), UNPROVEN, ""),
    # concentrations: none, open, by volume, by mass per litre
    ("chemical-resistance", place(chem("hydrochloric acid")), use("304"), FLAG, "uniform|pitting"),
    ("chemical-resistance", place(chem("sulfuric acid")), use("316"), UNPROVEN, "concentration"),
    (
        "chemical-resistance",
        place(chem("nitric acid", "20 %", None)),
        use("304"),
        UNPROVEN,
        "temperature",
    ),
    ("chemical-resistance", place(chem("sulfuric acid", "15 % v/v")), use("304"), FLAG, ""),
    (
        "chemical-resistance",
        place(chem("sulfuric acid", "3 % v/v")),
        use("316"),
        UNPROVEN,
        "mass percent",
    ),
    ("chemical-resistance", place(chem("sulfuric acid", "20 g/L")), use("316"), PASS, ""),
    ("chemical-resistance", place(chem("sodium chloride", "150 mg/L")), use("304"), PASS, ""),
    # mixtures in one bath
    (
        "chemical-resistance",
        place({**NITRIC, "bath": "a"}, chem("HF", "2 %", bath="a")),
        use("304"),
        FLAG,
        "nitric acid + HF",
    ),
    (
        "chemical-resistance",
        place({**NITRIC, "bath": "a"}, chem("HF", "2 %", None, bath="a")),
        use("PTFE"),
        UNPROVEN,
        "",
    ),
    (
        "chemical-resistance",
        place({**NITRIC, "bath": "a"}, chem("citric acid", "2 %", bath="a")),
        use("304"),
        UNPROVEN,
        "mixed",
    ),
    (
        "chemical-resistance",
        place({**NITRIC, "bath": "a"}, chem("DI water", bath="a")),
        use("304"),
        PASS,
        "",
    ),
    (
        "chemical-resistance",
        place({**NITRIC, "bath": "a"}, chem("citric acid", "2 %", bath="a")),
        use("304", None),
        UNPROVEN,
        "",
    ),
    # coatings with what lies below them
    ("chemical-resistance", place(NITRIC), use("epoxy coating", "splash"), FLAG, ""),
    (
        "chemical-resistance",
        place(chem("tap water")),
        use("epoxy coating"),
        UNPROVEN,
        "below it decides",
    ),
    (
        "chemical-resistance",
        place(chem("mineral oil")),
        use("epoxy coating", substrate="carbon steel"),
        PASS,
        "",
    ),
    (
        "chemical-resistance",
        place(chem("sea water")),
        use("epoxy coating", substrate="carbon steel"),
        FLAG,
        "",
    ),
    (
        "chemical-resistance",
        place(chem("mineral oil")),
        use("epoxy coating", substrate="driftwood"),
        UNPROVEN,
        "not known",
    ),
    ("chemical-resistance", place(chem("mineral oil")), use("epoxy coating", "fume"), PASS, ""),
    # a flammable substance counts as vapour, known here or not
    (
        "chemical-resistance",
        place(substances=["acetone"], ambient="5..30 °C"),
        use("FKM", "room"),
        FLAG,
        "fume",
    ),
    (
        "chemical-resistance",
        place(substances=["acetone"], ambient="5..30 °C"),
        use("FKM", None),
        FLAG,
        "fume",
    ),
    ("chemical-resistance", place(substances=["propane"]), use("304", "room"), UNPROVEN, "propane"),
    # fume: mist that is not ruled out
    (
        "chemical-resistance",
        place(chem("sulfuric acid", "2 %")),
        use("316", "fume"),
        UNPROVEN,
        "spray",
    ),
    (
        "chemical-resistance",
        place(chem("sulfuric acid", "2 %", mist=True)),
        use("316", "fume"),
        FLAG,
        "mist",
    ),
    (
        "chemical-resistance",
        place(chem("sulfuric acid", "2 %", mist=False)),
        use("316", "fume"),
        PASS,
        "",
    ),
    # a residue of unknown strength is judged by the strongest solution known
    (
        "chemical-resistance",
        place(chem("alkaline foam cleaner", "2 %", "50 °C")),
        use("304", "washdown"),
        UNPROVEN,
        "judgement",
    ),
    (
        "chemical-resistance",
        place(chem("alkaline foam cleaner", "2 %", "50 °C", rinsed=True)),
        use("304", "washdown"),
        PASS,
        "",
    ),
    # materials-listed
    ("materials-listed", place(), use("304"), SILENT, ""),
    ("materials-listed", place(NITRIC), use("304", "room"), SILENT, ""),
    ("materials-listed", place(substances=["ethanol"]), use("304", "room"), UNPROVEN, ""),
    # stress-corrosion
    ("stress-corrosion", place(chem("tap water", None, "80 °C")), use("304"), UNPROVEN, "chloride"),
    (
        "stress-corrosion",
        place(chem("tap water", None, "80 °C", chloride="50 mg/L")),
        use("304"),
        FLAG,
        "",
    ),
    (
        "stress-corrosion",
        place(chem("tap water", None, "80 °C", chloride="0 mg/L")),
        use("304"),
        SILENT,
        "",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", None)),
        use("304"),
        UNPROVEN,
        "temperature",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "55 °C")),
        use("304"),
        UNPROVEN,
        "loaded or",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "55 °C")),
        use("304", stressed=False, welded=True),
        UNPROVEN,
        "welded",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "55 °C")),
        use("304", stressed=True),
        UNPROVEN,
        "loaded",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "55 °C")),
        use("304", component="return spring"),
        FLAG,
        "spring",
    ),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "90 °C")),
        use("430"),
        PASS,
        "resistant",
    ),
    ("stress-corrosion", place(chem("sodium chloride", "1 %", "70 °C")), use("2205"), PASS, ""),
    ("stress-corrosion", place(chem("sodium chloride", "1 %", "105 °C")), use("2205"), FLAG, ""),
    ("stress-corrosion", place(chem("sodium chloride", "1 %")), use("2024"), UNPROVEN, ""),
    (
        "stress-corrosion",
        place(chem("calcium chloride", "1 %", "30 °C")),
        use("316", "splash"),
        UNPROVEN,
        "",
    ),
    ("stress-corrosion", place(chem("calcium chloride", "1 %", "30 °C")), use("316"), PASS, ""),
    ("stress-corrosion", place(chem("dichloromethane")), use("316"), SILENT, ""),
    ("stress-corrosion", place(chem("sodium chloride", "1 %", "90 °C")), use("PP"), SILENT, ""),
    (
        "stress-corrosion",
        place(chem("sodium chloride", "1 %", "90 °C")),
        use("304", "room"),
        SILENT,
        "",
    ),
    # pitting
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("304"), UNPROVEN, "crevice"),
    (
        "pitting",
        place(chem("sodium chloride", "0.01 %")),
        use("304", crevice=True),
        UNPROVEN,
        "about 20",
    ),
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("304", crevice=False), PASS, ""),
    (
        "pitting",
        place(chem("sodium chloride", "0.05 %")),
        use("304", crevice=True),
        FLAG,
        "crevices",
    ),
    (
        "pitting",
        place(chem("sodium chloride", "0.05 %", "60 °C")),
        use("316", crevice=False),
        UNPROVEN,
        "300 mg/L",
    ),
    (
        "pitting",
        place(chem("sodium chloride", "0.05 %", None)),
        use("316", crevice=False),
        UNPROVEN,
        "40 °C",
    ),
    ("pitting", place(chem("sodium chloride")), use("316"), UNPROVEN, "not stated"),
    ("pitting", place(chem("sea water")), use("316"), FLAG, ""),
    ("pitting", place(chem("sea water")), use("6Mo", crevice=False), PASS, ""),
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("303"), UNPROVEN, "sulphides"),
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("410"), UNPROVEN, "none is known"),
    (
        "pitting",
        place(chem("tap water", chloride="0.02 % v/v")),
        use("316"),
        UNPROVEN,
        "not stated",
    ),
    ("pitting", place(chem("tap water", chloride="0.05 g/L")), use("316"), PASS, ""),
    ("pitting", place(chem("tap water", chloride="0.005 %")), use("316"), PASS, ""),
    (
        "pitting",
        place(chem("phosphoric acid", "20 %", chloride="50 mg/L")),
        use("316"),
        UNPROVEN,
        "says nothing",
    ),
    # a drop that dries allows a tenth, however the chloride is stated: own reasoning
    ("pitting", place(TAP_190), use("304", crevice=False), PASS, ""),
    ("pitting", place(TAP_190), use("304", "splash", crevice=False), UNPROVEN, "drops dry"),
    ("pitting", place(SALT_190), use("304", "splash", crevice=False), UNPROVEN, "drops dry"),
    ("pitting", place(TAP_190), use("304", "splash", crevice=True), FLAG, "crevices"),
    ("pitting", place(TAP_190), use("316", "splash", crevice=False), UNPROVEN, "about 100"),
    ("pitting", place(SALT_190), use("316", "splash", crevice=False), UNPROVEN, "about 100"),
    ("pitting", place(TAP_190), use("2205", "splash", crevice=True), PASS, ""),
    ("pitting", place(TAP_190), use("304", "washdown", crevice=False), UNPROVEN, "drops dry"),
    # rinsing is no relief for pitting, one drop that stays is enough: own reasoning
    (
        "pitting",
        place({**TAP_190, "rinsed": True}),
        use("304", "washdown", crevice=False),
        UNPROVEN,
        "drops dry",
    ),
    ("pitting", place(chem("tap water", chloride="15 mg/L")), use("304", "splash"), PASS, ""),
    # bare-steel-in-air: ISO 9223:2012 Table 2, from memory
    (
        "bare-steel-in-air",
        place(atmosphere="severe"),
        use("S355J2", "room"),
        UNPROVEN,
        "25 to 200 µm",
    ),
    ("bare-steel-in-air", place(atmosphere="severe"), use("GG25", "splash"), UNPROVEN, "bare"),
    ("bare-steel-in-air", place(), use("carbon steel", "room"), UNPROVEN, "not stated"),
    (
        "bare-steel-in-air",
        place(atmosphere="normal"),
        use("carbon steel", None),
        PASS,
        "1 to 25 µm",
    ),
    ("bare-steel-in-air", place(atmosphere="controlled"), use("8.8", "room"), PASS, ""),
    ("bare-steel-in-air", place(atmosphere="severe"), use("S235", "enclosed"), SILENT, ""),
    ("bare-steel-in-air", place(atmosphere="severe"), use("304", "room"), SILENT, ""),
    ("bare-steel-in-air", place(atmosphere="severe"), use("6082", "room"), SILENT, ""),
    ("bare-steel-in-air", place(atmosphere="severe"), use("zinc-plated steel", "room"), SILENT, ""),
    # salt-air: stainless association, from memory
    ("salt-air", place(chem("marine air", None)), use("316", crevice=True), UNPROVEN, "crevices"),
    ("salt-air", place(chem("marine air", None)), use("316"), UNPROVEN, "not stated"),
    ("salt-air", place(chem("marine air", None)), use("316", crevice=False), PASS, "stains"),
    ("salt-air", place(chem("marine air", None)), use("316", "room", crevice=True), UNPROVEN, ""),
    ("salt-air", place(chem("marine air", None)), use("316", "enclosed"), SILENT, ""),
    ("salt-air", place(chem("marine air", None)), use("304", crevice=False), UNPROVEN, "open"),
    ("salt-air", place(chem("marine air", None)), use("410", crevice=False), UNPROVEN, "open"),
    ("salt-air", place(chem("marine air", None)), use("2205", crevice=True), PASS, ""),
    ("salt-air", place(chem("marine air", None)), use("6061", crevice=True), SILENT, ""),
    ("salt-air", place(chem("sea water")), use("316", crevice=True), SILENT, ""),
    ("pitting", place(chem("phosphoric acid", "20 %")), use("316"), SILENT, ""),
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("316", "room"), SILENT, ""),
    ("pitting", place(chem("sodium chloride", "0.01 %")), use("PP"), SILENT, ""),
    # copper-alloy: 46 CFR 56.50-103; season cracking pages
    (
        "copper-alloy",
        place(chem("acetylene")),
        use("CW614N", composition={"Cu": "66 %"}),
        FLAG,
        "66 %",
    ),
    ("copper-alloy", place(chem("acetylene")), use("silver"), FLAG, "explosive salt"),
    ("copper-alloy", place(chem("acetylene")), use("304"), SILENT, ""),
    ("copper-alloy", place(chem("acetylene")), use("C26000", "enclosed"), FLAG, "acetylide"),
    (
        "copper-alloy",
        place(chem("ammonia gas")),
        use("brass", "enclosed", breathes=False),
        PASS,
        "sealed",
    ),
    ("copper-alloy", place(chem("ammonia gas")), use("brass", "enclosed", breathes=True), FLAG, ""),
    ("copper-alloy", place(chem("triethylamine")), use("phosphor bronze", "fume"), FLAG, ""),
    ("copper-alloy", place(chem("sodium sulfide", "5 %")), use("brass", "room"), SILENT, ""),
    ("copper-alloy", place(chem("sulfur dioxide")), use("nickel-plated brass", "room"), FLAG, ""),
    ("copper-alloy", place(chem("ammonia gas")), use("alloy 400", "room"), SILENT, ""),
    ("copper-alloy", place(NITRIC), use("brass"), SILENT, ""),
    # the name may mean an alloy with copper and one without
    ("copper-alloy", place(chem("acetylene")), use("aluminium"), PASS, "below 65 %"),
    # plating: galvanizers' manual, water-treatment handbook
    (
        "plating",
        place(chem("acetic acid", "1 %")),
        use("galvanised steel", "room"),
        FLAG,
        "whitens",
    ),
    (
        "plating",
        place(chem("sodium hydroxide", "1 %")),
        use("zinc die cast", "splash"),
        FLAG,
        "hydrogen",
    ),
    ("plating", place(chem("ammonium chloride", "5 %")), use("zinc-plated steel"), UNPROVEN, "pH"),
    (
        "plating",
        place(chem("ammonium chloride", "5 %", ph="5")),
        use("zinc-plated steel"),
        FLAG,
        "",
    ),
    ("plating", place(chem("tap water", ph="6.5..8")), use("zinc-plated steel"), PASS, ""),
    ("plating", place(HCL), use("chrome-plated rod", "fume"), FLAG, "Chromium dissolves"),
    (
        "plating",
        place(chem("sodium chloride", "1 %")),
        use("chrome-plated rod"),
        UNPROVEN,
        "Chloride rusts",
    ),
    (
        "plating",
        place(chem("sodium chloride", "1 %")),
        use("nickel-plated steel"),
        UNPROVEN,
        "pores",
    ),
    ("plating", place(chem("acetone")), use("zinc-plated steel", "room"), SILENT, ""),
    ("plating", place(chem("citric acid", "5 %")), use("zinc-plated steel", "fume"), SILENT, ""),
    ("plating", place(chem("citric acid", "5 %")), use("zinc-plated steel", "room"), SILENT, ""),
    ("plating", place(NITRIC), use("304"), SILENT, ""),
    # material-temperature
    ("material-temperature", {}, use("PTFE"), SILENT, ""),
    ("material-temperature", {"ambient": "-30..30 °C"}, use("PVC-U"), FLAG, "falls to -30"),
    (
        "material-temperature",
        {"ambient": "-30..30 °C"},
        use("laminated glass"),
        UNPROVEN,
        "No service",
    ),
    ("material-temperature", {"ambient": "0..30 °C"}, use("laminated glass"), PASS, ""),
    ("material-temperature", {"ambient": "-30..30 °C"}, use("alumina"), PASS, ""),
    (
        "material-temperature",
        {"ambient": "0..30 °C"},
        use("PP", temperature="120 °C"),
        FLAG,
        "itself",
    ),
    ("material-temperature", place("nitric acid", ambient="0..30 °C"), use("PP"), PASS, ""),
    ("material-temperature", place(NITRIC, ambient="0..30 °C"), use("wonder resin"), SILENT, ""),
    (
        "material-temperature",
        {"ambient": "0..30 °C"},
        use("polypropylenne"),
        UNPROVEN,
        "Nearest known",
    ),
    (
        "material-temperature",
        place(chem("nitric acid", "5 %", "99 °C")),
        use("PVC-U", "room"),
        SILENT,
        "",
    ),
    # hydrogen-embrittlement: ISO 898-1 classes, hardness from memory
    ("hydrogen-embrittlement", place(HCL), use("12.9", "fume"), FLAG, "charges"),
    ("hydrogen-embrittlement", place(HCL), use("12.9", "room"), UNPROVEN, "stands in a room"),
    ("hydrogen-embrittlement", place(HCL), use("12.9", "enclosed"), SILENT, ""),
    ("hydrogen-embrittlement", place(chem("hydrogen")), use("spring steel"), FLAG, ""),
    (
        "hydrogen-embrittlement",
        place(chem("phosphoric acid", "5 %")),
        use("12.9", "fume"),
        FLAG,
        "",
    ),
    ("hydrogen-embrittlement", place(HCL), use("carbon steel", hardness="400 HV"), FLAG, ""),
    ("hydrogen-embrittlement", place(HCL), use("carbon steel", hardness="20..25 HRC"), PASS, ""),
    ("hydrogen-embrittlement", place(HCL), use("carbon steel", hardness="350 HBW"), FLAG, ""),
    (
        "hydrogen-embrittlement",
        place(HCL),
        use("carbon steel", hardness="hard", component="bolt"),
        UNPROVEN,
        "",
    ),
    ("hydrogen-embrittlement", place(HCL), use("carbon steel"), UNPROVEN, ""),
    ("hydrogen-embrittlement", place(HCL), use("carbon steel", component="bracket"), SILENT, ""),
    (
        "hydrogen-embrittlement",
        place(HCL),
        use("304", component="bolt", property_class="12.9"),
        SILENT,
        "",
    ),
    ("hydrogen-embrittlement", place(NITRIC), use("12.9"), SILENT, ""),
    # weld-sensitisation: EN 10088-1 carbon limits
    ("weld-sensitisation", place(NITRIC), use("321", welded=True), PASS, "stabilised"),
    ("weld-sensitisation", place(NITRIC), use("A2", component="hex bolt"), PASS, "fastener"),
    ("weld-sensitisation", place(NITRIC), use("304", "room"), SILENT, ""),
    (
        "weld-sensitisation",
        place(chem("acetic acid", "20 %")),
        use("316", "fume", welded=True),
        UNPROVEN,
        "",
    ),
    ("weld-sensitisation", place(chem("citric acid", "20 %")), use("316", welded=True), SILENT, ""),
    ("weld-sensitisation", place(NITRIC), use("2205", welded=True), SILENT, ""),
]


@pytest.mark.parametrize("case", CASES)
def test_one_material(ask: Any, case: tuple[str, Facts, Facts, Verdict, str]) -> None:
    rule, where, material, expected, said = case
    answer = ask(rule, where, {"materials": [material]})
    assert answer.verdict is expected, answer.text
    told = " ".join((answer.text, *(one.found for one in answer.judgements)))
    assert any(word in told for word in said.split("|")), told


def test_a_listed_part_asks_what_such_parts_hide(ask: Any) -> None:
    part = {"description": "Pneumatic cylinder, 32 mm", "materials": [use("6082", "splash")]}
    answer = ask("materials-listed", place(NITRIC), part)
    assert answer.verdict is UNPROVEN
    assert "Which grease is inside?" in answer.text
    assert answer.decisive.reason is Reason.FACT_MISSING


def test_a_plate_is_not_asked_for_its_grease(ask: Any) -> None:
    """Common practice, no source: what hides nothing is asked about as a whole."""
    part = {"description": "Mounting plate", "materials": [use("6061", "splash")]}
    found = ask("materials-listed", place(NITRIC), part).decisive
    assert "Is it all of one material" in found.message
    assert found.answer_by is Role.DESIGNER
    machine = {"description": "Compressor", "materials": [use("6061", "splash")]}
    found = ask("materials-listed", place(NITRIC), machine).decisive
    assert "Which seals, springs, grease" in found.message
    assert found.answer_by is not Role.DESIGNER


def test_remedies_name_materials_that_pass(resist: Any) -> None:
    remedy = resist("NBR", "acetone").decisive.remedy
    name = remedy.partition("resists all chemicals here: ")[2].rstrip(".").split("; ")[0]
    assert resist(name, "acetone").verdict is PASS
    none = resist("304", "ammonium bifluoride", "20 %", "200 °C").decisive.remedy
    assert "the tables hold none" in none


def test_neither_loaded_nor_welded(ask: Any) -> None:
    where = place(chem("sodium chloride", "1 %", "55 °C"))
    part = {"materials": [use("304", stressed=False, welded=False)]}
    assert ask("stress-corrosion", where, part, least=Basis.JUDGEMENT).verdict is PASS
    assert ask("stress-corrosion", where, part).verdict is UNPROVEN


def test_a_substance_without_resistance_rows_of_any_name(ask: Any) -> None:
    tables = Tables.shipped()
    name = next(one for one in tables.ids("substances") if not tables.chemicals(one))
    answer = ask("chemical-resistance", place(substances=[name]), {"materials": [use("304")]})
    assert answer.verdict is UNPROVEN
    assert f"no data for 304 in {name}." in answer.text


@pytest.mark.parametrize(
    ("chemical", "expected", "said"),
    [
        ("hydrochloric-acid", FLAG, "pits"),
        ("sulfuric-acid", UNPROVEN, "needs approved_by"),
    ],
)
def test_a_laxer_row_of_the_company_waits_for_its_approval(
    chemical: str, expected: Verdict, said: str
) -> None:
    header = "material,chemical,conc_min_pct,conc_max_pct,temp_max_c,rating,mechanism,figure,"
    row = f"304,{chemical},0,5,25,suitable,none,,practice,test coupon,seen,"
    own = f"{header}source_id,locator,basis,note\n{row}\n"
    tables = Tables.overlaid({"resistance.csv": own.encode()})
    span = Range(Decimal(3), Decimal(3))
    strength = Concentration(span, ConcentrationUnit.MASS)
    met = PresentChemical(chemical, strength, Range(Decimal(20), Decimal(25)))
    where = derive(Place("case", Law.IEC, chemicals=(met,)), tables, date(2026, 1, 1))
    (asked,) = RULE.ask(MaterialUse("304", exposure=Exposure.IMMERSED), where)
    judgement = RULE.judge(asked.question)
    assert judgement.verdict is expected
    assert said in judgement.message


def couple(
    ask: Any, own: Facts, other: Facts, where: Facts, least: Basis = Basis.JUDGEMENT, **contact: Any
) -> Any:
    stated = {"with": "2", "wet": True, **contact}
    return ask(
        "galvanic-couple",
        where,
        {"materials": [own], "contacts": [{k: v for k, v in stated.items() if v is not None}]},
        {"materials": [other], "contacts": "none"},
        least=least,
    )


SEVERE = place(atmosphere="severe")
NORMAL = place(atmosphere="normal")
CONTROLLED = place(atmosphere="controlled")
WATER = place(chem("tap water"))

COUPLES = [
    # plastics make no couple; unknown names and unclear components stay open
    (use("PP", None), use("304", None), SEVERE, {}, PASS, "no metal"),
    (use("304", None), use("PP", None), SEVERE, {}, PASS, "no metal"),
    (use("granite", None), use("304", None), SEVERE, {}, UNPROVEN, "no known material"),
    (use("304", None), use("30 4 L X", None), SEVERE, {}, UNPROVEN, "no known material"),
    (use("304", None), use("304", None), SEVERE, {"component": "lid"}, UNPROVEN, "this part"),
    (use("304", None), use("304", None), SEVERE, {"with_component": "lid"}, UNPROVEN, "item 2"),
    # no electrolyte, no couple
    (use("304", None), use("6061", None), SEVERE, {"wet": False}, PASS, "kept dry"),
    (use("304", "enclosed"), use("6061", "enclosed"), SEVERE, {"wet": None}, PASS, "enclosed"),
    (use("304"), use("6061"), place(), {"wet": False}, PASS, "kept dry"),
    # solvents carry no current; of which air it is nothing is said
    (use("304"), use("6061"), place(chem("acetone")), {}, UNPROVEN, "not stated"),
    (use("304"), use("6061"), place(), {}, UNPROVEN, "not stated"),
    (use("304"), use("316"), place(), {}, PASS, "150 mV"),
    # chemicals make the air severe; where nothing is said, the harshest and the mildest limit
    (use("304"), use("6061"), WATER, {"wet": None}, FLAG, "400 mV"),
    (use("304", "room"), use("6061", "room"), WATER, {"wet": None}, UNPROVEN, "not stated"),
    (use("copper", "room"), use("6061", "room"), WATER, {"wet": None}, FLAG, "500 mV"),
    # where the index misleads: passive stainless steel, anodic films, zinc that protects
    (use("304"), use("nickel200"), SEVERE, {}, PASS, "small couple"),
    (use("316"), use("titanium grade 2"), SEVERE, {}, PASS, "small couple"),
    (use("hard anodised aluminium"), use("316"), NORMAL, {}, UNPROVEN, "film"),
    (use("zinc-plated steel"), use("carbon steel"), SEVERE, {}, PASS, "used up"),
    (use("zinc-plated steel"), use("6061"), SEVERE, {}, PASS, "differs by 50 mV"),
    (
        use("zinc-plated steel"),
        use("carbon steel"),
        place(chem("tap water", None, "70 °C")),
        {},
        UNPROVEN,
        "60 °C",
    ),
    (use("zinc-plated steel"), use("316"), SEVERE, {}, FLAG, ""),
    # Table I of MIL-STD-889C, as a data file has it: groups K and L to N, E and F, K and Q
    (use("316"), use("aluminium bronze"), SEVERE, {}, FLAG, "dissimilar"),
    (use("316"), use("C360 brass"), SEVERE, {}, FLAG, "dissimilar"),
    (use("carbon steel"), use("6061"), SEVERE, {}, FLAG, "dissimilar"),
    (use("316"), use("C360 brass"), NORMAL, {}, PASS, "250 mV"),
    (use("316"), use("C360 brass"), place(), {}, UNPROVEN, "dissimilar"),
    (use("316"), use("titanium grade 2"), place(chem("sea water")), {}, FLAG, "sea water"),
    # area: a small noble screw in milder air, a small base one anywhere
    (use("304", component="screw"), use("6061"), NORMAL, {}, PASS, "500 mV"),
    (use("304", component="screw"), use("6061"), SEVERE, {}, FLAG, "400 mV"),
    (use("6061", component="screw"), use("304"), CONTROLLED, {}, FLAG, "smaller side"),
    (
        use("304", surface_area="1 cm²"),
        use("6061", surface_area="100 cm²"),
        NORMAL,
        {},
        PASS,
        "500 mV",
    ),
    (
        use("304", surface_area="100 cm²"),
        use("6061", surface_area="1 cm²"),
        CONTROLLED,
        {},
        FLAG,
        "smaller side",
    ),
    (
        use("304", surface_area="100 cm²"),
        use("6061", surface_area="90 cm²"),
        CONTROLLED,
        {},
        PASS,
        "500 mV",
    ),
]


@pytest.mark.parametrize("case", COUPLES)
def test_two_materials(ask: Any, case: tuple[Facts, Facts, Facts, Facts, Verdict, str]) -> None:
    own, other, where, contact, expected, said = case
    answer = couple(ask, own, other, where, **contact)
    assert answer.verdict is expected, answer.text
    assert said in answer.text


@pytest.mark.parametrize(
    ("other", "where", "contact", "expected"),
    [
        # 400 mV is allowed in controlled air and not where water stands: the pages on limits
        ("6061", CONTROLLED, {"wet": True}, UNPROVEN),
        ("6061", CONTROLLED, {"wet": False}, SILENT),
        ("6061", CONTROLLED, {}, SILENT),
        ("6061", NORMAL, {"wet": True}, SILENT),
        ("6061", {**CONTROLLED, **WATER}, {"wet": True}, SILENT),
        ("6061", {**CONTROLLED, **place(chem("acetone"))}, {"wet": True}, UNPROVEN),
        ("316", CONTROLLED, {"wet": True}, PASS),
        ("PP", CONTROLLED, {"wet": True}, PASS),
        ("granite", CONTROLLED, {"wet": True}, SILENT),
    ],
)
def test_a_wet_contact_in_controlled_air(
    ask: Any, other: str, where: Facts, contact: Facts, expected: Verdict
) -> None:
    own = {"materials": [use("304", "room")], "contacts": [{"with": "2", **contact}]}
    with_it = {"materials": [use(other, "room")], "contacts": "none"}
    assert ask("wet-contact", where, own, with_it).verdict is expected


@pytest.mark.parametrize(
    ("materials", "expected"),
    [
        ([use("304", "splash")], UNPROVEN),
        ([use("heirloom alloy", "splash")], UNPROVEN),
        ([use("PP", "splash")], SILENT),
        ([use("304", "room")], SILENT),
        (None, UNPROVEN),
    ],
)
def test_contacts_that_are_not_stated(ask: Any, materials: Any, expected: Verdict) -> None:
    part = {"exposure": "splash"} if materials is None else {"materials": materials}
    assert ask("galvanic-couple", WATER, part).verdict is expected


@pytest.mark.parametrize(
    ("exposure", "substances", "chemicals", "expected"),
    [
        # neutral solvents are no electrolyte: corrosion textbooks, from memory
        ("splash", ["toluene", "n-heptane"], "none", SILENT),
        ("immersed", ["ethanol"], "none", SILENT),
        ("fume", ["acetone"], "none", SILENT),
        # a hose is water; ammonia takes it up; what is listed as a chemical may hold some
        ("washdown", ["toluene"], "none", UNPROVEN),
        ("fume", ["ammonia"], "none", UNPROVEN),
        ("splash", "none", "none", UNPROVEN),
        ("splash", ["toluene"], [{"name": "tap water", "temperature": "20 °C"}], UNPROVEN),
        ("splash", "none", [{"name": "ethanol", "concentration": "60 %"}], UNPROVEN),
    ],
)
def test_contacts_are_asked_for_where_what_wets_may_conduct(
    ask: Any, exposure: str, substances: Any, chemicals: Any, expected: Verdict
) -> None:
    place = {"area": "Zone 1, IIB, T3", "substances": substances, "chemicals": chemicals}
    line = {"materials": [use("316", exposure)]}
    assert ask("galvanic-couple", place, line).verdict is expected
    told = {**line, "contacts": "none"}
    assert ask("galvanic-couple", place, told).verdict is SILENT


PAIRS = [
    (place("bleach", "bleach"), SILENT, ""),
    (place("nitric acid", "sodium chloride"), PASS, "information|caution"),
    (place("carbon dioxide", "mineral oil"), PASS, "information"),
    (place("dimethyl sulfoxide", "mineral oil"), UNPROVEN, "no reactivity group|group"),
    (place("nitric acid", substances=["propane"]), FLAG, "fire"),
    (place("nitric acid", substances=["vapour 7"]), UNPROVEN, "vapour 7"),
    (
        place({"name": "nitric acid", "bath": "a"}, {"name": "HF", "bath": "a"}),
        PASS,
        "on purpose",
    ),
    (place({"name": "nitric acid", "bath": "a"}, {"name": "HF", "bath": "b"}), FLAG, "must not"),
    (place({"name": "acid", "bath": "a"}, {"name": "HF", "bath": "a"}), FLAG, "must not"),
    (place("ammonia", "bleach"), FLAG, "chloramines"),
]


@pytest.mark.parametrize(("where", "expected", "said"), PAIRS)
def test_chemicals_of_one_place(ask: Any, where: Facts, expected: Verdict, said: str) -> None:
    answer = ask("chemicals-together", where)
    assert answer.verdict is expected, answer.text
    told = " ".join((answer.text, *(one.found for one in answer.judgements)))
    assert any(word in told for word in said.split("|")), told
