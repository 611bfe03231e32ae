"""A whole bill of materials as facts, and where each of its facts stands in the file."""

from collections.abc import Callable, Mapping

from areafit.facts.loop import Loop
from areafit.facts.part import Part
from areafit.facts.place import Place
from areafit.facts.protection import Law
from areafit.values import Frozen


class Position(Frozen):
    """A point of a file; line and column count from 1, columns in code points.

    Line 0 is for what has no line: a file as a whole, or an option of the command line.
    """

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


class Assembly(Frozen):
    """The machine that the list describes."""

    number: str
    title: str | None = None
    revision: str | None = None
    assessment: str | None = None


class Bom(Frozen, eq=False):
    """A bill of materials.

    `locate` turns a path such as `parts/0/marking` into a position, or into that of the nearest
    written ancestor where the path itself is not written.
    """

    name: str
    assembly: Assembly
    law: Law
    places: Mapping[str, Place]
    parts: tuple[Part, ...]
    locate: Callable[[str], Position]
    loops: tuple[Loop, ...] = ()
    edition: str | None = None
    jurisdiction: str | None = None

    def __repr__(self) -> str:
        return f"Bom({self.name!r}, {len(self.parts)} parts)"  # all of it would fill a book
