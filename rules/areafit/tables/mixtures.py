"""Mixtures in one bath that have a row of their own among the chemicals."""

from areafit.values import Frozen
from areafit.verdict import Basis


class Mixture(Frozen):
    """Chemicals, by id, that together are the chemical `mixture`; order does not matter."""

    mixture: str
    members: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str
