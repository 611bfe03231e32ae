"""Level of protection against the class and division, or zone, of the place."""

from collections.abc import Callable, Iterator

from areafit.checks.area.ask import per_hazard
from areafit.checks.area.candidates import Chosen
from areafit.checks.area.level import judge_level
from areafit.checks.area.offer import describe
from areafit.checks.area.question import LevelQuestion
from areafit.demands import Demands
from areafit.demands.demand import required_level
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Law, Level
from areafit.marking.level import effective_level
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class AssociatedOutside(Frozen):
    """Associated apparatus in an unclassified place: where its marking asks it to stand."""

    code: Code


class NotElectrical(Frozen):
    """A code for equipment that is not electrical, under rules that are for electrical only."""

    code: Code
    areas: tuple[Area, ...]
    required_level: Level | None


Question = LevelQuestion | AssociatedOutside | NotElectrical


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    asking: Callable[[Equipment, Demands], Iterator[Ask[Question]]] = per_hazard(_level)
    yield from asking(equipment, demands)
    area = demands.place.area
    if area is None or area.problems or demands.classified or not area.areas:
        return
    for marking in equipment.markings or ():
        for code in marking.codes:
            if code.associated:
                yield Ask(AssociatedOutside(code), "marking")


def _level(choice: Chosen) -> Question:
    """NFPA 70 is for electrical equipment; what is not is asked for no listing by it."""
    level, code = choice.level, choice.code
    own = code is not None and code.non_electrical and not choice.technique.electrical
    if code is None or not own or level.law is not Law.NEC:
        return level
    return NotElectrical(code, level.areas, level.required_level)


def _judge(question: Question) -> Judgement:
    if isinstance(question, LevelQuestion):
        return judge_level(question)
    if isinstance(question, NotElectrical):
        return _judge_not_electrical(question)
    return passed(
        "Associated apparatus stands outside the classified area, as its marking asks.",
        required="a place outside the classified area",
        found=f"unclassified place; {describe(question.code)}",
        clause="IEC 60079-14:2013 16",
    )


def _judge_not_electrical(question: NotElectrical) -> Judgement:
    """The level printed must reach that of the area; a Division 1 is read as level b."""
    asked = [level for area in question.areas if (level := _asked(area)) is not None]
    if question.required_level is not None:
        asked.append(question.required_level)
    most = min(asked, key=lambda level: level.rank)  # what is classified asks for one
    level = effective_level(question.code)
    found = describe(question.code)
    required = f"EPL {most.value} or better, of equipment that is not electrical"
    if level is None:
        return unproven(
            Reason.FACT_MISSING,
            "The marking does not show what level of protection it gives.",
            required=required,
            found=found,
            clause=_NOT_ELECTRICAL,
        )
    if level.rank > most.rank:
        return flagged(
            f"The area asks for {most.value}; the marking gives {level.value}.",
            required=required,
            found=found,
            clause=_NOT_ELECTRICAL,
        )
    return passed(
        "NFPA 70 asks for no listing of what is not electrical; the level printed reaches the "
        "area's.",
        required=required,
        found=found,
        clause=_NOT_ELECTRICAL,
    )


def _asked(area: Area) -> Level | None:
    level = required_level(area)
    if level is None or area.system is AreaSystem.ZONE or level.rank > 0:
        return level
    return Level(f"{level.value[0]}b")


_NOT_ELECTRICAL = "NFPA 70-2023 90.2(A), 500.1; ISO 80079-36:2016"


PROTECTION_LEVEL = Rule[Question](
    id="protection-level",
    title="Level of protection suits the area",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.8, 505.9; IEC 60079-14:2013 5.3; 1999/92/EC Annex II B",
    why="The level says in which states of the equipment, normal or faulty, it will not ignite "
    "the atmosphere; an area where the atmosphere is more often present asks for more.",
    remedy="Choose a part marked for the area, or move it to a place that its marking allows.",
    answer_by=Role.SUPPLIER,
    note="29 CFR 1910.307(g)(5) asks Division equipment in a Zone to bear the zone marking too; "
    "recent editions of NFPA 70 only permit that. Whether Class II, Division 1 equipment serves "
    "Zone 20 depends on the edition and is left unproven. NFPA 70 asks for "
    "no listing of what is not electrical: its level is held to the zone's, a Division 1 read as "
    "level b, and `ignition-hazard` asks for more.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Zone 0 equipment in Division 1, same gas",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Zone 0, AEx ia IIC T4 Ga'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Zone 1 equipment in Division 1",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Class I, Zone 1, AEx db IIB T4 Gb'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A sensor with nothing on its nameplate",
            Verdict.UNPROVEN,
            "{kind: electrical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A barrier outside the area",
            Verdict.PASS,
            "{kind: electrical, marking: '[Ex ia Ga] IIC'}",
            "{area: unclassified}",
        ),
    ),
)
