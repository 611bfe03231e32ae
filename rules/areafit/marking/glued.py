"""Words that plates print without blanks, taken apart where only one reading is possible."""

import re
from functools import lru_cache

from areafit.marking.letters import split_types

_EX = re.compile(r"([AE]?Ex)([a-zA-Z]*?)(I{1,3}[ABC]?)?(T[1-6])?", re.ASCII)
_CATEGORY = re.compile(r"(II)([123])(GD|G|D)")
_GROUP_CLASS = re.compile(r"(I{1,3}[ABC]?)(T[1-6])")
_CLASS = re.compile(r"(CL|CLASS)(I{1,3}|[123])", re.IGNORECASE)
_DIVISION = re.compile(r"(DIV|DIVISION|ZONE)([0-9]+)", re.IGNORECASE)
_LETTERS = re.compile(r"(GP|GRP|GR)([A-G]+)")
_SHORT = re.compile(r"(C)(I{1,3}|[123])(D)([0-9])")
_SHORT_WORDS = ("Class", "Division")


@lru_cache(maxsize=4096)
def pieces(word: str) -> tuple[str, ...]:
    """The parts of a run-together word; the word itself where it is none.

    `C1D2`, the trade's short form of a class and division, keeps its letters: `C 1 D 2` is read
    as such by the reader of classes.
    """
    for pattern in (_CATEGORY, _GROUP_CLASS, _CLASS, _DIVISION, _LETTERS, _SHORT):
        found = pattern.fullmatch(word)
        if found is not None:
            return found.groups()
    found = _EX.fullmatch(word)
    if found is not None and any(found.groups()[1:]):
        mark, types, *rest = found.groups()
        letters = split_types(types) if types else ()
        if letters is not None:
            return (mark, *letters, *filter(None, rest))
    return (word,)
