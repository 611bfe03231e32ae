"""What the catalogue says of a table, and which of two values asks for more."""

from collections.abc import Mapping
from importlib import import_module
from types import MappingProxyType
from typing import Any

from areafit.values import Frozen, Term


class Merge(Term):
    """How a company's own rows are laid over the shipped ones."""

    FIELDS = "fields"  # column by column: the stricter value governs
    VALUES = "values"  # one value a line: lines stand side by side, the most onerous governs
    POINTS = "points"  # compared where they apply: at a concentration and a temperature
    FIXED = "fixed"  # set by a standard; cannot be overlaid


class Stricter(Term):
    """Which of two values of a column asks for more."""

    LOWER = "lower"
    HIGHER = "higher"


Order = Stricter | tuple[str, ...]  # a tuple lists the words of a column, mildest first


class TableSpec(Frozen):
    """One table.

    `row` is `module:Class` below areafit.tables; `key` the number of leading key columns;
    `blank_is_strict` the columns in which a blank cell asks for more than any value would.
    """

    name: str
    title: str
    row: str
    key: int
    merge: Merge = Merge.FIELDS
    stricter: Mapping[str, Order] = MappingProxyType({})
    blank_is_strict: tuple[str, ...] = ()

    @property
    def row_type(self) -> type[Any]:
        """The dataclass of a row, imported when first asked for."""
        module, _, name = self.row.partition(":")
        found: type[Any] = getattr(import_module(f"areafit.tables.{module}"), name)
        return found


def more_onerous(order: Order | None, ours: str, theirs: str) -> bool | None:
    """Whether `theirs` asks for more than `ours`; None where the two cannot be compared."""
    from decimal import Decimal  # noqa: PLC0415 - only overlays compare

    if order is None:
        return None
    if isinstance(order, tuple):
        if ours not in order or theirs not in order:
            return None
        return order.index(theirs) > order.index(ours)
    lower = Decimal(theirs) < Decimal(ours)
    return lower if order is Stricter.LOWER else not lower
