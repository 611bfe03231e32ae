"""Trade phrases: what each says, as a closed list; anything else is reported as not read."""

import re

from areafit.facts.protection import Purge
from areafit.marking.elements import (
    Associated,
    Element,
    Filler,
    Found,
    Provides,
    PurgeDetail,
    PurgeMark,
    SafePlace,
    Trade,
)
from areafit.marking.text import Tokens
from areafit.pattern import pattern

INTRINSICALLY_SAFE = "intrinsically safe"
NONINCENDIVE = "nonincendive"
EXPLOSIONPROOF = "explosionproof"
DUST_IGNITIONPROOF = "dust-ignitionproof"
DUSTTIGHT = "dusttight"
HERMETICALLY_SEALED = "hermetically sealed"
OIL_IMMERSED = "oil-immersed"

_SAFE = r"(?:intrinsically[ -]safe|IS|I\.S\.)"
_CIRCUITS = (
    rf"(?:provid(?:es|ing)|suppl(?:ies|ying)|with|has|for) {_SAFE} "
    r"(?:circuits?|connections?|outputs?)(?: (?:to|for|in|into)\b)?(?: use in\b)?"
)
_FOR = r"(?: for(?= class\b))?"
_PURGED = r"(?:pressuri[sz](?:ed|ation)|purg(?:ed?|ing))"


def _purge(letter: str) -> tuple[tuple[Element, str], ...]:
    mark = PurgeMark(Purge(letter))
    return (
        (mark, rf"type {letter} {_PURGED}(?: enclosure)?"),
        (mark, rf"{_PURGED},? type {letter}"),
    )


_TABLE: tuple[tuple[Element, str], ...] = (
    (Provides(), _CIRCUITS),
    (Associated(), r"associated (?:(?:intrinsically[ -]safe|electrical) )?(?:apparatus|equipment)"),
    (Filler(), r"or non-?hazardous(?: (?:locations?|areas?)\b)?(?: only)?"),
    (SafePlace(), r"(?:non-?hazardous|unclassified|ordinary)(?: (?:locations?|areas?))?\b"),
    (Trade(INTRINSICALLY_SAFE), r"intrinsically[ -]safe(?: (?:apparatus|equipment))?" + _FOR),
    (Trade(NONINCENDIVE), r"non-?incendive(?: (?:apparatus|equipment))?" + _FOR),
    (Trade(EXPLOSIONPROOF), r"explosion[ -]?proof" + _FOR),
    (Trade(DUST_IGNITIONPROOF), r"dust[ -]ignition[ -]?proof"),
    (Trade(DUSTTIGHT), r"dust[ -]?tight"),
    (Trade(HERMETICALLY_SEALED), r"hermetically[ -]sealed"),
    (Trade(OIL_IMMERSED), r"oil[ -]immers(?:ed|ion)"),
    *_purge("X"),
    *_purge("Y"),
    *_purge("Z"),
    (
        PurgeDetail(contents="general purpose, open contacts"),
        r"contents:? general[ -]purpose with open contacts",
    ),
    (PurgeDetail(contents="general purpose"), r"contents:? general[ -]purpose"),
    (
        PurgeDetail(contents="Division 2"),
        r"contents:? (?:suit(?:able for)?|fit for) div(?:ision)? 2",
    ),
    (
        PurgeDetail(action="power cut"),
        r"automatic power cut(?:-?off)?(?: on loss(?: of (?:purge|pressure))?)?",
    ),
    (PurgeDetail(action="alarm"), r"alarm on loss(?: of (?:purge|pressure))?"),
    (Filler(), r"(?:suitable|identified|listed) for(?: use in)?"),
    (Filler(), r"for use in"),
    (Filler(), r"haz(?:ardous|\.)? ?loc(?:ation)?s?\b\.?"),
    (Filler(), r"entity(?: parameters?)?"),
    (
        Filler(),
        r"(?:(?:op(?:erating|\.)? )?temp(?:erature|\.)? (?:code|class)|T-?code)(?: no\.)?[:=]?",
    ),
    (Filler(), r"max(?:imum|\.)? surface temp(?:erature|\.)?[:=]?"),
    (Filler(), r"(?:EPL|ATEX|IECEx|NEC)\b:?"),
)
_PHRASES = tuple((element, pattern(text, re.IGNORECASE)) for element, text in _TABLE)
_ANY = pattern("|".join(f"(?:{text})" for _, text in _TABLE), re.IGNORECASE)
# Abbreviations are read in capitals only: `is` belongs to `op is`.
_SHORT: dict[str, Element] = {
    "IS": Trade(INTRINSICALLY_SAFE),
    "NI": Trade(NONINCENDIVE),
    "XP": Trade(EXPLOSIONPROOF),
    "DIP": Trade(DUST_IGNITIONPROOF),
    "AIS": Associated(),
}
_DOTTED = pattern(r"I\.S\.")


def read_phrase(tokens: Tokens, index: int) -> Found | None:
    """The phrase of the closed list that starts at `index`."""
    if _ANY.match(tokens.text, tokens.at(index).start):  # one look instead of many
        for element, pattern in _PHRASES:
            behind = tokens.phrase(index, pattern)
            if behind is not None:
                return (element,), behind
    short = _SHORT.get(tokens.at(index).text)
    if short is not None:
        return (short,), index + 1
    dotted = tokens.phrase(index, _DOTTED)
    return ((Trade(INTRINSICALLY_SAFE),), dotted) if dotted is not None else None
