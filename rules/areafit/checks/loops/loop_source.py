"""One linear source and no other energy: the circuits that a comparison of values can judge."""

from collections.abc import Iterator

from areafit.cases import LoopCase
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.checks.loops.words import NO_CURVES, both
from areafit.rule import Ask, Family, Judgement, Rule, Subject, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The sources, those said to be non-linear, and the devices said to be sources as well."""

    sources: tuple[str, ...]
    non_linear: tuple[str, ...]
    active: tuple[str, ...]


def _ask(case: LoopCase, _demands: None) -> Iterator[Ask[Question]]:
    loop = case.loop
    sources = tuple(source.item for source in loop.sources)
    fed_back = {device.item for device in loop.devices} & set(sources)
    yield Ask(
        Question(
            sources,
            tuple(source.item for source in loop.sources if source.linear is False),
            tuple(d.item for d in loop.devices if d.active or d.item in fed_back),
        ),
        "sources" if len(sources) > 1 else "source",
    )


def _judge(question: Question) -> Judgement:
    required = "one linear source and no further source of energy in the circuit"
    found = f"source: {both(question.sources) or 'none'}"
    if not question.sources:
        message = "The loop names no source."
        return unproven(Reason.FACT_MISSING, message, required=required, found=found)
    if len(question.sources) > 1:
        message = f"Items {both(question.sources)} feed one circuit. What they deliver together "
        message += "depends on how they are connected and has to be assessed by a specialist."
    elif question.non_linear:
        message = f"Item {both(question.non_linear)} is no linear source. What may be connected to "
        message += "it has to be assessed by a specialist."
    elif question.active:
        message = f"Item {both(question.active)} is a source of energy itself. The circuit has to "
        message += "be assessed by a specialist."
    else:
        message = f"A single source, and no device is said to be one as well. {NO_CURVES}"
        return passed(message, required=required, found=found)
    found += f"; non-linear: {both(question.non_linear)}" if question.non_linear else ""
    found += f"; active: {both(question.active)}" if question.active else ""
    return unproven(Reason.NOT_JUDGED, message, required=required, found=found)


LOOP_SOURCE = Rule[Question](
    id="loop-source",
    title="One linear source feeds the circuit",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause="IEC 60079-14:2013 16.2.4; IEC 60079-25:2010 Annex B, Annex C; NFPA 70-2023 504.10",
    why="Voltages or currents of several sources add up, and a source with another than a straight "
    "output line permits less than its values suggest.",
    remedy="Feed the circuit from a single source with stated values, or have the combination "
    "assessed and accept the finding by a waiver that names the assessment.",
    answer_by=Role.DESIGNER,
    note="Whether the source's values lie below the published ignition curves is not checked, and "
    "combinations are not reckoned.",
    ask=_ask,
    judge=_judge,
    examples=(
        example("A single barrier", Verdict.PASS, CIRCUIT),
        example(
            "A device with a supply of its own",
            Verdict.UNPROVEN,
            changed("{item: '1', ", "{item: '1', active: true, "),
        ),
        example(
            "A source with electronic current limitation",
            Verdict.UNPROVEN,
            changed("{item: '9', ", "{item: '9', linear: false, "),
        ),
    ),
)
