"""A substance that is present against what the area declares: hazard, group, temperature."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands, HazardDemand, Limit, Present
from areafit.facts.groups import Cover, Group, GroupScheme, covers
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard
from areafit.facts.quantity import number
from areafit.rule import Ask, Judgement, Row, flagged, passed, unproven
from areafit.sentence import capital
from areafit.values import Frozen
from areafit.verdict import Reason


class HazardDeclared(Frozen):
    """A substance that forms a hazard which the area does not declare."""

    substance: str
    hazard: Hazard
    from_chemical: bool


class GroupDeclared(Frozen):
    """A substance's group against the declared ones of the same system.

    `density` is that of the vapour relative to air; `second_division` says that the area is a
    Class II, Division 2, which metal dust never is; `hydrogen` that IIB+H2 names the substance.
    """

    substance: str
    needed: Group
    declared: frozenset[Group]
    rows: tuple[Row, ...]
    density: Decimal | None = None
    second_division: bool = False
    hydrogen: bool = False


class ClassDeclared(Frozen):
    """A limit that a substance sets against the declared class or maximum, in °C."""

    limit: Limit
    declared: Decimal


SubstanceQuestion = HazardDeclared | GroupDeclared | ClassDeclared

_SCHEME = {
    (Hazard.GAS, AreaSystem.DIVISION): GroupScheme.DIVISION_GAS,
    (Hazard.GAS, AreaSystem.ZONE): GroupScheme.ZONE_GAS,
    (Hazard.DUST, AreaSystem.DIVISION): GroupScheme.DIVISION_DUST,
    (Hazard.DUST, AreaSystem.ZONE): GroupScheme.ZONE_DUST,
}


def ask_substances(demands: Demands) -> Iterator[Ask[SubstanceQuestion]]:
    """Once per substance that is known, and once per declared temperature and limit."""
    for substance in demands.substances:
        if substance.known:
            yield from _hazards(substance, demands)
            for demand in demands.hazards:
                if demand.hazard in substance.hazards:
                    yield from _groups(substance, demand)
    for demand in demands.hazards:
        yield from _classes(demand)


def _hazards(substance: Present, demands: Demands) -> Iterator[Ask[SubstanceQuestion]]:
    area = demands.place.area
    if area is None or not area.areas:
        return
    hazards = substance.hazards
    flyings = substance.group(GroupScheme.ZONE_DUST)
    declared = any(demands.hazard(hazard) is not None for hazard in hazards)
    fibres = flyings is not None and flyings[0] is Group.IIIA
    if declared or (fibres and demands.hazard(Hazard.FIBRES) is not None):
        return
    hazard = Hazard.GAS if Hazard.GAS in hazards else Hazard.DUST
    yield Ask(HazardDeclared(substance.name, hazard, substance.from_chemical), substance.path)


def _groups(substance: Present, demand: HazardDemand) -> Iterator[Ask[SubstanceQuestion]]:
    for area in demand.areas:
        found = substance.group(_SCHEME[demand.hazard, area.system])
        second = area.hazard_class == "II" and area.division == 2
        if found is None or not (area.groups or second):
            continue
        density = substance.gas.vapour_density if substance.gas is not None else None
        question = GroupDeclared(
            substance.name,
            found[0],
            area.groups,
            found[1],
            density.value if density is not None else None,
            second,
            hydrogen=substance.gas is not None and substance.gas.id == "hydrogen",
        )
        yield Ask(question, "area")


def _classes(demand: HazardDemand) -> Iterator[Ask[SubstanceQuestion]]:
    maxima = dict.fromkeys(_maxima(demand.areas))
    for limit in demand.limits:
        if not (limit.declared or limit.overload):
            for declared in maxima:
                yield Ask(ClassDeclared(limit, declared), "area")


def _maxima(areas: tuple[Area, ...]) -> Iterator[Decimal]:
    for area in areas:
        if area.maximum is not None:
            yield area.maximum


def judge_substance(question: SubstanceQuestion) -> Judgement:
    """The declaration must be as onerous as what is present."""
    match question:
        case HazardDeclared():
            return _judge_hazard(question)
        case GroupDeclared():
            return _judge_group(question)
        case _:
            return _judge_class(question)


def _judge_hazard(question: HazardDeclared) -> Judgement:
    name, hazard = question.substance, question.hazard.value
    found = f"no {hazard} hazard declared"
    if question.from_chemical:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{name} is listed as a chemical and burns; the area declares no {hazard} hazard.",
            required="an area classification that accounts for it",
            found=found,
        )
    return flagged(
        f"{name} is listed as present; the area declares no {hazard} hazard.",
        required=f"a {hazard} hazard declared, or the substance not present",
        found=found,
    )


def _judge_group(question: GroupDeclared) -> Judgement:
    name, needed = question.substance, question.needed
    required = f"{needed.value} ({name})"
    found = ", ".join(sorted(group.value for group in question.declared)) or "no group"
    if needed is Group.E and question.second_division:
        return flagged(
            f"{name} is a metal dust, Group E: in hazardous amounts it makes a Division 1, also "
            "in abnormal operation. A Division 2 for it does not exist.",
            required="Class II, Division 1, Group E",
            found=f"Class II, Division 2, {found}",
            clause="NFPA 70-2023 500.5(C)",
            rows=question.rows,
        )
    hydrogen = question.hydrogen and Group.IIB_H2 in question.declared
    if question.declared and not hydrogen and covers(question.declared, needed) is Cover.NO:
        return flagged(
            f"{name} is {needed.value}; the area is declared for {found}."
            f"{_where(question.density)}",
            required=required,
            found=found,
            rows=question.rows,
        )
    return passed(
        f"{capital(found)} holds {name}.{_where(question.density)}",
        required=required,
        found=found,
        rows=question.rows,
    )


def _where(density: Decimal | None) -> str:
    if density is None or density == 1:
        return ""
    if density > 1:
        return (
            f" Its vapour is heavier than air ({number(density)}): pits, trenches and low points "
            "are worse places."
        )
    return (
        f" It is lighter than air ({number(density)}): roofs, hoods and canopies are worse places."
    )


def _judge_class(question: ClassDeclared) -> Judgement:
    limit, declared = question.limit, question.declared
    word = "at most" if limit.inclusive else "below"
    required = f"{word} {number(limit.maximum)} °C ({limit.cause})"
    found = f"{number(declared)} °C declared"
    if declared < limit.maximum or (declared == limit.maximum and limit.inclusive):
        return passed(
            f"The declared {number(declared)} °C is low enough: {limit.cause}.",
            required=required,
            found=found,
            rows=limit.rows,
        )
    if limit.uncertain or (declared == limit.maximum and limit.no_margin_at_limit):
        return unproven(
            Reason.NO_MARGIN if declared == limit.maximum else Reason.CONDITION_TO_ACCEPT,
            f"The declared {number(declared)} °C leaves no margin, or holds only if something "
            f"unproven does: {limit.cause}.",
            required=required,
            found=found,
            rows=limit.rows,
        )
    return flagged(
        f"The declared {number(declared)} °C is too hot: {limit.cause}.",
        required=required,
        found=found,
        clause=limit.clause,
        rows=limit.rows,
    )
