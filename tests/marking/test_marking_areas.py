"""Declared areas, as area classification documents write them."""

import pytest

from areafit.facts.place import Area
from areafit.marking import read_area, read_areas

NEC = "NFPA 70-2023, 500.5 and 500.6, from memory"
ZONE = "IEC 60079-10-1:2020, 3.3 and NFPA 70-2023, 505.5, from memory"
DUST = "IEC 60079-10-2:2015, 3 and NFPA 70-2023, 506.5, from memory"


def shown(area: Area) -> str:
    groups = "".join(f" {name}" for name in sorted(group.value for group in area.groups))
    place = "" if area.zone is None else f" zone {area.zone}"
    place += f" {area.hazard_class}" if area.hazard_class else ""
    place += f"/{area.division}" if area.division else ""
    hazard = f" {area.hazard.value}" if area.hazard else ""
    limit = f" {area.temperature_class or 'max'} {area.maximum}" if area.maximum else ""
    return f"{area.system.value}{hazard}{place}{groups}{limit}"


GOOD = [
    ("Class I, Division 1, Group D", "division gas I/1 D", NEC),
    ("Class I Div 1 Groups C and D", "division gas I/1 C D", NEC),
    ("Class I, Division 2, Group D, T3C", "division gas I/2 D T3C 160", NEC),
    ("Class II, Division 2, Group G", "division dust II/2 G", NEC),
    ("Class II, Division 1, Groups E and G", "division dust II/1 E G", NEC),
    ("Class III, Division 1", "division fibres III/1", NEC),
    ("Class I, II, Division 1, Groups D, G", "division gas I/1 D; division dust II/1 G", NEC),
    ("Class I, Zone 1, IIB, T3", "zone gas zone 1 I IIB T3 200", ZONE),
    ("Zone 1, IIB, T3", "zone gas zone 1 IIB T3 200", ZONE),
    ("Zone 0, IIB+H2", "zone gas zone 0 IIB+H2", ZONE),
    ("Zone 1, Group IIC, T4", "zone gas zone 1 IIC T4 135", ZONE),
    ("Zone 1", "zone gas zone 1", ZONE),
    ("Zone 21, IIIB, T135 °C", "zone dust zone 21 IIIB max 135", DUST),
    ("Zone 22 IIIB 120 °C", "zone dust zone 22 IIIB max 120", DUST),
    ("Zone 20", "zone dust zone 20", DUST),
    (
        "Zone 1, IIB, T3 / Zone 21, IIIB, T135 °C",
        "zone gas zone 1 IIB T3 200; zone dust zone 21 IIIB max 135",
        DUST,
    ),
    ("Class 1 Div II, Group D", "division gas I/2 D", NEC),
    ("Class I, Division II, Groups C & D", "division gas I/2 C D", NEC),
    ("Class II Div. I Group G", "division dust II/1 G", NEC),
    ("Class I, Zone 0, AEx IIC", "zone gas zone 0 I IIC", ZONE),
    ("Ex-Zone 1", "zone gas zone 1", ZONE),
    ("ATEX Zone 2 IIA T3", "zone gas zone 2 IIA T3 200", ZONE),
    ("Zone ATEX 1 IIB T3", "zone gas zone 1 IIB T3 200", ZONE),
    ("zona 22 IIIB", "zone dust zone 22 IIIB", DUST),
    ("Zone 21 (dust), T 135 °C", "zone dust zone 21 max 135", DUST),
    ("zone 20, poussières, IIIC, T = 120 °C", "zone dust zone 20 IIIC max 120", DUST),
    ("Zone 1, Explosionsgruppe IIB, Temperaturklasse T3", "zone gas zone 1 IIB T3 200", ZONE),
    ("Zone 2 IIA T3 Gc", "zone gas zone 2 IIA T3 200", ZONE),
    ("Zone 0/1", "zone gas zone 0; zone gas zone 1", ZONE),
    ("Zone 1/21", "zone gas zone 1; zone dust zone 21", DUST),
    (
        "Zone 1/21, IIB T4, IIIC T125 °C",
        "zone gas zone 1 IIB T4 135; zone dust zone 21 IIIC max 125",
        DUST,
    ),
    (
        "Zone 2 and Zone 22, IIIB, T120 °C, IIA",
        "zone gas zone 2 IIA; zone dust zone 22 IIIB max 120",
        DUST,
    ),
    ("unclassified", "unclassified", "common practice, no source"),
    ("not classified", "unclassified", "common practice, no source"),
    ("non hazardous area", "unclassified", "common practice, no source"),
    ("general purpose area", "unclassified", "common practice, no source"),
    ("nicht explosionsgefährdet", "unclassified", "common practice, no source"),
    ("Ex-freier Bereich", "unclassified", "common practice, no source"),
    ("hors zone ATEX", "unclassified", "common practice, no source"),
    ("zona no clasificada", "unclassified", "common practice, no source"),
    ("Non-hazardous", "unclassified", "common practice, no source"),
    ("unclassified location", "unclassified", "common practice, no source"),
    ("safe", "unclassified", "common practice, no source"),
    ("Safe area", "unclassified", "common practice, no source"),
]
CONTRADICTORY = [
    ("Class I, Division 3", "There is no Division 3."),
    ("Class I, Divisions 1 and 2, Group D", "Division 1 or Division 2"),
    ("Class IV, Division 1", "There is no Class IV."),
    ("Class II, Zone 1", "Class II does not go with Zone 1."),
    ("Class I, Zone 21", "Class I does not go with Zone 21."),
    ("Class II, Division 2, Group E", "metal dust is Division 1"),
    ("Class I, Division 1, Group G", "Group G does not belong to Class I."),
    ("Class I, Division 1, IIB", "Group IIB belongs to zones"),
    ("Zone 1, Group D", "Division group letters stand in a zone."),
    ("Zone 1, IIIB", "Group IIIB is no group of Zone 1."),
    ("Zone 1, II", "Group II is no group of Zone 1."),
    ("Zone 1, IIA, IIB", "one group"),
    ("Zone 1, IIB+CS2", "CS2 is no group"),
    ("Zone 21, T4", "T4 is no temperature class of Zone 21."),
    ("Zone 1, T3C", "T3C is no temperature class of Zone 1."),
    ("Zone 1, T7", "none that exists"),
    ("Zone 1, T3, T4", "two temperature limits"),
    ("Zone 3", "There is no Zone 3; zones are 0, 1, 2 (gas) and 20, 21, 22 (dust)."),
    ("Class I, Zone 1, Division 2", "by division or by zone, not by both"),
    ("safe area; Zone 2", "unclassified or classified, not both"),
    ("unclassified, Gb", "no temperature class and no level"),
    ("Zone 1/21 IIIB IIIC", "one group"),
    ("Zone 2; unclassified", "unclassified or classified, not both"),
    ("unclassified, T4", "no group, no temperature class"),
    ("Class I, Division 1, Division 2", "named twice"),
]
INCOMPLETE = ["", "Class I", "Division 1, Group D", "IIB", "T4", "somewhere wet", "x" * 3000]


@pytest.mark.parametrize(("text", "expected", "source"), GOOD, ids=lambda value: value)
def test_an_area_is_read_as_written(text: str, expected: str, source: str) -> None:
    reading = read_area(text)
    assert source
    assert reading.problems == ()
    assert not reading.contradictory
    assert "; ".join(map(shown, reading.areas)) == expected


@pytest.mark.parametrize(("text", "says"), CONTRADICTORY, ids=lambda value: value)
def test_a_place_that_does_not_exist_is_named(text: str, says: str) -> None:
    reading = read_area(text)
    assert reading.contradictory
    assert any(says in problem for problem in reading.problems)


@pytest.mark.parametrize("text", INCOMPLETE)
def test_what_is_missing_is_said_and_nothing_guessed(text: str) -> None:
    reading = read_area(text)
    assert reading.areas == ()
    assert reading.problems
    assert not reading.contradictory


@pytest.mark.parametrize(
    "text",
    [
        "Zone 1 dust",
        "Zone 1 inside, Zone 2 outside",
        "non hazardous area; Zone 2",
        "not Zone 1",
        "Zone 1 intrinsically safe",
        "Zone 1 X",
        "not safe",
        "safe if purged",
        "intrinsically safe",
    ],
)
def test_words_that_are_no_area_are_reported(text: str) -> None:
    reading = read_area(text)
    assert any("could not be read" in problem for problem in reading.problems)


@pytest.mark.parametrize("text", ["Zone 2 Gb", "Zone 1 Gc", "Zone 1 Db", "Class I, Division 1, Ga"])
def test_another_level_than_that_of_the_zone_is_a_wish_of_its_own(text: str) -> None:
    """IEC 60079-14:2013 5.3, from memory: a level is asked for by zone or by assessment."""
    (problem,) = read_area(text).problems
    assert "`required_epl`" in problem
    assert read_area("Zone 1 Gb").problems == ()


def test_a_temperature_without_its_unit_is_asked_about() -> None:
    (problem,) = read_area("Zone 21, IIIB, T135").problems
    assert problem.startswith("T135 has no unit")


def test_gas_and_dust_are_read_together() -> None:
    reading = read_areas(["Zone 1, IIB, T3", "Zone 21, IIIB, T135 °C"])
    assert [area.zone for area in reading.areas] == [1, 21]
    assert reading.problems == ()
    assert reading.text == "Zone 1, IIB, T3; Zone 21, IIIB, T135 °C"


def test_one_text_may_not_deny_the_other() -> None:
    reading = read_areas(["unclassified", "Zone 21, IIIB"])
    assert reading.contradictory
    assert reading.problems == ("A place is unclassified or classified, not both.",)


def test_the_same_area_twice_is_one_and_none_is_said() -> None:
    assert len(read_areas(["Zone 1", "Zone 1"]).areas) == 1
    assert read_areas(["Zone 1", "Zone 9"]).contradictory
    assert read_areas([]).problems == ("No area is declared.",)


def test_a_zone_that_does_not_exist_is_said_once() -> None:
    assert len(read_area("Zone 5, IIB").problems) == 1
    assert not read_area("Zone 5, IIB").areas
