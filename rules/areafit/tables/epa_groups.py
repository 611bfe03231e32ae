"""The reactivity groups by which the EPA chart sorts chemicals."""

from areafit.frozen import frozen
from areafit.verdict import Basis


@frozen
class EpaGroup:
    """A reactivity group of EPA-600/2-80-076."""

    number: str
    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str
