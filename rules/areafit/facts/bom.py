"""A whole bill of materials as facts, and where each of its facts stands in the file."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from areafit.facts.loop import Loop
from areafit.facts.part import Part
from areafit.facts.place import Place
from areafit.facts.protection import Law


@dataclass(frozen=True, slots=True)
class Position:
    """A point of a file; line and column count from 1, columns in code points."""

    file: str
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Assembly:
    """The machine that the list describes."""

    number: str
    title: str | None = None
    revision: str | None = None
    assessment: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Bom:
    """A bill of materials.

    `locate` turns a path such as `parts/0/marking` into a position, or into that of the nearest
    written ancestor where the path itself is not written.
    """

    name: str
    assembly: Assembly
    law: Law
    places: Mapping[str, Place]
    parts: tuple[Part, ...]
    loops: tuple[Loop, ...] = ()
    edition: str | None = None
    jurisdiction: str | None = None
    locate: Callable[[str], Position] = field(repr=False, kw_only=True)
