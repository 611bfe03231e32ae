"""Documents that are taken for a certificate of the equipment and are none."""

import re
from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Field(Term):
    """Where a document shows what it is."""

    NUMBER = "number"
    STANDARD = "standard"


class NoCertificate(Frozen):
    """A word of a number, or a standard, parts of which share its digits.

    `alone`: it says nothing where the number of a certificate, or another standard, stands beside.
    """

    form: str
    field: Field
    alone: bool
    what: str
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def no_certificate(number: str) -> NoCertificate | None:
    """The row whose form stands in a number."""
    found = rows("no_certificates", NoCertificate)
    own = (row for row in found if row.field is Field.NUMBER)
    return next((row for row in own if _word(row.form).search(number)), None)


@cache
def ordinary_standard(standards: str) -> NoCertificate | None:
    """The row of a standard for ordinary locations, if no other one is named."""
    found = rows("no_certificates", NoCertificate)
    own = [row for row in found if row.field is Field.STANDARD]
    named = [text for text in _SEVERAL.split(standards) if any(map(str.isalnum, text))]
    each = [next((row for row in own if _word(row.form).match(text)), None) for text in named]
    return each[0] if each and all(each) else None


_SEVERAL = re.compile(r"\s*(?:[,;/&+]|\band\b)\s*")


@cache
def _word(form: str) -> re.Pattern[str]:
    text = r"[\s-]*".join(map(re.escape, form.split()))
    end = r"(?![^\W_])" if form[-1].isdigit() else r"(?![^\W\d_])"  # digits may follow letters
    return re.compile(rf"(?<![^\W_]){text}{end}", re.IGNORECASE)
