"""Light, radio waves and ultrasound against the limits of the place, on both sides of each.

Sources, all from memory: IEC 60079-28:2015 Table 2 (150 mW for IIA at T3, 35 mW at T4, 15 mW at
T6), IEC 60079-0:2017 6.6.1 (6, 3.5 and 2 W by group) and 6.6.3 (0.1 W/cm²), EN 1127-1:2019 5.8,
5.9, 5.11.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
LASER = "kind: electrical, description: Laser sensor, marking: Ex ia IIC T6 Ga"
DIVISION = "Class I, Division {}, Group {}"


def zone(area: str, *, law: str = "IEC") -> tuple[str, str]:
    return f"area: '{area}'", law


LIGHT = [
    ("Zone 1, IIA, T3", "150 mW", P),
    ("Zone 1, IIA, T3", "151 mW", F),
    ("Zone 1, IIA, T4", "36 mW", F),
    ("Zone 1, IIB, T3", "35 mW", P),
    ("Zone 1, IIB, T3", "36 mW", F),
    ("Zone 1, IIC, T4", "35 mW", P),
    ("Zone 1, IIC, T5", "16 mW", F),
    ("Zone 1, IIC, T6", "15 mW", P),
    ("Zone 1, IIC, T6", "15.1 mW", F),
    ("Zone 2, IIC, T4", "40 mW", F),
    ("Zone 1", "15 mW", P),  # nothing known: as IIC, T6
    ("Zone 1", "30 mW", F),
    ("Zone 21, IIIB, T120 °C", "35 mW", P),
    ("Zone 21, IIIB, T120 °C", "0.05 W", F),
    ("Zone 0, IIB, T3", "5 mW", U),  # faults count for Ga
    ("Zone 0, IIB, T3", "50 mW", F),
    ("unclassified", "5 W", N),
]


@pytest.mark.parametrize(("area", "power", "expected"), LIGHT)
def test_power_of_light(say: Say, area: str, power: str, expected: Verdict) -> None:
    place, law = zone(area)
    part = f"{LASER}, optical_power: {power}"
    assert say("optical-radiation", part, place, law) is expected


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ("", U),
        (", optical_irradiance: 5 mW/mm²", P),
        (", optical_irradiance: 0.5 W/cm²", P),
        (", optical_irradiance: 6 mW/mm²", F),
        (", optical_power: 90 mW, optical_irradiance: 4 mW/mm²", P),  # either limit suffices
        (", optical_power: 90 mW, optical_irradiance: 9 mW/mm²", F),
        (", optical_power: 90 mW, marking: Ex ia op is IIC T4 Ga", P),
        (", marking: Ex db op sh IIC T4 Gb", P),
    ],
)
def test_light_by_irradiance_or_marking(say: Say, more: str, expected: Verdict) -> None:
    part = "kind: electrical, description: Laser sensor"
    part += more if "marking" in more else f", marking: Ex ia IIC T6 Ga{more}"
    assert say("optical-radiation", part, *zone("Zone 1, IIB, T4")) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: electrical, description: Laser distance sensor", U),
        ("kind: electrical, description: 'Sensor, laser, M18'", U),
        ("kind: electrical, description: Barcode reader", U),
        ("kind: electrical, description: Bracket for laser sensor", N),
        ("kind: electrical, description: Laser cut switch plate", N),
        ("kind: electrical, description: Proximity sensor", N),
        ("kind: electrical, description: Light curtain", N),
        ("kind: electrical, description: Fibre-optic sensor", U),
        ("kind: electrical, description: 'Fibre-optic cable, 10 m'", N),
        ("kind: structural, description: Laser sensor", N),
        ("kind: electrical, device: luminaire, optical_power: 5 W", N),
        ("kind: simple apparatus, description: Laser receiver", U),
    ],
)
def test_who_is_asked_of_light(say: Say, part: str, expected: Verdict) -> None:
    assert say("optical-radiation", part, *zone("Zone 1, IIB, T4")) is expected


def test_power_that_is_stated_counts_whatever_the_part_is_called(say: Say) -> None:
    for part in ("kind: electrical", "kind: electrical, description: Sensor"):
        assert (
            say("optical-radiation", f"{part}, optical_power: 2 W", *zone("Zone 1, IIB, T4")) is F
        )


def test_of_two_codes_one_that_names_its_light_suffices(say: Say) -> None:
    part = (
        "kind: [electrical, mechanical], description: Laser drive, "
        "marking: [Ex db op is IIC T4 Gb, Ex h IIC T4 Gb]"
    )
    assert say("optical-radiation", part, *zone("Zone 1, IIB, T4")) is P


def test_a_substance_that_ignites_easily_lowers_the_limit(say: Say) -> None:
    """Acetaldehyde is of IIA and ignites below 200 °C, propane far above (IEC 60079-20-1)."""
    part = f"{LASER}, optical_power: 100 mW"
    place = "area: 'Zone 1, IIA, T2', substances: [{}]"
    assert say("optical-radiation", part, place.format("propane")) is P
    assert say("optical-radiation", part, place.format("acetaldehyde")) is F


def test_a_code_for_gas_names_no_protection_against_dust(say: Say) -> None:
    part = (
        "kind: electrical, description: Laser, marking: [Ex op is IIC T4 Gb, Ex tb IIIC T80 °C Db]"
    )
    both = "area: ['Zone 1, IIB, T3', 'Zone 21, IIIB, T120 °C']"
    assert say("optical-radiation", part, *zone("Zone 1, IIB, T3")) is P
    assert say("optical-radiation", part, both, "IEC") is U


def test_a_condition_of_a_document_covers_light(say: Say) -> None:
    document = (
        "evidence: [{type: certificate, number: IECEx ABC 21.0001X, conditions: [{text: the laser "
        "stays behind its window, met_by: interlock, document: CD-4}]}]"
    )
    assert say("optical-radiation", f"{LASER}, {document}", *zone("Zone 1, IIB, T4")) is P
    denied = document.replace("stays behind its window", "is not permitted")
    assert say("optical-radiation", f"{LASER}, {denied}", *zone("Zone 1, IIB, T4")) is U


RADIO = [
    ("Zone 1, IIA, T3", "6 W", P),
    ("Zone 1, IIA, T3", "6.1 W", F),
    ("Zone 1, IIB, T3", "3.5 W", P),
    ("Zone 1, IIB, T3", "3.6 W", F),
    ("Zone 2, IIC, T3", "2 W", P),
    ("Zone 2, IIC, T3", "2100 mW", F),
    ("Zone 21, IIIB, T120 °C", "6 W", P),
    ("Zone 21, IIIB, T120 °C", "7 W", F),
    ("Zone 1", "3 W", F),
]


@pytest.mark.parametrize(("area", "power", "expected"), RADIO)
def test_power_of_radio_waves(say: Say, area: str, power: str, expected: Verdict) -> None:
    part = f"kind: electrical, description: RFID reader, radio_power: {power}"
    assert say("radio-power", part, *zone(area)) is expected


@pytest.mark.parametrize(
    ("group", "power", "expected"),
    [("D", "6 W", P), ("C", "3.5 W", P), ("C", "4 W", F), ("B", "2 W", P), ("B", "3 W", F),
     ("A", "3 W", F)],
)  # fmt: skip
def test_letters_of_a_division_count_as_groups(
    say: Say, group: str, power: str, expected: Verdict
) -> None:
    """D as IIA, C as IIB, A and B as IIC: common practice, NFPA 497 (from memory)."""
    part = f"kind: electrical, description: Radio, radio_power: {power}"
    assert say("radio-power", part, *zone(DIVISION.format(2, group), law="NEC")) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: electrical, description: Wireless access point", U),
        ("kind: electrical, description: RFID tag", N),
        ("kind: electrical, description: RFID reader for tags", U),
        ("kind: electrical, description: Motor", N),
        ("kind: mechanical, description: Antenna", N),
        ("kind: electrical, description: Vibration sensor with Bluetooth", U),
        ("kind: electrical, description: LoRaWAN gateway", U),
        ("kind: electrical, description: GSM modem", U),
        ("kind: electrical, description: Zigbee repeater", U),
        ("kind: electrical, description: Funksensor", U),
        ("kind: electrical, description: Capteur sans fil", U),
        ("kind: electrical, description: Funktionsbaustein", N),  # function block
        ("kind: electrical, description: Gateway", N),  # by wire
        ("kind: structural, description: Filter cloth 300 gsm", N),
    ],
)
def test_who_is_asked_of_radio(say: Say, part: str, expected: Verdict) -> None:
    assert say("radio-power", part, *zone("Zone 1, IIB, T4")) is expected


CERTIFIED = (
    "kind: electrical, description: Bluetooth sensor, marking: II 2G Ex ib IIB T4 Gb, evidence: "
    "[{type: certificate, number: ABC 20 ATEX 0001}, {type: declaration, number: D-1}]"
)


@pytest.mark.parametrize(
    ("old", "new", "area", "expected"),
    [
        ("", "", "Zone 1, IIB, T4", P),
        ("", "", "Zone 1, IIA, T4", P),
        ("", "", "Zone 1, IIC, T4", N),  # flagged by its group
        ("", "", "Zone 1, T4", U),  # which group the place asks for is open
        ("", "", "Zone 0, IIB, T4", N),  # the plate is flagged, and the part goes
        ("", "", "Zone 21, IIIB, T135 °C", N),
        ("ABC 20 ATEX 0001", "to follow", "Zone 1, IIB, T4", U),
        ("Gb, ", "Gb U, ", "Zone 1, IIB, T4", U),
        ("evidence: ", "radio_power: 9 W, evidence: ", "Zone 1, IIB, T4", F),
        ("evidence: ", "radio_power: 1 W, evidence: ", "Zone 1, IIB, T4", P),
    ],
)
def test_a_certificate_answers_for_its_own_transmitter(
    say: Say, old: str, new: str, area: str, expected: Verdict
) -> None:
    """IEC 60079-0:2017 6.6.1 is examined with the equipment, for its group; from memory."""
    part = CERTIFIED.replace(old, new) if old else CERTIFIED
    assert say("radio-power", part, *zone(area, law="ATEX")) is expected


def test_a_substance_counts_beside_the_declared_group(say: Say) -> None:
    part = "kind: electrical, description: Radio, radio_power: 5 W"
    place = "area: 'Zone 1, IIA, T3', substances: [{}]"
    assert say("radio-power", part, place.format("propane")) is P
    assert say("radio-power", part, place.format("hydrogen")) is F
    assert say("radio-power", part, place.format("gas that nobody knows")) is F


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("ultrasound_intensity: 0.1 W/cm²", P),
        ("ultrasound_intensity: 1 mW/mm²", P),
        ("ultrasound_intensity: 0.11 W/cm²", F),
        ("description: Ultrasonic bath", U),
        ("description: Sonotrode holder", U),
        ("description: Ultrasonic level sensor", N),
        ("description: Bath", N),
    ],
)
def test_ultrasound(say: Say, part: str, expected: Verdict) -> None:
    assert say("ultrasound", f"kind: electrical, {part}", *zone("Zone 1, IIB, T4")) is expected


def test_an_assessment_covers_strong_ultrasound(say: Say) -> None:
    part = (
        "kind: mechanical, description: Ultrasonic screen, ultrasound_intensity: 2 W/cm², evidence:"
        " [{type: assessment, number: IHA-8, conditions: [{text: ultrasonic power up to 3 W/cm², "
        "met_by: generator limit, document: IHA-8}]}]"
    )
    assert say("ultrasound", part, *zone("Zone 1, IIB, T4")) is P
    assert say("ultrasound", part.replace("IHA-8}]", "tbd}]"), *zone("Zone 1, IIB, T4")) is F


LADDERS = [
    [f"Zone {number}, {group}, {cls}" for group in ("IIA", "IIB", "IIC")]
    for number in (2, 1, 0)
    for cls in ("T3", "T4", "T6")
] + [[f"Zone 1, {group}, T{number}" for number in range(1, 7)] for group in ("IIA", "IIB", "IIC")]
STATED = [
    ("optical-radiation", f"{LASER}, optical_power: {power}")
    for power in ("10 mW", "20 mW", "100 mW", "1 W")
] + [
    ("radio-power", f"kind: electrical, radio_power: {power}")
    for power in ("1 W", "3 W", "5 W", "9 W")
]


@pytest.mark.parametrize(("rule", "part"), STATED)
@pytest.mark.parametrize("ladder", LADDERS, ids=lambda areas: f"{areas[0]} to {areas[-1]}")
def test_a_worse_place_is_never_better(say: Say, rule: str, part: str, ladder: list[str]) -> None:
    found = [say(rule, part, *zone(area)) is P for area in ladder]
    assert found == sorted(found, reverse=True)


@pytest.mark.parametrize("key", ["optical_power", "radio_power", "ultrasound_intensity"])
def test_more_power_is_never_better(say: Say, key: str) -> None:
    rules = {
        "optical_power": ("optical-radiation", "mW"),
        "radio_power": ("radio-power", "W"),
        "ultrasound_intensity": ("ultrasound", "mW/cm²"),
    }
    rule, unit = rules[key]
    amounts = (1, 3, 5, 10, 20, 50, 120, 500)
    part = f"kind: electrical, description: Laser radio, {key}: "
    passes = [say(rule, f"{part}{n} {unit}", *zone("Zone 1, IIB, T4")) is P for n in amounts]
    assert passes == sorted(passes, reverse=True)
    assert passes[0]
    assert not passes[-1]
