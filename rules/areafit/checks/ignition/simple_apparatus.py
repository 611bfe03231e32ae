"""Simple apparatus in an intrinsically safe circuit: what it generates by itself."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands import Demands
from areafit.facts.part import Equipment, Generates, Kind
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
from areafit.tables.figures import Figure, figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """What the part generates; None where it is not stated."""

    generates: Generates | None


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    if demands.classified and Kind.SIMPLE_APPARATUS in equipment.kinds:
        yield Ask(Question(equipment.generates), "generates")


def _judge(question: Question) -> Judgement:
    limits = _limits()
    rows = tuple(Row.of_figure(row) for _, row, _ in limits)
    required = "generates " + ", ".join(f"at most {row.value}" for _, row, _ in limits)
    generates = question.generates
    if generates is None:
        return unproven(
            Reason.FACT_MISSING,
            "What the apparatus generates by itself is not stated.",
            required=required,
            found="not stated",
            rows=rows,
        )
    values = (generates.voltage, generates.current, generates.power)
    figures = list(zip(values, limits, strict=True))
    found = _found(values, limits)
    over = next((row for value, (_, row, unit) in figures if _over(value, row, unit)), None)
    if over is not None:
        return flagged(
            f"It generates more than the {over.value} of simple apparatus: it needs its own "
            "intrinsically safe certificate.",
            required=required,
            found=found,
            rows=rows,
        )
    if None not in values or (generates.output is False and not any(values)):
        return passed(
            "Simple by what it generates. Stored energy and heating count in its circuit.",
            required=required,
            found=found,
            rows=rows,
        )
    return unproven(
        Reason.FACT_MISSING,
        "Voltage, current and power are not all stated.",
        required=required,
        found=found,
        rows=rows,
    )


_UNITS = (
    ("simple apparatus voltage", Dimension.VOLTAGE),
    ("simple apparatus current", Dimension.CURRENT),
    ("simple apparatus power", Dimension.POWER),
)


def _limits() -> tuple[tuple[str, Figure, Dimension], ...]:
    return tuple((name, figure(name), unit) for name, unit in _UNITS)


def _over(value: Decimal | None, row: Figure, unit: Dimension) -> bool:
    return value is not None and value > row.amount(unit)


def _found(
    values: tuple[Decimal | None, ...], limits: tuple[tuple[str, Figure, Dimension], ...]
) -> str:
    stated = [
        show(value, unit)
        for value, (_, _, unit) in zip(values, limits, strict=True)
        if value is not None
    ]
    return ", ".join(stated) or "generates nothing"


SIMPLE_APPARATUS = Rule[Question](
    id="simple-apparatus",
    title="Simple apparatus generates next to nothing",
    family=Family.IGNITION,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-11:2011 5.7; NFPA 70-2023 Article 100, 504.4",
    why="Thermocouples, photocells, switches and resistors need no certificate in an "
    "intrinsically safe circuit as long as they add no energy of their own to it.",
    remedy="State `generates` with voltage, current and power, or `generates: none` for a passive "
    "part; over the limits choose a certified part.",
    answer_by=Role.SUPPLIER,
    note="Some older North American texts have 1.2 V. It needs no listing, but separation, entity "
    "values and temperature class hold for it as for any apparatus of the loop.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A thermocouple",
            Verdict.PASS,
            "{kind: simple apparatus, generates: {voltage: 0.1 V, current: 20 mA, power: 1 mW}}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
        Example(
            "A photocell of 2 V",
            Verdict.FLAG,
            "{kind: simple apparatus, generates: {voltage: 2.0 V, current: 50 mA, power: 20 mW}}",
            "{area: 'Class I, Division 1, Group C'}",
            "NEC",
        ),
        Example(
            "A switch",
            Verdict.PASS,
            "{kind: simple apparatus, generates: none}",
            "{area: 'Zone 0, IIC, T4'}",
        ),
        Example(
            "Nothing stated",
            Verdict.UNPROVEN,
            "{kind: simple apparatus}",
            "{area: 'Zone 1, IIC, T4'}",
        ),
    ),
)
