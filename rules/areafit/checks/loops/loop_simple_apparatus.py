"""Simple apparatus in a circuit adds next to no energy to it."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import LoopCase
from areafit.checks.loops.examples import CIRCUIT, example
from areafit.checks.loops.figures import amount, margin
from areafit.facts.part import Generates, Kind
from areafit.facts.quantity import Dimension, show
from areafit.rule import Ask, Family, Judgement, Row, Rule, Subject, flagged, passed, unproven
from areafit.tables.figures import figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """A simple apparatus and what it can generate."""

    item: str
    generates: Generates | None


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    for i, end in enumerate(case.devices):
        if end.equipment is not None and Kind.SIMPLE_APPARATUS in end.equipment.kinds:
            yield Ask(Question(end.item, end.equipment.generates), f"devices/{i}")


_QUANTITIES = (
    ("voltage", Dimension.VOLTAGE),
    ("current", Dimension.CURRENT),
    ("power", Dimension.POWER),
)


_NOTHING = Decimal(0)


def _judge(question: Question) -> Judgement:
    stated = question.generates or Generates()
    limits = [figure(f"simple apparatus {name}") for name, _ in _QUANTITIES]
    silent = _NOTHING if stated.output is False else None
    own = (stated.voltage, stated.current, stated.power)
    values = tuple(silent if value is None else value for value in own)
    required = "at most " + ", ".join(row.value for row in limits)
    found = ", ".join(
        f"{name} {amount(value, dimension)}"
        for (name, dimension), value in zip(_QUANTITIES, values, strict=True)
    )
    rows = tuple(Row.of_figure(row) for row in limits)
    for (name, dimension), value, row in zip(_QUANTITIES, values, limits, strict=True):
        limit = row.amount(dimension)
        if value is not None and value > limit:
            message = f"Item {question.item} generates {show(value, dimension)}; simple apparatus "
            message += f"generates a {name} of at most {row.value}: {margin(value, limit)}."
            return flagged(message, required=required, found=found, rows=rows)
    if None in values:
        message = f"What item {question.item} generates is not stated in full; state zero of what "
        message += "is passive."
        return unproven(Reason.FACT_MISSING, message, required=required, found=found, rows=rows)
    message = f"Item {question.item} keeps the limits of simple apparatus, so it counts as passive."
    return passed(message, required=required, found=found, rows=rows)


_SWITCH = "{kind: simple apparatus, generates: {voltage: 0 V, current: 0 A, power: 0 W}}"

LOOP_SIMPLE_APPARATUS = Rule[Question](
    id="loop-simple-apparatus",
    title="Simple apparatus adds next to no energy",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-11:2011 5.7; IEC 60079-14:2013 16.4; NFPA 70-2023 504.10(D)",
    why="A part without a certificate may hang in the circuit only while it adds nothing that "
    "counts; otherwise it is a second source.",
    remedy="State `generates` of the part, or take a certified one.",
    answer_by=Role.DESIGNER,
    note="Its temperature is judged by the rules for parts, and the power that it bears by "
    "`loop-power`. Older North American texts have 1.2 V in place of 1.5 V.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("A limit switch", Verdict.PASS, CIRCUIT, sensor=_SWITCH),
        example(
            "A cell of 3.6 V",
            Verdict.FLAG,
            CIRCUIT,
            sensor=_SWITCH.replace("voltage: 0 V", "voltage: 3.6 V"),
        ),
        example(
            "A switch of which nothing is stated",
            Verdict.UNPROVEN,
            CIRCUIT,
            sensor="{kind: simple apparatus}",
        ),
    ),
)
