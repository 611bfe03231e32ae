"""Declared areas: `Class I, Division 1, Group D`, `Zone 21, IIIB, T135 °C`, `unclassified`."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.marking import TemperatureMark
from areafit.facts.place import Area, AreaReading, AreaSystem
from areafit.facts.protection import Hazard
from areafit.marking.area_words import AREA_READERS, Place, gather_places
from areafit.marking.build_division import HAZARD_OF_CLASS, letters_of
from areafit.marking.clash_area import NO_SUCH_ZONE, faults, gap
from areafit.marking.scan import scan
from areafit.marking.text import LONGEST, tokenise, too_long


def read_area(text: str) -> AreaReading:
    """The areas that one text declares, with what in it is wrong or was not understood.

    An area that contradicts itself is left out, so that nothing can be judged suitable for it.
    """
    if too_long(text):
        return AreaReading(text, (), (f"The area is longer than {LONGEST} characters.",))
    problems: list[str] = []
    wrong: list[str] = []
    areas: list[Area] = []
    for place in gather_places(scan(tokenise(text), AREA_READERS), problems, wrong):
        missing = gap(place)
        found = [] if missing else list(faults(place))
        problems += [missing] if missing else []
        wrong += found if not wrong else [each for each in found if each is not NO_SUCH_ZONE]
        if not (found or missing):
            areas += _areas(place)
    wrong += _mixture(areas)
    problems += wrong
    if not areas and not problems:
        problems.append("No class and division, zone or 'unclassified' was found.")
    return AreaReading(text, tuple(areas), tuple(dict.fromkeys(problems)), bool(wrong))


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


def _areas(place: Place) -> Iterator[Area]:
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
    place: Place, groups: frozenset[Group], maximum: Decimal | None, name: str | None
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
