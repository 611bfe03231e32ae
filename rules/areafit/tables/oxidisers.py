"""Gases beside which the values for mixtures with air do not hold."""

from areafit.values import Frozen
from areafit.verdict import Basis


class OxidisingGas(Frozen):
    """One gas, by the name under which a chemical of a place is compared with it."""

    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str
