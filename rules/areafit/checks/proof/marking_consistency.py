"""A nameplate that contradicts itself or the marking rules, or that could not be read whole."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.facts.marking import Marking
from areafit.facts.part import Equipment
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """One nameplate, as decoded."""

    marking: Marking


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Every stated marking, wherever the part stands: a false nameplate is false anywhere."""
    del demands
    markings = equipment.markings or ()
    for i, marking in enumerate(markings):
        yield Ask(Question(marking), f"marking/{i}" if len(markings) > 1 else "marking")


def _judge(question: Question) -> Judgement:
    problems = question.marking.problems
    found = question.marking.text
    required = "a marking without contradictions, every word of it read"
    wrong = next((p for p in problems if not p.unread), None)
    if wrong is not None:
        return flagged(wrong.message, required=required, found=found, clause=wrong.clause)
    if problems:
        return unproven(
            Reason.NOT_JUDGED,
            problems[0].message,
            required=required,
            found=found,
            clause=problems[0].clause,
        )
    # A marking without any code has a problem that says so.
    return passed("The marking agrees with itself.", required=required, found=found)


MARKING_CONSISTENCY = Rule[Question](
    id="marking-consistency",
    title="Marking agrees with itself",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 29; 2014/34/EU Annex II 1.0.5; NFPA 70-2023 500.8(C), 505.9(C)",
    why="A nameplate that contradicts itself was copied wrongly or is not what it claims; the "
    "lower claim is used meanwhile.",
    remedy="Compare the text with the nameplate and the certificate, and correct it; if it stands "
    "so on the part, ask the maker.",
    answer_by=Role.SUPPLIER,
    ask=_ask,
    judge=_judge,
    examples=(
        Example("Flameproof level c", Verdict.PASS, "{kind: electrical, marking: Ex dc IIC T4 Gc}"),
        Example(
            "Category 2G beside Gc",
            Verdict.FLAG,
            "{kind: electrical, marking: II 2G Ex ec IIC T4 Gc}",
            law="ATEX",
        ),
        Example(
            "A word that is no part of any marking",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIC T4 Gb quasi}",
        ),
    ),
)
