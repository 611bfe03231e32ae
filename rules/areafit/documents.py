"""What a document says of itself, and whether it is one that certifies.

The number of a certificate shows scheme and year: `ABC 21 ATEX 0123 X` (body, two digits of the
year, ATEX, number), the same with `UKEX`, and `IECEx ABC 21.0123X`; all from memory of the schemes'
numbering rules.
"""

import re
from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.marking import Code
from areafit.facts.protection import Law, Suffix
from areafit.pattern import pattern
from areafit.tables.words import (
    NoCertificate,
    denies,
    is_placeholder,
    no_certificate,
    ordinary_standard,
)
from areafit.values import Frozen, Term

_ATEX = pattern(r"(?:(?P<year>\d{2})\s*)?ATEX", re.IGNORECASE)
_UK = pattern(r"(?:(?P<year>\d{2})\s*)?UK(?:EX|CA)", re.IGNORECASE)
_IECEX = pattern(r"IEC\s?Ex\b(?:\s*[A-Z]{2,8}\s*(?P<year>\d{2})\.)?", re.IGNORECASE)
_CENTURY = 90  # certificates of these schemes began in the nineties


MAKERS = frozenset(
    {
        EvidenceType.ASSESSMENT,
        EvidenceType.DECLARATION,
        EvidenceType.CERTIFICATE,
        EvidenceType.LISTING,
    }
)
"""What shows a marking that is not electrical."""


class CertificateScheme(Term):
    """Whose certificate a number is."""

    ATEX = "EU-type certificate"
    IECEX = "IECEx certificate"
    UK = "UK certificate"
    OTHER = ""


_FORMS = (
    (CertificateScheme.ATEX, _ATEX),
    (CertificateScheme.IECEX, _IECEX),
    (CertificateScheme.UK, _UK),
)


class Number(Frozen):
    """A number read: its scheme, and the year of issue where it shows one."""

    scheme: CertificateScheme
    year: int | None = None


def read_number(document: Evidence) -> Number:
    """What the number of a document shows; `OTHER` where it follows no scheme."""
    return _read(document.number or "")


@lru_cache(maxsize=1024)  # several rules ask of one document in turn
def _read(text: str) -> Number:
    for scheme, form in _FORMS:
        found = form.search(text)
        if found is not None:
            digits = found.group("year")
            return Number(scheme, _year(int(digits)) if digits else None)
    return Number(CertificateScheme.OTHER)


@lru_cache(maxsize=1024)  # as above
def identified(document: Evidence) -> bool:
    """Whether the document can be found: it has a number, and not words in the place of one.

    Certificates and listings are numbered: a letter, or words without a digit, name none.
    """
    number = document.number
    if number is None or is_placeholder(number):
        return False
    marks = [mark for mark in number if mark.isalnum()]
    return document.type not in _NUMBERED or (len(marks) > 1 and any(map(str.isdigit, marks)))


_NUMBERED = frozenset({EvidenceType.CERTIFICATE, EvidenceType.LISTING})


def no_proof(document: Evidence) -> NoCertificate | None:
    """What shows that a document is none of the equipment for a hazardous area, if anything."""
    if document.type not in MAKERS:
        return None
    named = no_certificate(document.number or "")
    if named is not None and not (
        named.alone and read_number(document).scheme is not CertificateScheme.OTHER
    ):
        return named
    return ordinary_standard(document.standard or "")


def _year(digits: int) -> int:
    return 1900 + digits if digits >= _CENTURY else 2000 + digits


def kind_of_document(document: Evidence) -> str:
    """The document type, with the scheme that a certificate's number shows."""
    if document.type is EvidenceType.CERTIFICATE:
        return str(read_number(document).scheme.value or document.type.value)
    return str(document.type.value)


def expired(document: Evidence, placed: date | None, as_of: date) -> bool:
    """Whether it had run out when the part came on the market; if that is not stated, by now."""
    until = document.valid_until
    return until is not None and until < as_of and (placed is None or placed > until)


def certifies(document: Evidence, law: Law, code: Code | None, *, electrical: bool) -> bool:
    """Whether a document is of the kind that sets what the equipment is certified for.

    What its maker declares is that for European category 3 and for equipment that is not
    electrical; a test report, a drawing or a certificate of the material never is.
    """
    if not identified(document) or document.elsewhere or no_proof(document) is not None:
        return False
    wired = electrical and not (code is not None and code.non_electrical)
    if not wired and document.type in MAKERS:
        return True
    scheme = read_number(document).scheme
    if law is Law.NEC:
        return document.type is EvidenceType.LISTING and scheme is CertificateScheme.OTHER
    if law is Law.IEC:
        return document.type in {EvidenceType.CERTIFICATE, EvidenceType.LISTING}
    category = code.category if code is not None else None
    declared = document.type is EvidenceType.DECLARATION and bool(
        category and category.startswith("3")
    )
    older = code is not None and code.legacy and scheme is CertificateScheme.OTHER
    examined = document.type is EvidenceType.CERTIFICATE and (
        scheme is CertificateScheme.ATEX or older
    )
    return examined or (declared and scheme not in NOT_EUROPEAN)


def bears(document: Evidence, suffix: Suffix) -> bool:
    """Whether a certificate number ends in the letter, with or without a space before it."""
    number = (document.number or "").rstrip()
    certificate = document.type is EvidenceType.CERTIFICATE
    return certificate and number.endswith(suffix.value) and number[:-1].rstrip()[-1:].isdigit()


NOT_EUROPEAN = frozenset({CertificateScheme.IECEX, CertificateScheme.UK})


def is_shown(condition: Condition) -> bool:
    """Whether a condition says how it is met, and by which document."""
    told = (condition.met_by, condition.document)
    return condition.met is not False and all(text and not is_placeholder(text) for text in told)


def permission(
    documents: Iterable[Evidence], types: frozenset[EvidenceType], words: tuple[str, ...]
) -> Condition | None:
    """The first condition about these words that is met, of documents that name the part.

    None at all where any such condition denies, or seems to: then somebody must read it.
    """
    about = [
        condition
        for document in documents
        if document.type in types and not document.elsewhere and identified(document)
        for condition in document.conditions or ()
        if any(word in condition.text.casefold() for word in words)
    ]
    if any(denies(condition.text) for condition in about):
        return None
    return next(filter(is_shown, about), None)
