"""Where every key and value stands: containers that know their positions, and paths into them.

A position is packed into one integer, line and column counted from 0. The positions of a whole
document stand in one array: those of a container side by side from its `first` on, two for each
key of a mapping in writing order (key, then value), one for each item of a list.
"""

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from areafit.facts.bom import Position
from areafit.values import Frozen

if TYPE_CHECKING:
    from array import array

COLUMN_BITS = 28
_COLUMN = (1 << COLUMN_BITS) - 1
_NONE: Mapping[str, Any] = MappingProxyType({})


class Map(dict[str, Any]):
    """A mapping as written."""

    __slots__ = ("_places", "first")

    first: int
    _places: dict[str, int]

    def spot(self, key: str) -> int:
        """The index of the key's position; that of its value follows."""
        try:
            places = self._places
        except AttributeError:  # most mappings are never asked
            places = self._places = {name: number for number, name in enumerate(self)}
        return self.first + 2 * places[key]


class Items(list[Any]):
    """A list as written."""

    __slots__ = ("first",)

    first: int

    def spot(self, number: int) -> int:
        """The index of an item's position."""
        return self.first + number


def _holds(node: Any, step: str | int) -> bool:  # noqa: ANN401 - any node
    """Whether a key or an item is written in a node."""
    if isinstance(node, Items):
        return isinstance(step, int) and step < len(node)
    return isinstance(node, Map) and step in node


class Document(Frozen, eq=False):
    """One file read: its name, its outermost value, and all positions in it."""

    name: str
    root: Any
    spots: "array[int]"
    start: int

    def at(self, path: Iterable[str | int]) -> Position:
        """Where the value of a path stands; of its nearest written ancestor if it does not.

        A value that is not written (an empty one) is said to stand where its key does.
        """
        return unpack(self.name, self._walk(path)[1])

    def key_at(self, path: Iterable[str | int]) -> Position:
        """As `at`, but where the last key of the path stands."""
        return unpack(self.name, self._walk(path)[0])

    def written(self, path: Iterable[str | int]) -> tuple[str | int, ...]:
        """As much of a path as the file really holds."""
        steps: list[str | int] = []
        node = self.root
        for step in path:
            if not _holds(node, step):
                break
            steps.append(step)
            node = node[step]
        return tuple(steps)

    def _walk(self, path: Iterable[str | int]) -> tuple[int, int]:
        node, key_spot, spot = self.root, self.start, self.start
        for step in path:
            if not _holds(node, step):
                break
            index = node.spot(step)
            key_spot, spot = self.spots[index], self.spots[index + isinstance(node, Map)]
            node = node[step]
        return key_spot, spot


def unpack(name: str, packed: int) -> Position:
    """A packed position as a person's editor counts it, from 1."""
    return Position(name, (packed >> COLUMN_BITS) + 1, (packed & _COLUMN) + 1)


class Locator(Frozen, eq=False):
    """Turns a path such as `parts/0/marking` into a position.

    `shared` says which outermost keys were taken from another file. `spellings` gives, for the
    name of a fact, the keys that a file writes for it: a rule that speaks of `voltage` is shown
    the `Uo` of the file.
    """

    main: Document
    shared: Mapping[str, Document] = _NONE
    spellings: Mapping[str, tuple[str, ...]] = _NONE

    def __call__(self, path: str) -> Position:
        """Where the value of the path is written, or its nearest written ancestor."""
        steps = path.split("/")
        document = self.shared.get(steps[0], self.main)
        node, spots, packed = document.root, document.spots, document.start
        while steps:
            if type(node) is Items and steps[0].isdecimal() and int(steps[0]) < len(node):
                number, used = int(steps[0]), 1
                packed, node = spots[node.spot(number)], node[number]
            elif type(node) is Map and (found := self._key(node, steps)):
                key, used = found
                packed, node = spots[node.spot(key) + 1], node[key]
            else:
                break
            steps = steps[used:]
        return unpack(document.name, packed)

    def _key(self, node: Map, steps: list[str]) -> tuple[str, int] | None:
        """The key of a mapping that the next steps name, and how many of them it takes.

        More than one where the name of a place holds a slash; None where nothing is written.
        """
        if steps[0] in node:
            return steps[0], 1
        for used in range(2, len(steps) + 1):
            if (name := "/".join(steps[:used])) in node:
                return name, used
        for name in self.spellings.get(steps[0], ()):
            if name in node:
                return name, 1
        return None
