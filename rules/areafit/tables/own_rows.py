"""A company's own table files: read, checked, with file and line in every message."""

import csv
import io
from collections.abc import Iterator, Mapping
from datetime import date

from areafit.tables import names
from areafit.tables.catalogue import CATALOGUE
from areafit.tables.cited import Problem, TableError
from areafit.tables.load import cell_faults, cells_of, columns, to_row
from areafit.tables.meaning import fault
from areafit.tables.placeholders import is_placeholder
from areafit.tables.spec import Merge, TableSpec
from areafit.values import Frozen, replace

APPROVAL = ("approved_by", "approved_on")


class OwnRow(Frozen):
    """One row of a company's file. `cells` are in the order of the shipped columns."""

    table: str
    cells: tuple[str, ...]
    approved_by: str
    approved_on: str
    file: str
    line: int

    @property
    def approved(self) -> str:
        """Who stands for a laxer value, and since when; empty where nobody does."""
        return f"{self.approved_by}, {self.approved_on}" if self.approved_by else ""

    @property
    def where(self) -> str:
        """File and line, for messages."""
        return f"{self.file}:{self.line}"


def read(files: Mapping[str, bytes], as_of: date | None = None) -> tuple[OwnRow, ...]:
    """All rows of the files, which bear the names of the shipped tables.

    An approval of a later date than `as_of` is none yet.

    Raises:
        TableError: with every fault of every file.
    """
    problems: list[Problem] = []
    found: list[OwnRow] = []
    for file in sorted(files):
        table = file.replace("\\", "/").rpartition("/")[2].removesuffix(".csv")
        spec = CATALOGUE.get(table)
        if spec is None or spec.merge is Merge.FIXED:
            problems.append(_no_table(file, spec))
            continue
        try:
            found.extend(_rows(file, spec, files[file]))
        except TableError as error:
            problems.extend(error.problems)
    problems.extend(_unknown_sources(found))
    problems.extend(_unknown_ids(found))
    if problems:
        raise TableError(tuple(problems))
    return tuple(_as_of(row, as_of) for row in found)


def _as_of(row: OwnRow, day: date | None) -> OwnRow:
    if day is None or not row.approved_on or date.fromisoformat(row.approved_on) <= day:
        return row
    return replace(row, approved_by="", approved_on="")


def _no_table(file: str, spec: TableSpec | None) -> Problem:
    if spec is not None:
        return Problem(file, 1, "this table is set by a standard.", "Remove the file.")
    allowed = [name for name, known in CATALOGUE.items() if known.merge is not Merge.FIXED]
    return Problem(
        file,
        1,
        "no table has this name.",
        "Name the file after one of: " + ", ".join(f"{name}.csv" for name in allowed) + ".",
    )


def _rows(file: str, spec: TableSpec, data: bytes) -> Iterator[OwnRow]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise TableError(
            (Problem(file, line, "this is not UTF-8 text.", "Save the file as UTF-8."),)
        ) from None
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        header = next(reader, [])
        _check_header(file, spec, header)
        problems: list[Problem] = []
        for cells in reader:
            if not any(cells):
                continue
            try:
                yield _row(
                    file, spec, reader.line_num, _cells(file, reader.line_num, header, cells)
                )
            except TableError as error:
                problems.extend(error.problems)
    except csv.Error as error:
        raise TableError(
            (Problem(file, reader.line_num, f"not readable as CSV: {error}.", "Check the quotes."),)
        ) from None
    if problems:
        raise TableError(tuple(problems))


def _check_header(file: str, spec: TableSpec, header: list[str]) -> None:
    wanted = columns(spec.row_type)
    missing = [name for name in wanted if name not in header]
    extra = [name for name in header if name not in wanted and name not in APPROVAL]
    twice = [name for name in dict.fromkeys(header) if header.count(name) > 1]
    if missing or extra or twice:
        said = [
            f"{what} {', '.join(cells)}"
            for what, cells in (("missing:", missing), ("unknown:", extra), ("twice:", twice))
            if cells
        ]
        raise TableError(
            (
                Problem(
                    file,
                    1,
                    "the columns differ; " + "; ".join(said) + ".",
                    "The header must be: " + ",".join(wanted) + " and, for laxer rows, "
                    "approved_by,approved_on.",
                ),
            )
        )


def _cells(file: str, line: int, header: list[str], raw: list[str]) -> dict[str, str]:
    if len(raw) != len(header):
        fault = f"the row has {len(raw)} cells, the header {len(header)}."
        raise TableError((Problem(file, line, fault, "Quote a cell that holds a comma."),))
    return dict(zip(header, (cell.strip() for cell in raw), strict=True))


def _row(file: str, spec: TableSpec, line: int, cells: dict[str, str]) -> OwnRow:
    ordered = tuple(cells[name] for name in columns(spec.row_type))
    # Blank cells of a row that exists mean "as shipped".
    laid = spec.merge is Merge.FIELDS and ordered[: spec.key] in _shipped_keys(spec)
    by, on = (cells.get(name, "") for name in APPROVAL)
    problems = [
        *cell_faults(spec.row_type, ordered, file, line, blanks=not laid),
        *_approval(file, line, by, on),
        *_source(file, line, cells),
    ]
    if not problems and not laid and (said := fault(to_row(spec.row_type, ordered))):
        problems.append(Problem(file, line, said, "Correct the cell."))
    if problems:
        raise TableError(tuple(problems))
    return OwnRow(spec.name, ordered, by, on, file, line)


def _shipped_keys(spec: TableSpec) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(cells[: spec.key]) for cells in cells_of(spec.name, spec.row_type))


def _approval(file: str, line: int, by: str, on: str) -> Iterator[Problem]:
    if bool(by) != bool(on):
        yield Problem(
            file,
            line,
            "approved_by and approved_on belong together.",
            "Give the role that approves and the date, or neither.",
        )
    if by and is_placeholder(by):
        yield Problem(file, line, f"approved_by: {by!r} names nobody.", "Give the role.")
    if on:
        try:
            date.fromisoformat(on)
        except ValueError:
            yield Problem(
                file, line, f"approved_on: {on!r} is not a date.", "Write it as 2026-03-31."
            )


def _source(file: str, line: int, cells: dict[str, str]) -> Iterator[Problem]:
    if cells.get("source_id") == "":
        yield Problem(
            file,
            line,
            "the row has no source.",
            "Name a source in source_id and register it in sources.csv.",
        )


def _unknown_sources(found: list[OwnRow]) -> Iterator[Problem]:
    known = {cells[0] for cells in cells_of("sources", CATALOGUE["sources"].row_type)}
    known |= {row.cells[0] for row in found if row.table == "sources"}
    for row in found:
        for name, cell in _named(row).items():
            if name.endswith("source_id") and cell and cell not in known:
                yield Problem(
                    row.file,
                    row.line,
                    f"{name}: the source {cell!r} is not registered.",
                    "Add it to sources.csv beside this file.",
                )


_REFERENCES = {
    ("chemicals", "behaves_as"): "chemicals",
    ("chemicals", "substance"): "substances",
    ("dust_values", "dust"): "dusts",
    ("materials", "behaves_as"): "materials",
    ("resistance", "chemical"): "chemicals",
    ("resistance", "material"): "materials",
    ("substance_values", "substance"): "substances",
}


def _unknown_ids(found: list[OwnRow]) -> Iterator[Problem]:
    for row in found:
        for column, target, identity in _references(row):
            if target not in CATALOGUE:
                hint = "Name one of: chemicals, dusts, materials, substances."
                yield Problem(row.file, row.line, f"table: there is no table {target!r}.", hint)
                continue
            ids = [cells[0] for cells in cells_of(target, CATALOGUE[target].row_type)]
            ids += [other.cells[0] for other in found if other.table == target]
            if identity not in ids:
                near = names.nearest(identity, ids)
                hint = (
                    f"Known ids near it: {', '.join(near)}."
                    if near
                    else f"`areafit table {target}` lists the ids."
                )
                fault = f"{column}: no row has the id {identity!r}."
                yield Problem(row.file, row.line, fault, hint)


def _references(row: OwnRow) -> Iterator[tuple[str, str, str]]:
    """Column, table and id of everything that a row refers to."""
    cells = _named(row)
    for (table, column), target in _REFERENCES.items():
        if table == row.table and cells[column]:
            yield column, target, cells[column]
    if row.table == "shared_names":
        for member in cells["members"].split("|"):
            yield "members", cells["table"], member


def _named(row: OwnRow) -> dict[str, str]:
    return dict(zip(columns(CATALOGUE[row.table].row_type), row.cells, strict=True))
