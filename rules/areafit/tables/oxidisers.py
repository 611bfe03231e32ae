"""Gases beside which the values for mixtures with air do not hold."""

from dataclasses import dataclass
from functools import cache

from areafit.tables.load import rows
from areafit.verdict import Basis


@dataclass(frozen=True, slots=True)
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
