"""What the number of a certificate or listing says of itself: the scheme, the year, the suffix.

Forms: `ABC 21 ATEX 0123 X` (body, two digits of the year, ATEX, number), the same with `UKEX`, and
`IECEx ABC 21.0123X`; all from memory of the schemes' numbering rules.
"""

import re
from functools import lru_cache

from areafit.facts.evidence import Evidence, EvidenceType
from areafit.frozen import frozen
from areafit.pattern import pattern
from areafit.tables.placeholders import is_placeholder
from areafit.term import Term

_ATEX = pattern(r"(?:(?P<year>\d{2})\s*)?ATEX", re.IGNORECASE)
_UK = pattern(r"(?:(?P<year>\d{2})\s*)?UK(?:EX|CA)", re.IGNORECASE)
_IECEX = pattern(r"IEC\s?Ex\b(?:\s*[A-Z]{2,8}\s*(?P<year>\d{2})\.)?", re.IGNORECASE)
_CENTURY = 90  # certificates of these schemes began in the nineties


class Scheme(Term):
    """Whose certificate a number is."""

    ATEX = "EU-type certificate"
    IECEX = "IECEx certificate"
    UK = "UK certificate"
    OTHER = ""


_FORMS = ((Scheme.ATEX, _ATEX), (Scheme.IECEX, _IECEX), (Scheme.UK, _UK))


@frozen
class Number:
    """A number read: its scheme, and the year of issue where it shows one."""

    scheme: Scheme
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
    return Number(Scheme.OTHER)


def identified(document: Evidence) -> bool:
    """Whether the document can be found: it has a number, and not words in the place of one."""
    return document.number is not None and not is_placeholder(document.number)


def _year(digits: int) -> int:
    return 1900 + digits if digits >= _CENTURY else 2000 + digits


def kind_of_document(document: Evidence) -> str:
    """The document type, with the scheme that a certificate's number shows."""
    if document.type is EvidenceType.CERTIFICATE:
        return str(read_number(document).scheme.value or document.type.value)
    return str(document.type.value)
