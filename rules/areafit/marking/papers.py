"""What stands beside a code and promises nothing: marks, bodies, certificates, drawings."""

import re

from areafit.marking.tokens import Tokens
from areafit.marking.words import Filler, Found
from areafit.pattern import pattern

# In front of a mark or a category only: a number at the end of a code may say something else.
_BODY = pattern(r"[0-2][0-9]{3}")
_OPEN = {"<": ">", "(": ")", "[": "]"}
MARKS = frozenset({"ex", "eex", "aex"})


def read_mark(tokens: Tokens, index: int) -> Found | None:
    """`CE 0123`, `0123 Ex`, `Ex 0123`, `<Ex>`: marks, and the body that supervises production."""
    if tokens.at(index).text in {"CE", "UKCA", "UKNI", "EAC"}:
        return (Filler(),), _behind_body(tokens, index + 1)
    if tokens.at(index).text == "UK" and tokens.at(index + 1).text in {"CA", "NI"}:
        return (Filler(),), _behind_body(tokens, index + 2)
    if _BODY.fullmatch(tokens.at(index).text):
        ahead = index + 1
        opened = tokens.at(index - 1).text == "("
        marked = not opened and (starts_category(tokens, ahead) or _is_mark(tokens, ahead))
        return ((Filler(),), ahead) if marked else None
    closed = _OPEN.get(tokens.at(index).text)
    if closed and tokens.at(index + 1).low == "ex" and tokens.at(index + 2).text == closed:
        return (Filler(),), _behind_body(tokens, index + 3)
    if tokens.at(index).low == "ex":
        at = index + 1
        number = at if _BODY.fullmatch(tokens.at(at).text) else at - 1
        if starts_category(tokens, number + 1) or tokens.at(number + 1).low in MARKS:
            return (Filler(),), number + 1
    return None


def _is_mark(tokens: Tokens, index: int) -> bool:
    return tokens.at(index + (tokens.at(index).text in _OPEN)).low == "ex"


def _behind_body(tokens: Tokens, index: int) -> int:
    """The index behind `0123` or `(0123)`; the same where no number follows."""
    number = index + (tokens.at(index).text == "(")
    if _ANY_BODY.fullmatch(tokens.at(number).text) is None:
        return index
    if number == index:
        return number + 1
    return number + 2 if tokens.at(number + 1).text == ")" else index


_ANY_BODY = pattern(r"[0-9]{4}")


def starts_category(tokens: Tokens, index: int) -> bool:
    """Whether an ATEX category starts at `index`: `II 2`, `II (1)`, `I M1`."""
    after = tokens.at(index + 1)
    if tokens.at(index).text == "II":
        return after.is_number or after.text in {"(", "-"}
    return tokens.at(index).text == "I" and after.text in {"M1", "M2", "("}


# A recognised component is no listed equipment, so that word stays unread.
_AGENCY = pattern(
    r"(?:c?(?:UL|CSA|FM|ETL|MET)(?:us)?)\b(?: (?:listed|approved|certified|classified)\b)?"
    r"(?: (?:std\.? )?[0-9]{3,6}(?:[-.:][0-9]+)*\b)?:?",
    re.IGNORECASE,
)
_STANDARD = pattern(
    r"(?:ANSI/)?(?:ISA|IEC|EN|ISO|BS EN|CSA C22\.2(?: No\b\.?)?)(?:/IEC)?[- ]?[0-9]{2,6}"
    r"(?:[-.:][0-9]+)*(?::?\+?A[0-9]+)?"
)


def read_agency(tokens: Tokens, index: int) -> Found | None:
    """`UL`, `cULus Listed`, `UL 121201`, `IEC 60079-0:2017`: who tested and by what."""
    for phrase in (_STANDARD, _AGENCY):
        at = tokens.phrase(index, phrase)
        if at is not None:
            return (Filler(),), at
    return None


_CERTIFICATE = pattern(
    r"(?:[Cc]ert(?:ificate|\.)?(?: [Nn]o\.?)?:? )?"
    r"(?:[A-Z][A-Za-z]{1,9}(?:-[A-Z])? ?[0-9]{2} ?(?:ATEX|UKEX) ?(?:[A-Z] ?)?"
    r"|IECEx [A-Z]{2,8} ?[0-9]{2}\.)[0-9A-Z]{3,8}?(?= ?[XU]\b|\W|\Z)"
)


def read_certificate(tokens: Tokens, index: int) -> Found | None:
    """A certificate number; the `X` or `U` behind it is read as any suffix."""
    at = tokens.phrase(index, _CERTIFICATE)
    return ((Filler(),), at) if at is not None else None


_DRAWING = pattern(r"(?:see |per )?(?:control )?(?:drawing|dwg)\b\.?(?: no\b\.?)?:?", re.IGNORECASE)
_EDITION = pattern(r"rev(?:ision)?\.?", re.IGNORECASE)
_LONGEST_REFERENCE = 12  # tokens of a drawing number


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
