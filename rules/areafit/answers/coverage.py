"""What a list touches and no rule judges: said as plainly as what was judged."""

from collections.abc import Iterable, Iterator
from functools import cache

from areafit.facts.bom import Bom
from areafit.facts.part import Item, Part
from areafit.facts.place import Area, Place
from areafit.pattern import pattern
from areafit.subjects import part_variants
from areafit.tables.coverage import CoverageOutcome, CoverageRow, coverage
from areafit.values import Frozen

_LOOP = "loop"
_WORD = pattern(r"[\w-]+")
_PLURALS = ("", "s", "es")


class Unjudged(Frozen):
    """A requirement that no rule judges, with the items that it concerns; none: all the place."""

    row: CoverageRow
    items: tuple[Item, ...]


class _Sort(Frozen):
    """What a row looks at of a part; many lines of a list agree in it."""

    kinds: frozenset[str]
    names: frozenset[str]
    letters: frozenset[str]
    places: tuple[str, ...]


def not_judged(bom: Bom) -> tuple[Unjudged, ...]:
    """The rows that concern places and kinds of parts of this list and that no rule judges.

    In the order of the table; items in the order of the file.
    """
    sorts: dict[_Sort, list[Item]] = {}
    for part in bom.parts:
        for sort in dict.fromkeys(map(_sort, part_variants(part))):
            sorts.setdefault(sort, []).append(part.item)
    place_in_file = {part.item: part.index for part in bom.parts}
    found = []
    for row in coverage():
        if row.outcome is not CoverageOutcome.NOT_JUDGED:
            continue
        places = {name for name, place in bom.places.items() if _at(row, place)}
        if row.kinds == (_LOOP,):
            if places and bom.loops:
                found.append(Unjudged(row, ()))
            continue
        concerned = (sort for sort in sorts if places.intersection(sort.places) and _of(row, sort))
        items = {item for sort in concerned for item in sorts[sort]}
        if items:
            ordered = tuple(sorted(items, key=place_in_file.__getitem__))
            found.append(Unjudged(row, ordered if row.of_parts else ()))
    return tuple(found)


def _at(row: CoverageRow, place: Place) -> bool:
    """Whether a clause speaks of such a place."""
    if row.laws and place.law.value not in row.laws:
        return False
    areas: Iterable[Area] = place.area.areas if place.area is not None else ()
    return any(
        area.classified
        and (not row.systems or area.system.value in row.systems)
        and (not row.hazards or (area.hazard is not None and area.hazard.value in row.hazards))
        for area in areas
    )


def _of(row: CoverageRow, sort: _Sort) -> bool:
    """Whether a clause speaks of such a part."""
    asked = ((row.kinds, sort.kinds), (row.named, sort.names), (row.marked, sort.letters))
    return all(not wanted or not stated.isdisjoint(wanted) for wanted, stated in asked)


def _sort(part: Part) -> _Sort:
    equipment = part.equipment
    return _Sort(
        frozenset(kind.value for kind in equipment.kinds),
        frozenset(_names(part.description)) if part.description else frozenset(),
        frozenset(letter for code in equipment.codes for letter in code.protection),
        part.locations,
    )


def _names(description: str) -> Iterator[str]:
    """The names of the table that a description holds, in the singular or the plural."""
    words = _WORD.findall(description.casefold())
    for length in (1, 2, 3):
        for start in range(len(words) - length + 1):
            named = " ".join(words[start : start + length])
            known = (named.removesuffix(ending) for ending in _PLURALS)
            yield from (name for name in known if name in _named())


@cache
def _named() -> frozenset[str]:
    """Every name that a row of the table gives."""
    return frozenset(name for row in coverage() for name in row.named)
