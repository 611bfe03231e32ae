"""X and U behind a certificate's number: conditions to be met, and components to be built in."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.documents import bears, identified, is_shown
from areafit.facts.evidence import Condition, EvidenceType
from areafit.facts.part import Equipment
from areafit.facts.protection import Suffix
from areafit.rule import Answer, Ask, Example, Family, Judgement, Rule, Subject
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class SpecialConditions(Frozen):
    """The conditions as stated, and the certificates with an X that list none of their own."""

    conditions: tuple[Condition, ...] | None
    unlisted: tuple[str, ...] = ()


def _ask_conditions(equipment: Equipment, demands: Demands) -> Iterator[Ask[SpecialConditions]]:
    del demands
    codes = equipment.codes
    documents = equipment.evidence or ()
    marked = any(code.suffix is Suffix.X for code in codes)
    stated = [d.conditions for d in documents if d.conditions]
    certified = [d for d in documents if bears(d, Suffix.X)]
    if not (marked or stated or certified):
        return
    unlisted = tuple(d.number for d in certified if d.number and not d.conditions)
    conditions = tuple(c for listed in stated for c in listed)
    question = SpecialConditions(conditions if stated else None, unlisted)
    yield Ask(question, "evidence" if documents else "marking")


def _judge_conditions(question: SpecialConditions) -> Judgement:
    required = "every condition of the X met, with the document that shows it"
    conditions = question.conditions
    if not conditions:
        return Answer(required=required, found="no condition listed").unproven(
            Reason.FACT_MISSING, "An X is marked; its conditions are not listed."
        )
    broken = next((c for c in conditions if c.met is False), None)
    if broken is not None:
        return Answer(required=required, found=broken.text).flagged(
            f"The condition '{broken.text}' is said not to be met."
        )
    open_one = next((c for c in conditions if not is_shown(c)), None)
    if open_one is not None:
        return Answer(required=required, found=open_one.text).unproven(
            Reason.FACT_MISSING,
            f"How the condition '{open_one.text}' is met, and the document for it, is not stated.",
        )
    if question.unlisted:
        names = " and ".join(question.unlisted)
        return Answer(required=required, found=f"no condition listed for {names}").unproven(
            Reason.FACT_MISSING,
            f"{names} ends in X; its own conditions are not listed, and those of another "
            "document need not be the same.",
        )
    found = "; ".join(f"{c.text}: {c.met_by} ({c.document})" for c in conditions)
    return Answer(required=required, found=found).passed("Every listed condition is met.")


SPECIAL_CONDITIONS = Rule[SpecialConditions](
    id="special-conditions",
    title="Specific conditions of use are met",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 29.3 e); IEC 60079-14:2013 4.2",
    why="An X says that the equipment is safe only under conditions that stand in the certificate "
    "and not on the plate.",
    remedy="List each condition of the certificate with how it is met, the document and the role.",
    answer_by=Role.DESIGNER,
    ask=_ask_conditions,
    judge=_judge_conditions,
    examples=(
        Example(
            "The one condition, met by a guard",
            Verdict.PASS,
            "{kind: electrical, marking: Ex mb IIC T4 Gb X, evidence: [{type: certificate, "
            "number: IECEx ABC 21.0001X, conditions: [{text: protect from impact, "
            "met_by: guard, document: DN-1, role: designer}]}]}",
        ),
        Example(
            "A condition that is known not to be met",
            Verdict.FLAG,
            "{kind: electrical, marking: Ex mb IIC T4 Gb X, evidence: [{type: certificate, "
            "number: IECEx ABC 21.0001X, conditions: [{text: protect from impact, met: false}]}]}",
        ),
        Example(
            "An X and nothing else",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex mb IIC T4 Gb X}",
        ),
    ),
)


class ExComponent(Frozen):
    """Whether the plate or a certificate bears a U, and what it is said to be mounted in.

    `whole` are the certificates without a U that name the component among what they cover.
    """

    component: bool
    parent: str | None = None
    whole: tuple[str, ...] = ()


def _ask_component(equipment: Equipment, demands: Demands) -> Iterator[Ask[ExComponent]]:
    codes = equipment.codes
    documents = equipment.evidence or ()
    if not demands.classified or not (codes or documents):
        return
    component = any(code.suffix is Suffix.U for code in codes)
    component = component or any(bears(document, Suffix.U) for document in documents)
    question = ExComponent(component)
    if component:
        question = ExComponent(component, equipment.parent, tuple(_whole(equipment)))
    yield Ask(question, "evidence" if documents else "marking")


def _whole(equipment: Equipment) -> Iterator[str]:
    for document in equipment.evidence or ():
        certificate = document.type is EvidenceType.CERTIFICATE and identified(document)
        names = document.covers is not None and not document.elsewhere
        if certificate and names and document.number and not bears(document, Suffix.U):
            yield document.number


def _judge_component(question: ExComponent) -> Judgement:
    """Inside other equipment is where a component belongs, if that is certified with it."""
    required, parent = "equipment certified as a whole", question.parent
    if not question.component:
        return Answer(required=required, found="no U").passed("No component mark.")
    if parent is None:
        return Answer(required=required, found="component certificate (U)").flagged(
            "U marks a component: it must be assessed within certified equipment and is not "
            "usable on its own."
        )
    mounted = f"component certificate (U), mounted in item {parent}"
    if question.whole:
        found = f"{mounted}; {', '.join(question.whole)}"
        return Answer(required=required, found=found).passed(
            "The component stands inside equipment whose certificate covers it."
        )
    return Answer(required=required, found=mounted).unproven(
        Reason.FACT_MISSING,
        f"The component is mounted in item {parent}; that the certificate of that equipment "
        "covers it is not stated.",
        remedy="Add the certificate of the equipment to the component's `evidence`, with the "
        "component's part number in `covers`.",
    )


EX_COMPONENT = Rule[ExComponent](
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
    ask=_ask_component,
    judge=_judge_component,
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
