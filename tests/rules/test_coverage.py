"""What a review touches and what becomes of each: the table against the registry, and a list."""

import re

import pytest

import areafit
from areafit.answers.coverage import not_judged
from areafit.facts.fittings import Device
from areafit.facts.part import Kind
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Hazard, Law
from areafit.registry import RULES
from areafit.tables.coverage import CoverageOutcome, CoverageRow, coverage
from areafit.verdict import Role

ROWS = coverage()
JUDGED = [row for row in ROWS if row.outcome is CoverageOutcome.JUDGED]
IDENTITIES = {rule.id for rule in RULES}


def test_no_rule_without_a_row() -> None:
    missing = IDENTITIES - {rule for row in JUDGED for rule in row.rules}
    assert not missing, f"Name in `rules` of a row of coverage.csv: {', '.join(sorted(missing))}"


def test_no_row_names_a_rule_that_is_not_there() -> None:
    assert {rule for row in ROWS for rule in row.rules} - IDENTITIES == set()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.document} {row.section} {row.about}")
def test_a_row_says_all_that_its_outcome_needs(row: CoverageRow) -> None:
    assert bool(row.rules) is (row.outcome is CoverageOutcome.JUDGED)
    assert bool(row.reason) is (row.outcome is not CoverageOutcome.JUDGED)
    assert bool(row.who) is (row.outcome is CoverageOutcome.NOT_JUDGED)
    assert not row.who or Role(row.who)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row.document} {row.section} {row.about}")
def test_a_row_concerns_what_a_list_can_state(row: CoverageRow) -> None:
    words = (
        (row.laws, {law.value for law in Law}),
        (row.systems, {system.value for system in AreaSystem}),
        (row.hazards, {hazard.value for hazard in Hazard}),
        (row.kinds, {kind.value for kind in Kind} | {"loop"}),
    )
    for stated, known in words:
        assert set(stated) <= known
    assert all(re.fullmatch(r"[a-z][a-z -]*", name) for name in row.named)
    assert row.outcome is not CoverageOutcome.NOT_JUDGED or row.of_parts, (
        "it would stand in every report"
    )


def test_every_ignition_source_has_a_row() -> None:
    """The thirteen of EN 1127-1:2019, clauses 5.1 to 5.13 (from memory)."""
    clauses = {row.section for row in ROWS if row.document == "EN 1127-1:2019"}
    assert {f"5.{number}" for number in range(1, 14)} <= clauses


_SECTIONS = {
    "501": "5 10 15 17 20 25 30 35 100 105 115 120 125 130 135 140 145 150",
    "502": "5 6 10 15 25 30 35 100 115 120 125 128 130 135 140 145 150",
    "503": "5 6 10 30 100 115 120 125 128 130 135 140 145 150 155 160",
    "504": "4 10 30 50",
    "505": "5 8 9 15 16 17 20 22 25 26",
    "506": "5 8 9 15 16 17 20 25",
}


@pytest.mark.parametrize("article", _SECTIONS)
def test_the_sections_of_an_article_have_rows(article: str) -> None:
    """NFPA 70-2023, from memory of its sections on equipment and wiring."""
    clauses = {row.section for row in ROWS if row.document == "NFPA 70-2023"}
    assert {f"{article}.{section}" for section in _SECTIONS[article].split()} <= clauses


def test_the_kinds_of_device_have_a_section() -> None:
    """Each device that a list can state is of some section of Articles 501 to 503."""
    told = " ".join(row.about for row in ROWS if row.document == "NFPA 70-2023").casefold()
    heads = {
        Device.SQUIRREL_CAGE_MOTOR: "motors",
        Device.MOTOR_WITH_SWITCH: "motors",
        Device.MOTOR_SPACE_HEATER: "motors",
        Device.HEATER: "heaters",
        Device.RESISTOR: "resistors",
        Device.LUMINAIRE: "luminaires",
        Device.TRANSFORMER: "transformers",
        Device.SOLENOID: "transformers",
        Device.INSTRUMENT: "instruments",
        Device.RELAY: "relays",
        Device.CONTACTOR: "controllers",
        Device.SWITCH: "switches",
        Device.PUSH_BUTTON: "switches",
        Device.CIRCUIT_BREAKER: "circuit breakers",
        Device.RECEPTACLE: "receptacles",
        Device.JUNCTION_BOX: "wiring",
        Device.CABLE_GLAND: "seals",
        Device.STOPPING_PLUG: "seals",
        Device.THREAD_ADAPTER: "threads",
        Device.CONDUIT_SEAL: "seals",
    }
    assert [device for device, head in heads.items() if head not in told] == []


LIST = """\
areafit: 1
assembly: {number: C-1}
code: CODE
locations:
  in: {area: 'AREA', document: D}
  out: {area: unclassified, document: D}
parts:
  - {item: '1', location: in, kind: mechanical, description: Bearings of the shaft}
  - {item: '2', location: out, kind: mechanical, description: Bearing}
  - {item: '3', location: in, kind: structural, description: Bearing bracket}
  - {item: '4', location: in, kind: electrical, description: Terminal box, marking: Ex eb IIC T4 Gb}
"""


def told(code: str, area: str, more: str = "") -> dict[str, tuple[str, ...]]:
    text = LIST.replace("CODE", code).replace("AREA", area) + more
    found = not_judged(areafit.read(text.encode(), "c.yaml"))
    return {f"{one.row.document} {one.row.section}": one.items for one in found}


def test_rows_are_told_of_the_parts_and_places_that_they_concern() -> None:
    zone = told("IEC", "Zone 1, IIB, T3")
    assert zone["ISO 80079-37:2016 5.7"] == ("1",)
    assert zone["IEC 60079-14:2013 15.2"] == ("4",)
    assert not any("NFPA" in clause for clause in zone)


def test_a_place_of_gas_and_dust_is_told_of_both() -> None:
    both = "Class I, Division 1, Group D', 'Class II, Division 1, Group G"
    text = LIST.replace("'AREA'", f"['{both}']").replace("CODE", "NEC")
    text += "  - {item: '5', location: in, kind: electrical, description: Pressure switch}\n"
    clauses = {one.row.section for one in not_judged(areafit.read(text.encode(), "c.yaml"))}
    assert "501.17" in clauses


def test_an_unclassified_place_is_told_nothing() -> None:
    assert told("IEC", "unclassified") == {}


def test_clauses_of_the_other_rules_are_left_out() -> None:
    division = told("NEC", "Class I, Division 1, Group D")
    assert "ISO 80079-37:2016 5.7" in division
    assert not any("IEC 60079-14" in clause for clause in division)


def test_circuits_are_told_of_lists_with_circuits() -> None:
    loop = (
        "loops:\n  - {name: L, group: IIB, source: {item: '4', Uo: 1 V, Io: 1 mA},"
        " devices: [{item: '4'}], cable: {length: 1 m, values: default}}\n"
    )
    assert "IEC 60079-14:2013 16.2.2" not in told("IEC", "Zone 1, IIB, T3")
    assert told("IEC", "Zone 1, IIB, T3", loop)["IEC 60079-14:2013 16.2.2"] == ()
