"""CSV files to typed rows: one column per field, same names, same order.

A row type is a frozen class. How a cell becomes a value follows from the type of its field, so a
new table needs a CSV file and a class and nothing here.
"""

import csv
import functools
import inspect
import os.path
import re
from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from enum import Enum
from typing import Any, TypeVar

from areafit.pattern import pattern
from areafit.tables.sources import PROVENANCE, Sourced
from areafit.values import Frozen

Row = TypeVar("Row")


class TableFault(Frozen):
    """One fault of a table file: where it is and what to do about it."""

    file: str
    line: int
    message: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.message} {self.remedy}"


class TableError(ValueError):
    """A table cannot be read. `problems` holds every fault found, in the order of the file."""

    def __init__(self, problems: tuple[TableFault, ...]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = problems


DATA = os.path.join(os.path.dirname(__file__), "data")  # noqa: PTH118, PTH120 - pathlib is slow
"""The folder of the shipped tables, one CSV file each."""
NUMBER = pattern(r"-?\d+(?:\.\d+)?", re.ASCII)
_INTEGER = pattern(r"-?\d+", re.ASCII)
_ANSWERS = {"yes": True, "no": False}


def _decimal(cell: str) -> Decimal:
    if not NUMBER.fullmatch(cell):
        raise ValueError("is not a number; write digits with a decimal point and no unit")
    return Decimal(cell)


def _integer(cell: str) -> int:
    if not _INTEGER.fullmatch(cell):
        raise ValueError("is not a whole number")
    return int(cell)


def _answer(cell: str) -> bool:
    if cell not in _ANSWERS:
        raise ValueError("must be yes or no")
    return _ANSWERS[cell]


def _words(cell: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in cell.split("|")) if cell else ()


def _text(cell: str) -> str:
    return cell


_CONVERTERS: dict[Any, Callable[[str], Any]] = {
    str: _text,
    int: _integer,
    bool: _answer,
    Decimal: _decimal,
    tuple[str, ...]: _words,
    Decimal | None: lambda cell: _decimal(cell) if cell else None,
    int | None: lambda cell: _integer(cell) if cell else None,
    bool | None: lambda cell: _answer(cell) if cell else None,
}


def _member(kind: type[Enum]) -> Callable[[str], Enum]:
    members = {str(member.value): member for member in kind}

    def convert(cell: str) -> Enum:
        if cell not in members:
            raise ValueError("must be one of: " + ", ".join(filter(None, members)))
        return members[cell]

    return convert


@functools.cache
def converters(
    row_type: Any,  # noqa: ANN401 - any row type
) -> tuple[tuple[str, Callable[[str], Any]], ...]:
    """The columns of a row type and how the text of each becomes a value."""
    found = []
    kinds: dict[str, Any] = {}
    for base in reversed(row_type.__mro__):
        kinds.update(inspect.get_annotations(base))
    for name in row_type.__struct_fields__:
        kind = kinds[name]
        convert = _CONVERTERS.get(kind)
        if convert is None:
            if not (isinstance(kind, type) and issubclass(kind, Enum)):
                raise TypeError(f"{row_type.__name__}.{name}: no converter for its type")
            convert = _member(kind)
        found.append((name, convert))
    return tuple(found)


def columns(row_type: type[Any]) -> tuple[str, ...]:
    """The header that a file of this row type must have."""
    kind: Any = row_type
    return tuple(name for name, _ in converters(kind))


def to_row(row_type: type[Row], cells: Sequence[str], file: str = "", line: int = 0) -> Row:
    """One row from its cells.

    Raises:
        TableError: a cell does not fit its column; all such cells are named.
    """
    kind: Any = row_type
    plan = converters(kind)
    try:
        values = [convert(cell) for (_, convert), cell in zip(plan, cells, strict=True)]
    except ValueError:
        raise TableError(tuple(cell_faults(row_type, cells, file, line))) from None
    if not issubclass(row_type, Sourced):
        return row_type(*values)
    return row_type(*values[:-4], **dict(zip(PROVENANCE, values[-4:], strict=True)))


def cell_faults(
    row_type: type[Any], cells: Sequence[str], file: str, line: int, *, blanks: bool = True
) -> Iterator[TableFault]:
    """What is wrong with the cells of a row; blank cells are passed over if `blanks` is false."""
    kind: Any = row_type
    plan = converters(kind)
    if len(plan) != len(cells):
        yield TableFault(
            file,
            line,
            f"the row has {len(cells)} cells, the header {len(plan)}.",
            "Quote a cell that holds a comma.",
        )
        return
    for (name, convert), cell in zip(plan, cells, strict=True):
        if not cell and not blanks:
            continue
        try:
            convert(cell)
        except ValueError as fault:
            yield TableFault(file, line, f"{name}: {cell!r} {fault}.", "Correct the cell.")


def shipped(name: str) -> bytes:
    """The file of a shipped table, as it is."""
    with open(f"{DATA}/{name}.csv", "rb") as file:  # noqa: PTH123 - as above
        return file.read()


@functools.cache
def _text_of(name: str) -> str:
    return shipped(name).decode()


@functools.cache
def raw(name: str) -> tuple[tuple[str, ...], tuple[list[str], ...]]:
    """Header and cells of a shipped table, unconverted. The rows must not be changed."""
    reader = csv.reader(_text_of(name).split("\n"))
    header = tuple(next(reader))
    return header, tuple(cells for cells in reader if cells)


def lines_of(name: str, key: Sequence[str]) -> list[list[str]]:
    """The unconverted rows of a shipped table whose first cells are `key`.

    Shipped tables hold no line break in a cell and no comma in a key, so the rows are found
    without taking the rest of a large table apart.
    """
    prefix = ",".join(key) + ","
    return list(
        csv.reader(one for one in _by_first(name).get(key[0], ()) if one.startswith(prefix))
    )


@functools.cache
def _by_first(name: str) -> dict[str, list[str]]:
    """The lines of a shipped table by their first cell."""
    found: dict[str, list[str]] = {}
    before = "\n"
    alike: list[str] = []
    for line in _text_of(name).rstrip("\n").split("\n")[1:]:
        if not line.startswith(before):  # most stand together
            before = line[: line.index(",") + 1]
            alike = found.setdefault(before[:-1], [])
        alike.append(line)
    return found


def pairs(name: str) -> Iterator[tuple[str, str]]:
    """The first two cells of the rows of a shipped table, each pair once."""
    for first, lines in _by_first(name).items():
        yield from ((first, second) for second in {line.split(",", 2)[1] for line in lines})


def cells_of(name: str, row_type: type[Any]) -> tuple[list[str], ...]:
    """The unconverted rows of a shipped table, whose header has been compared with the row type.

    Raises:
        TableError: the columns are not exactly the fields of the row type.
    """
    header, found = raw(name)
    if header != columns(row_type):
        wanted = ",".join(columns(row_type))
        raise TableError(
            (TableFault(f"{name}.csv", 1, "the columns differ.", f"The header must be: {wanted}"),)
        )
    return found


def rows(name: str, row_type: type[Row]) -> tuple[Row, ...]:
    """All rows of a shipped table, converted.

    Raises:
        TableError: a column or a cell does not fit the row type.
    """
    kind: Any = row_type
    found: tuple[Row, ...] = _rows(name, kind)
    return found


@functools.cache
def _rows(name: str, row_type: Any) -> tuple[Any, ...]:  # noqa: ANN401 - any row type
    return tuple(
        to_row(row_type, cells, f"{name}.csv", line)
        for line, cells in enumerate(cells_of(name, row_type), start=2)
    )
