"""Rows of the table of limits that every shipped version has."""

from areafit.tables.loop_limits import LoopLimit, loop_limit


def limit_row(name: str, applies_to: str = "all") -> LoopLimit:
    """The row that every shipped table has."""
    row = loop_limit(name, applies_to)
    if row is None:
        raise LookupError(f"loop_limits has no row {name}, {applies_to}")
    return row
