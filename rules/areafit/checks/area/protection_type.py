"""Types of protection that the hazard, the area and the equipment accept; purged enclosures."""

from collections.abc import Iterator
from functools import lru_cache

from areafit.checks.area.nameplate import Candidate, ChosenCodes
from areafit.demands import Demands
from areafit.facts.fittings import Contents, OnLoss, Pressurization
from areafit.facts.marking import Code
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Law, MarkingSystem
from areafit.marking.level import effective_level, find_type, is_old_mechanical
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.area import Gives, ProtectionType, PurgeType, purges
from areafit.tables.part_names import Topic, topics
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict


class TypeQuestion(Frozen):
    """Is the type of protection one that this kind of equipment may use here?

    `hand_lamp`: its description calls it a lamp that is carried about.
    """

    law: Law
    areas: tuple[Area, ...]
    code: Code | None
    electrical: bool
    pressurization: Pressurization | None = None
    hand_lamp: bool = False

    @classmethod
    @lru_cache(maxsize=64)  # what papers answer asks it of the same nameplate
    def of(cls, choice: Candidate) -> "TypeQuestion":
        """The facts of a part with the areas of its place."""
        return cls(
            choice.demands.law,
            choice.hazard.areas,
            choice.code,
            choice.electrical,
            choice.equipment.pressurization,
            choice.equipment.description is not None
            and Topic.HAND_LAMP in topics(choice.equipment.description),
        )


def _ask(plate: ChosenCodes, _: Demands) -> Iterator[Ask[TypeQuestion]]:
    """Nothing to ask of a part without a code for the hazard: `protection-level` says so."""
    for choice in plate.asked:
        if choice.code is None:
            continue
        if choice.path == "inside" and purge_of(choice.code) is not None:
            continue  # the enclosure is asked for its purge, and counts only where that passes
        yield Ask(TypeQuestion.of(choice), choice.path)


_REQUIRED = "types of protection for this hazard, this area and this kind of equipment"
_RADIATION = frozenset({"op is", "op pr", "op sh"})


def judge_type(question: TypeQuestion) -> Judgement:
    """Letters must be known, for the hazard and for the equipment; a purge must suit its place."""
    code = question.code
    if code is None:
        answer = Answer(_REQUIRED)
        return answer.unproven(Reason.FACT_MISSING, "No type of protection is shown.")
    answer = Answer(_REQUIRED, ", ".join((*code.protection, *code.words)) or "no type printed")
    if question.electrical and code.non_electrical:
        answer = replace(
            answer, required="a marking for electrical equipment", clause="ISO 80079-36:2016 1"
        )
        return answer.flagged(
            "The marking is for non-electrical equipment; the part is electrical, or holds "
            "something that is.",
            remedy="State the `marking` of what is electrical in it too; where nothing is, state "
            "`kind: mechanical` and `electrical_content: none`.",
        )
    if question.hand_lamp and _held_to_division_1(question, code):
        required = "portable lighting identified for Class I, Division 1"
        return replace(answer, required=required, clause="NFPA 70-2023 501.130(B)").unproven(
            Reason.CONDITION_TO_ACCEPT,
            "Portable lighting in Class I, Division 2 is held to what Division 1 asks, but on a "
            "movable stand with a cord; somebody must accept one that is marked for less.",
            remedy="Choose a lamp whose `marking` is for Class I, Division 1, or have this one "
            "accepted in a waiver.",
        )
    purge = purge_of(code)
    if purge is not None:
        return _judge_purge(question, code, purge)
    if code.system is MarkingSystem.NEC_DIVISION:
        return _division(question, code, answer)
    return _letters(question, code, answer)


def _held_to_division_1(question: TypeQuestion, code: Code) -> bool:
    """Whether a marking for Division 2 or Zone 2 alone is to serve in Class I, Division 2."""
    here = any(area.key == "I/2" for area in question.areas)
    level = effective_level(code)
    return here and (code.divisions == (2,) or (level is not None and level.value == "Gc"))


def _division(question: TypeQuestion, code: Code, answer: Answer) -> Judgement:
    """A Division code states what it is for; a word beside it may contradict that."""
    worse = (area for area in question.areas if area.division == 1 or area.zone in (0, 1))
    first = next(worse, None)
    if first is not None and "nonincendive" in code.words:
        return replace(answer, clause="NFPA 70-2023 500.7(F), (G), (H)").flagged(
            f"Nonincendive equipment cannot ignite in normal operation only, which is not enough "
            f"in {first.name}."
        )
    return replace(answer, clause="NFPA 70-2023 500.7").passed(
        "The Division marking names no type that is refused here."
    )


def _letters(question: TypeQuestion, code: Code, answer: Answer) -> Judgement:
    old = is_old_mechanical(code)
    kinds = [(letter, find_type(letter, non_electrical=old)) for letter in code.protection]
    answer = replace(answer, rows=tuple(_row(kind) for _, kind in kinds if kind is not None))
    for letter, kind in kinds:
        if kind is None:
            return answer.unproven(Reason.NO_DATA, f"Type {letter} is not in the table of types.")
        if kind.gives(code.hazard) is Gives.NONE:
            return answer.flagged(
                f"Type {letter} does not protect against {code.hazard.value} ({kind.standard})."
            )
    if not kinds:
        return _no_letters(code, answer)
    if question.electrical and set(code.protection) <= _RADIATION:
        required = "a type of protection for the electrical part beside `op`"
        return replace(answer, required=required, clause="IEC 60079-28:2015 4").unproven(
            Reason.FACT_MISSING,
            "`op` says that the light cannot ignite; it says nothing of the electrical circuits "
            "that make the light.",
        )
    if "v" in code.protection:
        required = "flow monitoring with the action that its certificate asks for"
        return replace(answer, required=required, clause="IEC 60079-13:2017 6").unproven(
            Reason.CONDITION_TO_ACCEPT,
            "A room protected by ventilation is safe only while the ventilation is watched.",
            answer_by=Role.INSTALLER,
        )
    notes = " ".join(f"{kind.letter}: {kind.note}." for _, kind in kinds if kind and kind.note)
    return answer.passed(f"The types serve this hazard. {notes}".strip())


def _no_letters(code: Code, answer: Answer) -> Judgement:
    if code.legacy and code.category is not None:
        return replace(answer, clause="EN 13463-1:2009 14").passed(
            "A marking of before the type letters: the category stands for the level."
        )
    return answer.unproven(
        Reason.FACT_MISSING,
        "No type of protection is printed.",
        remedy="Copy the `marking` whole, with its type of protection.",
    )


def _row(kind: ProtectionType) -> Row:
    return Row.of("protection_types", f"type {kind.letter} ({kind.standard})", kind)


_LETTERS = ("pxb", "pyb", "pzc", "px", "py", "pz", "p")
_DIVISION_2_ONLY = frozenset({"Z", "pz", "pzc"})


def purge_of(code: Code) -> PurgeType | None:
    """The row of the purge that a code names, None where it names none."""
    if code.purge is not None:
        return purges()[code.purge.value]
    if code.non_electrical:  # EN 13463-7 has a p of its own
        return None
    letter = next((letter for letter in _LETTERS if letter in code.protection), None)
    return purges()[letter] if letter is not None else None


def _judge_purge(question: TypeQuestion, code: Code, row: PurgeType) -> Judgement:
    """The place must suit the type; contents and action on loss must be stated and suit it."""
    contents, on_loss = _contents(question, code), _on_loss(question, code)
    answer = Answer(
        required=f"type {row.type}: {row.note}; contents {_either(row.contents)}; on loss of "
        f"pressure {_either(row.on_loss)}",
        found=f"type {row.type}, contents {contents or 'not stated'}, on loss "
        f"{on_loss or 'not stated'}",
        rows=(Row.of("purges", f"type {row.type}", row),),
        clause=row.clause,
    )
    if row.type in _DIVISION_2_ONLY and any(_severe(area) for area in question.areas):
        return answer.flagged(
            f"Type {row.type} takes Division 2 or Zone 2 to unclassified; it does not serve a "
            "worse place."
        )
    if contents is not None and contents not in row.contents:
        return answer.flagged(
            f"Type {row.type} leaves a lesser hazard inside: contents that are {contents} do not "
            f"suit it, they must be for {_either(row.contents)}.",
            remedy="Choose other contents, or another type of purge: "
            f"`pressurization: {{contents: {row.contents[0]}, on_loss: …}}`.",
        )
    if on_loss is not None and on_loss not in row.on_loss:
        return answer.flagged(
            f"On loss of pressure type {row.type} asks for {_either(row.on_loss)}.",
            remedy="Have loss of pressure do that, and state "
            f"`pressurization: {{contents: …, on_loss: {row.on_loss[0]}}}`.",
        )
    stated = (("contents", contents), ("on_loss", on_loss))
    missing = [word for word, value in stated if value is None]
    if missing:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"What type {row.type} asks of the enclosure is not stated: {' and '.join(missing)}.",
            remedy="State `pressurization: {contents: …, on_loss: …}` from the purge's drawing.",
            answer_by=Role.DESIGNER,
        )
    return answer.passed(
        "Place, contents and action on loss suit the purge; surfaces outside and parts that stay "
        "live keep their own temperature limit."
    )


def _severe(area: Area) -> bool:
    if area.system is AreaSystem.ZONE:
        return area.zone is not None and area.zone % 10 < 2
    return area.division == 1


def _contents(question: TypeQuestion, code: Code) -> str | None:
    """The contents as stated; where plate and list differ, the less protected."""
    words = []
    if code.purge_contents is not None:
        known = {member.value.lower(): member.value for member in Contents}
        # Words that the plate adds, such as open contacts, make ordinary contents of it.
        words.append(known.get(code.purge_contents.lower(), Contents.GENERAL_PURPOSE.value))
    if question.pressurization is not None and question.pressurization.contents is not None:
        words.append(question.pressurization.contents.value)
    order = [member.value for member in Contents]
    return min(words, key=order.index, default=None)


def _on_loss(question: TypeQuestion, code: Code) -> str | None:
    """What follows loss of pressure; where plate and list differ, the lesser action."""
    words = []
    if code.purge_action is not None:
        known = {member.value: member.value for member in OnLoss}
        words.append(known.get(code.purge_action, OnLoss.NOTHING.value))
    if question.pressurization is not None and question.pressurization.on_loss is not None:
        words.append(question.pressurization.on_loss.value)
    order = [member.value for member in OnLoss]
    return max(words, key=order.index, default=None)


def _either(words: tuple[str, ...]) -> str:
    return " or ".join(words)


PROTECTION_TYPE = Rule[TypeQuestion](
    id="protection-type",
    title="Type of protection suits hazard, area and equipment",
    family=Family.AREA,
    subject=Subject.NAMEPLATE,
    clause="NFPA 70-2023 500.7, 505.8, 506.8; IEC 60079-14:2013 5.4; IEC 60079-0:2017 29",
    why="How a part is protected decides what else it needs: a purge needs suitable contents and "
    "an action on loss, and letters for gas say nothing of dust.",
    remedy="Choose a part whose `marking` shows a type of protection for this place.",
    answer_by=Role.SUPPLIER,
    note="Type Y and py take Division 1 or Zone 1 to Division 2 or Zone 2 only, so what stands "
    "inside must suit that; a public page that says unclassified is wrong.",
    ask=_ask,
    judge=judge_type,
    examples=(
        Example(
            "Type X purge with power cut off on loss",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Division 1, Type X pressurization', "
            "pressurization: {contents: general purpose, on_loss: power cut}}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "Type Y purge around general-purpose contents",
            Verdict.FLAG,
            "{kind: electrical, marking: 'Type Y pressurization, contents general purpose'}",
            "{area: 'Class I, Division 1, Group D'}",
            "NEC",
        ),
        Example(
            "A constructional-safety code on a motor",
            Verdict.FLAG,
            "{kind: electrical, marking: II 2G Ex h IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
            "ATEX",
        ),
        Example(
            "Pressurized, and nothing said of contents or loss",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex pxb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
