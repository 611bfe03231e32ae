"""What a part is, whether a mechanical part holds anything electrical, and what it is called."""

from collections.abc import Iterator

from areafit.checks.area.nameplate import ChosenCodes
from areafit.demands import Demands
from areafit.facts.fittings import Device
from areafit.facts.part import Equipment, Kind, Mounted
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.descriptions import DescribedPart, Says, all_described, both_sides, described
from areafit.tables.part_names import is_called, may_be
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict

_SIMPLE = Kind.SIMPLE_APPARATUS.value


class KindQuestion(Frozen):
    """The kinds stated, what the part holds that is electrical, and the codes it bears.

    `told` is the word of the description that tells most of what the part is, unless lines that
    are mounted in it state that (`of_lines`); `unlike` is one that the stated `device`, or simple
    apparatus, does not agree with.
    """

    kinds: frozenset[Kind]
    electrical_content: str | None
    electrical_codes: bool
    marked: bool
    told: DescribedPart | None = None
    device: Device | None = None
    unlike: DescribedPart | None = None
    of_lines: bool | None = None


def _ask(plate: ChosenCodes, demands: Demands) -> Iterator[Ask[KindQuestion]]:
    if not demands.classified:
        return
    equipment = plate.equipment
    codes = equipment.codes
    electrical = any(not code.non_electrical for code in codes)
    told = _told(equipment.description, equipment.mounted) if equipment.description else None
    unlike = _unlike(equipment)
    device = equipment.device if unlike is not None else None
    content = equipment.electrical_content
    question = KindQuestion(
        equipment.kinds,
        content,
        electrical,
        bool(codes),
        told,
        device=device,
        unlike=unlike,
        of_lines=True if equipment.mounted is not None else None,
    )
    yield Ask(question, "kind" if device is None else "device")


def _told(description: str, mounted: Mounted | None) -> DescribedPart | None:
    """The word that tells most of what the part is; of an assembly one that is no line of it."""
    if mounted is None:
        return described(description)
    words = all_described(description)
    return next((word for word in words if not _a_line_is(mounted, word)), None)


def _a_line_is(mounted: Mounted, told: DescribedPart) -> bool:
    """Whether a line of an assembly is what its name says.

    A conveyor has lines that move. A pump with a motor has one that is a motor, by its own name,
    its device or what it holds: a switch is none.
    """
    if not told.electrical:
        return told.says is not Says.MOVING or Kind.MECHANICAL in mounted.kinds
    return any(
        (line.device is not None and may_be(line.device.value, told))
        or any(
            is_called(word, told)
            for text in (line.description, line.content)
            if text is not None
            for word in all_described(text)
        )
        for line in mounted.electrical
    )


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
        unlike = next((row for row in named if not _is_simple(row, moves=moves)), None)
        if unlike is not None or equipment.device is None:
            return unlike
    elif equipment.device is None or not equipment.electrical:
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


def _judge(question: KindQuestion) -> Judgement:  # noqa: PLR0911 - one return for each answer
    found = " and ".join(sorted(kind.value for kind in question.kinds))
    answer = Answer(
        "a kind that agrees with the nameplate, and a word on electrical content", found
    )
    if question.unlike is not None:
        return _other_device(question, question.unlike, answer)
    if Kind.ELECTRICAL in question.kinds:
        if question.marked and not question.electrical_codes and len(question.kinds) == 1:
            return answer.flagged(
                "The part is said to be electrical; its nameplate is for non-electrical equipment.",
                remedy="State the `marking` of what is electrical in it too; where nothing is, "
                "state `kind: mechanical` and `electrical_content: none`.",
            )
        return answer.passed("Electrical: held to the electrical rules.")
    if Kind.SIMPLE_APPARATUS in question.kinds:
        return answer.passed("Simple apparatus: held to its own limits.")
    if question.electrical_codes:
        return answer.flagged(
            "The nameplate is for electrical equipment; the part is not said to be electrical.",
            remedy="State `kind: electrical`; a cable gland, plug or adapter states its `device` "
            "as well.",
        )
    if question.told is not None and (what := _contradicted(question, question.told)):
        return _contradiction(question, what, question.told, answer)
    content = question.electrical_content
    if question.of_lines and question.kinds == {Kind.STRUCTURAL}:
        return answer.passed("An assembly: what is electrical or moves in it is a line of its own.")
    if content == "none" or question.kinds == {Kind.STRUCTURAL}:
        return answer.passed("Nothing electrical inside.")
    if content is not None:
        return replace(answer, found=f"{found}, with {content}").passed(
            f"Holds {content}: held to the electrical rules as well."
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "Whether a coil, switch or sensor is inside or attached is not stated.",
    )


def _other_device(question: KindQuestion, unlike: DescribedPart, answer: Answer) -> Judgement:
    """What the description says that `device`, or simple apparatus, does not."""
    stated = question.device.value if question.device is not None else answer.found
    named = unlike.word.strip("-")
    answer = replace(answer, found=f"{stated}, described as {named}", rows=(_row(unlike),))
    return answer.unproven(
        Reason.FACT_MISSING,
        f"The description names a {named}; what is stated, {stated}, has rules of its own.",
        remedy=_REMEDY_DEVICE if question.device is not None else _REMEDY_SIMPLE,
    )


def _contradicted(question: KindQuestion, told: DescribedPart) -> str:
    """What the description names that the kind, or what is said of electrical content, denies."""
    if told.electrical and question.electrical_content in {None, "none"}:
        return "something electrical"
    moving = told.says is Says.MOVING and question.kinds == {Kind.STRUCTURAL}
    return "something with moving parts" if moving else ""


def _contradiction(
    question: KindQuestion, what: str, told: DescribedPart, answer: Answer
) -> Judgement:
    kind = "electrical" if what == "something electrical" else "mechanical"
    named = told.word.strip("-")
    answer = replace(answer, found=f"{answer.found}, described as {named}", rows=(_row(told),))
    if question.of_lines and question.kinds == {Kind.STRUCTURAL}:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"The name of this assembly speaks of {what} ({named}); no line in it is that.",
            remedy="Add the line if it is missing; if it is there, give it that name or its "
            f"`device`, and its kind. If none is meant, take the word from the name, or state "
            f"`kind: {kind}` here.",
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        f"The description speaks of {what} ({named}); the kind stated does not.",
        remedy=f"State {_both(question, kind)} with what that asks for; if the part is something "
        "else, say so in the description: a bracket for a motor, an air motor.",
    )


def _both(question: KindQuestion, kind: str) -> str:
    """The kind that is missing; of a part with a plate for what is not electrical, both kinds."""
    plated = question.marked and question.kinds == {Kind.MECHANICAL}
    if kind != "electrical" or not plated:
        return f"`kind: {kind}`"
    return "`kind: [mechanical, electrical]` and the `marking` of what is electrical too,"


def _row(told: DescribedPart) -> Row:
    return Row.of("described_parts", f"{told.word}: {told.says.value}", told)


_REMEDY_DEVICE = (
    "State the `device` that the description names; if it names another part, say so there: a "
    "junction box for a relay."
)
_REMEDY_SIMPLE = (
    "State `kind: electrical` with its marking: motors, solenoids, transmitters and whatever holds "
    "electronics or stores energy are no simple apparatus. If the description names another part, "
    "say so there: a switch on a valve."
)

KIND = Rule[KindQuestion](
    id="kind",
    title="Electrical content is stated, and kind and description agree",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
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
