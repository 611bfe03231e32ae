"""Which documents serve for which claim, by the installation rules that govern."""

from collections.abc import Callable

from areafit.documents import (
    MAKERS,
    NOT_EUROPEAN,
    CertificateScheme,
    identified,
    no_proof,
    read_number,
)
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.marking import Code
from areafit.facts.protection import Law, MarkingSystem
from areafit.tables.words import DocumentField
from areafit.values import Frozen, replace

_SAFE = frozenset({"ia", "ib", "ic", "i", "iaD", "ibD"})


class Claim(Frozen):
    """What a code claims, as far as documents are concerned.

    `certified` says that a category or level is claimed for which European law asks a notified
    body; `pre_atex` that the form is older than the categories and bears none; `by_drawing` that
    the plate holds for what is installed by a drawing.
    """

    system: MarkingSystem
    category: str | None
    electrical: bool
    intrinsically_safe: bool
    certified: bool
    pre_atex: bool
    by_drawing: bool = False


class Shortfall(Frozen):
    """What is missing; `contradicts` where what is stated shows the wrong thing.

    `document` is the sort of document that would serve, None where the nameplate is at fault.
    """

    message: str
    required: str
    contradicts: bool = False
    document: EvidenceType | None = None

    @property
    def remedy(self) -> str:
        """What to obtain, and how the list then states it."""
        if self.document is None:
            return "Compare `marking` and `evidence` with nameplate and document, and correct them."
        return (
            f"Obtain {self.required} and state it: "
            f"`evidence: [{{type: {self.document.value}, number: …}}]`."
        )


def claim_of(code: Code, *, electrical: bool, own_cell: bool = False) -> Claim:
    """The claim that a code makes; outputs count, since their circuits need the drawing.

    What is fed by its own cell is connected to nothing, so that no drawing installs it.
    """
    wired = electrical and not code.non_electrical
    outgoing = {letter for output in code.outputs for letter in output.protection}
    safe = bool(_SAFE & {*code.protection, *outgoing}) or "intrinsically safe" in code.words
    safe = safe and (bool(code.outputs) or not own_cell)
    return Claim(
        code.system,
        code.category,
        wired,
        safe,
        _needs_notified_body(code, wired=wired),
        pre_atex=code.legacy and code.category is None and not code.non_electrical,
        by_drawing="installed by its drawing" in code.words,
    )


def _needs_notified_body(code: Code, *, wired: bool) -> bool:
    """Category 1 and M1, electrical 2 and M2 (2014/34/EU Art. 13), outgoing circuits too."""
    if code.category is None:
        outputs = [output.level for output in code.outputs]
        return wired and not (code.associated and all(o and o.rank == 2 for o in outputs))
    return code.category.startswith(("1", "M1")) or (
        wired and code.category.startswith(("2", "M2"))
    )


def insufficient(law: Law, claim: Claim, documents: tuple[Evidence, ...]) -> Shortfall | None:
    """What the documents lack for the claim; None where they serve."""
    named = tuple(document for document in documents if identified(document))
    serving = tuple(document for document in named if no_proof(document) is None)
    found = _OF_LAW[law](claim, serving)
    if found is None:
        return None
    if len(serving) < len(named):
        return _taken_for(named, found)
    if len(named) < len(documents) and not found.contradicts:
        message = f"{found.message} A document without a number shows nothing."
        return replace(found, message=message)
    return found


def _taken_for(named: tuple[Evidence, ...], found: Shortfall) -> Shortfall:
    """That a document stated is of another sort than it is taken for."""
    document, row = next((each, row) for each in named if (row := no_proof(each)) is not None)
    what = row.what if row.field is DocumentField.NUMBER else f"by {document.standard}, {row.what}"
    return Shortfall(
        f"The {document.type.value} {document.number} is {what}: it does not certify the equipment "
        "for a hazardous area.",
        found.required,
        contradicts=True,
        document=found.document,
    )


def _nec(claim: Claim, documents: tuple[Evidence, ...]) -> Shortfall | None:
    if not claim.electrical:
        return _assessed(documents)
    types = {document.type for document in documents}
    listings = [d for d in documents if d.type is EvidenceType.LISTING]
    if not any(read_number(d).scheme is CertificateScheme.OTHER for d in listings):
        foreign = bool(types & {*_FOREIGN, EvidenceType.LISTING})
        return Shortfall(
            "A certificate or declaration of another system is no listing."
            if foreign
            else "No listing is stated.",
            "a listing by a recognised laboratory for the marking",
            contradicts=foreign,
            document=EvidenceType.LISTING,
        )
    by_drawing = claim.intrinsically_safe or claim.by_drawing
    if by_drawing and EvidenceType.CONTROL_DRAWING not in types:
        what = "Intrinsically safe equipment" if claim.intrinsically_safe else "It, says its plate,"
        return Shortfall(
            f"{what} is installed by its control drawing; none is stated.",
            "the control drawing (NFPA 70-2023 504.10)",
            document=EvidenceType.CONTROL_DRAWING,
        )
    return None


_FOREIGN = (EvidenceType.CERTIFICATE, EvidenceType.DECLARATION)
_WITH_CATEGORY = frozenset({CertificateScheme.ATEX, CertificateScheme.UK})


def _iec(claim: Claim, documents: tuple[Evidence, ...]) -> Shortfall | None:
    if not claim.electrical:
        return _assessed(documents)
    types = {document.type for document in documents}
    certificates = [d for d in documents if d.type is EvidenceType.CERTIFICATE]
    european = [d for d in certificates if read_number(d).scheme in _WITH_CATEGORY]
    if EvidenceType.LISTING in types or len(european) < len(certificates):
        return None
    if european and claim.category is None:
        whose = read_number(european[0]).scheme
        sort = "UK" if whose is CertificateScheme.UK else "European"
        return Shortfall(
            f"The certificate is a {sort} one, whose marking has a category; the nameplate "
            "gives none, so it is not the part that was certified, or was copied incompletely.",
            "a certificate that agrees with the marking",
            contradicts=True,
        )
    if european:
        return None
    return Shortfall(
        "No certificate is stated.",
        "an IECEx or national certificate",
        document=EvidenceType.CERTIFICATE,
    )


def _atex(claim: Claim, documents: tuple[Evidence, ...]) -> Shortfall | None:
    types = {document.type for document in documents}
    european = {d.type for d in documents if read_number(d).scheme not in NOT_EUROPEAN}
    all_schemes = {read_number(d).scheme for d in documents if d.type in _FOREIGN}
    schemes = {read_number(d).scheme for d in documents if d.type is EvidenceType.CERTIFICATE}
    certified = CertificateScheme.ATEX in schemes or (
        claim.pre_atex and CertificateScheme.OTHER in schemes
    )
    declared = EvidenceType.DECLARATION in european
    if not declared and not certified:
        foreign = EvidenceType.LISTING in types or bool(NOT_EUROPEAN & all_schemes)
        return Shortfall(
            "A listing, an IECEx certificate or a UK document alone does not satisfy European law."
            if foreign
            else "No EU declaration is stated.",
            "the EU declaration of conformity",
            contradicts=foreign,
            document=EvidenceType.DECLARATION,
        )
    if claim.certified and not certified:
        what = f"Category {claim.category}" if claim.category else "This marking"
        other = EvidenceType.CERTIFICATE in types
        alien = "is of another system" if NOT_EUROPEAN & schemes else "has no number of that form"
        stated = f"the one stated {alien}" if other else "none is stated"
        return Shortfall(
            f"{what} needs a certificate of a notified body; {stated}.",
            "an EU-type examination certificate (2014/34/EU Art. 13, 17)",
            document=EvidenceType.CERTIFICATE,
        )
    if not declared:
        return Shortfall(
            "The certificate is stated; the maker's EU declaration of conformity is not.",
            "the EU declaration of conformity (2014/34/EU Art. 14)",
            document=EvidenceType.DECLARATION,
        )
    return None


def _assessed(documents: tuple[Evidence, ...]) -> Shortfall | None:
    if any(document.type in MAKERS for document in documents):
        return None
    return Shortfall(
        "No assessment or declaration is stated for the non-electrical marking.",
        "the ignition hazard assessment or the maker's declaration",
        document=EvidenceType.ASSESSMENT,
    )


_OF_LAW: dict[Law, Callable[[Claim, tuple[Evidence, ...]], Shortfall | None]] = {
    Law.NEC: _nec,
    Law.IEC: _iec,
    Law.ATEX: _atex,
}
