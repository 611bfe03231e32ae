"""The flash point of a mixture: computed against published, and when it is not computed."""

import csv
import math
import sys
from datetime import date
from decimal import Decimal
from pathlib import Path

import chemicals.vapor_pressure
import pint
import pytest
from chemicals.dippr import EQ101
from thermo.unifac import UNIFAC, DDBST_UNIFAC_assignments, load_group_assignments_DDBST

import areafit
from areafit import Options, judge
from areafit.demands.mixtures import Computed, Why, drawn, flash_point
from areafit.facts.place import Mixture
from areafit.facts.quantity import Range
from areafit.findings.report import Finding
from areafit.rule import Example
from areafit.tables import Tables
from areafit.tables.limits import figure
from areafit.tables.load import rows
from areafit.tables.vapours import (
    LiquidDensity,
    UnifacGroups,
    liquid_density,
    unifac_groups,
    vapour_pressure,
)
from areafit.verdict import Verdict
from areafit_cli.commands.substance import of_mixture
from areafit_cli.words import mixture

U: "pint.UnitRegistry[float]" = pint.UnitRegistry()
T = Tables.shipped()
with (Path(__file__).parent / "flash_points.csv").open(encoding="utf-8") as _file:
    PUBLISHED = [(row["mixture"], float(row["published_c"])) for row in csv.DictReader(_file)]
GROUPS = {row.substance: row for row in rows("unifac_groups", UnifacGroups)}


def _mixed(text: str) -> Mixture:
    found = mixture(text)
    assert found is not None
    return found


def computed(text: str, handled: Range | None = None) -> Computed:
    found = flash_point(_mixed(text), handled, T)
    assert isinstance(found, Computed), found
    return found


def refused(text: str, handled: Range | None = None) -> Why:
    found = flash_point(_mixed(text), handled, T)
    assert not isinstance(found, Computed)
    return found.why


def _taken(text: str) -> float:
    name = "worst tested error of a computed flash point"
    return float(figure(f"{name} in water" if text.endswith(", water") else name).kelvin)


@pytest.mark.parametrize(("text", "published"), PUBLISHED)
def test_no_flash_point_is_computed_higher_than_published_by_more_than_the_row(
    text: str, published: float
) -> None:
    error = float(computed(text).celsius) - published
    assert error <= _taken(text)


@pytest.mark.parametrize(
    ("kind", "mean", "lowest", "highest"),
    [("one liquid in water", 2.2, -7.2, 3.3), ("two solvents", 4.5, -13.5, 7.1)],
)
def test_mean_and_worst_are_those_of_the_readme(
    kind: str, mean: float, lowest: float, highest: float
) -> None:
    """The row is no more than the worst above what is published, rounded up."""
    watery = "water" in kind
    chosen = [one for one in PUBLISHED if one[0].endswith(", water") == watery]
    errors = [float(computed(text).celsius) - published for text, published in chosen]
    assert math.ceil(max(errors)) == _taken(chosen[0][0])
    assert round(sum(map(abs, errors)) / len(errors), 1) == mean
    assert (round(min(errors), 1), round(max(errors), 1)) == (lowest, highest)
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert f"| {kind} | {len(chosen)} | {mean} K | {lowest:+} K | {highest:+} K |" in readme


def test_a_mixture_is_no_chemical_of_its_own() -> None:
    """What it is mixed of is judged, whether or not its flash point was tested."""
    tested = "temperature: 20 °C, flash_point: 70 °C, source: TR-1, document: TR-1"
    for more in ("temperature: 20 °C", tested):
        place = _place(
            "ethanol: 2 %, water: rest", more, "{}".format(ROOM.replace("none", "[NaOH]"))
        )
        [found] = _findings("chemicals-together", place)
        assert "ethanol 2 %, water" not in found.message
        assert "ethanol" in found.message


def test_what_is_taken_off_goes_by_what_is_mixed() -> None:
    """More than one liquid that burns beside the water counts as solvents do."""
    for text, error in (
        ("ethanol 10 %, water", 4),
        ("ethanol 10 %, acetone", 8),
        ("ethanol 10 %, acetone 1 %, water", 8),
    ):
        found = of_mixture(_mixed(text), "20 °C", T)
        assert isinstance(found["flash_point_c"], Decimal)
        assert found["flash_point_c"] - 15 - error == found["lowered_c"]


@pytest.mark.parametrize(
    ("first", "second", "celsius", "fraction"),
    [  # CRC Handbook, tables of azeotropes at 101.3 kPa, from memory
        ("ethanol", "water", 78.2, 0.90),
        ("2-propanol", "water", 80.3, 0.68),
        ("1-propanol", "water", 87.7, 0.43),
        ("acetone", "methanol", 55.5, 0.79),
        ("ethanol", "toluene", 76.7, 0.81),
        ("ethyl-acetate", "ethanol", 71.8, 0.54),
        ("ethanol", "n-heptane", 70.9, 0.64),
    ],
)
def test_the_vapour_boils_as_known_azeotropes_do(
    first: str, second: str, celsius: float, fraction: float
) -> None:
    groups = [
        {int(g): int(n) for g, n in (each.split(":") for each in GROUPS[name].groups)}
        for name in (first, second)
    ]
    gammas = UNIFAC.from_subgroups(
        T=celsius + 273.15, xs=[fraction, 1 - fraction], chemgroups=groups
    ).gammas()
    pressures = [vapour_pressure(name) for name in (first, second)]
    total = sum(
        x * gamma * float(row.pressure(Decimal(celsius)))
        for x, gamma, row in zip((fraction, 1 - fraction), gammas, pressures, strict=True)
        if row is not None
    )
    assert total == pytest.approx(101_325, rel=0.06)


@pytest.mark.parametrize(
    ("name", "mol_per_kg_bar"),
    [  # Henry's law constants at 25 °C as compiled by R. Sander, from memory
        ("ethanol", 190),
        ("methanol", 220),
        ("2-propanol", 130),
        ("acetone", 28),
    ],
)
def test_the_last_of_it_in_water_rises_no_less_than_henry_says(
    name: str, mol_per_kg_bar: float
) -> None:
    groups = [
        {int(g): int(n) for g, n in (each.split(":") for each in GROUPS[one].groups)}
        for one in (name, "water")
    ]
    gamma = UNIFAC.from_subgroups(T=298.15, xs=[1e-6, 1 - 1e-6], chemgroups=groups).gammas()[0]
    row = vapour_pressure(name)
    assert row is not None
    ours = gamma * float(row.pressure(Decimal(25)))
    henry = 55.5 / mol_per_kg_bar * 1e5  # Pa per mole fraction, 55.5 mol of water a kg
    assert 0.8 < ours / henry < 3


def test_two_solvents_that_dislike_each_other_flash_below_both() -> None:
    """Minimum flash point behaviour of octane with 1-butanol.

    Vidal et al., Trans IChemE 84(B1), 2006, 1, abstract seen; figures not.
    """
    flashes = [computed(f"1-butanol {share} mol %, n-octane").celsius for share in (5, 10, 20, 40)]
    assert min(flashes) < 13  # of octane; 1-butanol has 35


def test_pairs_that_hardly_mind_each_other_follow_raoult() -> None:
    """Hydrocarbons: with γ = 1 the same to half a kelvin; by hand."""
    found = computed("toluene 50 mol %, ethylbenzene 50 mol %").celsius
    pressures = [vapour_pressure(name) for name in ("toluene", "ethylbenzene")]

    def sum_at(celsius: float) -> float:
        total = 0.0
        for row, flash in zip(pressures, (4, 15), strict=True):
            assert row is not None
            b, c = float(row.b), float(row.c) + 273.15
            total += 0.5 * 10 ** (b / (flash + c) - b / (celsius + c))
        return total

    assert sum_at(float(found) - 0.5) < 1 < sum_at(float(found) + 0.5)


def test_a_component_alone_has_its_own_flash_point() -> None:
    for name in ("ethanol", "toluene", "acetone", "2-propanol", "n-hexane"):
        gas = T.substance(name)
        assert gas is not None
        own = gas.lowest_flash_point()
        assert own is not None
        found = computed(f"{name} 100 mol %, water 0 mol %")
        assert 0 <= own.value - found.celsius <= Decimal("0.2")


def test_more_of_what_burns_flashes_no_later() -> None:
    for name in ("ethanol", "methanol", "acetone"):
        flashes = [computed(f"{name} {share} %, water").celsius for share in (2, 5, 10, 30, 60, 90)]
        assert flashes == sorted(flashes, reverse=True)


def test_a_range_of_shares_counts_at_its_worst() -> None:
    assert computed("ethanol 5..20 %, water").celsius == computed("ethanol 20 %, water").celsius


def test_units_of_shares_agree() -> None:
    """A library of units; molar masses and densities of the CRC Handbook, from memory."""
    alcohol, water = U.Quantity(30, "g"), U.Quantity(70, "g")
    by_mass = computed("isopropanol 30 %, water").celsius

    def percent(first: "pint.Quantity[float]", second: "pint.Quantity[float]") -> str:
        return f"{(first / (first + second)).to('percent').magnitude:.3f}"

    mole = percent(alcohol / U.Quantity(60.10, "g/mol"), water / U.Quantity(18.015, "g/mol"))
    volume = percent(alcohol / U.Quantity(785, "kg/m³"), water / U.Quantity(998, "kg/m³"))
    for share in (f"{mole} mol %", f"{volume} % v/v"):
        assert abs(computed(f"isopropanol {share}, water").celsius - by_mass) <= Decimal("0.1")


@pytest.mark.parametrize(
    ("name", "celsius", "mmhg"),
    [  # CRC Handbook and Lange's Handbook, from memory; in mmHg, and ours in Pa
        ("water", 25, 23.76),
        ("ethanol", 25, 59),
        ("methanol", 25, 127),
        ("2-propanol", 25, 45),
        ("acetone", 25, 231),
        ("toluene", 25, 28.4),
        ("n-heptane", 25, 45.7),
        ("ethyl-acetate", 25, 94),
    ],
)
def test_vapour_pressures_are_in_pascal(name: str, celsius: int, mmhg: float) -> None:
    row = vapour_pressure(name)
    assert row is not None
    published = U.Quantity(mmhg, "mmHg").to("Pa").magnitude
    assert float(row.pressure(Decimal(celsius))) == pytest.approx(published, rel=0.05)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("isopropanol 50 %, dichloromethane 50 %", Why.HALOGENATED),
        ("propane 1 %, toluene 99 %", Why.GAS),
        ("ethanol 50 %, carbon dioxide 1 %, water rest", Why.GAS),
        ("acetone 5 %, NaOH 1 %, water rest", Why.ELECTROLYTE),
        ("ethanol 5 %, acetic acid 5 %, water rest", Why.ELECTROLYTE),
        ("ethanol 5 %, brine 5 %, water rest", Why.ELECTROLYTE),
        ("toluene 10 %, water 90 %", Why.TWO_LIQUIDS),
        ("ethyl acetate 50 %, water 50 %", Why.TWO_LIQUIDS),
        ("1-butanol 40 %, water 60 %", Why.TWO_LIQUIDS),
        ("ethanol 5 %, blend nobody lists 5 %, water rest", Why.UNKNOWN),
        ("flour 5 %, ethanol rest", Why.UNKNOWN),
        ("propylene glycol 5 %, water rest", Why.NO_GROUPS),
        ("white spirit 5 %, toluene rest", Why.NO_GROUPS),
        ("isobutanol 5 % v/v, toluene rest", Why.NO_DENSITY),
        ("deionised water 50 %, tap water 50 %", Why.BURNS_NOT),
        ("NaOH 5 %, water rest", Why.BURNS_NOT),
        ("ethanol 0 %, water 100 %", Why.BURNS_NOT),
    ],
)
def test_what_the_model_does_not_hold_for_is_not_computed(text: str, why: Why) -> None:
    assert refused(text) is why


def test_main_groups_without_parameters_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    from thermo import unifac

    unifac.load_unifac_ip()
    monkeypatch.delitem(unifac.UFIP[5], 7)  # OH beside H2O
    assert refused("ethanol 5 %, water") is Why.NO_PAIR


def test_a_name_for_several_liquids_is_taken_as_the_worst_of_them() -> None:
    """Propanol may be either; 2-propanol flashes colder."""
    assert computed("propanol 20 %, water").celsius == computed("2-propanol 20 %, water").celsius
    assert computed("xylene 50 %, toluene").celsius < 15


@pytest.mark.parametrize(
    ("text", "boils"),
    [  # by mass, CRC Handbook, from memory
        ("ethanol 15 %, water", 90),
        ("ethanol 40 %, water", 83),
        ("methanol 20 %, water", 88),
    ],
)
def test_where_it_boils(text: str, boils: int) -> None:
    found = computed(text, Range(Decimal(20), Decimal(20)))
    assert found.boils_at is not None
    assert abs(found.boils_at - boils) <= 2
    assert found.beside(Range(Decimal(20), Decimal(20))) == ""
    assert "boils" in found.beside(Range(Decimal(20), Decimal(99)))
    assert "Ice" in found.beside(Range(Decimal(-40), Decimal(20)))
    assert computed("toluene 50 %, acetone").beside(Range.of(Decimal(-40))) == ""


def test_what_boils_as_it_is_handled_is_flagged_as_what_is_warm_is() -> None:
    """Hotter is never milder: no `not computed` above the boiling point."""
    for heat in ("40 °C", "80 °C", "120 °C", "300 °C"):
        [found] = _findings(
            "flash-point", _place("ethanol: 15 %, water: rest", f"temperature: {heat}")
        )
        assert found.verdict is Verdict.FLAG


def test_the_curve_goes_through_what_is_stated() -> None:
    stated = _mixed("isopropanol 15 %, water")
    curve = drawn(stated, T)
    assert curve is not None
    assert (curve.component, curve.low, curve.high) == ("isopropanol", *[Decimal(15)] * 2)
    assert dict(curve.points)[Decimal(15)] == computed("isopropanol 15 %, water").celsius
    three = drawn(_mixed("toluene 10..30 %, ethanol 20 %, acetone"), T)
    assert three is not None
    assert (three.component, three.low, three.high) == ("acetone", Decimal(50), Decimal(70))
    assert drawn(_mixed("NaOH 5 %, water"), T) is None


def test_a_curve_has_no_point_where_there_are_two_liquids() -> None:
    curve = drawn(_mixed("1-butanol 5 %, water"), T)
    assert curve is not None
    shares = [share for share, _ in curve.points]
    assert 4 in shares
    assert 30 not in shares
    assert 100 in shares


def test_without_the_extra_it_says_how_to_install_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "thermo.unifac", None)
    found = flash_point(_mixed("ethanol 5 %, water"), None, T)
    assert not isinstance(found, Computed)
    assert found.why is Why.NOT_INSTALLED
    assert "areafit[mixtures]" in found.remedy


def test_without_the_extra_the_place_stays_open(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "thermo.unifac", None)
    [found] = _findings("flash-point", _place("ethanol: 2 %, water: rest"))
    assert found.verdict is Verdict.UNPROVEN
    assert "pip install 'areafit[mixtures]'" in found.remedy


# The rows


def test_groups_are_those_of_the_library_of_molecules() -> None:
    from chemicals import search_chemical

    load_group_assignments_DDBST()
    for name, row in GROUPS.items():
        gas = T.substance(name)
        number = {"water": "7732-18-5", "xylenes-mixed-isomers": "106-42-3"}.get(name)
        number = number or (gas.cas if gas is not None else "")
        if name == "ethylene-glycol":  # one group of its own
            continue
        stated = {int(g): int(n) for g, n in (each.split(":") for each in row.groups)}
        assert stated == DDBST_UNIFAC_assignments[search_chemical(number).InChI_key], name


@pytest.mark.parametrize("name", sorted(set(GROUPS) - {"water"}))
def test_vapour_pressures_hold_at_the_flash_point(name: str) -> None:
    """Beyond the range of the coefficients too, against the equation of Perry's Table 2-8."""
    gas, row = T.substance(name), vapour_pressure(name)
    assert gas is not None
    assert row is not None
    flash = gas.lowest_flash_point()
    assert flash is not None
    table = chemicals.vapor_pressure.Psat_data_Perrys2_8
    if gas.cas not in table.index:
        pytest.skip("not in Perry's Table 2-8")
    c = [float(table.loc[gas.cas, f"C{n}"]) for n in range(1, 6)]
    perry = float(EQ101(float(flash.value) + 273.15, *c))  # type: ignore[no-untyped-call]
    kelvin = float(flash.value) + 273.15
    ours = 10 ** (float(row.a) - float(row.b) / (kelvin + float(row.c)))
    assert ours == pytest.approx(perry, rel=0.2)


def test_densities_are_those_of_handbooks() -> None:
    """CRC Handbook at 20 °C in kg/m³, from memory."""
    known = {"ethanol": 789, "methanol": 791, "acetone": 790, "toluene": 867, "water": 998}
    for name, published in known.items():
        row = liquid_density(name)
        assert row is not None
        assert float(row.kg_m3) == pytest.approx(published, rel=0.006)
    assert {row.substance for row in rows("liquid_densities", LiquidDensity)} <= set(GROUPS)
    assert unifac_groups("water") is not None


# The rule

ROOM = "area: unclassified, document: AC-1, ambient: 5..20 °C, chemicals: none"


def _findings(rule: str, place: str) -> list[Finding]:
    text = Example("", Verdict.PASS, place=place).as_list
    report = judge(areafit.read(text.encode(), "case.yaml"), T, Options(as_of=date(2026, 1, 1)))
    found = [*report.own.findings(), *(f for one in report.places for f in one.findings())]
    return [one for one in found if one.rule.id == rule]


def _place(shares: str, more: str = "temperature: 20 °C", room: str = ROOM) -> str:
    return f"{{{room}, substances: [{{mixture: {{{shares}}}, {more}}}]}}"


@pytest.mark.parametrize(
    ("place", "verdicts"),
    [
        (_place("isopropanol: 15 %, water: rest", "temperature: 40 °C"), ["flag"]),
        (_place("isopropanol: 15 %, water: rest", "temperature: 5 °C"), ["flag"]),  # 20 °C air
        (_place("ethanol: 2 % v/v, water: rest"), ["not applicable"]),
        (_place("ethanol: 2 % v/v, water: rest", "source: none"), ["unproven"]),
        (_place("ethanol: 2 % v/v, NaOH: 1 % v/v, water: rest"), ["unproven"]),
        (_place("ethanol: 2 %, dichloromethane: 1 %, water: rest"), ["unproven"]),
        (_place("toluene: 2 %, water: rest"), ["unproven"]),
        (_place("propane: 2 %, ethanol: rest"), ["unproven"]),
        (_place("blend nobody lists: 2 %, water: rest"), ["unproven"]),
        (_place("ethanol: 50 %, water: rest", room=ROOM.replace("unclassified", "'Zone 2, IIB'")),
         ["not applicable"]),
        # a test with a document governs; without one both are judged
        (_place("ethanol: 2 % v/v, water: rest",
                "temperature: 20 °C, flash_point: 70 °C, source: TR-1, document: TR-1"), ["pass"]),
        (_place("ethanol: 50 %, water: rest",
                "temperature: 20 °C, flash_point: 70 °C, source: TR-1"), ["flag", "pass"]),
        # a mixture is no reason to drop what is listed beside it
        (_place("ethanol: 2 %, water: rest").replace("[{mix", "[ethanol, {mix"),
         ["not applicable", "flag"]),
    ],
)  # fmt: skip
def test_the_rule(place: str, verdicts: list[str]) -> None:
    judged = _findings("flash-point", place)
    assert sorted(str(one.verdict.value) for one in judged) == sorted(verdicts)


def test_the_report_names_method_and_version() -> None:
    [finding] = _findings("flash-point", _place("ethanol: 2 % v/v, water: rest"))
    by = finding.rows[0]
    assert "UNIFAC" in by.source_id
    assert by.locator.startswith("thermo ")
    assert "74.1 °C" in finding.message


def test_the_most_onerous_component_sets_group_and_ignition_temperature() -> None:
    """Diethyl ether: IIB, 160 °C (NFPA 497), however little of it there is."""
    place = _place(
        "toluene: rest, diethyl ether: 0.1 %",
        room=ROOM.replace("unclassified", "'Zone 1, IIA, T3'"),
    )
    told = " ".join(one.message for one in _findings("declared-area", place))
    assert "diethyl ether asks for IIB; the area is declared for IIA" in told
    assert "diethyl ether ignites at 160 °C" in told


def test_an_unknown_component_leaves_them_open() -> None:
    place = _place("toluene: rest, blend nobody lists: 1 %")
    assert [one.verdict for one in _findings("substance-known", place)] == [
        Verdict.PASS,
        Verdict.UNPROVEN,
    ]


def test_a_sprayed_mixture_is_unproven() -> None:
    room = ROOM.replace("chemicals: none", "chemicals: [{name: isopropanol, mist: yes}]")
    found = _findings("flash-point", _place("isopropanol: 1 %, water: rest", room=room))
    assert ("unproven", True) in [(one.verdict.value, "is sprayed" in one.message) for one in found]


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ("ethanol: 50 %", "only 50 %"),
        ("ethanol: 60 %, water: 60 %", "make up 120 %"),
        ("ethanol: 60 %, water: 40 % v/v", "different units"),
        ("ethanol: rest, water: rest", "two components are the rest"),
        ("ethanol: 60, water: rest", "no unit"),
        ("ethanol: 160 %, water: rest", "more than the whole"),
        ("ethanol: [1], water: rest", "share of ethanol"),
    ],
)
def test_shares_that_make_no_whole_are_refused(shares: str, says: str) -> None:
    with pytest.raises(areafit.InputErrors, match=says):
        _findings("flash-point", _place(shares))


# The command


@pytest.mark.parametrize(
    ("text", "temperature", "first"),
    [
        ("isopropanol 15 %, water 85 %", "40 °C", "gives off vapour that burns at 40 °C"),
        ("isopropanol 15 %, water 85 %", "15 °C", "may give off vapour that burns at 15 °C"),
        ("ethanol 2 % v/v, water", "20 °C", "below its flash point at 20 °C"),
        ("isopropanol 15 %, water 85 %", None, "computed flash point 24.1 °C"),
        ("acetone 5 %, NaOH 2 %, water rest", "20 °C", "flash point not computed: NaOH"),
        ("isopropanol 0.01 %, water", None, "no computed flash point up to"),
    ],
)
def test_the_desk_answers_in_the_first_line(text: str, temperature: str | None, first: str) -> None:
    data = of_mixture(_mixed(text), temperature, T)
    assert str(data["answer"]).startswith(first)


def test_names_with_commas_are_no_mixtures() -> None:
    assert mixture("1,1-dichloroethane") is None
    assert mixture("ethanol 96 %") is None
