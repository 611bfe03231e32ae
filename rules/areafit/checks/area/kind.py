"""What a part is, whether a mechanical part holds anything electrical, and what it is called."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.fittings import Device
from areafit.facts.part import Equipment, Kind
from areafit.rule import (
    Ask,
    Example,
    Family,
    Judgement,
    Row,
    Rule,
    Subject,
    flagged,
    passed,
    unproven,
)
from areafit.tables.words import DescribedPart, Says, both_sides, described
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict

_SIMPLE = Kind.SIMPLE_APPARATUS.value


class Question(Frozen):
    """The kinds stated, what the part holds that is electrical, and the codes it bears.

    `told` is the word of the description that tells most of what the part is; `unlike` one that
    the stated `device`, or simple apparatus, does not agree with.
    """

    kinds: frozenset[Kind]
    electrical_content: str | None
    electrical_codes: bool
    marked: bool
    told: DescribedPart | None = None
    device: Device | None = None
    unlike: DescribedPart | None = None


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    if not demands.classified:
        return
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    electrical = any(not code.non_electrical for code in codes)
    told = described(equipment.description) if equipment.description else None
    unlike = _unlike(equipment)
    device = equipment.device if unlike is not None else None
    content = equipment.electrical_content
    question = Question(
        equipment.kinds, content, electrical, bool(codes), told, device=device, unlike=unlike
    )
    yield Ask(question, "kind" if device is None else "device")


def _unlike(equipment: Equipment) -> DescribedPart | None:
    """A word of the description that is no such device; of what it comes with only motor contacts.

    Of simple apparatus any word that names something electrical, or that moves.
    """
    if equipment.description is None:
        return None
    main, beside = both_sides(equipment.description)
    kinds = equipment.kinds
    if Kind.SIMPLE_APPARATUS in kinds and Kind.ELECTRICAL not in kinds:
        moves = Kind.MECHANICAL in kinds
        named = (*main, *beside)
        return next((row for row in named if not _is_simple(row, moves=moves)), None)
    if equipment.device is None or not equipment.electrical:
        return None
    called = equipment.device.value
    compared = [row for row in main if row.devices]
    if equipment.device is Device.SQUIRREL_CAGE_MOTOR:
        compared += [row for row in beside if Device.MOTOR_WITH_SWITCH.value in row.devices]
    return next((row for row in compared if called not in row.devices), None)


def _is_simple(row: DescribedPart, *, moves: bool) -> bool:
    """Whether what a word names may be simple apparatus (IEC 60079-11:2011 5.7)."""
    if row.says is Says.MOVING:
        return moves
    return row.says is Says.FIGURE or not row.electrical or _SIMPLE in row.devices


def _judge(question: Question) -> Judgement:  # noqa: PLR0911 - one return for each answer
    found = " and ".join(sorted(kind.value for kind in question.kinds))
    required = "a kind that agrees with the nameplate, and a word on electrical content"
    if question.unlike is not None:
        return _other_device(question, question.unlike, required, found)
    if Kind.ELECTRICAL in question.kinds:
        if question.marked and not question.electrical_codes and len(question.kinds) == 1:
            return flagged(
                "The part is said to be electrical; its nameplate is for non-electrical equipment.",
                required=required,
                found=found,
            )
        return passed("Electrical: held to the electrical rules.", required=required, found=found)
    content = question.electrical_content
    if Kind.SIMPLE_APPARATUS in question.kinds:
        return passed("Simple apparatus: held to its own limits.", required=required, found=found)
    if question.electrical_codes:
        return flagged(
            "The nameplate is for electrical equipment; the part is not said to be electrical.",
            required=required,
            found=found,
            remedy="State `kind: electrical`; a cable gland, plug or adapter states its `device` "
            "as well.",
        )
    contradicted = _contradicted(question, required, found)
    if contradicted is not None:
        return contradicted
    if content == "none" or question.kinds == {Kind.STRUCTURAL}:
        return passed("Nothing electrical inside.", required=required, found=found)
    if content is not None:
        return passed(
            f"Holds {content}: held to the electrical rules as well.",
            required=required,
            found=f"{found}, with {content}",
        )
    return unproven(
        Reason.FACT_MISSING,
        "Whether a coil, switch or sensor is inside or attached is not stated.",
        required=required,
        found=found,
    )


def _other_device(
    question: Question, unlike: DescribedPart, required: str, found: str
) -> Judgement:
    """What the description says that `device`, or simple apparatus, does not."""
    stated = question.device.value if question.device is not None else found
    return unproven(
        Reason.FACT_MISSING,
        f"The description speaks of something else than is stated ({unlike.word}): {stated} is "
        "held to rules of its own.",
        required=required,
        found=f"{stated}, described as {unlike.word}",
        remedy=_REMEDY_DEVICE if question.device is not None else _REMEDY_SIMPLE,
        rows=(Row.of("described_parts", f"{unlike.word}: {unlike.says.value}", unlike),),
    )


def _contradicted(question: Question, required: str, found: str) -> Judgement | None:
    """What the description says that the kind, or what is said of electrical content, does not."""
    told, content = question.told, question.electrical_content
    if told is None:
        return None
    electrical = told.electrical and content in {None, "none"}
    moving = told.says is Says.MOVING and question.kinds == {Kind.STRUCTURAL}
    if not (electrical or moving):
        return None
    what = "something electrical" if electrical else "something with moving parts"
    kinds = "`kind: electrical`" if electrical else "`kind: mechanical`"
    key = f"{told.word}: {told.says.value}"
    return unproven(
        Reason.FACT_MISSING,
        f"The description speaks of {what} ({told.word}); the kind stated does not.",
        required=required,
        found=f"{found}, described as {told.word}",
        remedy=f"State {kinds} with what that asks for; if the part is something else, say so in "
        "the description: a bracket for a motor, an air motor.",
        rows=(Row.of("described_parts", key, told),),
    )


_REMEDY_DEVICE = (
    "State the `device` that the description names; if it names another part, say so there: a "
    "junction box for a relay."
)
_REMEDY_SIMPLE = (
    "State `kind: electrical` with its marking: motors, solenoids, transmitters and whatever holds "
    "electronics or stores energy are no simple apparatus. If the description names another part, "
    "say so there: a switch on a valve."
)

KIND = Rule[Question](
    id="kind",
    title="Electrical content is stated, and kind and description agree",
    family=Family.AREA,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.1; 2014/34/EU Art. 1; ISO 80079-36:2016 1",
    why="A valve or cylinder is judged as non-electrical only if no coil, switch or sensor comes "
    "with it; the electrical parts of mechanical items are what lists forget.",
    remedy="State `electrical_content: none`, or name what is inside and give its marking.",
    answer_by=Role.DESIGNER,
    note="`kind: structural` says by itself that nothing electrical and nothing that moves is "
    "there, so brackets and screws are not asked for `electrical_content`. A description that "
    "names a motor, a valve or a sensor takes that back; the words are common practice, no source. "
    "So does one that names another device than is stated, or what is no simple apparatus "
    "(IEC 60079-11:2011 5.7, from memory).",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "A cylinder without sensors",
            Verdict.PASS,
            "{kind: mechanical, electrical_content: none}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An electrical nameplate on a part called mechanical",
            Verdict.FLAG,
            "{kind: mechanical, marking: Ex mb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A gear motor that is called structural",
            Verdict.UNPROVEN,
            "{kind: structural, description: Gear motor 0.37 kW}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A gear motor that is called simple apparatus",
            Verdict.UNPROVEN,
            "{kind: simple apparatus, description: Gear motor}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A valve, solenoid or not",
            Verdict.UNPROVEN,
            "{kind: mechanical}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
