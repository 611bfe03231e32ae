"""Facts that may be left out unasked: where, and why nobody can be asked for them there.

DEVELOPERS.md says the same to people, row by row. `properties_lifted` holds a witness for each key,
and one of where it is asked all the same.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from properties_world import Tree, at  # made importable by conftest

from areafit.facts.quantity import Dimension, parse
from areafit.tables import Tables
from areafit.tables.limits import figure
from areafit.tables.materials import SurfaceClass
from areafit.tables.part_names import Piece, Topic, is_screw, pieces, tool_named, topics

_TABLES = Tables.shipped()
_LISTS = {
    "part.evidence",
    "part.materials",
    "part.contacts",
    "part.entries",
    "place.substances",
    "place.chemicals",
}
_SUBJECTS = {"locations": "place", "parts": "part", "loops": "loop", "library": "library"}


def fact(path: tuple[Any, ...]) -> str:
    """The name of a fact as the table of facts has it: `part.evidence.level`."""
    keys = [step for step in path if isinstance(step, str)]
    subject = _SUBJECTS.get(keys[0])
    if subject is None:
        return f"list.{'.'.join(keys)}"
    below = keys[2:] if subject == "place" else keys[1:]
    return ".".join((subject, *below))


# A fact where it stands, and what stands beside it


class Stated(NamedTuple):
    """A fact where it stands in a list."""

    tree: Tree
    path: tuple[Any, ...]

    @property
    def value(self) -> Any:
        """What is stated."""
        return at(self.tree, self.path)

    @property
    def line(self) -> Mapping[str, Any]:
        """The line, or the place, that states it."""
        found: Mapping[str, Any] = at(self.tree, self.path[:2])
        return found

    @property
    def beside(self) -> Mapping[str, Any]:
        """The material, document or substance that it is a fact of; else the line."""
        found: Mapping[str, Any] = at(self.tree, self.path[:-1])
        return found

    @property
    def places(self) -> list[Mapping[str, Any]]:
        """The places of the line, or the place itself."""
        if self.path[0] == "locations":
            return [self.line]
        names = self.line.get("location", [])
        names = [names] if isinstance(names, str) else names
        return [self.tree["locations"][name] for name in names]

    @property
    def area(self) -> str:
        """The areas of these places."""
        return "; ".join(str(place.get("area")) for place in self.places)

    @property
    def kinds(self) -> set[str]:
        """The kinds of the line."""
        kind = self.line["kind"]
        return {kind} if isinstance(kind, str) else set(kind)

    @property
    def text(self) -> str:
        """What the line is called."""
        return str(self.line.get("description", ""))

    @property
    def marking(self) -> str:
        """The nameplate; empty where there is none."""
        marking = self.line.get("marking", "none")
        return "" if marking == "none" else str(marking)

    @property
    def uses(self) -> list[Mapping[str, Any]]:
        """The materials of the line."""
        uses = self.line.get("materials", "none")
        return [] if uses == "none" else list(uses)

    @property
    def names(self) -> list[str]:
        """What the line and its pieces are called."""
        return [self.text, *(str(use.get("component", "")) for use in self.uses)]


Where = Callable[[Stated], bool]


def _any(*conditions: Where) -> Where:
    return lambda stated: any(each(stated) for each in conditions)


def _not(condition: Where) -> Where:
    return lambda stated: not condition(stated)


def _kind(*kinds: str) -> Where:
    return lambda stated: not stated.kinds.isdisjoint(kinds)


def _called(*what: Topic | Piece) -> Where:
    """Whether the line or a piece of it is called so."""

    def holds(stated: Stated) -> bool:
        told = {*topics(stated.text), *(piece for name in stated.names for piece in pieces(name))}
        return not told.isdisjoint(what)

    return holds


def _has(key: str, *values: Any) -> Where:
    """Whether the line states the key, as one of the values if some are given."""
    return lambda stated: key in stated.line and (not values or stated.line[key] in values)


def _beside(key: str) -> Where:
    return lambda stated: key in stated.beside


def _area(pattern: str) -> Where:
    return lambda stated: re.search(pattern, stated.area) is not None


def _prints(pattern: str) -> Where:
    return lambda stated: re.search(pattern, stated.marking) is not None


def _none_listed(*keys: str) -> Where:
    return lambda stated: all(place.get(key) == "none" for place in stated.places for key in keys)


def _plated(stated: Stated) -> bool:
    """Whether it is the class or hardness of a plated piece, no screw, far from any bath."""
    if is_screw(str(stated.beside.get("component") or stated.line.get("description"))):
        return False
    dry = all(place.get("chemicals") == "none" for place in stated.places)
    coated = str(stated.beside.get("material"))
    return dry and ("plated" in coated or "galvani" in coated)


def _anywhere(stated: Stated) -> bool:
    del stated
    return True


def _unclassified(stated: Stated) -> bool:
    return all(place.get("area") == "unclassified" for place in stated.places)


def _known_substance(stated: Stated) -> bool:
    name = str(stated.beside.get("name"))
    return _TABLES.substance(name) is not None or _TABLES.dust(name) is not None


def _heavy(stated: Stated) -> bool:
    """Whether the substance gives off no vapour that burns in standard air, at 60 °C and less."""
    known = _TABLES.substance(str(stated.beside.get("name")))
    figures = known.flash_point if known is not None else ()
    return bool(figures) and all(cited.value > 60 for cited in figures)


def _decomposes(stated: Stated) -> bool:
    """Whether a gas is listed that burns without air, of which the pressure decides."""
    listed = stated.line.get("substances", "none")
    names = [] if listed == "none" else [str(each) for each in listed]
    return not {"acetylene", "ethylene oxide"}.isdisjoint(names)


def _usual_air(stated: Stated) -> bool:
    """Whether the range that holds where none is printed answers at the place."""
    if not stated.marking and "electrical" not in stated.kinds:
        return True  # nobody certifies it for a range
    usual = all(place.get("ambient") in ("0..40 °C", "5..35 °C") for place in stated.places)
    return usual or "Ta" in stated.marking


def _holds_itself(stated: Stated) -> bool:
    """Whether the part is rated for the place without an enclosure around it."""
    own = f"{stated.line.get('ingress', '')} {stated.marking}"
    return "electrical" not in stated.kinds or re.search(r"\bIP[56]", own) is not None


def _houses(stated: Stated) -> bool:
    """Whether another line stands in this one, whose own documents do not say that it may."""
    inside = [one for one in stated.tree["parts"] if one.get("inside") == stated.line["item"]]
    papers = [paper for line in inside for paper in line.get("evidence", ())]
    return bool(inside) and not any("covers" in paper for paper in papers)


def _in_a_loop(stated: Stated) -> bool:
    return f"'item': '{stated.line['item']}'" in str(stated.tree.get("loops", ()))


def _carried(stated: Stated) -> bool:
    """Whether it is a portable instrument whose papers answer for its housing."""
    return stated.kinds == {"electrical", "loose item"} and bool(stated.marking)


def _pieces_of(line: Mapping[str, Any]) -> set[str]:
    uses = line.get("materials", "none")
    listed = [] if uses == "none" else uses
    return {str(use.get("component")) for use in listed if use.get("material") != "none"}


def _names_none(stated: Stated) -> bool:
    """Whether the piece that is said to touch is not listed."""
    if stated.path[-1] == "component":
        return stated.value not in _pieces_of(stated.line)
    other: Mapping[str, Any] = next(
        (each for each in stated.tree["parts"] if each["item"] == stated.beside.get("with")), {}
    )
    return stated.value not in _pieces_of(other)


def _names_unlisted(stated: Stated) -> bool:
    """Whether a chemical is named that the place does not list."""
    told = [stated.value] if isinstance(stated.value, str) else stated.value
    listed = [place.get("chemicals", "none") for place in stated.places]
    names = {
        str(c.get("name")) if isinstance(c, dict) else str(c)
        for chemicals in listed
        if chemicals != "none"
        for c in chemicals
    }
    return not set(told) <= names


def _conducts(stated: Stated) -> bool:
    """Whether every material of that name conducts, whatever is said of its surface."""
    grades = _TABLES.materials(str(stated.beside.get("material")))
    return bool(grades) and all(grade.surface is SurfaceClass.CONDUCTIVE for grade in grades)


def _thin_as_paint(stated: Stated) -> bool:
    """Whether it is a layer so thin that it needs no test."""
    thickness = stated.beside.get("layer_thickness")
    most = figure("layer on metal without a breakdown test").amount(Dimension.LENGTH)
    return thickness is not None and parse(str(thickness), Dimension.LENGTH) <= most


def _known_material(stated: Stated) -> bool:
    return bool(_TABLES.materials(str(stated.beside.get("material"))))


def _level_a(stated: Stated) -> bool:
    asked = " ".join(str(place.get("required_epl")) for place in stated.places)
    return re.search(r"Zone (0|20)\b", stated.area) is not None or "a" in asked


def _has_x(stated: Stated) -> bool:
    printed = f"{stated.beside.get('number', '')}; {stated.marking}"
    return re.search(r"(?<=[\d ])(?<!Type )X\b", printed) is not None


def _lists_seals(stated: Stated) -> bool:
    """Whether its openings are a list of nothing but sealed conduits and plugs."""
    entries = stated.line.get("entries")
    found = [one.get("type") for one in entries] if isinstance(entries, list) else []
    return "conduit seal" in found and set(found) <= {"conduit seal", "plug"}


def _straight(stated: Stated) -> bool:
    """Whether the values of a source are those of a straight output line."""
    voltage, current, power = (
        parse(stated.beside[key], dimension)
        for key, dimension in (
            ("Uo", Dimension.VOLTAGE),
            ("Io", Dimension.CURRENT),
            ("Po", Dimension.POWER),
        )
    )
    most = figure("power of a straight output line").amount(Dimension.FRACTION)
    return power * 100 <= voltage * current / 4 * most


def _fed_by_the_circuit(stated: Stated) -> bool:
    """Whether the device is intrinsically safe and nothing else, and holds no battery."""
    line = next(each for each in stated.tree["parts"] if each["item"] == stated.beside["item"])
    battery = "battery" in line or Topic.BATTERY in topics(str(line.get("description", "")))
    alone = re.search(r"Ex i[abc] II", str(line.get("marking"))) is not None
    return alone and not battery


def _motor(stated: Stated) -> bool:
    device = str(stated.line.get("device", ""))
    return "motor" in device or "motor" in stated.text.casefold()


def _unearthed(stated: Stated) -> bool:
    return stated.line.get("bonded") is False


def _cold(stated: Stated) -> bool:
    return stated.line.get("heat_producing") is False


def _needs_no_papers(stated: Stated) -> bool:
    free = stated.kinds <= {"structural", "loose item", "mechanical"} or "device" in stated.line
    return not stated.marking and (free or Topic.WIRING in topics(stated.text))


def _loose(stated: Stated) -> bool:
    return "loose item" in stated.kinds


def _tool(stated: Stated) -> bool:
    """Whether it is a tool of which its name does not say how it sparks."""
    loose = "loose item" in stated.kinds and "electrical" not in stated.kinds
    return loose and tool_named(stated.text) is None


def _form(form: str, *called: Piece) -> Where:
    def holds(stated: Stated) -> bool:
        names = [str(use.get("component") or stated.text) for use in stated.uses]
        return any(use.get("form") == form for use in stated.uses) or any(
            not pieces(name).isdisjoint(called) for name in names
        )

    return holds


def _wetted(stated: Stated) -> bool:
    dry = ("room", "enclosed", None)
    own = stated.line.get("exposure")
    return own not in dry or any(use.get("exposure", own) not in dry for use in stated.uses)


def _controlled(stated: Stated) -> bool:
    return all(place.get("atmosphere") == "controlled" for place in stated.places)


def _moves_unassessed(stated: Stated) -> bool:
    moves = not stated.kinds.isdisjoint(("mechanical", "loose item"))
    return moves and not stated.marking and not stated.line.get("evidence")


# The list


class Admitted(NamedTuple):
    """Facts that nobody can be asked for, for one reason; of each where that holds."""

    why: str
    where: dict[str, Where]


_FITTING = _has("device", "cable gland", "stopping plug", "thread adapter", "conduit seal")
_GUARD = _any(_called(Piece.GUARD), lambda stated: _loose(stated) and "sparks" not in stated.line)
_BELT = _form("belt", Piece.BELT, Piece.DRIVE_BELT)
_HOSE = _form("hose", Piece.HOSE)
_WIRING = _called(Topic.WIRING)
_HAND = _has("drive", "manual", "none")

LIST: tuple[Admitted, ...] = (
    Admitted(
        "a wish of the place beyond its area, or another edition than the rules follow",
        {
            "list.edition": _anywhere,
            "place.ingress": _anywhere,
            "place.required_epl": _not(_area("Division 1")),
            "place.pressure": _not(_decomposes),
            "place.oxygen": _anywhere,
        },
    ),
    Admitted(
        "the tables answer for the substance; it says only that this one is worse",
        {
            "place.substances.group": _known_substance,
            "place.substances.conductive": _any(_known_substance, _beside("group")),
            "place.substances.autoignition": _known_substance,
            "place.substances.temperature": _not(_any(_unclassified, _heavy)),
        },
    ),
    Admitted(
        "a document means no more than it prints; what needs none is asked for none",
        {
            "part.evidence": _any(_needs_no_papers, _unclassified),
            "part.evidence.valid_until": _anywhere,
            "part.evidence.ambient": _usual_air,
            "part.evidence.covers": _not(_any(_has("alternates"), _houses)),
            "part.evidence.standard": _anywhere,
            "part.evidence.level": _any(_not(_level_a), _prints(".")),
            "part.evidence.conditions": _not(_has_x),
        },
    ),
    Admitted(
        "the nameplate, or what the part is, answers it; it is said only to contradict",
        {
            "part.marking": _any(_not(_kind("electrical")), _unclassified, _WIRING, _has("inside")),
            "part.ambient": _any(_prints("."), _not(_kind("electrical")), _unclassified),
            "part.ingress": _any(_prints(r"\bIP ?\d|\bType \d"), _unclassified),
            "part.surface_temperature": _any(
                _prints(r"\bT ?\d"),
                _FITTING,
                _HAND,
                _unclassified,
                _WIRING,
                _cold,
                _not(_kind("mechanical", "electrical", "simple apparatus")),
            ),
            "part.arcing": _any(_prints("."), _FITTING),
            "part.heat_producing": _any(_prints("."), _FITTING),
            "part.entries": _any(_FITTING, _unclassified, _prints(r"^Ex i[abc] II")),
        },
    ),
    Admitted(
        "another fact of the line answers it",
        {
            "part.resistance_to_earth": _has("bonded"),
            "part.bonded": _any(_has("resistance_to_earth"), _carried),
            "part.inside_ambient": _has("inside"),
            "part.conduit_seals": _any(_has("entries", "none"), _lists_seals),
            "part.materials": _any(_not(_kind("structural", "loose item")), _unclassified),
            "loop.cable.capacitance": _beside("values"),
            "loop.cable.inductance": _beside("values"),
            "loop.source.linear": _straight,
            "loop.devices.active": _fed_by_the_circuit,
            "part.materials.use": _has("use"),
            "part.materials.speed": _has("belt_speed"),
            "part.materials.conveys": _has("conveys"),
            "part.materials.backing": _any(_beside("substrate"), _unearthed),
            "part.materials.surface_resistance": _conducts,
            "part.materials.breakdown_voltage": _thin_as_paint,
            "part.materials.composition": _known_material,
            "part.materials.counterface": _not(_moves_unassessed),
            "part.materials_complete.complete": _beside("document"),
        },
    ),
    Admitted(
        "nothing that the line is called or is of hints at it; every line would be asked",
        {
            "part.description": _anywhere,
            "part.device": _any(_prints("."), _not(_kind("electrical")), _unclassified, _WIRING),
            "part.electrical_content": _any(_not(_kind("mechanical")), _unclassified),
            "part.inverter_fed": _not(_motor),
            "part.intrinsic_safety": _any(_not(_prints(r"Ex i|AEx i")), _in_a_loop),
            "part.battery": _not(_any(_called(Topic.BATTERY), _kind("loose item"))),
            "part.wiring": _not(_WIRING),
            "part.optical_power": _not(_called(Topic.FOCUSED_LIGHT)),
            "part.optical_irradiance": _not(_called(Topic.FOCUSED_LIGHT)),
            "part.radio_power": _any(_not(_called(Topic.RADIO)), _prints(".")),
            "part.ultrasound_intensity": _not(_called(Topic.POWER_ULTRASOUND)),
            "part.drive": _any(_not(_kind("mechanical")), _has("air_supply")),
            "part.rubbing_speed": _not(_kind("mechanical")),
            "part.drop_height": _any(_not(_kind("mechanical", "loose item")), _carried),
            "part.end_stops": _not(_kind("mechanical")),
            "part.air_supply": _not(_has("drive", "pneumatic")),
            "part.brake": _not(_called(Topic.BRAKE)),
            "part.slip": _not(_called(Topic.CLUTCH)),
            # elsewhere hydraulics are of mineral oil unless somebody says otherwise
            "part.liquid": _any(
                _unclassified, _not(_any(_called(Topic.HYDRAULICS), _has("drive", "hydraulic")))
            ),
            "part.protects": _not(_GUARD),
            "part.release": _not(_GUARD),
            "part.loose_parts": _any(
                _not(_any(_called(Piece.LOOSE), _kind("loose item"))), _carried
            ),
            "part.use": _not(_BELT),
            "part.belt_speed": _not(_BELT),
            "part.conveys": _not(_HOSE),
            "part.sparks": _not(_tool),
            "part.materials.property_class": _plated,
            "part.materials.hardness": _plated,
            "part.materials.component": _anywhere,
            "part.materials.form": _anywhere,
        },
    ),
    Admitted(
        "without it all that is listed counts; it only says that something else is there",
        {
            "part.inside": _holds_itself,
            "part.alternates": _anywhere,
            "part.exposure": _none_listed("chemicals"),
            "part.materials.exposure": _none_listed("chemicals"),
            "part.materials.to": _names_unlisted,
            "part.materials.temperature": _anywhere,
            "part.contacts": _any(_not(_wetted), _none_listed("chemicals")),
            "part.contacts.wet": _controlled,
            "part.contacts.component": _names_none,
            "part.contacts.with_component": _names_none,
        },
    ),
)

_WHERE = {key: where for admitted_ in LIST for key, where in admitted_.where.items()}
KEYS = frozenset(_WHERE)


def admitted(tree: Tree, path: tuple[Any, ...]) -> bool:
    """Whether nobody can be asked for the fact there.

    What is a mapping of its own counts whole: `brake` and what is said of it.
    """
    if "mixture" in path[:-1]:
        return True  # a component that is left out is not there, and the rest fills up
    for end in range(2, len(path)):
        above = fact(path[:end])
        if above in _WHERE and above not in _LISTS:
            return _WHERE[above](Stated(tree, path[:end]))
    where = _WHERE.get(fact(path))
    return where is not None and where(Stated(tree, path))
