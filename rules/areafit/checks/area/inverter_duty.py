"""Motors fed by an inverter: what their marking says holds on the line only."""

from collections.abc import Iterator

from areafit.checks.area.nameplate import ChosenCodes
from areafit.demands import Demands
from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.fittings import Device
from areafit.facts.part import Equipment
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.tables.words import Says, described
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_MOTORS = frozenset({Device.SQUIRREL_CAGE_MOTOR, Device.MOTOR_WITH_SWITCH})
_SHOW = frozenset({EvidenceType.CERTIFICATE, EvidenceType.LISTING, EvidenceType.TEST_REPORT})
_WORDS = ("inverter", "converter", "variable speed", "variable frequency", "adjustable speed")


class InverterQuestion(Frozen):
    """Whether an inverter feeds the motor, and the condition of a document that covers that."""

    inverter_fed: bool | None
    condition: Condition | None


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[InverterQuestion]]:
    """Marked electrical parts that are motors, or that an inverter is said to feed.

    Of an unmarked motor NFPA 70 asks the same, in `protection-level`.
    """
    equipment = plate.equipment
    marked = any(marking.codes for marking in equipment.markings or ())
    if not (demands.classified and marked and equipment.electrical):
        return
    if equipment.inverter_fed or _motor(equipment):
        yield Ask(InverterQuestion(equipment.inverter_fed, _condition(equipment)), "inverter_fed")


def _motor(equipment: Equipment) -> bool:
    if equipment.device is not None:
        return equipment.device in _MOTORS
    told = described(equipment.description) if equipment.description else None
    return told is not None and told.says is Says.ELECTRICAL and told.word.endswith("motor")


def _condition(equipment: Equipment) -> Condition | None:
    """A condition for operation at an inverter that is met, with the document that shows it."""
    return permission(equipment.evidence or (), _SHOW, _WORDS)


def _judge(question: InverterQuestion) -> Judgement:
    fed, condition = question.inverter_fed, question.condition
    answer = Answer(
        required="fed from the line, or documents that cover operation at an inverter",
        found="inverter-fed" if fed else "not stated" if fed is None else "no inverter",
    )
    if fed is False:
        return answer.passed("Fed from the line.")
    if fed is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "Whether an inverter feeds the motor is not stated.",
            answer_by=Role.DESIGNER,
        )
    if condition is not None:
        return answer.passed(
            f"Operation at an inverter is covered: {condition.text} ({condition.met_by}, "
            f"{condition.document})."
        )
    return answer.unproven(
        Reason.CONDITION_TO_ACCEPT,
        "An inverter heats rotor and bearings beyond what a test on the line found, so the "
        "temperature class holds only for the inverter that the documents name.",
    )


INVERTER_DUTY = Rule[InverterQuestion](
    id="inverter-duty",
    title="Motors at an inverter are certified for it",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-14:2013 5.12; IEC 60079-0:2017 29.15; NFPA 70-2023 501.125",
    why="The temperature class of a motor was found on the line; harmonics, low speed and shaft "
    "voltages make it hotter and may make sparks in its bearings.",
    remedy="State `inverter_fed: false`, or list in `evidence` the condition for operation at the "
    "inverter (tested as a unit, or temperature control that cuts it off) with how it is met and "
    "the document.",
    answer_by=Role.SUPPLIER,
    note="Clauses from memory. A motor is told by `device` or by its description. A condition that "
    "denies, or seems to, is no permission.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "On the line",
            Verdict.PASS,
            "{kind: electrical, description: Motor, marking: Ex eb IIC T3 Gb, inverter_fed: false}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "At an inverter, switched off by thermistors as the certificate asks",
            Verdict.PASS,
            "{kind: electrical, marking: Ex db IIC T4 Gb, inverter_fed: true, evidence: [{type: "
            "certificate, number: IECEx ABC 21.0001X, conditions: [{text: operation at a frequency "
            "converter, met_by: thermistors and relay, document: CD-5}]}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "At an inverter, and nothing said of it",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex eb IIC T3 Gb, inverter_fed: true}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A motor, and its supply not stated",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Motor 1.5 kW, marking: Ex db IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
