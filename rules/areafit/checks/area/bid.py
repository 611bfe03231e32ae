"""What is put forward for one hazard of a place: a part with one of its codes, or with none."""

from areafit.checks.area.missing import Missing
from areafit.demands import Demands, HazardDemand
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.values import Frozen


class Bid(Frozen, eq=False):
    """A part at a place, and the code that is to answer a hazard; without one, what is missing."""

    equipment: Equipment
    demands: Demands
    hazard: HazardDemand
    code: Code | None
    missing: Missing | None
