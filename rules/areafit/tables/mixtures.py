"""Mixtures in one bath that have a row of their own among the chemicals."""

from dataclasses import dataclass

from areafit.verdict import Basis


@dataclass(frozen=True, slots=True)
class Mixture:
    """Chemicals, by id, that together are the chemical `mixture`; order does not matter."""

    mixture: str
    members: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str
