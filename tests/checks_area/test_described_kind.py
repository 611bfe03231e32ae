"""A description that contradicts the kind: common practice, no source."""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.tables.descriptions import Says, described
from areafit.verdict import Verdict

P, U = Verdict.PASS, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Z1 = "area: 'Zone 1, IIB, T3'"

SAID = [
    ("Gear motor 0.37 kW", Says.ELECTRICAL),
    ("Solenoid valve 5/2", Says.ELECTRICAL),
    ("Proximity switches", Says.ELECTRICAL),
    ("LED strip", Says.POWERED),
    ("MOTOR, GEARED", Says.ELECTRICAL),
    ("Frame with drive motor", Says.ELECTRICAL),
    ("Motor and bracket", Says.ELECTRICAL),
    ("Wireless tag, lithium cell", Says.ELECTRICAL),
    ("Roller with ball bearings and V-belt pulley", Says.MOVING),
    ("Air motor", Says.MOVING),
    ("Ball valve, DN25", Says.MOVING),
    ("Motor bracket", Says.CARRIER),
    ("Bracket for the motor", Says.CARRIER),
    ("Screws of motor and fan", Says.CARRIER),
    ("Bracket, motor", Says.CARRIER),
    ("Valve block for the parts under test", Says.FIXED),
    ("Cover without sensor", Says.CARRIER),
    ("Cable tie", Says.CARRIER),
    ("Carousel, complete", None),
    ("Bottle star wheel", None),
    ("Motorway sign", Says.FIXED),
    ("O-rings of the pump", Says.SEAL),
    ("Seal cover", Says.CARRIER),
    ("Heating rod 500 W", Says.POWERED),
    ("LED frame", Says.POWERED),
    ("LED bracket", Says.POWERED),
    ("Thermocouple rod", Says.POWERED),
    ("Solenoid valve block", Says.ELECTRICAL),
    ("Sensor rod", Says.ELECTRICAL),
    ("Hot plate", Says.ELECTRICAL),
    ("Light panel 24 V", Says.ELECTRICAL),
    ("Motor bracket 24 V", Says.ELECTRICAL),
    ("Frame 230 V, 50 Hz", Says.FIGURE),
    ("Bracket for a 24 V lamp", Says.CARRIER),
    ("Air motor 0.5 kW", Says.MOVING),
    ("Servo 400 W", Says.ELECTRICAL),
    ("Thermostat", Says.ELECTRICAL),
    ("E-stop", Says.ELECTRICAL),
    ("Linear axis", Says.MOVING),
    ("I/O module", Says.ELECTRICAL),
    ("Handheld radio", Says.ELECTRICAL),
    ("Pt100 probe", Says.ELECTRICAL),
    ("Fan cowl", Says.CARRIER),
    ("Camera pole", Says.CARRIER),
    ("Battery rack", Says.CARRIER),
    ("Earthing clamp with cable", Says.CARRIER),
    ("Earthing clamp with cable and lamp", Says.ELECTRICAL),
    ("Heating jacket", Says.ELECTRICAL),
    ("Heating jacket (steam)", None),
    ("Steam heating jacket", Says.FIXED),
    ("Steam jacket with heating rod", Says.POWERED),
    ("Light duty bracket", Says.CARRIER),
]


@pytest.mark.parametrize(("text", "says"), SAID)
def test_the_head_word_tells(text: str, says: Says | None) -> None:
    row = described(text)
    assert (row.says if row is not None else None) is says


KINDS = [
    ("kind: structural, description: Gear motor 0.37 kW", U),
    ("kind: structural, description: Roller with bearings", U),
    ("kind: structural, description: Motor bracket", P),
    ("kind: structural, description: Gear motor, electrical_content: motor", P),
    ("kind: mechanical, description: Solenoid valve 5/2, electrical_content: none", U),
    ("kind: mechanical, description: Ball valve, electrical_content: none", P),
    ("kind: mechanical, description: Air motor, electrical_content: none", P),
    ("kind: structural, description: Energy chain 18x37", U),
    ("kind: structural, description: Energy chain bracket", P),
    ("kind: structural, description: Slide block 40x30", U),
    ("kind: structural, description: Slide plate", P),
    ("kind: structural, description: Linear guide rail 20 with carriage", U),
    ("kind: structural, description: Guide rail", P),
    ("kind: structural, description: Isolating barrier 2 channel", U),
    ("kind: mechanical, description: Energy chain 18x37, electrical_content: none", P),
    ("kind: loose item, description: Torch, electrical_content: none", U),
    ("kind: [structural, electrical], description: Motor", P),
    ("kind: simple apparatus, description: Limit switch", P),
    ("kind: simple apparatus, description: Limit switch 24 V on the valve", P),
    ("kind: simple apparatus, description: Thermocouple in the valve block", P),
    ("kind: simple apparatus, description: Junction box", P),
    # IEC 60079-11:2011 5.7, from memory
    ("kind: simple apparatus, description: Gear motor", U),
    ("kind: simple apparatus, description: Solenoid valve 24 V", U),
    ("kind: simple apparatus, description: Ball valve", U),
    ("kind: simple apparatus, description: Pressure transmitter", U),
    ("kind: simple apparatus, description: Druckmessumformer", U),
    ("kind: simple apparatus, description: Inductive sensor M12", U),
    ("kind: simple apparatus, description: Kapazitiver Sensor", U),
    ("kind: simple apparatus, description: Proximity sensor", U),
    ("kind: simple apparatus, description: Induktiver Näherungsschalter", U),
    ("kind: simple apparatus, description: Reed contact", P),
    ("kind: simple apparatus, description: Temperature sensor", P),
    ("kind: simple apparatus, description: Band heater", U),
    ("kind: simple apparatus, description: Radio", U),
    ("kind: [simple apparatus, electrical], description: Radio", P),
    ("kind: structural, description: Solenoid valve block", U),
    ("kind: loose item, description: Handheld radio, electrical_content: none", U),
    # NFPA 70-2023 501.125(B), from memory: brushes and switches spark
    ("kind: electrical, description: DC motor with brushes, device: squirrel-cage motor", U),
    ("kind: electrical, description: Motor with brushes, device: squirrel-cage motor", U),
    ("kind: electrical, description: Brake motor, device: squirrel-cage motor", U),
    ("kind: electrical, description: Motor with spring brake, device: squirrel-cage motor", U),
    ("kind: electrical, description: Capacitor-start motor, device: squirrel-cage motor", U),
    ("kind: electrical, description: DC motor with brushes, device: motor with switch", P),
    ("kind: electrical, description: Gear motor with cable gland, device: squirrel-cage motor", P),
    # common practice, no source: what a cord grip is called in North America
    ("kind: electrical, description: Thermocouple head, device: junction box", P),
    ("kind: electrical, description: Thermocouple, device: junction box", U),
    ("kind: electrical, description: RTD head with transmitter, device: heater", U),
    ("kind: electrical, description: Cable terminator for MC-HL, device: cable gland", P),
    ("kind: electrical, description: Cable terminator for MC-HL, device: luminaire", U),
    ("kind: electrical, description: Cord connector, device: cable gland", P),
    ("kind: electrical, description: Cord connector, device: luminaire", U),
    ("kind: electrical, description: Motor space heater, device: motor space heater", P),
    ("kind: electrical, description: Space heater, device: heater", P),
    ("kind: electrical, description: Motor space heater, device: heater", U),
    # IEC 60079-11:2011 5.7, from memory
    ("kind: simple apparatus, description: LED, device: switch", U),
    ("kind: simple apparatus, description: Terminal box, device: junction box", P),
    ("kind: simple apparatus, description: Limit switch, device: switch", P),
    ("kind: electrical, description: Relay with open contacts, device: junction box", U),
    ("kind: electrical, description: Relay, device: relay", P),
    ("kind: electrical, description: Junction box for a relay, device: junction box", P),
    ("kind: electrical, device: junction box", P),
]


@pytest.mark.parametrize(("part", "expected"), KINDS)
def test_kind_and_description(say: Say, part: str, expected: Verdict) -> None:
    assert say("kind", part, Z1) is expected
    assert say("kind", part, "area: unclassified") is Verdict.NOT_APPLICABLE


def test_a_description_never_makes_a_pass(say: Say) -> None:
    for kind in ("structural", "mechanical", "loose item"):
        bare = say("kind", f"kind: {kind}", Z1)
        for text, _ in SAID:
            told = say("kind", f"kind: {kind}, description: '{text}'", Z1)
            assert told is bare or (bare is P and told is U)


ASSEMBLY = """\
areafit: 1
assembly: {{number: A-1}}
code: IEC
locations:
  cell: {{area: 'Zone 1, IIB, T3', document: AC-1, substances: ethanol, ambient: 5..40 °C}}
parts:
  - {{item: "1", description: {name}, kind: structural, location: cell, {own}}}
  - {{item: "2", description: Frame, kind: structural, parent: "1", materials: none}}
  - {{item: "3", description: {line}, kind: {kind}, parent: "2"}}
"""
MADE_OF_LINES = "materials: none"


@pytest.mark.parametrize(
    ("name", "own", "line", "kind", "expected"),
    [
        ("Conveyor", MADE_OF_LINES, "Shaft", "mechanical", P),
        ("Conveyor", MADE_OF_LINES, "Plate", "structural", U),
        ("Conveyor", MADE_OF_LINES, "Motor", "electrical", U),
        ("Conveyor", "materials: [{material: 304}]", "Shaft", "mechanical", U),
        ("Pump with motor", MADE_OF_LINES, "Motor", "electrical", U),  # where is the pump?
        ("Pump with motor", MADE_OF_LINES, "Motor with impeller", "[electrical, mechanical]", P),
        ("Pump with motor", MADE_OF_LINES, "Impeller", "mechanical", U),
        ("Pump with motor", MADE_OF_LINES, "Drive", "mechanical, electrical_content: motor", P),
        ("Pump with motor", MADE_OF_LINES, "Thing", "unknown", U),
    ],
)
def test_what_the_lines_of_an_assembly_state_is_not_asked_of_it(
    name: str, own: str, line: str, kind: str, expected: Verdict
) -> None:
    """Common practice, no source; a line that is mounted in a line of an assembly is in it too."""
    text = ASSEMBLY.format(name=name, own=own, line=line, kind=kind)
    bom = areafit.read(text.encode(), "t.yaml")
    report = areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 1, 1)))
    (found,) = [each for each in report.parts[0].findings() if each.rule.id == "kind"]
    assert found.verdict is expected


def _kind_of_assembly(name: str, lines: list[tuple[str, str]]) -> Verdict:
    """The verdict on the kind of an assembly `name` that is made of these lines."""
    listed = "".join(
        f'  - {{item: "{n}", description: {text}, kind: {kind}, parent: "2"}}\n'
        for n, (text, kind) in enumerate(lines, start=4)
    )
    text = ASSEMBLY.format(
        name=f"'{name}'", own=MADE_OF_LINES, line="Rotor", kind="mechanical, materials: none"
    )
    bom = areafit.read((text + listed).encode(), "t.yaml")
    report = areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 1, 1)))
    (found,) = [each for each in report.parts[0].findings() if each.rule.id == "kind"]
    return found.verdict


E = "electrical"
NAMED_AND_LISTED = [
    ("Pump with motor", "Geared motor 0.37 kW", "Limit switch"),
    ("Pumpe mit Motor", "Drehstrommotor", "Endschalter"),
    ("Pompe avec moteur", "Moto-réducteur", "Interrupteur"),
    ("Pompa con motore", "Motoriduttore 0.37 kW", "Finecorsa"),
    ("Bomba con motor", "Motorreductor", "Final de carrera"),
    ("Frame with lamp", "Beacon", "Motor"),
    ("Rahmen mit Leuchte", "Signalleuchte", "Näherungssensor"),
    ("Châssis avec éclairage", "Lampe", "Capteur"),
    ("Telaio con lampada", "Plafoniera", "Elettrovalvola"),
    ("Bastidor con luz", "Lámpara", "Sensor"),
    ("Pipe with heater", "Trace heating", "Temperature sensor"),
    ("Rohr mit Heizung", "Heizband", "Temperaturfühler"),
    ("Tubo riscaldato", "Resistenza corazzata", "Termocoppia"),
    ("Tubo con válvula solenoide", "Válvula solenoide 5/2", "Pulsador"),
    ("Block with solenoid valve", "Valve coil", "Terminal box"),
    ("Frame with sensor", "Load cell", "Solenoid valve"),
    ("Rahmen mit Sensor", "Drucksensor", "Magnetventil"),
    ("Frame with cable", "Sensor cable", "Junction box"),
    ("Frame with radio", "Antenna", "Motor"),
    ("Gestell mit Batterie", "Pufferbatterie", "Motor"),
    ("Frame with camera", "Camera", "Flow meter"),
    ("Motorised damper", "Gear motor", "Limit switch"),
    ("Motorisierte Klappe", "Stellmotor", "Magnetventil"),
    ("Conveyor 400 V", "Gear motor", "Limit switch"),
    ("Förderer, elektrisch", "Trommelmotor", "Klemmenkasten"),
    ("Frame 24 V", "Camera", "Cable M12 connector"),
]


@pytest.mark.parametrize(("name", "that", "other"), NAMED_AND_LISTED)
def test_an_assembly_holds_what_it_is_called_after(name: str, that: str, other: str) -> None:
    """A switch is no motor: the line must be what the name says (common practice, no source)."""
    assert _kind_of_assembly(name, [(that, E)]) is P
    assert _kind_of_assembly(name, [(other, E), (that, E)]) is P
    assert _kind_of_assembly(name, [(that, "mechanical, electrical_content: none")]) is U
    assert _kind_of_assembly(name, [(other, E)]) is U
    assert _kind_of_assembly(name, [(f"Bracket for {that}", "structural")]) is U


BY_DEVICE = [
    ("Pump with motor", "squirrel-cage motor", P),
    ("Pompe avec moteur", "motor with switch", P),
    ("Bomba con motor", "motor space heater", U),
    ("Pumpe mit Motor", "switch", U),
    ("Frame with lamp", "luminaire", P),
    ("Frame with lamp", "instrument", U),
    ("Rahmen mit Leuchte", "push button", U),
    ("Frame with camera", "instrument", U),
    ("Rohr mit Heizung", "heater", P),
    ("Rohr mit Heizung", "resistor", U),
    ("Tubo riscaldato", "heater", P),
    ("Tubo riscaldato", "instrument", U),
    ("Conveyor 400 V", "squirrel-cage motor", P),
    ("Conveyor 400 V", "transformer", P),
    ("Conveyor 400 V", "switch", U),
    ("Frame with brake motor", "squirrel-cage motor", U),
    ("Frame with cable", "junction box", U),
]


@pytest.mark.parametrize(("name", "device", "expected"), BY_DEVICE)
def test_a_line_is_what_its_device_says(name: str, device: str, expected: Verdict) -> None:
    """Common practice, no source."""
    assert _kind_of_assembly(name, [("Unit 7", f"electrical, device: {device}")]) is expected


@pytest.mark.parametrize(
    ("name", "lines", "expected"),
    [
        ("Machine with motor and lamp", ["Gear motor"], U),
        ("Machine with motor and lamp", ["Gear motor", "Beacon"], P),
        ("Maschine mit Motor und Leuchte", ["Beacon"], U),
        ("Frame with brake motor", ["Gear motor"], U),
        ("Frame with motor", ["Brake motor"], P),
        ("Frame with motor", ["Switch on motor"], U),
        ("Frame with motor", ["Motor cable"], U),
        ("Frame with motor", ["Gearbox with motor"], P),
    ],
)
def test_each_thing_that_the_name_speaks_of_is_a_line(
    name: str, lines: list[str], expected: Verdict
) -> None:
    """Common practice, no source."""
    assert _kind_of_assembly(name, [(line, E) for line in lines]) is expected
