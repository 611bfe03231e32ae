"""Plastics, rubbers and glass against the cells that published charts print.

`printed_plastics.csv` holds the cells as they were read, one a line, whether a row came of it or
not; `sources.csv` says how the grades of each chart were read. A cell without a temperature is
asked at room temperature. No cell is answered milder than it was printed: where charts contradict
each other the more onerous governs.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.resistance import Lookup, Rating
from areafit.values import Frozen

T = Tables.shipped()
_ANY = (Decimal(1), Decimal(10), Decimal(37))  # asked where a chart prints no strength
_NEAT = Decimal(100)


class Cell(Frozen):
    """A printed cell; `strengths` are those at which the table is asked."""

    material: str
    chemical: str
    strengths: tuple[Decimal, ...]
    heat: Decimal
    rating: Rating
    source: str
    temperature: str


def _cell(line: dict[str, str]) -> Cell:
    ends = [Decimal(line[name]) for name in ("conc_min_pct", "conc_max_pct") if line[name]]
    low, high = (ends[0], ends[-1]) if ends else (_NEAT, _NEAT)
    chemical = T.chemical(line["chemical"])
    assert chemical is not None
    unstated = _ANY if chemical.assumed_pct is None else (chemical.assumed_pct,)
    step = Decimal("0.01")  # the lower end of a printed span belongs to it or to the one below
    return Cell(
        line["material"],
        line["chemical"],
        tuple(sorted({min(low + step, high), high})) if ends else unstated,
        Decimal(line["temp_c"]),
        Rating(line["rating"]),
        line["source"],
        line["temperature"],
    )


def _read() -> list[Cell]:
    path = Path(__file__).parent / "printed_plastics.csv"
    with path.open(encoding="utf-8", newline="") as file:
        return [_cell(line) for line in csv.DictReader(file)]


CELLS = _read()


def _answers(cell: Cell, strength: Decimal) -> list[Lookup]:
    """Of each material that the name holds, fillers included, what the table says."""
    read = T.reading("materials", cell.material)
    at = Range.of(strength), Range.of(cell.heat)
    return [T.resistance_at(name, cell.chemical, *at) for name in (*read.ids, *read.fillers)]


def _rank(cell: Cell, strength: Decimal) -> int | None:
    found = [one.rating for one in _answers(cell, strength)]
    return max((one.rank for one in found if one is not None), default=None)


def test_no_printed_cell_is_answered_milder_than_it_was_printed(
    checked: Counter[tuple[str, str]],
) -> None:
    milder = []
    for cell in CELLS:
        ranks = [_rank(cell, strength) for strength in cell.strengths]
        known = [rank for rank in ranks if rank is not None]
        if any(rank < cell.rating.rank for rank in known):
            milder.append(cell)
        word = "silent"
        if known:
            word = "agree" if min(known) == cell.rating.rank else "stricter"
        checked["resistance", f"printed cells of plastics: {word}"] += 1
    assert milder == []
    assert checked["resistance", "printed cells of plastics: agree"] > 1000


def test_a_bad_cell_is_never_left_without_an_answer() -> None:
    bad = [cell for cell in CELLS if cell.rating is not Rating.SUITABLE]
    silent = [cell for cell in bad for at in cell.strengths if _rank(cell, at) is None]
    assert silent == []
    assert len(bad) > 400


def test_where_no_temperature_is_printed_a_good_row_ends_at_room_temperature() -> None:
    """Rows of a source that printed none; steam is at least at 100 °C."""
    printed = {(c.material, c.chemical, c.source) for c in CELLS if c.temperature == "printed"}
    for cell in CELLS:
        key = cell.material, cell.chemical, cell.source
        if cell.temperature != "not printed" or key in printed:
            continue
        for row in T.resistance(cell.material, cell.chemical):
            if row.source_id == cell.source and row.rating is not Rating.UNSUITABLE:
                assert row.temp_max_c is not None
                assert row.temp_max_c <= (100 if cell.chemical == "steam" else 23), row


@pytest.mark.parametrize(
    ("material", "chemical", "percent", "temp", "least"),
    [
        # published charts, sources of the rows: makers of pipe, of sheet, of labware, of seals
        ("POM-C", "acetic-acid", "10", 20, Rating.LIMITED),
        ("FKM", "ethanol", "70", 20, Rating.UNSUITABLE),
        ("ABS", "ethanol", "70", 20, Rating.UNSUITABLE),
        ("ABS", "n-butanol", "100", 20, Rating.UNSUITABLE),
        ("ABS", "acetic-acid", "20", 20, Rating.UNSUITABLE),
        ("PMMA", "methanol", "100", 20, Rating.UNSUITABLE),
        ("PMMA", "ethanol", "100", 20, Rating.UNSUITABLE),
        ("PP", "acetone", "100", 20, Rating.LIMITED),
        ("PVC-U", "cyclohexane", "100", 20, Rating.UNSUITABLE),
        ("PVDF", "sodium-hydroxide", "0.1", 40, Rating.UNSUITABLE),
        ("PVDF", "potassium-hydroxide", "0.1", 40, Rating.UNSUITABLE),
        ("PVC-C", "acetic-acid", "50", 20, Rating.UNSUITABLE),
        ("PVC-C", "n-butanol", "100", 20, Rating.UNSUITABLE),
        ("PVC-C", "ammonium-hydroxide", "10", 20, Rating.LIMITED),
        ("PVC-C", "sodium-hydroxide", "10", 20, Rating.UNSUITABLE),
        # a list of labware of 2024; a table of filled PTFE; a catalogue of PP pipe of 2025
        ("FKM", "toluene", "100", 20, Rating.LIMITED),
        ("glass-fibre", "hydrochloric-acid", "37", 50, Rating.LIMITED),
        ("glass-fibre", "hydrofluoric-acid", "5", 20, Rating.UNSUITABLE),
        ("PP", "xylene", "100", 20, Rating.UNSUITABLE),
        ("PP", "nitric-acid", "70", 60, Rating.UNSUITABLE),
        ("PP", "hydrofluoric-acid", "70", 50, Rating.LIMITED),
    ],
)
def test_what_published_charts_refuse(
    material: str, chemical: str, percent: str, temp: int, least: Rating
) -> None:
    found = T.resistance_at(material, chemical, Range.of(Decimal(percent)), Range.of(Decimal(temp)))
    assert found.rating is not None
    assert found.rating.rank >= least.rank


@pytest.mark.parametrize(
    ("material", "chemical", "percent", "temp"),
    [
        # the same sources: what they let stand, which a chart without strengths had held back
        ("PP", "hydrofluoric-acid", "20", 25),
        ("PP", "sodium-chloride", "3", 80),
        ("PEEK", "deionised-water", "100", 80),
        ("POM-C", "sodium-hydroxide", "2", 60),
    ],
)
def test_what_published_charts_let_stand(
    material: str, chemical: str, percent: str, temp: int
) -> None:
    heat = Range(Decimal(-273), Decimal(temp))
    found = T.resistance_at(material, chemical, Range.of(Decimal(percent)), heat)
    assert found.rating is Rating.SUITABLE
    assert found.complete


def test_chlorinated_pvc_is_never_answered_by_rows_of_pvc() -> None:
    for chemical in T.ids("chemicals"):
        assert not [pair for pair in T.analogues("PVC-C", chemical) if pair[0] != "PVC-C"]
