"""The protection level that a place asks for, where a clause speaks of levels."""

from areafit.demands.demand import Demands, HazardDemand
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, Level

_ZONES = {0: Level.GA, 1: Level.GB, 2: Level.GC, 20: Level.DA, 21: Level.DB, 22: Level.DC}


def required_level(area: Area) -> Level | None:
    """The level that an area asks for; None where it is not classified.

    A Division has none: the more onerous reading is taken, Division 1 as the best level and
    Division 2 as the weakest. Fibres count as dust.
    """
    if not area.classified or area.hazard is None:
        return None
    if area.system is AreaSystem.ZONE and area.zone is not None:
        return _ZONES[area.zone]
    letter = "a" if area.division == 1 else "c"
    return Level(("G" if area.hazard is Hazard.GAS else "D") + letter)


def asked_level(demands: Demands, hazard: HazardDemand) -> Level:
    """The best level that the areas of a hazard, or the site itself, ask for."""
    levels = [level for area in hazard.areas if (level := required_level(area)) is not None]
    own = demands.place.required_level
    if own is not None and any(own.value[0] == level.value[0] for level in levels):
        levels.append(own)
    return min(levels, key=lambda level: level.rank)


def place_names(hazard: HazardDemand) -> str:
    """The areas of a hazard in words: `Zone 1`, `Class II, Division 1`."""
    return " and ".join(dict.fromkeys(area.name for area in hazard.areas))
