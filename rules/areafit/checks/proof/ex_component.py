"""Ex components: a U is never used on its own."""

from collections.abc import Iterator

from areafit.checks.proof.special_conditions import has_suffix
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.facts.protection import Suffix
from areafit.frozen import frozen
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed
from areafit.verdict import Role, Verdict


@frozen
class Question:
    """Whether the plate or a certificate bears a U, and whether another certificate does not."""

    component: bool


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    documents = equipment.evidence or ()
    if not demands.classified or not (codes or documents):
        return
    component = any(code.suffix is Suffix.U for code in codes)
    component = component or any(has_suffix(document, "U") for document in documents)
    yield Ask(Question(component), "evidence" if documents else "marking")


def _judge(question: Question) -> Judgement:
    required = "equipment certified as a whole"
    if question.component:
        return flagged(
            "U marks a component: it must be assessed within certified equipment and is not "
            "usable on its own.",
            required=required,
            found="component certificate (U)",
        )
    return passed("No component mark.", required=required, found="no U")


RULE = Rule[Question](
    id="ex-component",
    title="No Ex component stands alone",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 13, 29.3",
    why="A component certificate leaves open what the finished equipment must add: temperature, "
    "clearances, enclosure.",
    remedy="List the certified equipment that holds the component, with its own certificate.",
    answer_by=Role.SUPPLIER,
    reads=("kinds", "markings", "electrical_content", "evidence", "placed_on_market"),
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Equipment certified as a whole",
            Verdict.PASS,
            "{kind: electrical, marking: Ex eb IIC T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A terminal block on a bracket",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex eb IIC Gb U}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
