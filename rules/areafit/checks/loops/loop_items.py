"""The items that a circuit joins are lines of the list, and each stands for one part only."""

from collections.abc import Iterator

from areafit.cases import LoopCase
from areafit.checks.loops.examples import CIRCUIT, SENSOR, example
from areafit.rule import Ask, Family, Judgement, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """An end of the circuit: whether it is listed, and how many alternates the line has."""

    item: str
    listed: bool
    alternates: int


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    for kind, ends in (("source", case.sources), ("devices", case.devices)):
        for i, end in enumerate(ends):
            alone = kind == "source" and len(ends) == 1
            path = kind if alone else f"{kind.removesuffix('s')}s/{i}"
            yield Ask(Question(end.item, end.equipment is not None, end.alternates), path)


def _judge(question: Question) -> Judgement:
    required = "a line of the list that stands for one part"
    if not question.listed:
        return unproven(
            Reason.FACT_MISSING,
            f"Item {question.item} is not on the list: neither its place nor its marking is known.",
            required=required,
            found=f"item {question.item} not listed",
        )
    if question.alternates:
        return unproven(
            Reason.FACT_MISSING,
            f"Item {question.item} has alternates; the loop states the values of the line itself "
            "only. State a loop for each of them.",
            required=required,
            found=f"item {question.item} with alternates: {question.alternates}",
        )
    message = f"Item {question.item} is on the list."
    return passed(message, required=required, found=f"item {question.item}")


LOOP_ITEMS = Rule[Question](
    id="loop-items",
    title="The items of the circuit are on the list",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-25:2010 4; NFPA 70-2023 504.10(A)",
    why="Values belong to one type of part; without its line neither place nor marking is known.",
    remedy="List the item, and give each alternate a loop of its own.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
    examples=(
        example("Barrier and sensor are listed", Verdict.PASS, CIRCUIT),
        example(
            "A sensor with an alternate",
            Verdict.UNPROVEN,
            CIRCUIT,
            sensor=SENSOR.replace("Ga}", "Ga, alternates: [{part_number: PN-1B}]}"),
        ),
    ),
)
