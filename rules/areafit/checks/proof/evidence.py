"""Documents behind a marking: what each body of rules asks to see."""

from collections.abc import Iterator
from datetime import date

from areafit.checks.proof.contradiction import contradictions
from areafit.checks.proof.sufficiency import Claim, claim_of, insufficient
from areafit.demands import Demands
from areafit.documents import expired as has_run_out
from areafit.documents import kind_of_document
from areafit.facts.evidence import Evidence
from areafit.facts.part import Equipment
from areafit.facts.protection import Law, Level
from areafit.rule import Ask, Example, Family, Judgement, Rule, Subject, flagged, passed, unproven
from areafit.values import Frozen
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class Question(Frozen):
    """The law, what the markings claim, and the documents stated.

    `expired` are those whose date is over at the date that decides, unless the part is stated to
    have been placed on the market before; `elsewhere` those that name other part numbers only.
    `levels` are printed ones.
    """

    law: Law
    claims: tuple[Claim, ...]
    levels: tuple[Level, ...]
    valid: tuple[Evidence, ...]
    expired: tuple[Evidence, ...]
    placed: date | None
    as_of: date
    elsewhere: tuple[Evidence, ...] = ()


def _ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Question]]:
    """Marked parts in a classified place; unmarked ones have nothing to show a document for."""
    codes = tuple(code for marking in equipment.markings or () for code in marking.codes)
    if not codes or not (demands.classified or any(code.associated for code in codes)):
        return
    claims = tuple(dict.fromkeys(claim_of(code, electrical=equipment.electrical) for code in codes))
    levels = tuple(dict.fromkeys(code.level for code in codes if code.level is not None))
    documents, placed = equipment.evidence or (), equipment.placed_on_market
    elsewhere = tuple(d for d in documents if d.elsewhere)
    own = [d for d in documents if not d.elsewhere]
    expired = tuple(d for d in own if has_run_out(d, placed, demands.as_of))
    valid = tuple(d for d in own if d not in expired)
    question = Question(
        demands.law, claims, levels, valid, expired, placed, demands.as_of, elsewhere
    )
    yield Ask(question, "evidence" if documents else "marking")


def _judge(question: Question) -> Judgement:
    required = "; ".join(_REQUIRED[question.law])
    documents = (*question.valid, *question.expired)
    if not documents and not question.elsewhere:
        return unproven(
            Reason.FACT_MISSING,
            "A marking is claimed and no document is stated for it.",
            required=required,
            found="none stated",
        )
    found = _found((*documents, *question.elsewhere), question.expired)
    points = sorted(
        contradictions(
            question.law,
            question.claims,
            question.levels,
            documents,
            question.placed,
            question.as_of,
        ),
        key=lambda point: not point.fails,
    )
    if points and points[0].fails:
        point = points[0]
        return flagged(point.message, required=point.required, found=found, clause=point.clause)
    lacking = _lacking(question, documents, found)
    if lacking is not None:
        return lacking
    for point in points:
        return unproven(
            Reason.FACT_MISSING,
            point.message,
            required=point.required,
            found=found,
            clause=point.clause,
        )
    return passed("The documents stated serve.", required=required, found=found)


def _lacking(question: Question, documents: tuple[Evidence, ...], found: str) -> Judgement | None:
    """The worst of what the documents lack for any of the claims."""
    missing = [
        (claim, short)
        for claim in question.claims
        if (short := insufficient(question.law, claim, question.valid)) is not None
    ]
    if not missing:
        return None
    claim, short = min(missing, key=lambda pair: not pair[1].contradicts)
    everything = (*documents, *question.elsewhere)
    if question.elsewhere and insufficient(question.law, claim, everything) is None:
        names = "; ".join(dict.fromkeys(d.covers or "" for d in question.elsewhere))
        return unproven(
            Reason.FACT_MISSING,
            f"A document is said to cover {names}; that this part number is among them is not "
            "stated.",
            required=short.required,
            found=found,
            remedy="Write the part number into `covers` if the document names it, or obtain the "
            "document that does.",
        )
    rest = insufficient(question.law, claim, documents)  # what lacks even if none had run out
    if short.contradicts and rest is not None:
        return flagged(short.message, required=short.required, found=found)
    if not question.expired:
        return unproven(Reason.FACT_MISSING, short.message, required=short.required, found=found)
    lacks = f"{rest.message} " if rest is not None else ""
    also = f"{rest.required}, and " if rest is not None else ""
    return unproven(
        Reason.FACT_MISSING,
        f"{lacks}{_ran_out(question)}",
        required=f"{also}documents that are valid, or were when the part came on the market",
        found=found,
        remedy=f"{'Obtain what is missing; s' if also else 'S'}tate `placed_on_market` from the "
        "maker's declaration, or a document that is valid.",
    )


def _ran_out(question: Question) -> str:
    """Which documents are over, and which date decides that."""
    names = " ".join(
        f"{capital(_named(d))} ran out on {d.valid_until.isoformat()}."
        for d in question.expired
        if d.valid_until is not None
    )
    when = (
        "when this one was is not stated, so the date of this check counts, "
        f"{question.as_of.isoformat()}."
        if question.placed is None
        else f"this one was on {question.placed.isoformat()}, after that."
    )
    return f"{names} That does no harm to a part placed on the market before; {when}"


_REQUIRED = {
    Law.NEC: ("a listing for the marking", "for intrinsic safety its control drawing too"),
    Law.IEC: ("an IECEx or national certificate",),
    Law.ATEX: (
        "the EU declaration of conformity",
        "a certificate for category 1 and for electrical category 2",
    ),
}


def _found(documents: tuple[Evidence, ...], expired: tuple[Evidence, ...]) -> str:
    return "; ".join(
        f"{_named(d)}, valid until {d.valid_until.isoformat()} (past)"
        if d in expired and d.valid_until is not None
        else _named(d)
        for d in documents
    )


def _named(document: Evidence) -> str:
    return f"{kind_of_document(document)} {document.number or '(no number)'}"


EVIDENCE = Rule[Question](
    id="evidence",
    title="Documents show what the marking claims",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.8(A), 504.10, 505.9; 29 CFR 1910.307(c); 2014/34/EU Art. 13, 14; "
    "IEC 60079-14:2013 4.4",
    why="A nameplate is a claim; the listing, certificate or declaration is what an inspector "
    "asks to see.",
    remedy="Obtain the document and state its type and number.",
    answer_by=Role.SUPPLIER,
    note="Which national certificate satisfies an IEC place is for local law. An IECEx or European "
    "certificate alone is not a listing, a UK one no EU-type examination. Category 3, and "
    "mechanical category 2 with its file lodged at a notified body, need the maker's declaration "
    "only.",
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
        Example(
            "Repaired, and no record of it",
            Verdict.UNPROVEN,
            "{kind: electrical, marking: Ex db IIB T4 Gb, evidence: [{type: certificate, "
            "number: IECEx ABC 21.0001}, {type: repair record}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "A pre-category code on a part of 2025",
            Verdict.FLAG,
            "{kind: electrical, marking: EEx d IIB T4, placed_on_market: 2025-01-01, "
            "evidence: [{type: declaration, number: DC-1}, "
            "{type: certificate, number: ABC 21 ATEX 0001}]}",
            "{area: 'Zone 1, IIB, T3'}",
            "ATEX",
        ),
    ),
)
