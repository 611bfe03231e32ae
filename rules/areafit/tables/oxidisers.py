"""Gases beside which the values for mixtures with air do not hold."""

from functools import cache

from areafit.frozen import frozen
from areafit.tables.load import rows
from areafit.verdict import Basis


@frozen
class OxidisingGas:
    """One gas, by the name under which a chemical of a place is compared with it."""

    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def oxidising_gases() -> dict[str, OxidisingGas]:
    """The table by name."""
    return {row.name: row for row in rows("oxidising_gases", OxidisingGas)}
