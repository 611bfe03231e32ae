"""What a line says of its own facts: kinds not known yet, and what somebody only proposed."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.errors import brief, choices
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.subjects import LineOrigin
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class KindOpen(Frozen):
    """The line says that its kind is unknown."""


def _ask_kind(origin: LineOrigin, demands: Demands) -> Iterator[Ask[KindOpen]]:
    del demands
    if origin.kind_unknown:
        yield Ask(KindOpen(), "kind")


def _judge_kind(question: KindOpen) -> Judgement:
    del question
    return Answer("the kind of the part", "unknown").unproven(
        Reason.FACT_MISSING,
        "The kind of the part is not known. It decides what is asked, so it is asked first and "
        "alone.",
    )


KIND_KNOWN = Rule[KindOpen](
    id="kind-known",
    title="The kind of every part is known",
    family=Family.PROOF,
    subject=Subject.LINE,
    clause="Common practice, no published source",
    why="The kind decides which requirements apply; without it none can be shown to be met.",
    remedy="State `kind`: electrical, mechanical, structural, simple apparatus or loose item.",
    answer_by=Role.DESIGNER,
    note="No waiver and no option reaches this rule.",
    ask=_ask_kind,
    judge=_judge_kind,
    always=True,
    examples=(
        Example(
            "An import that found no kind", Verdict.UNPROVEN, "{kind: unknown}", "{area: none}"
        ),
        Example(
            "A kind that a colleague found",
            Verdict.NOT_APPLICABLE,
            "{kind: structural, materials: none, materials_complete: true, exposure: enclosed}",
            "{area: unclassified, document: AC-1, substances: none, chemicals: none}",
        ),
    ),
)


class Proposed(Frozen):
    """Keys whose values a program or a colleague proposed, and nobody confirmed."""

    keys: tuple[str, ...]


def _ask_proposed(origin: LineOrigin, demands: Demands) -> Iterator[Ask[Proposed]]:
    del demands
    if origin.proposed:
        yield Ask(Proposed(origin.proposed), "proposed")


def _judge_proposed(proposed: Proposed) -> Judgement:
    keys = choices([f"`{key}`" for key in proposed.keys], "and")
    one = len(proposed.keys) == 1
    what = "is only a proposal" if one else "are only proposals"
    return Answer(
        "facts that somebody confirmed", f"proposed: {', '.join(proposed.keys)}"
    ).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"{capital(keys)} {what}; the part is judged as if {'it' if one else 'they'} were "
        "confirmed.",
    )


PROPOSED = Rule[Proposed](
    id="proposed",
    title="What was proposed is confirmed by a person",
    family=Family.PROOF,
    subject=Subject.LINE,
    clause="Common practice, no published source",
    why="A program that reads descriptions can be wrong, and the kind decides what is asked.",
    remedy="Check the value and delete its key from `proposed`.",
    answer_by=Role.DESIGNER,
    note="No waiver and no option reaches this rule.",
    ask=_ask_proposed,
    judge=_judge_proposed,
    always=True,
    examples=(
        Example(
            "A kind that the import proposed",
            Verdict.UNPROVEN,
            "{kind: structural, proposed: kind}",
            "{area: unclassified, document: AC-1, substances: none, chemicals: none}",
        ),
        Example(
            "The same, confirmed",
            Verdict.NOT_APPLICABLE,
            "{kind: structural}",
            "{area: unclassified, document: AC-1, substances: none, chemicals: none}",
        ),
    ),
)


class Disagreeing(Frozen):
    """One fact as the line and as the library state it."""

    key: str
    line: str
    library: str


def _ask_agreement(origin: LineOrigin, demands: Demands) -> Iterator[Ask[Disagreeing]]:
    del demands
    for one in origin.disagreements:
        yield Ask(Disagreeing(one.key, one.line, one.library), one.key)


def _judge_agreement(found: Disagreeing) -> Judgement:
    return Answer(f"`{found.key}` as in the library: {found.library}", found.line).unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"The line states `{found.key}` as {brief(found.line)}, the library as "
        f"{brief(found.library)}. The part is judged as the line says; take it off the line if the "
        "entry is right.",
    )


LIBRARY_AGREEMENT = Rule[Disagreeing](
    id="library-agreement",
    title="Line and library say the same of a bought part",
    family=Family.PROOF,
    subject=Subject.LINE,
    clause="Common practice, no published source",
    why="One of the two is wrong, and other machines rest on the entry.",
    remedy="Correct the line or the entry; or have a role accept the difference in a waiver.",
    answer_by=Role.DESIGNER,
    ask=_ask_agreement,
    judge=_judge_agreement,
    examples=(
        Example(
            "Nothing taken of a library",
            Verdict.NOT_APPLICABLE,
            "{kind: structural, part_number: PL-1}",
        ),
    ),
)


class AnsweredFact(Frozen):
    """One fact as the line has it, and as an answer that came in states it."""

    key: str
    line: str
    answer: str
    document: str | None
    agrees: bool


def _ask_answers(origin: LineOrigin, demands: Demands) -> Iterator[Ask[AnsweredFact]]:
    del demands
    for one in origin.answers:
        fact = AnsweredFact(one.path, one.line, one.answer, one.document, one.agrees)
        yield Ask(fact, one.path)


def _judge_answers(found: AnsweredFact) -> Judgement:
    said = f"{found.answer}, by {found.document or 'no document'}"
    answer = Answer(f"one fact for `{found.key}`", f"{found.line}; answered: {said}")
    if found.agrees:
        return answer.passed(f"The answer and the line say the same of `{found.key}`.")
    return answer.unproven(
        Reason.CONDITION_TO_ACCEPT,
        f"An answer states `{found.key}` otherwise than the line: {found.answer}. Both are judged, "
        "and the worse verdict of each rule stands.",
    )


ANSWER_AGREEMENT = Rule[AnsweredFact](
    id="answer-agreement",
    title="What was answered and what the line states are the same",
    family=Family.PROOF,
    subject=Subject.LINE,
    clause="Common practice, no published source",
    why="One of the two is wrong, and nothing here can tell which.",
    remedy="Ask for the document, keep the value that it shows and delete the entry of `answered`; "
    "or have a role accept the difference in a waiver.",
    answer_by=Role.DESIGNER,
    ask=_ask_answers,
    judge=_judge_answers,
    examples=(
        Example(
            "An answer that differs",
            Verdict.UNPROVEN,
            "{kind: structural, materials: 316L, answered: [{key: materials, value: 304L, "
            "role: supplier, on: 2026-11-12}]}",
            "{area: unclassified, document: AC-1, substances: none, chemicals: none}",
        ),
        Example(
            "An answer that says the same",
            Verdict.PASS,
            "{kind: structural, materials: 316L, answered: [{key: materials, value: 316L, "
            "role: supplier, on: 2026-11-12}]}",
            "{area: unclassified, document: AC-1, substances: none, chemicals: none}",
        ),
    ),
)
