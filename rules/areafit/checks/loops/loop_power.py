"""The source's matched power against what each device withstands."""

from areafit.checks.loops.entity import CLAUSE, NO_CURVES, EntityQuestion, entity_asks, judge_entity
from areafit.checks.loops.examples import CIRCUIT, changed, example
from areafit.facts.quantity import Dimension
from areafit.rule import Family, Judgement, Row, Rule, Subject, unproven
from areafit.tables.figures import figure
from areafit.verdict import Reason, Role, Verdict


def _judge(question: EntityQuestion) -> Judgement:
    if question.limit is None or not question.limit.is_infinite() or not question.simple:
        return judge_entity(question, "power", Dimension.POWER)
    row = figure("small component power for T4", "40 °C")
    return unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"Whatever power simple apparatus takes heats it, so Pi of item {question.device} cannot "
        "be `none`. State the power at which its surfaces stay within the temperature class; for "
        f"T4 that is {row.value} at {row.applies_to} if they measure at least 20 mm².",
        required=f"Po at most Pi of item {question.device}",
        found=f"Pi none (item {question.device})",
        rows=(Row.of_figure(row),),
        answer_by=Role.DESIGNER,
    )


LOOP_POWER = Rule[EntityQuestion](
    id="loop-power",
    title="No device gets more power than it withstands",
    family=Family.LOOPS,
    subject=Subject.LOOP,
    clause=CLAUSE,
    why="Matched power heats the smallest component of a device; voltage and current alone do not "
    "bound it.",
    remedy="Choose a source with a lower Po or a device with a higher Pi; of a linear source Po is "
    "Uo times Io over 4.",
    answer_by=Role.SUPPLIER,
    note="Simple apparatus needs a Pi too: the power that it bears within the temperature class of "
    "its place. " + NO_CURVES,
    ask=entity_asks(lambda source: source.power, lambda device: device.power),
    judge=_judge,
    examples=(
        example("0.65 W into a device for 1 W", Verdict.PASS, CIRCUIT),
        example("0.65 W into a device for 0.5 W", Verdict.FLAG, changed("Pi: 1 W", "Pi: 0.5 W")),
        example("A device whose Pi is not stated", Verdict.UNPROVEN, changed("Pi: 1 W, ", "")),
    ),
)
