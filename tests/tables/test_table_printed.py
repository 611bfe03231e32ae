"""Metals against the cells that published corrosion tables print.

Source: `printed_metals.csv`, one row for each cell as it was read, with its source and where it
stands there. No strength: none was printed; no temperature: none was printed, room temperature is
taken. That no cell is answered milder is the project's own rule, as is that a band ends where the
print ends.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.load import rows
from areafit.tables.resistance import Rating, ResistanceRow
from areafit.values import Frozen

T = Tables.shipped()
ROOM = Decimal(20)
# The maker's data sheets name both grades for one steel (3R12, 3R60), and 1.4435 for the second.
ALSO = {"304": "304L", "316": "316L", "316L-highMo": "316L"}


class Cell(Frozen):
    """A printed cell: mass %, °C."""

    material: str
    chemical: str
    low: Decimal
    high: Decimal
    heat: Decimal
    rating: Rating
    source: str


def _read() -> tuple[list[Cell], Counter[str]]:
    cells, unstated = [], Counter[str]()
    path = Path(__file__).parent / "printed_metals.csv"
    with path.open(encoding="utf-8", newline="") as file:
        for line in csv.DictReader(file):
            if not line["conc_min_pct"]:
                unstated[line["source_id"]] += 1
                continue
            cells.append(
                Cell(
                    line["material"],
                    line["chemical"],
                    Decimal(line["conc_min_pct"]),
                    Decimal(line["conc_max_pct"]),
                    Decimal(line["temp_c"] or ROOM),
                    Rating(line["rating"]),
                    line["source_id"],
                )
            )
    return cells, unstated


CELLS, UNSTATED = _read()


def test_no_printed_cell_is_answered_milder(checked: Counter[tuple[str, str]]) -> None:
    milder = []
    for cell in CELLS:
        strengths = {cell.high, cell.low or cell.high}
        for strength in strengths:
            at = Range.of(strength), Range.of(cell.heat)
            found = T.resistance_at(cell.material, cell.chemical, *at).rating
            if found is None:
                word = "silent"
            elif found.rank == cell.rating.rank:
                word = "agree"
            elif found.rank > cell.rating.rank:
                word = "stricter"
            else:
                word = "milder"
                milder.append((cell, strength, found))
            checked["resistance", f"metals, {cell.source}: {word}"] += 1
    for source, count in UNSTATED.items():
        checked["resistance", f"metals, {source}: no strength printed, not compared"] = count
    assert milder == []


def test_what_is_printed_bad_is_not_passed_over_in_silence() -> None:
    silent = [
        cell
        for cell in CELLS
        if cell.rating is Rating.UNSUITABLE
        and T.resistance_at(
            cell.material, cell.chemical, Range.of(cell.high), Range.of(cell.heat)
        ).rating
        is None
    ]
    assert silent == []


def _printed(row: ResistanceRow) -> list[Cell]:
    own = (row.material, ALSO.get(row.material))
    return [
        cell
        for cell in CELLS
        if cell.source == row.source_id and cell.chemical == row.chemical and cell.material in own
    ]


SOURCES = {cell.source for cell in CELLS}


def _supports(cell: Cell, row: ResistanceRow) -> bool:
    hot_enough = row.temp_max_c is not None and cell.heat >= row.temp_max_c
    return hot_enough and cell.rating.rank <= row.rating.rank


@pytest.mark.parametrize("source", sorted(SOURCES))
def test_a_good_band_ends_where_the_print_ends(source: str) -> None:
    beyond = []
    for row in rows("resistance", ResistanceRow):
        if row.source_id != source or row.rating is Rating.UNSUITABLE:
            continue
        found = [cell for cell in _printed(row) if _supports(cell, row)]
        rounding = row.conc_min_pct / 9 + Decimal("0.001")  # 5 % is printed, from 4.9 % read
        weaker = any(cell.low <= row.conc_min_pct + rounding for cell in found)
        stronger = any(cell.high >= row.conc_max_pct for cell in found)
        if not (weaker and stronger):
            beyond.append(row)
    if source == "galvanizers-page":  # prints what is bad only
        assert not any(
            cell.rating is not Rating.UNSUITABLE for cell in CELLS if cell.source == source
        )
    assert beyond == []
