"""The source's open-circuit voltage against what each device withstands."""

from areafit.checks.loops.entity import CLAUSE, NO_CURVES, EntityQuestion, entity_asks, judge_entity
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.facts.quantity import Dimension
from areafit.rule import Family, Judgement, Rule, Subject
from areafit.verdict import Role, Verdict


def _judge(question: EntityQuestion) -> Judgement:
    return judge_entity(question, "voltage", Dimension.VOLTAGE)


LOOP_VOLTAGE = Rule[EntityQuestion](
    id="loop-voltage",
    title="No device gets more voltage than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=CLAUSE,
    why="A device is safe with a source only while the source cannot exceed the voltage that the "
    "device was assessed with.",
    remedy="Choose a source with a lower Uo or a device with a higher Ui.",
    answer_by=Role.SUPPLIER,
    note=NO_CURVES,
    ask=entity_asks(lambda source: source.voltage, lambda device: device.voltage),
    judge=_judge,
    examples=(
        example("28 V into a device for 30 V", Verdict.PASS, CIRCUIT),
        example("28 V into a device for 24 V", Verdict.FLAG, changed("Ui: 30 V", "Ui: 24 V")),
        example("A device whose Ui is not stated", Verdict.UNPROVEN, changed("Ui: 30 V, ", "")),
    ),
)
