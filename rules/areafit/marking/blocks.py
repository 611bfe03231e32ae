"""Elements of a plate, gathered code by code.

A new code begins where a word can only begin one (a category, a class, a second `Ex`). Separators
decide nothing: plates break lines anywhere.
"""

from areafit.marking.elements import (
    AmbientMark,
    Associated,
    Box,
    CategoryMark,
    ClassWord,
    DivisionWord,
    Element,
    Fault,
    Filler,
    Ingress,
    LevelMark,
    Provides,
    PurgeDetail,
    PurgeMark,
    SafePlace,
    Separator,
    SuffixMark,
    Temperature,
    Trade,
    Types,
    Unread,
    ZoneGroup,
    ZoneWord,
)
from areafit.marking.phrases import INTRINSICALLY_SAFE
from areafit.values import Term

_PLATE_WIDE = (Temperature, AmbientMark, Ingress, SuffixMark)
_SILENT = (Filler, Separator, Fault, Unread)
_BODY = (ClassWord, DivisionWord, ZoneWord, Types, Box, CategoryMark)
# What must not stand in the code before an element of the given kind joins it.
_CLOSED_BY: dict[type, tuple[type, ...]] = {
    ClassWord: (ClassWord, ZoneWord, Types, Box, CategoryMark),
    DivisionWord: (DivisionWord, Types, Box, CategoryMark),
    ZoneWord: (ZoneWord, DivisionWord, Types, Box, CategoryMark),
    Types: (DivisionWord, Types, Box),
    CategoryMark: (*_BODY, ZoneGroup),
}

_WORDS = (Trade, Associated, SafePlace, PurgeMark, PurgeDetail)
_UNCLEAR = Unread(
    "", "A word stands between two codes and may belong to either; set a semicolon before it."
)


class Side(Term):
    """Where a trade word belongs that stands between two codes."""

    HERE = "here"
    NEXT = "next"
    UNCLEAR = "unclear"


class Block:
    """The elements of one code; `circuits` where they describe what the equipment feeds."""

    def __init__(self, *, circuits: bool = False) -> None:
        self.circuits = circuits
        self.elements: list[Element] = []
        self.kinds: set[type] = set()

    def add(self, element: Element) -> None:
        """One more element of this code."""
        self.elements.append(element)
        self.kinds.add(type(element))

    def has(self, *kinds: type) -> bool:
        """Whether an element of one of the kinds is in the block."""
        return not self.kinds.isdisjoint(kinds)


def gather(elements: tuple[Element, ...]) -> list[Block]:
    """The codes of a plate, in order. Behind `provides … circuits to` nothing is a housing."""
    blocks = [Block()]
    for index, element in enumerate(elements):
        block = blocks[-1]
        if isinstance(element, ClassWord):
            _old_prefix(block)
        side = Side.HERE
        if isinstance(element, _WORDS) and block.has(*_BODY):
            side = _side(block, elements, index)
        circuits = isinstance(element, Provides)
        if circuits or side is Side.NEXT or _begins(block, element):
            blocks.append(Block(circuits=block.circuits or circuits))
        blocks[-1].add(_UNCLEAR if side is Side.UNCLEAR else element)
    return blocks


def _side(block: Block, elements: tuple[Element, ...], index: int) -> Side:
    """Which code a trade word belongs to that stands between two: separators must tell."""
    ahead = index + 1
    while ahead < len(elements) and isinstance(elements[ahead], (*_WORDS, *_SILENT)):
        ahead += 1
    if ahead == len(elements) or not _begins(block, elements[ahead]):
        return Side.HERE
    back = index - 1
    while isinstance(elements[back], (*_WORDS, *_SILENT)):
        back -= 1
    before = Separator(strong=True) in elements[back:index]
    after = Separator(strong=True) in elements[index:ahead]
    if before is after:
        return Side.UNCLEAR
    return Side.NEXT if before else Side.HERE


def _begins(block: Block, element: Element) -> bool:
    if isinstance(element, Types) and not element.mark:
        return False
    if isinstance(element, Box):
        return bool(element.mark) and block.has(ZoneGroup, LevelMark, DivisionWord)
    return block.has(*_CLOSED_BY.get(type(element), ()))


def _old_prefix(block: Block) -> None:
    """`Exia Class I`: the old mark of intrinsic safety in front of a class says a word."""
    old = Types("Ex", ("ia",))
    if block.kinds.isdisjoint({*_BODY, ZoneGroup} - {Types}) and block.elements.count(old) == 1:
        block.elements.remove(old)
        block.kinds.discard(Types)
        block.add(Trade(INTRINSICALLY_SAFE))


def plate_wide(elements: tuple[Element, ...]) -> tuple[Element, ...]:
    """Ambient, ingress and suffix that stand alone between semicolons or line breaks.

    A temperature counts only at the very end, `…; Class III; T4`, where it closes the list.
    """
    segments: list[list[Element]] = [[]]
    for element in elements:
        if element == Separator(strong=True):
            segments.append([])
        elif not isinstance(element, _SILENT):
            segments[-1].append(element)
    found: list[Element] = []
    alone = [all(isinstance(e, _PLATE_WIDE) for e in segment) for segment in segments]
    end = max((number for number, wide in enumerate(alone) if not wide), default=len(segments))
    for number, segment in enumerate(segments):
        if alone[number] and len(segments) > 1:
            found += [e for e in segment if number > end or not isinstance(e, Temperature)]
    return tuple(found)
