"""Words that plates print without blanks, taken apart where only one reading is possible."""

import re
from functools import lru_cache

from areafit.marking.letters import split_types
from areafit.pattern import pattern

_EX = pattern(r"([AE]?Ex)([a-zA-Z]*?)(I{1,3}[ABC]?)?(T[1-6])?")
_TYPES_GROUP = pattern(r"([a-z][a-zA-Z]*?)(I{1,3}[ABC]?)(T[1-6])?")
_PARTS = (
    pattern(r"(II)([123])(GD|G|D)"),
    pattern(r"(I{1,3}[ABC]?)(T[1-6])"),
    pattern(r"(CL|CLASS)(I{1,3}|[123])", re.IGNORECASE),
    pattern(r"(DIV|DIVISION|ZONE)([0-9]+)", re.IGNORECASE),
    pattern(r"(GP|GRP|GR)([A-G]+)"),
    # The trade's short form `C1D2` keeps its letters for the reader of classes.
    pattern(r"(C)(I{1,3}|[123])(D)([0-9])"),
)


@lru_cache(maxsize=4096)
def pieces(word: str) -> tuple[str, ...]:
    """The parts of a run-together word (`ExdIIBT4`, `II2G`, `DIV2`); the word itself if none."""
    for part in _PARTS:
        found = part.fullmatch(word)
        if found is not None:
            return found.groups()
    found = _TYPES_GROUP.fullmatch(word) or _EX.fullmatch(word)
    if found is None:
        return (word,)
    mark, types, group, temperature = (None, *found.groups())[-4:]
    letters = split_types(types) if types else ()
    if letters is None:
        return (word,)
    return tuple(filter(None, [mark, *letters, group, temperature]))
