"""Motors: what their marking says holds on the line only, and of type e while it is watched."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.checks.area.nameplate import ChosenCodes
from areafit.demands import Demands
from areafit.documents import permission
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.fittings import Device, Starting
from areafit.facts.part import Equipment
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, show
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.descriptions import Says, described
from areafit.tables.limits import figure
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_ENDINGS = ("motor", "moteur", "motore", "motoriduttore", "motoréducteur", "motorreductor")
# A motor of some watts that turns a valve stands still nearly always; a stepper has its own drive.
_NOT_ALL_DAY = ("ventil", "klappe", "hahn", "valve", "schrittmacher")
_MOTORS = frozenset({Device.SQUIRREL_CAGE_MOTOR, Device.MOTOR_WITH_SWITCH})
_REGULATED = (("variable", "speed"), ("variable", "frequency"), ("adjustable", "speed"))
_SHOW = frozenset({EvidenceType.CERTIFICATE, EvidenceType.LISTING, EvidenceType.TEST_REPORT})
_DRIVES, _MAKES = ("drive", "drives"), ("series", "type")  # `only with drives of series 9`
_WORDS = (
    "inverter",
    "converter",
    *(f"{how}{dash}{what}" for how, what in _REGULATED for dash in " -"),
    "frequency drive",
    "servo drive",
    "servo amplifier",
    "vfd",
    "pwm",
    *(f"{drive} {of}{what}" for drive in _DRIVES for of in ("", "of ") for what in _MAKES),
)


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
    if told is None or told.says is not Says.ELECTRICAL or told.word.endswith(_NOT_ALL_DAY):
        return False
    # a motor by its name, or what holds one: a motor pump, a geared drive
    return told.word.endswith(_ENDINGS) or Device.SQUIRREL_CAGE_MOTOR.value in told.devices


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


class TeTime(Frozen):
    """Times in s: tE of the motor, and of its overload device to trip at the starting current.

    `condition` is one of its certificate on sensors in the winding, that is met.
    """

    te_time: Decimal | None
    overload_trip: Decimal | None
    starting: Starting | None
    condition: Condition | None = None


_INCREASED = frozenset({"e", "eb"})
_ENCLOSED = frozenset({"d", "da", "db", "p", "pxb", "px", "py", "pyb"})
_SENSORS = ("thermistor", "ptc", "winding temperature", "temperature sensor", "pt100")


def _ask_te(plate: ChosenCodes, _: Demands) -> Iterator[Ask[TeTime]]:
    """Motors whose code for gas is of type e, and of no type that encloses the winding.

    At an inverter no time tE holds; `inverter-duty` judges those.
    """
    own = plate.equipment
    codes = [each.code for each in plate.chosen if each.hazard.hazard is Hazard.GAS and each.code]
    of_type_e = any(
        _INCREASED & set(code.protection) and not _ENCLOSED & set(code.protection) for code in codes
    )
    if not of_type_e or not own.electrical or not _motor(own) or own.inverter_fed:
        return
    question = TeTime(
        own.te_time,
        own.overload_trip,
        own.starting,
        permission(own.evidence or (), _SHOW, _SENSORS),
    )
    stated = (("te_time", own.te_time), ("overload_trip", own.overload_trip))
    yield Ask(question, next((key for key, value in stated if value is None), "te_time"))


def _judge_te(motor: TeTime) -> Judgement:
    least = figure("least time tE")
    te_time, trip = motor.te_time, motor.overload_trip
    times = (("tE", te_time), ("trips after", trip))
    stated = [f"{word} {show(time, Dimension.TIME)}" for word, time in times if time is not None]
    answer = Answer(
        required=f"tE of at least {least.value}, and an overload device that trips within it at "
        "the starting current",
        found=", ".join((*stated, motor.starting.value if motor.starting else "")).rstrip(", ")
        or "not stated",
        rows=(Row.of_figure(least),),
    )
    if te_time is not None and te_time < least.amount(Dimension.TIME):
        return answer.flagged(
            f"A tE below {least.value} leaves no overload device time to trip.",
            remedy=f"Choose a motor of at least `te_time: {least.value}`.",
        )
    if te_time is not None and trip is not None and trip > te_time:
        return answer.flagged(
            "A blocked rotor is hotter than its temperature class before the overload device "
            "trips.",
            remedy="Choose an overload device that trips within tE, "
            f"`overload_trip: {show(te_time, Dimension.TIME)}` at most, by its curve at the ratio "
            "IA/IN of the motor.",
            answer_by=Role.DESIGNER,
        )
    if motor.condition is not None:
        return answer.passed(
            f"Sensors in the winding are covered: {motor.condition.text} "
            f"({motor.condition.met_by}, {motor.condition.document})."
        )
    return _te_open(motor, answer)


def _te_open(motor: TeTime, answer: Answer) -> Judgement:
    """What is left where no time fails and nothing but the overload device watches the motor."""
    if motor.te_time is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "The nameplate of a motor of type e prints tE; it is not stated.",
            remedy="State `te_time` from the nameplate, or the condition of its certificate on "
            "sensors in the winding and how it is met.",
        )
    if motor.overload_trip is None or motor.starting is None:
        return answer.unproven(
            Reason.FACT_MISSING,
            "How the motor is started, and how fast its overload device trips at the starting "
            "current, is not both stated.",
            remedy="State `starting`, and `overload_trip` from the curve of the device at the "
            "ratio IA/IN, from cold.",
            answer_by=Role.DESIGNER,
        )
    if motor.starting is not Starting.DIRECT:
        return answer.unproven(
            Reason.CONDITION_TO_ACCEPT,
            f"tE was found for an easy start on the line; with {motor.starting.value} an overload "
            "device alone does not watch the winding.",
            remedy="Fit sensors in the winding as the certificate allows, and state that condition "
            "with how it is met: `evidence: [{conditions: [{text: …, met_by: …, document: …}]}]`.",
        )
    return answer.passed("A blocked rotor is switched off before it is too hot.")


TE_TIME = Rule[TeTime](
    id="te-time",
    title="Motors of type e are switched off within tE",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="IEC 60079-14:2013 11.3; IEC 60079-7:2015 5.2.4; NFPA 70-2023 505.22",
    why="A motor of increased safety ignites nothing while it turns; its rotor blocked, it passes "
    "its temperature class after the time tE.",
    remedy="State `te_time` from the nameplate, `starting`, and `overload_trip` of its overload "
    "device; or the condition of its certificate on sensors in the winding.",
    answer_by=Role.SUPPLIER,
    note="Clauses and the least tE from memory. Motors of types d, p, n and ec have no tE; at an "
    "inverter `inverter-duty` judges.",
    ask=_ask_te,
    judge=_judge_te,
    examples=(
        Example(
            "Relay trips within tE",
            Verdict.PASS,
            "{kind: electrical, description: Motor, marking: Ex eb IIC T3 Gb, te_time: 12 s, "
            "overload_trip: 9 s, starting: direct-on-line}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "Relay trips too late",
            Verdict.FLAG,
            "{kind: electrical, description: Motor, marking: Ex eb IIC T3 Gb, te_time: 7 s, "
            "overload_trip: 9 s}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A heavy start, watched by thermistors",
            Verdict.PASS,
            "{kind: electrical, description: Motor, marking: Ex eb IIC T3 Gb, te_time: 7 s, "
            "starting: heavy or frequent, evidence: [{type: certificate, number: IECEx ABC "
            "21.0001X, conditions: [{text: PTC sensors in the winding must switch off, met_by: "
            "relay, document: CD-5}]}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "tE not stated",
            Verdict.UNPROVEN,
            "{kind: electrical, description: Motor, marking: Ex eb IIC T3 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
