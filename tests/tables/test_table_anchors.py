"""Anchor rows: typed from the published source that stands beside each, table by table."""

import json
from collections import Counter
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from areafit.facts.place import Atmosphere
from areafit.tables import Tables
from areafit.tables.area import ClassScheme, TemperatureClass
from areafit.tables.chemicals import EpaGroup, Incompatible, PairKind
from areafit.tables.load import rows
from areafit.tables.materials import GalvanicLimit

T = Tables.shipped()
CASES = json.loads(
    (Path(__file__).parents[1] / "cases" / "material_checks.json").read_text(encoding="utf-8")
)
Counted = Counter[tuple[str, str]]


def test_temperature_classes(checked: Counted) -> None:
    # IEC 60079-0:2017, Table 2 and NFPA 70:2017, Table 500.8(C)(4)
    both = {"T1": 450, "T2": 300, "T3": 200, "T4": 135, "T5": 100, "T6": 85}
    division = {
        "T2A": 280, "T2B": 260, "T2C": 230, "T2D": 215, "T3A": 180, "T3B": 165, "T3C": 160,
        "T4A": 120,
    }  # fmt: skip
    found = rows("temperature_classes", TemperatureClass)
    assert {r.name: r.max_c for r in found if r.scheme is ClassScheme.BOTH} == both
    assert {r.name: r.max_c for r in found if r.scheme is ClassScheme.NEC_DIVISION} == division
    checked["temperature_classes", "NFPA 70:2017 Table 500.8(C)(4), typed"] += len(found)


def test_galvanic_limits(checked: Counted) -> None:
    # Two public pages on the anodic index: 0.15 V harsh, 0.25 V normal, 0.50 V controlled
    found = {row.atmosphere: row.limit_mv for row in rows("galvanic_limits", GalvanicLimit)}
    assert found == {Atmosphere.SEVERE: 150, Atmosphere.NORMAL: 250, Atmosphere.CONTROLLED: 500}
    checked["galvanic_limits", "public anodic index pages, typed"] += len(found)


@pytest.mark.parametrize(
    ("a", "b", "codes"),
    [
        # EPA-600/2-80-076, Figure 6: the chart of reactivity groups
        ("2", "3", {"H", "G"}),
        ("1", "4", {"H"}),
        ("2", "4", {"H", "F"}),
        ("3", "4", {"H", "P"}),
        ("1", "104", {"H", "GT"}),
        ("19", "104", {"H", "F"}),
        ("4", "104", {"H", "F"}),
        ("1", "33", {"GT", "GF"}),
        ("10", "17", {"H", "GF"}),
        ("28", "104", {"H", "F"}),
    ],
)
def test_cells_of_the_compatibility_chart(
    a: str, b: str, codes: set[str], checked: Counted
) -> None:
    found = [
        row
        for row in rows("incompatible", Incompatible)
        if row.kind is PairKind.GROUPS and (row.a, row.b) == (a, b)
    ]
    assert [set(row.codes) for row in found] == [codes]
    checked["incompatible", "EPA-600/2-80-076 chart, typed"] += 1


def test_cells_that_the_chart_leaves_blank_are_blank() -> None:
    # EPA-600/2-80-076: acids with each other (1-2), caustics with oxidisers (10-104) and with
    # sheet metal (10-23)
    groups = {
        (row.a, row.b) for row in rows("incompatible", Incompatible) if row.kind is PairKind.GROUPS
    }
    assert not groups & {("1", "2"), ("10", "104"), ("10", "23")}


@pytest.mark.parametrize(
    ("number", "name"),
    [
        # EPA-600/2-80-076, Table 2: reactivity group numbers
        ("1", "Acids, mineral, non-oxidising"),
        ("2", "Acids, mineral, oxidising"),
        ("3", "Acids, organic"),
        ("4", "Alcohols and glycols"),
        ("10", "Caustics"),
        ("19", "Ketones"),
        ("104", "Oxidising agents, strong"),
        ("106", "Water and mixtures containing water"),
    ],
)
def test_reactivity_groups(number: str, name: str, checked: Counted) -> None:
    found = {row.number: row.name for row in rows("epa_groups", EpaGroup)}
    assert found[number] == name
    checked["epa_groups", "EPA-600/2-80-076 group list, typed"] += 1


@pytest.mark.parametrize(
    ("chemical", "group"),
    [
        # EPA-600/2-80-076, Appendix 2: compounds by reactivity group
        ("hydrochloric-acid", "1"),
        ("nitric-acid", "2"),
        ("acetic-acid", "3"),
        ("ethanol", "4"),
        ("formaldehyde", "5"),
        ("sodium-hydroxide", "10"),
        ("sodium-cyanide", "11"),
        ("ethyl-acetate", "13"),
        ("tetrahydrofuran", "14"),
        ("toluene", "16"),
        ("dichloromethane", "17"),
        ("acetone", "19"),
        ("sodium-hypochlorite", "104"),
        ("hydrogen-peroxide", "104"),
    ],
)
def test_chemicals_by_reactivity_group(chemical: str, group: str, checked: Counted) -> None:
    found = T.chemical(chemical)
    assert found is not None
    assert group in found.epa_groups
    checked["chemicals", "EPA-600/2-80-076 appendix, typed"] += 1


@pytest.mark.parametrize(
    ("number", "short", "grade"),
    [
        # EN 10088-1:2014, Tables 1 to 4: steel number, steel name; the AISI grade by custom
        ("1.4301", "X5CrNi18-10", "304"),
        ("1.4307", "X2CrNi18-9", "304L"),
        ("1.4305", "", "303"),
        ("1.4401", "X5CrNiMo17-12-2", "316"),
        ("1.4404", "X2CrNiMo17-12-2", "316L"),
        ("1.4571", "X6CrNiMoTi17-12-2", "316Ti"),
        ("1.4541", "", "321"),
        ("1.4539", "X1NiCrMoCu25-20-5", "904L"),
        ("1.4462", "", "2205"),
        ("1.4410", "", "2507"),
        ("1.4016", "", "430"),
        ("1.4542", "X5CrNiCuNb16-4", "17-4PH"),
    ],
)
def test_steel_numbers(number: str, short: str, grade: str, checked: Counted) -> None:
    for name in filter(None, (number, short, grade)):
        found = T.material(name)
        assert found is not None, name
        assert found.id == grade
    checked["materials", "EN 10088-1 numbers and names, typed"] += 1


@pytest.mark.parametrize(
    ("name", "magnesium", "titanium"),
    [
        # Public table "Chemical composition limits, aluminum alloys" of a metal trader, read
        # 2026-11-25 (limits registered with the Aluminum Association, as in EN 573-3)
        ("EN AW-6061", "1.2", "0.15"),
        ("EN AW-6063", "0.9", "0.10"),
        ("EN AW-5083", "4.9", "0.15"),
        ("EN AW-5052", "2.8", "0"),
        ("EN AW-5005", "1.1", "0"),
        ("EN AW-2024", "1.8", "0.15"),
        ("EN AW-7075", "2.9", "0.20"),
        # Public data sheets by EN 573-3, read 2026-11-25
        ("EN AW-6082", "1.2", "0.10"),
        ("EN AW-5754", "3.6", "0.15"),
        # Public table of EN 1676 with the castings of EN 1706 in brackets, read 2026-11-25
        ("EN AC-46000", "0.55", "0.25"),
        ("EN AC-47100", "0.35", "0.20"),
        # EN 1706, from memory
        ("EN AC-51200", "10.5", "0.20"),
    ],
)
def test_the_most_magnesium_and_titanium_that_a_light_alloy_may_hold(
    name: str, magnesium: str, titanium: str, checked: Counted
) -> None:
    found = T.material(name)
    assert found is not None
    assert found.mg_ti_zr_pct_max is not None
    limit = Decimal(magnesium) + Decimal(titanium)
    # Footnotes of the standard let Ti + Zr of 2024 and 7075 rise by 0.05; never below the limit.
    assert limit <= found.mg_ti_zr_pct_max <= limit + Decimal("0.1")
    checked["materials", "public composition tables of light alloys, typed"] += 1


def test_magnesium_castings_hold_the_rest_of_their_limits() -> None:
    # Public data page on AM60B (ASTM B94), read 2026-11-25: Al from 5.5 %, Mn from 0.25 %
    found = T.material("AM60B")
    assert found is not None
    assert found.mg_ti_zr_pct_max is not None
    assert found.mg_ti_zr_pct_max >= 100 - Decimal("5.5") - Decimal("0.25")


@pytest.mark.parametrize(
    ("name", "copper"),
    [
        # Copper Development Association, table 11: wrought leaded brasses, read 2026-11-25
        ("CW603N", 62),
        ("CW614N", 59),
        ("CW617N", 59),
        ("CW602N", 63),
    ],
)
def test_the_most_copper_that_a_brass_may_hold(name: str, copper: int, checked: Counted) -> None:
    found = T.material(name)
    assert found is not None
    assert found.cu_pct_max is not None
    assert copper <= found.cu_pct_max <= copper + 1
    checked["materials", "Copper Development Association table 11, typed"] += 1


@pytest.mark.parametrize(
    ("number", "carbon"),
    [
        # EN 10088 table of martensitic and precipitation-hardening steels, public page, read
        # 2026-11-25
        ("1.4542", "0.07"),
        ("1.4568", "0.09"),
        ("1.4057", "0.22"),
    ],
)
def test_the_most_carbon(number: str, carbon: str, checked: Counted) -> None:
    found = T.material(number)
    assert found is not None
    assert found.carbon_max_pct == Decimal(carbon)
    checked["materials", "EN 10088 table on a public page, typed"] += 1


@pytest.mark.parametrize(
    ("name", "below"),
    [
        # 46 CFR 56.50-103: copper alloys for acetylene hold less than 65 % copper. Contents of the
        # designations by EN 12164, EN 1982 and CDA (from memory).
        ("CW614N", True),
        ("C36000", True),
        ("CW617N", True),
        ("C26000", False),
        ("C11000", False),
        ("C51000", False),
        ("C95400", False),
        ("C70600", False),
        ("CC480K", False),
    ],
)
def test_copper_content_against_the_limit_for_acetylene(
    name: str,
    *,
    below: bool,
    checked: Counted,
) -> None:
    found = T.material(name)
    assert found is not None
    assert found.cu_pct_max is not None
    assert (found.cu_pct_max < 65) is below
    checked["materials", "copper alloy designations, from memory"] += 1


@pytest.mark.parametrize(
    ("name", "millivolts"),
    [
        # Anodic index on public pages (to 0.75 V)
        ("nickel200", 300),
        ("Ti-gr2", 300),
        ("C11000", 350),
        ("C36000", 450),
        ("304", 500),
        ("410", 600),
        ("steel-hard-chrome", 600),
        ("lead", 700),
        ("EN AW-2024", 750),
    ],
)
def test_anodic_index(name: str, millivolts: int, checked: Counted) -> None:
    found = T.material(name)
    assert found is not None
    assert found.anodic_index_mv == millivolts
    checked["materials", "public anodic index pages, typed"] += 1


@pytest.mark.parametrize(
    ("name", "cloud", "layer"),
    [
        # NFPA 499 values in an NEC handbook, commentary table 500.2
        ("Acetoacetanilide", 440, None),
        ("Adipic acid", 550, None),
        ("Aluminium, flake", None, 320),
        ("Aluminium, atomized collector fines", 550, None),
        ("Alfalfa meal", None, 200),
        ("Asphalt", None, 510),
        ("Benzoic acid", 440, None),
    ],
)
def test_dusts_of_the_handbook(
    name: str, cloud: int | None, layer: int | None, checked: Counted
) -> None:
    found = T.dust(name)
    assert found is not None
    lowest, lowest_layer = found.lowest_cloud(), found.lowest_layer()
    assert (lowest.value if lowest else None) == cloud
    assert (lowest_layer.value if lowest_layer else None) == layer
    checked["dust_values", "NEC handbook commentary table 500.2, typed"] += 1


def test_a_dust_that_does_not_say_its_kind_takes_the_lowest_of_all_kinds() -> None:
    for generic, kinds in {
        "coal dust": ("lignite", "bituminous coal"),
        "aluminium dust": ("aluminium, flake", "aluminium, atomized collector fines"),
        "grain dust": ("wheat grain dust", "rice"),
    }.items():
        row = T.dust(generic)
        assert row is not None
        for kind in kinds:
            member = T.dust(kind)
            assert member is not None
            for mine, theirs in (
                (row.lowest_cloud(), member.lowest_cloud()),
                (row.lowest_layer(), member.lowest_layer()),
            ):
                if theirs is not None and theirs.value is not None:
                    assert mine is not None
                    assert mine.value is not None
                    assert mine.value <= theirs.value, (generic, kind)


@pytest.mark.parametrize(
    ("name", "prop", "system", "value"),
    [
        # NFPA 497:2008 Table 4.4.2 and IEC 60079-20-1:2010 Table B.1, by way of the library
        ("ethanol", "autoignition", "iec", 400),
        ("ethanol", "autoignition", "nfpa", 363),
        ("acetone", "autoignition", "iec", 539),
        ("acetone", "autoignition", "nfpa", 465),
        ("diethyl ether", "autoignition", "iec", 175),
        ("diethyl ether", "autoignition", "nfpa", 160),
        ("carbon disulfide", "autoignition", "iec", 90),
        ("propane", "autoignition", "iec", 450),
        ("hydrogen", "autoignition", "iec", 560),
        ("hydrogen", "autoignition", "nfpa", 500),
        ("acetylene", "autoignition", "iec", 305),
        ("toluene", "flash_point", "iec", 4),
        ("methanol", "flash_point", "iec", 9),
    ],
)
def test_published_temperatures(
    name: str, prop: str, system: str, value: int, checked: Counted
) -> None:
    row = T.substance(name)
    assert row is not None
    assert {cited.system: cited.value for cited in getattr(row, prop)}[system] == value
    checked["substance_values", "NFPA 497:2008, IEC 60079-20-1:2010, typed"] += 1


@pytest.mark.parametrize(
    "case",
    CASES["chemical_pair_checks"],
    ids=lambda case: f"{case['chemical_a']} and {case['chemical_b']}",
)
def test_worked_cases_of_pairs(case: dict[str, Any], checked: Counted) -> None:
    first, second = T.chemical(case["chemical_a"]), T.chemical(case["chemical_b"])
    assert first is not None
    assert second is not None
    found = T.incompatible(first.id, second.id)
    ranks = {"must not share": 0, "caution": 1, "information": 2}
    worst = min((row.separation.value for row in found), key=ranks.__getitem__, default="none")
    allowed = {
        "must not share": {"must not share"},
        "information or caution only": {"information", "caution"},
        "no incompatibility listed": {"none"},
    }
    assert worst in allowed[case["expected"]]
    checked["incompatible", "worked cases of one engineer (consistency)"] += 1
