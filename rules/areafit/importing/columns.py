"""Which column holds what: by a map file, else by the usual names in five languages.

A name may end with the unit of its cells: `Width [mm]`, `Umgebungstemp. (°C)`.
"""

import csv
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import create_model

from areafit.errors import Collector, InputError, brief, nearest
from areafit.file.facts import FactRow, facts
from areafit.file.fields import Text
from areafit.file.mappings import Model
from areafit.file.positions import Map
from areafit.file.source import open_source
from areafit.importing.sheets import Grid
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit.wording import NOT_STATED

# Cells that say nothing; `none` too: whoever filled in an export did not answer our question.
NOTHING = NOT_STATED | {
    *("—", "keine", "kein", "entfällt", "unbekannt", "offen", "sans", "aucun", "aucune", "inconnu"),
    *("nessuno", "nessuna", "sconosciuto", "ninguno", "ninguna", "desconocido"),
}
_NOT_THERE = "none"
_TOTAL = "total"  # no column, but what stands in a row that adds up others
_UNIT = pattern(r"(.*?)\s*(?:\[([^\[\]]*)\]|\(([^()]*)\)|\s/\s*([^/]+)|\s+in\s+(\S+))\s*")
_COUNTED = pattern(r"(.*?)[\s:=]*(?:\d[\d.,' ]*(?:[^\W\d]{1,3}|[€$£])?)?[\s.:]*")
_NAMED_FIRST = 40  # rows above which the names of the columns stand
_ITEM, *_OTHERS = (row.column for row in facts().values() if row.column)
# A level is no fact: it tells the parent.
_FIELDS: dict[str, Any] = dict.fromkeys((_ITEM, "level", *_OTHERS), (Text | None, None))


class _Map(Model):
    """A map file: for each key the name of its column, `none` where no column serves."""

    called = "a column map"


_FullMap = create_model("_FullMap", __base__=_Map, **_FIELDS)


class Columns(Frozen):
    """The place of each key among the columns, their names, and those that nothing is taken of.

    `units` are the units that names of columns give to their cells. `worded` tells of columns of
    figures in which no cell holds one, so that their name means something else here.
    """

    places: Mapping[str, int]
    names: tuple[str, ...]
    left: tuple[str, ...]
    units: Mapping[str, str] = {}
    worded: tuple[str, ...] = ()

    def cell(self, row: Sequence[str], key: str) -> str:
        """The cell of a key, empty where there is no such column or the row is too short."""
        place = self.places.get(key)
        return row[place] if place is not None and place < len(row) else ""


def read_map(data: bytes, name: str) -> Mapping[str, str]:
    """The keys of a map file, each with the name of its column.

    Raises:
        InputErrors: it is no map file.
    """
    errors = Collector()
    source = open_source(data, name, errors)
    root = source.document.root
    if not isinstance(root, Map):
        remedy = "write a line for each key, such as `part_number: Article`"
        errors.fatal(source.document.at(()), "this is no column map", remedy)
    source.check(_FullMap, root)
    if errors:
        raise errors.all()
    return {key: value.strip() for key, value in root.items() if value is not None}


def match(grid: Grid, asked: Mapping[str, str]) -> Columns:
    """Match the columns by the first row; what the map names goes before the usual names.

    Raises:
        InputError: a column that the map names is not there, or no column is known at all.
    """
    names = grid.rows[0] if grid.rows else ()
    places = dict(_mapped(names, asked))
    taken = set(places.values())
    usual = sorted(
        (rank, place, key)
        for place, name in enumerate(names)
        for rank, key in filter(None, [_meant(name)])
        if place not in taken and key not in places and asked.get(key) != _NOT_THERE
    )
    for _, place, key in usual:  # of several columns the one with the more usual name
        places.setdefault(key, place)
    if not places:
        shown = ", ".join(filter(None, names)) or "no text"
        raise InputError(
            f"no column is known by its name in row {grid.start} ({brief(shown)}); name them in a "
            "file for --map, or say with --header-row which row holds the names; an export without "
            "names needs a row of them above"
        )
    worded = dict(_worded(grid, {k: at for k, at in places.items() if k not in asked}))
    places = {key: place for key, place in places.items() if key not in worded}
    used = set(places.values())
    left = tuple(n for place, n in enumerate(names) if place not in used and n)
    units = {key: unit for key, place in places.items() if (unit := _parted(names[place])[1])}
    return Columns(places, names, left, units, tuple(worded.values()))


def _worded(grid: Grid, places: Mapping[str, int]) -> Iterator[tuple[str, str]]:
    """Columns of figures that hold words, each with what is told of it."""
    for row in facts().values():
        place, unit = places.get(row.column), unit_of(row)
        if place is None or not unit or unit == "date":
            continue
        cells = [each[place] for each in grid.rows[1:] if place < len(each)]
        said = [cell for cell in cells if cell and cell.casefold() not in NOTHING]
        if said and not any(any(map(str.isdigit, cell)) for cell in said):
            name = grid.rows[0][place]
            yield row.column, f"'{brief(name)}' holds words, such as {said[0]!r}, and no {unit}"


def unit_of(row: FactRow) -> str:
    """The unit of a column; that of what a mapping stands for where it may be written alone."""
    return row.unit or getattr(facts().get(f"part.{row.key}.value"), "unit", "")


def first_row(grid: Grid, asked: Mapping[str, str]) -> int:
    """The number of the row with the names: the first with two known ones, else with anything."""
    mapped = {_folded(name) for name in asked.values()}
    rows = grid.rows[:_NAMED_FIRST]
    for number, row in enumerate(rows, grid.start):
        if sum(_folded(name) in mapped or _meant(name) is not None for name in row) > 1:
            return number
    filled = (number for number, row in enumerate(rows, grid.start) if any(row))
    return next(filled, grid.start)


def is_total(text: str) -> bool:
    """Whether a cell only says that its row adds up others: `Total: 43`, `Zwischensumme`."""
    found = _COUNTED.fullmatch(text)
    return found is not None and _folded(found[1]) in _totals()


def _mapped(names: Sequence[str], asked: Mapping[str, str]) -> Iterator[tuple[str, int]]:
    by_name = {_folded(name): place for place, name in reversed(list(enumerate(names)))}
    for key, column in asked.items():
        if column == _NOT_THERE:
            continue
        if _folded(column) not in by_name:
            near = nearest(column, filter(None, names))
            hint = f"; did you mean {near!r}?" if near else ""
            raise InputError(f"no column is called {column!r}, which the map gives for {key}{hint}")
        yield key, by_name[_folded(column)]


def _meant(name: str) -> tuple[int, str] | None:
    """The key that a column is usually meant by, and how usual its name is, 0 for the key itself.

    What stands behind the name as a unit may belong to it: `Level (BOM)`.
    """
    usual = _usual()
    return usual.get(_folded(name)) or usual.get(_folded(_parted(name)[0]))


def _parted(name: str) -> tuple[str, str]:
    """A name of a column and the unit at its end."""
    found = _UNIT.fullmatch(name)
    if found is None or not found[1] or _folded(name) in _usual():
        return name, ""
    return found[1], next(filter(None, found.groups()[1:]), "").strip()


@cache
def _names() -> tuple[tuple[str, str], ...]:
    text = (files("areafit.importing") / "column_names.csv").read_text(encoding="utf-8")
    return tuple((row["key"], row["name"]) for row in csv.DictReader(text.splitlines()))


@cache
def _usual() -> Mapping[str, tuple[int, str]]:
    own = {_folded(key): (0, key) for key in _FIELDS}
    named = {_folded(name): (n, key) for n, (key, name) in enumerate(_names(), 1) if key in _FIELDS}
    return {**named, **own}


@cache
def _totals() -> frozenset[str]:
    return frozenset(_folded(name) for key, name in _names() if key == _TOTAL)


def _folded(name: str) -> str:
    """A name as it is compared: dots, case, hyphens and underscores do not tell names apart."""
    return " ".join(name.casefold().replace(".", " ").replace("_", " ").replace("-", " ").split())
