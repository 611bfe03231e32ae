"""The gas group that limits for static charge are read for, as far as it is known."""

from functools import lru_cache

from areafit.demands import Demands, GroupDemand, HazardDemand
from areafit.demands.demand import Gap
from areafit.demands.levels import asked_level
from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Hazard
from areafit.tables.ignition import StaticLimit, static_limit
from areafit.values import Frozen
from areafit.verdict import Reason

_LADDER = (Group.IIA, Group.IIB, Group.IIC)
_AT_LEAST = {Group.A: Group.IIC, Group.B: Group.IIC, Group.C: Group.IIB, Group.D: Group.IIA}
_AT_MOST = {Group.A: Group.IIC, Group.B: Group.IIC, Group.C: Group.IIB, Group.D: Group.IIB}


class StaticLimits(Frozen):
    """The limits of the mildest and of the most onerous group that the place may have.

    They are the same where the group is known; `gap` says why they differ. `because` names what
    asks for the governing group where the declared area does not.
    """

    mildest: StaticLimit
    governing: StaticLimit
    dust: bool
    gap: Gap | None = None
    because: str = ""

    @property
    def whose(self) -> str:
        """The governing level and group, and what asks for it beyond the declared area."""
        limit = self.governing
        cause = f": {self.because}" if self.because else ""
        return f"EPL {limit.level}, {limit.group}{cause}"


def static_limits(demands: Demands, hazard: HazardDemand) -> StaticLimits:
    """The limits for one hazard of a place.

    The most onerous of the declared groups and of every substance governs. A Division letter is
    read as the more onerous of the IEC groups that its gases have; where a group is not known a
    surface passes only at IIC, and fails only by what is known.
    """
    return _limits(demands, hazard.hazard)


@lru_cache(maxsize=64)  # every part of a place asks
def _limits(demands: Demands, name: Hazard) -> StaticLimits:
    hazard = next(each for each in demands.hazards if each.hazard is name)
    level = asked_level(demands, hazard).value
    if hazard.hazard is not Hazard.GAS:
        limit = static_limit(level, "III")
        return StaticLimits(limit, limit, dust=True)
    zone = hazard.group_demand(GroupScheme.ZONE_GAS)
    division = hazard.group_demand(GroupScheme.DIVISION_GAS)
    divided = any(area.system is AreaSystem.DIVISION for area in hazard.areas)
    letters = [g for g in _groups(division) if divided and g in _AT_LEAST]
    known = [_step(group) for group in _groups(zone)]
    low = [*known, *(_LADDER.index(_AT_LEAST[g]) for g in letters)]
    high = [*known, *(_LADDER.index(_AT_MOST[g]) for g in letters)]
    gap = _gap(zone, letters)
    if gap is not None or not high:
        high.append(len(_LADDER) - 1)
    lowest, highest = max(low, default=0), max(high)
    if lowest == highest:
        gap = None
    return StaticLimits(
        static_limit(level, _LADDER[lowest].value),
        static_limit(level, _LADDER[highest].value),
        dust=False,
        gap=gap,
        because=_because(zone, highest) if gap is None else "",
    )


def _because(zone: GroupDemand | None, highest: int) -> str:
    """The substance, or the hydrogen from a chemical, that asks for more than the area declares."""
    needs = [n for n in (zone.needs if zone is not None else ()) if _step(n.group) == highest]
    if not needs or any(need.substance is None for need in needs):
        return ""
    return needs[0].cause


def _groups(demand: GroupDemand | None) -> list[Group]:
    return [need.group for need in demand.needs] if demand is not None else []


def _step(group: Group) -> int:
    """The place of a group on the ladder; a group without a letter is held to the worst."""
    found = severity(group)
    return len(_LADDER) - 1 if found is None else found


def _gap(zone: GroupDemand | None, letters: list[Group]) -> Gap | None:
    """What is not known of the group.

    Division letters answer for what the area declares, never for a substance that is not known.
    """
    gaps = zone.gaps if zone is not None else ()
    if letters:
        gaps = tuple(gap for gap in gaps if gap.reason is not Reason.FACT_MISSING)
    return gaps[0] if gaps else None
