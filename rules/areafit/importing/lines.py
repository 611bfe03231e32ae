"""Rows to lines: which cell is which fact, and how the lines stand in one another.

Cells are copied. What they leave open is proposed where a description tells it, and marked so.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from areafit.errors import InputError, brief
from areafit.file.facts import FactRow, facts
from areafit.file.text import refused, yes_or_no
from areafit.importing.columns import NOTHING, Columns, is_total, unit_of
from areafit.importing.proposals import proposed, tells_kind
from areafit.importing.sheets import Grid
from areafit.pattern import pattern
from areafit.values import Frozen, replace

_PLACED = frozenset({"item", "location", "parent", "kind"})  # not copied as they stand
_ROWS = tuple(row for row in facts().values() if row.column and row.key not in _PLACED)
_NO_ANSWERS = frozenset({"marking", "materials.material"})  # columns that any export may have
_LEVEL = pattern(r"[.\-+*>_ ]*(\d{1,2})(?:\.0)?[.]?")
_DOTTED = pattern(r"(.*\d)\.(\d+)")
_COMMA = pattern(r"(?<![\d.,])(\d+),(\d+)(?![\d.,])")
_BARE = pattern(r"[-+−]?\d[\d.,]*")
_SPAN = pattern(
    r"([-+−]?\d[\d.,]*)\s*(?:\.{2,3}|…|to|bis|à|a|–|-|/)\s*([-+−]?\d[\d.,]*)"  # -20 bis +60
)
_PLAIN_NUMBER = pattern(r"(?:0|[1-9]\d{0,8})(?:\.\d+)?")
_SEVERAL = pattern(r"\s*[;+]\s*")


class ExportLine(Frozen):
    """One line: the row it comes from, its item, and what it states by keys of a list.

    `location` is empty where the parent gives it; `place` stands there if the parent falls away.
    """

    row: int
    item: str
    parent: str | None
    location: tuple[str, ...]
    place: str
    stated: dict[str, Any]
    proposed: tuple[str, ...] = ()

    @property
    def part_number(self) -> str | None:
        """As the export has it."""
        return self.stated.get("part_number")

    @property
    def description(self) -> str | None:
        """As the export has it."""
        return self.stated.get("description")

    @property
    def line_id(self) -> str | None:
        """As the export has it."""
        return self.stated.get("line_id")

    def facts(self) -> dict[str, Any]:
        """All that the list says of the line, in the order in which it is written."""
        told = {"item": self.item, **self.stated}
        if self.parent is not None:
            told["parent"] = self.parent
        if self.location:
            told["location"] = self.location[0] if len(self.location) == 1 else [*self.location]
        if self.proposed:
            told["proposed"] = [*self.proposed]
        return {key: told[key] for key in (*_FIRST, *told) if key in told}

    def without(self, key: str, inner: str = "") -> "ExportLine":
        """The line that does not state a key, or not the key inside it."""
        if key == "parent":
            return replace(self, parent=None, location=self.location or (self.place,))
        stated = {each: value for each, value in self.stated.items() if each != key}
        if inner and (left := _bare_of(self.stated[key], inner)):
            stated[key] = left
        line = replace(self, stated=stated, proposed=tuple(k for k in self.proposed if k != key))
        return _with_kind(line, assembly=False) if key == "kind" else line


_FIRST = (
    *("item", "part_number", "description", "quantity", "unit_cost", "vendor", "maker"),
    *("maker_number", "note", "line_id", "parent", "location", "kind", "electrical_content"),
    "proposed",
)


def _bare_of(value: Any, inner: str) -> Any:  # noqa: ANN401 - as the editor writes values
    if isinstance(value, list):
        return [_bare_of(each, inner) for each in value]
    return {key: each for key, each in value.items() if key != inner}


def lines_of(
    grid: Grid, columns: Columns, *, place: str, decimal_comma: bool, notes: list[str]
) -> list[ExportLine]:
    """The lines of all rows below the names of the columns; what is left out goes to `notes`.

    `place` is the location of top lines that state none. Decimal commas are told first, since
    figures that hold them are left out unless `decimal_comma` says how to read them.

    Raises:
        InputError: there is no line.
    """
    table = _Table(grid, columns, notes, decimal_comma)
    kept = list(table.parts())
    if not kept:
        raise InputError("no row below the names of the columns holds a part")
    table.tell_numbers()
    written = list(_dotted(kept, notes))
    above = _parents(kept, written, table)
    items = _items(kept, written, above, notes)
    assemblies, holding = set(above.values()), _holding(kept, above)
    lines: list[ExportLine] = []
    places: list[tuple[str, ...]] = []
    for index, cells in enumerate(kept):
        parent = above.get(index)
        stated = tuple(filter(None, _SEVERAL.split(cells.text("location"))))
        before = places[parent] if parent is not None and parent < index else ()
        own = stated or (() if parent is not None else (place,))
        places.append(own or before)
        line = ExportLine(
            row=cells.number,
            item=items[index],
            parent=None if parent is None else items[parent],
            location=() if own == before else own,
            place=place,
            stated=cells.stated(),
        )
        moves = index in holding
        lines.append(_with_kind(line, assembly=index in assemblies, moves_below=moves))
    return lines


def _holding(kept: Sequence["_Cells"], above: Mapping[int, int]) -> set[int]:
    """The rows below which something moves or is wired, by its kind or by its description."""
    found: set[int] = set()
    for index, cells in enumerate(kept):
        if cells.text("kind") or tells_kind(cells.text("description")):
            parent = above.get(index)
            while parent is not None and parent not in found:
                found.add(parent)
                parent = above.get(parent)
    return found


def _with_kind(line: ExportLine, *, assembly: bool, moves_below: bool = True) -> ExportLine:
    """The line with its kind, and what else its description proposes where the export is silent."""
    if "kind" in line.stated:
        return line
    plate = line.stated.get("marking")
    told = proposed(
        line.description or "",
        assembly=assembly,
        moves_below=moves_below,
        marking=plate if isinstance(plate, str) else "",
    )
    added = {key: value for key, value in told.items() if key not in line.stated}
    marked = tuple(key for key, value in added.items() if value != "unknown")
    return replace(line, stated={**line.stated, **added}, proposed=marked)


# Cells


class _Cells(Frozen, eq=False):
    number: int
    row: Sequence[str]
    table: "_Table"

    def text(self, key: str) -> str:
        """The cell of a column, empty where it says nothing; refused characters are left out."""
        cell = self.table.columns.cell(self.row, key)
        if cell.casefold() in NOTHING:
            return ""
        if refused(cell) is None:
            return cell
        self.table.notes.append(
            f"row {self.number}, {key}: characters that cannot be shown are left out"
        )
        return "".join(sign for sign in cell if refused(sign) is None)

    def stated(self) -> dict[str, Any]:
        """What the cells state, by keys of a list."""
        found: dict[str, Any] = {}
        inner: dict[str, dict[str, Any]] = defaultdict(dict)
        for row in _ROWS:
            value = self._value(row)
            if value is not None:
                key, _, below = row.key.partition(".")
                if below:
                    inner[key][below] = value
                else:
                    found[key] = value
        if kinds := list(
            filter(None, map(str.strip, self.text("kind").replace(",", ";").split(";")))
        ):
            found["kind"] = kinds[0] if len(kinds) == 1 else kinds
        if materials := self._materials(inner.pop("materials", {})):
            found["materials"] = materials
        papers = inner.pop("evidence", {})
        if "number" in papers:
            found["evidence"] = [{"type": papers.pop("type", "certificate"), **papers}]
        return {**found, **inner}

    def _value(self, row: FactRow) -> Any:  # noqa: ANN401 - as the editor writes values
        cell = self.table.columns.cell(self.row, row.column)
        if cell == "none" and "none" in row.choices and row.key not in _NO_ANSWERS:
            return cell  # a word of that fact, under a name that only we give a column
        text = self.text(row.column)
        if not text:
            return None
        unit = unit_of(row)
        if row.words == ("yes", "no"):
            several = [yes_or_no(each) for each in _SEVERAL.split(text)]
            return text if None in several else several[0] if len(several) == 1 else several
        if unit and unit != "date":
            text = self.table.figure(text, row.column, unit)
        if unit == "number" and _PLAIN_NUMBER.fullmatch(text):
            return Decimal(text)
        return text

    def _materials(self, told: dict[str, Any]) -> list[dict[str, Any]]:
        """A material for each in its cell; what else is said of them, one for each or for all."""
        names = list(filter(None, map(str.strip, str(told.pop("material", "")).split(";"))))
        uses: list[dict[str, Any]] = [{"material": name} for name in names]
        for key, value in told.items():
            several = _SEVERAL.split(value) if isinstance(value, str) else value
            several = several if isinstance(several, list) else [several] * len(names)
            if len(several) != len(names):
                self.table.notes.append(
                    f"row {self.number}, {key}: left out, since it is not said for each material"
                )
                continue
            for use, each in zip(uses, several, strict=True):
                use[key] = each
        return uses


class _Table:
    """The rows of an export and how their cells are read."""

    def __init__(
        self,
        grid: Grid,
        columns: Columns,
        notes: list[str],
        decimal_comma: bool,  # noqa: FBT001
    ) -> None:
        self.grid, self.columns, self.notes = grid, columns, notes
        self._decimal_comma = decimal_comma
        notes += columns.worded
        if not decimal_comma:
            self._tell_commas()

    def _tell_commas(self) -> None:
        found = [
            (number, text)
            for number, row in enumerate(self.grid.rows[1:], self.grid.start + 1)
            for each in _ROWS
            if unit_of(each) not in ("", "date")
            and _COMMA.search(text := self.columns.cell(row, each.column))
        ]
        if found:
            number, text = found[0]
            self.notes.insert(
                0,
                f"{len(found)} figures have a decimal comma, such as {text!r} in row {number}; "
                "they are read with --decimal-comma, and left out without it",
            )

    def parts(self) -> Iterator[_Cells]:
        """The rows that hold a part; totals, repeated names of columns and blanks do not."""
        repeated = 0
        for number, row in enumerate(self.grid.rows[1:], self.grid.start + 1):
            cells = _Cells(number, row, self)
            filled = [cell for cell in row if cell]
            if not filled:
                continue
            if self._is_repeated(row):
                repeated += 1
                continue
            named = {key: cells.text(key) for key in ("part_number", "description", "item")}
            if self._is_total(row, named):
                self.notes.append(f"row {number}: a total ({filled[0]!r}), and no part")
            elif not any(named.values()):
                self.notes.append(f"row {number}: nothing names the part; the row is left out")
            elif len(filled) == 1 and named["item"] and len(self.columns.places) > 1:
                self.notes.append(f"row {number}: {filled[0]!r} alone is no part; left out")
            else:
                yield cells
        if repeated:
            self.notes.append(f"{repeated} rows repeat the names of the columns; left out")

    def _is_repeated(self, row: Sequence[str]) -> bool:
        names = self.columns.names
        same = [a == b for a, b in zip(row, names, strict=False) if a or b]
        return len(same) > 1 and all(same)

    @staticmethod
    def _is_total(row: Sequence[str], named: Mapping[str, str]) -> bool:
        """Whether the first words of a row say so and no part is numbered."""
        words = [cell for cell in row if any(map(str.isalpha, cell))]
        number = named["part_number"]
        return bool(words) and is_total(words[0]) and (not number or is_total(number))

    def figure(self, text: str, column: str, unit: str) -> str:
        """A figure with a decimal point, and with the unit that the name of its column gives."""
        if self._decimal_comma:
            text = _COMMA.sub(r"\1.\2", text)
        given = self.columns.units.get(column, "")
        if not given or unit == "number":
            return text
        if _BARE.fullmatch(text):
            return f"{text} {given}"
        if span := _SPAN.fullmatch(text):
            return f"{span[1].lstrip('+')}..{span[2].lstrip('+')} {given}"
        return text

    def tell_numbers(self) -> None:
        """Tell how many items and part numbers were stored as numbers."""
        for key in ("item", "part_number"):
            place = self.columns.places.get(key)
            count = sum(
                column == place and row > self.grid.start for row, column in self.grid.numbers
            )
            if count:
                self.notes.append(
                    f"{key}: {count} were stored as numbers; leading zeros were lost before"
                )


# Structure


def _parents(kept: Sequence[_Cells], items: Sequence[str], table: _Table) -> dict[int, int]:
    """Which line stands in which, by their places: as stated, by levels, or by dotted items."""
    by_item = {text: index for index, text in reversed(list(enumerate(items)))}
    by_number: dict[str, list[int]] = defaultdict(list)
    for index, cells in enumerate(kept):
        by_number[cells.text("part_number")].append(index)
    found: dict[int, int] = {}
    open_: list[tuple[int, int]] = []  # level and line, of those that the next may stand in
    levelled = "level" in table.columns.places
    for index, cells in enumerate(kept):
        if stated := cells.text("parent"):
            parent = _named(stated, by_item, by_number, cells)
        elif levelled:
            level = cells.text("level")
            if _LEVEL.fullmatch(level) is None:
                said = f"{brief(level)} is no level" if level else "it is empty"
                table.notes.append(f"row {cells.number}, level: {said}; taken as a line at the top")
            parent = _by_level(level, index, open_)
        else:
            parent = _by_dots(items[index], by_item)
        if parent is not None and parent != index:
            found[index] = parent
    return found


def _named(
    stated: str, items: Mapping[str, int], numbers: Mapping[str, Sequence[int]], cells: _Cells
) -> int | None:
    """The line that a cell names as its parent, by item or by part number."""
    if stated in items:
        return items[stated]
    candidates = numbers.get(stated, ())
    if len(candidates) == 1:
        return candidates[0]
    why = "several lines have" if candidates else "no line has"
    cells.table.notes.append(
        f"row {cells.number}, parent: left out, since {why} the item or part number {stated!r}"
    )
    return None


def _by_level(level: str, index: int, open_: list[tuple[int, int]]) -> int | None:
    """The line above by a column of levels (0, 1, ..2); None at the top."""
    found = _LEVEL.fullmatch(level)
    if found is None:
        return None
    depth = int(found[1])
    while open_ and open_[-1][0] >= depth:
        open_.pop()
    parent = open_[-1][1] if open_ else None
    open_.append((depth, index))
    return parent


def _by_dots(text: str, items: Mapping[str, int]) -> int | None:
    """The line that 1.2.3 stands in: 1.2, or 1 where that is not listed."""
    while found := _DOTTED.fullmatch(text):
        text = found[1]
        if text in items:
            return items[text]
    return None


def _dotted(kept: Sequence[_Cells], notes: list[str]) -> Iterator[str]:
    """The items as written, 1.10 in place of 1.1 where a spreadsheet lost the zero.

    It did where the same item came before and the one that follows the last of its level is meant.
    """
    last: dict[str, int] = {}
    seen: set[str] = set()
    lost = 0
    for cells in kept:
        text = cells.text("item")
        found = _DOTTED.fullmatch(text)
        if found is not None:
            stem, number = found[1], int(found[2])
            following = last.get(stem, 0) + 1
            if text in seen and following % 10 == 0 and str(following).rstrip("0") == found[2]:
                text, number = f"{stem}.{following}", following
                lost += 1
            last[stem] = number
        seen.add(text)
        yield text
    if lost:
        notes.append(
            f"item: {lost} had lost a zero, since 1.10 as a number is 1.1; taken by their order. "
            "Store that column as text"
        )


def _items(
    kept: Sequence[_Cells], written: Sequence[str], above: Mapping[int, int], notes: list[str]
) -> list[str]:
    """An item for each line, unique: as written, within its assembly, or numbered on."""
    parents: dict[str, set[int | None]] = defaultdict(set)
    for index, text in enumerate(written):
        parents[text].add(above.get(index))
    anew = any(text and len(each) > 1 for text, each in parents.items())
    if anew:
        notes.append(
            "item: items begin anew in each assembly; taken as item of the assembly, dot, item"
        )
    items: list[str] = []
    taken: Counter[str] = Counter()
    for index, (cells, text) in enumerate(zip(kept, written, strict=True)):
        item = text or f"line {index + 1}"
        parent = above.get(index)
        if anew and text and parent is not None and parent < index:
            stem = items[parent]
            item = text if text.startswith(f"{stem}.") else f"{stem}.{text}"
        taken[item] += 1
        if taken[item] > 1:
            unique = f"{item} ({taken[item]})"
            notes.append(
                f"row {cells.number}: the item {text!r} is not unique; taken as {unique!r}"
            )
            item = unique
            taken[item] += 1
        items.append(item)
    return items
