"""Elements of a plate, gathered code by code.

A new code begins where a word can only begin one (a category, a class, a second `Ex`). Separators
decide nothing: plates break lines anywhere.
"""

from dataclasses import dataclass, field

from areafit.marking.elements import (
    AmbientMark,
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
    Provides: (object,),
}


@dataclass(slots=True)
class Block:
    """The elements of one code; `circuits` where they describe what the equipment feeds."""

    circuits: bool = False
    elements: list[Element] = field(default_factory=list)

    def has(self, *kinds: type) -> bool:
        """Whether an element of one of the kinds is in the block."""
        return any(isinstance(element, kinds) for element in self.elements)


def gather(elements: tuple[Element, ...]) -> list[Block]:
    """The codes of a plate, in order. Behind `provides … circuits to` nothing is a housing."""
    blocks = [Block()]
    for element in elements:
        if isinstance(element, ClassWord):
            _old_prefix(blocks[-1])
        if _begins(blocks[-1], element):
            blocks.append(Block(blocks[-1].circuits or isinstance(element, Provides)))
        blocks[-1].elements.append(element)
    return blocks


def _begins(block: Block, element: Element) -> bool:
    if isinstance(element, Types) and not element.mark:
        return False
    if isinstance(element, Box):
        return element.marked and block.has(ZoneGroup, LevelMark, DivisionWord)
    return block.has(*_CLOSED_BY.get(type(element), ()))


def _old_prefix(block: Block) -> None:
    """`Exia Class I`: the old mark of intrinsic safety in front of a class says a word."""
    bodies = [element for element in block.elements if isinstance(element, (*_BODY, ZoneGroup))]
    if len(bodies) == 1 and bodies[0] == Types("Ex", ("ia",)):
        block.elements = [e for e in block.elements if e is not bodies[0]]
        block.elements.append(Trade(INTRINSICALLY_SAFE))


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
    for number, segment in enumerate(segments):
        alone = len(segments) > 1 and all(isinstance(e, _PLATE_WIDE) for e in segment)
        last = number > 0 and not any(segments[number + 1 :])
        found += [e for e in segment if alone and (last or not isinstance(e, Temperature))]
    return tuple(found)
