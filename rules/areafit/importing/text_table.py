"""CSV and TSV: encoding, delimiter, and the rows behind them."""

import codecs
import csv
import io
import re
from collections.abc import Iterator

from areafit.importing.grid import Grid, GridError, plain
from areafit.pattern import pattern

DELIMITERS = (",", ";", "\t", "|")
_STATED = pattern(r"\ufeff?sep=(.)\r?\n?", re.IGNORECASE)
_SAMPLE = 30  # rows that decide on the delimiter
_UTF_16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def read_text_table(data: bytes, *, encoding: str = "", delimiter: str = "") -> Grid:
    """The rows of a file.

    Args:
        data: the file; UTF-8, or UTF-16 with a byte-order mark, unless `encoding` says otherwise.
        encoding: as Python names it; never guessed.
        delimiter: told from the first rows, or by a line `sep=;`, unless it is given.

    Raises:
        GridError: the text cannot be decoded, or the rows cannot be told apart.
    """
    text = _decoded(data, encoding)
    start = 1
    if stated := _STATED.match(text):
        text, start = text[stated.end() :], 2
        delimiter = delimiter or stated[1]
    delimiter = delimiter or _likely(text)
    try:
        rows = tuple(tuple(map(plain, row)) for row in _rows(text, delimiter))
    except (csv.Error, TypeError) as error:
        raise GridError(f"the rows cannot be told apart: {error}") from None
    return Grid(rows, start, delimiter == ";")


def _decoded(data: bytes, encoding: str) -> str:
    name = encoding or ("utf-16" if data.startswith(_UTF_16) else "utf-8-sig")
    try:
        return data.decode(name)
    except LookupError:
        raise GridError(f"there is no encoding {encoding!r}; cp1252 and utf-8 are usual") from None
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise GridError(
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
