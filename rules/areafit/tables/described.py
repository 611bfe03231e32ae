"""What a description says a part is: the head word of its phrases, by a table of usual words."""

import re
from functools import cache, lru_cache

from areafit.frozen import frozen
from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.term import Term
from areafit.verdict import Basis


class Says(Term):
    """What a word says of the part that it names, what matters most first."""

    ELECTRICAL = "electrical"
    MOVING = "moving"
    FIXED = "fixed"
    SEAL = "seal"


@frozen
class DescribedPart:
    """A word or two that name a part or a component of it."""

    word: str
    says: Says
    source_id: str
    locator: str
    basis: Basis
    note: str


_BESIDE = pattern(r"\bwith\b|\bincl(?:uding|usive)?\b\.?")
_PAUSE = pattern(r"[,;:()\[\]/]")
_OTHER = pattern(
    r"\b(?:of|for|on|in|at|to|under|over|above|below|from|by|between|without|no|w/o|beside)\b.*"
)
_AND = pattern(r"\band\b|[&+]")
_ORDER = tuple(Says)


@lru_cache(maxsize=4096)
def described(text: str) -> DescribedPart | None:
    """The word that tells most of what a part is; None where the description has none.

    The last known word of a phrase is its head: a motor bracket is a bracket, and what stands
    behind `for` or `of` is another part. What stands behind `with` belongs to it.
    """
    found = [row for side in _BESIDE.split(text.casefold()) for row in _side(side)]
    return min(found, key=lambda row: _ORDER.index(row.says), default=None)


def is_seal(component: str) -> bool:
    """Whether a component is a seal, which lies between the faces that it seals."""
    row = described(component)
    return row is not None and row.says is Says.SEAL


def _side(text: str) -> list[DescribedPart]:
    """The heads of the first part of an enumeration that holds a known word."""
    for phrase in _PAUSE.split(text):
        names = _AND.split(_OTHER.sub("", phrase))
        heads = [head for name in names if (head := _head(name)) is not None]
        if heads:
            return heads
    return []


def _head(name: str) -> DescribedPart | None:
    """The known word that ends last; of those the longest."""
    found = [(each.end(1), each.group(1)) for each in _known().finditer(name)]
    return _table()[found[-1][1]] if found else None


@cache
def _table() -> dict[str, DescribedPart]:
    return {row.word.casefold(): row for row in rows("described_parts", DescribedPart)}


@cache
def _known() -> re.Pattern[str]:
    """Any known word, the longest first, in the singular or the plural."""
    words = sorted(_table(), key=len, reverse=True)
    return re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, words))})(?:e?s)?(?![\w-])")
