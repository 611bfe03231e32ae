"""Facts of lines lifted into notes and a library, as a person who types less would have done."""

import copy
import random
from collections.abc import Iterator, Mapping
from typing import Any

from properties_world import Tree  # made importable by conftest

from areafit.file.facts import facts
from areafit.tables.words import needs_own_word

CONFIRMED = {"on": "2026-11-01", "document": "data sheet 7", "role": "supplier"}
_OF_PARTS = (
    "bonded",
    "exposure",
    "drop_height",
    "end_stops",
    "loose_parts",
    "release",
    "air_supply",
    "location",
    "contacts",
    "materials_complete",
)
_OF_MATERIALS = ("welded", "crevice", "stressed", "finish")
_BY_ITEM_ONLY = ("contacts", "materials_complete", "location")


class Lifted:
    """A list whose facts stand elsewhere now: the list, its library, its shared file of places."""

    def __init__(self, tree: Tree, chance: random.Random) -> None:
        self._chance = chance
        self.list = copy.deepcopy(tree)
        self.library: dict[str, Any] = {}
        self.site: Tree | None = None
        self._spoken: dict[str, set[str]] = {}
        self._at = {line["item"]: line["location"] for line in tree["parts"]}
        self.moved = 0
        if chance.random() < 0.3:
            shared = ("code", "locations")
            self.site = {"areafit-areas": 1, **{key: self.list.pop(key) for key in shared}}
            self.list["areas"] = "site.yaml"
        for _ in range(chance.randint(0, 12)):
            self._note()
        numbers = sorted({each["part_number"] for each in self._all() if "part_number" in each})
        for number in numbers:
            if chance.random() < 0.7:
                self._entry(number)

    def files(self) -> dict[str, Any]:
        """Every file by its name."""
        found = {"list.yaml": self.list}
        if self.library:
            home = self.site if self.site is not None and self._chance.random() < 0.5 else self.list
            home["library"] = "parts.yaml"
            found["parts.yaml"] = {"areafit-parts": 1, "parts": self.library}
        if self.site is not None:
            found["site.yaml"] = self.site
        return found

    # Notes

    def _note(self) -> None:
        chance = self._chance
        of_materials = chance.random() < 0.4
        key = chance.choice(_OF_MATERIALS if of_materials else _OF_PARTS)
        holder, place = self._holder()
        where, lines = self._where(key, place)
        told = [self._told(line, of_materials=of_materials) for line in lines]
        every = [one for each in told for one in each]
        items = {line["item"] for line in lines}
        if place is not None:  # it bears on those that stand elsewhere too
            here = (each for each in self.list["parts"] if place in self._at[each["item"]])
            items |= {line["item"] for line in here}
        known = [one[key] for one in every if key in one]
        if len(known) != len(every) or not known or items & self._spoken.get(key, set()):
            return
        value = chance.choice(known)
        if not _may_note(key, value):
            return
        for line, uses in zip(lines, told, strict=True):
            for one in uses:
                own_word = of_materials and value is False and key in ("stressed", "crevice")
                if one[key] == value and not (
                    own_word and needs_own_word(key, one.get("component"), line.get("description"))
                ):
                    del one[key]
                    self.moved += 1
        self._spoken.setdefault(key, set()).update(items)
        said: Tree = {"document": f"ES-{self.moved}", "role": "designer"}
        said["materials" if of_materials else "facts"] = {key: value}
        holder.setdefault("unless_stated", []).append(
            {**({"where": where} if where else {}), **said}
        )

    def _holder(self) -> tuple[Tree, str | None]:
        """Where a note is written: the list, its shared file, or a place, which is named."""
        chance = self._chance
        places = (self.site or self.list)["locations"]
        if chance.random() < 0.3:
            name = chance.choice([*places])
            return places[name], name
        if self.site is not None and chance.random() < 0.5:
            return self.site, None
        return self.list, None

    def _where(self, key: str, place: str | None) -> tuple[Tree, list[Tree]]:
        """A `where`, and the lines that it means at the place of the note."""
        chance = self._chance
        lines = self.list["parts"]
        if place is not None:
            lines = [line for line in lines if self._at[line["item"]] in (place, [place])]
            if key == "location":
                return {}, []
        if key in _BY_ITEM_ONLY or chance.random() < 0.6:
            some = [line for line in lines if chance.random() < 0.5]
            if key == "materials_complete":
                some = [line for line in some if line.get("materials") not in (None, "none", [])]
            if not some:
                return {}, []
            return {"items": [line["item"] for line in some]}, some
        where: Tree = {}
        if chance.random() < 0.5:
            kinds = chance.sample(["electrical", "mechanical", "structural"], 2)
            where["kind"] = kinds
            lines = [line for line in lines if _within(line["kind"], kinds)]
        if chance.random() < 0.3 and place is None and all("location" in line for line in lines):
            name = chance.choice(("a", "b"))
            where["location"] = name
            lines = [line for line in lines if _within(line["location"], [name])]
        return where, lines

    def _told(self, line: Tree, *, of_materials: bool) -> list[Tree]:
        if not of_materials:
            return [line]
        uses = line.get("materials")
        return [use for use in uses if isinstance(use, dict)] if isinstance(uses, list) else []

    # The library

    def _all(self) -> Iterator[Tree]:
        for line in self.list["parts"]:
            yield line
            yield from line.get("alternates", ())

    def _entry(self, number: str) -> None:
        holders = [each for each in self._all() if each.get("part_number") == number]
        first = holders[0]
        entry: dict[str, Any] = {}
        for key, value in list(first.items()):
            fact = f"part.{key}"
            alike = all(each.get(key) == value for each in holders)
            if alike and self._chance.random() < 0.7 and _may_enter(fact, value):
                entry[key] = value
        for each in holders:
            for key in entry:
                if self._chance.random() < 0.9:  # what is stated in both places alike is no matter
                    del each[key]
                    self.moved += 1
        if entry:
            self.library[number] = {**entry, "confirmed": CONFIRMED}


def _within(stated: Any, names: list[str]) -> bool:
    return set([stated] if isinstance(stated, str) else stated) <= set(names)


def _may_note(key: str, value: Any) -> bool:
    if key == "exposure":
        return bool(value != "enclosed")
    return value == "none" if key == "contacts" else key != "materials_complete" or value is True


def _may_enter(fact: str, value: Any) -> bool:
    """Whether the table of facts lets an entry state a value, and all that is in it."""
    row = facts().get(fact)
    if row is None or not row.library:
        return False
    if isinstance(value, Mapping):
        if fact == "part.materials.composition":
            return True
        exposure = value.get("exposure", "enclosed")
        if exposure != "enclosed" or ("exposure" in value and "component" not in value):
            return False
        return value.get("type") != "repair record" and all(
            _may_enter(f"{fact}.{key}", inner) for key, inner in value.items()
        )
    if isinstance(value, list):
        return all(_may_enter(fact, each) for each in value)
    return True
