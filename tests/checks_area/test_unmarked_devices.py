"""General-purpose devices in Division 2, Zone 2 and Class III, and purged enclosures.

Sources: NFPA 70-2023 501.105(B), 501.115(B), 501.120(B), 501.125(B), 501.130(B), 501.135(B),
503.115 to 503.130, 505.20(C) (partly seen, partly from memory, as the table rows say);
NFPA 496-2021 3.3, IEC 60079-2:2014 5.1 from memory.
"""

from collections.abc import Callable

import pytest

from areafit.checks.area.protection_type import TypeQuestion, judge_type
from areafit.facts.marking import Code
from areafit.facts.protection import Hazard, Law, MarkingSystem
from areafit.tables.area import Contacts, general_purpose
from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Tell = Callable[..., str]
D2 = "area: 'Class I, Division 2, Group D'"
D1_GAS = "area: 'Class I, Division 1, Group D'"
BOX = "device: junction box, description: Terminal box"
DUST_1, DUST_2 = (f"area: 'Class II, Division {number}, Group G'" for number in (1, 2))
LINE = "device: squirrel-cage motor, arcing: false, inverter_fed: false, space_heater: false"

CASES = [
    (LINE, D2, P),
    (LINE, "area: 'Class I, Zone 2, IIA'", P),
    (LINE, "area: 'Class I, Division 1, Group D'", F),
    (LINE, "area: 'Class I, Zone 1, IIA'", F),
    (LINE, "area: 'Class II, Division 2, Group G'", U),
    (LINE, "area: 'Class III, Division 1'", U),
    (f"{LINE}, enclosure: totally enclosed", "area: 'Class III, Division 1'", P),
    (f"{LINE}, enclosure: open", "area: 'Class III, Division 1'", F),
    ("device: squirrel-cage motor, arcing: false, space_heater: false", D2, U),
    ("device: squirrel-cage motor, arcing: false, inverter_fed: false", D2, U),
    (
        "device: squirrel-cage motor, arcing: false, inverter_fed: true, space_heater: false",
        D2,
        U,
    ),
    ("device: squirrel-cage motor, inverter_fed: false, space_heater: false", D2, U),
    (
        "device: squirrel-cage motor, arcing: true, inverter_fed: false, space_heater: false",
        D2,
        F,
    ),
    ("device: relay, arcing: true, contact_protection: hermetically sealed", D2, P),
    ("device: relay, arcing: true, contact_protection: sealed chamber", D2, P),
    ("device: relay, arcing: true, contact_protection: oil immersed", D2, P),
    ("device: relay, arcing: true, contact_protection: nonincendive circuit", D2, P),
    ("device: relay, arcing: true, contact_protection: none", D2, F),
    ("device: relay, arcing: true", D2, U),
    ("device: relay", D2, U),
    # 501.115(B), from memory: what protects its contacts decides; a switch has some
    ("device: switch, contact_protection: hermetically sealed", D2, P),
    ("device: switch, contact_protection: none", D2, F),
    ("device: push button, contact_protection: nonincendive circuit", D2, P),
    ("device: contactor, contact_protection: none", D2, F),
    ("device: relay, arcing: false", D2, P),  # one without contacts
    ("device: relay, arcing: false, contact_protection: none", D2, P),
    ("device: instrument, contact_protection: hermetically sealed", D2, U),
    ("device: push button, contact_protection: hermetically sealed", D1_GAS, F),
    ("device: relay, arcing: true, enclosure: dusttight", "area: 'Class III, Division 2'", P),
    ("device: instrument, arcing: false", D2, P),
    ("device: instrument, arcing: true, contact_protection: hermetically sealed", D2, F),
    ("device: receptacle, arcing: false", D2, F),
    ("arcing: false", D2, U),
    # 501.105(B)(3), as its row tells: without make-and-break or sliding contacts
    ("description: Rheostat, device: resistor, arcing: false", D2, U),
    ("description: Feedback potentiometer, device: instrument, arcing: false", D2, U),
    ("description: Dropping resistor, device: resistor, arcing: false", D2, P),
    # 501.105(B), 501.115(B), from memory: a thermostat, a switch and a fuse open circuits
    ("description: Heater with thermostat, device: heater, arcing: false", D2, U),
    ("description: Heater for thermostat room, device: heater, arcing: false", D2, P),
    ("description: Luminaire with switch, device: luminaire, arcing: false", D2, U),
    ("description: Junction box with fuses, device: junction box, arcing: false", D2, U),
    ("description: Luminaire with cable, device: luminaire, arcing: false", D2, P),
    (f"{BOX} with switch, arcing: false, enclosure: dusttight", DUST_2, U),
    # what is none of the devices that the allowances name
    ("description: Power supply, device: transformer, arcing: false", D2, U),
    ("description: Power supply, device: instrument, arcing: false", D2, P),
    ("description: Control transformer, device: transformer, arcing: false", D2, P),
    # 501.130(B), as its row tells: fixed luminaires
    ("description: Luminaire, device: luminaire, arcing: false", D2, P),
    ("description: Portable luminaire, device: luminaire, arcing: false", D2, F),
    ("description: Hand lamp, device: luminaire, arcing: false", D2, F),
    # 502.130(B)(2), 502.150(B)(1), from memory
    ("device: luminaire, arcing: false, enclosure: dusttight", DUST_2, P),
    ("device: luminaire, arcing: false, enclosure: general purpose", DUST_2, F),
    ("device: luminaire, arcing: false", DUST_2, U),
    ("description: Hand lamp, device: luminaire, arcing: false, enclosure: dusttight", DUST_2, F),
    ("device: instrument, enclosure: dusttight", DUST_2, P),
    ("device: instrument, enclosure: general purpose", DUST_2, F),
    ("device: luminaire, arcing: false, enclosure: dusttight", DUST_1, F),
]


# What a name says beside the device that is stated, common practice, no source. An instrument is
# electronics: no drive, tool, battery or switch; a box holds terminals, a luminaire its lamp.
NAMED = [
    ("instrument", "Pressure sensor", P),
    ("instrument", "Programmable controller", P),
    ("instrument", "Operator terminal", P),
    ("instrument", "Camera", P),
    ("instrument", "Ethernet switch", P),
    ("instrument", "Electronic scale", P),
    ("instrument", "Temperature controller", P),
    ("instrument", "Programmable controller with relay outputs", U),
    ("instrument", "Limit switch", U),
    ("instrument", "Electronic pressure switch", U),
    ("instrument", "Camera with limit switch", U),
    ("instrument", "Variable frequency drive", U),
    ("instrument", "UPS", U),
    ("instrument", "Battery charger", U),
    ("instrument", "Cell phone", U),
    ("instrument", "Electric drill", U),
    ("instrument", "Static eliminator bar", U),
    ("instrument", "Vibrator, electric", U),
    ("instrument", "Control panel", U),
    ("junction box", "Junction box with terminals", P),
    ("junction box", "Junction box with cable glands", P),
    ("junction box", "Fused disconnect", U),
    ("junction box", "Breaker panel", U),
    ("junction box", "Junction box with indicator lamp", U),
    ("junction box", "Junction box with surge arrester", U),
    ("luminaire", "LED luminaire with driver", P),
    ("luminaire", "Luminaire with ballast", P),
    ("luminaire", "Luminaire with photocell", U),
    ("luminaire", "Ceiling fan with light", U),
    ("luminaire", "Lampholder", U),
    ("luminaire", "Trouble light", F),
    # 501.130(B), from memory: on a movable stand like a fixed one, with a cord as for portable ones
    ("luminaire", "Work light on tripod", U),
    ("luminaire", "LED floodlight with stand", U),
    ("luminaire", "Strahler auf Stativ", U),
    ("luminaire", "Floodlight on pole", P),
    ("luminaire", "Luminaire for tripod store", P),
    ("instrument", "Pilot light", P),
    ("instrument", "Signalleuchte", P),
    ("instrument", "Bell", U),
    ("instrument", "Flash camera", U),
    ("instrument", "Cooling fan 24 V", U),
    ("instrument", "Fan speed sensor", P),
    ("instrument", "Oven", U),
    ("instrument", "Oven temperature transmitter", P),
    ("instrument", "Sensor for oven", P),
    ("instrument", "Elettroserratura", U),
    ("instrument", "Kühlschrank", U),
    ("instrument", "Inclinometer", P),
    ("junction box", "Kettle", U),
    ("junction box", "Pull box", P),
    ("solenoid", "Air valve, solenoid operated", P),
    ("solenoid", "Pilot valve with coil", P),
    ("solenoid", "Solenoid valve with plug-in connector", P),
    ("solenoid", "Solenoid valve with plug-in connector and switch", U),
    ("solenoid", "Compressor", U),
    ("solenoid", "Pneumatic cylinder with solenoid valve", P),
    ("heater", "Exhaust fan", U),
    ("squirrel-cage motor", "Exhaust fan", P),
    ("squirrel-cage motor", "Motor with built-in inverter", U),
    ("squirrel-cage motor", "Motor with add-on brake", P),
    ("transformer", "Control transformer with terminals", P),
    ("transformer", "Rectifier", U),
    ("transformer", "Welding transformer", U),
    ("resistor", "Decade box", U),
    ("solenoid", "Solenoid valve with connector", P),
    ("solenoid", "Lifting magnet", U),
    ("heater", "Band heater", P),
    ("heater", "Fan heater", U),
    ("squirrel-cage motor", "Motor with terminal box", P),
    ("squirrel-cage motor", "Motor with thermistor", P),
    ("squirrel-cage motor", "Motor with variable frequency drive", U),
]


@pytest.mark.parametrize(("device", "description", "expected"), NAMED)
def test_what_its_name_says(say: Say, device: str, description: str, expected: Verdict) -> None:
    part = (
        f"kind: electrical, marking: none, device: {device}, description: '{description}', arcing: "
        "false, inverter_fed: false, space_heater: false"
    )
    assert say("protection-level", part, D2, "NEC") is expected


@pytest.mark.parametrize(
    ("device", "description"),
    [
        ("squirrel-cage motor", "Commutator motor"),
        ("squirrel-cage motor", "Brushed DC gearmotor"),
        ("squirrel-cage motor", "Wound rotor motor"),
        ("squirrel-cage motor", "Servo motor"),
        ("squirrel-cage motor", "Motor with thermal overload"),
        ("squirrel-cage motor", "Motor with brush"),
        ("instrument", "Lamp"),
        ("instrument", "Leuchte"),
        ("instrument", "Keyboard"),
    ],
)
def test_what_is_another_device_by_its_name(say: Say, device: str, description: str) -> None:
    """501.125(B), from memory: brushes, switches and protectors spark."""
    part = f"kind: electrical, marking: none, device: {device}, description: '{description}'"
    assert say("kind", part, D2, "NEC") is U


@pytest.mark.parametrize(
    ("description", "marking", "place", "expected"),
    [
        ("Hand lamp", "Class I, Division 2, Groups C, D T4", D2, U),
        ("Flashlight", "Class I, Division 2, Groups C, D T4", D2, U),
        ("Handleuchte", "Zone 2, AEx ec IIC T4 Gc", D2, U),
        ("Hand lamp", "Class I, Division 1, Groups C, D T4", D2, P),
        ("Hand lamp", "Zone 1, AEx eb IIC T4 Gb", D2, P),
        ("Luminaire", "Class I, Division 2, Groups C, D T4", D2, P),
        ("Portable luminaire", "Class II, Division 2, Group G T4", DUST_2, P),
        ("Welding torch", "Class I, Division 2, Groups C, D T4", D2, P),
    ],
)
def test_portable_lamps(
    say: Say, description: str, marking: str, place: str, expected: Verdict
) -> None:
    """501.130(B), from memory: portable lighting as in Division 1, but on movable stands."""
    part = f"kind: electrical, description: {description}, marking: '{marking}'"
    assert say("protection-type", part, place, "NEC") is expected


@pytest.mark.parametrize(("facts", "place", "expected"), CASES)
def test_an_unmarked_device(say: Say, facts: str, place: str, expected: Verdict) -> None:
    part = f"kind: electrical, marking: none, {facts}"
    assert say("protection-level", part, place, "NEC") is expected


def test_silence_about_the_marking_is_no_allowance(say: Say) -> None:
    assert say("protection-level", f"kind: electrical, {LINE}", D2, "NEC") is U


@pytest.mark.parametrize("law", ["IEC", "ATEX"])
def test_only_north_american_rules_know_allowances(say: Say, law: str) -> None:
    part = f"kind: electrical, marking: none, {LINE}"
    assert say("protection-level", part, "area: 'Zone 2, IIA'", law) is F


def test_the_terms_are_said(tell: Tell) -> None:
    part = "kind: electrical, marking: none, device: relay, enclosure: dusttight"
    words = tell("protection-level", part, D2, "NEC")
    assert "contacts sealed, under oil or in a nonincendive circuit" in words
    assert "dusttight" in words


def test_heaters_have_a_share_and_contacts_a_condition() -> None:
    table = general_purpose()
    hot = {device for (area, device), row in table.items() if area == "I/2" and row.share_pct == 80}
    assert hot == {"heater", "motor space heater", "resistor", "luminaire"}
    assert table["III/1", "switch"].contacts is Contacts.ANY


X = "'Class I, Division 1, Type X pressurization'"
D1 = "area: 'Class I, Division 1, Group D'"
PURGES = [
    (X, "contents: general purpose, on_loss: power cut", D1, "NEC", P),
    (X, "contents: general purpose, on_loss: alarm", D1, "NEC", F),
    (X, "contents: general purpose", D1, "NEC", U),
    (X, "on_loss: power cut", D1, "NEC", U),
    ("'Type Y pressurization'", "contents: Division 2, on_loss: alarm", D1, "NEC", P),
    ("'Type Y pressurization'", "contents: general purpose, on_loss: alarm", D1, "NEC", F),
    ("'Type Y pressurization'", "contents: Division 2, on_loss: nothing", D1, "NEC", F),
    ("'Type Z pressurization'", "contents: general purpose, on_loss: alarm", D1, "NEC", F),
    ("'Type Z pressurization'", "contents: general purpose, on_loss: alarm", D2, "NEC", P),
    (
        "'Type Z pressurization'",
        "contents: general purpose, on_loss: alarm",
        "area: 'Class I, Zone 1, IIA'",
        "NEC",
        F,
    ),
    # plate and list differ: the less protected contents and the lesser action count
    (
        "'Type Y pressurization, contents general purpose'",
        "contents: Division 2, on_loss: alarm",
        D1,
        "NEC",
        F,
    ),
    (
        "'Type X pressurization, contents general purpose, automatic power cut on loss'",
        "on_loss: alarm",
        D1,
        "NEC",
        F,
    ),
    (
        "Ex pxb IIC T4 Gb",
        "contents: general purpose, on_loss: power cut",
        "area: 'Zone 1, IIB'",
        "IEC",
        P,
    ),
    (
        "Ex pxb IIC T4 Gb",
        "contents: general purpose, on_loss: alarm",
        "area: 'Zone 1, IIB'",
        "IEC",
        F,
    ),
    ("Ex pyb IIC T4 Gb", "contents: Zone 2, on_loss: alarm", "area: 'Zone 1, IIB'", "IEC", P),
    (
        "Ex pyb IIC T4 Gb",
        "contents: general purpose, on_loss: alarm",
        "area: 'Zone 1, IIB'",
        "IEC",
        F,
    ),
    (
        "Ex pzc IIC T4 Gc",
        "contents: general purpose, on_loss: alarm",
        "area: 'Zone 2, IIB'",
        "IEC",
        P,
    ),
    (
        "Ex pzc IIC T4 Gc",
        "contents: general purpose, on_loss: alarm",
        "area: 'Zone 1, IIB'",
        "IEC",
        F,
    ),
    ("EEx p IIC T4", "contents: general purpose, on_loss: alarm", "area: 'Zone 1, IIB'", "IEC", P),
    ("EEx p IIC T4", "contents: general purpose", "area: 'Zone 1, IIB'", "IEC", U),
]


@pytest.mark.parametrize(("marking", "facts", "place", "law", "expected"), PURGES)
def test_a_purge_needs_its_place_contents_and_action(  # noqa: PLR0917 - the columns of a case
    say: Say, marking: str, facts: str, place: str, law: str, expected: Verdict
) -> None:
    part = f"kind: electrical, marking: {marking}, pressurization: {{{facts}}}"
    assert say("protection-type", part, place, law) is expected


def test_the_plate_alone_may_say_it(say: Say) -> None:
    mark = "'Type X pressurization, contents general purpose, automatic power cut on loss'"
    assert say("protection-type", f"kind: electrical, marking: {mark}", D1, "NEC") is P


PURGED_LEVELS = [
    ("Type X pressurization", D1, P),
    ("Type Y pressurization", D1, P),
    ("Type Z pressurization", D1, F),
    ("Type Z pressurization", D2, P),
    ("Type X pressurization", "area: 'Class I, Zone 1, IIA'", P),
    ("Type X pressurization", "area: 'Class I, Zone 0, IIA'", F),
]


@pytest.mark.parametrize(("marking", "place", "expected"), PURGED_LEVELS)
def test_purge_types_by_division(say: Say, marking: str, place: str, expected: Verdict) -> None:
    part = f"kind: electrical, marking: '{marking}'"
    assert say("protection-level", part, place, "NEC") is expected


TYPES = [
    ("electrical", "NI Class I Div 1 Groups A-D T4", D1, "NEC", F),
    ("electrical", "NI Class I Div 2 Groups A-D T4", D2, "NEC", P),
    ("electrical", "NI Class I Div 2 Groups A-D T4", "area: 'Class I, Zone 1, IIA'", "NEC", F),
    ("electrical", "II 2G Ex h IIB T4 Gb", "area: 'Zone 1, IIB'", "ATEX", F),
    ("mechanical", "II 2G Ex h IIB T4 Gb", "area: 'Zone 1, IIB'", "ATEX", P),
    ("mechanical", "II 2G p IIB T4", "area: 'Zone 1, IIB'", "ATEX", P),
    ("mechanical", "II 2G c k IIB T4", "area: 'Zone 1, IIB'", "ATEX", P),
    ("electrical", "Ex op is IIC T6 Gb", "area: 'Zone 1, IIB'", "IEC", U),
    ("electrical", "Ex db op is IIC T6 Gb", "area: 'Zone 1, IIB'", "IEC", P),
    ("electrical", "Ex tb IIC T80°C Db", "area: 'Zone 21, IIIB'", "IEC", P),
    ("electrical", "Ex v IIC T4 Gb", "area: 'Zone 1, IIB'", "IEC", U),
    ("electrical", "II 2D T120°C", "area: 'Zone 21, IIIB'", "ATEX", P),
    ("electrical", "II 2G T4", "area: 'Zone 1, IIB'", "ATEX", U),
    ("electrical", "Ex db tb IIC T4 Gb", "area: 'Zone 1, IIB'", "IEC", F),
    ("electrical", "Ex sb IIC T4 Gb", "area: 'Zone 1, IIB'", "IEC", P),
    ("electrical", "Ex ob IIC T4 Gb", "area: 'Zone 1, IIB'", "IEC", P),
    ("electrical", "Ex mb IIC T4 Gb", "area: 'Zone 1, IIB'", "IEC", P),
]


@pytest.mark.parametrize(("kind", "marking", "place", "law", "expected"), TYPES)
def test_types_of_protection(  # noqa: PLR0917 - the columns of a case
    say: Say, kind: str, marking: str, place: str, law: str, expected: Verdict
) -> None:
    part = f"kind: {kind}, marking: '{marking}'"
    assert say("protection-type", part, place, law) is expected


def test_a_part_with_codes_of_both_kinds_must_pass_by_both(say: Say) -> None:
    """A motor T4 with its gearbox T3 in one line."""
    part = "kind: [electrical, mechanical], marking: [Ex db IIC T4 Gb, Ex h IIC T3 Gb]"
    assert say("temperature-class", part, "area: 'Zone 1, IIB, T4'") is F
    assert say("temperature-class", part, "area: 'Zone 1, IIB, T3'") is P
    assert say("protection-type", part, "area: 'Zone 1, IIB, T3'") is P


def test_letters_that_no_table_knows_prove_nothing() -> None:
    code = Code(MarkingSystem.IEC, Hazard.GAS, protection=("zz",))
    assert judge_type(TypeQuestion(Law.IEC, (), code, electrical=True)).verdict is U
    assert judge_type(TypeQuestion(Law.IEC, (), None, electrical=True)).verdict is U
