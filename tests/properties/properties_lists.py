"""Lists of random lines that may state anything: every key of a line has values here."""

import random
from collections.abc import Callable, Sequence
from enum import Enum
from typing import Any

from properties_world import Tree  # made importable by conftest

from areafit.facts.evidence import EvidenceType
from areafit.facts.fittings import (
    BatteryCare,
    Compartment,
    ContactProtection,
    Contents,
    CordServes,
    CordUsage,
    Device,
    Enclosure,
    EntryType,
    IntrinsicSafety,
    OnLoss,
    Starting,
    WiringMethod,
)
from areafit.facts.mechanics import (
    BeltUse,
    BrakeUse,
    Conveyed,
    Drive,
    EndStops,
    Finish,
    Fluid,
    Form,
    LooseParts,
    LossOfAir,
    Release,
    Side,
    Slip,
    Sparks,
)
from areafit.facts.part import Exposure, Kind, SurfaceCase
from areafit.facts.place import Availability, Presence

MARKINGS = (
    "Ex db IIB T4 Gb",
    "Ex ia IIC T6 Ga",
    "II 2G Ex eb IIC T3 Gb",
    "II 2D Ex tb IIIC T95 °C Db IP66",
    "Ex h IIB T4 Gb",
    "II 2G Ex h IIC T4 Gb X",
    "Ex eb IIC Gb U",
    "Ex pxb IIC T4 Gb",
    "Class I, Division 1, Groups C, D T4",
    "Class I, Division 2, Groups A, B, C, D T3C",
    "Class I, Zone 1, AEx db IIB T4 Gb",
    "Class II, Division 1, Groups E, F, G T4",
    "Type Y pressurization, contents general purpose",
    "[Ex ia Ga] IIC",
)
_RANGES = ("-20..40 °C", "-20.0..40.00 °C", "-20..60 °C", "0..50 °C")
_LENGTHS = ("5 mm", "5.0 mm", "200 mm", "0.2 m", "1 m")
_MATERIALS = ("316L", "304", "PTFE", "FKM", "AlMg3", "AZ91D", "PA6", "brass", "titanium", "mystery")
_SAFE_TO_TELL = (True, False)


def lists(seed: int, lines: int) -> Tree:
    """A list with so many lines; the same arguments give the same one."""
    return Lines(random.Random(seed)).tree(lines)  # noqa: S311 - repeatable, nothing secret


def looped(tree: Tree, chance: random.Random) -> Tree:
    """The list with one or two loops of its lines."""
    lines = Lines(chance)
    items = [line["item"] for line in tree["parts"]]
    loops = [
        {"name": f"LP-{number}", **lines.loop(items)} for number in range(1, chance.randint(2, 3))
    ]
    return {**tree, "loops": loops}


def _words(kind: type[Enum]) -> list[Any]:
    return [member.value for member in kind]


class Lines:
    """Draws the lines of one list."""

    def __init__(self, chance: random.Random) -> None:
        self._chance = chance
        pick = chance.choice
        some = self._some
        self.line: dict[str, Callable[[], Any]] = {
            "part_number": lambda: f"PN-{chance.randint(1, 5)}",
            "description": lambda: pick(
                (
                    "Ball-lock pin",
                    "Pump, DN25",
                    "Cable gland",
                    "Hose",
                    "Laser scanner",
                    "RFID reader",
                )
            ),
            "quantity": lambda: chance.randint(1, 9),
            "unit_cost": lambda: pick(("2", "84.50")),
            "marking": lambda: pick((*MARKINGS, *["none"] * 7, list(chance.sample(MARKINGS, 2)))),
            "ambient": lambda: pick(_RANGES),
            "surface_temperature": lambda: some(
                value=("60 °C", "180 °C", "420 °C"),
                at_ambient=("40 °C", "20 °C"),
                case=_words(SurfaceCase),
                source=("TR-1",),
                needed=("value",),
            ),
            "ingress": lambda: pick(("IP54", "IP66", "IP20", "Type 4X")),
            "evidence": lambda: [self.document() for _ in range(chance.randint(1, 2))],
            "electrical_content": lambda: pick(("none", "coil", ["coil", "switch"])),
            "arcing": self._yes_no,
            "generates": lambda: pick(
                ("none", some(voltage=("1 V", "9 V"), current=("50 mA",), power=("10 mW",)))
            ),
            "placed_on_market": lambda: pick(("1999-01-01", "2010-05-05", "2025-01-01")),
            "in_service": self._yes_no,
            "device": lambda: pick(_words(Device)),
            "contact_protection": lambda: pick(_words(ContactProtection)),
            "enclosure": lambda: pick(_words(Enclosure)),
            "heat_producing": self._yes_no,
            "inverter_fed": self._yes_no,
            "space_heater": self._yes_no,
            "overloadable": self._yes_no,
            "pressurization": lambda: some(contents=_words(Contents), on_loss=_words(OnLoss)),
            "conduit_seals": lambda: some(within=_LENGTHS, all_runs=_SAFE_TO_TELL),
            "inside_ambient": lambda: pick(_RANGES),
            "intrinsic_safety": lambda: pick(_words(IntrinsicSafety)),
            "entries": lambda: pick(("none", [self._entry()], [self._entry(), self._entry()])),
            "optical_power": lambda: pick(("5 mW", "90 mW", "1 W")),
            "optical_irradiance": lambda: pick(("1 mW/mm²", "0.4 W/mm²")),
            "radio_power": lambda: pick(("100 mW", "3 W", "10 W")),
            "ultrasound_intensity": lambda: pick(("0.05 W/cm²", "1 W/cm²")),
            "te_time": lambda: pick(("3 s", "9 s", "20 s")),
            "overload_trip": lambda: pick(("4 s", "15 s")),
            "starting": lambda: pick(_words(Starting)),
            "wiring": lambda: some(
                method=_words(WiringMethod),
                moves=_SAFE_TO_TELL,
                usage=_words(CordUsage),
                serves=_words(CordServes),
                grounding_conductor=_SAFE_TO_TELL,
            ),
            "interlocked": self._yes_no,
            "battery": lambda: pick(
                ("none", some(charged=_words(BatteryCare), replaced=_words(BatteryCare)))
            ),
            "brake": lambda: some(
                use=_words(BrakeUse),
                energy=("1 kJ", "20 kJ"),
                rated_energy=("5 kJ",),
                interlocked=_SAFE_TO_TELL,
            ),
            "slip": lambda: pick(_words(Slip)),
            "liquid": lambda: some(
                kind=_words(Fluid),
                flash_point=("210 °C", "60 °C"),
                autoignition=("340 °C",),
                hottest=("70 °C", "180 °C"),
            ),
            "rubbing_speed": lambda: pick(("0.2 m/s", "4 m/s")),
            "bonded": self._yes_no,
            "resistance_to_earth": lambda: pick(("10 Ω", "10.0 Ω", "5 GΩ")),
            "capacitance": lambda: pick(("2 pF", "900 pF")),
            "drive": lambda: pick(_words(Drive)),
            "air_supply": lambda: some(
                source=_words(Side), exhaust=_words(Side), on_loss=_words(LossOfAir)
            ),
            "drop_height": lambda: pick(("none", *_LENGTHS)),
            "end_stops": lambda: pick(_words(EndStops)),
            "protects": self._yes_no,
            "release": lambda: pick(_words(Release)),
            "loose_parts": lambda: pick(_words(LooseParts)),
            "use": lambda: pick(_words(BeltUse)),
            "belt_speed": lambda: pick(("0.3 m/s", "12 m/s")),
            "conveys": lambda: pick(_words(Conveyed)),
            "sparks": lambda: pick(_words(Sparks)),
            "materials": lambda: pick(("none", [self.use()], [self.use(), self.use()])),
            "materials_complete": lambda: pick(
                (True, False, {"document": "DS-1"}, {"complete": False, "document": "DS-1"})
            ),
            "exposure": lambda: pick(_words(Exposure)),
            "contacts": lambda: pick(
                ("none", [{"with": "1", **some(wet=_SAFE_TO_TELL, component=("seal",))}])
            ),
        }

    def tree(self, lines: int) -> Tree:
        chance = self._chance
        return {
            "areafit": 1,
            "assembly": {"number": "L-1"},
            "code": chance.choice(("NEC", "IEC", "ATEX")),
            "locations": {"a": self.place(), "b": self.place()},
            "parts": [self._part(number) for number in range(1, lines + 1)],
        }

    def _part(self, number: int) -> dict[str, Any]:
        chance = self._chance
        stated = chance.random()  # lines that say little, and lines that say nearly everything
        kinds = _words(Kind)
        part: dict[str, Any] = {
            "item": str(number),
            "location": chance.choice(("a", "b", ["a", "b"])),
            "kind": chance.choice((*kinds, ["electrical", "mechanical"])),
            **{key: make() for key, make in self.line.items() if chance.random() < stated},
        }
        if chance.random() < 0.2:
            part["process_side"] = chance.choice(("a", "b"))
        if number > 1 and chance.random() < 0.2:
            part["inside"] = str(chance.randint(1, number - 1))
        if chance.random() < 0.2:
            part["alternates"] = [{key: self.line[key]() for key in chance.sample([*self.line], 4)}]
        return part

    def place(self) -> dict[str, Any]:
        pick = self._chance.choice
        areas = ("Zone 1, IIB, T4", "Zone 0, IIA, T3", "Zone 21, IIIB", "unclassified")
        divisions = (
            "Class I, Division 1, Group D",
            "Class I, Division 2, Group D",
            "Class II, Division 2, Group G",
        )
        chemicals = ("nitric acid", "sodium hydroxide", "hydrochloric acid")
        return self._some(
            area=(*areas, *divisions),
            substances=(
                "none",
                ["n-hexane"],
                ["sugar"],
                ["ethanol", "hydrogen"],
                [self._mixture()],
            ),
            layer=("none", "5 mm"),
            ambient=_RANGES,
            document=("AC-1",),
            ingress=("IP54", "IP66"),
            required_epl=("Gb", ["Ga", "Da"]),
            atmosphere=("severe", "normal"),
            chemicals=(
                "none",
                [{"name": pick(chemicals), "concentration": "5 %", "temperature": "20 °C"}],
                [pick(chemicals)],
            ),
            ventilation=(self._ventilation(), self._ventilation()),
        )

    def _mixture(self) -> dict[str, Any]:
        pick = self._chance.choice
        shares = {
            pick(("ethanol", "acetone", "toluene")): pick(("2 %", "1..30 %")),
            "water": "rest",
        }
        return self._some(
            mixture=(shares,), temperature=("20 °C", "20..60 °C"), needed=("mixture",)
        )

    def _ventilation(self) -> dict[str, Any]:
        return self._some(
            rate=("600 m³/h", "1 m³/h"),
            document=("VE-1",),
            availability=_words(Availability),
            dead_spaces=_words(Presence),
            other_hydrogen=_words(Presence),
        )

    def loop(self, items: Sequence[str]) -> dict[str, Any]:
        chance = self._chance
        source, *devices = chance.sample(items, min(len(items), chance.randint(2, 3)))
        out = self._some(
            Uo=("28 V", "9.6 V"),
            Io=("93 mA", "510 mA"),
            Po=("0.65 W", "1.2 W"),
            Co=("83 nF", "0.65 µF"),
            Lo=("2.9 mH", "15 mH"),
            Um=("250 V", "60 V"),
            supply=("230 V", "24 V"),
            linear=_SAFE_TO_TELL,
            together=_SAFE_TO_TELL,
        )
        into: dict[str, Sequence[Any]] = {
            "Ui": ("30 V", "15 V"),
            "Ii": ("100 mA", "0.5 A"),
            "Pi": ("1 W", "0.6 W"),
            "Ci": ("5 nF", "1 µF"),
            "Li": ("20 µH", "1 mH"),
            "active": _SAFE_TO_TELL,
        }
        cable = (
            {"values": "default"},
            {"length": "60 m", "capacitance": "197 pF/m", "inductance": "0.66 µH/m"},
            {"length": "800 m", "values": "default"},
        )
        return {
            "source": {"item": source, **out},
            "devices": [{"item": item, **self._some(**into)} for item in devices],
            **({"group": chance.choice(("IIB", "IIC", "IIA"))} if chance.random() < 0.7 else {}),
            **({"cable": chance.choice(cable)} if chance.random() < 0.7 else {}),
        }

    def document(self) -> dict[str, Any]:
        numbers = ("QQQ 21 ATEX 0001", "QQQ 21 ATEX 0001 X", "IECEx QQQ 21.0001U", "E-1")
        condition = {"text": "Avoid impact and static charge", "met_by": "a guard"}
        return self._some(
            type=_words(EvidenceType),
            number=numbers,
            covers=("PN-1",),
            ambient=_RANGES,
            valid_until=("2020-01-01", "2031-06-30"),
            conditions=("none", [condition], [{**condition, "document": "MAN-1"}]),
            level=("Gb", "Ga", "Dc"),
            standard=("IEC 60079-0:2017",),
            process_temperature=_RANGES,
            needed=("type",),
        )

    def _entry(self) -> dict[str, Any]:
        return self._some(
            type=_words(EntryType),
            marking=MARKINGS[:2],
            thread=("M20x1.5", "NPT 1/2"),
            hole=("M20x1.5",),
            ingress=("IP66", "IP54"),
            within=_LENGTHS,
            into=_words(Compartment),
            trade_size=("3/4", "2"),
            conditions=("none", [{"text": "fix the cable", "met_by": "a clamp"}]),
            needed=("type",),
        )

    def use(self) -> dict[str, Any]:
        if self._chance.random() < 0.1:
            return {"material": "none", "component": self._chance.choice(("seal", "spring"))}
        told = dict.fromkeys(("welded", "crevice", "stressed", "breathes"), _SAFE_TO_TELL)
        return self._some(
            material=_MATERIALS,
            component=("seal", "spring", "fan", "screw", "belt", "housing", "bearing"),
            exposure=_words(Exposure),
            to=("nitric acid", "cleaner nobody lists"),
            surface_area=("10 cm²", "10.0 cm²", "900 cm²"),
            surface_resistance=("1 MΩ", "900 GΩ"),
            width=("10 mm",),
            layer_thickness=("1 mm", "3 mm"),
            backing=("earthed metal", "wood"),
            substrate=("carbon steel", "316L"),
            composition=({"Al": "4 %", "Mg": "95 %"}, {"Fe": "99 %"}),
            property_class=("8.8", "12.9"),
            hardness=("22 HRC", "40 HRC"),
            temperature=("20..80 °C",),
            framed=_SAFE_TO_TELL,
            charge=("5 nC", "90 nC"),
            breakdown_voltage=("2 kV", "9 kV"),
            counterface=("none", "rusty steel", "brass"),
            form=_words(Form),
            finish=_words(Finish),
            resistance=("100 Ω", "9 GΩ"),
            speed=("0.3 m/s", "6 m/s"),
            use=_words(BeltUse),
            conveys=_words(Conveyed),
            needed=("material",),
            **told,
        )

    def _yes_no(self) -> bool:
        return self._chance.random() < 0.5

    def _some(self, *, needed: Sequence[str] = (), **pools: Sequence[Any]) -> dict[str, Any]:
        """A mapping of some of the keys, never empty; those needed are always among them."""
        chance = self._chance
        keys = [key for key in pools if key in needed or chance.random() < 0.5]
        return {key: chance.choice(pools[key]) for key in keys or [chance.choice([*pools])]}
