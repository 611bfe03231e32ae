"""The words of a plate: what each says, the pass that finds them, and those of no system.

What belongs to no system are the enclosure, X and U.
"""

import re
from collections.abc import Callable, Sequence
from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import Output, PartSide, TemperatureMark
from areafit.facts.protection import Hazard, Level, Purge, Suffix
from areafit.marking import clauses
from areafit.marking.tokens import Tokens
from areafit.pattern import pattern
from areafit.values import Frozen


class Word(Frozen):
    """What one reader finds: a small value for each phrase, in the order of the text."""


class ClassWord(Word):
    """`Class I, II`: the North American classes named together."""

    classes: tuple[str, ...]


class DivisionWord(Word):
    """`Division 1`, `Divisions 1 and 2`; empty where the number does not exist."""

    divisions: tuple[int, ...]


class ZoneWord(Word):
    """`Zone 1`; None where the number does not exist. `inner` is the first of `Zone 0/1`."""

    zone: int | None
    inner: int | None = None


class GroupLetters(Word):
    """`Groups A-D`: Division letters."""

    groups: frozenset[Group]


class ZoneGroup(Word):
    """`IIB`, `IIB+H2`; `extra` names gases served in addition that are no group of their own."""

    group: Group
    extra: tuple[str, ...] = ()


class Gas(Word):
    """The only gas that the equipment serves."""

    name: str


class Types(Word):
    """`Ex db eb`: the mark and the types outside brackets; `mark` is empty for EN 13463."""

    mark: str
    types: tuple[str, ...]
    joined: bool = False
    practice: str | None = None


class Bracket(Word):
    """A square bracket; `mark` is the `Ex` that stands inside it, empty where none does."""

    output: Output
    mark: str = ""


class Temperature(Word):
    """A class or a figure; `plain` is the text of a figure without a T in front."""

    mark: TemperatureMark
    plain: str = ""


class Ambient(Word):
    """`Ta` in °C; an end that is not printed is None.

    `unsure` beside a word that nobody read: `not 60 °C ambient` may narrow and never widens.
    """

    low: Decimal | None
    high: Decimal | None
    unsure: bool = False


class BareSpan(Word):
    """A range, or behind `at` or `@` a figure; nothing says that it is the air's."""

    text: str
    span: Ambient
    at: bool = False


class Levels(Word):
    """A printed EPL, or a pair with that of the process first; `bare` is the side with a dash."""

    levels: tuple[Level, ...]
    bare: PartSide | None = None


class CategoryItem(Word):
    """One hazard letter of an ATEX category: `number` of the housing, `inner`, `output`.

    `bare` is the side of a pair for which a dash stands.
    """

    hazard: Hazard
    number: int | None = None
    inner: int | None = None
    output: int | None = None
    bare: PartSide | None = None


class CategoryMark(Word):
    """`II 2 (1) GD`: equipment group and categories."""

    group: str
    items: tuple[CategoryItem, ...]


class Ingress(Word):
    """`IP66`, `Type 4X`, and with the groups of its listing `7BCD`."""

    text: str
    groups: frozenset[Group] = frozenset()


class SuffixMark(Word):
    """`X` or `U`."""

    suffix: Suffix


class PurgeMark(Word):
    """`Type Z pressurization`."""

    purge: Purge


class PurgeDetail(Word):
    """What is inside a purged enclosure, or what happens when the purge is lost."""

    contents: str | None = None
    action: str | None = None


class TradeWord(Word):
    """A word that says a type of protection without a letter."""

    word: str


class Associated(Word):
    """`Associated apparatus`."""


class ProvidesCircuits(Word):
    """`provides intrinsically safe circuits to`: what follows describes the circuits."""


class SafePlace(Word):
    """`non-hazardous`: a place, named as the housing's own."""


class Separator(Word):
    """A sign between codes: `strong` for a semicolon or a new line."""

    strong: bool


class Filler(Word):
    """Words that say nothing about the protection (CE mark, drawing number, `suitable for`)."""


class Fault(Word):
    """Words that were read and cannot be right."""

    message: str
    clause: str


class Unread(Word):
    """Words that no reader knows, or whose place nobody can tell; `why` says so."""

    text: str
    why: str = ""


# The words that start at a token, and the index of the token behind them.
Found = tuple[tuple[Word, ...], int]
Reader = Callable[[Tokens, int], Found | None]


def read_words(tokens: Tokens, readers: Sequence[Reader]) -> tuple[Word, ...]:
    """Everything on the plate: the first reader that understands the tokens at hand takes them.

    Tokens next to each other that nobody reads are one unread word.
    """
    found: list[Word] = []
    index, unread = 0, None
    while index < len(tokens):
        taken = next((got for reader in readers if (got := reader(tokens, index))), None)
        if taken is None:
            unread = index if unread is None else unread
            index += 1
            continue
        if unread is not None:
            found.append(Unread(tokens.between(unread, index)))
            unread = None
        if tokens.at(index).line:
            found.append(Separator(strong=True))
        found.extend(taken[0])
        index = taken[1]
    if unread is not None:
        found.append(Unread(tokens.between(unread, len(tokens))))
    return tuple(found)


_IP_WORD = pattern(r"(?:IP|Ip|ip)([0-9X][0-9X][A-DKMSWH]?)")
_IP_TAIL = pattern(r"[0-9]{2}")


def read_ingress(tokens: Tokens, index: int) -> Found | None:
    """`IP66`, `IP 66/67`, `IP6X`, `IP69K`."""
    first = tokens.at(index).text
    if first in {"IP", "Ip", "ip"}:
        at = index + 1 + glued_dash(tokens, index + 1)
        run = tokens.at(at).text + tokens.at(at + 1).text
        one = _IP_WORD.fullmatch("IP" + tokens.at(at).text)
        two = None if one else _IP_WORD.fullmatch("IP" + run)
        found, at = (one, at + 1) if one else (two, at + 2)
    else:
        found, at = _IP_WORD.fullmatch(first), index + 1
    if found is None:
        return None
    codes = [found.group(1)]
    while tokens.at(at).text == "/" and _IP_TAIL.fullmatch(tokens.at(at + 1).text):
        codes.append(tokens.at(at + 1).text)
        at += 2
    wrong = [code for code in codes if code[0] in "789"]
    faults = [Fault(f"There is no degree IP{code}.", clauses.DEGREES) for code in wrong]
    return (*(Ingress(f"IP{code}") for code in codes), *faults), at


_ENCLOSURE_TYPES = frozenset(
    "1 2 3 3R 3S 3X 3RX 3SX 4 4X 5 6 6P 7 8 9 10 12 12K 13".split()  # noqa: SIM905 - a list to read
)


_ENCLOSURE = pattern(r"encl(?:osure)?\b\.?(?= ?(?:nema|type))", re.IGNORECASE)


def read_enclosure(tokens: Tokens, index: int) -> Found | None:
    """`Type 4X`, `NEMA 4`, `NEMA Type 4, 4X`, `Enclosure Type 4X`, `NEMA 4X, 7BCD, 9EFG`."""
    at = index = tokens.phrase(index, _ENCLOSURE) or index
    if tokens.at(at).low == "nema":
        at += 1
    if tokens.at(at).low in {"type", "types"}:
        at += 1
    if at == index:
        return None
    found: list[Word] = []
    while (one := _enclosure_type(tokens, at)) is not None:
        number = one[0].rstrip("ABCDEFG")
        letters = frozenset(Group(letter) for letter in one[0][len(number) :])
        found.append(Ingress(f"Type {number}", letters))
        at = one[1]
        joined = tokens.at(at).low in {",", "/", "&", "and"}
        more = joined and _enclosure_type(tokens, at + 1) is not None
        at += more
    return (tuple(found), at) if found else None


# Types 7 and 9 of NEMA 250 with the groups that the enclosure is listed for, gas and dust.
_EXPLOSION_TYPE = pattern(r"7[A-D]+|9[EFG]+")


def _enclosure_type(tokens: Tokens, index: int) -> tuple[str, int] | None:
    number, tail = tokens.at(index), tokens.at(index + 1)
    if not number.is_number:
        return None
    both = number.text + tail.text
    if (
        tail.text
        and not tail.spaced
        and (both in _ENCLOSURE_TYPES or _EXPLOSION_TYPE.fullmatch(both))
    ):
        return both, index + 2
    stands_alone = tail.spaced or tail.text in {"", ",", "/", ";", ")", "."}
    return (number.text, index + 1) if number.text in _ENCLOSURE_TYPES and stands_alone else None


def read_suffix(tokens: Tokens, index: int) -> Found | None:
    """A lone `X` (special conditions) or `U` (component)."""
    text = tokens.at(index).text
    return ((SuffixMark(Suffix(text)),), index + 1) if text in {"X", "U"} else None


def glued_dash(tokens: Tokens, index: int) -> bool:
    """Whether a dash ties two words together: `Ex-ia`, `Div-1`; behind a blank it is a minus."""
    dash = tokens.at(index)
    return dash.text == "-" and not (dash.spaced or tokens.at(index + 1).spaced)


_JOINING = frozenset({"and", "or", "und", "oder", "bzw", "resp", "et", "ou"})


def read_separator(tokens: Tokens, index: int) -> Found | None:
    """`;` ends a code; a slash, comma, full stop, `and` or round bracket may stand anywhere.

    So may a dash, but not in front of a number, where it may be a minus, nor of a group letter.
    """
    text = tokens.at(index).low
    if text == ";":
        return (Separator(strong=True),), index + 1
    if text in {"/", ",", ".", ":", "(", ")", "&", *_JOINING}:
        return (Separator(strong=False),), index + 1
    after = tokens.at(index + 1)
    word = after.text[:1].isalpha() and not (len(after.text) == 1 and "A" <= after.text <= "G")
    if text == "-" and word and after.spaced == tokens.at(index).spaced:
        return (Separator(strong=False),), index + 1
    return None
