"""Names of the trade to rows: exact up to case, blanks, hyphens and spelling, never by likeness."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from typing import Generic, TypeVar

from areafit.tables.sources import Sourced

T = TypeVar("T")

_IGNORED = dict.fromkeys(map(ord, " \t\u00a0-\u2010\u2011\u2012\u2013_"))
_SPELLINGS = (("sulph", "sulf"), ("aluminum", "aluminium"), ("vapor", "vapour"))


class SharedName(Sourced):
    """A name that more than one row answers to: all of `members` are judged, the worst governs."""

    table: str
    name: str
    members: tuple[str, ...]


def key(name: str) -> str:
    """The form in which two spellings of one name are equal.

    Commas, dots, brackets and slashes stay: `1,1-` and `11-` are different substances.
    """
    folded = name.casefold().translate(_IGNORED)
    for other, ours in _SPELLINGS:
        folded = folded.replace(other, ours)
    return folded


def index(entries: Iterable[tuple[str, Iterable[str]]]) -> Mapping[str, tuple[str, ...]]:
    """From each known name to the ids that bear it; more than one where a name is shared."""
    found: dict[str, tuple[str, ...]] = {}
    for identity, names in entries:
        for name in names:
            folded = key(name)
            if folded:
                known = found.get(folded, ())
                if identity not in known:
                    found[folded] = (*known, identity)
    return found


def nearest(text: str, known: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """The known names most like `text`, best first: for messages only, never for a look-up."""
    import difflib  # noqa: PLC0415 - needed only when a name is unknown

    by_key = {key(name): name for name in reversed(list(known))}
    close = difflib.get_close_matches(key(text), by_key, n=count, cutoff=0.6)
    return tuple(by_key[name] for name in close)


class NamedRows(Generic[T]):
    """Finds the rows of one table by id, name, alias or CAS number, exactly.

    `cells` are unconverted rows whose first cell is the id; `name_columns` the positions of the
    cells that hold names; `shared` maps a name that does not say which row it means to all ids
    it may mean. A row is converted by `build` when it is first asked for.
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
        return {key(identity): identity for identity in self._by_id}

    @cached_property
    def _index(self) -> Mapping[str, tuple[str, ...]]:
        own = index((cells[0], self._names_of(cells)) for cells in self._cells)
        return {**own, **{key(name): members for name, members in self._shared}}

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
            found = self._found[name] = tuple(map(self.get, self._meant(key(name))))
        return found

    def _meant(self, folded: str) -> tuple[str, ...]:
        own = self._ids.get(folded)  # asked first: the index of all names is seldom needed
        return self._index.get(folded, ()) if own is None else (own,)

    def ids(self) -> tuple[str, ...]:
        """Every id, in the order of the table."""
        return tuple(self._by_id)

    def known_names(self) -> tuple[str, ...]:
        """Every name, ids first."""
        rest = [name for cells in self._cells for name in self._names_of(cells) if name]
        return tuple(dict.fromkeys([*self._by_id, *rest, *(name for name, _ in self._shared)]))
