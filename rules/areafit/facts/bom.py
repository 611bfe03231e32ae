"""A whole bill of materials as facts, and where each of its facts stands in the file."""

from collections.abc import Callable, Mapping
from datetime import date

from areafit.facts.loop import Loop
from areafit.facts.part import Part
from areafit.facts.place import Place
from areafit.facts.protection import Law
from areafit.values import Frozen, Term, replace


class Position(Frozen):
    """A point of a file; line and column count from 1, columns in code points.

    Line 0 is for what has no line: a file as a whole, or an option of the command line.
    """

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


class StatedAt(Term):
    """Where a fact of a line is stated when not on the line, nearest first."""

    LIBRARY = "library"
    LOCATION = "location"
    LIST = "list"
    SHARED = "shared file"


class Statement(Frozen):
    """Who states a fact for a line: a note or an entry of the library.

    `path` is that of the fact (`parts/3/bonded`; in `Bom.statements` within its line, `bonded`), or
    of the note itself; `position` where the note or the entry begins.
    """

    path: str
    level: StatedAt
    document: str
    role: str
    position: Position


class LibraryFile(Frozen):
    """A file of bought parts that a list names, the SHA-256 of its bytes, and its entries."""

    name: str
    sha256: str
    entries: int = 0


class UsedEntry(Frozen):
    """An entry of the library that lines take facts of, and who confirmed it when.

    `numbers` are all that lead to it, its own first.
    """

    number: str
    confirmed_on: date
    document: str
    role: str
    position: Position
    numbers: tuple[str, ...] = ()


class LibraryUse(Frozen):
    """The library of a list: its files, and the entries that lines use."""

    files: tuple[LibraryFile, ...] = ()
    used: tuple[UsedEntry, ...] = ()

    @property
    def entries(self) -> int:
        """How many entries its files hold."""
        return sum(file.entries for file in self.files)


class Assembly(Frozen):
    """The machine that the list describes."""

    number: str
    title: str | None = None
    revision: str | None = None
    assessment: str | None = None
    note: str | None = None


class Bom(Frozen, eq=False):
    """A bill of materials.

    `locate` turns a path such as `parts/0/marking` into a position, or into that of the nearest
    written ancestor where the path itself is not written. `statements` are the facts of each line
    (`parts/0`) that are stated elsewhere, by their path within it: many lines share one, since a
    note speaks for thousands; `remarks` is what reading found that a person should know
    and that changes nothing. `gaps` are the places, among the materials of a line, of those that
    say what the part has not; they are no materials.
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
    statements: Mapping[str, tuple[Statement, ...]] = {}
    remarks: tuple[str, ...] = ()
    library: LibraryUse = LibraryUse()
    gaps: Mapping[str, tuple[int, ...]] = {}

    def path(self, prefix: str, step: str) -> str:
        """The path of a fact of a subject, as the file counts its entries."""
        gaps = self.gaps.get(prefix.partition("/materials")[0]) if self.gaps else None
        path = f"{prefix}/{step}" if prefix and step else prefix or step
        return path if gaps is None else _counted(path, gaps)

    def stated_by(self, path: str) -> tuple[Statement, ...]:
        """Who states the fact of a path and those below it, where the line itself does not."""
        if not self.statements:
            return ()
        steps = path.split("/")
        line = "/".join(steps[: 4 if steps[2:3] == ["alternates"] else 2])
        every = self.statements.get(line, ())
        within = path[len(line) + 1 :]
        found = [one for one in every if f"{one.path}/".startswith(f"{within}/" if within else "")]
        if not found:
            above = [one for one in every if within.startswith(f"{one.path}/")]
            found = sorted(above, key=lambda one: len(one.path))[-1:]
        return tuple(replace(one, path=f"{line}/{one.path}") for one in found)

    def proposed_at(self, path: str) -> tuple[str, ...]:
        """The keys that the line of a path only proposes."""
        step, _, rest = path.partition("/")
        if step != "parts":
            return ()
        return self.parts[int(rest.partition("/")[0])].proposed or ()

    def __repr__(self) -> str:
        return f"Bom({self.name!r}, {len(self.parts)} parts)"  # all of it would fill a book


def _counted(path: str, gaps: tuple[int, ...]) -> str:
    steps = path.split("/")
    at = 5 if steps[2] == "alternates" else 3
    if steps[at - 1 : at] == ["materials"] and len(steps) > at:
        number = int(steps[at])
        for gap in gaps:  # from the first to the last
            number += gap <= number
        steps[at] = str(number)
    return "/".join(steps)
