"""Simple apparatus in an intrinsically safe circuit: what it generates by itself."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.part import Equipment, Generates, Kind
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_UNITS = {
    "simple apparatus voltage": Dimension.VOLTAGE,
    "simple apparatus current": Dimension.CURRENT,
    "simple apparatus power": Dimension.POWER,
}


_AGREED = "simple apparatus voltage on which North American texts agree"


class Generating(Frozen):
    """What the part generates; None where it is not stated.

    `american`: NFPA 70 governs; its editions and the texts beside it differ on the voltage.
    """

    generates: Generates | None
    american: bool = False


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Generating]]:
    if demands.classified and Kind.SIMPLE_APPARATUS in equipment.kinds:
        yield Ask(Generating(equipment.generates, demands.law is Law.NEC), "generates")


def _judge(question: Generating) -> Judgement:
    limits = [figure(name) for name in _UNITS]
    generates = question.generates or Generates()
    values = (generates.voltage, generates.current, generates.power)
    compared = list(zip(values, limits, _UNITS.values(), strict=True))
    shown = ", ".join(show(value, unit) for value, _, unit in compared if value is not None)
    answer = Answer(
        required="generates " + ", ".join(f"at most {limit.value}" for limit in limits),
        found="not stated" if question.generates is None else shown or "generates nothing",
        rows=tuple(map(Row.of_figure, limits)),
    )
    if question.generates is None:
        return answer.unproven(
            Reason.FACT_MISSING, "What the apparatus generates by itself is not stated."
        )
    for value, limit, unit in compared:
        if value is not None and value > limit.amount(unit):
            return answer.flagged(
                f"It generates more than the {limit.value} of simple apparatus: it needs its own "
                "intrinsically safe certificate.",
                remedy=f"Choose one of at most {limit.value} and state that in `generates`, or a "
                "certified part.",
            )
    if question.american and _between(generates):
        return _disputed(answer)
    if None not in values or (generates.output is False and not any(values)):
        return answer.passed(
            "Simple by what it generates. Stored energy and heating count in its circuit."
        )
    return answer.unproven(Reason.FACT_MISSING, "Voltage, current and power are not all stated.")


def _between(generates: Generates) -> bool:
    agreed = figure(_AGREED, "NEC").amount(Dimension.VOLTAGE)
    return generates.voltage is not None and generates.voltage > agreed


def _disputed(answer: Answer) -> Judgement:
    """Between the voltages of older texts and of newer ones: the more onerous governs."""
    agreed, newer = figure(_AGREED, "NEC"), figure("simple apparatus voltage")
    return replace(
        answer, rows=(*answer.rows, Row.of_figure(agreed)), clause=agreed.clause
    ).unproven(
        Reason.NO_DATA,
        f"Sources disagree on the voltage of simple apparatus: {agreed.value}, or {newer.value}. "
        "This one lies between.",
        remedy="Read the definition in the edition that governs (Article 100, before 2020 504.2) "
        f"and let the reader accept it, or choose apparatus of at most {agreed.value}, or one "
        "that is certified.",
        answer_by=Role.AREA_OWNER,
    )


SIMPLE_APPARATUS = Rule[Generating](
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
    note="Older North American texts have 1.2 V: under NFPA 70 it is unproven between. It needs no "
    "listing, but separation, entity values and temperature class hold for it as for any apparatus "
    "of the loop.",
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
            "A cell of 1.4 V, which North American texts take or refuse",
            Verdict.UNPROVEN,
            "{kind: simple apparatus, generates: {voltage: 1.4 V, current: 5 mA, power: 7 mW}}",
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
