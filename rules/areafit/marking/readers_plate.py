"""Readers of what a plate shows beside its codes: enclosure, suffix, CE mark, certificate."""

import re

from areafit.facts.protection import Suffix
from areafit.marking import clauses
from areafit.marking.elements import Element, Fault, Filler, Found, Ingress, Separator, SuffixMark
from areafit.marking.text import Tokens
from areafit.pattern import pattern

_IP_WORD = pattern(r"IP([0-9X][0-9X][A-DKMSWH]?)")
_IP_TAIL = pattern(r"[0-9]{2}")
_TYPES = frozenset(
    "1 2 3 3R 3S 3X 3RX 3SX 4 4X 5 6 6P 7 8 9 10 12 12K 13".split()  # noqa: SIM905 - a list to read
)
_NOTIFIED_BODY = pattern(r"[0-9]{4}")
_CERTIFICATE = pattern(
    r"(?:[A-Z]{2,8} ?[0-9]{2} ?(?:ATEX|UKEX) ?|IECEx [A-Z]{2,8} ?[0-9]{2}\.)[0-9A-Z]{3,6}?"
    r"(?= ?[XU]\b|\W|\Z)"
)
_DRAWING = pattern(r"(?:see |per )?(?:control )?(?:drawing|dwg)\b\.?(?: no\b\.?)?:?", re.IGNORECASE)
_EDITION = pattern(r"rev(?:ision)?\.?", re.IGNORECASE)
_LONGEST_REFERENCE = 12  # tokens of a drawing number


def read_ingress(tokens: Tokens, index: int) -> Found | None:
    """`IP66`, `IP 66/67`, `IP6X`, `IP69K`."""
    first = tokens.at(index).text
    if first == "IP":
        run = tokens.at(index + 1).text + tokens.at(index + 2).text
        one = _IP_WORD.fullmatch("IP" + tokens.at(index + 1).text)
        two = None if one else _IP_WORD.fullmatch("IP" + run)
        found, at = (one, index + 2) if one else (two, index + 3)
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


def read_enclosure(tokens: Tokens, index: int) -> Found | None:
    """`Type 4X`, `NEMA 4`, `NEMA Type 4, 4X`."""
    at = index
    if tokens.at(at).low == "nema":
        at += 1
    if tokens.at(at).low in {"type", "types"}:
        at += 1
    if at == index:
        return None
    found: list[Element] = []
    while (one := _enclosure_type(tokens, at)) is not None:
        found.append(Ingress(f"Type {one[0]}"))
        at = one[1]
        more = tokens.at(at).text in {",", "/"} and _enclosure_type(tokens, at + 1) is not None
        at += more
    return (tuple(found), at) if found else None


def _enclosure_type(tokens: Tokens, index: int) -> tuple[str, int] | None:
    number, tail = tokens.at(index), tokens.at(index + 1)
    if not number.is_number:
        return None
    if tail.text and not tail.spaced and number.text + tail.text in _TYPES:
        return number.text + tail.text, index + 2
    stands_alone = tail.spaced or tail.text in {"", ",", "/", ";", ")", "."}
    return (number.text, index + 1) if number.text in _TYPES and stands_alone else None


def read_suffix(tokens: Tokens, index: int) -> Found | None:
    """A lone `X` (special conditions) or `U` (component)."""
    text = tokens.at(index).text
    return ((SuffixMark(Suffix(text)),), index + 1) if text in {"X", "U"} else None


def read_mark(tokens: Tokens, index: int) -> Found | None:
    """`CE 0123`: the mark and the number of the body that supervises production."""
    if tokens.at(index).text not in {"CE", "UKCA"}:
        return None
    at = index + 1
    opened = tokens.at(at).text == "("
    number = _NOTIFIED_BODY.fullmatch(tokens.at(at + opened).text)
    closed = tokens.at(at + 2).text == ")"
    if number is None or (opened and not closed):
        return (Filler(),), at
    return (Filler(),), at + (3 if opened else 1)


def read_certificate(tokens: Tokens, index: int) -> Found | None:
    """A certificate number; the `X` or `U` behind it is read as any suffix."""
    at = tokens.phrase(index, _CERTIFICATE)
    return ((Filler(),), at) if at is not None else None


def read_drawing(tokens: Tokens, index: int) -> Found | None:
    """`control drawing CD-77 rev 2`: a document, named for the installer."""
    at = tokens.phrase(index, _DRAWING)
    if at is None:
        return None
    at = _reference(tokens, at)
    edition = tokens.phrase(at, _EDITION)
    return (Filler(),), (at if edition is None else _reference(tokens, edition))


def _reference(tokens: Tokens, index: int) -> int:
    """The index behind a number such as `123-456/B`: the tokens that touch each other."""
    first = tokens.at(index)
    if not first.text or not first.text[0].isalnum():
        return index
    at = index + 1
    while at < index + _LONGEST_REFERENCE and not tokens.at(at).spaced and _in_number(tokens, at):
        at += 1
    return at


def _in_number(tokens: Tokens, index: int) -> bool:
    text = tokens.at(index).text
    return bool(text) and (text[0].isalnum() or text in {"-", "/", "."})


def read_separator(tokens: Tokens, index: int) -> Found | None:
    """`;` ends a code; a slash, comma, full stop, `and` or round bracket may stand anywhere."""
    text = tokens.at(index).low
    if text == ";":
        return (Separator(strong=True),), index + 1
    if text in {"/", ",", ".", ":", "and", "&", "or", "(", ")"}:
        return (Separator(strong=False),), index + 1
    return None
