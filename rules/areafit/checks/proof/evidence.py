"""The documents behind a marking: enough, findable, and in agreement with plate and calendar."""

from collections.abc import Iterable, Iterator
from datetime import date

from areafit.checks.proof.sufficiency import Claim, claim_of, insufficient
from areafit.demands import Demands
from areafit.documents import CertificateScheme, identified, kind_of_document, read_number
from areafit.documents import expired as has_run_out
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import IntrinsicSafety
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.protection import Law, Level
from areafit.rule import Answer, Ask, Example, Family, Judgement, Row, Rule, Subject
from areafit.tables.limits import Figure, figure
from areafit.values import Frozen, replace
from areafit.verdict import Reason, Role, Verdict
from areafit.wording import capital


class DocumentsBehind(Frozen):
    """The law, what the markings claim, and the documents stated.

    `expired` are those whose date is over at the date that decides, unless the part is stated to
    have been placed on the market before; `elsewhere` those that name other part numbers only.
    `levels` are printed ones, `moving` those of moving parts where they are others.
    """

    law: Law
    claims: tuple[Claim, ...]
    levels: tuple[Level, ...]
    valid: tuple[Evidence, ...]
    expired: tuple[Evidence, ...]
    placed: date | None
    as_of: date
    elsewhere: tuple[Evidence, ...] = ()
    moving: tuple[Level, ...] | None = None


def _ask_evidence(equipment: Equipment, demands: Demands) -> Iterator[Ask[DocumentsBehind]]:
    """Marked parts in a classified place; unmarked ones have nothing to show a document for."""
    codes = equipment.codes
    if not codes or not (demands.classified or any(code.associated for code in codes)):
        return
    alone = equipment.intrinsic_safety is IntrinsicSafety.OWN_CELL and not equipment.in_loop
    made = (claim_of(code, electrical=equipment.electrical, own_cell=alone) for code in codes)
    claims = tuple(dict.fromkeys(made))
    levels, moving = _printed(codes), _printed(c for c in codes if c.names_moving_parts)
    documents, placed = equipment.evidence or (), equipment.placed_on_market
    elsewhere = tuple(d for d in documents if d.elsewhere)
    own = [d for d in documents if not d.elsewhere]
    expired = tuple(d for d in own if has_run_out(d, placed, demands.as_of))
    valid = tuple(d for d in own if d not in expired)
    question = DocumentsBehind(
        demands.law,
        claims,
        levels,
        valid,
        expired,
        placed,
        demands.as_of,
        elsewhere,
        moving if moving and moving != levels else None,
    )
    yield Ask(question, "evidence" if documents else "marking")


def _printed(codes: Iterable[Code]) -> tuple[Level, ...]:
    return tuple(dict.fromkeys(code.level for code in codes if code.level is not None))


def _judge_evidence(question: DocumentsBehind) -> Judgement:
    documents = (*question.valid, *question.expired)
    everything = (*documents, *question.elsewhere)
    answer = Answer(
        required="; ".join(_REQUIRED[question.law]),
        found=_found(everything, question.expired) or "none stated",
    )
    points = sorted(_contradictions(question, documents), key=lambda point: not point.fails)
    if points and points[0].fails:  # what no further document could mend comes first
        return _said_of(points[0], answer).flagged(points[0].message, remedy=points[0].remedy)
    if not everything:
        return answer.unproven(
            Reason.FACT_MISSING, "A marking is claimed and no document is stated for it."
        )
    lacking = _lacking(question, documents, answer)
    if lacking is not None:
        return lacking
    for point in points:
        return _said_of(point, answer).unproven(
            Reason.FACT_MISSING, point.message, remedy=point.remedy
        )
    rows = tuple(map(Row.of_figure, _figures(question, documents)))
    return replace(answer, rows=rows).passed("The documents stated serve.")


def _lacking(
    question: DocumentsBehind, documents: tuple[Evidence, ...], answer: Answer
) -> Judgement | None:
    """The worst of what the documents lack for any of the claims."""
    missing = [
        (claim, short)
        for claim in question.claims
        if (short := insufficient(question.law, claim, question.valid)) is not None
    ]
    if not missing:
        return None
    claim, short = min(missing, key=lambda pair: not pair[1].contradicts)
    answer = replace(answer, required=short.required)
    everything = (*documents, *question.elsewhere)
    if question.elsewhere and insufficient(question.law, claim, everything) is None:
        names = "; ".join(dict.fromkeys(d.covers or "" for d in question.elsewhere))
        return answer.unproven(
            Reason.FACT_MISSING,
            f"A document is said to cover {names}; that the part number of this line is among them "
            "is not stated.",
            remedy="State `part_number` and write it into `covers` if the document names it, or "
            "obtain the document that does.",
        )
    rest = insufficient(question.law, claim, documents)  # what lacks even if none had run out
    if short.contradicts and rest is not None:
        return answer.flagged(short.message, remedy=short.remedy)
    if not question.expired:
        return answer.unproven(Reason.FACT_MISSING, short.message, remedy=short.remedy)
    lacks = f"{rest.message} " if rest is not None else ""
    also = f"{rest.required}, and " if rest is not None else ""
    return replace(
        answer, required=f"{also}documents that are valid, or were when the part came on the market"
    ).unproven(
        Reason.FACT_MISSING,
        f"{lacks}{_ran_out(question)}",
        remedy=f"{'Obtain what is missing; s' if also else 'S'}tate `placed_on_market` from the "
        "maker's declaration, or a document that is valid.",
    )


def _ran_out(question: DocumentsBehind) -> str:
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


class Contradiction(Frozen):
    """What is wrong with the documents; `fails` where stated facts contradict each other."""

    message: str
    required: str
    fails: bool
    remedy: str
    clause: str = ""
    rows: tuple[Row, ...] = ()


def _said_of(point: Contradiction, answer: Answer) -> Answer:
    return replace(answer, required=point.required, clause=point.clause, rows=point.rows)


def _contradictions(
    question: DocumentsBehind, documents: tuple[Evidence, ...]
) -> Iterator[Contradiction]:
    """Every contradiction, in the order of the documents."""
    yield from _numbers(documents, question.as_of)
    yield from _levels(question, documents)
    yield from _pre_atex(question)
    yield from _repairs(documents)


_FIRST_YEAR = "first year of certificates"
_LAST_DAY = "last day of use without an equipment category"
_SCHEMES = {
    CertificateScheme.ATEX: "ATEX",
    CertificateScheme.IECEX: "IECEx",
    CertificateScheme.UK: "UK",
}


def _figures(question: DocumentsBehind, documents: tuple[Evidence, ...]) -> Iterable[Figure]:
    """What the years in numbers, and the day of a part with an old plate, were compared with."""
    numbers = map(read_number, documents)
    schemes = [number.scheme for number in numbers if number.year is not None]
    years = [figure(_FIRST_YEAR, _SCHEMES[scheme]) for scheme in dict.fromkeys(schemes)]
    return [*years, figure(_LAST_DAY)] if _dated_before_atex(question) else years


def _numbers(documents: Iterable[Evidence], as_of: date) -> Iterator[Contradiction]:
    for document in documents:
        number = read_number(document)
        if document.type is EvidenceType.LISTING and number.scheme is not CertificateScheme.OTHER:
            article = "a" if number.scheme is CertificateScheme.UK else "an"
            whose = f"{article} {number.scheme.value}"
            yield Contradiction(
                f"{document.number} is no listing: it is the number of {whose}.",
                "a listing number of the laboratory",
                fails=True,
                remedy="Correct `evidence`: what the laboratory listed has a number of its own.",
                clause="29 CFR 1910.7; 29 CFR 1910.307(c)",
            )
        if number.year is None:
            continue
        first = figure(_FIRST_YEAR, _SCHEMES[number.scheme])
        began = int(first.value)
        if not began <= number.year <= as_of.year:
            yield Contradiction(
                f"The number {document.number} shows the year {number.year}, in which no such "
                "certificate can have been issued.",
                f"a number with a year from {began} to {as_of.year}",
                fails=True,
                remedy="Correct the number in `evidence`, as the certificate prints it.",
                rows=(Row.of_figure(first),),
            )


def _levels(question: DocumentsBehind, documents: Iterable[Evidence]) -> Iterator[Contradiction]:
    """A document that shows a weaker level than the nameplate prints for the same hazard.

    An assessment of ignition hazards is held to what the plate prints of moving parts, if it does.
    """
    for document in documents:
        shown = document.level
        if shown is None:
            continue
        assessed = document.type is EvidenceType.ASSESSMENT
        printed = question.moving if assessed and question.moving else question.levels
        if any(own.value[0] == shown.value[0] and own.rank < shown.rank for own in printed):
            yield Contradiction(
                f"The {document.type.value} shows {shown.value}; the nameplate prints a better "
                "level.",
                "a document that agrees with the marking",
                fails=True,
                remedy="Compare `marking` and `evidence: [{level: …}]` with nameplate and "
                "document, and correct them; or obtain the document that shows the level of the "
                "plate.",
            )


def _dated_before_atex(question: DocumentsBehind) -> bool:
    """Whether a plate is older than the categories, and the day of the part is stated."""
    old = any(claim.pre_atex for claim in question.claims)
    return old and question.law is Law.ATEX and question.placed is not None


def _pre_atex(question: DocumentsBehind) -> Iterator[Contradiction]:
    placed, last = question.placed, figure(_LAST_DAY)
    bound = placed is not None and placed > date.fromisoformat(last.value)
    if bound and _dated_before_atex(question):
        yield Contradiction(
            "The marking is older than the equipment categories, and the part was placed on the "
            "market when they were binding.",
            "a marking with category, and the EU declaration of conformity",
            fails=True,
            remedy="Compare `marking` and `placed_on_market` with nameplate and declaration, and "
            "correct them; or choose a part whose plate has a category.",
            clause="2014/34/EU Art. 6, 13; 94/9/EC Art. 15 (transition to 30 June 2003)",
            rows=(Row.of_figure(last),),
        )


def _repairs(documents: Iterable[Evidence]) -> Iterator[Contradiction]:
    for document in documents:
        if document.type is EvidenceType.REPAIR_RECORD and not (
            identified(document) and document.standard
        ):
            yield Contradiction(
                "A repair is named without its record or the standard that it followed, so "
                "whether the protection still holds is not shown.",
                "the number of the repair record and its standard, such as IEC 60079-19",
                fails=False,
                remedy="State the record as `evidence: [{type: repair record, number: …, "
                "standard: …}]`.",
                clause="IEC 60079-19:2019 4; NFPA 70-2023 500.8(A)",
            )


EVIDENCE = Rule[DocumentsBehind](
    id="evidence",
    title="Documents show what the marking claims",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="NFPA 70-2023 500.8(A), 504.10, 505.9; 29 CFR 1910.307(c); 2014/34/EU Art. 13, 14; "
    "IEC 60079-14:2013 4.4",
    why="A nameplate is a claim; the listing, certificate or declaration is what an inspector "
    "asks to see.",
    remedy="Obtain the document and state its type and number under `evidence`.",
    answer_by=Role.SUPPLIER,
    note="Which national certificate satisfies an IEC place is for local law. An IECEx or European "
    "certificate alone is not a listing, a UK one no EU-type examination. Category 3, and "
    "mechanical category 2 with its file lodged at a notified body, need the maker's declaration "
    "only.",
    ask=_ask_evidence,
    judge=_judge_evidence,
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


_BESIDE_A_MARKING = frozenset(
    {EvidenceType.ASSESSMENT, EvidenceType.TEST_REPORT, EvidenceType.MATERIAL_CERTIFICATE}
)
"""What `evidence` does not look for behind a marking; of unmarked parts it looks at nothing."""


class DocumentNumber(Frozen):
    """A type of document, and whether one of it has a number; `stated` is what stands there."""

    type: EvidenceType
    identified: bool
    stated: tuple[str, ...]


def _ask_number(equipment: Equipment, demands: Demands) -> Iterator[Ask[DocumentNumber]]:
    documents = equipment.evidence or ()
    marked = any(marking.codes for marking in equipment.markings or ())
    for kind in dict.fromkeys(document.type for document in documents):
        if not demands.classified or (marked and kind not in _BESIDE_A_MARKING):
            continue
        own = [document for document in documents if document.type is kind]
        stated = tuple(document.number or "no number" for document in own)
        yield Ask(DocumentNumber(kind, any(map(identified, own)), stated), "evidence")


def _judge_number(question: DocumentNumber) -> Judgement:
    name = question.type.value
    answer = Answer(
        required=f"the number under which the {name} is filed", found=", ".join(question.stated)
    )
    if question.identified:
        return answer.passed(f"The {name} can be found.")
    return answer.unproven(
        Reason.FACT_MISSING,
        f"The {name} has no number that it could be found by, so it shows nothing.",
    )


DOCUMENT_NUMBER = Rule[DocumentNumber](
    id="document-number",
    title="Documents have a number",
    family=Family.PROOF,
    subject=Subject.EQUIPMENT,
    clause="Common practice, no published source",
    why="A document that is still to follow, or that nobody can name, proves nothing; lists carry "
    "such entries for years.",
    remedy="Obtain the document and state its number.",
    answer_by=Role.SUPPLIER,
    note="Words such as `to follow` and `tbd` count as no number, here and in `evidence`, which "
    "judges the documents behind a marking.",
    ask=_ask_number,
    judge=_judge_number,
    examples=(
        Example(
            "An assessment on file",
            Verdict.PASS,
            "{kind: mechanical, evidence: [{type: assessment, number: IHA-1}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
        Example(
            "An assessment that is still to come",
            Verdict.UNPROVEN,
            "{kind: mechanical, evidence: [{type: assessment, number: to follow}]}",
            "{area: 'Zone 1, IIB, T3'}",
        ),
    ),
)
