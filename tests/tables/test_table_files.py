"""Every table file: its form, its keys, its sources."""

import csv
from collections import Counter
from datetime import date
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest
from msgspec.structs import fields

from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE, TableSpec
from areafit.tables.resistance import ResistanceRow
from areafit.tables.sources import Source
from areafit.verdict import Basis

SPECS = pytest.mark.parametrize("spec", CATALOGUE.values(), ids=list(CATALOGUE))


def _cells(spec: TableSpec) -> list[list[str]]:
    with Path(load.DATA, f"{spec.name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))[1:]


def test_every_file_is_in_the_catalogue() -> None:
    assert {path.stem for path in Path(load.DATA).glob("*.csv")} == set(CATALOGUE)


@SPECS
def test_files_are_plain_utf8_with_line_feeds(spec: TableSpec) -> None:
    data = load.shipped(spec.name)
    assert not data.startswith(b"\xef\xbb\xbf")
    assert b"\r" not in data
    assert data.endswith(b"\n")
    assert not data.endswith(b"\n\n")
    data.decode("utf-8")


@SPECS
def test_columns_are_the_fields_of_the_row_type(spec: TableSpec) -> None:
    header, _ = load.raw(spec.name)
    assert header == tuple(field.name for field in fields(spec.row_type))


@SPECS
def test_every_cell_converts(spec: TableSpec) -> None:
    rows = load.rows(spec.name, spec.row_type)
    assert len(rows) == len(_cells(spec)) > 0


@SPECS
def test_keys_are_unique(spec: TableSpec) -> None:
    extra = slice(-4, -3) if spec.name == "resistance" else slice(0)  # a source has one each
    keys = Counter((*cells[: spec.key], *cells[extra]) for cells in _cells(spec))
    assert [key for key, count in keys.items() if count > 1] == []


@SPECS
def test_rows_are_sorted_by_key(spec: TableSpec) -> None:
    if spec.name == "resistance":  # bands and temperatures sort as numbers
        rows = load.rows("resistance", ResistanceRow)
        hot = Decimal("Infinity")
        keys: list[tuple[object, ...]] = [
            (
                row.material,
                row.chemical,
                row.conc_min_pct,
                row.conc_max_pct,
                Decimal("-Infinity") if row.temp_min_c is None else row.temp_min_c,
                hot if row.temp_max_c is None else row.temp_max_c,
                row.source_id,
            )
            for row in rows
        ]
    else:
        keys = [tuple(cells[: spec.key]) for cells in _cells(spec)]
    early = [right for left, right in pairwise(keys) if not left < right]
    assert not early, f"These rows of {spec.name}.csv stand below their place, by key: {early}"


@SPECS
def test_cells_are_trimmed_and_on_one_line(spec: TableSpec) -> None:
    for cells in _cells(spec):
        for cell in cells:
            assert cell == cell.strip()
            assert "\n" not in cell


@pytest.mark.parametrize(
    ("name", "width"), [("substance_values", 1), ("dust_values", 1), ("resistance", 2)]
)
def test_lines_of_a_key_are_those_of_the_whole_table(name: str, width: int) -> None:
    spec = CATALOGUE[name]
    whole: dict[tuple[str, ...], list[list[str]]] = {}
    for cells in _cells(spec):
        whole.setdefault(tuple(cells[:width]), []).append(cells)
    for key, lines in whole.items():
        assert load.lines_of(name, key) == lines
    assert load.lines_of(name, ("no-such-row",) * width) == []


@SPECS
def test_every_row_says_where_it_comes_from(spec: TableSpec) -> None:
    if spec.name == "sources":
        return
    for row in load.rows(spec.name, spec.row_type):
        assert row.source_id, row
        assert row.locator, row
        assert isinstance(row.basis, Basis)


def test_every_source_named_is_registered_and_every_registered_one_is_used() -> None:
    named = {
        getattr(row, field.name)
        for spec in CATALOGUE.values()
        for field in fields(spec.row_type)
        if field.name.endswith("source_id")
        for row in load.rows(spec.name, spec.row_type)
    } - {""}
    registered = {source.id for source in load.rows("sources", Source)}
    assert named == registered


def test_sources_are_described() -> None:
    for source in load.rows("sources", Source):
        assert source.title, source
        if source.read_on:
            date.fromisoformat(source.read_on)


@SPECS
def test_the_figure_of_rows_by_basis(spec: TableSpec, bases: Counter[tuple[str, str]]) -> None:
    if spec.name == "sources":
        return
    for row in load.rows(spec.name, spec.row_type):
        bases[spec.name, row.basis.value] += 1
    assert sum(bases.values()) > 0
