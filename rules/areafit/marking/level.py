"""Types of protection by their letters, and the level that a code really promises.

It promises the lowest level of its types, capped by what is printed.
"""

from functools import cache, lru_cache

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Output
from areafit.facts.protection import Hazard, Level, MarkingSystem
from areafit.tables.area import Gives, ProtectionType, TypeFamily
from areafit.tables.load import rows

# Left out of compounds: alone they are types, but as a second letter they would be ambiguous
# (`dc` is one type, not d and c; `op` is not o and p).
_NEVER_JOINED = frozenset({"s", "h", "v", "t", "n", "i"})
# The level behind a letter that has no other (IEC 60079-15:2010), and the N of before 1980.
_OTHER_SPELLINGS = {"nAc": "nA", "nCc": "nC", "nLc": "nL", "nRc": "nR", "N": "n"}
_LONGEST = 12  # letters of a compound; longer words are no compounds
_PRACTICE = {"0": "a", "1": "b", "2": "c"}
_NUMBERS = {"1": "a", "2": "b", "3": "c"}


@cache
def _known_types(family: TypeFamily) -> dict[str, ProtectionType]:
    """The types of one family by their letters."""
    table = rows("protection_types", ProtectionType)
    return {row.letter: row for row in table if row.family is family}


def find_type(letter: str, *, non_electrical: bool = False) -> ProtectionType | None:
    """The row of a type, None for letters that are none."""
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    return _known_types(family).get(letter)


@lru_cache(maxsize=1024)
def split_types(word: str, *, non_electrical: bool = False) -> tuple[str, ...] | None:
    """The types that a word stands for, `de` for d and e; None unless there is exactly one way."""
    word = _OTHER_SPELLINGS.get(word, word)
    if find_type(word, non_electrical=non_electrical):
        return (word,)
    if len(word) > _LONGEST:
        return None
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    letters = frozenset(_known_types(family)) - _NEVER_JOINED
    ways: list[list[tuple[str, ...]]] = [[()]]
    for stop in range(1, len(word) + 1):
        ends = [word[start:stop] for start in range(max(0, stop - 3), stop)]
        ways.append([(*w, e) for e in ends if e in letters for w in ways[stop - len(e)]])
    return ways[-1][0] if len(ways[-1]) == 1 else None


def zone_hazard(zone: int) -> Hazard:
    """What may be ignited in a zone: gas in 0, 1 and 2, dust in 20, 21 and 22."""
    return Hazard.DUST if zone >= 20 else Hazard.GAS


def zone_letter(zone: int) -> str:
    """The level letter that a zone asks for: `a` for 0 and 20."""
    return "abc"[zone % 10]


def category_letter(category: str) -> str:
    """`b` for `2G` and `M2`."""
    return _NUMBERS[category.strip("MGD")]


def effective_level(code: Code) -> Level | None:
    """The EPL that the housing can be relied on for, None where the code does not show one.

    It is the lowest of all types outside brackets (IEC 60079-0:2017, 29.6), never above the
    printed EPL, the category or the NEC zone. Two types joined with `+` may reach a printed Ga
    (IEC 60079-26:2014, 4.2). A type without a level of its own (`h`, `op is`, EN 13463 letters)
    has the printed one. What faces the process of a pair has the one printed for it: a wall may
    part a type b from the process (IEC 60079-26:2014 4.3). A side for which a dash stands has none,
    and Division codes have no EPL.
    """
    if code.system is MarkingSystem.NEC_DIVISION or code.on_bare_side:
        return None
    printed = _printed(code)
    types = type_levels(code)
    if printed is None or types is None or not (printed or types):
        return None
    if joined_to_ga(code) or code.faces_process:
        types = []
    zone = []
    if code.zone is not None:
        if zone_hazard(code.zone) is not code.hazard:
            return None
        zone = [zone_letter(code.zone)]
    value = _prefix(code) + max([*printed, *types, *zone])
    return next((level for level in Level if level.value == value), None)  # mines know no third


def _printed(code: Code) -> list[str] | None:
    """Letters of the printed EPL and of the category; None where one is for another hazard."""
    letters = []
    if code.level is not None:
        if code.level.value[0] != _prefix(code):
            return None
        letters.append(code.level.value[1])
    if code.category is not None:
        if code.category.strip("123") != _prefix(code):
            return None
        letters.append(category_letter(code.category))
    return letters


def _prefix(code: Code) -> str:
    if code.equipment_group == "I" or code.groups == {Group.I}:
        return "M"
    return "D" if code.hazard is Hazard.DUST else "G"


def type_levels(code: Code) -> list[str] | None:
    """The level letters of the types, without those that leave it to the print.

    None where the code has no type, or one that is not for the hazard at all. Dust equipment of
    EN 50281 had no type: its category alone says the level.
    """
    if not code.protection:
        bare_dust = code.legacy and code.category and code.hazard is Hazard.DUST
        return [] if bare_dust and not code.associated else None
    letters = []
    for letter in code.protection:
        gives = type_gives(code, letter)
        if gives is Gives.NONE:
            return None
        if gives is Gives.BY_PRACTICE:
            if code.practice is None:
                continue
            letters.append(_PRACTICE[code.practice[2]])
        elif gives is not Gives.AS_PRINTED:
            letters.append(gives.value)
    return letters


def type_gives(code: Code, letter: str) -> Gives:
    """What a type gives for the hazard of the code."""
    row = type_of(code, letter)
    return Gives.NONE if row is None else row.gives(code.hazard)


def type_of(code: Code, letter: str) -> ProtectionType | None:
    """The row of one of the code's types."""
    return find_type(letter, non_electrical=is_old_mechanical(code))


def is_old_mechanical(code: Code) -> bool:
    """Whether the letters are those of EN 13463, which have no `Ex` in front."""
    return code.non_electrical and "h" not in code.protection


def joined_to_ga(code: Code) -> bool:
    """Two different types of Gb or better, joined with `+`, under a printed Ga."""
    types = type_levels(code)
    return (
        code.joined
        and code.level is Level.GA
        and len({letter[0] for letter in code.protection}) > 1
        and types is not None
        and len(types) == len(code.protection)
        and max(types) <= "b"
    )


def output_types_letter(output: Output) -> str | None:
    """The level letter that the types of a bracket give, None where they give none."""
    dust = output.level is not None and output.level.hazard is Hazard.DUST
    types = [row for letter in output.protection if (row := find_type(letter)) is not None]
    gives = [row.dust if dust or row.gas is Gives.NONE else row.gas for row in types]
    return max((g.value for g in gives if g in {Gives.A, Gives.B, Gives.C}), default=None)


def output_letter(output: Output) -> str | None:
    """The level letter of a bracketed circuit: the printed one, never better than its types'."""
    given = output_types_letter(output)
    if output.level is None:
        return given
    return max(output.level.value[1], given or "a")
