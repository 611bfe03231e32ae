"""Is the type of protection one that this equipment may use in this area."""

from areafit.checks.area.purge import judge_purge, purge_type
from areafit.checks.area.question import TypeQuestion
from areafit.facts.marking import Code
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.marking.level import find_type, is_old_mechanical
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.area import Gives, ProtectionType
from areafit.verdict import Reason, Role

_REQUIRED = "types of protection for this hazard, this area and this kind of equipment"
_RADIATION = frozenset({"op is", "op pr", "op sh"})


def judge_type(question: TypeQuestion) -> Judgement:
    """Letters must be known, for the hazard and for the equipment; a purge must suit its place."""
    code = question.code
    if code is None:
        return unproven(Reason.FACT_MISSING, "No type of protection is shown.", required=_REQUIRED)
    if question.electrical and code.non_electrical:
        return flagged(
            "The marking is for non-electrical equipment; the part is electrical, or holds "
            "something that is.",
            required="a marking for electrical equipment",
            found=types_in_words(code),
            clause="ISO 80079-36:2016 1",
        )
    purge = purge_type(code)
    if purge is not None:
        return judge_purge(question, code, purge)
    if code.system is MarkingSystem.NEC_DIVISION:
        return _division(question, code)
    return _letters(question, code)


def types_in_words(code: Code) -> str:
    """The types and trade words of a code."""
    return ", ".join((*code.protection, *code.words)) or "no type printed"


def _division(question: TypeQuestion, code: Code) -> Judgement:
    """A Division code states what it is for; a word beside it may contradict that."""
    found = types_in_words(code)
    worse = (area for area in question.areas if area.division == 1 or area.zone in (0, 1))
    first = next(worse, None)
    if first is not None and "nonincendive" in code.words:
        return flagged(
            f"Nonincendive equipment cannot ignite in normal operation only, which is not enough "
            f"in {first.name}.",
            required=_REQUIRED,
            found=found,
            clause="NFPA 70-2023 500.7(F), (G), (H)",
        )
    return passed(
        "The Division marking names no type that is refused here.",
        required=_REQUIRED,
        found=found,
        clause="NFPA 70-2023 500.7",
    )


def _letters(question: TypeQuestion, code: Code) -> Judgement:
    found = types_in_words(code)
    old = is_old_mechanical(code)
    kinds = [(letter, find_type(letter, non_electrical=old)) for letter in code.protection]
    rows = tuple(_row(kind) for _, kind in kinds if kind is not None)
    for letter, kind in kinds:
        if kind is None:
            return unproven(
                Reason.NO_DATA,
                f"Type {letter} is not in the table of types.",
                required=_REQUIRED,
                found=found,
                rows=rows,
            )
        if _gives(kind, code.hazard) is Gives.NONE:
            return flagged(
                f"Type {letter} does not protect against {code.hazard.value} ({kind.standard}).",
                required=_REQUIRED,
                found=found,
                rows=rows,
            )
    if not kinds:
        return _no_letters(code, found)
    if question.electrical and set(code.protection) <= _RADIATION:
        return unproven(
            Reason.FACT_MISSING,
            "`op` says that the light cannot ignite; it says nothing of the electrical circuits "
            "that make the light.",
            required="a type of protection for the electrical part beside `op`",
            found=found,
            clause="IEC 60079-28:2015 4",
            rows=rows,
        )
    if "v" in code.protection:
        return unproven(
            Reason.CONDITION_TO_ACCEPT,
            "A room protected by ventilation is safe only while the ventilation is watched.",
            required="flow monitoring with the action that its certificate asks for",
            found=found,
            clause="IEC 60079-13:2017 6",
            rows=rows,
            answer_by=Role.INSTALLER,
        )
    notes = " ".join(f"{kind.letter}: {kind.note}." for _, kind in kinds if kind and kind.note)
    return passed(
        f"The types serve this hazard. {notes}".strip(), required=_REQUIRED, found=found, rows=rows
    )


def _no_letters(code: Code, found: str) -> Judgement:
    if code.legacy and code.category is not None:
        return passed(
            "A marking of before the type letters: the category stands for the level.",
            required=_REQUIRED,
            found=found,
            clause="EN 13463-1:2009 14",
        )
    return unproven(
        Reason.FACT_MISSING, "No type of protection is printed.", required=_REQUIRED, found=found
    )


def _gives(kind: ProtectionType, hazard: Hazard) -> Gives:
    return kind.dust if hazard is Hazard.DUST else kind.gas


def _row(kind: ProtectionType) -> Row:
    key = f"type {kind.letter} ({kind.standard})"
    return Row.of("protection_types", key, kind)
