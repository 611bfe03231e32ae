"""Rows to lines of a list: which cell goes to which key, and what could not be taken over."""

from collections import Counter
from collections.abc import Iterator, Sequence

from areafit.file.encoding import refused
from areafit.importing.columns import Columns
from areafit.importing.grid import Grid, GridError
from areafit.pattern import pattern
from areafit.values import Frozen

# Cells that say nothing; `none` too: whoever filled in an export did not answer our question.
_NOTHING = frozenset(
    {"none", "n/a", "na", "-", "–", "—", "?", "tbd", "tba", "tbc", "unknown", "pending", "nil"}
    | {"keine", "kein", "entfällt", "unbekannt", "offen", "sans", "aucun", "aucune", "inconnu"}
)
NUMBERS = ("quantity", "unit_cost")
_COPIED = (
    "part_number",
    "description",
    "quantity",
    "unit_cost",
    "kind",
    "marking",
    "ambient",
    "surface_temperature",
    "ingress",
    "exposure",
)
_LEVEL = pattern(r"\.*(\d{1,2})")
_COMMA = pattern(r"\d+,\d+")


class Line(Frozen):
    """One line: the row it comes from, its item, and texts by key in writing order."""

    row: int
    item: str
    location: str
    texts: dict[str, str]
    materials: tuple[str, ...] = ()
    certificate: str = ""
    parent: str = ""


def lines_of(
    grid: Grid, columns: Columns, *, place: str, decimal_comma: bool, notes: list[str]
) -> list[Line]:
    """The lines of all rows below the names of the columns; what is left out goes to `notes`.

    `place` is the location of lines that state none.

    Raises:
        GridError: there is no line.
    """
    found: list[Line] = []
    items: Counter[str] = Counter()
    above: list[str] = []
    _note_numbers(grid, columns, notes)
    for number, row in enumerate(grid.rows[1:], grid.start + 1):
        cells = _Cells(number, row, columns, notes)
        texts = {key: text for key in _COPIED if (text := cells.text(key))}
        if not texts.keys() & {"part_number", "description"} and not cells.text("item"):
            if any(row):
                notes.append(f"row {number}: nothing names the part; the row is left out")
            continue
        item = _item(cells, len(found) + 1, items, notes)
        if decimal_comma and grid.semicolons:
            texts |= {k: _pointed(v) for k, v in texts.items() if k in NUMBERS}
        found.append(
            Line(
                row=number,
                item=item,
                location=cells.text("location") or place,
                texts=texts,
                materials=tuple(filter(None, map(str.strip, cells.text("material").split(";")))),
                certificate=cells.text("certificate"),
                parent=cells.text("parent") or _above(cells.text("level"), item, above),
            )
        )
    if not found:
        raise GridError("no row below the names of the columns holds a part")
    return found


def _note_numbers(grid: Grid, columns: Columns, notes: list[str]) -> None:
    for key in ("item", "part_number"):
        count = sum(
            column == columns.places.get(key) and row > grid.start for row, column in grid.numbers
        )
        if count:
            notes.append(f"{key}: {count} were stored as numbers; leading zeros were lost before")


class _Cells(Frozen):
    number: int
    row: Sequence[str]
    columns: Columns
    notes: list[str]

    def text(self, key: str) -> str:
        """The cell of a key, empty where it says nothing; refused characters are left out."""
        cell = self.columns.cell(self.row, key)
        if cell.casefold() in _NOTHING:
            return ""
        if refused(cell) is None:
            return cell
        self.notes.append(f"row {self.number}, {key}: characters that cannot be shown are left out")
        return "".join(sign for sign in cell if refused(sign) is None)


def _item(cells: _Cells, count: int, items: Counter[str], notes: list[str]) -> str:
    """The item as written, numbered on where it was met before."""
    written = cells.text("item")
    item = written or f"line {count}"
    items[item] += 1
    if items[item] > 1:
        item = f"{item} ({items[item]})"
        notes.append(f"row {cells.number}: the item {written!r} is not unique; taken as {item!r}")
        items[item] += 1
    return item


def _above(level: str, item: str, above: list[str]) -> str:
    """The item one level up, by a column of levels (1, 2, ..2); empty at the top."""
    found = _LEVEL.fullmatch(level)
    if found is None:
        return ""
    depth = min(int(found[1]), len(above) + 1)
    del above[max(depth - 1, 0) :]
    parent = above[-1] if above else ""
    above.append(item)
    return parent


def _pointed(text: str) -> str:
    return text.replace(",", ".") if _COMMA.fullmatch(text) else text


def places_of(lines: Sequence[Line]) -> Iterator[str]:
    """The locations that lines name, each once, in their order."""
    yield from dict.fromkeys(line.location for line in lines)
