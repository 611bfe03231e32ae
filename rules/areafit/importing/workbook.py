"""XLSX by way of openpyxl, which comes with the extra `xlsx`."""

import datetime as dt
import io
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from areafit.importing.grid import Grid, GridError, plain

_MOST_ROWS = 200_000


def read_workbook(data: bytes, sheet: str = "") -> Grid:
    """The rows of a sheet, the first one unless it is named.

    Numbers become text as a person writes them; where they stood is kept, since a part number that
    was stored as a number has lost its leading zeros before. Formulas that were never calculated
    and dates are noted.

    Raises:
        GridError: openpyxl is not installed, or the file or sheet cannot be read.
    """
    values, formulas = (_sheet(data, sheet, values=values) for values in (True, False))
    rows: list[tuple[str, ...]] = []
    notes: list[str] = []
    numbers: set[tuple[int, int]] = set()
    for number, (row, written) in enumerate(zip(values, formulas, strict=False), 1):
        if number > _MOST_ROWS:
            raise GridError(f"more than {_MOST_ROWS} rows; split the sheet")
        cells = tuple(_text(cell) for cell in row)
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


def _sheet(data: bytes, name: str, *, values: bool) -> Iterator[tuple[Any, ...]]:
    try:
        import openpyxl  # noqa: PLC0415 - an extra
    except ImportError:
        raise GridError(
            "XLSX needs the extra `xlsx`: pip install 'areafit[xlsx]'; or export as CSV"
        ) from None
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=values)
        known = name in book.sheetnames or not name
        found = (book[name] if name else book.worksheets[0]) if known else None
        yield from found.iter_rows(values_only=True) if found else ()
    except Exception as error:  # noqa: BLE001 - whatever a broken archive makes openpyxl raise
        raise GridError(f"this is no workbook that can be read: {error}") from None
    if not known:
        raise GridError(f"there is no sheet {name!r}; there are {', '.join(book.sheetnames)}")


def _text(cell: object) -> str:
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
            return plain(str(cell))
