"""Groups that a hazard asks for, in the declared system and in the other one."""

from areafit.demands.demand import Gap, GroupDemand, GroupNeed, unknown_substance
from areafit.demands.substances import ResolvedSubstance
from areafit.facts.groups import Group, GroupScheme, severity
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard
from areafit.rule import Row
from areafit.tables.words import is_placeholder
from areafit.values import replace
from areafit.verdict import Reason

_HYDROGEN = "hydrogen"
_SCHEMES = {
    Hazard.GAS: {
        AreaSystem.DIVISION: GroupScheme.DIVISION_GAS,
        AreaSystem.ZONE: GroupScheme.ZONE_GAS,
    },
    Hazard.DUST: {
        AreaSystem.DIVISION: GroupScheme.DIVISION_DUST,
        AreaSystem.ZONE: GroupScheme.ZONE_DUST,
    },
}


def group_demands(
    hazard: Hazard,
    areas: tuple[Area, ...],
    substances: tuple[ResolvedSubstance, ...],
    *,
    listed: bool,
    document: str | None = None,
) -> tuple[GroupDemand, ...]:
    """What must be covered in each scheme.

    Within the declared system the declared groups and every substance count. In the other system
    only the substances' own rows count, and they must explain the declared group: D is not IIA.
    `listed` says whether the place states its substances at all. With the `document` of the
    classification they say what a declared IIC is due to: to hydrogen alone, if nothing else asks
    for it.
    """
    present = tuple(s for s in substances if hazard in s.hazards)
    demands = []
    for scheme in _SCHEMES[hazard].values():
        declared, foreign = _declared(hazard, areas, scheme)
        needs = [GroupNeed(group, "declared area") for group in declared]
        gaps = []
        for substance in present:
            found = substance.group(scheme)
            if found is None:
                gaps.append(_unknown(substance, scheme))
            else:
                needs.append(_need(substance, scheme, found))
        if foreign:
            gaps += _unexplained(foreign, present, scheme, listed=listed)
        elif not declared and not present:
            gaps.append(_nothing_stated(scheme))
        if document is not None and not is_placeholder(document) and not gaps:
            needs = _due_to_hydrogen(needs)
        demands.append(GroupDemand(scheme, tuple(needs), tuple(gaps)))
    return tuple(demands)


def _due_to_hydrogen(needs: list[GroupNeed]) -> list[GroupNeed]:
    """The needs where hydrogen is the only substance that explains a declared IIC."""
    asking = {need.substance for need in needs if need.substance and need.group is Group.IIC}
    if asking != {_HYDROGEN}:
        return needs
    return [
        replace(need, due_to=_HYDROGEN)
        if need.substance is None and need.group is Group.IIC
        else need
        for need in needs
    ]


def _declared(
    hazard: Hazard, areas: tuple[Area, ...], scheme: GroupScheme
) -> tuple[list[Group], list[Group]]:
    """Declared groups of this scheme, and those that are declared in another one.

    An area of another system that declares no group still counts as foreign if nothing of this
    scheme is declared; it then yields no foreign group and the substances alone must do.
    """
    groups = {g for area in areas if area.hazard is hazard for g in area.groups}
    own = sorted((g for g in groups if g.scheme is scheme), key=lambda g: g.value)
    return own, sorted((g for g in groups if g.scheme is not scheme), key=lambda g: g.value)


def _need(
    substance: ResolvedSubstance, scheme: GroupScheme, found: tuple[Group, tuple[Row, ...]]
) -> GroupNeed:
    """The substance's group; where its seal exception applies, the milder letter beside it."""
    group, rows = found
    seals = substance.group_with_seals() if scheme is GroupScheme.DIVISION_GAS else None
    milder = substance.milder_group(scheme)
    if seals is None:
        return GroupNeed(group, substance.name, _id(substance), rows, milder=milder)
    rows = (*rows, seals[1])
    return GroupNeed(group, substance.name, _id(substance), rows, seals[0], milder=milder)


def _id(substance: ResolvedSubstance) -> str:
    known = substance.gas or substance.dust
    return known.id if known is not None else substance.name


def _unknown(substance: ResolvedSubstance, scheme: GroupScheme) -> Gap:
    if not substance.known:
        return unknown_substance(substance)
    message = f"no {scheme.value} group is known for {substance.name}"
    return Gap(Reason.NO_DATA, message, about=(substance.name,))


def _nothing_stated(scheme: GroupScheme) -> Gap:
    return Gap(
        Reason.FACT_MISSING,
        f"the place declares no {scheme.value} group and lists no substance that gives one",
    )


def _unexplained(
    foreign: list[Group],
    present: tuple[ResolvedSubstance, ...],
    scheme: GroupScheme,
    *,
    listed: bool,
) -> list[Gap]:
    """Declared groups of the other system that the listed substances do not account for."""
    if not listed or not present:
        names = " and ".join(group.value for group in foreign)
        return [
            Gap(
                Reason.FACT_MISSING,
                f"the area is declared as {names} only, which does not convert to a "
                f"{scheme.value} group; list the substances",
                about=tuple(group.value for group in foreign),
            )
        ]
    gaps = []
    for group in foreign:
        shown = [found[0] for s in present if (found := s.group(group.scheme)) is not None]
        if not any(_reaches(one, group) for one in shown):
            gaps.append(
                Gap(
                    Reason.FACT_MISSING,
                    f"no listed substance accounts for the declared {group.value}, so what it "
                    f"asks for as a {scheme.value} group is not known",
                    about=(group.value,),
                )
            )
    return gaps


def _reaches(shown: Group, declared: Group) -> bool:
    if shown is declared:
        return True
    shown_rank, declared_rank = severity(shown), severity(declared)
    return shown_rank is not None and declared_rank is not None and shown_rank >= declared_rank
