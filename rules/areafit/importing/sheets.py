"""Exports as rows of text cells: CSV, TSV and XLSX.

Nothing in a file decides how much is read: bytes unpacked, rows, columns and cells have limits, and
what a workbook says of its own size is not asked.
"""

import codecs
import csv
import datetime as dt
import io
import re
import warnings
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from itertools import islice
from math import isfinite
from typing import Any

from areafit.errors import InputError, brief
from areafit.file.packed import looked_into
from areafit.file.text import encoding_of
from areafit.pattern import pattern
from areafit.values import Frozen, replace

DELIMITERS = (",", ";", "\t", "|")
_STATED = pattern(r"\ufeff?sep=(.)\r?\n?", re.IGNORECASE)
_SAMPLE = 30  # rows that decide on the delimiter
_MOST_ROWS = 200_000
_MOST_COLUMNS = 1_000
_MOST_CELLS = 5_000_000
_NO_CHARSETS = frozenset({"punycode", "idna", "undefined", "unicode-escape", "raw-unicode-escape"})
_DECIMALS = pattern(r"0\.(0+)")
_ERRORS = frozenset({"#N/A", "#REF!", "#NAME?", "#VALUE!", "#DIV/0!", "#NUM!", "#NULL!"})


class Grid(Frozen):
    """Rows of cells, whitespace at their ends and inside them made plain.

    `start` is the number of the first row in the file, from 1. `notes` tell of cells that could not
    be taken as they are, `numbers` which were stored as numbers (row as in the file, column from
    0).
    """

    rows: tuple[tuple[str, ...], ...]
    start: int = 1
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
    rows: list[tuple[str, ...]] = []
    quoted: list[tuple[int, str]] = []  # rows that hold a quote, as they are written
    written: list[str] = []
    try:
        for row in csv.reader(_noting(text, written), delimiter=delimiter):
            rows.append(tuple(map(_plain, row)))
            if len(rows) > _MOST_ROWS:
                raise _too_many_rows()
            if any('"' in line for line in written):
                quoted.append((start + len(rows) - 1, "".join(written)))
            written.clear()
    except (csv.Error, TypeError) as error:
        if len(delimiter) == 1:
            _closed(start + len(rows), "".join(written), delimiter)
        raise InputError(f"the rows cannot be told apart: {error}") from None
    widths = Counter(map(len, rows))
    usual = max(widths, key=lambda width: (widths[width], width), default=0)
    notes = tuple(note for row in quoted if (note := _told_of_quotes(*row, delimiter, usual)))
    return Grid(tuple(rows), start, notes)


def read_workbook(data: bytes, sheet: str = "") -> Grid:
    """The rows of a sheet, the first one unless it is named.

    Numbers become text as the sheet shows them, 1.10 with its zero where the format of the cell has
    two places; where they stood is kept, since a part number that was stored as a number has lost
    its leading zeros before. Formulas that were never calculated, errors and dates are noted.

    Raises:
        InputError: the file or sheet cannot be read, or is too large.
    """
    formulas = looked_into(data).formulas
    rows: list[tuple[str, ...]] = []
    notes: list[str] = []
    numbers: set[tuple[int, int]] = set()
    count = 0
    for number, row in enumerate(_sheet(data, sheet, values=True), 1):
        cells = []
        for column, cell in enumerate(row, 1):
            text, note = _cell(cell.value, cell)
            if note:
                notes.append(f"row {number}, cell {column}: {note}")
            if isinstance(cell.value, int | float) and not isinstance(cell.value, bool):
                numbers.add((number, column - 1))
            cells.append(text)
        count += len(cells)
        if number > _MOST_ROWS:
            raise _too_many_rows()
        if len(cells) > _MOST_COLUMNS or count > _MOST_CELLS:
            raise InputError(
                f"a sheet of more than {_MOST_COLUMNS} columns or {_MOST_CELLS:,} cells",
                "delete what stands beside the list, or export it as CSV",
            )
        rows.append(tuple(cells))
    if formulas:
        notes += _not_calculated(data, sheet, rows)
    return Grid(tuple(rows), notes=tuple(notes), numbers=frozenset(numbers))


def _too_many_rows() -> InputError:
    return InputError(f"more than {_MOST_ROWS:,} rows", "split the file")


def _not_calculated(data: bytes, sheet: str, rows: list[tuple[str, ...]]) -> Iterator[str]:
    for number, (row, told) in enumerate(
        zip(_sheet(data, sheet, values=False), rows, strict=False), 1
    ):
        for column, (cell, text) in enumerate(zip(row, told, strict=False), 1):
            if not text and isinstance(cell.value, str) and cell.value.startswith("="):
                yield f"row {number}, cell {column}: a formula that was never calculated"


def _decoded(data: bytes, encoding: str) -> str:
    name = encoding or encoding_of(data)
    if not _is_charset(name):
        raise InputError(f"there is no encoding {encoding!r}", "cp1252 and utf-8 are usual")
    try:
        return data.decode(name)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            f"line {line} is not in {name.removesuffix('-sig').upper()}; state its encoding, such "
            "as --encoding cp1252 for many exports of Windows programs"
        ) from None


def _is_charset(name: str) -> bool:
    """Whether Python knows the name as that of a set of characters, as files are written in."""
    try:
        found = codecs.lookup(name)
        b"ab".decode(name)
    except UnicodeDecodeError:
        pass
    except (LookupError, ValueError):  # no codec of that name, or none of text
        return False
    return found.name.replace("_", "-") not in _NO_CHARSETS


def _noting(text: str, written: list[str]) -> Iterator[str]:
    """The lines of a text, each also put where the row that it belongs to is looked at."""
    for line in io.StringIO(text, newline=""):
        written.append(line)
        yield line


@cache
def _cells(delimiter: str) -> re.Pattern[str]:
    """A cell: what its quotes hold, the closing one, and what stands behind that."""
    apart = re.escape(delimiter)
    return re.compile(
        rf'(?:\A|{apart})(?:"([^"]*(?:""[^"]*)*)("?)([^{apart}\r\n]*)|[^{apart}\r\n]*)'
    )


def _closed(number: int, written: str, delimiter: str) -> None:
    """Whether every quote of a row is closed in it, and not by the opening one of a later row.

    Raises:
        InputError: one is not: it would swallow the lines below.
    """
    begins = _left_open(written, delimiter)
    if begins is not None:
        raise InputError(
            f"row {number}: the quote before {brief(begins)!r} is not closed in its row; the "
            "lines below would be read as one cell",
            "close it there, or leave it out; a quote inside of a quoted cell is written twice",
        )


def _left_open(written: str, delimiter: str) -> str | None:
    """The first line behind a quote that is not closed, or is by the opening one of a later row."""
    for inside, closing, behind in _cells(delimiter).findall(written):
        lines = inside.splitlines()
        swallows = len(lines) > 1 and behind.strip()
        if inside and (swallows or not closing):
            return next(filter(str.strip, lines), "")
    return None


def _told_of_quotes(number: int, written: str, delimiter: str, columns: int) -> str:
    """What to say of the quotes of a row, of which each is closed; empty where nothing is odd.

    Raises:
        InputError: one is not closed.
    """
    _closed(number, written, delimiter)
    for inside, _, behind in _cells(delimiter).findall(written):
        if behind.strip():
            return (
                f"row {number}: {brief(behind.strip())!r} stands behind a closing quote; look "
                "whether its cells are shifted. A quote inside of a quoted cell is written twice"
            )
        lines = inside.splitlines()
        if len(lines) > 1 and columns > 1 and inside.count(delimiter) >= columns - 1:
            return (
                f"row {number}: the cell that begins with {brief(lines[0])!r} goes on over "
                f"{len(lines)} lines and holds as many separators as a row; if its quote is not "
                "closed where it should be, these lines are missing"
            )
    return ""


def _likely(text: str) -> str:
    """The delimiter by which most rows have as many cells; a comma if none has several."""
    return max(DELIMITERS, key=lambda delimiter: _agreement(text, delimiter))


def _agreement(text: str, delimiter: str) -> tuple[bool, int, int]:
    rows: list[list[str]] = []
    written: list[str] = []
    try:
        for row in islice(csv.reader(_noting(text, written), delimiter=delimiter), _SAMPLE):
            rows.append(row)
            if _left_open("".join(written), delimiter) is not None:
                break
            written.clear()
    except csv.Error:
        rows.clear()
    if _left_open("".join(written), delimiter) is not None:  # it hides the rows below
        lines = io.StringIO(text, newline="")
        rows = [line.split(delimiter) for line in islice(lines, _SAMPLE)]
    widths = Counter(len(row) for row in rows if len(row) > 1)
    if not widths:
        return False, 0, 0
    width, count = max(widths.items(), key=lambda each: (each[1], each[0]))
    return True, count, width


def _sheet(data: bytes, name: str, *, values: bool) -> Iterator[tuple[Any, ...]]:
    import openpyxl  # noqa: PLC0415 - takes as long as all else, and most runs read no workbook

    known = True
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what a workbook holds besides cells
            book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=values)
            if not book.worksheets:
                raise ValueError("it has no sheet")  # noqa: TRY301 - told as all else below
            known = name in book.sheetnames or not name
            found = (book[name] if name else book.worksheets[0]) if known else None
            if found is not None:
                found.reset_dimensions()  # what it says of its size is not asked
                yield from found.iter_rows()
    except Exception as error:  # noqa: BLE001 - whatever a broken archive makes openpyxl raise
        raise InputError(f"this is no workbook that can be read: {error}") from None
    if not known:
        raise InputError(f"there is no sheet {name!r}; there are {', '.join(book.sheetnames)}")


def _cell(value: object, cell: Any) -> tuple[str, str]:  # noqa: ANN401, PLR0911 - of openpyxl
    """The text of a cell, and a note where it is not what it seems."""
    match value:
        case None:
            return "", ""
        case bool():
            return "true" if value else "false", ""
        case float() | int():
            if not isfinite(value):
                return "", "a number beyond all bounds, left out"
            return _number(value, cell.number_format), ""
        case dt.datetime() if value.time() == dt.time():
            return value.date().isoformat(), f"a date, taken as {value.date().isoformat()}"
        case dt.date():
            return value.isoformat(), f"a date, taken as {value.isoformat()}"
        case str() if value in _ERRORS:
            return "", f"{value}, left out"
        case _:
            return _plain(str(value)), ""


def _number(value: float, shown_as: str | None) -> str:
    """A number with the decimal places that the format of its cell shows, or all that it has."""
    whole = Decimal(repr(value))
    text = format(whole.to_integral_value() if whole % 1 == 0 else whole, "f")
    places = _DECIMALS.fullmatch(shown_as or "")
    if places is None:
        return text
    fixed = f"{whole:.{len(places[1])}f}"
    return fixed if Decimal(fixed) == whole and whole % 1 else text


def _plain(cell: str) -> str:
    """The text of a cell on one line."""
    return " ".join(cell.split())
