"""Remedies carried out: what a finding says closes it, written into the list that it is of.

A remedy writes in backticks what the list would then state: a key, a key with its value, or another
rule that has to be settled first. A key without a value gets one that a reader could find: a good
one first, then any.
"""

import copy
import json
import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from properties_lists import Lines  # made importable by conftest
from properties_world import Tree
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from areafit.answers.asks import Asked, asked_at, asks_of
from areafit.answers.causes import causes
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Part
from areafit.file.facts import facts
from areafit.findings.report import BomReport, Finding
from areafit.registry import RULES

TESTS = Path(__file__).parents[1]
_SAID = re.compile(r"`([^`]+)`")
_DOCUMENT_TYPES = frozenset(kind.value for kind in EvidenceType)
_RULES = frozenset(rule.id for rule in RULES)
_YAML = YAML(typ="safe", pure=True)
_YAML.version = (1, 2)


def read_tree(path: Path) -> Tree:
    """A file as mappings, lists and texts."""
    tree: Tree = json.loads(json.dumps(_YAML.load(path.read_text("utf-8")), default=str))
    return tree


# Lists as they are judged: notes, library and shared places written into the lines


def flat(path: Path) -> Tree:
    """A list with all that its library, notes and shared places say of its lines on the lines."""
    tree = read_tree(path)
    if "areas" in tree:
        shared = read_tree(path.parent / tree.pop("areas"))
        tree |= {key: shared[key] for key in ("code", "locations") if key not in tree}
    library = read_tree(path.parent / tree.pop("library"))["parts"] if "library" in tree else {}
    notes = tree.pop("unless_stated", [])
    for line in tree["parts"]:
        entry = dict(library.get(line.get("part_number"), {}))
        by = entry.pop("confirmed", {}).get("document")
        entry.pop("also", None)
        told = {key: _with_document(key, value, by) for key, value in entry.items()}
        borrowed = "materials" in told and "materials" not in line
        line |= {key: value for key, value in told.items() if key not in line}
        for note in notes:
            _noted(line, note, by if borrowed else None)
    return tree


def _with_document(key: str, value: Any, document: str | None) -> Any:
    if key == "materials_complete" and value is True and document:
        return {"complete": True, "document": document}
    return value


def _noted(line: dict[str, Any], note: Mapping[str, Any], by: str | None) -> None:
    where = note.get("where", {})
    if "items" in where and line["item"] not in where["items"]:
        return
    if "kind" in where and set(_listed(line.get("kind"))) != set(_listed(where["kind"])):
        return
    uses = line.get("materials")
    for key, value in note.get("facts", {}).items():
        if key != "materials_complete" or isinstance(uses, list):
            line.setdefault(key, _with_document(key, value, by))
    for use in uses if isinstance(uses, list) else ():
        if use["material"] != "none":
            for key, value in note.get("materials", {}).items():
                use.setdefault(key, value)


def _listed(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


def narrowed(tree: Tree, item: str) -> Tree:
    """The list with one line of it, and those that it stands in, holds or touches."""
    lines = {str(line["item"]): line for line in tree["parts"]}
    wanted, waiting = set[str](), [item]
    while waiting:
        name = waiting.pop()
        if name not in wanted and name in lines:
            wanted.add(name)
            line = lines[name]
            waiting += [str(line[key]) for key in ("parent", "inside") if key in line]
            waiting += [one for one, other in lines.items() if str(other.get("parent")) == name]
            contacts = line.get("contacts")
            waiting += [str(c["with"]) for c in contacts] if isinstance(contacts, list) else []
    kept = {**tree, "parts": [line for name, line in lines.items() if name in wanted]}
    loops = kept.pop("loops", None)
    if isinstance(loops, list):
        loops = [loop for loop in loops if {str(end["item"]) for end in _ends(loop)} <= wanted]
    return {**kept, "loops": loops} if loops else kept


def _ends(loop: Mapping[str, Any]) -> list[Any]:
    return [*_listed(loop.get("source") or []), *loop.get("sources", []), *loop.get("devices", [])]


# What a remedy says


class Step:
    """A key that a remedy names, where it belongs, and the values that it writes for it."""

    def __init__(self, asked: Asked, values: list[Any]) -> None:
        self.key = f"{asked.row.subject}.{asked.row.key}"
        self.path = asked.path
        self.also = asked.row.also
        self.values = values


def steps_of(finding: Finding, report: BomReport) -> list[Step]:
    """The keys that the remedy names: of its own subject, of the lines and places it speaks of."""
    snippets = list(_snippets(finding.remedy))
    asked = {one.path: one for one in asks_of(finding) or _standing_at(finding)}
    for one in _beside(finding, report, [name for name, _ in snippets]):
        asked.setdefault(one.path, one)
    steps = [Step(one, list(_written(one.row.key.split("."), snippets))) for one in asked.values()]
    for name, _ in snippets:
        if name in _DOCUMENT_TYPES and finding.path.startswith("parts/"):  # one of its sort
            evidence = asked_at("/".join(finding.path.split("/")[:2]), "part.evidence")
            steps.append(Step(evidence, [[{"type": name, "number": "CD-1 rev A"}]]))
    return steps


def _standing_at(finding: Finding) -> Iterator[Asked]:
    """The key that a finding stands at, where its remedy says how that is written."""
    steps = finding.path.split("/")
    key = f"{_SUBJECTS.get(steps[0])}.{steps[-1]}"
    if len(steps) == 3 and key in facts() and "`" in finding.remedy:
        yield asked_at(finding.path, key)


_SUBJECTS = {"parts": "part", "locations": "place"}


def _beside(finding: Finding, report: BomReport, names: list[str]) -> Iterator[Asked]:
    """The keys of the lines, and of the places of a circuit, that a remedy speaks of."""
    for part in _spoken_of(finding, report):
        for name in names:
            if f"part.{name}" in facts():
                yield asked_at(part.prefix, f"part.{name}")
            elif f"part.materials.{name}" in facts() and part.materials:
                yield asked_at(part.prefix, f"part.materials.{name}")
            elif f"place.{name}" in facts() and finding.path.startswith("loops/"):
                for location in part.locations:
                    yield asked_at(part.prefix, f"place.{name}", location)


def _written(keys: list[str], snippets: list[tuple[str, Any]]) -> Iterator[Any]:
    """What a remedy writes for a key, by itself or within the mapping that holds it."""
    for name, value in snippets:
        inner = value
        for key in keys[keys.index(name) + 1 :] if name in keys else ():
            inner = inner[0] if isinstance(inner, list) else inner
            inner = inner.get(key) if isinstance(inner, dict) else None
        if name in keys and inner is not None:
            yield inner


def _spoken_of(finding: Finding, report: BomReport) -> Iterator[Part]:
    """The parts of a circuit that a finding names, and those that stand at a place."""
    if finding.path.startswith("loops/"):
        own = finding.fingerprint
        for cause in causes(report):
            for bearer in cause.bearers:
                if bearer.finding.path == finding.path and bearer.finding.fingerprint == own:
                    yield from bearer.ends
    elif finding.path.startswith("locations/"):
        yield from (part for part in report.bom.parts if finding.location in part.locations)


def rules_before(finding: Finding) -> set[str]:
    """The other rules that a remedy asks to settle first."""
    return {said for said in _SAID.findall(finding.remedy) if said in _RULES} - {finding.rule.id}


def _snippets(remedy: str) -> Iterator[tuple[str, Any]]:
    """Each key in backticks, with its value where one is written."""
    for said in _SAID.findall(remedy):
        try:
            value = _YAML.load(said)
        except YAMLError:
            continue
        if isinstance(value, dict):
            yield from json.loads(json.dumps(value, default=str)).items()
        else:
            yield said, None


# Doing it


def carried_out(
    tree: Tree, steps: list[Step], finding: Finding, chance: random.Random, *, some: bool
) -> Tree:
    """The list with every step taken, or with some of them."""
    done: Tree = copy.deepcopy(tree)
    values = Values(done, finding, chance)
    taken = [step for step in steps if not some or chance.random() < 0.5] or [chance.choice(steps)]
    for step in taken:
        written = chance.choice(step.values) if step.values else None
        value = values.of(step.key) if written is None or "…" in str(written) else written
        if written is not None:
            value = _filled(written, value)
        if value is not None:
            _put(done, _where(done, step.path), value, step.also)
            _document_of_place(done, step.path)
    return done


def _where(tree: Tree, path: str) -> list[str]:
    """The path; of another make that has no documents of its own, to those of the line."""
    steps = path.split("/")
    if steps[2:3] == ["alternates"] and steps[4:5] == ["evidence"] and len(steps) > 5:
        own = tree["parts"][int(steps[1])]["alternates"][int(steps[3])]
        if "evidence" not in own:
            return [*steps[:2], *steps[4:]]
    return steps


def _filled(written: Any, found: Any) -> Any:
    """What a remedy writes, with what was found where it leaves room."""
    if written == "…":
        return found if not isinstance(found, dict | list) else None
    if isinstance(written, dict):
        by_key = found if isinstance(found, dict) else dict.fromkeys(written, found)
        filled = {key: _filled(value, by_key.get(key)) for key, value in written.items()}
        return {key: value for key, value in filled.items() if value is not None}
    if isinstance(written, list):
        first = found[0] if isinstance(found, list) and found else found
        return [_filled(value, first) for value in written]
    return written


LEFT_OUT = "(left out)"
_ENTRY = {"materials": "material", "substances": "name", "chemicals": "name"}


def _put(
    node: Any, steps: list[str], value: Any, also: Sequence[str] = (), within: str = ""
) -> None:
    """Write a value where a path leads; in every entry of a list that it does not number.

    What is stated under another name of the key goes; documents and openings are added.
    """
    step, rest = steps[0], steps[1:]
    if isinstance(node, list):
        numbered = step.isdecimal()
        for number in [int(step)] if numbered else range(len(node)):
            if not isinstance(node[number], dict):
                node[number] = {_ENTRY[within]: node[number]}
            _put(node[number], rest if numbered else steps, value, also)
        return
    if rest:
        if not isinstance(node.get(step), dict | list):
            node[step] = {}
        _put(node[step], rest, value, also, step)
        return
    for name in (*also, *([step] if value == LEFT_OUT else ())):
        node.pop(name, None)
    old = node.get(step)
    if isinstance(value, dict) and isinstance(old, dict):
        node[step] = {**old, **value}
    elif step == "evidence" and isinstance(old, list) and isinstance(value, list):
        node[step] = [*old, *value]
    elif value != LEFT_OUT:
        node[step] = value


def _document_of_place(tree: Tree, path: str) -> None:
    """Facts of a place are taken from its document, which `declared-area` asks for by itself."""
    steps = path.split("/")
    if steps[0] == "locations":
        place = tree["locations"][steps[1]]
        place.setdefault("document", "AC-1 rev A")
        if steps[2:3] == ["substances"] and len(steps) > 3:  # own values have a source
            _put(place, ["substances", "source"], "TR-1 rev A")
            _put(place, ["substances", "document"], "TR-1 rev A")


# Values that a reader could find


_DOCUMENTS: dict[str, list[dict[str, Any]]] = {
    "IEC": [{"type": "certificate", "number": "IECEx ABC 21.0001"}],
    "ATEX": [
        {"type": "certificate", "number": "QQQ 21 ATEX 0001"},
        {"type": "declaration", "number": "DOC-1"},
    ],
    "NEC": [{"type": "listing", "number": "E-20001"}],
}
_CLEARED = (
    "the place is gas-free, shielded, free of dust and kept wet while it is used; operation at the "
    "inverter is tested as a unit; ultrasound is allowed; thermistors in the winding switch it off"
)
_MET = {"text": _CLEARED, "met_by": "instruction", "document": "OI-1", "role": "installer"}
_TA = " Ta -60 °C to +60 °C"
_MARKED = {
    "IEC": (
        [f"Ex ia IIC T6 Ga{_TA}", f"Ex ia IIIC T60 °C Da{_TA}"],
        [f"Ex db op pr IIC T6 Gb{_TA}", f"Ex tb op pr IIIC T60 °C Db{_TA}"],
        [f"Ex h IIC T6 Ga{_TA}", f"Ex h IIIC T60 °C Da{_TA}"],
        [f"Ex db [ia Ga] IIC T6 Gb{_TA}"],
    ),
    "ATEX": (
        [f"II 1G Ex ia IIC T6 Ga{_TA}", f"II 1D Ex ia IIIC T60 °C Da{_TA}"],
        [f"II 2G Ex db op pr IIC T6 Gb{_TA}", f"II 2D Ex tb op pr IIIC T60 °C Db{_TA}"],
        [f"II 1G Ex h IIC T6 Ga{_TA}", f"II 1D Ex h IIIC T60 °C Da{_TA}"],
        [f"II 2G Ex h IIC T6 Gb{_TA}", f"II 2D Ex h IIIC T60 °C Db{_TA}"],
        [f"II 2(1)G Ex db [ia Ga] IIC T6 Gb{_TA}"],
    ),
    "NEC": (
        [f"Class I, Zone 0, AEx ia IIC T6 Ga{_TA}", f"Zone 20, AEx ia IIIC T60 °C Da{_TA}"],
        [f"Class I, Zone 1, AEx db op pr IIC T6 Gb{_TA}"],
        [f"Ex h IIC T6 Ga{_TA}", f"Ex h IIIC T60 °C Da{_TA}"],
        [f"Class I, II, III, Division 1, Groups A, B, C, D, E, F, G T6{_TA}"],
        [f"Ex ia Class I, II, III, Division 1, Groups A, B, C, D, E, F, G T6{_TA}"],
        [f"Class I, Zone 1, AEx db [ia Ga] IIC T6 Gb{_TA}"],
    ),
}
_GLANDS = {
    "IEC": ("Ex db eb IIC Gb Ta -60 °C to +90 °C", "Ex tb IIIC Db Ta -60 °C to +90 °C"),
    "ATEX": (
        "II 2G Ex db eb IIC Gb Ta -60 °C to +90 °C",
        "II 2D Ex tb IIIC Db Ta -60 °C to +90 °C",
    ),
    "NEC": (
        "Class I, II, III, Division 1, Groups A, B, C, D, E, F, G",
        "Class I, Zone 0, AEx da IIC Ga Ta -60 °C to +90 °C",
        "Class I, Zone 1, AEx db eb IIC Gb Ta -60 °C to +90 °C",
    ),
}
_AREAS = (
    "Zone 1, IIC, T6",
    "Zone 20, IIIC, T60 °C",
    "Class I, Division 1, Groups A, B, C, D, T6",
    "Class II, Division 1, Groups E, F, G, T6",
    ["Zone 1, IIC, T6", "Zone 21, IIIC, T60 °C"],
)
_MATERIALS = (
    *("316L", "2205", "2507", "C276", "Ti-gr2", "A4-80", "bronze-tin", "304", "AL-6061"),
    *("carbon-steel", "tantalum", "PEEK", "PP", "HDPE", "PTFE", "PVDF", "EPDM", "FFKM", "FKM"),
)
_GOOD: dict[str, tuple[Any, ...]] = {
    "list.assembly.assessment": ("IHA-1 rev 1",),
    "place.area": _AREAS,
    "place.document": ("AC-1 rev A",),
    "place.substances": ("none", ["ethanol"], ["wheat flour"], ["hydrogen"]),
    "place.substances.document": ("TR-1 rev A",),
    "place.substances.layer_ignition": ("700 °C",),
    "place.substances.temperature": ("20 °C",),
    "place.chemicals.temperature": ("20 °C",),
    "place.chemicals.concentration": ("0.1 %", "1 %", "50 %", "100 %"),
    "place.chemicals.chloride": ("10 mg/L",),
    "place.chemicals.rinsed": (True,),
    "place.chemicals.ph": ("7",),
    "place.ambient": ("5..35 °C",),
    "place.atmosphere": ("controlled", "normal"),
    "place.layer": ("none", "5 mm"),
    "place.required_epl": ("Gb", "Db", ["Gb", "Db"]),
    "place.hybrid_mixtures": (False,),
    "place.restricted_access": (True,),
    "place.ventilation": (
        {
            "rate": "90000 m³/h",
            "document": "VE-1",
            "availability": "good",
            "dead_spaces": "none",
            "other_hydrogen": "none",
        },
    ),
    "loop.source.Uo": ("10 V",),
    "loop.source.Io": ("10 mA",),
    "loop.source.Po": ("0.1 W",),
    "loop.source.Co": ("90 µF",),
    "loop.source.Lo": ("900 mH",),
    "loop.devices.Ui": ("60 V",),
    "loop.devices.Ii": ("900 mA",),
    "loop.devices.Pi": ("3 W",),
    "loop.devices.Ci": ("0 nF",),
    "loop.devices.Li": ("0 µH",),
    "part.kind": ("electrical", "mechanical", "structural", ["electrical", "mechanical"]),
    "part.part_number": ("PN-1",),
    "part.evidence.conditions": ([_MET],),
    "part.entries.conditions": ([_MET],),
    "part.proposed": (LEFT_OUT,),
    "part.alternates": (LEFT_OUT,),
    "part.intrinsic_safety": (LEFT_OUT, "own cell", "inside only"),
    "part.ambient": ("-60..90 °C",),
    "part.inside_ambient": ("5..35 °C",),
    "part.ingress": ("IP66", "Type 4X"),
    "part.process_side": ("room",),
    "part.evidence.level": ("Gb", "Ga", "Db", "Da", "Gc", "Dc"),
    "part.materials.layer_thickness": ("0.1 mm", "12 mm"),
    "part.contacts": ("none",),
    "part.surface_temperature": (
        {"value": "40 °C", "at_ambient": "60 °C", "case": "rare malfunction", "source": "TR-1"},
    ),
    "part.surface_temperature.case": ("rare malfunction",),
    "part.quantity": (1,),
    "part.evidence.process_temperature": ("-60..120 °C",),
    "part.exposure": ("room", "enclosed", "immersed"),
    "part.materials.exposure": ("room", "enclosed", "immersed"),
    "part.materials.speed": ("0.3 m/s",),
    "part.belt_speed": ("0.3 m/s",),
    "part.brake": (
        {"use": "parking", "energy": "1 J", "rated_energy": "9 kJ", "interlocked": True},
    ),
    "part.liquid": (
        {"kind": "HFC", "flash_point": "300 °C", "autoignition": "500 °C", "hottest": "40 °C"},
    ),
    "part.generates": ("none",),
    "part.conduit_seals": ({"within": "25 mm", "all_runs": True},),
    "part.conduit_seals.within": ("25 mm",),
    "part.entries.type": ("stopping plug", "cable gland"),
    "part.entries.thread": ("M20x1.5",),
    "part.entries.hole": ("M20x1.5",),
    "part.entries.ingress": ("IP66",),
    "part.entries.within": ("25 mm",),
    "part.materials.material": _MATERIALS,
    "part.materials.surface_area": ("1 cm²", "100 cm²"),
    "part.materials.surface_resistance": ("1 MΩ",),
    "part.materials.resistance": ("100 Ω",),
    "part.materials.width": ("10 mm",),
    "part.materials.framed": (True,),
    "part.materials.breakdown_voltage": ("1 kV",),
}


class Values:
    """A value for any key of a list: one that closes what can be closed, or any."""

    def __init__(self, tree: Tree, finding: Finding, chance: random.Random) -> None:
        self._tree, self._finding, self._chance = tree, finding, chance
        self._law = tree["code"]
        self._lines = Lines(chance)

    def of(self, key: str) -> Any:
        """A value of a key by its name in the table of facts, None where there is none to give."""
        made: dict[str, Callable[[], Any]] = {
            "place.chemicals": self._chemicals,
            "part.location": self._elsewhere,
            "part.inside": self._box,
            "part.marking": self._marking,
            "part.evidence": self._documents,
            "part.evidence.covers": self._covered,
            "part.entries": self._entries,
            "part.entries.marking": lambda: [*_GLANDS[self._law]],
        }
        good = self._chance.random() < 0.9
        if good and key in made:
            return made[key]()
        return self._chance.choice(_GOOD[key]) if good and key in _GOOD else self._any(key)

    def _marking(self) -> list[str]:
        plates = _MARKED[self._law]
        return self._chance.choice((*plates, [*plates[1], *plates[2]]))

    def _documents(self) -> list[dict[str, Any]]:
        pick, own = self._chance.choice, _DOCUMENTS[self._law]
        assessment = {"type": "assessment", "number": "IHA-9", "level": pick(("Ga", "Da"))}
        assessed = pick((assessment, {**assessment, "conditions": [_MET]}))
        return pick((own, [assessed], [*own, assessed]))

    def _covered(self) -> str:
        line = self._tree["parts"][int(self._finding.path.split("/")[1])]
        return f"{line.get('part_number', 'PN-1')}, PN-1"

    def _entries(self) -> list[dict[str, Any]]:
        fitting = {"thread": "M20x1.5", "hole": "M20x1.5", "ingress": "IP66"}
        return [{"type": "cable gland", "marking": [*_GLANDS[self._law]], **fitting}]

    def _any(self, key: str) -> Any:
        subject, _, name = key.partition(".")
        holder, _, inner = name.partition(".")
        lines = self._lines
        made: Any = None
        if subject == "part" and holder in lines.line:
            made = lines.use() if holder == "materials" and inner else lines.line[holder]()
        elif subject == "place":
            made = lines.place().get(holder)
        elif subject == "loop":
            loop = lines.loop(["1", "2"])
            made = loop["devices"][0] if holder == "devices" else loop.get(holder)
        if not inner:
            return made
        return made.get(inner) if isinstance(made, dict) else None

    def _chemicals(self) -> Any:
        """None, water, or all but one, which went to a place of its own."""
        place = self._tree["locations"].get(self._finding.location, {})
        listed = place.get("chemicals")
        if isinstance(listed, list) and len(listed) > 1 and self._chance.random() < 0.5:
            gone = self._chance.randrange(len(listed))
            return [one for number, one in enumerate(listed) if number != gone]
        return self._chance.choice(("none", ["tap water"]))

    def _elsewhere(self) -> str:
        """A place outside of the area, without chemicals."""
        self._tree["locations"]["elsewhere"] = {
            "area": "unclassified",
            "substances": "none",
            "chemicals": "none",
            "ambient": "5..35 °C",
            "atmosphere": "controlled",
            "document": "AC-1 rev A",
        }
        return "elsewhere"

    def _box(self) -> str:
        """An enclosure that is certified with the part, at the place of it."""
        law = self._law
        line = self._tree["parts"][int(self._finding.path.split("/")[1])]
        number = line.setdefault("part_number", "PN-1")
        first, *others = _DOCUMENTS[law]
        self._tree["parts"].append(
            {
                "item": "box",
                "location": self._finding.location,
                "kind": "electrical",
                "part_number": "BOX-1",
                "marking": _MARKED[law][1],
                "ingress": "IP66",
                "entries": "none",
                "evidence": [{**first, "covers": f"BOX-1, {number}"}, *others],
            }
        )
        return "box"
