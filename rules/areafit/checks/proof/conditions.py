"""X and U behind a certificate's number: conditions to be met, and components to be built in."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.documents import bears, is_shown
from areafit.facts.evidence import Condition
from areafit.facts.part import Equipment, Item
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
            Reason.FACT_MISSING,
            "An X is marked; its conditions are not listed.",
            answer_by=Role.SUPPLIER,
        )
    broken = next((c for c in conditions if c.met is False), None)
    if broken is not None:
        return Answer(required=required, found=broken.text).flagged(
            f"The condition '{broken.text}' is said not to be met.",
            remedy=f"Meet it and state so, or choose a part without it: {_LISTED}.",
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
            answer_by=Role.SUPPLIER,
        )
    found = "; ".join(f"{c.text}: {c.met_by} ({c.document})" for c in conditions)
    return Answer(required=required, found=found).passed("Every listed condition is met.")


_LISTED = "`evidence: [{conditions: [{text: …, met_by: …, document: …, role: …}]}]`"

SPECIAL_CONDITIONS = Rule[SpecialConditions](
    id="special-conditions",
    title="Specific conditions of use are met",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 29.3 e); IEC 60079-14:2013 4.2",
    why="An X says that the equipment is safe only under conditions that stand in the certificate "
    "and not on the plate.",
    remedy="List each condition of the certificate with how it is met, the document and the role: "
    f"{_LISTED}.",
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

    `parent` is where it is mounted only, `inside` the enclosure that it stands in, which `lacks`
    something or holds and names it.
    """

    component: bool
    parent: Item | None = None
    inside: Item | None = None
    lacks: str = ""
    named: bool = False


def _ask_component(equipment: Equipment, demands: Demands) -> Iterator[Ask[ExComponent]]:
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    documents = equipment.evidence or ()
    if not demands.classified or not (codes or documents):
        return
    component = any(code.suffix is Suffix.U for code in codes)
    component = component or any(bears(document, Suffix.U) for document in documents)
    question = ExComponent(component)
    if component:
        held = equipment.housed
        question = ExComponent(
            component,
            equipment.parent,
            None if held is None else held.item,
            "" if held is None else held.lacks,
            held is not None and held.named,
        )
    yield Ask(question, "evidence" if documents else "marking")


def _judge_component(question: ExComponent) -> Judgement:
    """Inside other equipment is where a component belongs, if that is certified with it."""
    required, inside = "equipment certified as a whole", question.inside
    if not question.component:
        return Answer(required=required, found="no U").passed("No component mark.")
    if inside is None and question.parent is None:
        return Answer(required=required, found="component certificate (U)").flagged(
            "U, or `recognized component`, marks a component: it must be assessed within certified "
            "equipment and is not usable on its own."
        )
    if inside is None:
        found = f"component certificate (U), mounted in item {question.parent}"
        return Answer(required=required, found=found).unproven(
            Reason.FACT_MISSING,
            f"The component is mounted in item {question.parent}; that it stands inside an "
            "enclosure which is certified with it is not stated.",
            remedy=_REMEDY_U,
            answer_by=Role.DESIGNER,
        )
    answer = Answer(required, f"component certificate (U), inside item {inside}")
    if question.lacks:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"The component stands inside item {inside}, which does not count: {question.lacks}.",
            remedy=f"Settle what item {inside} lacks. {_REMEDY_U}",
        )
    if not question.named:
        return answer.unproven(
            Reason.FACT_MISSING,
            f"The component stands inside item {inside}, whose documents do not name it.",
            remedy=_REMEDY_U,
        )
    return answer.passed("The component stands inside equipment whose document names it.")


_REMEDY_U = (
    "State `inside` with the item of the enclosure; a document in the evidence of that line must "
    "cover the part number of the component too."
)


EX_COMPONENT = Rule[ExComponent](
    id="ex-component",
    title="No Ex component stands alone",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 13, 29.3",
    why="A component certificate leaves open what the finished equipment must add: temperature, "
    "clearances, enclosure.",
    remedy=_REMEDY_U,
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
            "{kind: electrical, part_number: TB-4, inside: '2', marking: Ex eb IIC Gb U}",
            "{area: 'Zone 1, IIB, T3'}",
            more="  - {item: '2', location: case, kind: electrical, part_number: B-2, marking: Ex "
            "db eb IIC T4 Gb, ingress: IP66, evidence: [{type: certificate, number: IECEx ABC "
            "21.0002, covers: B-2 with TB-4}]}\n",
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
