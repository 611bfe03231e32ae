"""Readers of codes that start with `Ex`: types, square brackets, groups, levels, gases."""

from areafit.facts.groups import Group, GroupScheme
from areafit.facts.marking import Output
from areafit.facts.protection import Hazard, Level
from areafit.marking.elements import (
    Box,
    Element,
    Filler,
    Found,
    LevelMark,
    Types,
    Unread,
    ZoneGroup,
)
from areafit.marking.gases import gas_name
from areafit.marking.letters import find_type, split_types
from areafit.marking.readers_na import GROUP_WORDS, behind_dot
from areafit.marking.text import Tokens

_MARKS = {"Ex": "Ex", "EX": "Ex", "ex": "Ex", "EEx": "EEx", "EEX": "EEx", "AEx": "AEx"}
_OPTICAL = {"opis": "op is", "opsh": "op sh", "oppr": "op pr"}
_PRACTICES = frozenset({"A20", "A21", "A22", "B20", "B21", "B22"})
_ZONE_LETTERS = {"20": "a", "21": "b", "22": "c"}
_LEVELS = {level.value: level for level in Level}
_ZONE_GROUPS: dict[str, Group] = {
    group.value: group
    for group in Group
    if group.scheme in {GroupScheme.MINES, GroupScheme.ZONE_GAS, GroupScheme.ZONE_DUST}
    and group is not Group.IIB_H2
}
_LONGEST_BOX = 40  # tokens


def group_hazard(group: Group) -> Hazard:
    """Dust for III, gas for I and II."""
    return Hazard.DUST if group.scheme is GroupScheme.ZONE_DUST else Hazard.GAS


def read_ex(tokens: Tokens, index: int) -> Found | None:
    """`Ex db eb ib [ia Ga]`, `Ex db+ib`, `Ex tD A21`: the mark, its types, its brackets."""
    mark = _MARKS.get(tokens.at(index).text)
    if mark is None:
        return None
    if _starts_category(tokens, index + 1):
        return (Filler(),), index + 1  # the Community mark in front of a category
    at = index + 1
    types: list[str] = []
    boxes: list[Element] = []
    signs: set[str] = set()
    practice = None
    while True:
        sign, then = _sign(tokens, at, first=not types)
        letters, behind = types_at(tokens, then)
        if letters:
            signs |= {sign} if types else set()
            signs |= {""} if len(letters) > 1 else set()
            types.extend(letters)
        elif sign == "" and tokens.at(at).text == "[":
            box, behind = _box(tokens, at)
            boxes.extend(box)
        elif sign == "" and types and tokens.at(at).text in _PRACTICES:
            practice, behind = tokens.at(at).text, at + 1
        elif sign == "" and types and _is_zone_of(tokens.at(at).text, types[-1]):
            behind = at + 1  # says what the letters say
        else:
            break
        at = behind
    own = Types(mark, tuple(types), joined=signs == {"+"}, practice=practice)
    mixed = (Unread(tokens.between(index, at)),) if "+" in signs and len(signs) > 1 else ()
    return (own, *boxes, *mixed), at


def _is_zone_of(text: str, letter: str) -> bool:
    """Whether the number is the zone that an old dust type serves: `iaD 20` (IEC 61241-11)."""
    kind = find_type(letter) if letter.endswith("D") and text in _ZONE_LETTERS else None
    return kind is not None and kind.dust.value == _ZONE_LETTERS[text]


def _sign(tokens: Tokens, index: int, *, first: bool) -> tuple[str, int]:
    """What stands between two types: `+` joins them, a comma or slash lists them."""
    text = tokens.at(index).text
    if not first and text in {"+", ",", "/"}:
        return text, index + 1
    return "", index


def types_at(tokens: Tokens, index: int) -> tuple[tuple[str, ...], int]:
    """The types of the word at `index` (`db`, `de`, `op is`), none where it is no type."""
    word = tokens.at(index)
    if word.text == "op" and word.text + tokens.at(index + 1).text in _OPTICAL:
        return (_OPTICAL["op" + tokens.at(index + 1).text],), index + 2
    if word.text in _OPTICAL:
        return (_OPTICAL[word.text],), index + 1
    found = split_types(word.text) if word.text[:1].isalpha() else None
    return (found, index + 1) if found else ((), index)


def _starts_category(tokens: Tokens, index: int) -> bool:
    after = tokens.at(index + 1)
    if tokens.at(index).text == "II":
        return after.is_number or after.text in {"(", "-"}
    return tokens.at(index).text == "I" and after.text in {"M1", "M2", "("}


def read_box(tokens: Tokens, index: int) -> Found | None:
    """`[Ex ia Ga]`, `[ia IIC Ga]`: protected circuits that leave the equipment."""
    if tokens.at(index).text != "[":
        return None
    return _box(tokens, index)


def _box(tokens: Tokens, index: int) -> Found:
    """The bracket at `index`. What is not read in it is reported, and never counts outside."""
    types: list[str] = []
    groups: list[Group] = []
    levels: list[Level] = []
    wrong: list[Element] = []
    mark = ""
    at = index + 1
    while at < min(len(tokens), index + _LONGEST_BOX) and tokens.at(at).text != "]":
        text = tokens.at(at).text
        letters, behind = types_at(tokens, at)
        group = _group_at(tokens, at)
        if letters:
            types.extend(letters)
        elif group is not None:
            groups.append(group[0])
            behind = group[1]
        elif text in _LEVELS:
            levels.append(_LEVELS[text])
        elif text in _MARKS:
            mark = _MARKS[text]
        elif text not in {",", "/"}:
            wrong.append(Unread(text))
        at = max(behind, at + 1)
    if tokens.at(at).text != "]":
        wrong.append(Unread("[ without ]"))
    behind = min(at + 1, len(tokens))
    if not types:
        wrong.append(Unread(tokens.between(index, behind)))
    return (*_boxes(tuple(types), groups, levels, mark), *wrong), behind


def _boxes(
    types: tuple[str, ...], groups: list[Group], levels: list[Level], mark: str
) -> list[Element]:
    """One box for each hazard whose level is printed, `[ia Ga/Da]`; the weakest level counts."""
    found: list[Element] = []
    for hazard in dict.fromkeys(level.hazard for level in levels):
        worst = max((x for x in levels if x.hazard is hazard), key=lambda level: level.rank)
        own = frozenset(group for group in groups if group_hazard(group) is hazard)
        found.append(Box(Output(types, own, worst), mark))
    return found or [Box(Output(types, frozenset(groups)), mark)]


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
    text, after = tokens.at(index).text, tokens.at(index + 1).text
    group = _ZONE_GROUPS.get(text)
    if group is None:
        return None
    if after in {"A", "B", "C"} and text + after in _ZONE_GROUPS:
        group, index = _ZONE_GROUPS[text + after], index + 1
    is_sum = group is Group.IIB and tokens.at(index + 1).text == "+"
    if is_sum and tokens.at(index + 2).low in {"h2", "hydrogen"}:
        return Group.IIB_H2, index + 3
    return group, index + 1


def read_level(tokens: Tokens, index: int) -> Found | None:
    """`Gb`, or the pair `Ga/Gb`."""
    first = _LEVELS.get(tokens.at(index).text)
    if first is None:
        return None
    second = _LEVELS.get(tokens.at(index + 2).text)
    if tokens.at(index + 1).text == "/" and second is not None:
        return (LevelMark((first, second)),), index + 3
    return (LevelMark((first,)),), index + 1
