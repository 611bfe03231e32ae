"""How fast surfaces rub on each other."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.ignition.role import Motion, motion
from areafit.checks.ignition.shown import covered
from areafit.demands import Demands
from areafit.facts.part import Body
from areafit.facts.quantity import Dimension, show
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.figures import figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The speed in m/s, and whether a marking or an assessment covers the part."""

    speed: Decimal | None
    covered: bool


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    if demands.classified and motion(body) is Motion.MOVING:
        yield Ask(Question(body.rubbing_speed, covered(body, demands)), "rubbing_speed")


def _judge(question: Question) -> Judgement:
    row = figure("rubbing speed")
    limit = row.amount(Dimension.SPEED)
    required = f"at most {row.value}, or a marking or assessment that covers more"
    rows = (Row.of_figure(row),)
    speed = question.speed
    found = "not stated" if speed is None else show(speed, Dimension.SPEED)
    if speed is not None and speed <= limit:
        return passed(
            f"Rubbing at {found} is not taken as an effective ignition source.",
            required=required,
            found=found,
            rows=rows,
        )
    if question.covered:
        return passed(
            "The marking or the assessment covers the rubbing of the part.",
            required=required,
            found=found,
            rows=rows,
        )
    if speed is None:
        return unproven(
            Reason.FACT_MISSING,
            "Parts move here and how fast they rub is not stated.",
            required=required,
            found=found,
            rows=rows,
        )
    return flagged(
        f"{found} is over {row.value}, and neither a marking nor an assessment covers it.",
        required=required,
        found=found,
        rows=rows,
    )


RUBBING_SPEED = Rule[Question](
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
    ask=_ask,
    judge=_judge,
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
