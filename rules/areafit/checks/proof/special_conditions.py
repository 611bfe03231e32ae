"""Specific conditions of use: an X is only as good as the list of conditions and who met them."""

from collections.abc import Iterator

from areafit.demands import Demands
from areafit.documents import is_shown
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.part import Equipment
from areafit.facts.protection import Suffix
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict


class Question(Frozen):
    """The conditions as stated, and the certificates with an X that list none of their own."""

    conditions: tuple[Condition, ...] | None
    unlisted: tuple[str, ...] = ()


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    del demands
    codes = [code for marking in equipment.markings or () for code in marking.codes]
    documents = equipment.evidence or ()
    marked = any(code.suffix is Suffix.X for code in codes)
    stated = [d.conditions for d in documents if d.conditions]
    certified = [d for d in documents if has_suffix(d, "X")]
    if not (marked or stated or certified):
        return
    unlisted = tuple(d.number for d in certified if d.number and not d.conditions)
    conditions = tuple(c for listed in stated for c in listed)
    question = Question(conditions if stated else None, unlisted)
    yield Ask(question, "evidence" if documents else "marking")


def has_suffix(document: Evidence, letter: str) -> bool:
    """Whether a certificate number ends in the letter, with or without a space before it."""
    number = (document.number or "").rstrip()
    certificate = document.type is EvidenceType.CERTIFICATE
    return certificate and number.endswith(letter) and number[:-1].rstrip()[-1:].isdigit()


def _judge(question: Question) -> Judgement:
    required = "every condition of the X met, with the document that shows it"
    conditions = question.conditions
    if not conditions:
        return unproven(
            Reason.FACT_MISSING,
            "An X is marked; its conditions are not listed.",
            required=required,
            found="no condition listed",
        )
    broken = next((c for c in conditions if c.met is False), None)
    if broken is not None:
        return flagged(
            f"The condition '{broken.text}' is said not to be met.",
            required=required,
            found=broken.text,
        )
    open_one = next((c for c in conditions if not is_shown(c)), None)
    if open_one is not None:
        return unproven(
            Reason.FACT_MISSING,
            f"How the condition '{open_one.text}' is met, and the document for it, is not stated.",
            required=required,
            found=open_one.text,
        )
    if question.unlisted:
        names = " and ".join(question.unlisted)
        return unproven(
            Reason.FACT_MISSING,
            f"{names} ends in X; its own conditions are not listed, and those of another "
            "document need not be the same.",
            required=required,
            found=f"no condition listed for {names}",
        )
    found = "; ".join(f"{c.text}: {c.met_by} ({c.document})" for c in conditions)
    return passed("Every listed condition is met.", required=required, found=found)


SPECIAL_CONDITIONS = Rule[Question](
    id="special-conditions",
    title="Specific conditions of use are met",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="IEC 60079-0:2017 29.3 e); IEC 60079-14:2013 4.2",
    why="An X says that the equipment is safe only under conditions that stand in the certificate "
    "and not on the plate.",
    remedy="List each condition of the certificate with how it is met, the document and the role.",
    answer_by=Role.DESIGNER,
    ask=_ask,
    judge=_judge,
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
