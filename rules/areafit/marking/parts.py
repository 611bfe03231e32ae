"""The elements of one code, sorted by what they say."""

from typing import TYPE_CHECKING

from areafit.facts.marking import Output, Problem
from areafit.marking import clauses
from areafit.marking.blocks import Block
from areafit.marking.elements import (
    AmbientMark,
    Associated,
    Box,
    CategoryItem,
    CategoryMark,
    ClassWord,
    DivisionWord,
    Element,
    Fault,
    Gas,
    Ingress,
    Letters,
    LevelMark,
    PurgeDetail,
    PurgeMark,
    SafePlace,
    SuffixMark,
    Temperature,
    Trade,
    Types,
    Unread,
    ZoneGroup,
    ZoneWord,
)
from areafit.marking.near import meant

if TYPE_CHECKING:
    from areafit.facts.groups import Group
    from areafit.facts.protection import Level, Purge, Suffix


class Parts:
    """What one block says. Every list keeps the order of the plate."""

    def __init__(self, *, circuits: bool) -> None:
        self.circuits = circuits
        self.classes: list[str] = []
        self.divisions: list[tuple[int, ...]] = []
        self.zones: list[int | None] = []
        self.letters: list[frozenset[Group]] = []
        self.groups: list[Group] = []
        self.extra: list[str] = []
        self.gases: list[str] = []
        self.types: list[Types] = []
        self.box_marks: list[str] = []
        self.outputs: list[Output] = []
        self.heat: list[Temperature | AmbientMark] = []
        self.levels: list[tuple[Level, ...]] = []
        self.equipment_group: str | None = None
        self.categories: list[CategoryItem] = []
        self.ingress: list[str] = []
        self.suffixes: list[Suffix] = []
        self.purges: list[Purge] = []
        self.contents: str | None = None
        self.action: str | None = None
        self.words: list[str] = []
        self.associated: bool = False
        self.safe_place: bool = False
        self.problems: list[Problem] = []

    @property
    def marks(self) -> set[str]:
        """`Ex`, `EEx`, `AEx` in the code, brackets included; empty text for EN 13463 letters."""
        return {types.mark for types in self.types} | set(self.box_marks)


def sort(block: Block) -> Parts:
    """The block's elements by kind."""
    parts = Parts(circuits=block.circuits)
    for element in block.elements:
        if not (_add_place(parts, element) or _add_code(parts, element)):
            _add_plate(parts, element)
    return parts


def _add_place(parts: Parts, element: Element) -> bool:
    match element:
        case ClassWord(classes):
            parts.classes.extend(classes)
        case DivisionWord(divisions):
            parts.divisions.append(divisions)
        case ZoneWord(zone):
            parts.zones.append(zone)
        case Letters(groups):
            parts.letters.append(groups)
        case Associated():
            parts.associated = True
        case SafePlace():
            parts.safe_place = True
        case Trade(word):
            parts.words.append(word)
        case _:
            return False
    return True


def _add_code(parts: Parts, element: Element) -> bool:
    match element:
        case ZoneGroup(group, extra):
            parts.groups.append(group)
            parts.extra.extend(extra)
        case Gas(name):
            parts.gases.append(name)
        case Types():
            parts.types.append(element)
        case Box(output, mark):
            parts.outputs.append(output)
            parts.box_marks += [mark] if mark else []
        case LevelMark(levels):
            parts.levels.append(levels)
        case CategoryMark(group, items):
            parts.equipment_group = group
            parts.categories.extend(items)
        case _:
            return False
    return True


def _add_plate(parts: Parts, element: Element) -> None:
    match element:
        case Temperature() | AmbientMark():
            parts.heat.append(element)
        case Ingress(text):
            parts.ingress.append(text)
        case SuffixMark(suffix):
            parts.suffixes.append(suffix)
        case PurgeMark(purge):
            parts.purges.append(purge)
        case PurgeDetail(contents, action):
            parts.contents = contents or parts.contents
            parts.action = action or parts.action
        case Fault(message, clause):
            parts.problems.append(Problem(message, clause))
        case Unread(text, why):
            hint = " or ".join(meant(text))
            says = f"{hint}?" if hint else "copy it as it is printed."
            message = why or f"{text!r} could not be read; {says}"
            parts.problems.append(Problem(message, clauses.NOT_READ, unread=True))
        case _:
            pass
