"""A new export laid over a list that was completed: what the CAD says follows, the rest stays.

Lines are found by `facts.identity`: what was completed stays with its part, never with a position.
The CAD's are item, quantity, description, price and in which assembly a line stands; where it says
otherwise than the list of anything else, that is told and the list kept.
"""

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal, InvalidOperation
from typing import Any

from areafit.errors import Collector, InputError, InputErrors
from areafit.facts.bom import Bom, StatedAt
from areafit.facts.identity import Line, match
from areafit.facts.part import Item, Kind
from areafit.file.editor import Change, EditError, Put, Remove, edit_at_once
from areafit.file.source import open_source
from areafit.importing.lines import ExportLine
from areafit.importing.listing import doubled, lent_materials, readable, told_of_lent
from areafit.values import Frozen

Reader = Callable[[bytes], Bom]
_FROM_CAD = ("quantity", "unit_cost", "description")
_STALE = " (old)"


class Revised(Frozen, eq=False):
    """The list as it is then, and what changed in it, a line of text each."""

    data: bytes
    told: tuple[str, ...]


class _Row(Frozen):
    """A line of the list as it is written."""

    index: int
    item: str
    part_number: str | None
    description: str | None
    parent: str | None
    line_id: str | None


def revise(  # noqa: PLR0913 - what an export and a list are
    data: bytes,
    name: str,
    lines: Sequence[ExportLine],
    read: Reader,
    *,
    place: str = "",
    remove_gone: bool = False,
    notes: list[str],
) -> Revised:
    """The list with a new export laid over it.

    Args:
        data: the list as it is.
        name: what positions call it.
        lines: those of the export.
        read: reads a list as facts, with its shared files.
        place: the location of new top lines that state none; the only one of the list without.
        remove_gone: take lines out that the export has not any more.
        notes: what of the export is left out.

    Raises:
        InputErrors: the list cannot be read.
        InputError: it cannot be edited so, or what comes of it could not be read.
    """
    bom = read(data)
    return _Revision(data, name, bom, readable(lines, notes), read, place).made(remove_gone)


class _Revision:
    def __init__(  # noqa: PLR0913, PLR0917 - as above
        self,
        data: bytes,
        name: str,
        bom: Bom,
        lines: Sequence[ExportLine],
        read: Reader,
        place: str,
    ) -> None:
        self._data, self._name, self._read = data, name, read
        errors = Collector()
        self._root: Any = open_source(data, name, errors).document.root
        self._bom, self._places = bom, tuple(bom.places)
        self._place = place
        self._raw: list[Mapping[str, Any]] = list(self._root["parts"])
        self._old = [_row(index, each) for index, each in enumerate(self._raw)]
        self._new = {line.item: line for line in lines}
        self._matched = match(
            self._old, lines, lambda line: line.description or "", self._completed
        )
        numbers = {self._new[item].part_number for item in self._matched.new}
        self._elsewhere = numbers - {None}  # of new lines: what was completed may serve there
        self._told: list[str] = []
        self._lent: list[tuple[ExportLine, tuple[str, ...]]] = []
        self._removed = 0
        self._items = self._new_items()

    def _completed(self, line: Line) -> str:
        """What the list states of a line besides its item."""
        raw = self._raw[line.index] if isinstance(line, _Row) else {}
        return json.dumps({k: v for k, v in raw.items() if k != "item"}, default=str)

    def _new_items(self) -> Mapping[str, str]:
        """The item of each line of the list as it is then: one that stands in the way gives way."""
        pairs = self._matched.pairs
        wanted = {*pairs.values(), *self._matched.new}
        return {
            row.item: pairs.get(row.item, f"{row.item}{_STALE}" if row.item in wanted else row.item)
            for row in self._old
        }

    def made(self, remove_gone: bool) -> Revised:  # noqa: FBT001
        """The list as it is then.

        Raises:
            InputError: it cannot be edited so, or could not be read.
        """
        changes = [*self._renumbered(), *self._lines()]
        new = [*self._added()]
        gone = self._gone(remove_gone=remove_gone)
        try:
            data = edit_at_once(self._data, self._name, changes)
            data = edit_at_once(data, self._name, new)
            data = edit_at_once(data, self._name, gone)
            if data != self._data:
                data = self._without_what_the_library_says(data, self._read(data))
                self._tell_shared_notes(self._read(data))
        except EditError as error:
            raise InputError(f"the list cannot be edited so: {error}") from None
        except InputErrors as errors:
            first = errors.errors[0]
            raise InputError(
                f"what came of it could not be read: {first.message}", first.remedy
            ) from None
        return Revised(data, (*self._told, *told_of_lent(self._lent)))

    # What changes

    def _renumbered(self) -> Iterator[Change]:
        items = {old: new for old, new in self._items.items() if old != new}
        moved = self._matched.renumbered
        if moved:
            told = ", ".join(f"{old} → {new}" for old, new in moved.items())
            self._told.append(
                f"renumbered: {told}; what names them in contacts, loops and notes follows"
            )
        for old, new in items.items():
            if old not in moved:
                self._told.append(f"item {old} gives way to another line and is {new!r} now")
        for row in self._old:
            if row.item in items:
                yield Put(("parts", row.index, "item"), items[row.item])
        for path, item in _named(self._root):
            if item in items:
                yield Put(path, items[item])

    def _lines(self) -> Iterator[Change]:
        """What the export says otherwise of the lines that are found."""
        for row in self._old:
            line = self._new.get(self._matched.pairs.get(row.item, ""))
            if line is None:
                continue
            raw, shown = self._raw[row.index], _shown(line)
            stated = line.stated
            for key in _FROM_CAD:
                if key in stated and not _same(raw.get(key), stated[key]):
                    self._told.append(f"{shown}: {key} {_of(raw.get(key))} → {_of(stated[key])}")
                    yield Put(("parts", row.index, key), stated[key])
            for key, value in stated.items():
                told = key in _FROM_CAD or key in line.proposed or key == "line_id"
                if told or value == "unknown" or (key == "kind" and key not in raw):
                    continue
                lent = lent_materials(self._bom, row.index) if key == "materials" else None
                if key not in raw and lent is not None:
                    self._lent.append((line, lent))
                elif key not in raw:
                    self._told.append(f"{shown}: {key} {_of(value)}, stated by the export")
                    yield Put(("parts", row.index, key), value)
                elif not _says(raw[key], value):
                    self._told.append(
                        f"{shown}: {key} is {_of(value)} in the export and {_of(raw[key])} in the "
                        "list, which is kept; correct it if the part changed"
                    )
            yield from self._parent(row, line, raw)

    def _parent(self, row: _Row, line: ExportLine, raw: Mapping[str, Any]) -> Iterator[Change]:
        """The assembly that a line stands in, where that is another line than it was."""
        before = self._items.get(row.parent, row.parent) if row.parent is not None else None
        if before == line.parent:
            return
        told = f"{_shown(line)}: stands in {line.parent or 'no other line'} now"
        if line.parent is not None:
            if line.parent in self._kept():
                self._told.append(told)
                yield Put(("parts", row.index, "parent"), line.parent)
        elif "location" in raw:
            self._told.append(told)
            yield Remove(("parts", row.index, "parent"))
        else:
            self._told.append(f"{told}; the list keeps its parent, which gives its location")

    def _kept(self) -> set[str]:
        """Every item of the list as it is then."""
        return {*self._items.values(), *self._matched.new}

    def _added(self) -> Iterator[Change]:
        index = len(self._raw)
        for each in self._matched.unclear:
            old, new = ", ".join(each.old), ", ".join(each.new)
            self._told.append(
                f"{each.part_number}: items {old} of the list and {new} of the export cannot be "
                "told apart; nothing was changed in them. Give each a `line_id`, or edit them"
            )
        for item in self._matched.new:
            line = self._new[item]
            facts = line.facts()
            if line.parent is not None and line.parent not in self._kept():
                line = line.without("parent")
                facts = line.facts()
            if "location" in facts:
                facts["location"] = self._location(line)
            self._told.append(f"new: {_shown(line)}{self._was_elsewhere(line)}")
            yield Put(("parts", index), facts)
            index += 1

    def _was_elsewhere(self, line: ExportLine) -> str:
        """What to say of a part that stood elsewhere: its facts are not taken along."""
        same = [row.item for row in self._old if row.part_number == line.part_number]
        gone = [item for item in same if item in self._matched.gone and line.part_number]
        return f"; {line.part_number} stood elsewhere as item {', '.join(gone)}" if gone else ""

    def _location(self, line: ExportLine) -> str | list[str]:
        """Where a new top line stands, of the places that the list has.

        Raises:
            InputError: nothing says where.
        """
        known = [place for place in line.location if place in self._places]
        if len(known) == len(line.location) > 0:
            return known[0] if len(known) == 1 else known
        if self._place in self._places:
            return self._place
        if len(self._places) == 1:
            return self._places[0]
        raise InputError(
            f"nothing says at which place of the list {_shown(line)} stands",
            f"state --location with one of {', '.join(self._places)}",
        )

    def _gone(self, *, remove_gone: bool) -> list[Change]:
        removed = self._removable() if remove_gone else set()
        found: list[Change] = []
        for row in self._old:
            if row.item not in self._matched.gone:
                continue
            shown = f"gone: item {row.item} ({_words(row.part_number, row.description)})"
            if row.item in removed:
                self._told.append(f"{shown}; taken out")
                found.append(Remove(("parts", row.index)))
            elif remove_gone and row.part_number in self._elsewhere:
                self._told.append(f"{shown}; kept, since that part is a new line elsewhere")
            elif remove_gone:
                self._told.append(f"{shown}; kept, since other lines, loops or notes name it")
            else:
                self._told.append(f"{shown}; kept, --remove-gone takes it out")
        self._removed = len(found)
        return found

    def _removable(self) -> set[str]:
        """The lines that are gone, whose part is nowhere, and that nothing names which stays."""
        gone = (row for row in self._old if row.item in self._matched.gone)
        found = {row.item for row in gone if row.part_number not in self._elsewhere}
        while True:
            named = {
                item
                for path, item in _named(self._root)
                if path[0] != "parts" or self._old[int(path[1])].item not in found
            }
            if not found & named:
                return found
            found -= named

    def _tell_shared_notes(self, found: Bom) -> None:
        """A note of the shared file that names items does not follow: it is for other lists too."""
        after = {part.item: _shared_notes(found, part.index) for part in found.parts}
        for part in self._bom.parts:
            item = self._matched.pairs.get(part.item)
            before = _shared_notes(self._bom, part.index)
            if item is not None and before != after[Item(item)]:
                documents = ", ".join(sorted(before ^ after[Item(item)]))
                self._told.append(
                    f"item {item}: {documents} of the shared file of places names items, which are "
                    "other lines now; correct them there"
                )

    def _without_what_the_library_says(self, data: bytes, found: Bom) -> bytes:
        """A new line takes its kind, of which nothing is proposed then, and its materials of it."""
        first = len(self._raw) - self._removed
        made = doubled(found, [self._new[item] for item in self._matched.new], first)
        new = [part for part in found.parts[first:] if "kind" in (part.proposed or ())]
        if not new and not made:
            return data
        asked = [Put(("parts", part.index, "kind"), "unknown") for part in new]
        taken_out = {
            part.index: [
                Remove(("parts", part.index, key)) for key in (*(part.proposed or ()), "proposed")
            ]
            for part in new
        }
        silent = [
            each for removes in taken_out.values() for each in removes if each.path[-1] != "kind"
        ]
        bare = {index: Remove(("parts", index, "materials")) for index in made}
        lent = self._read(edit_at_once(data, self._name, [*asked, *silent, *bare.values()]))
        changes: list[Change] = [
            each
            for index, removes in taken_out.items()
            if Kind.UNKNOWN not in lent.parts[index].equipment.kinds
            for each in removes
        ]
        for index, line in made.items():
            names = lent_materials(lent, index)
            if names is not None:
                self._lent.append((line, names))
                changes.append(bare[index])
        return edit_at_once(data, self._name, changes)


def _shared_notes(bom: Bom, index: int) -> set[str]:
    """The notes of the shared file that hold for a line, by document."""
    stated = bom.statements.get(f"parts/{index}", ())
    return {each.document for each in stated if each.level is StatedAt.SHARED}


# Lines of a list as they are written

_Path = tuple[str | int, ...]
_At = tuple[_Path, str]


def _row(index: int, raw: Mapping[str, Any]) -> _Row:
    def text(key: str) -> str | None:
        value = raw.get(key)
        return None if value is None else str(value).strip()

    return _Row(index, text("item") or "", text("part_number"), text("description"),
                text("parent"), text("line_id"))  # fmt: skip


def _named(root: Mapping[str, Any]) -> Iterator[_At]:
    """Every place of a list that names the item of a line, and which."""
    for index, raw in enumerate(root.get("parts") or ()):
        others = raw.get("alternates") or ()
        alternates = others if isinstance(others, Sequence) and not isinstance(others, str) else ()
        sides: list[tuple[_Path, Any]] = [(("parts", index), raw)]
        sides += [(("parts", index, "alternates", n), each) for n, each in enumerate(alternates)]
        for path, each in sides:
            yield from _texts(each, path, "parent", "inside")
            yield from _entries(each, path, "contacts", "with")
    loops = root.get("loops")
    for index, loop in enumerate(() if isinstance(loops, str) or loops is None else loops):
        for key in ("source", "sources", "devices"):
            yield from _entries(loop, ("loops", index), key, "item")
    yield from _noted(root, ())
    places = root.get("locations")
    for name, place in places.items() if isinstance(places, Mapping) else ():
        if isinstance(place, Mapping):
            yield from _noted(place, ("locations", name))


def _noted(node: Mapping[str, Any], path: _Path) -> Iterator[_At]:
    notes = node.get("unless_stated")
    for index, note in enumerate([] if notes is None or isinstance(notes, str) else notes):
        where = note.get("where") if isinstance(note, Mapping) else None
        if not isinstance(where, Mapping):
            continue
        items = where.get("items")
        at = (*path, "unless_stated", index, "where", "items")
        if isinstance(items, str):
            yield at, items.strip()
        else:
            yield from (((*at, n), str(each).strip()) for n, each in enumerate(items or ()))


def _texts(node: Any, path: _Path, *keys: str) -> Iterator[_At]:  # noqa: ANN401 - any value
    for key in keys:
        if isinstance(node, Mapping) and isinstance(value := node.get(key), str):
            yield (*path, key), value.strip()


def _entries(node: Any, path: _Path, key: str, inner: str) -> Iterator[_At]:  # noqa: ANN401
    value = node.get(key) if isinstance(node, Mapping) else None
    if isinstance(value, Mapping):
        yield from _texts(value, (*path, key), inner)
    elif isinstance(value, Sequence) and not isinstance(value, str):
        for n, each in enumerate(value):
            yield from _texts(each, (*path, key, n), inner)


# In words


def _shown(line: ExportLine) -> str:
    return f"item {line.item} ({_words(line.part_number, line.description)})"


def _words(*words: str | None) -> str:
    return ", ".join(filter(None, words)) or "no part number"


def _of(value: Any) -> str:  # noqa: ANN401 - any value of a file
    if value is None:
        return "not stated"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return ", ".join(map(_of, value))
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_of(each)}" for key, each in value.items())
    return str(value)


def _same(before: Any, after: Any) -> bool:  # noqa: ANN401 - as above
    """Whether two values are the same text or the same number."""
    if before is None:
        return False
    try:
        return Decimal(str(before)) == Decimal(str(after))
    except InvalidOperation:
        return _of(before).strip() == _of(after)


def _says(before: Any, after: Any) -> bool:  # noqa: ANN401 - as above
    """Whether a list already says what an export says, be it with more beside it."""
    if isinstance(after, list):
        stated = (
            before if isinstance(before, Sequence) and not isinstance(before, str) else [before]
        )
        return all(any(_says(one, each) for one in stated) for each in after)
    if isinstance(after, Mapping):
        if not isinstance(before, Mapping):
            return len(after) == 1 and _same(before, *after.values())
        return all(key in before and _says(before[key], each) for key, each in after.items())
    if isinstance(after, bool):
        return _of(before) in (("true", "yes") if after else ("false", "no"))
    return _same(before, after)
