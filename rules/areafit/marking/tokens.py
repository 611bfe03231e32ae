"""Plate text to tokens: one spelling for every sign, run-together words taken apart."""

import re
import unicodedata
from bisect import bisect_left
from functools import lru_cache

from areafit.marking.level import split_types
from areafit.pattern import pattern
from areafit.values import Frozen

LONGEST = 2000  # characters; no plate holds more, and a longer text is refused unread

# Cyrillic and Greek letters that cannot be told in print from the Latin ones below them.
_FOREIGN = "АВСЕНІКМОРТХЅасеіорхуѕΑΒΕΖΗΙΚΜΝΟΡΤΧχ"
_LATIN = "ABCEHIKMOPTXSaceiopxysABEZHIKMNOPTXx"
# Before NFKC, which would turn the ordinal and the ring into letters and blanks, a footnote into a
# digit of the number before it.
_BEFORE = str.maketrans(
    {
        **dict(zip(_FOREIGN, _LATIN, strict=True)),
        **dict.fromkeys("º˚⁰ᵒ∘◦", "°"),
        **dict.fromkeys("¹²³⁴⁵⁶⁷⁸⁹", "^"),
        **dict.fromkeys("⟨⟩〈〉〈〉‹›\"“”„‟«»'‘’‚`´_", " "),
        **dict.fromkeys("\u00ad\u200b\u200c\u200d\u2060\ufeff"),
    }
)
_AFTER = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2010\u2013\u2014", "-"),
        **dict.fromkeys("≤≦⩽", "<="),
        **dict.fromkeys("≥≧⩾", ">="),
        **dict.fromkeys("÷~∼〜→", ".."),
        **dict.fromkeys("⁄\\", "/"),
        **dict.fromkeys("•·|¦", ";"),
        "{": "(",
        "}": ")",
    }
)
_EPSILON = pattern(r"[εɛƐϵєЄξ](?=[xX])")  # the hexagon of the Community mark, as typists have it
_TOKEN = pattern(
    r"T[0-9]+(?:\.[0-9]+)?[^\W\d_]*"
    r"|[0-9]+(?:\.[0-9]+)?"
    r"|[^\W\d_][^\W_]*"
    r"|<=|>=|=<|=>|\.\.+|\S"
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
    letters = _EPSILON.sub("E", text.translate(_BEFORE))
    return unicodedata.normalize("NFKC", letters).translate(_AFTER)


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
_GROUP_WORD = r"(?:GROUPS?|Groups?|GRP?S?|GPS?|Grp?s?|Gps?)"
_LETTERS = rf"(?:({_GROUP_WORD})([A-G]+)|([A-G]{{2,}}))?"
_CLOSING = r"(T[1-6][A-D]?)?"
_RUN_TOGETHER = (
    pattern(rf"((?i:CLASS|CL))(I{{1,3}}|[123])(?:((?i:DIVISION|DIV))([12]))?{_LETTERS}{_CLOSING}"),
    pattern(rf"((?i:DIVISION|DIV|ZONE|ZN))([0-9]+){_LETTERS}{_CLOSING}"),
    # The trade's short form `C1D2` keeps its letters for the reader of classes.
    pattern(r"(C)(I{1,3}|[123])([DZ])([0-9])"),
    pattern(rf"({_GROUP_WORD})([A-G]+|I{{1,3}}[ABC])"),
    pattern(r"(T[AB])([0-9]{2,3})"),
    pattern(r"(H2)(T[1-6])([GDM][abc])?"),
    pattern(r"([CF])([GDM][abc])([XU])?"),
    pattern(r"(NEMA|TYPE|Type)([0-9]{1,2})([A-Z]{1,2})?"),
    pattern(r"([A-Z0-9]*(?:ATEX|UKEX)[0-9A-Z]*[0-9]|FM[0-9]{2}(?:US|CA)[0-9]{4})([XU])"),
)
# `CE0158ExII2GExdbIICT6GbX`, or as much of it as stands there.
_EX_RUN = pattern(
    r"(?:(CE|UKCA)([0-9]{4})?)?(Ex(?=II[123]|IM[12]))?(?:(II)([123])(GD|G|D)?|(I)(M[12])"
    r"|(GD|G|D)(?=[AE]?Ex))?(?:([AE]?Ex)([a-z][a-zA-Z]*?)?|([a-z][a-zA-Z]*?)(?=I{1,3}))?"
    r"(I{1,3}[ABC]?)?(T[1-6]|T[0-9]{2,3}(?:\.[0-9])?[CF]?)?(?:([GDM][abc])([XU])?)?(IP[0-9X]{2})?"
)
_TYPES_AT = (11, 12)  # the groups of `_EX_RUN` that hold types of protection


@lru_cache(maxsize=4096)
def _split(word: str) -> tuple[str, ...]:
    """The parts of a run-together word (`ExdIIBT4`, `II2G`, `DIV2`); the word itself if none."""
    for parts in _RUN_TOGETHER:
        found = parts.fullmatch(word)
        if found is not None:
            return tuple(filter(None, found.groups()))
    found = _EX_RUN.fullmatch(word)
    if found is None:
        return (word,)
    pieces = [piece for piece in found.groups() if piece]
    types = next(filter(None, found.group(*_TYPES_AT)), None)
    if types is None:
        return tuple(pieces)
    letters = split_types(types)
    if letters is None or len(pieces) == 1:
        return (word,)
    at = pieces.index(types)
    return (*pieces[:at], *letters, *pieces[at + 1 :])
