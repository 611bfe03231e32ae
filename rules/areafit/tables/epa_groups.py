"""The reactivity groups by which the EPA chart sorts chemicals."""

from areafit.values import Frozen
from areafit.verdict import Basis


class EpaGroup(Frozen):
    """A reactivity group of EPA-600/2-80-076."""

    number: str
    name: str
    source_id: str
    locator: str
    basis: Basis
    note: str
