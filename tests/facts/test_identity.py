"""Which line of one list is the same line of another. The project's own design, no source."""

from collections.abc import Hashable
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from areafit.facts.identity import Line, Matched, match
from areafit.values import Frozen


class Row(Frozen):
    """A line as an export has it."""

    item: str
    part_number: str | None = None
    description: str | None = None
    parent: str | None = None
    line_id: str | None = None


def told(found: Matched) -> tuple[dict[str, str], tuple[str, ...], tuple[str, ...], int]:
    return dict(found.pairs), found.gone, found.new, len(found.unclear)


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        # A part keeps its facts wherever it is listed.
        ([Row("1", "A")], [Row("9", "A")], ({"1": "9"}, (), (), 0)),
        # A position with another part number is a new line.
        ([Row("1", "A")], [Row("1", "B")], ({}, ("1",), ("1",), 0)),
        ([Row("1", "A", line_id="x")], [Row("1", "B", line_id="x")], ({}, ("1",), ("1",), 0)),
        # The CAD's id finds a line whose assembly or number of lines changed.
        (
            [Row("1", "A", line_id="x"), Row("2", "A", line_id="y")],
            [Row("3", "A", line_id="y"), Row("4", "A", line_id="x")],
            ({"1": "4", "2": "3"}, (), (), 0),
        ),
        ([Row("1", line_id="x")], [Row("2", "A", line_id="x")], ({"1": "2"}, (), (), 0)),
        # Two lines with one id are told apart by their numbers alone.
        (
            [Row("1", "A", line_id="x"), Row("2", "B", line_id="x")],
            [Row("3", "B", line_id="x"), Row("4", "A", line_id="x")],
            ({"1": "4", "2": "3"}, (), (), 0),
        ),
        # Without a part number: by item, and only under the same description.
        ([Row("1", None, "Foot")], [Row("1", None, "Foot")], ({"1": "1"}, (), (), 0)),
        ([Row("1", None, "Foot")], [Row("1", None, "Motor")], ({}, ("1",), ("1",), 0)),
        ([Row("1", None, "Foot")], [Row("2", None, "Foot")], ({}, ("1",), ("2",), 0)),
        ([Row("1", None, "Foot")], [Row("1", "A", "Foot")], ({}, ("1",), ("1",), 0)),
        # Mounted in another assembly, it is another line.
        (
            [Row("1", "X"), Row("1.1", "A", parent="1")],
            [Row("1", "Y"), Row("1.1", "A", parent="1")],
            ({}, ("1", "1.1"), ("1", "1.1"), 0),
        ),
        # One part in two assemblies.
        (
            [Row("1", "X"), Row("2", "Y"), Row("3", "A", parent="1"), Row("4", "A", parent="2")],
            [Row("5", "Y"), Row("6", "A", parent="5"), Row("7", "X"), Row("8", "A", parent="7")],
            ({"1": "7", "2": "5", "3": "8", "4": "6"}, (), (), 0),
        ),
        # Several candidates that differ are never guessed, those that do not may be any.
        (
            [Row("1", "A", "left"), Row("2", "A", "right")],
            [Row("3", "A", "left"), Row("4", "A", "mid")],
            ({}, (), (), 1),
        ),
        (
            [Row("1", "A", "left"), Row("2", "A", "right")],
            [Row("3", "A", "right"), Row("4", "A", "left")],
            ({"1": "4", "2": "3"}, (), (), 0),
        ),
        (
            [Row("1", "A"), Row("2", "A")],
            [Row("3", "A"), Row("4", "A"), Row("5", "A")],
            ({"1": "3", "2": "4"}, (), ("5",), 0),
        ),
        # A second line of a number beside one that stayed.
        (
            [Row("1", "A", "left")],
            [Row("1", "A", "left"), Row("2", "A", "right")],
            ({"1": "1"}, (), ("2",), 0),
        ),
        # A circle of parents is a mistake, and no endless loop.
        (
            [Row("1", "A", parent="2"), Row("2", "B", parent="1")],
            [Row("1", "A", parent="2"), Row("2", "B", parent="1")],
            ({"1": "1", "2": "2"}, (), (), 0),
        ),
    ],
)
def test_lines_are_matched(
    old: list[Row], new: list[Row], expected: tuple[dict[str, str], object, object, int]
) -> None:
    assert told(match(old, new)) == expected


ROWS = [
    Row("1", "X"),
    Row("2", "A", "one", parent="1"),
    Row("3", "A", "two", parent="1"),
    Row("4", "A"),
    Row("5", None, "Foot", line_id="f"),
    Row("6", "B", parent="5"),
]


@given(order=st.permutations(ROWS))
def test_neither_order_nor_numbering_of_a_whole_list_loses_a_line(order: list[Row]) -> None:
    items = {row.item: f"n{place}" for place, row in enumerate(order)}
    new = [
        Row(
            items[row.item],
            row.part_number,
            row.description,
            items.get(row.parent or ""),
            row.line_id,
        )
        for row in order
    ]
    found = match(ROWS, new)
    assert dict(found.pairs) == items
    assert found.renumbered == items
    assert (found.gone, found.new, found.unclear) == ((), (), ())


def test_what_else_is_stated_tells_candidates_apart() -> None:
    def facts(line: Line) -> Hashable:
        return {"1": "hot", "2": "cold", "7": "cold", "8": "hot"}[line.item]

    old, new = [Row("1", "A"), Row("2", "A")], [Row("7", "A"), Row("8", "A")]
    for each in permutations(new):
        assert dict(match(old, each, facts).pairs) == {"1": "8", "2": "7"}


def test_lines_whose_completed_facts_differ_are_not_put_in_order() -> None:
    old, new = [Row("1", "A", "Seal"), Row("2", "A", "Seal")], [Row("2", "A"), Row("3", "A")]
    new = [Row(row.item, "A", "Seal") for row in new]
    assert dict(match(old, new).pairs) == {"1": "2", "2": "3"}
    found = match(old, new, kept=lambda line: line.item)
    assert (dict(found.pairs), len(found.unclear)) == ({}, 1)
