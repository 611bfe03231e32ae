"""Declared areas: `Class I, Division 1, Group D`, `Zone 21, IIIB, T135 °C`, `unclassified`."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import TemperatureMark
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard
from areafit.marking.build_division import HAZARD_OF_CLASS, letters_of
from areafit.marking.elements import (
    ClassWord,
    DivisionWord,
    Element,
    Fault,
    Filler,
    Found,
    Letters,
    SafePlace,
    Separator,
    Temperature,
    Unread,
    ZoneGroup,
    ZoneWord,
)
from areafit.marking.phrases import read_phrase
from areafit.marking.readers_ex import group_hazard, read_zone_group
from areafit.marking.readers_na import read_class, read_division, read_letters, read_zone
from areafit.marking.readers_plate import read_separator
from areafit.marking.readers_temperature import (
    read_class_mark,
    read_figure,
    read_unlabelled_span,
)
from areafit.marking.scan import scan
from areafit.marking.text import LONGEST, Tokens, tokenise, too_long


def _read_safe(tokens: Tokens, index: int) -> Found | None:
    """`unclassified`, `non-hazardous` and fillers; every other phrase belongs to plates."""
    found = read_phrase(tokens, index)
    return found if found and isinstance(found[0][0], SafePlace | Filler) else None


_READERS = (
    _read_safe,
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
_ZONE_CLASSES = frozenset({"T1", "T2", "T3", "T4", "T5", "T6"})


@dataclass(slots=True)
class _Place:
    """The words of one area, in the order of the text."""

    classes: tuple[str, ...] = ()
    divisions: list[tuple[int, ...]] = field(default_factory=list)
    zones: list[int | None] = field(default_factory=list)
    letters: list[frozenset[Group]] = field(default_factory=list)
    groups: list[ZoneGroup] = field(default_factory=list)
    marks: list[TemperatureMark] = field(default_factory=list)
    safe: bool = False

    @property
    def started(self) -> bool:
        """Whether the words so far name a kind of place."""
        return bool(self.classes or self.divisions or self.zones or self.safe)


def read_area(text: str) -> AreaReading:
    """The areas that one text declares, with what in it is wrong or was not understood.

    An area that contradicts itself is left out, so that nothing can be judged suitable for it.
    """
    if too_long(text):
        return AreaReading(text, (), (f"The area is longer than {LONGEST} characters.",))
    problems: list[str] = []
    faults: list[str] = []
    areas: list[Area] = []
    for place in _places(scan(tokenise(text), _READERS), problems):
        found = list(_faults(place))
        faults += found
        if not found:
            areas += _areas(place)
    faults += _mixture(areas)
    problems += faults
    if not areas and not problems:
        problems.append("No class and division, zone or 'unclassified' was found.")
    return AreaReading(text, tuple(areas), tuple(dict.fromkeys(problems)), bool(faults))


def read_areas(texts: Sequence[str]) -> AreaReading:
    """Several texts for one place (gas and dust), read as one."""
    readings = [read_area(text) for text in texts]
    areas = [area for reading in readings for area in reading.areas]
    problems = [problem for reading in readings for problem in reading.problems]
    mixture = list(_mixture(areas))
    problems += mixture
    if not readings:
        problems.append("No area is declared.")
    text = "; ".join(reading.text for reading in readings)
    wrong = bool(mixture) or any(reading.contradictory for reading in readings)
    return AreaReading(text, tuple(dict.fromkeys(areas)), tuple(dict.fromkeys(problems)), wrong)


def _places(elements: Iterable[Element], problems: list[str]) -> list[_Place]:
    """One place for each class or zone that is named; wrong and unread words are problems."""
    places = [_Place()]
    for element in elements:
        if _begins(places[-1], element):
            places.append(_Place())
        _add(places[-1], element, problems)
    return [place for place in places if place != _Place()]


def _begins(place: _Place, element: Element) -> bool:
    match element:
        case ClassWord():
            return place.started
        case ZoneWord():
            return bool(place.zones or place.divisions or place.safe)
        case SafePlace():
            return place.started
        case _:
            return False


def _add(place: _Place, element: Element, problems: list[str]) -> None:
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
            _add_detail(place, element, problems)


def _add_detail(place: _Place, element: Element, problems: list[str]) -> None:
    match element:
        case Letters(groups):
            place.letters.append(groups)
        case ZoneGroup():
            place.groups.append(element)
        case Temperature(mark):
            place.marks.append(mark)
        case Fault(message):
            problems.append(message)
        case Unread(text):
            problems.append(f"{text!r} could not be read.")
        case Separator() | Filler() | _:
            pass


def _faults(place: _Place) -> Iterator[str]:
    """What makes the words of one place no area."""
    if place.safe:
        if place != _Place(safe=True):
            yield "An unclassified place has no group and no temperature class."
        return
    if bool(place.divisions) is bool(place.zones):
        yield "An area needs a class and division, or a zone, and not both."
        return
    if len(place.divisions) + len(place.zones) > 1 or len(place.marks) > 1:
        yield "An area is named twice, or has two temperature limits."
    if any(mark.maximum is None or mark.layer is not None for mark in place.marks):
        yield "The temperature limit of the area is none that exists."
    yield from _division_faults(place) if place.divisions else _zone_faults(place)


def _division_faults(place: _Place) -> Iterator[str]:
    if not place.classes:
        yield "A division is named without its class (I, II or III)."
    if len(place.divisions[0]) != 1:
        yield "An area is Division 1 or Division 2, not both."
    letters = frozenset[Group]().union(*place.letters)
    fitting = frozenset[Group]().union(*(letters_of(name, letters) for name in place.classes))
    if letters - fitting:
        wrong = ", ".join(sorted(group.value for group in letters - fitting))
        yield f"Group {wrong} does not belong to Class {' or '.join(place.classes)}."
    if place.groups:
        yield f"Group {place.groups[0].group.value} belongs to zones, not to a division."
    if "II" in place.classes and place.divisions[0] == (2,) and Group.E in letters:
        yield "Class II, Division 2, Group E does not exist: metal dust is Division 1."


def _zone_faults(place: _Place) -> Iterator[str]:
    zone = place.zones[0]
    if zone is None:
        yield "The zone does not exist."
        return
    hazard = Hazard.DUST if zone >= 20 else Hazard.GAS
    if place.classes not in {(), ("I",)} or (place.classes and zone >= 20):
        yield f"Class {' or '.join(place.classes)} does not go with Zone {zone}."
    if place.letters:
        yield "Division group letters stand in a zone."
    for found in place.groups:
        if group_hazard(found.group) is not hazard or found.group in {Group.I, Group.II, Group.III}:
            yield f"Group {found.group.value} is no group of Zone {zone}."
        if found.extra:
            yield f"{found.extra[0]} is no group; list it under substances."
    if len({found.group for found in place.groups}) > 1:
        yield "A zone has one group, the worst that occurs in it."
    for mark in place.marks:
        if mark.name and (mark.name not in _ZONE_CLASSES or hazard is Hazard.DUST):
            yield f"{mark.name} is no temperature class of Zone {zone}."


def _areas(place: _Place) -> Iterator[Area]:
    mark = place.marks[0] if place.marks else TemperatureMark(None)
    if place.safe:
        yield Area(AreaSystem.UNCLASSIFIED)
    elif place.divisions:
        letters = frozenset[Group]().union(*place.letters)
        for name in place.classes:
            yield _division(name, place.divisions[0][0], letters, mark)
    else:
        groups = frozenset(found.group for found in place.groups)
        yield _zone(place, groups, mark.maximum, mark.name)


def _division(
    hazard_class: str, division: int, letters: frozenset[Group], mark: TemperatureMark
) -> Area:
    return Area(
        AreaSystem.DIVISION,
        hazard=HAZARD_OF_CLASS[hazard_class],
        hazard_class=hazard_class,
        division=division,
        groups=letters_of(hazard_class, letters),
        maximum=mark.maximum,
        temperature_class=mark.name,
    )


def _zone(
    place: _Place, groups: frozenset[Group], maximum: Decimal | None, name: str | None
) -> Area:
    zone = place.zones[0] or 0
    return Area(
        AreaSystem.ZONE,
        hazard=Hazard.DUST if zone >= 20 else Hazard.GAS,
        hazard_class=place.classes[0] if place.classes else None,
        zone=zone,
        groups=groups,
        maximum=maximum,
        temperature_class=name,
    )


def _mixture(areas: Sequence[Area]) -> Iterator[str]:
    if len({area.classified for area in areas}) > 1:
        yield "A place is unclassified or classified, not both."
