"""Um: what may reach the terminals of the source on the safe side."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import LoopCase
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.checks.loops.figures import margin
from areafit.facts.quantity import Dimension, show
from areafit.frozen import frozen
from areafit.rule import Ask, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@frozen
class Question:
    """Um of a source and the highest voltage that can reach its safe side, in V."""

    item: str
    maximum: Decimal | None
    supply: Decimal | None


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    for i, source in enumerate(case.loop.sources):
        path = "source" if len(case.loop.sources) == 1 else f"sources/{i}"
        yield Ask(Question(source.item, source.maximum_voltage, source.supply), path)


def _judge(question: Question) -> Judgement:
    maximum, supply = question.maximum, question.supply
    required = f"supply at most Um of item {question.item}"
    found = f"Um {_amount(maximum)}, supply {_amount(supply)}"
    if maximum is None and supply is None:
        return Judgement(
            Verdict.NOT_APPLICABLE,
            "Neither Um nor what can reach the source's safe side is stated. Barriers usually bear "
            "250 V there; see that nothing more can reach it.",
            required=required,
            found=found,
        )
    if maximum is None or supply is None:
        missing = "Um" if maximum is None else "the highest voltage that can reach its safe side"
        message = f"Of item {question.item} {missing} is not stated."
        return unproven(Reason.FACT_MISSING, message, required=required, found=found)
    if supply > maximum:
        message = f"Up to {show(supply, Dimension.VOLTAGE)} can reach item {question.item}, more "
        message += f"than its Um: {margin(supply, maximum)}."
        return flagged(message, required=required, found=found)
    message = f"No more than Um can reach item {question.item}: {margin(supply, maximum)}."
    return passed(message, required=required, found=found)


def _amount(value: Decimal | None) -> str:
    return "not stated" if value is None else show(value, Dimension.VOLTAGE)


RULE = Rule[Question](
    id="loop-supply",
    title="No more than Um can reach the source",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-25:2010 Annex A; NFPA 70-2023 504.10",
    why="Above Um the safe side can break through to the circuit in the hazardous area.",
    remedy="State `Um` and `supply` of the source; supply it from equipment that cannot exceed Um.",
    answer_by=Role.DESIGNER,
    note="Judged only where `Um` or `supply` is stated.",
    ask=_ask,
    judge=_judge,
    examples=(
        example(
            "230 V on a barrier for 250 V",
            Verdict.PASS,
            changed("{item: '9', ", "{item: '9', Um: 250 V, supply: 230 V, "),
        ),
        example(
            "480 V on a barrier for 250 V",
            Verdict.FLAG,
            changed("{item: '9', ", "{item: '9', Um: 250 V, supply: 480 V, "),
        ),
        example(
            "Um without the supply",
            Verdict.UNPROVEN,
            changed("{item: '9', ", "{item: '9', Um: 250 V, "),
        ),
        example("Neither is stated", Verdict.NOT_APPLICABLE, CIRCUIT),
    ),
)
