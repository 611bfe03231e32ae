"""The declared area against what is present: group, temperature class, kind of hazard, document."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from areafit.cases import PlaceCase
from areafit.demands import Demands, HazardDemand, Present
from areafit.facts.groups import Cover, Group, GroupScheme, covers
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard, Law
from areafit.facts.quantity import number
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, flagged, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@dataclass(frozen=True, slots=True)
class Reading:
    """The declared text: readable, free of contradictions, of a system that the law knows, and
    taken from a document."""

    area: AreaReading
    law: Law
    document: str | None


@dataclass(frozen=True, slots=True)
class GroupDeclared:
    """A substance's own group against the declared ones of the same system."""

    substance: str
    needed: Group
    declared: frozenset[Group]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class ClassDeclared:
    """A substance's autoignition temperature against the declared class, in °C."""

    substance: str
    ignites: Decimal
    limit: Decimal
    law: Law
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class HazardDeclared:
    """A substance that forms a hazard which the area does not declare."""

    substance: str
    hazard: Hazard
    declared: bool
    only_from_chemical: bool


Question = Reading | GroupDeclared | ClassDeclared | HazardDeclared


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    del case
    place = demands.place
    if place.area is None:
        return
    yield Ask(Reading(place.area, place.law, place.document), "area")
    for substance in demands.substances:
        if not substance.known:
            continue
        yield from _hazard(substance, demands)
        for demand in demands.hazards:
            if demand.hazard in substance.hazards:
                yield from _group(substance, demand)
                yield from _class(substance, demand, place.law)


def _hazard(substance: Present, demands: Demands) -> Iterator[Ask[Question]]:
    if demands.place.area is None or not demands.place.area.areas:
        return
    hazards = substance.hazards
    if any(demands.hazard(hazard) is not None for hazard in hazards):
        return
    hazard = Hazard.GAS if Hazard.GAS in hazards else Hazard.DUST
    question = HazardDeclared(
        substance.name, hazard, declared=False, only_from_chemical=substance.from_chemical
    )
    yield Ask(question, substance.path)


_SCHEME = {
    (Hazard.GAS, AreaSystem.DIVISION): GroupScheme.DIVISION_GAS,
    (Hazard.GAS, AreaSystem.ZONE): GroupScheme.ZONE_GAS,
    (Hazard.DUST, AreaSystem.DIVISION): GroupScheme.DIVISION_DUST,
    (Hazard.DUST, AreaSystem.ZONE): GroupScheme.ZONE_DUST,
}


def _group(substance: Present, demand: HazardDemand) -> Iterator[Ask[Question]]:
    for area in demand.areas:
        scheme = _SCHEME.get((demand.hazard, area.system))
        found = substance.group(scheme) if scheme is not None and area.groups else None
        if found is not None:
            question = GroupDeclared(substance.name, found[0], area.groups, found[1])
            yield Ask(question, "area")


def _class(substance: Present, demand: HazardDemand, law: Law) -> Iterator[Ask[Question]]:
    if demand.hazard is not Hazard.GAS:
        return
    figure = substance.autoignition()
    for area in demand.areas:
        if figure is not None and area.maximum is not None:
            yield Ask(
                ClassDeclared(substance.name, figure.value, area.maximum, law, figure.rows), "area"
            )


def _judge(question: Question) -> Judgement:
    match question:
        case Reading():
            return _judge_reading(question)
        case GroupDeclared():
            return _judge_group(question)
        case ClassDeclared():
            return _judge_class(question)
        case HazardDeclared():
            return _judge_hazard(question)


def _judge_reading(question: Reading) -> Judgement:
    reading = question.area
    required = "an area that the governing rules know, taken from a named document"
    if reading.problems:
        message = reading.problems[0]
        if reading.areas:
            return flagged(message, required=required, found=reading.text)
        return unproven(Reason.NOT_JUDGED, message, required=required, found=reading.text)
    foreign = next((a for a in reading.areas if not _known_to(question.law, a)), None)
    if foreign is not None:
        return flagged(
            f"{question.law.value} knows no Divisions; the area is declared as one.",
            required=required,
            found=reading.text,
        )
    if question.document is None:
        return unproven(
            Reason.FACT_MISSING,
            "The area classification that this was taken from is not named.",
            required=required,
            found=reading.text,
            remedy="State the `document` and its revision; an unclassified place needs one too.",
        )
    return passed(
        "The area is taken from a named document.",
        required=required,
        found=f"{reading.text} ({question.document})",
    )


def _known_to(law: Law, area: Area) -> bool:
    return law is Law.NEC or area.system is not AreaSystem.DIVISION


def _judge_group(question: GroupDeclared) -> Judgement:
    required = f"{question.needed.value} ({question.substance})"
    found = ", ".join(sorted(group.value for group in question.declared))
    if covers(question.declared, question.needed) is Cover.NO:
        return flagged(
            f"{question.substance} is {question.needed.value}; the area is declared for {found}.",
            required=required,
            found=found,
            rows=question.rows,
        )
    return passed(
        f"{found} holds {question.substance}.", required=required, found=found, rows=question.rows
    )


def _judge_class(question: ClassDeclared) -> Judgement:
    ignites, limit = question.ignites, question.limit
    required = f"below {number(ignites)} °C ({question.substance})"
    found = f"{number(limit)} °C"
    if limit < ignites:
        return passed(
            f"The declared class stays below what ignites {question.substance}.",
            required=required,
            found=found,
            rows=question.rows,
        )
    if limit == ignites and question.law is Law.NEC:
        return unproven(
            Reason.NO_MARGIN,
            f"The declared class equals the autoignition temperature of {question.substance}.",
            required=required,
            found=found,
            rows=question.rows,
        )
    return flagged(
        f"{question.substance} ignites at {number(ignites)} °C; the declared class allows "
        f"{number(limit)} °C.",
        required=required,
        found=found,
        rows=question.rows,
    )


def _judge_hazard(question: HazardDeclared) -> Judgement:
    if question.only_from_chemical:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"{question.substance} is listed as a chemical and burns; the area declares no "
            f"{question.hazard.value} hazard.",
            required="an area classification that accounts for it",
            found=f"no {question.hazard.value} hazard declared",
        )
    return flagged(
        f"{question.substance} is listed as present; the area declares no {question.hazard.value} "
        "hazard.",
        required=f"a {question.hazard.value} hazard declared, or the substance not present",
        found=f"no {question.hazard.value} hazard declared",
    )


RULE = Rule[Question](
    id="declared-area",
    title="Declared area fits what is present",
    family=Family.PLACES,
    subject=Subject.PLACE,
    clause="NFPA 70-2023 500.4 to 500.6, 505.4 to 505.6; IEC 60079-10-1:2020; "
    "ISO/IEC 80079-20-1:2017",
    why="A part that suits a wrongly declared area is not safe; the declaration is checked "
    "against the substances once, here, instead of on every line.",
    remedy="Have the area classification corrected by its owner, or the list of substances.",
    answer_by=Role.AREA_OWNER,
    note="Only the system in which the area is declared counts: ethanol is Group D and IIB.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Ethanol is Group D",
            Verdict.PASS,
            place="{area: 'Class I, Division 1, Group D', substances: [ethanol], document: AC-1}",
            law="NEC",
        ),
        Example(
            "Ethanol is IIB",
            Verdict.FLAG,
            place="{area: 'Zone 1, IIA, T2', substances: [ethanol], document: AC-1}",
        ),
        Example(
            "No document",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T2', substances: [ethanol]}",
        ),
    ),
)
