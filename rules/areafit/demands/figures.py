"""A temperature that governs, with the rows that it rests on."""

from collections.abc import Iterable
from decimal import Decimal

from areafit.rule import Row
from areafit.values import Frozen
from areafit.verdict import at_least


class Figure(Frozen):
    """A temperature in °C with the rows it comes from; own test values cite their source."""

    value: Decimal
    rows: tuple[Row, ...]


class LayerFigure(Frozen):
    """What is known of a dust layer: its ignition temperature in °C, or that it melts."""

    value: Decimal | None
    melts: bool
    thickness_mm: Decimal | None
    rows: tuple[Row, ...]


def supporting(deciding: Row, others: Iterable[Row]) -> tuple[Row, ...]:
    """The row that decides, and every other one that is at least as well founded.

    A milder value that rests on less decides nothing, so it must not weaken the basis either.
    """
    beside = (row for row in others if row != deciding and at_least(row.basis, deciding.basis))
    return (deciding, *dict.fromkeys(beside))
