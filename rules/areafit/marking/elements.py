"""What readers find on a plate: one small value for each phrase, in the order of the text."""

from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import Output, TemperatureMark
from areafit.facts.protection import Hazard, Level, Purge, Suffix
from areafit.frozen import frozen


@frozen
class ClassWord:
    """`Class I, II`: the North American classes named together."""

    classes: tuple[str, ...]


@frozen
class DivisionWord:
    """`Division 1`, `Divisions 1 and 2`; empty where the number does not exist."""

    divisions: tuple[int, ...]


@frozen
class ZoneWord:
    """`Zone 1`; None where the number does not exist."""

    zone: int | None


@frozen
class Letters:
    """`Groups A-D`: Division letters."""

    groups: frozenset[Group]


@frozen
class ZoneGroup:
    """`IIB`, `IIB+H2`; `extra` names gases served in addition that are no group of their own."""

    group: Group
    extra: tuple[str, ...] = ()


@frozen
class Gas:
    """The only gas that the equipment serves."""

    name: str


@frozen
class Types:
    """`Ex db eb`: the mark and the types outside brackets; `mark` is empty for EN 13463."""

    mark: str
    types: tuple[str, ...]
    joined: bool = False
    practice: str | None = None


@frozen
class Box:
    """A square bracket; `mark` is the `Ex` that stands inside it, empty where none does."""

    output: Output
    mark: str = ""


@frozen
class Temperature:
    """A class or a figure."""

    mark: TemperatureMark


@frozen
class AmbientMark:
    """`Ta` in °C; an end that is not printed is None."""

    low: Decimal | None
    high: Decimal | None


@frozen
class LevelMark:
    """A printed EPL, or the two of a pair with the process side first."""

    levels: tuple[Level, ...]


@frozen
class CategoryItem:
    """One hazard letter of an ATEX category: `number` of the housing, `inner`, `output`."""

    hazard: Hazard
    number: int | None = None
    inner: int | None = None
    output: int | None = None


@frozen
class CategoryMark:
    """`II 2 (1) GD`: equipment group and categories."""

    group: str
    items: tuple[CategoryItem, ...]


@frozen
class Ingress:
    """`IP66`, `Type 4X`."""

    text: str


@frozen
class SuffixMark:
    """`X` or `U`."""

    suffix: Suffix


@frozen
class PurgeMark:
    """`Type Z pressurization`."""

    purge: Purge


@frozen
class PurgeDetail:
    """What is inside a purged enclosure, or what happens when the purge is lost."""

    contents: str | None = None
    action: str | None = None


@frozen
class Trade:
    """A word that says a type of protection without a letter."""

    word: str


@frozen
class Associated:
    """`Associated apparatus`."""


@frozen
class Provides:
    """`provides intrinsically safe circuits to`: what follows describes the circuits."""


@frozen
class SafePlace:
    """`non-hazardous`: a place, named as the housing's own."""


@frozen
class Separator:
    """A sign between codes: `strong` for a semicolon or a new line."""

    strong: bool


@frozen
class Filler:
    """Words that say nothing about the protection (CE mark, drawing number, `suitable for`)."""


@frozen
class Fault:
    """Words that were read and cannot be right."""

    message: str
    clause: str


@frozen
class Unread:
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
