"""Exports as rows of text cells: CSV and TSV, and XLSX by way of the extra `xlsx`."""

import csv
import datetime as dt
import io
import re
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from areafit.errors import InputError
from areafit.file.text import encoding_of
from areafit.pattern import pattern
from areafit.values import Frozen, replace

DELIMITERS = (",", ";", "\t", "|")
_STATED = pattern(r"\ufeff?sep=(.)\r?\n?", re.IGNORECASE)
_SAMPLE = 30  # rows that decide on the delimiter
_MOST_ROWS = 200_000


class Grid(Frozen):
    """Rows of cells, whitespace at their ends and inside them made plain.

    `start` is the number of the first row in the file, from 1. `semicolons` says that cells were
    separated by them, which leaves the comma for decimals. `notes` tell of cells that could not be
    taken as they are, `numbers` which were stored as numbers (row as in the file, column from 0).
    """

    rows: tuple[tuple[str, ...], ...]
    start: int = 1
    semicolons: bool = False
    notes: tuple[str, ...] = ()
    numbers: frozenset[tuple[int, int]] = frozenset()

    def from_row(self, number: int) -> "Grid":
        """The same from a row on, counted from 1 as the file counts.

        Raises:
            InputError: there is no such row.
        """
        skipped = number - self.start
        if not 0 <= skipped < len(self.rows):
            raise InputError(f"there is no row {number} to take the names of the columns from")
        return replace(self, rows=self.rows[skipped:], start=number)


def read_text_table(data: bytes, *, encoding: str = "", delimiter: str = "") -> Grid:
    """The rows of a file.

    Args:
        data: the file; UTF-8, or UTF-16 with a byte-order mark, unless `encoding` says otherwise.
        encoding: as Python names it; never guessed.
        delimiter: told from the first rows, or by a line `sep=;`, unless it is given.

    Raises:
        InputError: the text cannot be decoded, or the rows cannot be told apart.
    """
    text = _decoded(data, encoding)
    start = 1
    if stated := _STATED.match(text):
        text, start = text[stated.end() :], 2
        delimiter = delimiter or stated[1]
    delimiter = delimiter or _likely(text)
    try:
        rows = tuple(tuple(map(_plain, row)) for row in _rows(text, delimiter))
    except (csv.Error, TypeError) as error:
        raise InputError(f"the rows cannot be told apart: {error}") from None
    return Grid(rows, start, delimiter == ";")


def read_workbook(data: bytes, sheet: str = "") -> Grid:
    """The rows of a sheet, the first one unless it is named.

    Numbers become text as a person writes them; where they stood is kept, since a part number that
    was stored as a number has lost its leading zeros before. Formulas that were never calculated
    and dates are noted.

    Raises:
        InputError: openpyxl is not installed, or the file or sheet cannot be read.
    """
    values, formulas = (_sheet(data, sheet, values=values) for values in (True, False))
    rows: list[tuple[str, ...]] = []
    notes: list[str] = []
    numbers: set[tuple[int, int]] = set()
    for number, (row, written) in enumerate(zip(values, formulas, strict=False), 1):
        if number > _MOST_ROWS:
            raise InputError(f"more than {_MOST_ROWS} rows", "split the sheet")
        cells = tuple(_cell(cell) for cell in row)
        for column, (cell, source) in enumerate(zip(row, written, strict=False), 1):
            if isinstance(cell, int | float) and not isinstance(cell, bool):
                numbers.add((number, column - 1))
            if cell is None and isinstance(source, str) and source.startswith("="):
                notes.append(f"row {number}, cell {column}: a formula that was never calculated")
            elif isinstance(cell, dt.date):
                told = cells[column - 1]
                notes.append(f"row {number}, cell {column}: a date, taken as {told}")
        rows.append(cells)
    return Grid(tuple(rows), notes=tuple(notes), numbers=frozenset(numbers))


def _decoded(data: bytes, encoding: str) -> str:
    name = encoding or encoding_of(data)
    try:
        return data.decode(name)
    except LookupError:
        raise InputError(
            f"there is no encoding {encoding!r}", "cp1252 and utf-8 are usual"
        ) from None
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            f"line {line} is not in {name.removesuffix('-sig').upper()}; state the encoding, such "
            "as cp1252 for many exports of Windows programs"
        ) from None


def _rows(text: str, delimiter: str) -> Iterator[list[str]]:
    return csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)


def _likely(text: str) -> str:
    """The delimiter by which most rows have as many cells as the first; a comma if none does."""
    return max(DELIMITERS, key=lambda delimiter: _agreement(text, delimiter))


def _agreement(text: str, delimiter: str) -> tuple[bool, int, int]:
    try:
        rows = [row for row, _ in zip(_rows(text, delimiter), range(_SAMPLE), strict=False)]
    except csv.Error:
        return False, 0, 0
    widths = [len(row) for row in rows if row]
    if not widths or widths[0] < 2:
        return False, 0, 0
    return True, sum(width == widths[0] for width in widths), widths[0]


def _sheet(data: bytes, name: str, *, values: bool) -> Iterator[tuple[Any, ...]]:
    try:
        import openpyxl  # noqa: PLC0415 - an extra
    except ImportError:
        raise InputError(
            "XLSX needs the extra `xlsx`: pip install 'areafit[xlsx]'; or export as CSV"
        ) from None
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=values)
        known = name in book.sheetnames or not name
        found = (book[name] if name else book.worksheets[0]) if known else None
        yield from found.iter_rows(values_only=True) if found else ()
    except Exception as error:  # noqa: BLE001 - whatever a broken archive makes openpyxl raise
        raise InputError(f"this is no workbook that can be read: {error}") from None
    if not known:
        raise InputError(f"there is no sheet {name!r}; there are {', '.join(book.sheetnames)}")


def _cell(cell: object) -> str:
    match cell:
        case None:
            return ""
        case bool():
            return "true" if cell else "false"
        case float():
            whole = Decimal(repr(cell))
            return format(whole.to_integral_value() if whole % 1 == 0 else whole, "f")
        case dt.datetime() if cell.time() == dt.time():
            return cell.date().isoformat()
        case dt.date():
            return cell.isoformat()
        case _:
            return _plain(str(cell))


def _plain(cell: str) -> str:
    """The text of a cell on one line."""
    return " ".join(cell.split())
