"""Spellings of one plate: each is read as its clause has it, or what is not read is named.

Rows come in groups: spellings that say the same, and beside them words that only look like them.
"""

import csv
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest

import areafit
from areafit.facts.marking import Marking
from areafit.facts.protection import Suffix
from areafit.facts.quantity import Range
from areafit.marking import decode

with (Path(__file__).parent / "spellings.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))


def test_every_row_says_where_it_is_from() -> None:
    assert len(ROWS) >= 200
    assert all(row["source"] for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"])
def test_a_spelling_is_read_or_named(
    row: dict[str, str], summary: Callable[[Marking], str]
) -> None:
    marking = decode(row["text"])
    assert summary(marking) == row["expected"]
    said = {problem.message for problem in marking.problems}
    assert row["says"] in said if row["says"] else not said


def test_entries_of_a_list_share_nothing() -> None:
    entries = ["Ex db IIC Gb", "Ex eb IIC Gb T6 -20 °C ≤ Ta ≤ +60 °C X"]
    text = (
        "{areafit: 1, assembly: {number: A-1}, code: IEC, locations: {room: {area: Zone 1}}, "
        f"parts: [{{item: 1, kind: electrical, location: room, marking: {entries}}}]}}"
    )
    markings = areafit.read(text.encode(), "t.yaml").parts[0].equipment.markings
    assert markings is not None
    code, last = markings[0].codes[0], markings[1].codes[0]
    assert (code.temperatures, code.ambient, code.suffix) == ((), None, None)
    assert (last.temperatures[0].name, last.suffix) == ("T6", Suffix.X)
    assert last.ambient == Range(Decimal(-20), Decimal(60))
