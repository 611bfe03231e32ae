"""The rows of one table by every name they answer to; a row is converted when first asked for."""

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import Generic, TypeVar

from areafit.tables import names

T = TypeVar("T")


class Shelf(Generic[T]):
    """Finds rows by id, name, alias or CAS number, exactly.

    `cells` are unconverted rows whose first cell is the id; `name_columns` the positions of the
    cells that hold names; `shared` maps a name that does not say which row it means to all ids
    it may mean.
    """

    def __init__(
        self,
        cells: Sequence[list[str]],
        name_columns: Sequence[int],
        shared: Sequence[tuple[str, tuple[str, ...]]],
        build: Callable[[list[str]], T],
    ) -> None:
        self._cells = cells
        self._name_columns = name_columns
        self._shared = shared
        self._build = build
        self._built: dict[str, T] = {}
        self._found: dict[str, tuple[T, ...]] = {}

    @cached_property
    def _by_id(self) -> Mapping[str, list[str]]:
        return {cells[0]: cells for cells in self._cells}

    @cached_property
    def _ids(self) -> Mapping[str, str]:
        return {names.key(cells[0]): cells[0] for cells in self._cells}

    @cached_property
    def _index(self) -> Mapping[str, tuple[str, ...]]:
        own = names.index((cells[0], self._names_of(cells)) for cells in self._cells)
        return {**own, **{names.key(name): members for name, members in self._shared}}

    def _names_of(self, cells: list[str]) -> list[str]:
        return [name for column in self._name_columns for name in cells[column].split("|")]

    def get(self, identity: str) -> T:
        """The row of an id.

        Raises:
            KeyError: no row has this id.
        """
        if identity not in self._built:
            self._built[identity] = self._build(self._by_id[identity])
        return self._built[identity]

    def find(self, name: str) -> tuple[T, ...]:
        """All rows that the name may mean: one if it is clear, none if it is unknown."""
        found = self._found.get(name)
        if found is None:
            found = self._found[name] = tuple(map(self.get, self._meant(name)))
        return found

    def _meant(self, name: str) -> tuple[str, ...]:
        folded = names.key(name)
        own = self._ids.get(folded)
        return self._index.get(folded, ()) if own is None else (own,)

    def ids(self) -> tuple[str, ...]:
        """Every id, in the order of the table."""
        return tuple(self._by_id)

    def known_names(self) -> tuple[str, ...]:
        """Every name, ids first."""
        rest = [name for cells in self._cells for name in self._names_of(cells) if name]
        return tuple(dict.fromkeys([*self._by_id, *rest, *(name for name, _ in self._shared)]))
