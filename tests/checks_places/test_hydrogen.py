"""How much hydrogen, how much air, and what becomes of the place and of its parts."""

import json
from datetime import date
from decimal import Decimal

import pint
import pytest

import areafit
from areafit import Options, judge
from areafit.demands.demand import Evolution
from areafit.facts.quantity import Dimension, parse
from areafit.findings.report import BomReport
from areafit.tables import Tables
from areafit.tables.dissolution import CorrosionRate, DissolvingMetal, corrosion_rate
from areafit.tables.load import rows
from areafit.verdict import Basis

U: "pint.UnitRegistry[float]" = pint.UnitRegistry()
T = Tables.shipped()
RATES = rows("corrosion_rates", CorrosionRate)
METALS = rows("dissolving_metals", DissolvingMetal)
ACID = "{name: hydrochloric acid, concentration: 3 %, temperature: 25 °C}"
LYE = "{name: sodium hydroxide, concentration: 5 %, temperature: 60 °C}"
AIR = (
    "{rate: 600 m³/h, document: VE-1, availability: good, dead_spaces: none, other_hydrogen: none}"
)
STEEL = "{material: carbon steel, exposure: immersed, surface_area: 0.5 m²}"


def report(
    *materials: str,
    area: str = "'Zone 2, IIA, T1'",
    chemical: str = ACID,
    air: str | None = None,
    more: str = "",
    quantity: str = "2",
) -> BomReport:
    ventilation = f", ventilation: {air}" if air else ""
    amount = f", quantity: {quantity}" if quantity else ""
    lines = "".join(
        f"  - {{item: '{number}', location: bath, kind: structural{amount}, materials: [{each}]}}\n"
        for number, each in enumerate(materials, 1)
    )
    text = (
        "areafit: 1\nassembly: {number: H-1}\ncode: IEC\nlocations:\n"
        f"  bath: {{area: {area}, document: AC-1, ambient: 5..25 °C, substances: [toluene], "
        f"chemicals: [{chemical}]{ventilation}}}\nparts:\n{lines}{more}"
    )
    bom = areafit.read(text.encode(), "case.yaml")
    return judge(bom, T, Options(as_of=date(2026, 1, 1)))


def verdict(found: BomReport, rule: str = "hydrogen-evolution") -> str:
    return _told(found, rule)[0]


def _told(found: BomReport, rule: str = "hydrogen-evolution") -> tuple[str, str]:
    subjects = (*found.parts, *found.places)
    [one] = [f for each in subjects for f in each.findings() if f.rule.id == rule]
    return one.verdict.value, one.message


def amount(found: BomReport) -> Evolution:
    [place] = found.places
    assert place.demands is not None
    assert place.demands.evolution is not None
    return place.demands.evolution


def test_litres_and_air_by_a_library_of_units() -> None:
    """Fe + 2 H+ = Fe2+ + H2: a mole of hydrogen for each of iron, two plates of 0.5 m², 23 mm/a.

    The share of the lower limit and the five times of mixing are the rows of figures.csv.
    """
    gone = U.Quantity(2 * 0.5, "m²") * U.Quantity(23, "mm/year") * U.Quantity(7870, "kg/m³")
    moles = gone / U.Quantity(55.85, "g/mol")
    litres = (
        moles * U.Quantity(1, "molar_gas_constant") * U.Quantity(298.15, "K") / U.Quantity("1 atm")
    ).to("L/hour")
    air = litres.to("m³/hour") / (0.1 * 0.04) * 5
    found = amount(report(STEEL))
    assert found.litres is not None
    assert found.flow is not None
    assert 1 <= float(found.litres) / litres.magnitude < 1.1  # two digits, rounded up
    assert 1 <= float(found.flow) / air.magnitude < 1.2


def test_aluminium_gives_three_halves() -> None:
    """2 Al + 2 OH- + 6 H2O = 2 Al(OH)4- + 3 H2."""
    plate = "{material: '6082', exposure: immersed, surface_area: 1 m²}"
    found = amount(report(plate, chemical=LYE, quantity="1"))
    rate = corrosion_rate("aluminium", "sodium-hydroxide", Decimal(5), Decimal(60))
    assert rate is not None
    kilograms = float(rate.mm_per_year) / 1000 / 8766 * 2700
    litres = kilograms * 1000 / 26.98 * 1.5 * 8.314462618 * 333.15 / 101.325
    assert float(found.litres or 0) == pytest.approx(litres, rel=0.08)


def test_every_line_its_quantity_and_the_worst_alternate_count() -> None:
    one, two = amount(report(STEEL, quantity="1")), amount(report(STEEL, STEEL, quantity="3"))
    assert one.litres is not None
    assert two.litres is not None
    assert float(two.litres / one.litres) == pytest.approx(6, rel=0.1)
    more = (
        f"  - {{item: '9', location: bath, kind: structural, quantity: 1, materials: [{STEEL}], "
        f"alternates: [{{part_number: B, materials: [{STEEL.replace('0.5', '5')}]}}]}}\n"
    )
    with_other = amount(report(STEEL.replace("0.5 m²", "1 mm²"), more=more))
    assert float((with_other.litres or 0) / one.litres) == pytest.approx(10, rel=0.1)


@pytest.mark.parametrize(
    ("changed", "verdicts"),
    [  # at Zone 2 IIA (milder than hydrogen), and where no gas hazard is declared
        ({"air": AIR}, ("pass", "pass")),
        ({}, ("flag", "unproven")),
        ({"air": AIR.replace("600", "0.1")}, ("flag", "flag")),
        ({"air": AIR.replace("good", "fair")}, ("unproven", "unproven")),
        ({"air": AIR.replace("dead_spaces: none", "dead_spaces: some")}, ("unproven", "unproven")),
        ({"air": AIR.replace(", other_hydrogen: none", "")}, ("unproven", "unproven")),
        ({"air": AIR.replace("document: VE-1, ", "")}, ("unproven", "unproven")),
        ({"air": AIR.replace("VE-1", "tbd")}, ("unproven", "unproven")),
        ({"air": AIR.replace("rate: 600 m³/h, ", "")}, ("flag", "unproven")),
        ({"air": AIR, "quantity": ""}, ("flag", "unproven")),
        ({"air": AIR, "chemical": ACID.replace(", temperature: 25 °C", "")}, ("flag", "unproven")),
        ({"air": AIR, "chemical": ACID.replace("25 °C", "95 °C")}, ("flag", "unproven")),
        # a recalled rate never passes
        ({"air": AIR, "chemical": ACID.replace("3 %", "8 %")}, ("unproven", "unproven")),
    ],
)
def test_the_place(changed: dict[str, str], verdicts: tuple[str, str]) -> None:
    milder, none = report(STEEL, **changed), report(STEEL, area="unclassified", **changed)
    assert (verdict(milder), verdict(none)) == verdicts


def test_without_its_area_a_metal_leaves_it_open() -> None:
    bare = STEEL.replace(", surface_area: 0.5 m²", "")
    found = report(bare, air=AIR)
    assert verdict(found) == "flag"
    assert "milder than hydrogen. Not stated: wetted area." in _told(found)[1]


def test_a_few_screws_are_told_from_a_vat() -> None:
    """The finding says the rate and the air that would be needed, small or large."""
    screw = "{material: carbon steel, exposure: immersed, surface_area: 1 cm²}"
    assert "at most 0.0037 L/h" in _told(report(screw, quantity="4"))[1]
    vat = "{material: '6082', exposure: immersed, surface_area: 6 m²}"
    assert "m³/h of air are needed" in _told(report(vat, chemical=LYE))[1]


@pytest.mark.parametrize(
    ("air", "marking", "expected"),
    [
        (None, "Ex db IIA T1 Gb", "unproven"),
        (None, "Ex db IIC T1 Gb", "pass"),
        (AIR, "Ex db IIA T1 Gb", "pass"),
        (AIR.replace("good", "poor"), "Ex db IIA T1 Gb", "unproven"),
        (AIR.replace("600", "0.1"), "Ex db IIA T1 Gb", "flag"),
    ],
)
def test_the_parts_of_the_place(air: str | None, marking: str, expected: str) -> None:
    more = f"  - {{item: '9', location: bath, kind: electrical, marking: {marking}}}\n"
    assert verdict(report(STEEL, air=air, more=more), "gas-group") == expected


@pytest.mark.parametrize(
    ("air", "expected"),
    [(None, "unproven"), (AIR, "pass"), (AIR.replace("600", "0.1"), "flag")],
)
def test_surfaces_under_hydrogen(air: str | None, expected: str) -> None:
    """90 cm² of PTFE: within the 100 cm² of IIA at level Gc, over the 20 cm² of IIC."""
    cover = "{material: PTFE, exposure: room, surface_area: 90 cm²}"
    more = f"  - {{item: '9', location: bath, kind: structural, materials: [{cover}]}}\n"
    found = report(STEEL, air=air, more=more)
    subjects = (f for part in found.parts for f in part.findings())
    [one] = [f for f in subjects if f.rule.id == "static-surface" and "PTFE" in f.found]
    assert one.verdict.value == expected


@pytest.mark.parametrize(
    ("metal", "chemical"), sorted({(row.metal, row.chemical) for row in RATES})
)
def test_a_hotter_or_stronger_bath_is_never_slower(metal: str, chemical: str) -> None:
    """At every corner of the rows and just beyond; past the last of them no rate is known."""
    own = [row for row in RATES if (row.metal, row.chemical) == (metal, chemical)]
    step = Decimal("0.01")
    percents = sorted({p + d for row in own for p in [row.conc_max_pct] for d in (0, step)})
    heats = sorted({t + d for row in own for t in [row.temp_max_c] for d in (0, step)})
    beyond = Decimal("inf")

    def speed(percent: Decimal, celsius: Decimal) -> Decimal:
        row = corrosion_rate(metal, chemical, percent, celsius)
        return beyond if row is None else row.mm_per_year

    grid = [[speed(percent, celsius) for celsius in heats] for percent in percents]
    assert all(line == sorted(line) for line in grid)
    assert all(list(column) == sorted(column) for column in zip(*grid, strict=True))


def test_rates_that_were_read() -> None:
    """All others are recalled, so that none of them passes; no figures of them were found to read.

    Of steel in hydrochloric acid: CORR-DATA (A106, 23 mm a year), and grade 1 of a maker's tables,
    which is 0.1 to 1 mm a year.
    """
    read = {
        (row.metal, row.chemical, row.conc_max_pct, row.temp_max_c, row.mm_per_year)
        for row in RATES
        if row.basis in (Basis.SEEN, Basis.REPORTED)
    }
    assert read == {
        ("iron", "hydrochloric-acid", Decimal("0.1"), Decimal(50), Decimal(1)),
        ("iron", "hydrochloric-acid", Decimal("0.2"), Decimal(20), Decimal(1)),
        ("iron", "hydrochloric-acid", Decimal(5), Decimal(45), Decimal(23)),
    }


@pytest.mark.parametrize(
    ("metal", "chemical", "percent", "celsius", "current"),
    [  # corrosion currents as read in abstracts and tables of papers; a rate is no less than any
        # mild steel in 1 mol/L and in 0.5 mol/L: Journal of Chemistry 2013, 835365, table 5
        ("iron", "hydrochloric-acid", "3.6", "25", (0.16759, "mA/cm²")),
        ("iron", "sulfuric-acid", "4.8", "25", (1.699, "mA/cm²")),
        # carbon steel in 1 mol/L for 24 h: Scientific Reports 2023, s41598-023-41165-7, table 4
        ("iron", "hydrochloric-acid", "3.6", "30", (0.4020, "mg/cm²/hour")),
        ("iron", "hydrochloric-acid", "3.6", "40", (0.5230, "mg/cm²/hour")),
        ("iron", "hydrochloric-acid", "3.6", "60", (0.7003, "mg/cm²/hour")),
    ],
)
def test_rates_are_no_less_than_those_of_papers(
    metal: str, chemical: str, percent: str, celsius: str, current: tuple[float, str]
) -> None:
    """By Faraday's law and by mass, with a library of units."""
    [row] = {one.metal: one for one in METALS if one.metal == metal}.values()
    measured = U.Quantity(*current)
    if measured.check("[current]/[length]**2"):
        moles = measured / (
            U.Quantity(float(row.electrons), "") * U.Quantity(1, "faraday_constant")
        )
        measured = moles * U.Quantity(float(row.g_per_mol), "g/mol")
    published = (measured / U.Quantity(float(row.kg_m3), "kg/m³")).to("mm/year").magnitude
    ours = corrosion_rate(metal, chemical, Decimal(percent), Decimal(celsius))
    assert ours is not None
    assert float(ours.mm_per_year) >= published


def test_metals_are_those_of_the_periodic_table() -> None:
    """Atomic weights and common valences; IUPAC, from memory."""
    known = {
        "aluminium": (26.98, 3),
        "iron": (55.85, 2),
        "zinc": (65.38, 2),
        "magnesium": (24.31, 2),
    }
    for row in rows("dissolving_metals", DissolvingMetal):
        weight, electrons = known[row.metal]
        assert float(row.g_per_mol) == pytest.approx(weight, rel=0.001)
        assert int(row.electrons) == electrons


def test_swapped_items_have_fingerprints_of_their_own() -> None:
    aluminium = "{material: '6082', exposure: immersed, surface_area: 1 m²}"
    zinc = "{material: zinc-plated steel, exposure: immersed, surface_area: 1 m²}"
    prints = {
        f.fingerprint
        for pair in ((aluminium, zinc), (zinc, aluminium))
        for place in report(*pair, chemical=LYE).places
        for f in place.findings()
        if f.rule.id == "hydrogen-evolution"
    }
    assert len(prints) == 2


@pytest.mark.parametrize("text", ["600 m³/h", "600 m3/h", "10 m³/min", "166.6666666667 l/s"])
def test_flows_are_read(text: str) -> None:
    assert float(parse(text, Dimension.VOLUME_FLOW)) == pytest.approx(600)


def test_the_report_asks_for_the_keys_that_settle_it() -> None:
    found = report(STEEL)
    [one] = [f for p in found.places for f in p.findings() if f.rule.id == "hydrogen-evolution"]
    assert "`ventilation: {rate: " in one.remedy
    assert one.answer_by.value == "area owner"
    assert json.dumps(one.message)
