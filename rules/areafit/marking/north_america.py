"""North American words: trade phrases, class, division, zone, group letters."""

import re

from areafit.facts.groups import Group
from areafit.facts.protection import Purge, Suffix
from areafit.marking import clauses
from areafit.marking.tokens import Token, Tokens
from areafit.marking.words import (
    Associated,
    ClassWord,
    DivisionWord,
    Fault,
    Filler,
    Found,
    GroupLetters,
    ProvidesCircuits,
    PurgeDetail,
    PurgeMark,
    SafePlace,
    Separator,
    SuffixMark,
    TradeWord,
    Word,
    ZoneWord,
    glued_dash,
)
from areafit.pattern import pattern

INTRINSICALLY_SAFE = "intrinsically safe"
NONINCENDIVE = "nonincendive"
EXPLOSIONPROOF = "explosionproof"
DUST_IGNITIONPROOF = "dust-ignitionproof"
DUSTTIGHT = "dusttight"
HERMETICALLY_SEALED = "hermetically sealed"
OIL_IMMERSED = "oil-immersed"
FACTORY_SEALED = "factory sealed"
BY_DRAWING = "installed by its drawing"

_SAFE = r"(?:intrinsically[ -]safe|IS|I\.S\.)"
_CIRCUITS = (
    rf"(?:provid(?:es|ing)|suppl(?:ies|ying)|with|has|for) {_SAFE} "
    r"(?:circuits?|connections?|outputs?)(?: (?:to|for|in|into)\b)?(?: use in\b)?"
)
# Without a verb: several circuits that lead somewhere; one `IS circuit` may be the device itself.
_LEADING = rf"{_SAFE} (?:circuits|connections|outputs) (?:to|for|in|into)\b(?: use in\b)?"
_FOR = r"(?: for(?= (?:class|cl)\b))?"
_NO_SEAL = r"(?:(?:conduit )?seals? not|no (?:conduit )?seals?) required\b"
_NFPA = r"(?:NFPA ?496(?:[-:][0-9]{2,4})?,? )?"
_BY_NFPA = r"(?:,? \(?(?:per |to |acc\.? to )?NFPA ?496(?:[-:][0-9]{2,4})?\)?)?"
_PER = r"(?:as )?(?:per|by|in accordance with|acc(?:ording|\.)? to)"
_TEMPERATURE = r"(?:op(?:er)?(?:ating|\.)? )?temp(?:erature|\.)?"
_THIS_IS = r"(?:(?:this|the) (?:equipment|apparatus|device|product) is )?"
_PURGED = r"(?:pressuri[sz](?:ed|ation)|purg(?:ed?|ing))"


def _purge(letter: str) -> tuple[str, ...]:
    # Apart from its word an X may as well be that of special conditions.
    tie = "-" if letter == "X" else "[ -]"
    return (
        rf"{_NFPA}type:? {letter}[ -]{_PURGED}(?: (?:enclosure|system))?{_BY_NFPA}",
        rf"{_NFPA}{_PURGED},?(?: type:?)? {letter}\b{_BY_NFPA}",
        rf"{letter}{tie}{_PURGED}(?: (?:enclosure|system))?",
        rf"NFPA ?496(?:[-:][0-9]{{2,4}})?,?:?(?: type)?[ -]{letter}\b",
        rf"type {letter},? (?:per |to |acc\.? to )?NFPA ?496(?:[-:][0-9]{{2,4}})?",
    )


_TRADE_WORDS: tuple[tuple[Word, str], ...] = (
    (ProvidesCircuits(), _CIRCUITS),
    (ProvidesCircuits(), _LEADING),
    (Associated(), r"associated (?:(?:intrinsically[ -]safe|electrical) )?(?:apparatus|equipment)"),
    (Associated(), r"\[ ?(?-i:IS) ?\]"),
    (
        Filler(),
        r"or (?:non-?hazardous|unclassified|ordinary)(?: (?:locations?|areas?)\b)?(?: only)?",
    ),
    (SafePlace(), r"(?:non-?hazardous|unclassified|ordinary)(?: (?:locations?|areas?))?\b"),
    (TradeWord(INTRINSICALLY_SAFE), r"intrinsically[ -]safe(?: (?:apparatus|equipment))?" + _FOR),
    (
        TradeWord(NONINCENDIVE),
        r"non-?incendive(?: (?:apparatus|equipment|field wiring(?: apparatus)?))?" + _FOR,
    ),
    (TradeWord(EXPLOSIONPROOF), r"explosion[ -]?proof" + _FOR),
    (TradeWord(DUST_IGNITIONPROOF), r"dust[ -]ignition[ -]?proof" + _FOR),
    (TradeWord(DUSTTIGHT), r"dust[ -]?tight" + _FOR),
    (TradeWord(HERMETICALLY_SEALED), r"hermetically[ -]sealed"),
    (TradeWord(OIL_IMMERSED), r"oil[ -]immers(?:ed|ion)"),
    (
        TradeWord(FACTORY_SEALED),
        rf"(?:leads )?factory[ -]sealed\b(?: leads\b)?|{_NO_SEAL}",
    ),
    (
        TradeWord(BY_DRAWING),
        rf"when installed (?:only )?{_PER}(?: the)?(?= (?:control |installation )?(?:drawing|dwg))",
    ),
    *((PurgeMark(purge), text) for purge in Purge for text in _purge(purge.value)),
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
    # What a laboratory recognises is a component of what it lists: no equipment for the field.
    (SuffixMark(Suffix.U), r"(?:UR )?recogni[sz]ed component\b|cURus\b"),
    (Filler(), rf"{_THIS_IS}(?:suitable|identified|listed|approved) for(?: use in)?"),
    # How the process is kept from the conduit (ANSI/ISA 12.27.01), beside the seals of the plate.
    (Filler(), r"(?:with )?(?:single|dual) (?:process )?seal(?: device)?\b"),
    (Filler(), r"for use in"),
    (
        Filler(),
        r"haz(?:ardous|\.)? ?(?:\(classified\) ?)?loc(?:ation)?s?\b\.?(?: (?:equipment|equip\.))?",
    ),
    (Filler(), r"(?:entity|FISCO|FNICO)\b(?: parameters?)?"),
    (Filler(), rf"(?:{_TEMPERATURE}|T)[ -]?(?:code|class|cl\.|rating)(?: no\.)?[:=]?"),
    (Filler(), rf"{_TEMPERATURE}[:=]?(?= T[1-6])"),
    (Filler(), r"max(?:imum|\.)? surface(?: temp(?:erature\b|\b\.?))?[:=]?"),
    (Filler(), r"(?:ind|proc)[a-z]*\.? ?cont[a-z]*\.? ?eq[a-z]*\b\.?(?: for(?= haz))?"),
    (Filler(), r"inverter[ -]duty(?: (?:rated|motor))?\b"),
    # Industrial trucks by NFPA 505; the class behind it says for what.
    (Filler(), r"type (?:EX|EE|ES|DX|DY|DS|GS|LPS)\b(?=[;,:]? ?(?:class|cl)\b)"),
    (Filler(), r"(?:EPL|ATEX|IECEx|UKEX|NEC)\b:?"),
    (Filler(), r"(?:(?:approved|notified) body|[AN]B)(?: no\b\.?| number)?:? ?[0-9]{4}\b"),
    (Filler(), r"issue(?: no\b\.?)? [0-9]{1,2}\b"),
    (Filler(), r"(?:ex[- ]?)?(?:kennzeichnung|kennz\.|marquage|marcatura|marcado)(?: ?:)?"),
    (
        Filler(),
        r"(?:zündschutzart|mode de protection|modo di protezione|modo de protecci[oó]n)(?: ?:)?",
    ),
    (Filler(), r"(?:ex )?marking:|(?:gas|dust):?(?= (?:[AE]?Ex|II) )"),
)
_PHRASES = tuple((word, pattern(text, re.IGNORECASE)) for word, text in _TRADE_WORDS)
_ANY = pattern(
    "|".join(
        f"(?:{text})"
        for text in (
            *(text for word, text in _TRADE_WORDS if not isinstance(word, PurgeMark)),
            rf"NFPA|type:? [XYZ]|{_PURGED}|X-|[YZ][ -]",  # as those of a purge begin
        )
    ),
    re.IGNORECASE,
)
# Abbreviations are read in capitals only: `is` belongs to `op is`.
_ABBREVIATIONS: dict[str, Word] = {
    "IS": TradeWord(INTRINSICALLY_SAFE),
    "NI": TradeWord(NONINCENDIVE),
    "NIFW": TradeWord(NONINCENDIVE),
    "XP": TradeWord(EXPLOSIONPROOF),
    "DIP": TradeWord(DUST_IGNITIONPROOF),
    "AIS": Associated(),
}
_DOTTED = pattern(r"I\.S\.")


def read_phrase(tokens: Tokens, index: int) -> Found | None:
    """The phrase of the closed list that starts at `index`."""
    if _ANY.match(tokens.text, tokens.at(index).start):  # one look instead of many
        for word, phrase in _PHRASES:
            behind = tokens.phrase(index, phrase)
            if behind is not None:
                return (word,), behind
    short = _ABBREVIATIONS.get(tokens.at(index).text)
    if short is not None:
        return (short,), index + 1
    dotted = tokens.phrase(index, _DOTTED)
    return ((TradeWord(INTRINSICALLY_SAFE),), dotted) if dotted is not None else None


_ROMAN = {"i": "I", "ii": "II", "iii": "III", "1": "I", "2": "II", "3": "III"}
_CLASS_WORDS = frozenset({"class", "classes", "cl"})
_DIVISION_WORDS = frozenset({"division", "divisions", "div", "divs"})
_ZONE_WORDS = frozenset({"zone", "zones", "zn", "zona", "zonas"})
GROUP_WORDS = frozenset({"group", "groups", "gp", "gps", "grp", "grps", "gr", "grs"})
_ALL = "ABCDEFG"
_TO = frozenset({"-", "to", "thru", "through", "till"})
ZONES = frozenset({"0", "1", "2", "20", "21", "22"})


def behind_dot(tokens: Tokens, index: int) -> int:
    """The index behind an abbreviation's full stop, a colon, an equals sign or a tying dash."""
    while tokens.at(index).text in {".", ":", "="} or glued_dash(tokens, index):
        index += 1
    return index


def _behind_joiner(tokens: Tokens, index: int) -> int:
    """The index behind `,` `and` `&` `/` `or` between the members of a list; same if none."""
    if tokens.at(index).text == ",":
        index += 1
    return index + 1 if tokens.at(index).low in {"and", "&", "/", "or"} else index


_KIND = r"(?:XP|NIFW|NI|IS|DIP|AIS|P[XYZ])"
_AGENCY = pattern(
    rf"({_KIND}(?:-{_KIND})*|S(?=\s*/))"
    r"[\s/:-]+(I{1,3}(?:\s*[,&]\s*I{1,3})*)\s*[/-]\s*([12])\s*[/-]\s*"
    r"([A-G]-[A-G]|[A-G](?:\s*,\s*[A-G])+|[A-G]+)(?=\s*(?:[/;,:.()-]|$)|\s)"
)
_AGENCY_ZONE = pattern(r"I\s*/\s*([012])\s*/\s*(?=AEx)")
_CLASS_NAME = pattern(r"I{1,3}")
_AGENCY_WORDS = {
    **_ABBREVIATIONS,
    "S": Filler(),  # suitable
    **{f"P{purge.value}": PurgeMark(purge) for purge in Purge},
}


def read_agency_form(tokens: Tokens, index: int) -> Found | None:
    """`XP/I/1/BCD/T5`: type, classes, division and groups between slashes; `I/1/AEx db/IIC/T4`.

    Types joined by a dash, `XP-IS`, are several of one piece.

    The separator in front tells a code of its own, since the form leaves no doubt.
    """
    zoned = _AGENCY_ZONE.match(tokens.text, tokens.at(index).start)
    if zoned is not None:
        place = (ClassWord(("I",)), ZoneWord(int(zoned.group(1))))
        return (Separator(strong=True), *place), index + 4
    behind = tokens.phrase(index, _AGENCY)
    if behind is None:
        return None
    found = _AGENCY.match(tokens.text, tokens.at(index).start)
    kind, classes, division, letters = found.groups() if found is not None else ("", "", "", "")
    first, dash, last = letters.partition("-")
    reach = _ALL[_ALL.index(first) : _ALL.index(last) + 1] if dash else letters
    groups = frozenset(Group(letter) for letter in reach if letter in _ALL)
    named = tuple(dict.fromkeys(_CLASS_NAME.findall(classes)))
    words = (ClassWord(named), DivisionWord((int(division),)), GroupLetters(groups))
    kinds = (_AGENCY_WORDS[each] for each in kind.split("-"))
    return (Separator(strong=True), *kinds, *words), behind


def read_class(tokens: Tokens, index: int) -> Found | None:
    """`Class I`, `CL II`, `Class I, II, III`, `Class II, Class III`, `C1D2`, `C1/D2`, `C1Z2`.

    Of classes in a row what follows is said of each: no word stands between them.
    """
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
    while (then := _behind_joiner(tokens, at)) != at:
        if tokens.at(then).low in _CLASS_WORDS:
            then = behind_dot(tokens, then + 1)
        if not _is_class(tokens, then):
            break
        found.append(_ROMAN[tokens.at(then).low])
        at = then + 1
    return (ClassWord(tuple(dict.fromkeys(found))),), at


def _is_class(tokens: Tokens, index: int) -> bool:
    """Whether a roman numeral goes on with the list, rather than starting `II 2G`."""
    after = tokens.at(index + 1)
    is_category = after.is_number or after.text in {"(", "M1", "M2"}
    return tokens.at(index).low in {"i", "ii", "iii"} and not is_category


_SHORT = pattern(r"C-?(I{1,3}|[123])[ ,/-]{0,2}(?:D(?:IV\.?)?|(Z)(?:N\.?)?) ?-?([0-9])(?![0-9.])")


def _read_short(tokens: Tokens, index: int) -> Found | None:
    behind = tokens.phrase(index, _SHORT)
    found = _SHORT.match(tokens.text, tokens.at(index).start)
    if behind is None or found is None:
        return None
    named = ClassWord((_ROMAN[found[1].lower()],))
    if found[2]:
        return (named, *_zone(found[3])), behind
    letters, at = _bare_letters(tokens, behind)
    return (named, *_divisions([found[3]]), *letters), at


def read_division(tokens: Tokens, index: int) -> Found | None:
    """`Division 1`, `Div. II`, `Divisions 1 and 2`; a comma makes a list after the plural only."""
    word = tokens.at(index).low
    if word not in _DIVISION_WORDS:
        return None
    at = behind_dot(tokens, index + 1)
    number = tokens.at(at)
    if not (number.is_number or _is_roman_division(tokens, index, at)):
        return None
    found = [number.text if number.is_number else str(len(number.low))]
    at += 1
    then = _behind_joiner(tokens, at)
    listed = tokens.at(then - 1).text != "," or word.endswith("s")
    if then != at and listed and tokens.at(then).text in {"1", "2"}:
        unit = tokens.at(then + 1).text in {"°", "C", "F", "G", "GD"}
        found += [] if unit else [tokens.at(then).text]
        at = at if unit else then + 1
    letters, at = _bare_letters(tokens, at)
    return (*_divisions(found), *letters), at


def _is_roman_division(tokens: Tokens, index: int, at: int) -> bool:
    """Whether the numeral of `Class I Div II` stands at `at`; only where a class stands before."""
    if tokens.at(at).low not in {"i", "ii"} or not _is_class(tokens, at):
        return False
    return any(each.low in _CLASS_WORDS for each in tokens.padded[:index])


def _divisions(numbers: list[str]) -> tuple[Word, ...]:
    wrong = [number for number in numbers if number not in {"1", "2"}]
    if wrong:
        return DivisionWord(()), Fault(f"There is no Division {wrong[0]}.", clauses.CLASSES)
    return (DivisionWord(tuple(sorted({int(number) for number in numbers}))),)


def read_zone(tokens: Tokens, index: int) -> Found | None:
    """`Zone 1`, `Zone 21`, and as French documents have it `Zone ATEX 1`."""
    at = behind_dot(tokens, index + 1)
    at += tokens.at(at).text == "ATEX"
    number = tokens.at(at)
    if tokens.at(index).low not in _ZONE_WORDS or not number.is_number:
        return None
    return _zone(number.text), at + 1


def read_zones_of_sides(tokens: Tokens, index: int) -> Found | None:
    """`Zone 0/1` on a plate: the side that faces the process, and the milder one outside."""
    found = read_zone(tokens, index)
    if found is None or tokens.at(found[1]).text != "/":
        return found
    inner, outer = tokens.at(found[1] - 1).text, tokens.at(found[1] + 1).text
    if (inner, outer) not in _SIDES:
        return found
    return (ZoneWord(int(outer), int(inner)),), found[1] + 2


_SIDES = frozenset({("0", "1"), ("0", "2"), ("1", "2"), ("20", "21"), ("20", "22"), ("21", "22")})


def _zone(number: str) -> tuple[Word, ...]:
    if number not in ZONES:
        message = f"There is no Zone {number}; zones are 0, 1, 2 (gas) and 20, 21, 22 (dust)."
        return ZoneWord(None), Fault(message, clauses.ZONES)
    return (ZoneWord(int(number)),)


def read_letters(tokens: Tokens, index: int) -> Found | None:
    """`Groups C and D`, `GP ABCD`, `Groups A-D`, `Groups C D`, `Groups C; D`, `Group D only`.

    A list keeps one style: after commas a letter without one is no member, blanks alone need the
    order of the alphabet, and after the singular they make no list. So no stray letter is one.
    """
    word = tokens.at(index).low
    if word not in GROUP_WORDS:
        return None
    at = behind_dot(tokens, index + 1)
    first = tokens.at(at).text.upper()
    if len(first) == 1 and "H" <= first <= "Z" and first != "I":
        return (
            GroupLetters(frozenset()),
            Fault(f"There is no Group {first}.", clauses.LETTERS),
        ), at + 1
    listed = _letters_list(tokens, at, commas=word == "group")
    if listed is None:
        return None
    after = tokens.at(listed[1] + 1)
    names_gas = bool(after.text) and _GAS_BEHIND.match(tokens.text, after.start) is not None
    only = tokens.at(listed[1]).low == "only" and not names_gas
    return (_group_letters(listed[0]),), listed[1] + only


_GAS_BEHIND = pattern(r"(?!T ?[1-6])[^\W\d_]")  # `Group B only hydrogen`


def _group_letters(letters: str) -> GroupLetters:
    return GroupLetters(frozenset(Group(letter) for letter in letters))


def _bare_letters(tokens: Tokens, index: int) -> tuple[tuple[Word, ...], int]:
    """`ABCD`, `A-D` or `A, B, C, D` right behind a division; one letter alone may be a stray."""
    at = index + (tokens.at(index).text in {",", "/"})
    listed = _letters_list(tokens, at, commas=True) if tokens.at(at).text.isupper() else None
    if listed is None or len(listed[0]) == 1:
        return (), index
    return (_group_letters(listed[0]),), listed[1]


def _letters_list(tokens: Tokens, index: int, *, commas: bool) -> tuple[str, int] | None:
    """The letters of a list that keeps one style, and the index behind it."""
    lower = tokens.at(index).text.islower()  # `groups c and d`; a stray `a` behind `D` is no letter
    item = _letters_item(tokens, index)
    if item is None:
        return None
    found, at = item
    style = "," if commas else None
    while True:
        then = _behind_joiner(tokens, at)
        sign = "," if then != at else ""
        if style == "" and tokens.at(then - 1).low in {"and", "&"}:  # `Groups E F AND G`
            style = sign
        if tokens.at(at).text == ";" and style in {None, ";"}:
            then, sign = at + 1, ";"
        item = _letters_item(tokens, then)
        if item is None or style not in {None, sign} or tokens.at(then).text.islower() is not lower:
            return found, at
        if not sign and item[0] <= found[-1]:
            return found, at
        style = sign
        found, at = found + item[0], item[1]


def _letters_item(tokens: Tokens, index: int) -> tuple[str, int] | None:
    """One letter, a run (`ABCD`, `ABCDFG`), or a range (`A-D`, `A-B-C-D`)."""
    word = tokens.at(index).text.upper()
    if not _is_run(word):
        return None
    ends, at = [word], index + 1
    while len(word) == 1 and _is_range(tokens.at(at)):
        then = tokens.at(at + 1).text.upper()
        if len(then) != 1 or then not in _ALL:
            break
        ends.append(then)
        at += 2
    if len(ends) == 1:
        return word, at
    reach = _ALL[_ALL.index(word) : _ALL.index(ends[-1]) + 1]
    # More than two must be neighbours, or a list and a range would differ.
    if len(reach) < 2 or (len(ends) > 2 and reach != "".join(ends)):
        return None
    return reach, at


def _is_run(word: str) -> bool:
    """Neighbours of the alphabet; of gases and dusts in one run neighbours each.

    Division 2 has no Group E, so `ABCDFG` is usual; two letters apart may be something else.
    """
    dusts = word.lstrip(_ALL[:4])
    gases = word[: len(word) - len(dusts)]
    both = len(word) > 2 and gases in _ALL[:4] and dusts in _ALL[4:]
    return bool(word) and (word in _ALL or both)


def _is_range(token: Token) -> bool:
    return token.low in _TO or token.text.startswith("..")
