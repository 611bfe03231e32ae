"""Mechanical sparks: surfaces that rub, things that fall, movements that end in a blow."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.assessment import (
    Motion,
    awaits_plate,
    covered,
    examined_as_carried,
    motion,
)
from areafit.demands import Demands
from areafit.facts.mechanics import EndStops
from areafit.facts.part import Body
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class Rubbing(Frozen):
    """The speed in m/s, and whether a marking or an assessment covers the part."""

    speed: Decimal | None
    covered: bool


def _ask_rubbing(body: Body, demands: Demands) -> Iterator[Ask[Rubbing]]:
    if demands.classified and motion(body) is Motion.MOVING:
        question = Rubbing(body.rubbing_speed, covered(body, demands))
        if _judge_rubbing(question).verdict is Verdict.PASS or not awaits_plate(body, demands):
            yield Ask(question, "rubbing_speed")


def _judge_rubbing(rubbing: Rubbing) -> Judgement:
    limit, speed = figure("rubbing speed"), rubbing.speed
    found = "not stated" if speed is None else show(speed, Dimension.SPEED)
    answer = Answer(
        required=f"at most {limit.value}, or a marking or assessment that covers more",
        found=found,
        rows=(Row.of_figure(limit),),
    )
    if speed is not None and speed <= limit.amount(Dimension.SPEED):
        return answer.passed(f"Rubbing at {found} is not taken as an effective ignition source.")
    if rubbing.covered:
        return answer.passed("The marking or the assessment covers the rubbing of the part.")
    if speed is None:
        return answer.unproven(
            Reason.FACT_MISSING, "Parts move here and how fast they rub is not stated."
        )
    return answer.flagged(
        f"{found} is over {limit.value}, and neither a marking nor an assessment covers it.",
        remedy=f"Slow the movement to `rubbing_speed: {limit.value}` at most, or have the friction "
        "assessed and name that in `evidence`.",
    )


RUBBING_SPEED = Rule[Rubbing](
    id="rubbing-speed",
    title="Moving surfaces rub slowly, or their friction is assessed",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="EN 1127-1:2019 (friction and impact); ISO 80079-37:2016 5",
    why="Fast rubbing makes hot spots and sparks that light most gases and dusts.",
    remedy="State `rubbing_speed`, slow the movement, or have the friction assessed.",
    answer_by=Role.DESIGNER,
    note="At 1 m/s and less, high contact forces still belong in the assessment; light metals are "
    "judged by `light-metal` at any speed.",
    ask=_ask_rubbing,
    judge=_judge_rubbing,
    examples=(
        Example(
            "A slow slide",
            Verdict.PASS,
            "{kind: mechanical, rubbing_speed: 0.3 m/s}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A brake shoe, nothing on file",
            Verdict.FLAG,
            "{kind: mechanical, rubbing_speed: 6 m/s}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A chain of unknown speed",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A brake that is marked for the zone",
            Verdict.PASS,
            "{kind: mechanical, rubbing_speed: 6 m/s, marking: Ex h IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)


class Blow(Frozen):
    """The height in m that something can fall, how movements end, whether it is assessed."""

    drop_height: Decimal | None
    end_stops: EndStops | None
    covered: bool


def _ask_impact(body: Body, demands: Demands) -> Iterator[Ask[Blow]]:
    """What moves or is loose, and every part that states a fall or a stop, or both as none.

    That nothing falls, as a note says of a whole machine, asks nothing of a plate. What is loose
    and says nothing of a drive or of rubbing has no movement that could end.
    """
    height, stops = body.drop_height, body.end_stops
    stated = bool(height) or stops not in (None, EndStops.NONE) or None not in (height, stops)
    asked = motion(body) in (Motion.MOVING, Motion.LOOSE)
    if demands.classified and (stated or (asked and not examined_as_carried(body, demands))):
        key = "end_stops" if height is None and stops else "drop_height"
        if stops is None and motion(body) is Motion.LOOSE:
            stops = EndStops.NONE
        question = Blow(height, stops, covered(body, demands))
        if _judge_impact(question).verdict is Verdict.PASS or not awaits_plate(body, demands):
            yield Ask(question, key)


def _judge_impact(blow: Blow) -> Judgement:
    height, stops = blow.drop_height, blow.end_stops
    fall = "drop not stated" if height is None else f"drop {show(height, Dimension.LENGTH)}"
    ends = "end stops not stated" if stops is None else f"end stops: {stops.value}"
    answer = Answer(
        required="nothing that can fall or strike, or a marking or assessment that covers the "
        "blows",
        found=f"{fall}, {ends}",
    )
    if blow.covered:
        return answer.passed(
            "The marking or the assessment covers blows; it must name what is stated here."
        )
    if height is None or stops is None:
        stated = {
            ("how far something can fall", "`drop_height: none`"): height,
            ("how movements end", "`end_stops: none`"): stops,
        }
        missing = [what for what, fact in stated.items() if fact is None]
        verb = "are" if len(missing) > 1 else "is"
        return answer.unproven(
            Reason.FACT_MISSING,
            f"{capital(' and '.join(what for what, _ in missing))} {verb} not stated.",
            remedy=f"State {' and '.join(key for _, key in missing)} where nothing falls or "
            "strikes; else damp or hold the part and have the blow assessed.",
        )
    if height == 0 and stops is EndStops.NONE:
        return answer.passed("Nothing falls and nothing strikes.")
    return answer.unproven(
        Reason.FACT_MISSING,
        "Something can fall or strike and no assessment covers it; no energy is taken as safe "
        "here without one.",
        remedy="Have the blow assessed and list the assessment in `evidence`; or hold the part so "
        "that nothing falls or strikes, and state `drop_height: none` and `end_stops: none`.",
    )


IMPACT = Rule[Blow](
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
    ask=_ask_impact,
    judge=_judge_impact,
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
