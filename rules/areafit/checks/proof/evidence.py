"""Documents behind a marking: what each body of rules asks to see."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from areafit.checks.proof.sufficiency import Claim, claim_of, insufficient, kind_of_certificate
from areafit.demands import Demands
from areafit.facts.evidence import Evidence
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.protection import Law
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.verdict import Reason, Role, Verdict


@dataclass(frozen=True, slots=True)
class Question:
    """The law, what the markings claim, and the documents stated: valid ones, and those whose
    date is over at the date that decides."""

    law: Law
    claims: tuple[Claim, ...]
    valid: tuple[Evidence, ...]
    expired: tuple[Evidence, ...]


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Marked parts in a classified place; unmarked ones have nothing to show a document for."""
    codes: tuple[Code, ...] = tuple(
        code for marking in equipment.markings or () for code in marking.codes
    )
    if not codes or not (demands.classified or any(code.associated for code in codes)):
        return
    claims = tuple(dict.fromkeys(claim_of(code, equipment.electrical) for code in codes))
    documents = equipment.evidence or ()
    expired = tuple(d for d in documents if _expired(d, demands.as_of))
    valid = tuple(d for d in documents if d not in expired)
    path = "evidence" if documents else "marking"
    yield Ask(Question(demands.law, claims, valid, expired), path)


def _judge(question: Question) -> Judgement:
    required = "; ".join(dict.fromkeys(_REQUIRED[question.law]))
    documents = (*question.valid, *question.expired)
    found = _found(documents)
    if not documents:
        return unproven(
            Reason.FACT_MISSING,
            "A marking is claimed and no document is stated for it.",
            required=required,
            found=found,
        )
    for claim in question.claims:
        answer = insufficient(question.law, claim, question.valid)
        if answer is None:
            continue
        late = insufficient(question.law, claim, documents) is None
        if late:
            day = max(d.valid_until for d in question.expired if d.valid_until is not None)
            return unproven(
                Reason.FACT_MISSING,
                f"A document was valid until {day.isoformat()} and the date that decides is later: "
                "show that the part was placed on the market before.",
                required=required,
                found=found,
            )
        if answer.contradicts:
            return flagged(answer.message, required=answer.required, found=found)
        return unproven(
            Reason.FACT_MISSING, answer.message, required=answer.required, found=found
        )
    return passed("The documents stated serve.", required=required, found=found)


_REQUIRED = {
    Law.NEC: ("a listing for the marking", "for intrinsic safety its control drawing too"),
    Law.IEC: ("an IECEx or national certificate",),
    Law.ATEX: (
        "the EU declaration of conformity",
        "a certificate for category 1 and for electrical category 2",
    ),
}


def _expired(document: Evidence, as_of: date) -> bool:
    return document.valid_until is not None and document.valid_until < as_of


def _found(documents: tuple[Evidence, ...]) -> str:
    if not documents:
        return "none stated"
    return "; ".join(
        " ".join(word for word in (kind_of_certificate(d), d.number) if word) for d in documents
    )


RULE = Rule[Question](
    id="evidence",
    title="Documents show what the marking claims",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.8(A), 504.10, 505.9; 29 CFR 1910.307(c); 2014/34/EU 13, 14; "
    "IEC 60079-14:2013 4.2",
    why="A nameplate is a claim; the listing, certificate or declaration is what an inspector "
    "asks to see.",
    remedy="Obtain the document and state its type and number.",
    answer_by=Role.SUPPLIER,
    note="Which national certificate satisfies an IEC place is for local law. An IECEx or European "
    "certificate alone is not a listing.",
    ask=_ask,
    judge=_judge,
    examples=(
        Example(
            "Listed for the marking",
            Verdict.PASS,
            "{kind: electrical, marking: 'Class I, Division 2, Groups A, B, C, D T4', "
            "evidence: [{type: listing, number: E-0001}]}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
        Example(
            "A European certificate in a Division",
            Verdict.FLAG,
            "{kind: electrical, marking: II 2G Ex db IIC T4 Gb, "
            "evidence: [{type: certificate, number: ABC 21 ATEX 0001}]}",
            "{area: 'Class I, Division 2, Group D'}",
            "NEC",
        ),
        Example(
            "Nothing on file",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIB T4 Gb}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
