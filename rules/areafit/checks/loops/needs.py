"""What the places of a circuit ask of it, and which of its stated reactances hold for that.

Groups are of one system; what of the places is not known keeps an answer unproven.
"""

from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal

from areafit.demands import Demands, Gap, GroupNeed
from areafit.facts.groups import Cover, Group, GroupScheme, scheme_of, severity
from areafit.facts.loop import ByGroup
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Hazard, Law
from areafit.subjects import LoopCase
from areafit.values import Frozen, Term, replace
from areafit.verdict import Reason, Verdict

_HYDROGEN = "hydrogen"


class System(Term):
    """In which system groups are stated."""

    ZONE = "zone"
    DIVISION = "division"


class GroupNeeds(Frozen):
    """The groups that the places ask for in one system; any gap keeps a judgement unproven."""

    groups: tuple[GroupNeed, ...]
    gaps: tuple[Gap, ...]


_DIVISION = (GroupScheme.DIVISION_GAS, GroupScheme.DIVISION_DUST)
_DUST = (GroupScheme.ZONE_DUST, GroupScheme.DIVISION_DUST)


def system_of(group: Group) -> System:
    """The system that a group letter belongs to."""
    return System.DIVISION if group.scheme in _DIVISION else System.ZONE


def stated_system(case: LoopCase) -> System:
    """The system to judge in: that of the places if figures are stated in it, else the other."""
    loop = case.loop
    groups = [loop.group]
    for source in loop.sources:
        for figures in (source.capacitance, source.inductance):
            groups += [each.group for each in stated_values(figures, loop.group)]
    found = {system_of(group) for group in groups if group is not None}
    areas = (a for d in case.demands for hazard in d.hazards for a in hazard.areas)
    division = any(area.system is AreaSystem.DIVISION for area in areas)
    own = System.DIVISION if division else System.ZONE
    return own if own in found or not found else found.pop()


def law_of(case: LoopCase) -> Law | None:
    """The installation rules that govern; None where no end of the loop is on the list."""
    return next((demands.law for demands in case.demands), None)


def place_gaps(case: LoopCase) -> tuple[Gap, ...]:
    """What of the circuit's places is not known at all."""
    return tuple(dict.fromkeys(_place_gaps(case)))


def _place_gaps(case: LoopCase) -> Iterator[Gap]:
    for end in (*case.sources, *case.devices):
        if end.equipment is None:
            message = f"item {end.item} is not on the list, so its place is not known"
            yield Gap(Reason.FACT_MISSING, message, about=(end.item,))
        elif not end.demands:
            message = f"where item {end.item} stands is not stated"
            yield Gap(Reason.FACT_MISSING, message, about=(end.item,))
    if not case.sources or not case.devices:
        missing = "source" if not case.sources else "device"
        yield Gap(
            Reason.FACT_MISSING,
            f"the loop names no {missing}",
            about=(missing,),
            remedy_told=f"State the {missing} of the loop.",
        )
    yield from _unread(case)


def _unread(case: LoopCase) -> Iterator[Gap]:
    for demands in case.demands:
        area = demands.place.area
        if area is None or area.problems or not area.areas:
            missing = area is None
            said = "is not stated" if missing else "could not be read whole"
            message = f"the classification of {demands.place.name} {said}"
            reason = Reason.FACT_MISSING if missing else Reason.NOT_JUDGED
            name = demands.place.name
            told = f"Copy the `area` of {name} from its area classification document."
            yield Gap(reason, message, about=(name,), remedy_told=told)


def waits(
    case: LoopCase, gaps: tuple[Gap, ...], judged: Callable[[tuple[Gap, ...]], Verdict]
) -> bool:
    """Whether nothing but an area that could not be read keeps an answer from a pass.

    `judged` is the answer over gaps. `loop-group` says once, for the whole circuit, that an area
    could not be read; the answers that wait for it are left out meanwhile, never passed.
    """
    unread = set(_unread(case))
    if not unread:
        return False
    return judged(tuple(gap for gap in gaps if gap not in unread)) is Verdict.PASS


def needs_of(case: LoopCase, system: System) -> GroupNeeds:
    """The groups that all places of the circuit ask for in one system, each named once.

    Whatever dust it is, the spark limits of Group III are those of Group IIB (IEC 60079-11:2011,
    5.5), so a zone whose dust has no known group asks for Group III as such.
    """
    groups: list[GroupNeed] = []
    gaps = list(place_gaps(case))
    for demands in case.demands:
        for found, missing in _of_place(demands, system):
            groups += found
            gaps += missing
    return GroupNeeds(tuple(dict.fromkeys(groups)), tuple(dict.fromkeys(gaps)))


def _of_place(
    demands: Demands, system: System
) -> Iterator[tuple[tuple[GroupNeed, ...], tuple[Gap, ...]]]:
    for hazard in demands.hazards:
        scheme = scheme_of(hazard.hazard, division=system is System.DIVISION)
        demand = None if hazard.hazard is Hazard.FIBRES else hazard.group_demand(scheme)
        if demand is None:
            continue
        needs = tuple(replace(need, cause=_at(need, demands)) for need in demand.needs)
        if scheme is GroupScheme.ZONE_DUST and demand.gaps:
            dust = GroupNeed(Group.III, f"dust at {demands.place.name}")
            yield (*needs, dust), ()
        else:
            yield needs, tuple(_gap_at(gap, demands.place.name) for gap in demand.gaps)


def _gap_at(gap: Gap, place: str) -> Gap:
    return Gap(gap.reason, f"{gap.message} ({place})", about=(*gap.about, place))


def _at(need: GroupNeed, demands: Demands) -> str:
    return f"{need.cause}, {demands.place.name}"


def reach(stated: Group, need: GroupNeed, needs: Iterable[GroupNeed]) -> Cover:
    """Whether reactances stated for one group hold where another is needed, in one system.

    A more onerous group of gas holds for a milder one, Division letters included: this is the
    order of ignition energies, not of what is printed on a nameplate. For dust, values of IIB or
    C or of a more onerous group hold. Values for dust say nothing of gas.
    """
    group = need.group
    if stated is group:
        return Cover.YES
    if stated.scheme is group.scheme and stated.scheme in _DUST:
        return _dust(stated, group)
    rank = severity(stated)
    if rank is None or system_of(stated) is not system_of(group) or stated.scheme in _DUST:
        return Cover.UNPROVEN
    if group.scheme in _DUST:
        return _gas_for_dust(stated, group)
    if stated is Group.IIB_H2 and group is Group.IIC:
        return _hydrogen(need, needs)
    needed = severity(group)
    return Cover.UNPROVEN if needed is None else Cover.YES if rank >= needed else Cover.NO


def _dust(stated: Group, group: Group) -> Cover:
    if stated.scheme is GroupScheme.DIVISION_DUST:
        return Cover.UNPROVEN
    if stated in (Group.III, Group.IIIC):
        return Cover.YES
    ranks = severity(stated), severity(group)
    if ranks[0] is None or ranks[1] is None:
        return Cover.UNPROVEN
    return Cover.YES if ranks[0] >= ranks[1] else Cover.NO


def _gas_for_dust(stated: Group, group: Group) -> Cover:
    """Groups IIB and C are of one severity, and Group I has none that is as great."""
    if (severity(stated) or 0) >= (severity(Group.IIB) or 0):
        return Cover.YES
    return Cover.UNPROVEN if group in (Group.F, Group.G) else Cover.NO


def _hydrogen(need: GroupNeed, needs: Iterable[GroupNeed]) -> Cover:
    """IIB+H2 adds hydrogen only. A declared IIC may be due to hydrogen alone, or may not."""
    if _HYDROGEN in (need.substance, need.due_to):
        return Cover.YES
    other = need.substance is not None or not any(n.substance == _HYDROGEN for n in needs)
    return Cover.NO if other else Cover.UNPROVEN


class Permitted(Frozen):
    """A permitted capacitance or inductance in SI units.

    `value` holds for every needed group and was stated for `group`. Where none does, `value` is
    None, `missing` is the group that no figure is stated for, and `bound` a figure that was
    stated for a milder group and so cannot be less than the right one.
    """

    value: Decimal | None = None
    group: Group | None = None
    missing: Group | None = None
    bound: Decimal | None = None


class StatedValue(Frozen):
    """A permitted reactance as stated, and the group that it is for."""

    group: Group | None
    value: Decimal


def stated_values(figures: ByGroup | None, own: Group | None) -> tuple[StatedValue, ...]:
    """Each value with its group; a value without one is for the loop's own."""
    if figures is None:
        return ()
    alone = () if figures.any is None else ((own, figures.any),)
    return tuple(StatedValue(group, value) for group, value in (*alone, *figures.groups))


def permitted(
    figures: ByGroup | None, own: Group | None, needs: tuple[GroupNeed, ...]
) -> Permitted:
    """The figure that holds for all needs: the least of those that hold for each of them.

    Where no place asks for a group, the largest figure stated: less would be asked of a loop
    outside every hazard than of one within. Without any figure all is None.
    """
    stated = stated_values(figures, own)
    if not stated:
        return Permitted()
    if not needs:
        most = max(stated, key=lambda each: each.value)
        return Permitted(most.value, most.group)
    picked = [(need, _pick(stated, need, needs)) for need in needs]
    missing = next((need.group for need, each in picked if each is None), None)
    if missing is not None:
        milder = [e.value for e in stated for n in needs if _reach(e, n, needs) is Cover.NO]
        return Permitted(missing=missing, bound=min(milder, default=None))
    least = min((each for _, each in picked if each is not None), key=lambda each: each.value)
    return Permitted(least.value, least.group)


def _pick(
    stated: Iterable[StatedValue], need: GroupNeed, needs: tuple[GroupNeed, ...]
) -> StatedValue | None:
    """The figure of the mildest stated group that holds for the need."""

    def order(each: StatedValue) -> tuple[bool, int, Decimal]:
        rank = severity(each.group) if each.group is not None else None
        return each.group is not need.group, rank or 0, each.value

    holding = [each for each in stated if _reach(each, need, needs) is Cover.YES]
    return min(holding, key=order, default=None)


def _reach(stated: StatedValue, need: GroupNeed, needs: tuple[GroupNeed, ...]) -> Cover:
    return Cover.UNPROVEN if stated.group is None else reach(stated.group, need, needs)
