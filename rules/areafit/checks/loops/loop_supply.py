"""Um: what may reach the terminals of the source on the safe side."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.cases import LoopCase
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.checks.loops.figures import amount, margin
from areafit.facts.quantity import Dimension, show
from areafit.rule import Ask, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
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
    found = f"Um {amount(maximum, Dimension.VOLTAGE)}, supply {amount(supply, Dimension.VOLTAGE)}"
    if supply == 0:
        message = f"Nothing can reach a safe side of item {question.item}."
        return passed(message, required=required, found=found)
    if maximum is None or supply is None:
        reach = "the highest voltage that can reach its safe side"
        missing = [("Um", maximum), (reach, supply)]
        names = " and ".join(name for name, value in missing if value is None)
        verb = "are" if maximum is None and supply is None else "is"
        message = f"Of item {question.item} {names} {verb} not stated."
        return unproven(Reason.FACT_MISSING, message, required=required, found=found)
    if supply > maximum:
        message = f"Up to {show(supply, Dimension.VOLTAGE)} can reach item {question.item}, more "
        message += f"than its Um: {margin(supply, maximum)}."
        return flagged(message, required=required, found=found)
    message = f"No more than Um can reach item {question.item}: {margin(supply, maximum)}."
    return passed(message, required=required, found=found)


LOOP_SUPPLY = Rule[Question](
    id="loop-supply",
    title="No more than Um can reach the source",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.1; IEC 60079-25:2010 Annex A; NFPA 70-2023 504.10",
    why="Above Um the safe side can break through to the circuit in the hazardous area.",
    remedy="State `Um` from the certificate of the source, and `supply`, the most that can reach "
    "its safe side: the mains voltage, where all that it hangs on is fed from that. A source "
    "without a safe side, such as a battery, states `supply: 0 V`.",
    answer_by=Role.DESIGNER,
    note="Um is often 250 V, but not always: some sources have 60 V or 30 V, for supply from "
    "extra-low voltage only, and the mains behind a power supply counts unless that is rated for "
    "it.",
    ask=_ask,
    judge=_judge,
    examples=(
        example(
            "230 V on a barrier for 250 V",
            Verdict.PASS,
            CIRCUIT,
        ),
        example(
            "480 V on a barrier for 250 V",
            Verdict.FLAG,
            changed("supply: 230 V", "supply: 480 V"),
        ),
        example(
            "Um without the supply",
            Verdict.UNPROVEN,
            changed("supply: 230 V, ", ""),
        ),
        example(
            "Neither is stated",
            Verdict.UNPROVEN,
            changed("Um: 250 V, supply: 230 V, ", ""),
        ),
    ),
)
