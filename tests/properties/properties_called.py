"""Small lists that pass, each with one line that is asked what others are not: a motor, a laser.

What a fact of it says against the list is asked for there, so that leaving it out opens nothing.
"""

import copy
from typing import Any

from properties_world import Tree  # made importable by conftest
from properties_worlds import WORLDS

_SOUND = {"welded": False, "crevice": False, "stressed": False}
_OUTSIDE = {"charged": "outside the area", "replaced": "outside the area"}


def _one(world: str, line: int, place: dict[str, Any] | None = None, **facts: Any) -> Tree:
    """A line of a world alone, with further facts; None takes one away."""
    tree: Tree = copy.deepcopy(WORLDS[world])
    part = {**tree["parts"][line], **facts}
    tree["parts"] = [{key: value for key, value in part.items() if value is not None}]
    spot = {**tree["locations"]["spot"], **(place or {})}
    tree["locations"]["spot"] = {key: value for key, value in spot.items() if value is not None}
    return tree


def _wired(world: str = "IEC gas", place: dict[str, Any] | None = None, **facts: Any) -> Tree:
    return _one(world, 0, place, **facts)


def _moving(world: str = "IEC gas", place: dict[str, Any] | None = None, **facts: Any) -> Tree:
    return _one(world, 1, place, **facts)


def _fixed(world: str = "IEC gas", place: dict[str, Any] | None = None, **facts: Any) -> Tree:
    return _one(world, 2, place, **facts)


def _of(material: str, component: str, exposure: str = "room", **facts: Any) -> dict[str, Any]:
    """What a material of a line states."""
    return {
        "material": material,
        "component": component,
        "exposure": exposure,
        "counterface": "none",
        **_SOUND,
        **facts,
    }


_DIVISION_2 = {"area": "Class I, Division 2, Group D", "required_epl": None}
_GROUP_B = {"area": "Class I, Division 1, Group B"}
_ZONE_0 = {"area": "Zone 0, IIA, T3"}
_BY_HAND: dict[str, Any] = {
    "marking": None,
    "evidence": None,
    "drive": "manual",
    "air_supply": None,
    "surface_temperature": None,
    "drop_height": "none",
    "end_stops": "none",
}
_WET = {
    "chemicals": [
        {"name": "sodium hydroxide", "concentration": "2 %", "temperature": "20 °C"},
    ]
}

_HYDROGEN = {
    "area": "Zone 1, IIC, T1",
    "substances": ["hydrogen"],
    "chemicals": [{"name": "hydrogen", "temperature": "20 °C"}],
}

_BOX: dict[str, Any] = {"part_number": "BOX-1", "inside_ambient": "0..40 °C"}
_NAMED = [{"type": "certificate", "number": "IECEx QQQ 21.0001", "covers": "BOX-1 with MOD-1"}]


def _housed(**inside: Any) -> Tree:
    """A module without a rating of its own in a box whose certificate names it."""
    tree = _wired("IEC dust", **_BOX, evidence=_NAMED)
    module = {**tree["parts"][0], "item": "2", "part_number": "MOD-1", "ingress": "IP20"}
    module["marking"] = "Ex tb IIIC T95 °C Db"
    del module["inside_ambient"]
    tree["parts"].append({**module, "inside": "1", **inside})
    return tree


_SENSOR: dict[str, Any] = {
    "item": "1",
    "ingress": "IP67",
    "marking": "Ex ia IIC T6 Ga",
    "intrinsic_safety": None,
}
_CIRCUIT = {
    "name": "LS-1",
    "group": "IIC",
    "source": {
        "item": "2",
        "Uo": "10.5 V",
        "Io": "13 mA",
        "Po": "34 mW",
        "Co": "2.4 µF",
        "Lo": "165 mH",
        "Um": "253 V",
        "supply": "24 V",
    },
    "devices": [
        {"item": "1", "Ui": "16 V", "Ii": "25 mA", "Pi": "34 mW", "Ci": "50 nF", "Li": "250 µH"}
    ],
    "cable": {"length": "60 m", "values": "default"},
}


def _circuit(**cable: str) -> Tree:
    """A sensor, and in a room that is not classified what feeds it."""
    tree = _wired(**_SENSOR)
    spot = tree["locations"]["spot"]
    tree["locations"]["room"] = {**spot, "area": "unclassified", "substances": "none"}
    del tree["locations"]["room"]["ingress"]
    isolator = {**tree["parts"][0], "item": "2", "location": "room", "marking": "[Ex ia Ga] IIC"}
    tree["parts"].append(isolator)
    tree["loops"] = [{**copy.deepcopy(_CIRCUIT), **({"cable": cable} if cable else {})}]
    return tree


def _bent() -> Tree:
    """A source of more power than a straight line gives, though it is one, and a large device."""
    tree = _circuit()
    tree["loops"][0]["source"] |= {"Po": "40 mW", "linear": True}
    tree["loops"][0]["devices"][0] |= {"Pi": "50 mW", "Li": "2 mH"}
    return tree


def _with_a_cell() -> Tree:
    tree = _circuit()
    tree["parts"][0]["battery"] = {"charged": "never", "replaced": "outside the area"}
    tree["loops"][0]["devices"][0]["active"] = False
    return tree


CALLED: dict[str, Tree] = {
    "circuit": _circuit(),
    "circuit of known cable": _circuit(
        length="60 m", capacitance="110 pF/m", inductance="0.7 µH/m"
    ),
    "circuit of a bent source": _bent(),
    "circuit of a sensor with a cell": _with_a_cell(),
    "module in a box": _housed(),
    "second make": _wired(
        part_number="PN-1",
        alternates=[{"part_number": "X-1"}],
        evidence=[{"type": "certificate", "number": "IECEx QQQ 21.0001", "covers": "PN-1, X-1"}],
    ),
    "certified for a hot place": _wired(
        place={"ambient": "0..50 °C"},
        evidence=[{"type": "certificate", "number": "IECEx QQQ 21.0001", "ambient": "-20..60 °C"}],
    ),
    "earthed by measurement": _fixed(bonded=None, resistance_to_earth="5 ohm"),
    "gas that decomposes": _fixed(
        place={
            "area": "Zone 1, IIC, T2",
            "substances": ["acetylene"],
            "pressure": "95..105 kPa",
        }
    ),
    "layer on metal": _fixed(
        materials=[
            _of(
                "polyester powder coat",
                "coat",
                surface_area="1 m²",
                layer_thickness="0.08 mm",
                breakdown_voltage="3 kV",
                backing="earthed metal",
            )
        ]
    ),
    "thick layer on metal": _fixed(
        materials=[
            _of(
                "polyester powder coat",
                "coat",
                surface_area="1 m²",
                layer_thickness="0.5 mm",
                breakdown_voltage="3 kV",
                backing="earthed metal",
            )
        ]
    ),
    "one of two pieces": _fixed(
        place={"atmosphere": "normal"},
        materials=[_of("316", "body"), _of("6061", "plate")],
        contacts=[{"with": "3", "component": "body", "with_component": "body"}],
    ),
    "said to be complete": _fixed(
        place=_WET,
        materials=[_of("316L", "body", "splash")],
        materials_complete={"complete": True},
    ),
    "screw in hydrogen": _fixed(
        place=_HYDROGEN,
        materials=[_of("carbon steel", "screw", "immersed", property_class="8.8")],
    ),
    "screw of stated hardness": _fixed(
        place=_HYDROGEN,
        materials=[_of("carbon steel", "screw", "immersed", hardness="250 HV")],
    ),
    "motor": _wired(
        description="Motor 1.5 kW",
        device="squirrel-cage motor",
        inverter_fed=False,
        arcing=False,
        space_heater=False,
    ),
    "motor of increased safety": _wired(
        description="Motor 1.5 kW",
        device="squirrel-cage motor",
        marking="Ex eb IIB T3 Gb",
        inverter_fed=False,
        te_time="15 s",
        overload_trip="9 s",
        starting="direct-on-line",
    ),
    "motor at an inverter": _wired(
        description="Motor 1.5 kW",
        inverter_fed=True,
        evidence=[
            {
                "type": "certificate",
                "number": "IECEx QQQ 21.0001X",
                "conditions": [
                    {
                        "text": "operation at a frequency converter",
                        "met_by": "thermistors and relay",
                        "document": "CD-5",
                    }
                ],
            }
        ],
    ),
    "unmarked motor": _wired(
        "NEC division",
        _DIVISION_2,
        description="Motor 2 HP",
        marking="none",
        device="squirrel-cage motor",
        arcing=False,
        enclosure="totally enclosed",
        inverter_fed=False,
        space_heater=False,
        surface_temperature={"value": "90 °C", "at_ambient": "40 °C"},
    ),
    "unmarked relay": _wired(
        "NEC division",
        _DIVISION_2,
        description="Relay",
        marking="none",
        device="relay",
        arcing=True,
        contact_protection="hermetically sealed",
        heat_producing=False,
        enclosure="general purpose",
    ),
    "laser scanner": _wired(description="Laser scanner", optical_power="5 mW"),
    "laser by its irradiance": _wired(description="Laser scanner", optical_irradiance="1 mW/mm²"),
    "reader": _wired(  # unmarked: no certificate answers for what it radiates
        "NEC division",
        _DIVISION_2,
        description="RFID reader",
        marking="none",
        device="instrument",
        arcing=False,
        heat_producing=False,
        overloadable=False,
        enclosure="general purpose",
        radio_power="1 W",
    ),
    "ultrasonic bath": _wired(description="Ultrasonic bath", ultrasound_intensity="0.05 W/cm²"),
    "torch": _wired(
        description="Torch",
        kind=["electrical", "loose item"],
        battery=_OUTSIDE,
        sparks="none",
        drop_height="none",
        loose_parts="none",
        protects=False,
    ),
    "sensor with a cell": _wired(
        marking="Ex ia IIC T4 Gb", intrinsic_safety="own cell", battery=_OUTSIDE
    ),
    "gland": _wired(device="cable gland", marking="Ex db IIB Gb"),
    "cable": _wired(
        "NEC division",
        description="Cable, 4 cores",
        marking=None,
        evidence=None,
        ambient=None,
        ingress=None,
        entries=None,
        wiring={"method": "MC-HL cable"},
        place={"ingress": None, "restricted_access": True},
    ),
    "cord": _wired(
        "NEC division",
        {**_DIVISION_2, "ingress": None},
        description="Cord",
        marking=None,
        evidence=None,
        ambient=None,
        ingress=None,
        entries=None,
        wiring={
            "method": "flexible cord",
            "usage": "extra-hard",
            "serves": "portable equipment",
            "grounding_conductor": True,
        },
    ),
    "purged cabinet": _wired(
        "NEC division",
        marking="Class I, Division 1, Group D T4, Type X pressurization",
        pressurization={"contents": "general purpose", "on_loss": "power cut"},
    ),
    "box of a milder group": _wired(  # 500.6(A): with every run sealed it serves
        "NEC division",
        {**_GROUP_B, "substances": ["ethylene oxide"], "pressure": "101 kPa"},
        entries=[
            {
                "type": "conduit seal",
                "within": "0.2 m",
                "marking": "Class I, Division 1, Groups B, C, D",
                "thread": "NPT 1/2",
                "hole": "NPT 1/2",
                "trade_size": "1/2",
                "ingress": "IP66",
            },
            {
                "type": "cable gland",
                "marking": "Class I, Division 1, Groups B, C, D",
                "thread": "NPT 1/2",
                "hole": "NPT 1/2",
                "ingress": "IP66",
            },
        ],
        conduit_seals={"within": "0.2 m", "all_runs": True},
    ),
    "sealed conduits": _wired(
        "NEC division",
        arcing=True,
        entries=[
            {
                "type": "conduit seal",
                "within": "0.2 m",
                "marking": "Class I, Division 1, Group D",
                "thread": "NPT 1/2",
                "hole": "NPT 1/2",
                "ingress": "IP66",
            }
        ],
        conduit_seals={"within": "0.2 m", "all_runs": True},
    ),
    "simple apparatus": _wired(
        kind="simple apparatus",
        marking=None,
        evidence=[{"type": "control drawing", "number": "CD-1"}],
        generates="none",
        surface_temperature={
            "value": "60 °C",
            "at_ambient": "40 °C",
            "case": "expected malfunction",
        },
    ),
    "certified with a condition": _wired(
        marking="Ex db IIB T4 Gb X",
        evidence=[
            {
                "type": "certificate",
                "number": "IECEx QQQ 21.0001X",
                "conditions": [{"text": "avoid impact", "met_by": "a guard", "document": "DN-1"}],
            }
        ],
    ),
    "brake": _moving(
        description="Disc brake",
        brake={"use": "service", "energy": "2 kJ", "rated_energy": "5 kJ"},
    ),
    "clutch": _moving(description="Slip clutch", slip="monitored"),
    "hydraulic cylinder": _moving(
        description="Hydraulic cylinder",
        drive="hydraulic",
        air_supply=None,
        liquid={
            "kind": "mineral oil",
            "flash_point": "210 °C",
            "autoignition": "340 °C",
            "hottest": "70 °C",
        },
    ),
    "assessed only": _moving(marking=None),
    "assessed for zone 0": _moving(
        place=_ZONE_0,
        marking=None,
        evidence=[{"type": "assessment", "number": "IHA-2", "level": "Ga"}],
    ),
    "valve by hand": _moving(**_BY_HAND),
    "wheel of aluminium": _moving(
        **_BY_HAND, materials=[_of("AlMg3", "wheel", counterface="brass")]
    ),
    "spanner": _one(
        "IEC gas",
        2,
        kind="loose item",
        description="Spanner",
        electrical_content="none",
        drive="manual",
        sparks="single",
        drop_height="none",
        end_stops="none",
        protects=False,
        loose_parts="none",
        materials=[_of("304", "spanner")],
    ),
    "sample cup": _one(
        "IEC gas",
        2,
        kind="loose item",
        description="Sample cup",
        electrical_content="none",
        drive="none",
        sparks="none",
        drop_height="none",
        protects=False,
        loose_parts="none",
    ),
    "cover of nothing": _fixed(description="Cover", protects=False),
    "guard": _fixed(description="Guard", protects=True, release="tool"),
    "pin": _fixed(description="Ball-lock pin", loose_parts="captive"),
    "belt": _fixed(
        materials=[
            _of(
                "PUR",
                "belt",
                form="belt",
                surface_resistance="1 MΩ",
                surface_area="1 m²",
            )
        ],
        use="conveying",
        belt_speed="0.3 m/s",
    ),
    "hose": _fixed(
        materials=[
            _of(
                "PTFE conductive",
                "hose",
                form="hose",
                surface_resistance="1 MΩ",
                resistance="1 kΩ",
            )
        ],
        conveys="liquid",
    ),
    "belt by its own words": _fixed(
        materials=[
            _of(
                "PUR",
                "belt",
                form="belt",
                surface_resistance="1 MΩ",
                surface_area="1 m²",
                use="conveying",
                speed="0.3 m/s",
            )
        ]
    ),
    "hose by its own word": _fixed(
        materials=[_of("PTFE", "hose", form="hose", surface_area="10 cm²", conveys="air")]
    ),
    "hose for air": _fixed(
        materials=[_of("PTFE", "hose", form="hose", surface_area="10 cm²")], conveys="air"
    ),
    "small plastic": _fixed(materials=[_of("PTFE", "disc", surface_area="10 cm²")]),
    "powder coat": _fixed(
        materials=[
            _of(
                "polyester powder coat",
                "coat",
                substrate="316",
                surface_area="1 m²",
                layer_thickness="0.08 mm",
                breakdown_voltage="3 kV",
                backing="earthed metal",
            )
        ]
    ),
    "pieces that touch": _fixed(
        place={"atmosphere": "normal"},
        materials=[_of("316", "body"), _of("6061", "plate")],
        contacts=[{"with": "3", "component": "body", "with_component": "plate", "wet": False}],
    ),
    "wetted": _fixed(place=_WET, materials=[_of("316L", "body", "splash")], contacts="none"),
    "wetted by the part's word": _fixed(
        place=_WET,
        materials=[{"material": "316L", "component": "body", "counterface": "none", **_SOUND}],
        exposure="splash",
        contacts="none",
    ),
    "heavy liquid": _wired(
        place={"substances": [{"name": "aniline", "temperature": "20..40 °C"}]},
        materials="none",
        exposure="enclosed",
    ),
    "dust of one's own": _wired(
        "IEC dust",
        materials="none",
        exposure="enclosed",
        place={
            "substances": [
                {
                    "name": "our blend",
                    "group": "IIIB",
                    "conductive": False,
                    "cloud_ignition": "400 °C",
                    "layer_ignition": "400 °C",
                    "source": "TR-2",
                    "document": "TR-2",
                }
            ]
        },
    ),
    "gas of one's own": _wired(
        materials="none",
        exposure="enclosed",
        place={
            "substances": [
                {
                    "name": "our solvent",
                    "group": "IIA",
                    "autoignition": "300 °C",
                    "flash_point": "-10 °C",
                    "source": "SDS",
                    "document": "SDS",
                }
            ]
        },
    ),
}
