"""The reactivity groups by which the EPA chart sorts chemicals."""

from dataclasses import dataclass

from areafit.verdict import Basis


@dataclass(frozen=True, slots=True)
class EpaGroup:
    """A reactivity group of EPA-600/2-80-076."""

    number: str
    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str
