"""What contradicts itself in a declared area, and what is missing from it."""

from collections.abc import Iterator

from areafit.facts.groups import Group
from areafit.facts.protection import Hazard
from areafit.marking.area_words import Place
from areafit.marking.build_division import letters_of
from areafit.marking.readers_ex import group_hazard

NO_SUCH_ZONE = "The zone does not exist."  # the reader of the words says it with the number

_ZONE_CLASSES = frozenset({"T1", "T2", "T3", "T4", "T5", "T6"})


def gap(place: Place) -> str | None:
    """What is missing before the words name a place at all."""
    if place.safe or (place.zones and not place.divisions):
        return None
    if not place.divisions:
        return "An area needs a class and division, a zone, or the word unclassified."
    if not place.classes and not place.zones:
        return "A division is named without its class (I, II or III)."
    return None


def faults(place: Place) -> Iterator[str]:
    """What makes the words of one place no area that the codes know."""
    if place.safe:
        if place.detailed:
            yield "An unclassified place has no group and no temperature class."
        return
    if place.divisions and place.zones:
        yield "A place is classified by division or by zone, not by both."
    if len(place.divisions) > 1 or len(place.marks) > 1:
        yield "An area is named twice, or has two temperature limits."
    if any(mark.maximum is None or mark.layer is not None for mark in place.marks):
        yield "The temperature limit of the area is none that exists."
    yield from _division_faults(place) if place.divisions else _zone_faults(place)


def _division_faults(place: Place) -> Iterator[str]:
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


def _zone_faults(place: Place) -> Iterator[str]:
    zone = place.zones[0]
    if zone is None:
        yield NO_SUCH_ZONE
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
