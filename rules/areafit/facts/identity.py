"""Which line of one list is the same line of another: by its part, never by its position.

A line is the same line when its part number and those of the lines that it is mounted in agree, or
the CAD's own id (`line_id`) under one part number; by item only where neither has a part number and
the description is equal. Waivers, comparisons, imports and workbooks all go by this module.
"""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Protocol, TypeAlias

from areafit.facts.bom import Bom
from areafit.values import Frozen


class Line(Protocol):
    """What tells a line: of a list, an export or a workbook; `parent` is an item."""

    @property
    def item(self) -> str: ...  # noqa: D102 - as `Part` has them
    @property
    def part_number(self) -> str | None: ...  # noqa: D102
    @property
    def line_id(self) -> str | None: ...  # noqa: D102
    @property
    def description(self) -> str | None: ...  # noqa: D102
    @property
    def parent(self) -> str | None: ...  # noqa: D102


Key: TypeAlias = tuple[str, ...]
Tells: TypeAlias = Callable[[Line], Hashable]


class Unclear(Frozen):
    """Lines of one part number that nobody can tell apart: the items here and there."""

    part_number: str
    old: tuple[str, ...]
    new: tuple[str, ...]


class Matched(Frozen, eq=False):
    """The lines of two lists by their items.

    `pairs` leads from the old item of a line to its new one. `gone` and `new` are lines without a
    candidate; `unclear` are those with several, which nobody guesses.
    """

    pairs: Mapping[str, str]
    gone: tuple[str, ...]
    new: tuple[str, ...]
    unclear: tuple[Unclear, ...]

    @property
    def renumbered(self) -> Mapping[str, str]:
        """The lines whose item changed."""
        return {old: new for old, new in self.pairs.items() if old != new}


def identity(bom: Bom, subject: str) -> str:
    """What a line is known by, whatever its item.

    That is the CAD's id with the part number, else the part number and those that it is mounted in.
    Lines with neither, places and loops are known by their names.
    """
    return _identities(bom).get(subject, subject)


@lru_cache(maxsize=8)
def _identities(bom: Bom) -> Mapping[str, str]:
    numbers = _numbers(bom.parts)
    return {str(part.item): _identity(part, numbers[part.item]) for part in bom.parts}


def _identity(line: Line, numbers: Key) -> str:
    if line.line_id is not None:
        return f"id {line.line_id} of {line.part_number or 'no number'}"
    own = () if line.part_number else (f"item {line.item}",)
    return " in ".join((*own, *numbers))


def match(
    old: Sequence[Line],
    new: Sequence[Line],
    told: Tells = lambda line: line.description,
    kept: Tells | None = None,
) -> Matched:
    """Find the lines of one list in another.

    Args:
        old: the lines as they were; items are unique.
        new: the lines as they are; items are unique.
        told: what both lists say of a line, by which candidates of one number are told apart.
        kept: what else the old list says of its lines, `told` if left out. Where that is the same
            too, candidates may stand for one another.
    """
    found = _Match(old, new, told, kept or told)
    found.by_id()
    found.by_number()
    found.by_item()
    return found.result()


class _Match:
    def __init__(self, old: Sequence[Line], new: Sequence[Line], told: Tells, kept: Tells) -> None:
        self._old, self._new = {x.item: x for x in old}, {x.item: x for x in new}
        self._numbers = (_numbers(old), _numbers(new))
        self._told, self._kept = told, kept
        self._pairs: dict[str, str] = {}
        self._taken: set[str] = set()
        self._unclear: list[Unclear] = []

    def by_id(self) -> None:
        """One id under one part number; a number that was not given yet may have come."""
        ids = [_unique(lines.values()) for lines in (self._old, self._new)]
        for name, before in ids[0].items():
            after = ids[1].get(name)
            if after is None:
                continue
            numbers = {before.part_number, after.part_number} - {None}
            if len(numbers) < 2:
                self._pair(before.item, after.item)

    def by_number(self) -> None:
        """Part number and those of the lines that it is mounted in."""
        before, after = self._groups(0), self._groups(1)
        for numbers, old in before.items():
            new = after.get(numbers, [])
            if not new:
                continue
            if len(old) == len(new) == 1:
                self._pair(old[0].item, new[0].item)
            else:
                self._several(numbers, old, new)

    def _several(self, numbers: Key, old: list[Line], new: list[Line]) -> None:
        """Lines of one number in one assembly: by what both lists say of them, if that does."""
        here, there = (_by(self._told, lines) for lines in (old, new))
        if {told: len(x) for told, x in here.items()} == {t: len(x) for t, x in there.items()}:
            for told, before in here.items():
                self._alike(numbers, before, there[told])
        else:
            self._alike(numbers, old, new)

    def _alike(self, numbers: Key, old: list[Line], new: list[Line]) -> None:
        """Lines that nothing else tells apart: by items that stayed, or any where nothing differs.

        Items that stayed say nothing where others of these lines moved: lines were put in between.
        """
        here, there = ({x.item for x in lines} for lines in (old, new))
        if here <= there or there <= here:
            for item in sorted(here & there):
                self._pair(item, item)
        elif len(old) == len(new) == 1 or len(set(map(self._kept, old))) == 1:
            for before, after in zip(old, new, strict=False):
                self._pair(before.item, after.item)
        else:
            items = (tuple(x.item for x in lines) for lines in (old, new))
            self._unclear.append(Unclear(numbers[0], *items))

    def by_item(self) -> None:
        """Lines without a part number that keep item and description."""
        for item, before in self._old.items():
            after = self._new.get(item)
            if after is None or item in self._pairs or item in self._taken:
                continue
            if before.part_number or after.part_number or before.description != after.description:
                continue
            self._pair(item, item)

    def result(self) -> Matched:
        unclear_old = {item for each in self._unclear for item in each.old}
        unclear_new = {item for each in self._unclear for item in each.new}
        return Matched(
            {item: self._pairs[item] for item in self._old if item in self._pairs},
            tuple(x for x in self._old if x not in self._pairs and x not in unclear_old),
            tuple(x for x in self._new if x not in self._taken and x not in unclear_new),
            tuple(self._unclear),
        )

    def _pair(self, old: str, new: str) -> None:
        self._pairs[old] = new
        self._taken.add(new)

    def _groups(self, side: int) -> dict[Key, list[Line]]:
        lines, done = ((self._old, self._pairs), (self._new, self._taken))[side]
        found: dict[Key, list[Line]] = defaultdict(list)
        for item, line in lines.items():
            if line.part_number and item not in done:
                found[self._numbers[side][item]].append(line)
        return found


def _unique(lines: Iterable[Line]) -> dict[str, Line]:
    """Lines by the CAD's id, where only one has it."""
    found: dict[str, list[Line]] = defaultdict(list)
    for line in lines:
        if line.line_id:
            found[line.line_id].append(line)
    return {name: each[0] for name, each in found.items() if len(each) == 1}


def _by(told: Tells, lines: Iterable[Line]) -> dict[Hashable, list[Line]]:
    found: dict[Hashable, list[Line]] = defaultdict(list)
    for line in lines:
        found[told(line)].append(line)
    return found


def _numbers(lines: Sequence[Line]) -> dict[str, Key]:
    """By item: the part numbers of a line and of those that it is mounted in, as far as given."""
    by_item = {line.item: line for line in lines}
    found: dict[str, Key] = {}
    for line in lines:
        steps: list[str] = []
        seen: set[str] = set()
        above: Line | None = line
        while above is not None and above.item not in seen:
            seen.add(above.item)
            steps += [above.part_number] if above.part_number else []
            above = by_item.get(above.parent) if above.parent is not None else None
        found[line.item] = tuple(steps)
    return found
