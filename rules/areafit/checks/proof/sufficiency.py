"""Which documents serve for which claim, by the installation rules that govern."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.marking import Code
from areafit.facts.protection import Law, MarkingSystem

_IECEX = re.compile(r"\bIECEx\b", re.IGNORECASE)
_ATEX = re.compile(r"\b\d{2}\s?ATEX\b|ATEX", re.IGNORECASE)
_LISTED = (EvidenceType.LISTING,)


@dataclass(frozen=True, slots=True)
class Claim:
    """What a code claims, as far as documents are concerned."""

    system: MarkingSystem
    category: str | None
    electrical: bool
    intrinsically_safe: bool


@dataclass(frozen=True, slots=True)
class Shortfall:
    """What is missing; `contradicts` where what is stated shows the wrong thing."""

    message: str
    required: str
    contradicts: bool = False


def claim_of(code: Code, electrical: bool) -> Claim:  # noqa: FBT001 - a fact, not a switch
    """The claim that a code makes; outputs count, since their circuits need the drawing."""
    own = any(p in ("ia", "ib", "ic", "i") for p in code.protection)
    outgoing = any(p in ("ia", "ib", "ic", "i") for o in code.outputs for p in o.protection)
    safe = own or outgoing or "intrinsically safe" in code.words
    return Claim(code.system, code.category, electrical and not code.non_electrical, safe)


def kind_of_certificate(document: Evidence) -> str:
    """The document type, with the scheme that its number shows."""
    if document.type is EvidenceType.CERTIFICATE and document.number:
        if _IECEX.search(document.number):
            return "IECEx certificate"
        if _ATEX.search(document.number):
            return "EU-type certificate"
    return document.type.value


def insufficient(law: Law, claim: Claim, documents: tuple[Evidence, ...]) -> Shortfall | None:
    """What the documents lack for the claim; None where they serve."""
    types = {document.type for document in documents}
    match law:
        case Law.NEC:
            return _nec(claim, types)
        case Law.IEC:
            return _iec(claim, types)
        case Law.ATEX:
            return _atex(claim, types, documents)


def _nec(claim: Claim, types: set[EvidenceType]) -> Shortfall | None:
    if not claim.electrical:
        return _assessed(types | ({EvidenceType.ASSESSMENT} if _listed(types) else set()))
    if not _listed(types):
        foreign = bool(types & {EvidenceType.CERTIFICATE, EvidenceType.DECLARATION})
        return Shortfall(
            "No listing is stated."
            if not foreign
            else "A certificate or declaration from another system is no listing.",
            "a listing by a recognised laboratory for the marking",
            contradicts=foreign,
        )
    if claim.intrinsically_safe and EvidenceType.CONTROL_DRAWING not in types:
        return Shortfall(
            "Intrinsically safe equipment is installed by its control drawing; none is stated.",
            "the control drawing (NFPA 70-2023 504.10)",
        )
    return None


def _iec(claim: Claim, types: set[EvidenceType]) -> Shortfall | None:
    if not claim.electrical:
        return _assessed(types)
    if EvidenceType.CERTIFICATE in types or EvidenceType.LISTING in types:
        return None
    return Shortfall("No certificate is stated.", "an IECEx or national certificate")


def _atex(
    claim: Claim, types: set[EvidenceType], documents: tuple[Evidence, ...]
) -> Shortfall | None:
    if EvidenceType.DECLARATION not in types and not _certificate(documents):
        return Shortfall("No EU declaration is stated.", "the EU declaration of conformity")
    certified = claim.category is not None and (
        claim.category.startswith(("1", "M1"))
        or (claim.electrical and claim.category.startswith(("2", "M2")))
    )
    if certified and not _certificate(documents):
        return Shortfall(
            f"Category {claim.category} needs a certificate of a notified body; none is stated.",
            "an EU-type examination certificate (2014/34/EU 13)",
        )
    if EvidenceType.DECLARATION not in types:
        return Shortfall(
            "The certificate is stated; the maker's EU declaration of conformity is not.",
            "the EU declaration of conformity (2014/34/EU 14)",
        )
    return None


def _certificate(documents: Iterable[Evidence]) -> bool:
    """A certificate that is not plainly of another scheme."""
    return any(
        d.type is EvidenceType.CERTIFICATE and kind_of_certificate(d) != "IECEx certificate"
        for d in documents
    )


def _listed(types: set[EvidenceType]) -> bool:
    return EvidenceType.LISTING in types


def _assessed(types: set[EvidenceType]) -> Shortfall | None:
    serves = {
        EvidenceType.ASSESSMENT,
        EvidenceType.DECLARATION,
        EvidenceType.CERTIFICATE,
        EvidenceType.LISTING,
    }
    if types & serves:
        return None
    return Shortfall(
        "No assessment or declaration is stated for the non-electrical marking.",
        "the ignition hazard assessment or the maker's declaration",
    )
