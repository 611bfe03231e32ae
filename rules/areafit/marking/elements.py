"""What readers find on a plate: one small value for each phrase, in the order of the text."""

from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import Output, TemperatureMark
from areafit.facts.protection import Hazard, Level, Purge, Suffix
from areafit.values import Frozen


class ClassWord(Frozen):
    """`Class I, II`: the North American classes named together."""

    classes: tuple[str, ...]


class DivisionWord(Frozen):
    """`Division 1`, `Divisions 1 and 2`; empty where the number does not exist."""

    divisions: tuple[int, ...]


class ZoneWord(Frozen):
    """`Zone 1`; None where the number does not exist."""

    zone: int | None


class Letters(Frozen):
    """`Groups A-D`: Division letters."""

    groups: frozenset[Group]


class ZoneGroup(Frozen):
    """`IIB`, `IIB+H2`; `extra` names gases served in addition that are no group of their own."""

    group: Group
    extra: tuple[str, ...] = ()


class Gas(Frozen):
    """The only gas that the equipment serves."""

    name: str


class Types(Frozen):
    """`Ex db eb`: the mark and the types outside brackets; `mark` is empty for EN 13463."""

    mark: str
    types: tuple[str, ...]
    joined: bool = False
    practice: str | None = None


class Box(Frozen):
    """A square bracket; `mark` is the `Ex` that stands inside it, empty where none does."""

    output: Output
    mark: str = ""


class Temperature(Frozen):
    """A class or a figure."""

    mark: TemperatureMark


class AmbientMark(Frozen):
    """`Ta` in °C; an end that is not printed is None."""

    low: Decimal | None
    high: Decimal | None


class LevelMark(Frozen):
    """A printed EPL, or the two of a pair with the process side first."""

    levels: tuple[Level, ...]


class CategoryItem(Frozen):
    """One hazard letter of an ATEX category: `number` of the housing, `inner`, `output`."""

    hazard: Hazard
    number: int | None = None
    inner: int | None = None
    output: int | None = None


class CategoryMark(Frozen):
    """`II 2 (1) GD`: equipment group and categories."""

    group: str
    items: tuple[CategoryItem, ...]


class Ingress(Frozen):
    """`IP66`, `Type 4X`."""

    text: str


class SuffixMark(Frozen):
    """`X` or `U`."""

    suffix: Suffix


class PurgeMark(Frozen):
    """`Type Z pressurization`."""

    purge: Purge


class PurgeDetail(Frozen):
    """What is inside a purged enclosure, or what happens when the purge is lost."""

    contents: str | None = None
    action: str | None = None


class Trade(Frozen):
    """A word that says a type of protection without a letter."""

    word: str


class Associated(Frozen):
    """`Associated apparatus`."""


class Provides(Frozen):
    """`provides intrinsically safe circuits to`: what follows describes the circuits."""


class SafePlace(Frozen):
    """`non-hazardous`: a place, named as the housing's own."""


class Separator(Frozen):
    """A sign between codes: `strong` for a semicolon or a new line."""

    strong: bool


class Filler(Frozen):
    """Words that say nothing about the protection (CE mark, drawing number, `suitable for`)."""


class Fault(Frozen):
    """Words that were read and cannot be right."""

    message: str
    clause: str


class Unread(Frozen):
    """Words that no reader knows, or whose place nobody can tell; `why` says so."""

    text: str
    why: str = ""


Element = (
    ClassWord
    | DivisionWord
    | ZoneWord
    | Letters
    | ZoneGroup
    | Gas
    | Types
    | Box
    | Temperature
    | AmbientMark
    | LevelMark
    | CategoryMark
    | Ingress
    | SuffixMark
    | PurgeMark
    | PurgeDetail
    | Trade
    | Associated
    | Provides
    | SafePlace
    | Separator
    | Filler
    | Fault
    | Unread
)
Found = tuple[tuple[Element, ...], int]
