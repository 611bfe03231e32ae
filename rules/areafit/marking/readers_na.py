"""Readers of North American words: class, division, zone, group letters."""

from areafit.facts.groups import Group
from areafit.marking import clauses
from areafit.marking.elements import (
    Associated,
    ClassWord,
    DivisionWord,
    Element,
    Fault,
    Filler,
    Found,
    Letters,
    Separator,
    Trade,
    ZoneWord,
)
from areafit.marking.phrases import (
    DUST_IGNITIONPROOF,
    EXPLOSIONPROOF,
    INTRINSICALLY_SAFE,
    NONINCENDIVE,
)
from areafit.marking.text import Tokens
from areafit.pattern import pattern

_ROMAN = {"i": "I", "ii": "II", "iii": "III", "1": "I", "2": "II", "3": "III"}
_CLASS_WORDS = frozenset({"class", "classes", "cl"})
_DIVISION_WORDS = frozenset({"division", "divisions", "div", "divs"})
_ZONE_WORDS = frozenset({"zone", "zones"})
GROUP_WORDS = frozenset({"group", "groups", "gp", "gps", "grp", "grps", "gr"})
_ALL = "ABCDEFG"
_TO = frozenset({"-", "to", "thru", "through"})
_ZONES = frozenset({0, 1, 2, 20, 21, 22})


def behind_dot(tokens: Tokens, index: int) -> int:
    """The index behind an abbreviation's full stop, a colon or an equals sign."""
    return index + 1 if tokens.at(index).text in {".", ":", "="} else index


def join(tokens: Tokens, index: int) -> int:
    """The index behind `,` `and` `&` `/` `or` between the members of a list; same if none."""
    if tokens.at(index).text == ",":
        index += 1
    return index + 1 if tokens.at(index).low in {"and", "&", "/", "or"} else index


_AGENCY = pattern(
    r"(XP|NI|IS|DIP|AIS|S)\s*/\s*(I{1,3}(?:\s*,\s*I{1,3})*)\s*/\s*([12])\s*/\s*([A-G]+)(?=\s*(?:/|;|,|$))"
)
_AGENCY_WORDS: dict[str, Element] = {
    "XP": Trade(EXPLOSIONPROOF),
    "NI": Trade(NONINCENDIVE),
    "IS": Trade(INTRINSICALLY_SAFE),
    "DIP": Trade(DUST_IGNITIONPROOF),
    "AIS": Associated(),
    "S": Filler(),  # suitable
}


def read_agency_form(tokens: Tokens, index: int) -> Found | None:
    """`XP/I/1/BCD/T5`: type, classes, division and groups between slashes.

    The separator in front tells a code of its own, since the form leaves no doubt.
    """
    behind = tokens.phrase(index, _AGENCY)
    if behind is None:
        return None
    found = _AGENCY.match(tokens.text, tokens.at(index).start)
    word, classes, division, letters = found.groups() if found is not None else ("", "", "", "")
    groups = frozenset(Group(letter) for letter in letters)
    named = tuple(dict.fromkeys(each.strip() for each in classes.split(",")))
    elements = (ClassWord(named), DivisionWord((int(division),)), Letters(groups))
    return (Separator(strong=True), _AGENCY_WORDS[word], *elements), behind


def read_class(tokens: Tokens, index: int) -> Found | None:
    """`Class I`, `CL II`, `Class I, II, III`, and the short form `C1D2`."""
    short = _read_short(tokens, index)
    if short is not None or tokens.at(index).low not in _CLASS_WORDS:
        return short
    at = behind_dot(tokens, index + 1)
    first = tokens.at(at).low
    if first not in _ROMAN:
        if first in {"iv", "v"} or tokens.at(at).is_number:
            fault = Fault(f"There is no Class {tokens.at(at).text}.", clauses.CLASSES)
            return (ClassWord(()), fault), at + 1
        return None
    found = [_ROMAN[first]]
    at += 1
    while (then := join(tokens, at)) != at and _is_class(tokens, then):
        found.append(_ROMAN[tokens.at(then).low])
        at = then + 1
    return (ClassWord(tuple(dict.fromkeys(found))),), at


def _is_class(tokens: Tokens, index: int) -> bool:
    """Whether a roman numeral goes on with the list, rather than starting `II 2G`."""
    after = tokens.at(index + 1)
    is_category = after.is_number or after.text in {"(", "M1", "M2"}
    return tokens.at(index).low in {"i", "ii", "iii"} and not is_category


def _read_short(tokens: Tokens, index: int) -> Found | None:
    if tokens.at(index).text != "C":
        return None
    run = [tokens.at(index + step) for step in range(4)]
    if [run[0].text, run[2].text] != ["C", "D"] or any(token.spaced for token in run[1:]):
        return None
    if run[1].low not in _ROMAN or not run[3].is_number:
        return None
    return (ClassWord((_ROMAN[run[1].low],)), *_divisions([run[3].text])), index + 4


def read_division(tokens: Tokens, index: int) -> Found | None:
    """`Division 1`, `Div. 2`, `Divisions 1 and 2`; a comma makes a list after the plural only."""
    word = tokens.at(index).low
    if word not in _DIVISION_WORDS:
        return None
    at = behind_dot(tokens, index + 1)
    if not tokens.at(at).is_number:
        return None
    found = [tokens.at(at).text]
    at += 1
    then = join(tokens, at)
    listed = tokens.at(then - 1).text != "," or word.endswith("s")
    if then != at and listed and tokens.at(then).text in {"1", "2"}:
        unit = tokens.at(then + 1).text in {"°", "C", "F", "G", "GD"}
        found += [] if unit else [tokens.at(then).text]
        at = at if unit else then + 1
    return _divisions(found), at


def _divisions(numbers: list[str]) -> tuple[Element, ...]:
    wrong = [number for number in numbers if number not in {"1", "2"}]
    if wrong:
        return DivisionWord(()), Fault(f"There is no Division {wrong[0]}.", clauses.CLASSES)
    return (DivisionWord(tuple(sorted({int(number) for number in numbers}))),)


def read_zone(tokens: Tokens, index: int) -> Found | None:
    """`Zone 1`, `Zone 21`."""
    at = behind_dot(tokens, index + 1)
    number = tokens.at(at)
    if tokens.at(index).low not in _ZONE_WORDS or not number.is_number:
        return None
    if number.text not in {str(zone) for zone in _ZONES}:
        message = f"There is no Zone {number.text}; zones are 0, 1, 2 (gas) and 20, 21, 22 (dust)."
        return (ZoneWord(None), Fault(message, clauses.ZONES)), at + 1
    return (ZoneWord(int(number.text)),), at + 1


def read_letters(tokens: Tokens, index: int) -> Found | None:
    """`Groups C and D`, `GP ABCD`, `Groups A-D`, `Groups C D`, `Group D`.

    A list keeps one style: after commas a letter without one is no member, blanks alone need the
    order of the alphabet, and after the singular they make no list. So no stray letter is one.
    """
    word = tokens.at(index).low
    if word not in GROUP_WORDS:
        return None
    at = behind_dot(tokens, index + 1)
    first = tokens.at(at).text.upper()
    if len(first) == 1 and "H" <= first <= "Z" and first != "I":
        return (Letters(frozenset()), Fault(f"There is no Group {first}.", clauses.LETTERS)), at + 1
    lower = tokens.at(at).text.islower()  # `groups c and d`; a stray `a` behind `D` is no letter
    item = _letters_item(tokens, at)
    if item is None:
        return None
    found, at = item
    style = None if word != "group" else True
    while (item := _letters_item(tokens, then := join(tokens, at))) is not None:
        listed = then != at
        if style not in {None, listed} or tokens.at(then).text.islower() is not lower:
            break
        if not listed and item[0] <= found[-1]:
            break
        style = listed
        found, at = found + item[0], item[1]
    return (Letters(frozenset(Group(letter) for letter in found)),), at


def _letters_item(tokens: Tokens, index: int) -> tuple[str, int] | None:
    """One letter, a run in the order of the alphabet (`ABCD`), or a range (`A-D`)."""
    word = tokens.at(index).text.upper()
    if not word or word not in _ALL:
        return None
    end = tokens.at(index + 2).text.upper()
    if tokens.at(index + 1).low in _TO and len(word) == len(end) == 1 and end in _ALL:
        first, last = _ALL.index(word), _ALL.index(end)
        return (_ALL[first : last + 1], index + 3) if first < last else None
    return word, index + 1
