"""Editions of the installation rules: which one the rules here follow, and which are known."""

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Standing(Term):
    """How an edition stands to what is applied here."""

    APPLIED = "applied"  # its text is what the rules follow
    ALIKE = "alike"  # another text that asks the same where the rules here judge
    OTHER = "other"  # known to differ, or not worked through


class Edition(Frozen):
    """One edition by the year that a list states; `law` is the word of `code`."""

    law: str
    year: str
    standing: Standing
    text: str
    source_id: str
    locator: str
    basis: Basis
    note: str


def editions(law: str) -> tuple[Edition, ...]:
    """The editions of one installation rule that the table knows, oldest first."""
    return tuple(row for row in rows("editions", Edition) if row.law == law)
