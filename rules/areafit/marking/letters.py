"""The letters of the types of protection: which exist, and compounds such as `de` or `dbebib`."""

from functools import cache, lru_cache

from areafit.tables.load import rows
from areafit.tables.protection_types import ProtectionType, TypeFamily

# Left out of compounds: alone they are types, but as a second letter they would be ambiguous
# (`dc` is one type, not d and c; `op` is not o and p).
_NEVER_JOINED = frozenset({"s", "h", "v", "t", "n", "i"})
_LONGEST = 12  # letters of a compound; longer words are no compounds


@cache
def known_types(family: TypeFamily) -> dict[str, ProtectionType]:
    """The types of one family by their letters."""
    table = rows("protection_types", ProtectionType)
    return {row.letter: row for row in table if row.family is family}


def find_type(letter: str, *, non_electrical: bool = False) -> ProtectionType | None:
    """The row of a type, None for letters that are none."""
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    return known_types(family).get(letter)


@lru_cache(maxsize=1024)
def split_types(word: str, *, non_electrical: bool = False) -> tuple[str, ...] | None:
    """The types that a word stands for, `de` for d and e; None unless there is exactly one way."""
    if find_type(word, non_electrical=non_electrical):
        return (word,)
    if len(word) > _LONGEST:
        return None
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    parts = frozenset(known_types(family)) - _NEVER_JOINED
    ways: list[list[tuple[str, ...]]] = [[()]]
    for stop in range(1, len(word) + 1):
        ends = [word[start:stop] for start in range(max(0, stop - 3), stop)]
        ways.append([(*w, e) for e in ends if e in parts for w in ways[stop - len(e)]])
    return ways[-1][0] if len(ways[-1]) == 1 else None
