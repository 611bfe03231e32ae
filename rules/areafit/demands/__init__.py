"""What a place asks for, derived from its facts before any rule runs."""

from areafit.demands.demand import (
    CorrodingChemical,
    Demands,
    Gap,
    GroupDemand,
    GroupNeed,
    HazardDemand,
    Limit,
)
from areafit.demands.derive import derive
from areafit.demands.present import Present

__all__ = [
    "CorrodingChemical",
    "Demands",
    "Gap",
    "GroupDemand",
    "GroupNeed",
    "HazardDemand",
    "Limit",
    "Present",
    "derive",
]
