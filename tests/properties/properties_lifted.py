"""Facts that a list states only against itself: left out, they take their own objection away.

Each key of `properties_admitted` stands with a witness: a world that passes, where in it the fact
is stated, and what closes the gate. Beside them those that are asked all the same elsewhere, each
with a world (`properties_called`) that does not pass without it.
"""

import copy
import json
from typing import Any, NamedTuple

from properties_called import CALLED
from properties_world import Tree, replaced  # made importable by conftest
from properties_worlds import WORLDS


class Witness(NamedTuple):
    """A fact that closes the gate of a world and, left out again, opens it."""

    key: str
    world: str
    path: tuple[Any, ...]
    value: Any
    beside: tuple[tuple[tuple[Any, ...], Any], ...] = ()

    @property
    def passing(self) -> Tree:
        """The world with what has to stand beside the fact."""
        tree: Tree = json.loads(json.dumps({**WORLDS, **CALLED}[self.world]))
        for path, value in self.beside:
            tree = replaced(tree, path, value)
        return copy.deepcopy(tree)


_SPOT = ("locations", "spot")
_WIRED, _MOVING, _FIXED = (("parts", number) for number in range(3))
_LINE = ("parts", 0)
_USE, _PAPER = (*_LINE, "materials", 0), (*_LINE, "evidence", 0)
_SUBSTANCE = (*_SPOT, "substances", 0)
_CABLE = ("loops", 0, "cable")
_GAS, _DUST = "IEC gas", "IEC dust"
_CONDITION = {"text": "keep away from impact", "met_by": "a guard"}


def _of(part: tuple[Any, ...], key: str, value: Any, world: str = _GAS) -> Witness:
    """A fact of a line."""
    return Witness(f"part.{key}", world, (*part, key), value)


def _of_material(part: tuple[Any, ...], key: str, value: Any, world: str = _GAS) -> Witness:
    return Witness(f"part.materials.{key}", world, (*part, "materials", 0, key), value)


def _of_document(part: tuple[Any, ...], key: str, value: Any, world: str = _GAS) -> Witness:
    return Witness(f"part.evidence.{key}", world, (*part, "evidence", 0, key), value)


def _of_place(key: str, value: Any, world: str = _GAS) -> Witness:
    return Witness(f"place.{key}", world, (*_SPOT, key), value)


def _of_substance(key: str, value: Any, world: str) -> Witness:
    return Witness(f"place.substances.{key}", world, (*_SPOT, "substances", 0, key), value)


_GLAND = (
    ((*_WIRED, "device"), "cable gland"),
    ((*_WIRED, "marking"), "Ex db IIB Gb"),
)
_UNCLASSIFIED = (((*_SPOT, "area"), "unclassified"), ((*_SPOT, "substances"), "none"))
_HEXANE = (((*_SPOT, "substances"), [{"name": "n-hexane", "source": "SDS"}]),)

_LOADED_ZINC = (
    ((*_FIXED, "materials", 0, "material"), "zinc plated steel"),
    ((*_FIXED, "materials", 0, "stressed"), True),
)
_BARE = {"component": "body", "material": "carbon steel", "counterface": "none"}
_NOTHING_LISTED = (
    ((*_SPOT, "area"), "unclassified"),
    ((*_SPOT, "substances"), "none"),
    ((*_FIXED, "materials", 0), _BARE),
)

WITNESSES: tuple[Witness, ...] = (
    Witness("list.edition", _GAS, ("edition",), "2002"),
    _of_place("ingress", "IP68"),
    _of_place("required_epl", "Ga"),
    _of_place("pressure", "300 kPa"),
    _of_place("oxygen", "25 %"),
    _of_substance("group", "IIIC", _DUST),
    _of_substance("conductive", value=True, world=_DUST),
    Witness(
        "place.substances.autoignition",
        _GAS,
        (*_SPOT, "substances", 0, "autoignition"),
        "50 °C",
        _HEXANE,
    ),
    Witness(
        "place.substances.temperature",
        _GAS,
        (*_SPOT, "substances", 0, "temperature"),
        "90 °C",
        _HEXANE,
    ),
    Witness("loop.devices.active", "circuit", ("loops", 0, "devices", 0, "active"), value=True),
    Witness(
        "loop.source.linear",
        "circuit",
        ("loops", 0, "source", "linear"),
        value=False,
        beside=((("loops", 0, "devices", 0, "Li"), "2 mH"),),
    ),
    Witness("loop.cable.capacitance", "circuit", (*_CABLE, "capacitance"), "1 µF/m"),
    Witness("loop.cable.inductance", "circuit", (*_CABLE, "inductance"), "1 H/m"),
    _of_document(_WIRED, "valid_until", "2020-01-01"),
    _of_document(_WIRED, "ambient", "0..20 °C"),
    Witness(
        "part.evidence.covers",
        _GAS,
        (*_WIRED, "evidence", 0, "covers"),
        "PN-2",
        (((*_WIRED, "part_number"), "PN-1"),),
    ),
    _of_document(_WIRED, "standard", "IEC 61010-1"),
    _of_document(_WIRED, "conditions", [_CONDITION]),
    _of_document(_MOVING, "level", "Gc", "NEC division"),
    _of(_FIXED, "evidence", [{"type": "certificate"}]),
    _of(_WIRED, "ambient", "0..30 °C"),
    _of(_WIRED, "ingress", "IP20", _DUST),
    _of(_WIRED, "surface_temperature", "400 °C"),
    _of(_WIRED, "resistance_to_earth", "1e9 ohm"),
    Witness(
        "part.bonded",
        _GAS,
        (*_WIRED, "bonded"),
        value=False,
        beside=(((*_WIRED, "resistance_to_earth"), "10 ohm"),),
    ),
    _of(_WIRED, "description", "Laser scanner"),
    _of(_WIRED, "device", "squirrel-cage motor"),
    _of(_WIRED, "inverter_fed", value=True),
    _of(_WIRED, "intrinsic_safety", "own cell"),
    Witness("part.arcing", _GAS, (*_WIRED, "arcing"), value=True, beside=_GLAND),
    Witness("part.heat_producing", _GAS, (*_WIRED, "heat_producing"), value=True, beside=_GLAND),
    _of(_WIRED, "optical_power", "1 W"),
    _of(_WIRED, "optical_irradiance", "0.4 W/mm²"),
    _of(_WIRED, "radio_power", "10 W"),
    _of(_WIRED, "ultrasound_intensity", "1 W/cm²"),
    _of(_WIRED, "battery", {"charged": "inside the area"}),
    _of(_WIRED, "alternates", [{"part_number": "X-1"}]),
    Witness(
        "part.contacts.wet",
        _GAS,
        (*_FIXED, "contacts", 0, "wet"),
        value=True,
        beside=(
            ((*_FIXED, "materials", 0, "material"), "6061"),
            ((*_FIXED, "contacts"), [{"with": "1"}]),
        ),
    ),
    _of(
        _WIRED,
        "materials",
        [{"component": "label", "material": "PET", "surface_area": "1 m²"}],
        _DUST,
    ),
    _of(_WIRED, "wiring", {"method": "PVC conduit"}),
    _of(_WIRED, "inside", "3"),
    Witness(
        "part.inside_ambient",
        _DUST,
        (*_MOVING, "inside_ambient"),
        "0..90 °C",
        (
            ((*_MOVING, "inside"), "1"),
            ((*_MOVING, "part_number"), "MOD-1"),
            ((*_WIRED, "part_number"), "BOX-1"),
            ((*_WIRED, "inside_ambient"), "0..40 °C"),
            ((*_WIRED, "evidence", 0, "covers"), "BOX-1 with MOD-1"),
        ),
    ),
    Witness("part.conduit_seals", "NEC division", (*_WIRED, "conduit_seals"), {"all_runs": False}),
    Witness(
        "part.entries",
        _GAS,
        (*_WIRED, "entries"),
        [{"type": "open hole"}],
        _UNCLASSIFIED,
    ),
    _of(_FIXED, "marking", "Ex h IIB T4 Gb"),
    _of(_FIXED, "electrical_content", "coil"),
    _of(_FIXED, "drive", "electric"),
    _of(_FIXED, "rubbing_speed", "20 m/s"),
    _of(_FIXED, "drop_height", "3 m"),
    _of(_FIXED, "end_stops", "hard"),
    _of(_FIXED, "air_supply", {"source": "inside the area"}),
    _of(_FIXED, "brake", {"use": "service", "energy": "1 kJ"}),
    _of(_FIXED, "slip", "possible"),
    _of(_FIXED, "liquid", {"flash_point": "60 °C"}),
    _of(_FIXED, "protects", value=True),
    _of(_FIXED, "release", "hand"),
    _of(_FIXED, "loose_parts", "free"),
    _of(_FIXED, "use", "transmission"),
    _of(_FIXED, "belt_speed", "40 m/s"),
    _of(_FIXED, "conveys", "liquid"),
    _of(_FIXED, "sparks", "shower"),
    _of(_FIXED, "contacts", [{"with": "1", "component": "seal"}]),
    Witness(
        "part.contacts.component",
        _GAS,
        (*_FIXED, "contacts", 0, "component"),
        "seal",
        (((*_FIXED, "contacts"), [{"with": "1"}]),),
    ),
    Witness(
        "part.contacts.with_component",
        _GAS,
        (*_FIXED, "contacts", 0, "with_component"),
        "seal",
        (((*_FIXED, "contacts"), [{"with": "1"}]),),
    ),
    _of_material(_FIXED, "component", "spring"),
    _of_material(_FIXED, "form", "belt"),
    Witness("part.materials.use", "belt", (*_USE, "use"), "transmission"),
    Witness("part.materials.speed", "belt", (*_USE, "speed"), "40 m/s"),
    Witness("part.materials.conveys", "hose for air", (*_USE, "conveys"), "liquid"),
    _of_material(_FIXED, "to", ["nobody lists this"]),
    _of_material(_FIXED, "temperature", "900 °C"),
    Witness(
        "part.materials.property_class",
        _GAS,
        (*_FIXED, "materials", 0, "property_class"),
        "12.9",
        _LOADED_ZINC,
    ),
    Witness(
        "part.materials.hardness",
        _GAS,
        (*_FIXED, "materials", 0, "hardness"),
        "60 HRC",
        _LOADED_ZINC,
    ),
    _of_material(_FIXED, "surface_resistance", "1e15 ohm"),
    _of_material(_FIXED, "composition", {"Mg": "95 %"}),
    Witness("part.exposure", _GAS, (*_FIXED, "exposure"), "washdown", _NOTHING_LISTED),
    Witness(
        "part.materials.exposure",
        _GAS,
        (*_FIXED, "materials", 0, "exposure"),
        "washdown",
        _NOTHING_LISTED,
    ),
    Witness(
        "part.materials.backing",
        _GAS,
        (*_FIXED, "materials", 0, "backing"),
        "wood",
        (
            (
                (*_FIXED, "materials", 0),
                {
                    "component": "coat",
                    "material": "polyester powder coat",
                    "substrate": "316",
                    "exposure": "room",
                    "surface_area": "1 m²",
                    "layer_thickness": "0.08 mm",
                    "breakdown_voltage": "3 kV",
                },
            ),
        ),
    ),
    Witness(
        "part.materials.breakdown_voltage", "layer on metal", (*_USE, "breakdown_voltage"), "9 kV"
    ),
    Witness(
        "part.materials.counterface",
        _GAS,
        (*_FIXED, "materials", 0, "counterface"),
        "carbon steel",
        (((*_FIXED, "materials", 0, "material"), "AlMg3"),),
    ),
    Witness(
        "part.materials_complete.complete",
        _GAS,
        (*_FIXED, "materials_complete", "complete"),
        value=False,
        beside=(
            ((*_FIXED, "materials_complete"), {"document": "DS-1"}),
            ((*_FIXED, "materials", 0, "exposure"), "fume"),
        ),
    ),
)


class Asked(NamedTuple):
    """A fact without which a world does not pass, though it may be left out elsewhere."""

    world: str
    path: tuple[Any, ...]

    @property
    def passing(self) -> Tree:
        """The world, which states the fact."""
        return copy.deepcopy({**WORLDS, **CALLED}[self.world])


ASKED: tuple[Asked, ...] = (
    Asked("gas that decomposes", (*_SPOT, "pressure")),
    Asked("second make", (*_PAPER, "covers")),
    Asked("certified for a hot place", (*_PAPER, "ambient")),
    Asked("earthed by measurement", (*_LINE, "resistance_to_earth")),
    Asked("module in a box", (*_LINE, "inside_ambient")),
    Asked("module in a box", ("parts", 1, "inside")),
    Asked("box of a milder group", (*_LINE, "conduit_seals")),
    Asked("circuit of known cable", (*_CABLE, "capacitance")),
    Asked("circuit of known cable", (*_CABLE, "inductance")),
    Asked("circuit of a bent source", ("loops", 0, "source", "linear")),
    Asked("circuit of a sensor with a cell", ("loops", 0, "devices", 0, "active")),
    Asked("layer on metal", (*_USE, "backing")),
    Asked("thick layer on metal", (*_USE, "breakdown_voltage")),
    Asked("belt", (*_USE, "surface_resistance")),
    Asked("one of two pieces", (*_LINE, "contacts", 0, "component")),
    Asked("one of two pieces", (*_LINE, "contacts", 0, "with_component")),
    Asked("said to be complete", (*_LINE, "materials_complete", "complete")),
    Asked("NEC division", (*_SPOT, "required_epl")),
    Asked("dust of one's own", (*_SUBSTANCE, "group")),
    Asked("gas of one's own", (*_SUBSTANCE, "group")),
    Asked("gas of one's own", (*_SUBSTANCE, "autoignition")),
    Asked("heavy liquid", (*_SUBSTANCE, "temperature")),
    Asked("motor", (*_LINE, "evidence")),
    Asked("assessed for zone 0", (*_PAPER, "level")),
    Asked("certified with a condition", (*_PAPER, "conditions")),
    Asked("motor", (*_LINE, "marking")),
    Asked("unmarked motor", (*_LINE, "ambient")),
    Asked("IEC gas", (*_LINE, "ingress")),
    Asked("assessed only", (*_LINE, "surface_temperature")),
    Asked("unmarked motor", (*_LINE, "arcing")),
    Asked("unmarked relay", (*_LINE, "heat_producing")),
    Asked("motor", (*_LINE, "entries")),
    Asked("guard", (*_LINE, "bonded")),
    Asked("guard", (*_LINE, "materials")),
    Asked("wheel of aluminium", (*_USE, "counterface")),
    Asked("unmarked motor", (*_LINE, "device")),
    Asked("clutch", (*_LINE, "electrical_content")),
    Asked("motor", (*_LINE, "inverter_fed")),
    Asked("sensor with a cell", (*_LINE, "intrinsic_safety")),
    Asked("torch", (*_LINE, "battery")),
    Asked("cable", (*_LINE, "wiring")),
    Asked("laser scanner", (*_LINE, "optical_power")),
    Asked("laser by its irradiance", (*_LINE, "optical_irradiance")),
    Asked("reader", (*_LINE, "radio_power")),
    Asked("ultrasonic bath", (*_LINE, "ultrasound_intensity")),
    Asked("valve by hand", (*_LINE, "drive")),
    Asked("valve by hand", (*_LINE, "rubbing_speed")),
    Asked("valve by hand", (*_LINE, "drop_height")),
    Asked("valve by hand", (*_LINE, "end_stops")),
    Asked("clutch", (*_LINE, "air_supply")),
    Asked("brake", (*_LINE, "brake")),
    Asked("clutch", (*_LINE, "slip")),
    Asked("hydraulic cylinder", (*_LINE, "liquid")),
    Asked("guard", (*_LINE, "release")),
    Asked("cover of nothing", (*_LINE, "protects")),
    Asked("pin", (*_LINE, "loose_parts")),
    Asked("belt", (*_LINE, "use")),
    Asked("belt", (*_LINE, "belt_speed")),
    Asked("hose for air", (*_LINE, "conveys")),
    Asked("belt by its own words", (*_USE, "use")),
    Asked("belt by its own words", (*_USE, "speed")),
    Asked("hose by its own word", (*_USE, "conveys")),
    Asked("sample cup", (*_LINE, "sparks")),
    Asked("screw in hydrogen", (*_USE, "property_class")),
    Asked("screw of stated hardness", (*_USE, "hardness")),
    Asked("wetted", (*_USE, "exposure")),
    Asked("wetted by the part's word", (*_LINE, "exposure")),
    Asked("wetted", (*_LINE, "contacts")),
    Asked("pieces that touch", (*_LINE, "contacts", 0, "wet")),
)
"""Where facts of the list are asked for: leaving them out there opens nothing."""
