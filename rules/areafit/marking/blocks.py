"""The words of a plate, gathered code by code.

A new code begins where a word can only begin one (a category, a class, a second `Ex`). Separators
decide nothing: plates break lines anywhere.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from areafit.facts.groups import Group
from areafit.facts.marking import Output, PartSide, Problem
from areafit.facts.protection import Level
from areafit.marking import clauses
from areafit.marking.north_america import INTRINSICALLY_SAFE
from areafit.marking.temperature import zone_classes
from areafit.marking.words import (
    Ambient,
    Associated,
    Bracket,
    CategoryMark,
    ClassWord,
    DivisionWord,
    Fault,
    Filler,
    Gas,
    GroupLetters,
    Ingress,
    Levels,
    ProvidesCircuits,
    PurgeDetail,
    PurgeMark,
    SafePlace,
    Separator,
    SuffixMark,
    Temperature,
    TradeWord,
    Types,
    Unread,
    Word,
    ZoneGroup,
    ZoneWord,
)
from areafit.values import Term

if TYPE_CHECKING:
    from areafit.facts.protection import Purge, Suffix
    from areafit.marking.words import CategoryItem

SILENT = (Filler, Separator, Fault, Unread)
TAIL = (Temperature, Ambient, Ingress, SuffixMark)
OF_PLATE = (TradeWord("factory sealed"), TradeWord("installed by its drawing"))
"""Where they close a plate they are of the whole of it, whatever its codes."""
_BODY = (ClassWord, DivisionWord, ZoneWord, Types, Bracket, CategoryMark)
_BESIDE = (TradeWord, Associated, SafePlace, PurgeMark, PurgeDetail)
# What must not stand in the code before a word of the given kind joins it.
_CLOSED_BY: dict[type, tuple[type, ...]] = {
    ClassWord: (ClassWord, ZoneWord, Types, Bracket, CategoryMark),
    DivisionWord: (DivisionWord, Types, Bracket, CategoryMark),
    ZoneWord: (ZoneWord, DivisionWord, Types, Bracket, CategoryMark),
    Types: (DivisionWord, Types, Bracket),
    CategoryMark: (*_BODY, ZoneGroup),
}
_NO_TYPES = Types("", ())
_UNCLEAR = Unread(
    "", "A word stands between two codes and may belong to either; set a semicolon before it."
)


class CodeBlock:
    """What the words of one code say, in the order of the plate.

    `circuits` where they describe what the equipment feeds; `problems` is added to by whoever
    makes codes of the block.
    """

    def __init__(self, *, circuits: bool = False) -> None:
        self.circuits = circuits
        self.classes: list[str] = []
        self.divisions: list[tuple[int, ...]] = []
        self.zones: list[int | None] = []
        self.inner_zone: int | None = None
        self.letters: list[frozenset[Group]] = []
        self.groups: list[ZoneGroup] = []
        self.gases: list[str] = []
        self.types: list[Types] = []
        self.brackets: list[Bracket] = []
        self.temperatures: list[Temperature | Ambient] = []
        self.levels: list[tuple[Level, ...]] = []
        self.bare: list[PartSide] = []
        self.equipment_group: str | None = None
        self.categories: list[CategoryItem] = []
        self.ingress: list[str] = []
        self.suffixes: list[Suffix] = []
        self.purges: list[Purge] = []
        self.purge_contents: str | None = None
        self.purge_action: str | None = None
        self.trade_words: list[str] = []
        self.associated = False
        self.safe_place = False
        self.unread: list[Fault | Unread] = []
        self.problems: list[Problem] = []
        # Trade words in front of the class: `IS Class I …; Class II …` may speak of both.
        self.leading_words: tuple[str, ...] = ()
        # Temperatures, ambient and enclosure behind every other word of the code.
        self.tail: list[Word] = []
        self._kinds: set[type] = set()

    def add(self, word: Word) -> None:  # noqa: C901, PLR0912 - one case for each word
        """One more word of this code."""
        self._kinds.add(type(word))
        if isinstance(word, TAIL) or word in OF_PLATE:
            self.tail.append(word)
        elif isinstance(word, Unread) or not isinstance(word, SILENT):
            self.tail = []
        match word:
            case ClassWord(classes):
                self.leading_words = self.leading_words or tuple(self.trade_words)
                self.classes.extend(classes)
            case DivisionWord(divisions):
                self.divisions.append(divisions)
            case ZoneWord(zone, inner):
                self.zones.append(zone)
                self.inner_zone = inner
            case GroupLetters(groups):
                self.letters.append(groups)
            case ZoneGroup():
                self.groups.append(word)
            case Gas(name):
                self.gases.append(name)
            case Types():
                self.types.append(word)
            case Bracket():
                self.brackets.append(word)
            case Temperature() | Ambient():
                self.temperatures.append(word)
            case Levels(levels, bare):
                self.levels.append(levels)
                self.bare.extend([bare] if bare else [])
            case CategoryMark(group, items):
                self.equipment_group = group
                self.categories.extend(items)
            case Ingress(text):
                self.ingress.append(text)
            case SuffixMark(suffix):
                self.suffixes.append(suffix)
            case PurgeMark(purge):
                self.purges.append(purge)
            case PurgeDetail(contents, action):
                self.purge_contents = contents or self.purge_contents
                self.purge_action = action or self.purge_action
            case TradeWord(text):
                self.trade_words.append(text)
            case Associated():
                self.associated = True
            case SafePlace():
                self.safe_place = True
            case Fault() | Unread():
                self.unread.append(word)

    def has(self, *kinds: type) -> bool:
        """Whether a word of one of the kinds is in the block."""
        return not self._kinds.isdisjoint(kinds)

    def replace_old_mark(self) -> None:
        """`Exia Class I`: the old mark of intrinsic safety in front of a class says a word."""
        old = Types("Ex", ("ia",))
        if self._kinds.isdisjoint({*_BODY, ZoneGroup} - {Types}) and self.types.count(old) == 1:
            self.types.remove(old)
            self._kinds.discard(Types)
            self.add(TradeWord(INTRINSICALLY_SAFE))

    @property
    def protection(self) -> Types:
        """The types outside brackets, with their mark; empty where there are none."""
        return self.types[0] if self.types else _NO_TYPES

    @property
    def outputs(self) -> list[Output]:
        """The circuits in square brackets."""
        return [bracket.output for bracket in self.brackets]

    @property
    def marks(self) -> set[str]:
        """`Ex`, `EEx`, `AEx` in the code, brackets included; empty text for EN 13463 letters."""
        inside = {bracket.mark for bracket in self.brackets if bracket.mark}
        return {types.mark for types in self.types} | inside


def gather(words: Sequence[Word]) -> list[CodeBlock]:
    """The codes of a plate, in order. Behind `provides … circuits to` nothing is a housing."""
    blocks = [CodeBlock()]
    for index, word in enumerate(words):
        block = blocks[-1]
        if isinstance(word, ClassWord):
            block.replace_old_mark()
        side = _Side.HERE
        if isinstance(word, _BESIDE) and block.has(*_BODY):
            side = _side(block, words, index)
        circuits = isinstance(word, ProvidesCircuits)
        if circuits or side is _Side.NEXT or _begins(block, word):
            blocks.append(CodeBlock(circuits=block.circuits or circuits))
        blocks[-1].add(_UNCLEAR if side is _Side.UNCLEAR else word)
    _carry_safe(blocks)
    return blocks


def _carry_safe(blocks: list[CodeBlock]) -> None:
    """`Exia Class I, Division 1 …; Class II, Division 1 …`: the mark in front speaks of both.

    Not of another division, nor of a code with a word of its own.
    """
    first = next((block for block in blocks if block.classes), None)
    if first is None or INTRINSICALLY_SAFE not in first.leading_words:
        return
    for block in blocks:
        other = not set(block.classes) <= set(first.classes) and not block.has(ZoneWord, Types)
        alike = not block.divisions or block.divisions == first.divisions
        if other and alike and not (block.trade_words or block.circuits):
            block.trade_words.append(INTRINSICALLY_SAFE)


class _Side(Term):
    """Where a word belongs that stands between two codes."""

    HERE = "here"
    NEXT = "next"
    UNCLEAR = "unclear"


def _side(block: CodeBlock, words: Sequence[Word], index: int) -> _Side:
    """Which code a word belongs to that stands between two: separators must tell."""
    ahead = index + 1
    while ahead < len(words) and isinstance(words[ahead], (*_BESIDE, *SILENT)):
        ahead += 1
    if ahead == len(words) or not _begins(block, words[ahead]):
        return _Side.HERE
    back = index - 1
    while isinstance(words[back], (*_BESIDE, *SILENT)):
        back -= 1
    before = Separator(strong=True) in words[back:index]
    after = Separator(strong=True) in words[index:ahead]
    if before is after:
        return _Side.UNCLEAR
    return _Side.NEXT if before else _Side.HERE


def _begins(block: CodeBlock, word: Word) -> bool:
    if isinstance(word, Types) and not word.mark:
        return False
    if isinstance(word, Bracket):
        return bool(word.mark) and block.has(ZoneGroup, Levels, DivisionWord)
    return block.has(*_CLOSED_BY.get(type(word), ()))


def problem_of(word: Fault | Unread) -> Problem:
    """What is wrong with words that were not read, or that cannot be right."""
    if isinstance(word, Fault):
        return Problem(word.message, word.clause)
    hint = " or ".join(_similar(word.text))
    says = f"{hint}?" if hint else "copy it as it is printed."
    message = word.why or f"{word.text!r} could not be read; {says}"
    return Problem(message, clauses.NOT_READ, unread=True)


_GROUPS = frozenset(group.value for group in Group if len(group.value) > 1)
_LEVELS = frozenset(level.value for level in Level)
# `Ta` is the ambient temperature, and there is no type ea.
_TYPES = frozenset(
    letter + level for letter in "demiostq" for level in "abc" if letter + level not in ("ea", "ta")
) | {"px", "py", "pz", "pxb", "pyb", "pzc", "nA", "nC", "nR"}
# `l`, `1` and `|` are what copying makes of the capital I of a group.
_LOOKALIKES = str.maketrans({"l": "I", "1": "I", "|": "I", "i": "I"})


def _similar(text: str) -> Sequence[str]:
    """The words that a text was most likely meant to be; none where it is such a word itself."""
    known = _GROUPS | _LEVELS | _TYPES | zone_classes()
    if text in known:
        return ()
    found = {word for word in known if word.casefold() == text.casefold()}
    group = text.translate(_LOOKALIKES).upper()
    return sorted(found | ({group} & _GROUPS))
