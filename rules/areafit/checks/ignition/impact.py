"""Blows: what can fall, and how a movement ends."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.role import Motion, motion
from areafit.checks.ignition.shown import covered
from areafit.demands import Demands
from areafit.facts.mechanics import EndStops
from areafit.facts.part import Body
from areafit.facts.quantity import Dimension, show
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The height in m that something can fall, how movements end, whether it is assessed."""

    drop_height: Decimal | None
    end_stops: EndStops | None
    covered: bool


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """What moves or is loose, and every part that states one of the two."""
    stated = body.drop_height is not None or body.end_stops is not None
    if demands.classified and (stated or motion(body) in (Motion.MOVING, Motion.LOOSE)):
        key = "end_stops" if body.drop_height is None and body.end_stops else "drop_height"
        question = Question(body.drop_height, body.end_stops, covered(body, demands))
        yield Ask(question, key)


def _judge(question: Question) -> Judgement:
    required = "nothing that can fall or strike, or a marking or assessment that covers the blows"
    found = _found(question)
    if question.covered:
        return passed(
            "The marking or the assessment covers blows; it must name what is stated here.",
            required=required,
            found=found,
        )
    if question.drop_height is None or question.end_stops is None:
        return unproven(
            Reason.FACT_MISSING,
            "How far something can fall and how movements end is not stated.",
            required=required,
            found=found,
        )
    if question.drop_height == 0 and question.end_stops is EndStops.NONE:
        return passed("Nothing falls and nothing strikes.", required=required, found=found)
    return unproven(
        Reason.FACT_MISSING,
        "Something can fall or strike and no assessment covers it; no energy is taken as safe "
        "here without one.",
        required=required,
        found=found,
    )


def _found(question: Question) -> str:
    height, stops = question.drop_height, question.end_stops
    fall = "drop not stated" if height is None else f"drop {show(height, Dimension.LENGTH)}"
    ends = "end stops not stated" if stops is None else f"end stops: {stops.value}"
    return f"{fall}, {ends}"


IMPACT = Rule[Question](
    id="impact",
    title="Nothing falls or strikes unassessed",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="ISO 80079-36:2016 5.2, 6.4; EN 1127-1:2019 (friction and impact)",
    why="One blow of steel on steel makes sparks and a hot spot; whether they light depends on "
    "energy, pair of metals and gas.",
    remedy="State `drop_height: none` and `end_stops: none` where nothing falls or strikes; else "
    "damp or hold the part and have the blow assessed.",
    answer_by=Role.DESIGNER,
    note="The energies that ISO 80079-36 lets pass by pair of metals and group are not tabulated "
    "here, so that no energy passes without an assessment. `light-metal` judges aluminium on rust.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A slide that cannot fall, without end stops",
            Verdict.PASS,
            "{kind: mechanical, drop_height: none, end_stops: none}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A damped slide, assessed",
            Verdict.PASS,
            "{kind: mechanical, drop_height: none, end_stops: damped, "
            "evidence: [{type: assessment, number: IHA-2}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A load that can fall 2 m",
            Verdict.UNPROVEN,
            "{kind: mechanical, drop_height: 2 m, end_stops: none}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
