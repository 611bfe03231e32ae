"""The source's short-circuit current against what each device withstands."""

from areafit.checks.loops.entity import CLAUSE, NO_CURVES, EntityQuestion, entity_asks, judge_entity
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.facts.quantity import Dimension
from areafit.rule import Family, Judgement, Rule, Subject
from areafit.verdict import Role, Verdict


def _judge(question: EntityQuestion) -> Judgement:
    return judge_entity(question, "current", Dimension.CURRENT)


LOOP_CURRENT = Rule[EntityQuestion](
    id="loop-current",
    title="No device gets more current than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=CLAUSE,
    why="The device was assessed, its inner wires and components included, for a current that the "
    "source must not exceed even when shorted.",
    remedy="Choose a source with a lower Io or a device with a higher Ii.",
    answer_by=Role.SUPPLIER,
    note=NO_CURVES,
    ask=entity_asks(lambda source: source.current, lambda device: device.current),
    judge=_judge,
    examples=(
        example("93 mA into a device for 300 mA", Verdict.PASS, CIRCUIT),
        example("93 mA into a device for 80 mA", Verdict.FLAG, changed("Ii: 300 mA", "Ii: 80 mA")),
        example("A device whose Ii is not stated", Verdict.UNPROVEN, changed("Ii: 300 mA, ", "")),
    ),
)
