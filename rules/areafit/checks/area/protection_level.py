"""Level of protection against the class and division, or zone, of the place."""

from collections.abc import Iterator

from areafit.checks.area.ask import per_hazard
from areafit.checks.area.candidates import READS
from areafit.checks.area.level import judge_level
from areafit.checks.area.offer import describe
from areafit.checks.area.question import LevelQuestion
from areafit.demands import Demands
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed
from areafit.verdict import Role, Verdict


@frozen
class AssociatedOutside:
    """Associated apparatus in an unclassified place: where its marking asks it to stand."""

    code: Code


Question = LevelQuestion | AssociatedOutside


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    for ask in per_hazard(lambda choice: choice.level)(equipment, demands):
        yield Ask(ask.question, ask.path)
    area = demands.place.area
    if area is None or area.problems or demands.classified or not area.areas:
        return
    for marking in equipment.markings or ():
        for code in marking.codes:
            if code.associated:
                yield Ask(AssociatedOutside(code), "marking")


def _judge(question: Question) -> Judgement:
    if isinstance(question, LevelQuestion):
        return judge_level(question)
    return passed(
        "Associated apparatus stands outside the classified area, as its marking asks.",
        required="a place outside the classified area",
        found=f"unclassified place; {describe(question.code)}",
        clause="IEC 60079-14:2013 16",
    )


RULE = Rule[Question](
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
    "Zone 20 depends on the edition and is left unproven.",
    reads=READS,
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
