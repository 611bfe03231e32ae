"""Gases beside which the values for mixtures with air do not hold."""

from areafit.frozen import frozen
from areafit.verdict import Basis


@frozen
class OxidisingGas:
    """One gas, by the name under which a chemical of a place is compared with it."""

    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str
