"""The window of pH in which a plating or an anodic film stays on its metal."""

from decimal import Decimal

from areafit.values import Frozen
from areafit.verdict import Basis


class PlatingWindow(Frozen):
    """pH limits of a coated metal's surface; `chloride_rusts` says that chlorides rust through."""

    family: str
    surface: str
    ph_min: Decimal
    ph_max: Decimal
    chloride_rusts: bool
    source_id: str
    locator: str
    basis: Basis
    note: str
