"""`areafit table`: the shipped tables, listed or exported."""

import csv
from collections.abc import Iterator
from enum import Enum
from itertools import product
from typing import Annotated

import typer

from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE
from areafit_cli import terminal
from areafit_cli.errors import unknown

EXAMPLE = "areafit table resistance --format csv"
Rows = list[dict[str, str]]
Resting = dict[str, dict[str, dict[str, int]]]


class TableFormat(Enum):
    """The formats of a table."""

    TEXT = "text"
    CSV = "csv"
    JSON = "json"


def command(
    name: Annotated[
        str | None, typer.Argument(metavar="[NAME]", help="A table; their list without one.")
    ] = None,
    format_: Annotated[TableFormat, typer.Option("--format")] = TableFormat.TEXT,
) -> None:
    """List the tables, or export one with its sources: every row says where it comes from.

    Of each source, `areafit table sources` tells how many rows rest on it, by table and basis.
    """
    names = sorted(CATALOGUE)
    if name is None:
        _tell_names(names, format_)
        return
    if name not in names:
        raise unknown("table", name, names)
    resting = _resting(names) if name == "sources" else {}

    def more(row: dict[str, str]) -> Resting:
        return {"rows": resting.get(row["id"], {})} if name == "sources" else {}

    match format_:
        case TableFormat.CSV:
            terminal.write([load.shipped(name).decode()])
        case TableFormat.JSON:
            terminal.write_json(
                [
                    {key: cell or None for key, cell in row.items()} | more(row)
                    for row in _rows(name)
                ]
            )
        case TableFormat.TEXT:
            terminal.write(_lines([row | _said(more(row)) for row in _rows(name)]))


def _tell_names(names: list[str], format_: TableFormat) -> None:
    listed = [(name, len(_rows(name))) for name in names]
    match format_:
        case TableFormat.CSV:
            terminal.write(["table,rows\n", *(f"{name},{count}\n" for name, count in listed)])
        case TableFormat.JSON:
            terminal.write_json([{"table": name, "rows": count} for name, count in listed])
        case TableFormat.TEXT if terminal.looked_at():
            terminal.grid(("table", "rows"), ((name, str(count)) for name, count in listed))
        case TableFormat.TEXT:
            terminal.write(f"{name:<28}{count:>6} rows\n" for name, count in listed)


def _rows(name: str) -> Rows:
    return list(csv.DictReader(load.shipped(name).decode().splitlines()))


def _resting(names: list[str]) -> Resting:
    """How many rows rest on each source, by table and basis.

    A row that names a source for one column more (`anodic_source_id`) counts for it too.
    """
    found: Resting = {}
    for name in names:
        header, cells = load.raw(name)
        named = [
            (at, header.index(f"{column.removesuffix('source_id')}basis"))
            for at, column in enumerate(header)
            if column.endswith("source_id")
        ]
        for row, (source, basis) in product(cells, named):
            if row[source]:
                counts = found.setdefault(row[source], {}).setdefault(name, {})
                counts[row[basis]] = counts.get(row[basis], 0) + 1
    return found


def _said(resting: Resting) -> dict[str, str]:
    """The same in words: `42: acceptance (12 seen), clauses (29 memory, 1 reported)`."""
    return {
        key: f"{sum(sum(counts.values()) for counts in tables.values())}: "
        + ", ".join(
            f"{table} ({', '.join(f'{count} {basis}' for basis, count in sorted(counts.items()))})"
            for table, counts in tables.items()
        )
        for key, tables in resting.items()
        if tables
    }


def _lines(rows: Rows) -> Iterator[str]:
    """One block a row, cells that state something only: wide tables stay readable when narrow."""
    paper = terminal.paper()
    column = 2 + max((len(key) for row in rows[:1] for key in row), default=0)
    for row in rows:
        yield "\n"
        for key, cell in row.items():
            if cell:
                yield from paper.labelled(key, cell, 0, column)
