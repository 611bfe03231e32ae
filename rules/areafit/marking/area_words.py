"""The words of a declared area, gathered place by place."""

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from areafit.marking.elements import (
    ClassWord,
    DivisionWord,
    Element,
    Fault,
    Filler,
    Found,
    Letters,
    SafePlace,
    Temperature,
    Unread,
    ZoneGroup,
    ZoneWord,
)
from areafit.marking.phrases import read_phrase
from areafit.marking.readers_ex import read_zone_group
from areafit.marking.readers_na import read_class, read_division, read_letters, read_zone
from areafit.marking.readers_plate import read_separator
from areafit.marking.readers_temperature import (
    read_class_mark,
    read_figure,
    read_unlabelled_span,
)
from areafit.marking.text import Tokens
from areafit.pattern import pattern

if TYPE_CHECKING:
    from areafit.facts.groups import Group
    from areafit.facts.marking import TemperatureMark

_SAFE = pattern(r"safe(?: (?:areas?|locations?|places?))?\b", re.IGNORECASE)


def _read_safe(tokens: Tokens, index: int) -> Found | None:
    """`unclassified`, `non-hazardous` and fillers; every other phrase belongs to plates."""
    found = read_phrase(tokens, index)
    return found if found and isinstance(found[0][0], SafePlace | Filler) else None


def _read_safe_area(tokens: Tokens, index: int) -> Found | None:
    """`safe` and `safe area`, as the trade calls a place that is not classified.

    Only where the text begins with it: behind other words it may say something else.
    """
    behind = tokens.phrase(index, _SAFE) if index == 0 else None
    return None if behind is None else ((SafePlace(),), behind)


AREA_READERS = (
    _read_safe,
    _read_safe_area,
    read_class,
    read_division,
    read_zone,
    read_zone_group,
    read_letters,
    read_class_mark,
    read_unlabelled_span,
    read_figure,
    read_separator,
)


class Place:
    """The words of one area, in the order of the text."""

    def __init__(self) -> None:
        self.classes: tuple[str, ...] = ()
        self.divisions: list[tuple[int, ...]] = []
        self.zones: list[int | None] = []
        self.letters: list[frozenset[Group]] = []
        self.groups: list[ZoneGroup] = []
        self.marks: list[TemperatureMark] = []
        self.safe = False

    @property
    def started(self) -> bool:
        """Whether the words so far name a kind of place."""
        return bool(self.classes or self.divisions or self.zones or self.safe)

    @property
    def detailed(self) -> bool:
        """Whether there are words that only a classified place has."""
        named = self.classes or self.divisions or self.zones
        return bool(named or self.letters or self.groups or self.marks)


def gather_places(elements: Iterable[Element], unread: list[str], wrong: list[str]) -> list[Place]:
    """One place for each class or zone that is named; other words go to the two lists."""
    places = [Place()]
    for element in elements:
        if _begins(places[-1], element):
            places.append(Place())
        _add(places[-1], element, unread, wrong)
    return [place for place in places if place.detailed or place.safe]


def _begins(place: Place, element: Element) -> bool:
    match element:
        case ClassWord():
            return place.started
        case ZoneWord():
            return bool(place.zones or place.divisions or place.safe)
        case SafePlace():
            return place.started
        case _:
            return False


def _add(place: Place, element: Element, unread: list[str], wrong: list[str]) -> None:
    match element:
        case ClassWord(classes):
            place.classes = classes
        case DivisionWord(divisions):
            place.divisions.append(divisions)
        case ZoneWord(zone):
            place.zones.append(zone)
        case SafePlace():
            place.safe = True
        case _:
            _add_detail(place, element, unread, wrong)


def _add_detail(place: Place, element: Element, unread: list[str], wrong: list[str]) -> None:
    match element:
        case Letters(groups):
            place.letters.append(groups)
        case ZoneGroup():
            place.groups.append(element)
        case Temperature(mark):
            place.marks.append(mark)
        case Fault(message):
            wrong.append(message)
        case Unread(text, why):
            unread.append(why or f"{text!r} could not be read.")
        case _:
            pass
