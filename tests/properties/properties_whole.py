"""Whole lists that pass, as they are released: with notes, a library, circuits and every line.

A list is a mapping of its files; a path begins with the name of one.
"""

import copy
import json
import random
from pathlib import Path
from typing import Any

from properties_admitted import KEYS, admitted  # made importable by conftest
from properties_filled import read_yaml
from properties_lists import Lines
from properties_world import DAY, Tree, at, leaves

import areafit

Files = dict[str, Tree]
_TESTS = Path(__file__).parents[1]
LIST, SHELF = "list.yaml", "parts.yaml"
WHOLE: dict[str, Files] = {
    path.stem: {LIST: read_yaml(path)}
    for path in sorted((_TESTS / "cases" / "reviewed").glob("filled_*.yaml"))
} | {
    "released with a library": {
        LIST: read_yaml(_TESTS / "skid" / "released.yaml"),
        SHELF: read_yaml(_TESTS / "skid" / "parts.yaml"),
    }
}


def opens_whole(files: Files) -> bool:
    """Whether the gate of a list opens; one that is no longer valid does not pass."""
    try:
        return _judged(files).passes
    except areafit.InputErrors:
        return False


def closed_whole(files: Files) -> bool:
    """Whether it is a list, and does not pass."""
    try:
        return not _judged(files).passes
    except areafit.InputErrors:
        return False


def _judged(files: Files) -> areafit.BomReport:
    def fetch(name: str) -> bytes:
        return _written(files[name])

    bom = areafit.read(_written(files[LIST]), LIST, fetch)
    return areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=DAY))


def _written(tree: Tree) -> bytes:
    return json.dumps(tree, ensure_ascii=False).encode()


# Made worse

_OF_A_LOOP: dict[str, tuple[Any, ...]] = {
    "group": ("IIA", "IIC"),
    "location": ("lance",),
    "source.Uo": ("30 V", "5 V"),
    "source.Io": ("500 mA",),
    "source.Po": ("2 W",),
    "source.Co": ("10 nF",),
    "source.Lo": ("1 µH",),
    "source.Um": ("60 V",),
    "source.supply": ("400 V",),
    "source.linear": (False,),
    "source.Lo/Ro": ("1 µH/Ω",),
    "devices.0.Ui": ("8 V",),
    "devices.0.Ii": ("5 mA", "none"),
    "devices.0.Pi": ("10 mW",),
    "devices.0.Ci": ("3 µF",),
    "devices.0.Li": ("200 mH",),
    "devices.0.active": (True,),
    "cable.length": ("9 km",),
    "cable.capacitance": ("1 µF/m",),
    "cable.inductance": ("1 mH/m",),
    "cable.inductance_per_resistance": ("90 µH/Ω",),
}
_OF_A_NOTE: dict[str, tuple[Any, ...]] = {
    "facts.bonded": (False,),
    "facts.drop_height": ("2 m",),
    "facts.loose_parts": ("free",),
    "facts.exposure": ("immersed", "washdown"),
    "facts.end_stops": ("hard",),
    "facts.contacts": ("none",),
    "materials.welded": (True,),
    "materials.crevice": (True,),
    "materials.stressed": (True,),
}


def worsened_whole(seed: int) -> tuple[Files, list[tuple[Any, ...]]]:
    """A list that passed with one to three facts stated anew or otherwise, and the paths of these.

    In its lines, the entries of its library, its places, notes and circuits.
    """
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    files = copy.deepcopy(WHOLE[chance.choice(sorted(WHOLE))])
    changed = []
    for _ in range(chance.choice((1, 1, 2, 3))):
        path, value = _change(files, chance)
        files = _stated(files, path, value)
        changed.append(path)
    return files, changed


def _change(files: Files, chance: random.Random) -> tuple[tuple[Any, ...], Any]:
    tree, lines = files[LIST], Lines(chance)
    told = chance.random()
    if told < 0.15 and "loops" in tree:
        return _drawn((LIST, "loops", 0), _OF_A_LOOP, chance)
    if told < 0.25 and "unless_stated" in tree:
        note = chance.randrange(len(tree["unless_stated"]))
        return _drawn((LIST, "unless_stated", note), _OF_A_NOTE, chance)
    if told < 0.4:
        place, stated = chance.choice(sorted(tree["locations"])), lines.place()
        key = chance.choice(sorted(stated))
        return (LIST, "locations", place, key), stated[key]
    holder: tuple[Any, ...] = (LIST, "parts", chance.randrange(len(tree["parts"])))
    if SHELF in files and chance.random() < 0.5:
        holder = (SHELF, "parts", chance.choice(sorted(files[SHELF]["parts"])))
    line = at(files, holder)
    for key, make in (("materials", lines.use), ("evidence", lines.document)):
        if isinstance(line.get(key), list) and chance.random() < 0.3:
            stated, which = make(), chance.randrange(len(line[key]))
            inner = chance.choice(sorted(stated))
            return (*holder, key, which, inner), stated[inner]
    key = chance.choice(sorted(lines.line))
    return (*holder, key), lines.line[key]()


def _drawn(
    holder: tuple[Any, ...], pools: dict[str, tuple[Any, ...]], chance: random.Random
) -> tuple[tuple[Any, ...], Any]:
    key = chance.choice(sorted(pools))
    steps = [int(step) if step.isdigit() else step for step in key.split(".")]
    return (*holder, *steps), chance.choice(pools[key])


def _stated(files: Files, path: tuple[Any, ...], value: Any) -> Files:
    """A copy with the value there; the mapping that holds it is made if there is none."""
    made = copy.deepcopy(files)
    node: Any = made
    for step in path[:-1]:
        node = node.setdefault(step, {}) if isinstance(node, dict) else node[step]
    node[path[-1]] = value
    return made


def facts_of(files: Files, changed: list[tuple[Any, ...]], more: int) -> list[tuple[Any, ...]]:
    """The facts of what was changed, of its place and of `more` others, but for those admitted."""
    chance = random.Random(len(str(files)))  # noqa: S311
    every = [path for path in leaves(files) if path[-1] not in _KEPT and len(path) > 1]
    near = [path for path in every if any(path[:3] == each[:3] for each in changed)]
    rest = [path for path in every if path not in near]
    asked = [*near, *chance.sample(rest, min(more, len(rest)))]
    return [path for path in asked if not _admitted(files, path)]


_KEPT = {
    "areafit", "areafit-parts", "assembly", "number", "code", "locations", "parts", "item",
    "location", "kind", "library", "confirmed", "unless_stated", "document", "role", "on",
}  # fmt: skip


def _admitted(files: Files, path: tuple[Any, ...]) -> bool:
    """By the line as it is with its notes and the entry of its part number."""
    file, *inner = path
    joined = _joined(files)
    if inner[0] == "unless_stated":
        of = {"facts": "part", "materials": "part.materials"}.get(str(inner[2]))
        return len(inner) > 3 and f"{of}.{inner[3]}" in KEYS
    if _otherwise(files, file, inner):
        return True
    if file == SHELF:
        if inner[0] != "parts" or len(inner) < 3:
            return False
        lines = [i for i, one in enumerate(joined["parts"]) if one.get("part_number") == inner[1]]
        return any(admitted(joined, ("parts", i, *inner[2:])) for i in lines)
    return admitted(joined, tuple(inner))


def _otherwise(files: Files, file: str, inner: list[Any]) -> bool:
    """Whether a line and its note or entry say it both: without one the other answers."""
    if inner[0] != "parts" or len(inner) != 3:
        return False
    if file == SHELF:
        lines = [each for each in files[LIST]["parts"] if each.get("part_number") == inner[1]]
        return any(inner[2] in line for line in lines)
    line = files[LIST]["parts"][inner[1]]
    return inner[2] in {**_noted(files, line), **_entry(files, line)}


def _entry(files: Files, line: Tree) -> Tree:
    found: Tree = files.get(SHELF, {}).get("parts", {}).get(line.get("part_number"), {})
    return found


def _noted(files: Files, line: Tree) -> Tree:
    told: Tree = {}
    for note in files[LIST].get("unless_stated", []):
        if note.get("where", {}).get("kind", line.get("kind")) == line.get("kind"):
            told |= note.get("facts", {})
    return told


def _joined(files: Files) -> Tree:
    tree = copy.deepcopy(files[LIST])
    tree["parts"] = [
        {**_noted(files, line), **_entry(files, line), **line} for line in tree["parts"]
    ]
    return tree


def without_fact(files: Files, path: tuple[Any, ...]) -> Files:
    """A copy without the key at a path."""
    made = copy.deepcopy(files)
    del at(made, path[:-1])[path[-1]]
    return made
