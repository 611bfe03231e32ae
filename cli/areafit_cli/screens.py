"""The first screens of an interview: where sub-assemblies stand, and what was proposed of parts.

A row keeps its number for as long as its screen stands, and is confirmed by that number alone.
"""

import re
from abc import ABC, abstractmethod
from collections.abc import Callable, Hashable, Sequence
from pathlib import Path
from typing import Any

from areafit.answers.interview import Proposal, confirmed, proposals
from areafit.answers.replies import value_of
from areafit.answers.taking import root_of
from areafit.errors import InputErrors
from areafit.facts.bom import Bom
from areafit.facts.part import Kind, Part
from areafit.file.editor import EditError
from areafit.file.facts import facts
from areafit.values import Frozen
from areafit_cli import lists, paths
from areafit_cli.desk import CHANGED, Desk, UndoError, WrittenFiles, chosen, uninterrupted

_PAGE = 12  # rows of proposals that are looked at together
_ONE = "One row at a time: each is confirmed by its own number."
_SEVERAL = re.compile(
    r"(all|every\w*|\*)$|\d+\s*(-|–|\.\.|,|;|&|\+|\bto\b|\band\b)\s*\d+|\d+(\s+\d+)+$",
    re.IGNORECASE,
)
_WHY_KIND = "What is asked of a part, and by which rules, follows from what sort of part it is."


class _ScreenRow(Frozen, eq=False):
    """What is confirmed by one number; the same row as before if its identity is."""

    identity: Hashable
    text: str
    about: Any


class _Screen(ABC):
    """Rows under numbers that stay. After an answer only what it changed is told."""

    why = ""
    page = 0  # rows listed at a time; 0: all
    moves = ""  # what may be typed
    doubtful = False  # whether a row stays open that nobody confirms

    def __init__(
        self, path: Path, desk: Desk, files: WrittenFiles, undo: Callable[[], None]
    ) -> None:
        self._path = path
        self._desk = desk
        self._files = files
        self._undo = undo
        self._numbers: dict[Hashable, int] = {}
        self._shown: dict[int, str] = {}
        self._listed: list[int] = []
        self._fresh = False  # whether what was listed last is what is left

    def hold(self) -> None:
        """Until the person goes on, or no row is left."""
        going = True
        while going:
            data = paths.read(self._path)
            rows = self._numbered(data)
            if not rows:
                return
            self._tell(rows)
            try:
                said = self._desk.typed(self._prompt(len(rows)))
                going = self._taken(data, rows, said)
            except UndoError:
                self._fresh = False
                self._undo()
            except ValueError as error:
                self._desk.say(str(error), 2)

    def _tell(self, rows: dict[int, _ScreenRow]) -> None:
        """The next rows once all that were listed are answered; else what reads otherwise now."""
        if rows.keys().isdisjoint(self._listed):
            self._list(rows, self._listed[-1] if self._listed else 0)
            self._fresh = True
        for number, row in rows.items():
            if self._shown.get(number, row.text) != row.text:
                self._show(number, row.text)

    def _prompt(self, rows: int) -> str:
        leave = f"leave {rows} open" if self.doubtful else "go on"
        go_on = f"enter: {leave}" if self._fresh else "enter: rows left"
        more = "n next, " if 0 < self.page < rows else ""
        return f"{go_on}; {self.moves}; {more}{'? ' if self.why else ''}u q"

    def _taken(self, data: bytes, rows: dict[int, _ScreenRow], said: str) -> bool:
        """What is typed, done; False to go on to what comes next."""
        match said.casefold():
            case "" if self._fresh:
                return False
            case "" | "list":
                self._list(rows, 0)
                self._fresh = True
            case "n" if self.page:
                self._list(rows, self._listed[-1])
            case "?" if self.why:
                self._legend()
            case _:
                self._answered(data, rows, said)
                self._fresh = False
        return True

    def _answered(self, data: bytes, rows: dict[int, _ScreenRow], said: str) -> None:
        if _SEVERAL.match(said):
            raise ValueError(_ONE)
        start, _, word = said.partition(" ")
        number = int(start) if start.isdecimal() else 0
        if number in self._shown and number not in rows:
            raise ValueError(f"Row {number} is answered already.")
        if number not in rows:
            raise ValueError(f"{said!r} names no row; begin with the number of one.")
        if number not in self._shown:
            raise ValueError(f"Row {number} was not on the screen yet; `n` shows the next ones.")
        told = self._change(data, rows[number].about, word.strip())
        self._shown[number] = ""  # told in any case, as an answer to what was typed
        if told:
            self._show(number, told)

    def _numbered(self, data: bytes) -> dict[int, _ScreenRow]:
        """The rows of the list as it is now; a row that was there before has its old number."""
        bom = lists.reader(self._path)(data)
        rows = {
            self._numbers.setdefault(row.identity, len(self._numbers) + 1): row
            for row in self._rows(bom, root_of(data, paths.shown(self._path)))
        }
        return dict(sorted(rows.items()))

    def _list(self, rows: dict[int, _ScreenRow], after: int) -> None:
        """The rows behind a number, from the first again where there are none."""
        first = not self._shown
        self._listed = [number for number in rows if number > after] or list(rows)
        self._listed = self._listed[: self.page or None]
        self._heading(len(rows))
        if first:
            self._legend()
        for number in self._listed:
            self._show(number, rows[number].text)
        self._foot()

    def _show(self, number: int, text: str) -> None:
        self._shown[number] = text
        self._desk.row(number, text)

    def _edited(self, before: bytes, row: Proposal, value: object) -> None:
        """Write a row as confirmed, or with another value, if the list can be read then."""
        name = paths.shown(self._path)
        with uninterrupted():
            try:
                made = confirmed(before, name, root_of(before, name), row, value)
                lists.reader(self._path)(made)
            except (EditError, InputErrors) as error:
                text = error.errors[0].message if isinstance(error, InputErrors) else str(error)
                raise ValueError(f"Not written: {text}") from None
            if not self._files.put({self._path: (before, made)}, frozenset()):
                raise ValueError(CHANGED)

    # What a screen is about

    @abstractmethod
    def _rows(self, bom: Bom, root: Any) -> Sequence[_ScreenRow]:  # noqa: ANN401 - as written
        """What may be confirmed in the list as it is now."""

    @abstractmethod
    def _heading(self, rows: int) -> None:
        """What stands above so many rows."""

    def _legend(self) -> None:  # noqa: B027 - not every screen has one
        """What the words mean: told on the first screen, and when asked."""

    def _foot(self) -> None:  # noqa: B027 - as above
        """What stands below the rows."""

    @abstractmethod
    def _change(self, data: bytes, about: Any, word: str) -> str:  # noqa: ANN401 - of a row
        """Write what was said of a row; how it reads then, where it is no row any more."""


class PlacesScreen(_Screen):
    """Sub-assemblies against places; a row is put right by its own number."""

    moves = "`2 PLACE` moves row 2, `2` confirms"

    def _rows(self, bom: Bom, root: Any) -> Sequence[_ScreenRow]:  # noqa: ANN401 - as written
        del root
        self._bom = bom
        parents = {part.parent for part in bom.parts}
        return [
            _ScreenRow(str(part.item), self._told(part), part)
            for part in bom.parts
            if part.item in parents or _unplaced(part) or str(part.item) in self._numbers
        ]

    def _told(self, part: Part) -> str:
        inside = sum(each.parent == part.item for each in self._bom.parts)
        lines = f", {inside} lines in it" if inside else ""
        name = part.description or part.part_number or ""
        doubt = ", proposed" if _unplaced(part) else ""
        return f"{part.item} {name}{lines}: {', '.join(part.locations)}{doubt}"

    def _heading(self, rows: int) -> None:
        del rows
        self._desk.heading("Where the sub-assemblies stand")

    def _foot(self) -> None:
        for place in self._bom.places:
            single = [
                str(part.item)
                for part in self._bom.parts
                if str(part.item) not in self._numbers
                and part.parent is None
                and place in part.locations
            ]
            if single:
                self._desk.say(f"at {place}, by themselves: {', '.join(single)}", 5)
        self._desk.say(f"Places: {', '.join(self._bom.places)}.")

    def hold(self) -> None:
        """Until the person goes on; without a row the places are told, and nothing is asked."""
        if not self._numbered(paths.read(self._path)):
            self._heading(0)
            self._foot()
        super().hold()

    def _change(self, data: bytes, about: Part, word: str) -> str:
        if not word and not _unplaced(about):
            raise ValueError("This row is not in doubt; name the place to move it to.")
        named: list[str] = []
        for each in filter(None, (one.strip() for one in word.split(","))):
            found = chosen(each, list(self._bom.places))
            if found is None or each.isdecimal():
                raise ValueError(f"{each} is none of the places.")
            named.append(found)
        row = Proposal(str(about.item), "", "location", "", (about,))
        self._edited(data, row, named[0] if len(named) == 1 else named or None)
        return ""  # it stays, and is told as it reads now


class KindsScreen(_Screen):
    """What was proposed of parts, and kinds that nobody knows."""

    why = _WHY_KIND
    page = _PAGE
    doubtful = True
    moves = "`2` confirms row 2, `2 WORD` corrects"

    def __init__(
        self,
        path: Path,
        desk: Desk,
        files: WrittenFiles,
        undo: Callable[[], None],
        *,
        item: str | None,
    ) -> None:
        super().__init__(path, desk, files, undo)
        self._item = item

    def _rows(self, bom: Bom, root: Any) -> Sequence[_ScreenRow]:  # noqa: ANN401 - as written
        return [
            _ScreenRow(
                (row.name, row.key, row.value, row.items),
                f"{_named(row)} {f'{row.value}, proposed' if row.value else 'not known yet'}",
                row,
            )
            for row in proposals(bom, root)
            if self._item is None or self._item in row.items
        ]

    def _heading(self, rows: int) -> None:
        self._desk.heading(f"What sort of parts ({rows} to confirm)")

    def _legend(self) -> None:
        if self._shown:
            self._desk.say(self.why, 2)
        for kind in _kinds():
            self._desk.say(f"{kind}: {facts()['part.kind'].meaning_of(kind)}", 2)

    def _change(self, data: bytes, about: Proposal, word: str) -> str:
        value = _stated(about, word)
        self._edited(data, about, value)
        said = about.value if value is None else word if about.key != "kind" else value
        written = ", ".join(said) if isinstance(said, list) else said
        return f"{_named(about)} {written}, confirmed"


def _unplaced(part: Part) -> bool:
    return "location" in (part.proposed or ())


def _kinds() -> list[str]:
    return [kind.value for kind in Kind if kind is not Kind.UNKNOWN]


def _named(row: Proposal) -> str:
    name = " ".join(dict.fromkeys(filter(None, (row.name, row.description))))
    return f"{name} ({', '.join(row.items)}): {row.key.replace('_', ' ')}"


def _stated(row: Proposal, word: str) -> Any:  # noqa: ANN401 - as written
    """What is stated instead of what was proposed; None where that is confirmed."""
    if not word:
        if not row.value:
            raise ValueError("Nobody proposed anything here; type what sort of part it is.")
        return None
    if row.key != "kind":
        return value_of(f"part.{row.key}", word)
    found = [chosen(each.strip(), _kinds()) for each in word.split(",")]
    if None in found or word.strip().isdecimal():
        raise ValueError(f"{word} is none of: {', '.join(_kinds())}.")
    return found[0] if len(found) == 1 else found
