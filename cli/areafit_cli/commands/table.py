"""`areafit table`: the shipped tables, listed or exported."""

import csv
from collections.abc import Iterator
from typing import Annotated

import typer

from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE
from areafit_cli import answers, printing
from areafit_cli.faults import unknown

Rows = list[dict[str, str]]


def command(
    name: Annotated[
        str | None, typer.Argument(metavar="[NAME]", help="A table; their list without one.")
    ] = None,
    format_: Annotated[answers.TableFormat, typer.Option("--format")] = answers.TableFormat.TEXT,
) -> None:
    """List the tables, or export one with its sources: every row says where it comes from."""
    names = sorted(CATALOGUE)
    if name is None:
        _tell_names(names, format_)
        return
    if name not in names:
        raise unknown("table", name, names)
    match format_:
        case answers.TableFormat.CSV:
            printing.write([load.shipped(name).decode()])
        case answers.TableFormat.JSON:
            answers.say_json(
                [{key: cell or None for key, cell in row.items()} for row in _rows(name)]
            )
        case answers.TableFormat.TEXT:
            answers.say(_lines(_rows(name)))


def _tell_names(names: list[str], format_: answers.TableFormat) -> None:
    listed = [(name, len(_rows(name))) for name in names]
    match format_:
        case answers.TableFormat.CSV:
            answers.say(["table,rows\n", *(f"{name},{count}\n" for name, count in listed)])
        case answers.TableFormat.JSON:
            answers.say_json([{"table": name, "rows": count} for name, count in listed])
        case answers.TableFormat.TEXT:
            answers.say(f"{name:<28}{count:>6} rows\n" for name, count in listed)


def _rows(name: str) -> Rows:
    return list(csv.DictReader(load.shipped(name).decode().splitlines()))


def _lines(rows: Rows) -> Iterator[str]:
    """One block a row, cells that state something only: wide tables stay readable when narrow."""
    paper = answers.paper()
    column = 2 + max((len(key) for row in rows[:1] for key in row), default=0)
    for row in rows:
        yield "\n"
        for key, cell in row.items():
            if cell:
                yield from paper.labelled(key, cell, 0, column)
