"""Enclosure rating against what the place asks for and what the type of protection rests on."""

from collections.abc import Iterator
from dataclasses import dataclass

from areafit.checks.area.candidates import choices
from areafit.checks.area.enclosure import judge_rating
from areafit.checks.area.minimum import Minimum, minimum_of
from areafit.checks.area.rating import Rating, ips_shown, read_rating, solids, water
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@dataclass(frozen=True, slots=True)
class AtPlace:
    """The rating that a place asks for, and all that the part states, as one."""

    needed: Rating
    stated: Rating | None


@dataclass(frozen=True, slots=True)
class ForType:
    """The rating that a type of protection rests on, and the one on the nameplate or stated."""

    needed: Minimum
    stated: Rating | None


Question = AtPlace | ForType


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Electrical parts: a bracket has no enclosure to rate."""
    if not equipment.electrical:
        return
    texts = [equipment.ingress] if equipment.ingress is not None else []
    marked = [
        code.ingress
        for marking in equipment.markings or ()
        for code in marking.codes
        if code.ingress is not None
    ]
    if demands.place.ingress is not None:
        every = tuple(dict.fromkeys((*marked, *texts)))
        stated = read_rating("; ".join(every)) if every else None
        yield Ask(AtPlace(read_rating(demands.place.ingress), stated), "ingress")
    for hazard in demands.hazards:
        for choice in choices(equipment, demands, hazard):
            needed = minimum_of(choice.code, hazard)
            if choice.code is None or needed is None:
                continue
            text = choice.code.ingress or equipment.ingress
            yield Ask(ForType(needed, read_rating(text) if text else None), "ingress")


def _judge(question: Question) -> Judgement:
    if isinstance(question, ForType):
        return _judge_type(question)
    return judge_rating(question.needed, question.stated)


def _judge_type(question: ForType) -> Judgement:
    needed, stated = question.needed, question.stated
    required = f"{needed.text} at least, for {needed.protection}"
    found = stated.text if stated is not None else "not stated"
    row = (needed.row,)
    if stated is None or not (stated.ips or stated.types):
        return unproven(
            Reason.FACT_MISSING,
            f"Type of protection {needed.protection} rests on the enclosure; its rating is not "
            "stated.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    if stated.unread:
        return unproven(
            Reason.NOT_JUDGED,
            f"{stated.unread!r} beside {stated.text} could not be read; it may limit the rating.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    shown = ips_shown(stated)
    if solids(shown, needed.first) and water(shown, needed.second):
        return passed(
            f"{stated.text} holds what {needed.protection} asks for.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    if stated.types or any(None in (own.first, own.second) for own in stated.ips):
        return unproven(
            Reason.FACT_MISSING,
            f"{stated.text} does not show the {needed.text} that {needed.protection} asks for.",
            required=required,
            found=found,
            clause=needed.clause,
            rows=row,
        )
    return flagged(
        f"{stated.text} is less than the {needed.text} that {needed.protection} asks for.",
        required=required,
        found=found,
        clause=needed.clause,
        rows=row,
    )


RULE = Rule[Question](
    id="ingress",
    title="Enclosure keeps out what it must",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="IEC 60529:2013 5, 6; NEMA 250-2018; NFPA 70-2023 110.28",
    why="Dust and water that get in bridge, corrode and heat what is protected; for dust types of "
    "protection the closed enclosure is the protection itself.",
    remedy="Choose an enclosure with the rating asked for, or have the maker state it.",
    answer_by=Role.SUPPLIER,
    note="Digits are compared one by one. A Type stands in for an IP rating, never the reverse; "
    "correspondence tables differ by edition and the lower value is used, except that Types 4 and "
    "4X are taken as IP66, which older tables print as IP56. Types 7 and 9 are listings, not "
    "ratings. IP44 may do for type e without bare live parts, by its certificate.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "IP66 where IP65 is asked for",
            Verdict.PASS,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP67 against jets",
            Verdict.FLAG,
            "{kind: electrical, ingress: IP67}",
            "{area: 'Zone 1, IIB, T3', ingress: IP65}",
        ),
        Example(
            "IP66 where Type 4X is asked for",
            Verdict.UNPROVEN,
            "{kind: electrical, ingress: IP66}",
            "{area: 'Class I, Division 2, Group D', ingress: Type 4X}",
            "NEC",
        ),
        Example(
            "Dust protection by enclosure with IP54 in conductive dust",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex tb IIIC T85°C Db, ingress: IP54}",
            "{area: 'Zone 21, IIIC, T135 °C'}",
        ),
    ),
)
