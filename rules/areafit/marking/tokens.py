"""Plate text to tokens: one spelling for every sign, run-together words taken apart."""

import re
import unicodedata
from bisect import bisect_left
from functools import lru_cache

from areafit.marking.level import split_types
from areafit.pattern import pattern
from areafit.values import Frozen

LONGEST = 2000  # characters; no plate holds more, and a longer text is refused unread

# Before NFKC, which would turn the ordinal and the ring into letters and blanks.
# The hexagon of the Community mark is written as angle brackets around Ex.
_BEFORE = str.maketrans({"º": "°", "˚": "°", **dict.fromkeys("⟨⟩〈〉〈〉‹›", " ")})
_AFTER = str.maketrans(
    {
        "\u2212": "-",
        "\u2010": "-",
        "\u2013": "-",
        "\u2014": "-",
        "≤": "<=",
        "≦": "<=",
        "⩽": "<=",
        "≥": ">=",
        "≧": ">=",
        "⩾": ">=",
        "÷": "..",
        "~": "..",
        "⁄": "/",
        "•": ";",
        "|": ";",
    }
)
_TOKEN = pattern(
    r"T[0-9]+(?:\.[0-9]+)?[A-Za-z]*"
    r"|[0-9]+(?:\.[0-9]+)?"
    r"|[A-Za-z][A-Za-z0-9]*"
    r"|<=|>=|\.\.+|\S"
)


class Token(Frozen):
    """A word, number or sign; `low` in lower case, `spaced` and `line` what stood before it."""

    text: str
    low: str = ""
    start: int = 0
    end: int = 0
    spaced: bool = False
    line: bool = False

    @property
    def is_number(self) -> bool:
        """Whether the token is an unsigned number."""
        return "0" <= self.text[:1] <= "9"


_END = Token("")
_AHEAD = 64  # more than any reader looks beyond the token that it stands at


class Tokens(Frozen):
    """The tokens of one text; `padded` ends with empty ones, so that readers may look ahead."""

    text: str
    padded: tuple[Token, ...]

    def __len__(self) -> int:
        return len(self.padded) - _AHEAD

    def at(self, index: int) -> Token:
        """The token at `index`, or an empty one just outside the text (-1 included)."""
        return self.padded[index]

    def between(self, start: int, stop: int) -> str:
        """The text that the tokens from `start` to before `stop` were read from."""
        return self.text[self.padded[start].start : self.padded[stop - 1].end]

    def phrase(self, index: int, pattern: re.Pattern[str]) -> int | None:
        """The index behind a phrase that starts at `index` and ends at the end of a token."""
        found = pattern.match(self.text, self.at(index).start)
        size = len(self)
        if found is None or index >= size:
            return None
        last = bisect_left(self.padded, found.end(), index, size, key=lambda token: token.end)
        return last + 1 if self.at(last).end == found.end() else None


def plain(text: str) -> str:
    """The text with one spelling for minus, degree, blank and comparison signs."""
    return unicodedata.normalize("NFKC", text.translate(_BEFORE)).translate(_AFTER)


def too_long(text: str) -> bool:
    """Whether a text is refused unread, so that reading ends in time whatever is handed in."""
    return len(text) > LONGEST or len(plain(text)) > LONGEST


def tokenise(text: str) -> Tokens:
    """The tokens of a text; run-together words (`ExdIIBT4`, `II2G`, `DIV2`) are taken apart."""
    whole = plain(text)
    items: list[Token] = []
    behind = 0
    for found in _TOKEN.finditer(whole):
        gap = whole[behind : found.start()]
        start = found.start()
        for number, piece in enumerate(_split(found.group())):
            first = number == 0
            line = first and ("\n" in gap or "\r" in gap)
            items.append(
                Token(piece, piece.lower(), start, start + len(piece), first and bool(gap), line)
            )
            start += len(piece)
        behind = found.end()
    return Tokens(whole, (*items, *(_END,) * _AHEAD))


# Taken apart only where one reading is possible: types must be such as the table has.
_EX_RUN = pattern(r"([AE]?Ex)([a-zA-Z]*?)(I{1,3}[ABC]?)?(T[1-6])?")
_TYPES_GROUP = pattern(r"([a-z][a-zA-Z]*?)(I{1,3}[ABC]?)(T[1-6])?")
_RUN_TOGETHER = (
    pattern(r"(II)([123])(GD|G|D)"),
    pattern(r"(I{1,3}[ABC]?)(T[1-6])"),
    pattern(r"(CL|CLASS)(I{1,3}|[123])", re.IGNORECASE),
    pattern(r"(DIV|DIVISION|ZONE)([0-9]+)", re.IGNORECASE),
    pattern(r"(GP|GRP|GR)([A-G]+)"),
    # The trade's short form `C1D2` keeps its letters for the reader of classes.
    pattern(r"(C)(I{1,3}|[123])(D)([0-9])"),
)


@lru_cache(maxsize=4096)
def _split(word: str) -> tuple[str, ...]:
    """The parts of a run-together word (`ExdIIBT4`, `II2G`, `DIV2`); the word itself if none."""
    for parts in _RUN_TOGETHER:
        found = parts.fullmatch(word)
        if found is not None:
            return found.groups()
    found = _TYPES_GROUP.fullmatch(word) or _EX_RUN.fullmatch(word)
    if found is None:
        return (word,)
    mark, types, group, temperature = (None, *found.groups())[-4:]
    letters = split_types(types) if types else ()
    if letters is None:
        return (word,)
    return tuple(filter(None, [mark, *letters, group, temperature]))
