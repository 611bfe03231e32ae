"""Which column holds what: by a map file, else by the usual names in English, German, French."""

import csv
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import create_model

from areafit.errors import Collector, InputError, brief, nearest
from areafit.file.facts import facts
from areafit.file.fields import Text
from areafit.file.mappings import Model
from areafit.file.positions import Map
from areafit.file.source import open_source
from areafit.importing.sheets import Grid
from areafit.values import Frozen

_NOT_THERE = "none"
_ITEM, *_OTHERS = (row.column for row in facts().values() if row.column)
# A level is no fact: it tells the parent.
_FIELDS: dict[str, Any] = dict.fromkeys((_ITEM, "level", *_OTHERS), (Text | None, None))


class _Map(Model):
    """A map file: for each key the name of its column, `none` where no column serves."""

    called = "a column map"


_FullMap = create_model("_FullMap", __base__=_Map, **_FIELDS)


class Columns(Frozen):
    """The place of each key among the columns, their names, and those that nothing is taken of."""

    places: Mapping[str, int]
    names: tuple[str, ...]
    left: tuple[str, ...]

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
    for place, name in enumerate(names):
        key = _usual().get(_folded(name))
        if key and key not in places and asked.get(key) != _NOT_THERE and place not in taken:
            places[key] = place
    if not places:
        shown = ", ".join(filter(None, names)) or "no text"
        raise InputError(
            f"no column is known by its name in row {grid.start} ({brief(shown)}); name them in a "
            "map file, or say which row holds the names"
        )
    used = set(places.values())
    left = tuple(n for place, n in enumerate(names) if place not in used and n)
    return Columns(places, names, left)


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


@cache
def _usual() -> Mapping[str, str]:
    text = (files("areafit.importing") / "column_names.csv").read_text(encoding="utf-8")
    return {_folded(row["name"]): row["key"] for row in csv.DictReader(text.splitlines())}


def _folded(name: str) -> str:
    """A name as it is compared: dots, case, hyphens and underscores do not tell names apart."""
    return " ".join(name.casefold().replace(".", " ").replace("_", " ").replace("-", " ").split())
