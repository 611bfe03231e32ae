"""A company's own rows: read from its files, checked, and laid over the shipped ones.

The stricter value governs. A laxer one governs only if its row names the role that approved it
and the date; otherwise the shipped value stays. Either way it is kept as `LaxerValue`, so that
reports can say what became of it.
"""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal

from areafit.tables import names
from areafit.tables.catalogue import CATALOGUE, Merge, Order, Stricter, TableSpec
from areafit.tables.load import (
    NUMBER,
    TableError,
    TableFault,
    cell_faults,
    cells_of,
    columns,
    to_row,
)
from areafit.tables.resistance import ResistanceRow
from areafit.tables.sources import PROVENANCE, LaxerValue
from areafit.tables.substances import DustProperty, DustValue, LayerState, Property, SubstanceValue
from areafit.tables.words import is_placeholder
from areafit.values import Frozen, replace

ROWS = 20_000
"""Rows of a company's own file: far above any real one."""
_APPROVAL = ("approved_by", "approved_on")
# Lists that only grow: more names, cautions or exceptions take nothing away.
_ADDED = ("names", "cautions", "behaves_not", "members")
# What belongs to the substance and not to the sample (ISO/IEC 80079-20-1), or is granted by a rule
# alone: a milder value of one's own is told beside the shipped one and never takes its place.
_OF_THE_SUBSTANCE = {
    ("substance_values", Property.AUTOIGNITION.value),
    ("substance_values", Property.GROUP.value),
    ("substance_values", Property.GROUP_WITH_SEALS.value),
    ("dust_values", DustProperty.GROUP.value),
}
_REFERENCES = {
    ("chemicals", "behaves_as"): "chemicals",
    ("chemicals", "substance"): "substances",
    ("dust_values", "dust"): "dusts",
    ("materials", "behaves_as"): "materials",
    ("resistance", "chemical"): "chemicals",
    ("resistance", "material"): "materials",
    ("substance_values", "substance"): "substances",
}
_GAS_GROUPS = {"iec": ("IIA", "IIB", "IIB+H2", "IIC"), "nec": ("A", "B", "C", "D")}
_DUST_GROUPS = {"iec": ("IIIA", "IIIB", "IIIC"), "nec": ("E", "F", "G")}


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

    def named(self) -> dict[str, str]:
        """The cells by column."""
        return dict(zip(columns(CATALOGUE[self.table].row_type), self.cells, strict=True))

    def fault(self, message: str, remedy: str) -> TableFault:
        """What is wrong with this row."""
        return TableFault(self.file, self.line, message, remedy)


class Merged(Frozen):
    """One table after the overlay: its unconverted rows, and what asked for less than ours."""

    cells: tuple[list[str], ...]
    laxer: tuple[LaxerValue, ...]


def read(files: Mapping[str, bytes], as_of: date | None = None) -> tuple[OwnRow, ...]:
    """All rows of the files, which bear the names of the shipped tables.

    An approval of a later date than `as_of` is none yet.

    Raises:
        TableError: with every fault of every file.
    """
    problems: list[TableFault] = []
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


def _no_table(file: str, spec: TableSpec | None) -> TableFault:
    if spec is not None:
        return TableFault(file, 1, "this table is set by a standard.", "Remove the file.")
    allowed = [name for name, known in CATALOGUE.items() if known.merge is not Merge.FIXED]
    listed = ", ".join(f"{name}.csv" for name in allowed)
    return TableFault(file, 1, "no table has this name.", f"Name the file after one of: {listed}.")


def _rows(file: str, spec: TableSpec, data: bytes) -> Iterator[OwnRow]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        fault = TableFault(file, line, "this is not UTF-8 text.", "Save the file as UTF-8.")
        raise TableError((fault,)) from None
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    problems: list[TableFault] = []
    try:
        header = next(reader, [])
        _check_header(file, spec, header)
        seen: set[tuple[str, ...]] = set()
        for cells in filter(any, reader):
            if len(seen) >= ROWS:
                message = f"more than {ROWS} different rows."
                raise TableError((TableFault(file, reader.line_num, message, "Split the file."),))
            if tuple(cells) in seen:
                continue
            seen.add(tuple(cells))
            try:
                yield _row(file, spec, reader.line_num, header, cells)
            except TableError as error:
                problems.extend(error.problems)
    except csv.Error as error:
        message = f"not readable as CSV: {error}."
        fault = TableFault(file, reader.line_num, message, "Check the quotes.")
        raise TableError((fault,)) from None
    if problems:
        raise TableError(tuple(problems))


def _check_header(file: str, spec: TableSpec, header: list[str]) -> None:
    wanted = columns(spec.row_type)
    wrong = {
        "missing": [name for name in wanted if name not in (*header, *spec.optional)],
        "unknown": [name for name in header if name not in wanted and name not in _APPROVAL],
        "twice": [name for name in dict.fromkeys(header) if header.count(name) > 1],
    }
    said = "; ".join(f"{what}: {', '.join(cells)}" for what, cells in wrong.items() if cells)
    if said:
        hint = f"The header must be: {','.join(wanted)} and, for laxer rows, {','.join(_APPROVAL)}."
        raise TableError((TableFault(file, 1, f"the columns differ; {said}.", hint),))


def _row(file: str, spec: TableSpec, line: int, header: list[str], raw: list[str]) -> OwnRow:
    if len(raw) != len(header):
        message = f"the row has {len(raw)} cells, the header {len(header)}."
        raise TableError((TableFault(file, line, message, "Quote a cell that holds a comma."),))
    cells = dict(zip(header, map(str.strip, raw), strict=True))
    ordered = tuple(cells.get(name, "") for name in columns(spec.row_type))
    by, on = (cells.get(name, "") for name in _APPROVAL)
    row = OwnRow(spec.name, ordered, by, on, file, line)
    # Blank cells of a row that exists mean "as shipped".
    laid = spec.merge is Merge.FIELDS and ordered[: spec.key] in _shipped_keys(spec)
    problems = [
        *cell_faults(spec.row_type, ordered, file, line, blanks=not laid),
        *_approval_faults(row),
    ]
    if cells.get("source_id") == "":
        hint = "Name a source in source_id and register it in sources.csv."
        problems.append(row.fault("the row has no source.", hint))
    if not problems and not laid and (said := _meaning_fault(to_row(spec.row_type, ordered))):
        problems.append(row.fault(said, "Correct the cell."))
    if problems:
        raise TableError(tuple(problems))
    return row


def _shipped_keys(spec: TableSpec) -> frozenset[tuple[str, ...]]:
    return frozenset(tuple(cells[: spec.key]) for cells in cells_of(spec.name, spec.row_type))


def _approval_faults(row: OwnRow) -> Iterator[TableFault]:
    by, on = row.approved_by, row.approved_on
    if bool(by) != bool(on):
        hint = "Give the role that approves and the date, or neither."
        yield row.fault("approved_by and approved_on belong together.", hint)
    if by and is_placeholder(by):
        yield row.fault(f"approved_by: {by!r} names nobody.", "Give the role.")
    if on:
        try:
            date.fromisoformat(on)
        except ValueError:
            yield row.fault(f"approved_on: {on!r} is not a date.", "Write it as 2026-03-31.")


def _meaning_fault(row: object) -> str:
    """What a cell's type cannot say: numbers among words, and bands that run the right way."""
    if isinstance(row, SubstanceValue):
        groups = row.property in {Property.GROUP, Property.GROUP_WITH_SEALS}
        return _no_word(row.system, row.value, _GAS_GROUPS) if groups else _no_number(row.value)
    if isinstance(row, DustValue):
        if row.property is DustProperty.GROUP:
            return _no_word(row.system, row.value, _DUST_GROUPS)
        without = row.state not in {LayerState.EXACT, LayerState.ABOVE}
        return "" if without and not row.value else _no_number(row.value)
    if isinstance(row, ResistanceRow) and not 0 <= row.conc_min_pct < row.conc_max_pct <= 100:
        return (
            f"conc_min_pct: {row.conc_min_pct} is not below conc_max_pct {row.conc_max_pct}, "
            "both from 0 to 100."
        )
    return ""


def _no_number(value: str) -> str:
    if NUMBER.fullmatch(value):
        return ""
    return f"value: {value!r} is not a number; write digits with a decimal point and no unit."


def _no_word(system: str, value: str, groups: Mapping[str, tuple[str, ...]]) -> str:
    if system not in groups:
        return f"system: {system!r} must be one of: {', '.join(groups)}."
    if value not in groups[system]:
        return f"value: {value!r} must be one of: {', '.join(groups[system])}."
    return ""


def _unknown_sources(found: list[OwnRow]) -> Iterator[TableFault]:
    known = _ids("sources", found)
    for row in found:
        for name, cell in row.named().items():
            if name.endswith("source_id") and cell and cell not in known:
                message = f"{name}: the source {cell!r} is not registered."
                yield row.fault(message, "Add it to sources.csv beside this file.")


def _unknown_ids(found: list[OwnRow]) -> Iterator[TableFault]:
    for row in found:
        for column, target, identity in _references(row):
            if target not in CATALOGUE:
                hint = "Name one of: chemicals, dusts, materials, substances."
                yield row.fault(f"table: there is no table {target!r}.", hint)
            elif identity not in (ids := _ids(target, found)):
                near = ", ".join(names.nearest(identity, ids))
                hint = (
                    f"Known ids near it: {near}."
                    if near
                    else f"`areafit table {target}` lists the ids."
                )
                yield row.fault(f"{column}: no row has the id {identity!r}.", hint)


def _ids(table: str, found: list[OwnRow]) -> list[str]:
    """The ids of a table, a company's own included."""
    shipped = cells_of(table, CATALOGUE[table].row_type)
    return [cells[0] for cells in shipped] + [row.cells[0] for row in found if row.table == table]


def _references(row: OwnRow) -> Iterator[tuple[str, str, str]]:
    """Column, table and id of everything that a row refers to."""
    cells = row.named()
    for (table, column), target in _REFERENCES.items():
        if table == row.table and cells[column]:
            yield column, target, cells[column]
    if row.table == "shared_names":
        for member in cells["members"].split("|"):
            yield "members", cells["table"], member


def merge(table: str, own: Sequence[OwnRow]) -> Merged:
    """The shipped rows of a table with a company's rows laid over them.

    Raises:
        TableError: a merged row does not fit its table, or a name belongs to another row.
    """
    spec = CATALOGUE[table]
    shipped = cells_of(table, spec.row_type)
    if spec.merge is Merge.VALUES:
        return _merge_values(spec, shipped, own)
    return _merge_fields(spec, shipped, own)


def _merge_fields(spec: TableSpec, shipped: Iterable[list[str]], own: Sequence[OwnRow]) -> Merged:
    merged = {tuple(cells[: spec.key]): list(cells) for cells in shipped}
    known = {key: list(cells) for key, cells in merged.items()}
    found: list[LaxerValue] = []
    for row in own:
        key = row.cells[: spec.key]
        ours = merged.get(key)
        if ours is None:
            if spec.new_keys_relax and (relaxed := _relaxes(spec, row, known)):
                found.append(relaxed)
                if not row.approved:
                    continue
            merged[key] = list(row.cells)
        else:
            found.extend(_lay(spec, ours, row))
        to_row(spec.row_type, merged[key], row.file, row.line)
    _no_stolen_names(spec, merged.values(), own)
    return Merged(tuple(merged[key] for key in sorted(merged)), tuple(found))


def _relaxes(
    spec: TableSpec, row: OwnRow, merged: Mapping[tuple[str, ...], list[str]]
) -> LaxerValue | None:
    """What a row with a key of its own asks less than: the row that would decide, or nothing.

    On a ladder that is the next lower one, elsewhere the one of the whole family, if there is one.
    """
    key = row.cells[: spec.key]
    if spec.ladder:
        below = [each for each in merged if Decimal(each[0]) < Decimal(key[0])]
        base = max(below, key=lambda each: Decimal(each[0]), default=None)
    else:
        base = (*key[:-1], "") if spec.key > 1 and (*key[:-1], "") in merged else None
    header = columns(spec.row_type)
    if base is None:
        return _laxer(spec, row, header[spec.key], row.cells[spec.key], "")
    for position, name in enumerate(header):
        theirs, shipped = row.cells[position], merged[base][position]
        if position < spec.key or name in PROVENANCE or theirs == shipped:
            continue
        if not theirs or not _governs(spec, name, shipped, theirs):
            return _laxer(spec, row, name, theirs, shipped)
    return None


def _lay(spec: TableSpec, ours: list[str], row: OwnRow) -> Iterable[LaxerValue]:
    """Take over what governs, cell by cell; yield what asks for less than ours."""
    header = columns(spec.row_type)
    taken = False
    for position, name in enumerate(header):
        theirs, shipped = row.cells[position], ours[position]
        if position < spec.key or name in PROVENANCE or theirs in ("", shipped):
            continue
        if name in _ADDED:
            ours[position] = "|".join(dict.fromkeys([*shipped.split("|"), *theirs.split("|")]))
            ours[position] = ours[position].strip("|")
            continue
        governs = _governs(spec, name, shipped, theirs)
        if not governs:
            yield _laxer(spec, row, name, theirs, shipped)
        if governs or row.approved:
            ours[position] = theirs
            taken = True
    if taken:
        for name in PROVENANCE:
            if name in header:
                ours[header.index(name)] = row.cells[header.index(name)]


def _governs(spec: TableSpec, column: str, shipped: str, theirs: str) -> bool:
    if not shipped:
        return column not in spec.blank_is_strict
    return bool(_more_onerous(spec.stricter.get(column), shipped, theirs))


def _more_onerous(order: Order | None, ours: str, theirs: str) -> bool | None:
    """Whether `theirs` asks for more than `ours`; None where the two cannot be compared."""
    if order is None:
        return None
    if isinstance(order, tuple):
        if ours not in order or theirs not in order:
            return None
        return order.index(theirs) > order.index(ours)
    lower = Decimal(theirs) < Decimal(ours)
    return lower if order is Stricter.LOWER else not lower


def _laxer(  # noqa: PLR0913 - what is compared
    spec: TableSpec,
    row: OwnRow,
    column: str,
    theirs: str,
    shipped: str,
    *,
    governs: bool = True,
) -> LaxerValue:
    than = "laxer than" if column in spec.stricter else "other than"
    waits = "it needs approved_by (a role) and approved_on (a date that has come) in the row"
    return LaxerValue(
        key="|".join(row.cells[: 1 if spec.merge is Merge.VALUES else spec.key]),
        column=column,
        value=theirs,
        shipped=shipped,
        where=row.where,
        reason=(
            f"{row.where} gives {theirs} for {column}, {than} our {shipped or 'blank'}; "
            + (f"it is approved by {row.approved}" if row.approved else waits)
            + ("" if governs else "; the shipped one decides all the same")
        ),
        approved=row.approved,
        governs=governs,
    )


def _merge_values(spec: TableSpec, shipped: Iterable[list[str]], own: Sequence[OwnRow]) -> Merged:
    header = columns(spec.row_type)
    prop, system, value = (header.index(name) for name in ("property", "system", "value"))
    lines = list(shipped)
    known = {line[0] for line in lines}
    found: list[LaxerValue] = []
    for row in own:
        cells = list(row.cells)
        order = spec.stricter.get(cells[prop])
        outdone = [
            line
            for line in lines
            if line[0] == cells[0]
            and line[prop] == cells[prop]
            and (line[system] == cells[system] or not cells[system] or not line[system])
            and line[value] not in ("", cells[value])
            and not (cells[value] and _more_onerous(order, line[value], cells[value]))
        ]
        if not outdone and cells[prop] == Property.GROUP_WITH_SEALS.value and row.cells[0] in known:
            found.append(_laxer(spec, row, cells[prop], cells[value], "", governs=False))
            continue
        if outdone:
            fixed = (spec.name, cells[prop]) in _OF_THE_SUBSTANCE
            found.append(
                _laxer(spec, row, cells[prop], cells[value], outdone[0][value], governs=not fixed)
            )
            if fixed or not row.approved:
                continue
        lines = [line for line in lines if not any(line is rival for rival in outdone)]
        lines.append(cells)
    lines.sort()
    return Merged(tuple(lines), tuple(found))


def _no_stolen_names(
    spec: TableSpec, merged: Iterable[Sequence[str]], own: Sequence[OwnRow]
) -> None:
    header = columns(spec.row_type)
    if "names" not in header or spec.name == "hidden_items":
        return
    column = header.index("names")
    index = names.index((cells[0], [cells[0], *cells[column].split("|")]) for cells in merged)
    problems = [
        row.fault(
            f"names: {name!r} already names {', '.join(i for i in holders if i != row.cells[0])}.",
            "Remove the name, or list it in shared_names.csv.",
        )
        for row in own
        for name in row.cells[column].split("|")
        if name and len(holders := index[names.key(name)]) > 1
    ]
    if problems:
        raise TableError(tuple(problems))
