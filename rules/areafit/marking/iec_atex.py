"""Words of Ex, IEC and ATEX plates: categories, types, square brackets, groups, gases, levels."""

import re
from decimal import ROUND_CEILING

from areafit.facts.groups import Group, GroupScheme
from areafit.facts.marking import Output, PartSide, TemperatureMark
from areafit.facts.protection import Hazard, Level
from areafit.marking import clauses
from areafit.marking.gases import gas_name
from areafit.marking.level import find_type, split_types, zone_letter
from areafit.marking.north_america import GROUP_WORDS, behind_dot
from areafit.marking.temperature import class_limits, read_degrees, zone_classes
from areafit.marking.tokens import Tokens
from areafit.marking.words import (
    Bracket,
    CategoryItem,
    CategoryMark,
    Fault,
    Found,
    Levels,
    Temperature,
    Types,
    Unread,
    Word,
    ZoneGroup,
    glued_dash,
)
from areafit.pattern import pattern
from areafit.values import replace

_HAZARDS = {
    "G": (Hazard.GAS,),
    "D": (Hazard.DUST,),
    "GD": (Hazard.GAS, Hazard.DUST),
    "DG": (Hazard.GAS, Hazard.DUST),
}
_MINES = {"M1": 1, "M2": 2}
_CATEGORY = pattern(r"(?:(?:group )?II,? )?cat(?:egory|\b\.?):?(?= ?[123(])", re.IGNORECASE)


def read_category(tokens: Tokens, index: int) -> Found | None:
    """`II 2 G`, `II 1/2 G`, `II 2 (1) GD`, `I M2`, with `c b k` where no `Ex` follows.

    `Category 2 G` without its group is of group II, as mines have M1 and M2.
    """
    if tokens.at(index).text == "I":
        return _mines(tokens, index + 1)
    at = tokens.phrase(index, _CATEGORY)
    if at is None:
        at = index + 1 + glued_dash(tokens, index + 1)
        if tokens.at(index).text != "II":
            return None
    items: list[CategoryItem] = []
    while (found := _item(tokens, at)) is not None:
        items = _joined(items, found[0]) if tokens.at(at - 1).text == "/" else items + found[0]
        at = found[1]
        more = at + 1 if tokens.at(at).text in {",", "/", "&", "+"} else at
        if _item(tokens, more) is not None:
            at = more
    if not items:
        return _no_such(tokens, index)
    return _with_letters(tokens, CategoryMark("II", tuple(items)), at)


def _no_such(tokens: Tokens, index: int) -> Found | None:
    """`II 4 G` and the like."""
    number, letter = tokens.at(index + 1), tokens.at(index + 2)
    if not number.is_number or letter.text not in _HAZARDS:
        return None
    return (
        Fault(f"There is no category {number.text}{letter.text}.", clauses.CATEGORY),
    ), index + 3


# With a letter that does not belong, as misprints have it.
_LOST = {
    PartSide.OUTER: pattern(
        r"[^\WT]?[123]\w? ?/ ?-(?! ?/) ?\w?(?:GD|[GD])\w?|[123] ?(?:GD|[GD])\w? ?/ ?-"
    ),
    PartSide.PROCESS: pattern(r"- ?/ ?\w?[123]\w? ?\w?(?:GD|[GD])\w?"),
}


def read_lost_category(tokens: Tokens, index: int) -> Found | None:
    """`2/- G` behind a misprint of `II`: no category, and still one side without protection."""
    for side, lost in _LOST.items():
        behind = tokens.phrase(index, lost)
        if behind is not None:
            return (Unread(tokens.between(index, behind)), Levels((), side)), behind
    return None


def _item(tokens: Tokens, index: int) -> tuple[list[CategoryItem], int] | None:
    """`2 G`, `1/2 G`, `2 (1) G`, `3 (1/2) G`, `(1) GD`, `2 G (1)`."""
    numbers, bare, at = _numbers(tokens, index)
    output, at = _bracketed(tokens, at)
    if not numbers and output is None:
        return None
    hazards, at = _hazards(tokens, at)
    if not hazards:
        return None
    if numbers and bare is None and _dash_behind(tokens, at):
        bare, at = PartSide.OUTER, at + 2
        at = _hazards(tokens, at)[1]
    if output is None:
        later, behind = _bracketed(tokens, at)
        other, beyond = _hazards(tokens, behind)
        if later is not None and other in {(), hazards}:  # `2 G (1) D` starts another item
            output, at = later, beyond
    number = max(numbers, default=None)
    inner = min(numbers) if len(numbers) == 2 and numbers[0] <= numbers[1] else None
    return [CategoryItem(hazard, number, inner, output, bare) for hazard in hazards], at


def _joined(items: list[CategoryItem], more: list[CategoryItem]) -> list[CategoryItem]:
    """`2G/3G` as `2/3G`: a category behind a slash that is for the same kind of atmosphere.

    Of two in the other order neither side is told from the other, and the worse counts for both.
    """
    last = items[-1] if items else None
    if last is None or len(more) != 1 or more[0].hazard is not last.hazard:
        return items + more
    first, second = last.number, more[0].number
    pair = first is not None and second is not None and first <= second
    if not pair or last.inner or more[0].inner or last.bare or more[0].bare:
        return items + more
    return [*items[:-1], replace(more[0], inner=first, output=more[0].output or last.output)]


def _numbers(tokens: Tokens, index: int) -> tuple[list[int], PartSide | None, int]:
    """The category, or the two of a pair; `-/2` and `2/-` have one side without protection."""
    first, slash, second = (tokens.at(index + step).text for step in range(3))
    valid = {"1", "2", "3"}
    if slash == "/" and second in valid and first in valid:
        return [int(first), int(second)], None, index + 3
    if slash == "/" and second in valid and first == "-":
        return [int(second)], PartSide.PROCESS, index + 3
    if first not in valid:
        return [], None, index
    if _dash_behind(tokens, index + 1):
        return [int(first)], PartSide.OUTER, index + 3
    return [int(first)], None, index + 1 + glued_dash(tokens, index + 1)


def _dash_behind(tokens: Tokens, index: int) -> bool:
    """Whether `/-` stands here, and no `-/` of another pair, nor a temperature below zero."""
    slash, dash, then = (tokens.at(index + step) for step in range(3))
    return (slash.text, dash.text) == ("/", "-") and then.text != "/" and not then.is_number


def _bracketed(tokens: Tokens, index: int) -> tuple[int | None, int]:
    """`(1)`, `(1/2)`: the category of what the equipment feeds, of two the milder."""
    if tokens.at(index).text != "(":
        return None, index
    numbers, bare, at = _numbers(tokens, index + 1)
    if not numbers or bare is not None or tokens.at(at).text != ")":
        return None, index
    return max(numbers), at + 1


def _hazards(tokens: Tokens, index: int) -> tuple[tuple[Hazard, ...], int]:
    """`G`, `D`, `GD`, `G D`, `G/D`."""
    text = tokens.at(index).text
    if text not in _HAZARDS:
        return (), index
    behind = index + 2 if tokens.at(index + 1).text == "/" else index + 1
    if text == "G" and tokens.at(behind).text == "D":
        return _HAZARDS["GD"], behind + 1
    return _HAZARDS[text], index + 1


def _mines(tokens: Tokens, index: int) -> Found | None:
    first = tokens.at(index).text
    if first in _MINES:
        number = _MINES[first]
        output, at = (1, index + 4) if _feeds_m1(tokens, index + 1) else (None, index + 1)
        item = CategoryItem(Hazard.GAS, number, None, output)
        return _with_letters(tokens, CategoryMark("I", (item,)), at)
    if _feeds_m1(tokens, index):
        return (CategoryMark("I", (CategoryItem(Hazard.GAS, output=1),)),), index + 3
    return None


def _feeds_m1(tokens: Tokens, index: int) -> bool:
    return [tokens.at(index + step).text for step in range(3)] == ["(", "M1", ")"]


def _with_letters(tokens: Tokens, mark: CategoryMark, index: int) -> Found:
    """The category, and the non-electrical letters that follow it."""
    letters: list[str] = []
    at = index
    while (found := _letters(tokens, at)) is not None:
        letters.extend(found)
        at += 1
        if tokens.at(at).text in {",", "/", "+"} and _letters(tokens, at + 1) is not None:
            at += 1
    own: tuple[Word, ...] = (Types("", tuple(letters)),) if letters else ()
    return (mark, *own), at


def _letters(tokens: Tokens, index: int) -> tuple[str, ...] | None:
    """Old non-electrical letters; `db` without `Ex` is no pair of them but an error."""
    text = tokens.at(index).text
    if not text.islower() or (len(text) > 1 and find_type(text) is not None):
        return None
    return split_types(text, non_electrical=True)


_MARKS = {"ex": "Ex", "eex": "EEx", "aex": "AEx"}
_DIGITS = {"0": Level.GA, "1": Level.GB, "2": Level.GC}  # GOST 31610.0
_OPTICAL = {"opis": "op is", "opsh": "op sh", "oppr": "op pr"}
_PRACTICES = frozenset({"A20", "A21", "A22", "B20", "B21", "B22"})
_DUST_ZONES = frozenset({"20", "21", "22"})
_LEVELS = {level.value: level for level in Level}
_ZONE_GROUPS: dict[str, Group] = {
    group.value: group
    for group in Group
    if group.scheme in {GroupScheme.MINES, GroupScheme.ZONE_GAS, GroupScheme.ZONE_DUST}
    and group is not Group.IIB_H2
}
_LONGEST_BRACKET = 40  # tokens


def read_ex(tokens: Tokens, index: int) -> Found | None:
    """`Ex db eb ib [ia Ga]`, `Ex db+ib`, `Ex tD A21`: the mark, its types, its brackets.

    `1Ex d`: the digit in front is the level of GOST plates.
    """
    digit = _DIGITS.get(tokens.at(index).text)
    if digit is not None and not tokens.at(index + 1).spaced:
        inner = read_ex(tokens, index + 1) if tokens.at(index + 1).low in _MARKS else None
        return ((*inner[0], Levels((digit,))), inner[1]) if inner else None
    mark = _MARKS.get(tokens.at(index).low)
    if mark is None:
        return None
    at = index + 1
    if glued_dash(tokens, at) and _types_at(tokens, at + 1)[0]:
        at += 1
    types: list[str] = []
    brackets: list[Word] = []
    signs: set[str] = set()
    practice = None
    while True:
        sign, then = _sign(tokens, at, first=not types)
        letters, behind = _types_at(tokens, then)
        if letters:
            signs |= {sign} if types else set()
            signs |= {""} if len(letters) > 1 else set()
            types.extend(letters)
        elif sign == "" and (bracket := read_bracket(tokens, at)) is not None:
            brackets.extend(bracket[0])
            behind = bracket[1]
        elif sign == "" and types and tokens.at(at).text in _PRACTICES:
            practice, behind = tokens.at(at).text, at + 1
        elif sign == "" and types and _is_zone_of(tokens.at(at).text, types[-1]):
            behind = at + 1  # says what the letters say
        else:
            break
        at = behind
    broken = bool(types and sign) and tokens.at(then).text[:1].islower()
    if broken and not tokens.at(then).spaced:  # `Ex ia/zz`: the weaker of the two may be lost
        return (Types(mark, ()), *brackets, Unread(tokens.between(index, then + 1))), then + 1
    own = Types(mark, tuple(types), joined=signs == {"+"}, practice=practice)
    mixed = (Unread(tokens.between(index, at)),) if "+" in signs and len(signs) > 1 else ()
    return (own, *brackets, *mixed), at


def _is_zone_of(text: str, letter: str) -> bool:
    """Whether the number is the zone that an old dust type serves: `iaD 20` (IEC 61241-11)."""
    kind = find_type(letter) if letter.endswith("D") and text in _DUST_ZONES else None
    return kind is not None and kind.dust.value == zone_letter(int(text))


def _sign(tokens: Tokens, index: int, *, first: bool) -> tuple[str, int]:
    """What stands between two types: `+` joins them, a comma, slash or dash lists them."""
    text = tokens.at(index).text
    if not first and (text in {"+", ",", "/", "&"} or glued_dash(tokens, index)):
        return text, index + 1
    return "", index


def _types_at(tokens: Tokens, index: int) -> tuple[tuple[str, ...], int]:
    """The types of the word at `index` (`db`, `de`, `op is`), none where it is no type."""
    word = tokens.at(index)
    if word.text == "op" and word.text + tokens.at(index + 1).text in _OPTICAL:
        return (_OPTICAL["op" + tokens.at(index + 1).text],), index + 2
    if word.text in _OPTICAL:
        return (_OPTICAL[word.text],), index + 1
    if word.text == _TRACE_HEATING[0] and _is_trace_heating(tokens, index):
        return ("".join(_TRACE_HEATING),), index + len(_TRACE_HEATING)
    found = split_types(word.text) if word.text[:1].isalpha() else None
    return (found, index + 1) if found else ((), index)


# Trace heating bears the number of its standard where others bear a letter.
_TRACE_HEATING = ("60079", "-", "30", "-", "1")


def _is_trace_heating(tokens: Tokens, index: int) -> bool:
    return all(tokens.at(index + i).text == part for i, part in enumerate(_TRACE_HEATING))


def read_dip(tokens: Tokens, index: int) -> Found | None:
    """`DIP A21 TA,T6`, `DIP A21 TA 85 °C`: dust protection as written before `tD` (IEC 61241-1-1).

    A class behind `TA` names the surface temperature of practice A.
    """
    at = index + (tokens.at(index).low in _MARKS)
    practice = tokens.at(at + 1).text
    if tokens.at(at).text != "DIP" or practice not in _PRACTICES:
        return None
    own = Types("Ex", ("tD",), practice=practice)
    found = tokens.phrase(at + 2, _TA)
    if found is None:
        return (own,), at + 2
    while tokens.at(found).text in {",", ":", "="}:
        found += 1
    limit = class_limits().get(tokens.at(found).text)
    if limit is not None:
        return (own, Temperature(TemperatureMark(limit))), found + 1
    degrees = read_degrees(tokens, found)
    value = degrees[0].celsius(ROUND_CEILING) if degrees and degrees[0].unit else None
    if degrees is None or value is None:
        return (own, Unread(tokens.between(at + 2, found))), found
    return (own, Temperature(TemperatureMark(value))), degrees[1]


_TA = pattern(r"T ?[AB](?![A-Za-z])")


def read_bracket(tokens: Tokens, index: int) -> Found | None:
    """`[Ex ia Ga]`, `[ia IIC Ga]`: protected circuits that leave the equipment.

    What is not read in the bracket is reported, and never counts outside.
    """
    if tokens.at(index).text != "[":
        return None
    types: list[str] = []
    groups: list[Group] = []
    levels: list[Level] = []
    wrong: list[Word] = []
    mark = ""
    at = index + 1
    while at < min(len(tokens), index + _LONGEST_BRACKET) and tokens.at(at).text != "]":
        text = tokens.at(at).text
        letters, behind = _types_at(tokens, at)
        group = _group_at(tokens, at)
        if letters:
            types.extend(letters)
        elif group is not None:
            groups.append(group[0])
            behind = group[1]
        elif text in _LEVELS:
            levels.append(_LEVELS[text])
        elif text.lower() in _MARKS:
            mark = _MARKS[text.lower()]
        elif text not in {",", "/"} and not _class_of_light(text, types):
            wrong.append(Unread(text))
        at = max(behind, at + 1)
    if tokens.at(at).text != "]":
        wrong.append(Unread("[ without ]"))
    behind = min(at + 1, len(tokens))
    if not types:
        wrong.append(Unread(tokens.between(index, behind)))
    return (*_brackets(tuple(types), groups, levels, mark), *wrong), behind


def _class_of_light(text: str, types: list[str]) -> bool:
    """Whether it is the class of the light that leaves: IEC 60079-28:2015 6, from memory."""
    return text in zone_classes() and any(each.startswith("op ") for each in types)


def _brackets(
    types: tuple[str, ...], groups: list[Group], levels: list[Level], mark: str
) -> list[Word]:
    """One for each hazard whose level is printed, `[ia Ga/Da]`; the weakest level counts."""
    found: list[Word] = []
    for hazard in dict.fromkeys(level.hazard for level in levels):
        worst = max((x for x in levels if x.hazard is hazard), key=lambda level: level.rank)
        own = frozenset(group for group in groups if group.hazard is hazard)
        found.append(Bracket(Output(types, own, worst), mark))
    return found or [Bracket(Output(types, frozenset(groups)), mark)]


def read_zone_group(tokens: Tokens, index: int) -> Found | None:
    """`IIB`, `Group IIC`, `II C`, `IIB+H2`, `IIB + CS2`."""
    at = index
    if tokens.at(at).low == "gas":
        at += 1
    if tokens.at(at).low in GROUP_WORDS:
        at = behind_dot(tokens, at + 1)
    elif at > index:
        return None
    found = _group_at(tokens, at)
    if found is None:
        return None
    group, at = found
    extra: list[str] = []
    while tokens.at(at).text == "+" and (name := gas_name(tokens.at(at + 1).text)):
        extra.append(name)
        at += 2
    return (ZoneGroup(group, tuple(extra)),), at


def _group_at(tokens: Tokens, index: int) -> tuple[Group, int] | None:
    """A group as such: `IIB`, `II B`, `IIB+H2`."""
    text = tokens.at(index).text
    group = _ZONE_GROUPS.get(text.upper() if text.startswith("ii") else text)
    if group is None:
        return None
    index += glued_dash(tokens, index + 1) and tokens.at(index + 2).text in {"A", "B", "C"}
    after = tokens.at(index + 1).text
    if after in {"A", "B", "C"} and text + after in _ZONE_GROUPS:
        group, index = _ZONE_GROUPS[text + after], index + 1
    joined = tokens.at(index + 1).text == "+" or glued_dash(tokens, index + 1)
    is_sum = group is Group.IIB and joined
    if is_sum and tokens.at(index + 2).low in {"h2", "hydrogen"}:
        return Group.IIB_H2, index + 3
    return group, index + 1


# A misprint of one, or of the dash for none: no other word of a plate is like it.
_LIKE_LEVEL = pattern(r"\w?[GDM]\w{0,2}|[^\W0-9XUI]")


def read_level(tokens: Tokens, index: int) -> Found | None:
    """`Gb`, or the pair `Ga/Gb`; `-/Gb` and `Gb/-` have one side without protection."""
    first = _LEVELS.get(tokens.at(index).text)
    if first is None:
        signs = tokens.at(index).text + tokens.at(index + 1).text
        outer = _LEVELS.get(tokens.at(index + 2).text) if signs == "-/" else None
        return ((Levels((outer,), PartSide.PROCESS),), index + 3) if outer else None
    if _dash_behind(tokens, index + 1):
        return (Levels((first,), PartSide.OUTER),), index + 3
    second = _LEVELS.get(tokens.at(index + 2).text)
    if tokens.at(index + 1).text != "/":
        return (Levels((first,)),), index + 1
    if second is not None:
        return (Levels((first, second)),), index + 3
    broken = tokens.at(index + 2)
    if _LIKE_LEVEL.fullmatch(broken.text) and not broken.spaced:
        weakest = max((x for x in Level if x.hazard is first.hazard), key=lambda x: x.rank)
        unread = Unread(tokens.between(index, index + 3))  # the weaker half of the two is lost
        dash = tokens.at(index + 3).text == "-"
        half = Levels((first,), PartSide.OUTER) if dash else Levels((first, weakest))
        return (half, unread), index + 3
    return (Levels((first,)),), index + 1
