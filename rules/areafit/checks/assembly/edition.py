"""The edition of the installation rules that a list names is one that is applied here."""

from collections.abc import Iterator

from areafit.facts.bom import Bom
from areafit.facts.protection import Law
from areafit.pattern import pattern
from areafit.rule import Ask, Example, Family, Judgement, Row, Rule, Subject, passed, unproven
from areafit.tables.area import Edition, EditionStanding, editions
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The edition as written, the row that its year leads to, and what the rules follow."""

    law: Law
    stated: str
    known: Edition | None
    applied: tuple[str, ...]


_YEAR = pattern(r"(?<!\d)(?:19|20)\d\d(?!\d)")


def _ask(bom: Bom, demands: object) -> Iterator[Ask[Question]]:
    """Where an edition is stated; the clauses of the findings name the editions that they cite."""
    del demands
    if bom.edition is None:
        return
    rows = editions(bom.law.value)
    years = _YEAR.findall(bom.edition)
    known = next((row for row in rows if years and row.year == years[-1]), None)
    applied = tuple(row.text for row in rows if row.standing is EditionStanding.APPLIED)
    yield Ask(Question(bom.law, bom.edition, known, applied), "edition")


def _judge(question: Question) -> Judgement:
    known, found = question.known, f"{question.law.value} {question.stated}"
    required = f"an edition that is applied here: {', '.join(question.applied)}"
    if known is None:
        return unproven(
            Reason.NAME_UNKNOWN,
            f"{found!r} is no edition that is known here; {_applied(question)}.",
            required=required,
            found=found,
        )
    rows = (Row.of("editions", f"{known.law} {known.year}", known, known.standing.value),)
    match known.standing:
        case EditionStanding.APPLIED:
            message = f"{known.text} is what the rules here follow."
        case EditionStanding.ALIKE:
            message = f"{known.text} asks the same where the rules here judge."
        case _:
            return unproven(
                Reason.NOT_JUDGED,
                f"{known.text} differs from what is applied here, or has not been worked through: "
                f"{known.note}.",
                required=required,
                found=found,
                rows=rows,
            )
    return passed(message, required=required, found=found, rows=rows)


def _applied(question: Question) -> str:
    """All editions that are applied: that of the installation may be any of them."""
    several = len(question.applied) > 1
    return f"{' and '.join(question.applied)} {'are' if several else 'is'} applied"


EDITION = Rule[Question](
    id="edition",
    title="The stated edition is one that is applied here",
    family=Family.ASSEMBLY,
    subject=Subject.BOM,
    clause="NFPA 70-2023; IEC 60079-14:2013; EN 60079-14:2014; 2014/34/EU; 1999/92/EC",
    why="A list that names one edition and is judged by another may pass for the wrong reasons: "
    "markings and exceptions came and went between editions.",
    remedy="State the edition whose clauses the findings cite, if it may be used; else have "
    "somebody compare it with the edition that governs, and accept this with that document.",
    answer_by=Role.DESIGNER,
    note="The last year of the text counts: `NFPA 70-2023`, `60079-14:2013`. Where no edition is "
    "stated the report says so, and the editions that the clauses cite are applied.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example("The edition that is applied", Verdict.PASS, law="NEC", more="edition: 2023\n"),
        Example("None stated", Verdict.NOT_APPLICABLE, law="NEC"),
        Example("Before zones came into it", Verdict.UNPROVEN, law="NEC", more="edition: 1984\n"),
        Example("Known, and not worked through", Verdict.UNPROVEN, more="edition: 2024\n"),
    ),
)
