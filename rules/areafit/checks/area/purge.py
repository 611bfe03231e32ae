"""Purged and pressurized enclosures: may this type stand here, with these contents."""

from areafit.checks.area.question import TypeQuestion
from areafit.facts.fittings import Contents, OnLoss
from areafit.facts.marking import Code
from areafit.facts.place import Area, AreaSystem
from areafit.rule import Judgement, Row, flagged, passed, unproven
from areafit.tables.area import PurgeType, purges
from areafit.verdict import Reason, Role

_LETTERS = ("pxb", "pyb", "pzc", "px", "py", "pz", "p")
_DIVISION_2_ONLY = frozenset({"Z", "pz", "pzc"})


def purge_type(code: Code) -> PurgeType | None:
    """The row of the purge that a code names, None where it names none."""
    if code.purge is not None:
        return purges()[code.purge.value]
    if code.non_electrical:  # EN 13463-7 has a p of its own
        return None
    letter = next((letter for letter in _LETTERS if letter in code.protection), None)
    return purges()[letter] if letter is not None else None


def judge_purge(question: TypeQuestion, code: Code, row: PurgeType) -> Judgement:
    """The place must suit the type; contents and action on loss must be stated and suit it."""
    cited = (Row.of("purges", f"type {row.type}", row),)
    required = (
        f"type {row.type}: {row.note}; contents {_either(row.contents)}; on loss of pressure "
        f"{_either(row.on_loss)}"
    )
    contents, on_loss = _contents(question, code), _on_loss(question, code)
    found = (
        f"type {row.type}, contents {contents or 'not stated'}, on loss {on_loss or 'not stated'}"
    )

    def refuse(message: str) -> Judgement:
        return flagged(message, required=required, found=found, clause=row.clause, rows=cited)

    if row.type in _DIVISION_2_ONLY and any(_severe(area) for area in question.areas):
        return refuse(
            f"Type {row.type} takes Division 2 or Zone 2 to unclassified; it does not serve a "
            "worse place."
        )
    if contents is not None and contents not in row.contents:
        return refuse(
            f"Type {row.type} leaves a lesser hazard inside: contents that are {contents} do not "
            f"suit it, they must be for {_either(row.contents)}."
        )
    if on_loss is not None and on_loss not in row.on_loss:
        return refuse(f"On loss of pressure type {row.type} asks for {_either(row.on_loss)}.")
    missing = [
        word for word, value in (("contents", contents), ("on_loss", on_loss)) if value is None
    ]
    if missing:
        return unproven(
            Reason.FACT_MISSING,
            f"What type {row.type} asks of the enclosure is not stated: {' and '.join(missing)}.",
            required=required,
            found=found,
            clause=row.clause,
            rows=cited,
            remedy="State `pressurization: {contents: …, on_loss: …}` from the purge's drawing.",
            answer_by=Role.DESIGNER,
        )
    return passed(
        "Place, contents and action on loss suit the purge; surfaces outside and parts that stay "
        "live keep their own temperature limit.",
        required=required,
        found=found,
        clause=row.clause,
        rows=cited,
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
