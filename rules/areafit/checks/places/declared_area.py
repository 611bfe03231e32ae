"""The declared area against what is present: group, temperature class, kind of hazard, document."""

from collections.abc import Iterator

from areafit.cases import PlaceCase
from areafit.checks.places.area_reading import Reading, judge_reading, unexplained
from areafit.checks.places.area_substance import (
    SubstanceQuestion,
    ask_substances,
    judge_substance,
)
from areafit.demands import Demands
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject
from areafit.verdict import Role, Verdict

Question = Reading | SubstanceQuestion


def _ask(case: PlaceCase, demands: Demands) -> Iterator[Ask[Question]]:
    del case
    place = demands.place
    if place.area is None:
        return
    yield Ask(Reading(place.area, place.law, place.document, unexplained(demands)), "area")
    for ask in ask_substances(demands):
        yield Ask(ask.question, ask.path)


def _judge(question: Question) -> Judgement:
    if isinstance(question, Reading):
        return judge_reading(question)
    return judge_substance(question)


DECLARED_AREA = Rule[Question](
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
    note="Only the system in which the area is declared counts: ethanol is Group D and IIB. A "
    "Zone 2 may abut a Division 2, never overlap it; Zone 0 and 1 may not abut a Division.",
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
            "Aluminium dust in a Division 2",
            Verdict.FLAG,
            place="{area: 'Class II, Division 2, Group G', substances: [aluminium dust], "
            "document: AC-1}",
            law="NEC",
        ),
        Example(
            "Division and Zone for one room",
            Verdict.FLAG,
            place="{area: ['Class I, Division 2, Group D', 'Class I, Zone 2, IIA'], "
            "document: AC-1}",
            law="NEC",
        ),
        Example(
            "Classified for nothing",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T3', substances: none, document: AC-1}",
        ),
        Example(
            "No document",
            Verdict.UNPROVEN,
            place="{area: 'Zone 1, IIB, T2', substances: [ethanol]}",
        ),
    ),
)
