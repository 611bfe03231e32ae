"""What a place asks for, derived from its facts before any rule runs."""

from areafit.demands.demand import (
    CorrodingChemical,
    Demands,
    Gap,
    GroupDemand,
    GroupNeed,
    HazardDemand,
    Limit,
    unaccepted,
    whence,
)
from areafit.demands.derive import chemical_meant, derive
from areafit.demands.substances import ResolvedSubstance

__all__ = [
    "CorrodingChemical",
    "Demands",
    "Gap",
    "GroupDemand",
    "GroupNeed",
    "HazardDemand",
    "Limit",
    "ResolvedSubstance",
    "chemical_meant",
    "derive",
    "unaccepted",
    "whence",
]
