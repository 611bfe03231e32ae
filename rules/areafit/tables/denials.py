"""Words by which a condition of use denies what it speaks of."""

import re
from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Meaning(Term):
    """What a word does to a condition that holds it."""

    DENIES = "denies"
    PERMITS = "permits"


class Denial(Frozen):
    """One word or phrase; what permits is looked for first, since it may hold what denies."""

    word: str
    meaning: Meaning
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def denies(text: str) -> bool:
    """Whether a condition denies, or may: words alone never say what a denial is about."""
    words = " ".join(text.replace("n't", " not").split())
    return _words(Meaning.DENIES).search(_words(Meaning.PERMITS).sub(" ", words)) is not None


@cache
def _words(meaning: Meaning) -> re.Pattern[str]:
    words = (re.escape(row.word) for row in rows("denials", Denial) if row.meaning is meaning)
    longest = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)(?:{'|'.join(longest)})(?!\w)", re.IGNORECASE)
