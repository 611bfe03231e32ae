"""Ex components: a U is never used on its own."""

from collections.abc import Iterator

from areafit.checks.proof.special_conditions import has_suffix
from areafit.demands import Demands
from areafit.documents import identified
from areafit.facts.evidence import EvidenceType
from areafit.facts.part import Equipment
from areafit.facts.protection import Suffix
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """Whether the plate or a certificate bears a U, and what it is said to be mounted in.

    `whole` are the certificates without a U that name the component among what they cover.
    """

    component: bool
    parent: str | None = None
    whole: tuple[str, ...] = ()


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    documents = equipment.evidence or ()
    if not demands.classified or not (codes or documents):
        return
    component = any(code.suffix is Suffix.U for code in codes)
    component = component or any(has_suffix(document, "U") for document in documents)
    question = Question(component)
    if component:
        question = Question(component, equipment.parent, tuple(_whole(equipment)))
    yield Ask(question, "evidence" if documents else "marking")


def _whole(equipment: Equipment) -> Iterator[str]:
    for document in equipment.evidence or ():
        certificate = document.type is EvidenceType.CERTIFICATE and identified(document)
        names = document.covers is not None and not document.elsewhere
        if certificate and names and document.number and not has_suffix(document, "U"):
            yield document.number


def _judge(question: Question) -> Judgement:
    required = "equipment certified as a whole"
    if question.component and question.parent is not None:
        return _mounted(question, question.parent, required)
    if question.component:
        return flagged(
            "U marks a component: it must be assessed within certified equipment and is not "
            "usable on its own.",
            required=required,
            found="component certificate (U)",
        )
    return passed("No component mark.", required=required, found="no U")


def _mounted(question: Question, parent: str, required: str) -> Judgement:
    """Inside other equipment is where a component belongs, if that is certified with it."""
    found = f"component certificate (U), mounted in item {parent}"
    if question.whole:
        return passed(
            "The component stands inside equipment whose certificate covers it.",
            required=required,
            found=f"{found}; {', '.join(question.whole)}",
        )
    return unproven(
        Reason.FACT_MISSING,
        f"The component is mounted in item {parent}; that the certificate of that equipment "
        "covers it is not stated.",
        required=required,
        found=found,
        remedy="Add the certificate of the equipment to the component's `evidence`, with the "
        "component's part number in `covers`.",
    )


EX_COMPONENT = Rule[Question](
    id="ex-component",
    title="No Ex component stands alone",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 13, 29.3",
    why="A component certificate leaves open what the finished equipment must add: temperature, "
    "clearances, enclosure.",
    remedy="Name the certified equipment that holds the component as its `parent`, and state in "
    "the component's `evidence` the certificate of that equipment with `covers`.",
    answer_by=Role.SUPPLIER,
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
        Example(
            "Mounted in equipment whose certificate covers it",
            Verdict.PASS,
            "{kind: electrical, part_number: TB-4, parent: '2', marking: Ex eb IIC Gb U, evidence: "
            "[{type: certificate, number: IECEx ABC 21.0002, covers: TB-4}]}",
            "{area: 'Zone 1, IIB, T3'}",
            more="  - {item: '2', location: case, kind: electrical, marking: Ex db eb IIC T4 Gb}\n",
        ),
        Example(
            "Mounted in equipment, and nothing said of its certificate",
            Verdict.UNPROVEN,
            "{kind: electrical, parent: '2', marking: Ex eb IIC Gb U, evidence: "
            "[{type: certificate, number: IECEx ABC 21.0001 U}]}",
            "{area: 'Zone 1, IIB, T3'}",
            more="  - {item: '2', location: case, kind: electrical, marking: Ex db eb IIC T4 Gb}\n",
        ),
    ),
)
