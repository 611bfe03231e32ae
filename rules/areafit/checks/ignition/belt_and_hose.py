"""Belts and hoses: materials that are charged by running or by what flows through them."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands
from areafit.demands.levels import asked_level, place_names
from areafit.facts.mechanics import Drive, Form
from areafit.facts.part import Body, MaterialUse
from areafit.facts.protection import Level
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
    """A belt or hose: resistance in Ω, width of a belt in m, speed in m/s, and the level."""

    form: Form
    level: Level
    place: str
    resistance: Decimal | None
    width: Decimal | None
    speed: Decimal | None


def _ask(body: Body, demands: Demands) -> Iterator[Ask[Question]]:
    """What is said to be a belt or a hose, or is called one.

    Clean compressed air in the hose of a pneumatic part does not charge it.
    """
    for i, use in enumerate(body.materials or ()):
        form = _form(use)
        if form is None or (form is Form.HOSE and body.drive is Drive.PNEUMATIC):
            continue
        for hazard in demands.hazards:
            level = asked_level(demands, hazard)
            question = Question(
                form, level, place_names(hazard), use.resistance, use.width, use.speed
            )
            yield Ask(question, f"materials/{i}/resistance", use.component)


def _form(use: MaterialUse) -> Form | None:
    if use.form is not None:
        return use.form
    words = (use.component or "").casefold().split()
    return next((form for form in Form if form.value in words), None)


def _judge(question: Question) -> Judgement:
    return _belt(question) if question.form is Form.BELT else _hose(question)


def _belt(question: Question) -> Judgement:
    product = figure("belt resistance times width in metres")
    fastest = figure("belt speed")
    rows = (Row.of_figure(product), Row.of_figure(fastest))
    required = f"resistance times width at most {product.value}·m, at most {fastest.value}"
    if question.level.rank == 0:
        return flagged(
            f"A belt charges itself as it runs; none is allowed in {question.place}.",
            required="no belt",
            found="belt",
            rows=rows,
        )
    resistance, width, speed = question.resistance, question.width, question.speed
    stated = (
        (resistance, Dimension.RESISTANCE),
        (width, Dimension.LENGTH),
        (speed, Dimension.SPEED),
    )
    found = "belt, " + ", ".join(show(value, unit) for value, unit in stated if value is not None)
    charge = (resistance or 0) * (width or 0)
    if charge > product.amount(Dimension.RESISTANCE):
        return flagged("The belt keeps its charge.", required=required, found=found, rows=rows)
    if speed is not None and speed > fastest.amount(Dimension.SPEED):
        return flagged("The belt runs too fast.", required=required, found=found, rows=rows)
    if resistance is None or width is None or speed is None:
        return unproven(
            Reason.FACT_MISSING,
            "Resistance, width and speed of the belt are not all stated.",
            required=required,
            found=found.rstrip(", "),
            rows=rows,
        )
    return passed("The belt carries its charge away.", required=required, found=found, rows=rows)


def _hose(question: Question) -> Judgement:
    limit = figure("end-to-end resistance of a hose")
    required, rows = f"at most {limit.value} from end to end", (Row.of_figure(limit),)
    if question.resistance is None:
        return unproven(
            Reason.FACT_MISSING,
            "The resistance of the hose from end to end is not stated.",
            required=required,
            found="hose, not stated",
            rows=rows,
        )
    found = f"hose, {show(question.resistance, Dimension.RESISTANCE)}"
    if question.resistance > limit.amount(Dimension.RESISTANCE):
        return flagged(
            "The hose does not carry away the charge of what flows in it.",
            required=required,
            found=found,
            rows=rows,
        )
    return passed("The hose carries its charge away.", required=required, found=found, rows=rows)


BELT_AND_HOSE = Rule[Question](
    id="belt-and-hose",
    title="Belts and hoses carry their charge away",
    family=Family.IGNITION,
    subject=Subject.BODY,
    clause="IEC TS 60079-32-1:2013 6 (belts), 7 (hoses)",
    why="A belt is charged by every turn, a hose by the liquid or powder in it; both reach a "
    "dangerous charge in seconds where they insulate.",
    remedy="Choose a conductive grade and state `resistance`, for a belt `width` and `speed` too.",
    answer_by=Role.SUPPLIER,
    note="A Division 1 is read as Zone 0 or 20, where belts are not allowed: the more onerous "
    "reading. For V-belts twice the flank width counts. Some rules allow no drive belt in Zone 1 "
    "with gases of IIC; ask for an assessment there.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A conductive drive belt",
            Verdict.PASS,
            "{kind: mechanical, materials: [{component: drive belt, material: CR, "
            "resistance: 300 kohm, width: 30 mm, speed: 12 m/s}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "The same in Zone 0",
            Verdict.FLAG,
            "{kind: mechanical, materials: [{component: drive belt, material: CR, "
            "resistance: 300 kohm, width: 30 mm, speed: 12 m/s}]}",
            "{area: 'Zone 0, IIB, T3'}",
        ),
        Example(
            "A hose of unknown resistance",
            Verdict.UNPROVEN,
            "{kind: mechanical, materials: [{component: transfer hose, material: PTFE}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
