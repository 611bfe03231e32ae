"""A company's own rows laid over the shipped ones: the stricter governs.

A laxer value governs only if its row names the role that approved it and the date; otherwise the
shipped value stays. Either way it is kept as `Laxer`, so that reports can say what became of it.
"""

from collections.abc import Iterable, Mapping, Sequence

from areafit.tables import names
from areafit.tables.catalogue import CATALOGUE
from areafit.tables.cited import Laxer, Problem, TableError
from areafit.tables.load import cells_of, columns, to_row
from areafit.tables.own_rows import OwnRow
from areafit.tables.spec import Merge, Order, TableSpec, more_onerous
from areafit.values import Frozen

# Lists that only grow: more names, cautions or exceptions take nothing away.
_ADDED = ("names", "cautions", "behaves_not")
_PROVENANCE = ("source_id", "locator", "basis", "note")


class Merged(Frozen):
    """One table after the overlay: its unconverted rows, and what asked for less than ours."""

    cells: tuple[list[str], ...]
    laxer: tuple[Laxer, ...]


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
    found: list[Laxer] = []
    for row in own:
        key = row.cells[: spec.key]
        ours = merged.get(key)
        if ours is None:
            merged[key] = list(row.cells)
        else:
            found.extend(_lay(spec, ours, row))
        to_row(spec.row_type, merged[key], row.file, row.line)
    _no_stolen_names(spec, merged.values(), own)
    return Merged(tuple(merged[key] for key in sorted(merged)), tuple(found))


def _lay(spec: TableSpec, ours: list[str], row: OwnRow) -> Iterable[Laxer]:
    """Take over what governs, cell by cell; yield what asks for less than ours."""
    header = columns(spec.row_type)
    taken = False
    for position, name in enumerate(header):
        theirs, shipped = row.cells[position], ours[position]
        if position < spec.key or name in _PROVENANCE or theirs in ("", shipped):
            continue
        if name in _ADDED:
            ours[position] = "|".join(dict.fromkeys([*shipped.split("|"), *theirs.split("|")]))
            ours[position] = ours[position].strip("|")
        elif row.approved or _governs(spec, name, shipped, theirs):
            if not _governs(spec, name, shipped, theirs):
                yield _laxer(spec, row, name, theirs, shipped)
            ours[position] = theirs
            taken = True
        else:
            yield _laxer(spec, row, name, theirs, shipped)
    if taken:
        for name in _PROVENANCE:
            if name in header:
                ours[header.index(name)] = row.cells[header.index(name)]


def _governs(spec: TableSpec, column: str, shipped: str, theirs: str) -> bool:
    if not shipped:
        return column not in spec.blank_is_strict
    return bool(more_onerous(spec.stricter.get(column), shipped, theirs))


def _laxer(spec: TableSpec, row: OwnRow, column: str, theirs: str, shipped: str) -> Laxer:
    comparable = column in spec.stricter
    return Laxer(
        key="|".join(row.cells[: 1 if spec.merge is Merge.VALUES else spec.key]),
        column=column,
        value=theirs,
        shipped=shipped,
        where=row.where,
        reason=(
            f"{row.where} gives {theirs} for {column}, "
            f"{'laxer than' if comparable else 'other than'} our {shipped or 'blank'}; "
            + (
                f"it is approved by {row.approved}"
                if row.approved
                else "it needs approved_by (a role) and approved_on (a date that has come) "
                "in the row"
            )
        ),
        approved=row.approved,
    )


def _merge_values(spec: TableSpec, shipped: Iterable[list[str]], own: Sequence[OwnRow]) -> Merged:
    header = columns(spec.row_type)
    prop, system, value = (header.index(name) for name in ("property", "system", "value"))
    lines = list(shipped)
    found: list[Laxer] = []
    for row in own:
        cells = list(row.cells)
        rivals = [
            line
            for line in lines
            if line[0] == cells[0]
            and line[prop] == cells[prop]
            and (line[system] == cells[system] or not cells[system] or not line[system])
            and line[value]
        ]
        order = spec.stricter.get(cells[prop])
        laxer = [line for line in rivals if _is_laxer(order, line[value], cells[value])]
        if laxer:
            found.append(_laxer(spec, row, cells[prop], cells[value], laxer[0][value]))
            if not row.approved:
                continue
        lines = [line for line in lines if not any(line is rival for rival in laxer)]
        lines.append(cells)
    lines.sort()
    return Merged(tuple(lines), tuple(found))


def _is_laxer(order: Order | None, ours: str, theirs: str) -> bool:
    if ours == theirs:
        return False
    return not (theirs and more_onerous(order, ours, theirs))


def _no_stolen_names(
    spec: TableSpec, merged: Iterable[Sequence[str]], own: Sequence[OwnRow]
) -> None:
    header = columns(spec.row_type)
    if "names" not in header or spec.name == "hidden_items":
        return
    column = header.index("names")
    index: Mapping[str, tuple[str, ...]] = names.index(
        (cells[0], [cells[0], *cells[column].split("|")]) for cells in merged
    )
    problems = [
        Problem(
            row.file,
            row.line,
            f"names: {name!r} already names {', '.join(i for i in holders if i != row.cells[0])}.",
            "Remove the name, or list it in shared_names.csv.",
        )
        for row in own
        for name in row.cells[column].split("|")
        if name and len(holders := index[names.key(name)]) > 1
    ]
    if problems:
        raise TableError(tuple(problems))
