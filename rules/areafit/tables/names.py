"""Names of the trade to rows: exact up to case, blanks, hyphens and spelling, never by likeness."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from typing import Generic, TypeVar

from areafit.pattern import pattern
from areafit.tables.sources import Sourced

T = TypeVar("T")

_PIECES = pattern(r"[,;:/+&()\[\]]+|\s[-–]\s")
_WORDS = pattern(r"[\s\u00a0_‐‑‒–-]+")
_SHORT = 3
_RADICAL = pattern(r".*yl|glycol|poly|di|tri|tetra|mono|cyclo|per|non", re.IGNORECASE)
_REST = pattern(r".*ides?|acid|amine|ether|free|reduced|resin", re.IGNORECASE)
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


def _another_compound(words: Sequence[str], start: int, stop: int) -> bool:
    """Whether the word before or behind says that the name is part of that of another compound."""
    before = start > 0 and _RADICAL.fullmatch(words[start - 1]) is not None
    behind = stop < len(words) and _REST.fullmatch(words[stop]) is not None
    return before or behind


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
        shared = ((key(name), members) for name, members in self._shared)
        return {**own, **{n: tuple(dict.fromkeys((*own.get(n, ()), *m))) for n, m in shared}}

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

    def within(self, text: str) -> tuple[str, ...]:
        """The ids of all rows of which a name stands in a text, as words of their own.

        Of names that overlap the longest counts: in `hydrogen sulfide, moist` there is no hydrogen.
        Nor is there where the words beside make another compound of it: `hydrogen fluoride`,
        `glycol ether`.
        """
        found: dict[str, None] = {}
        for piece in _PIECES.split(text):
            words = _WORDS.split(piece.strip())
            start = 0
            while start < len(words):
                stop, meant = self._longest(words, start)
                if meant and not _another_compound(words, start, stop):
                    found.update(dict.fromkeys(meant))
                start = max(stop, start + 1)
        return tuple(found)

    def _longest(self, words: Sequence[str], start: int) -> tuple[int, tuple[str, ...]]:
        for stop in range(len(words), start, -1):
            written = "".join(words[start:stop])
            folded = key(written)
            meant = self._meant(folded) or self._meant(folded.removesuffix("gas"))
            if meant and (len(folded) > _SHORT or written in self._formulae):
                return stop, meant
        return start, ()

    @cached_property
    def _formulae(self) -> frozenset[str]:
        """Names so short that they are words of something else unless written alike: CO, EtO."""
        return frozenset(name for name in self.known_names() if len(name) <= _SHORT)

    def ids(self) -> tuple[str, ...]:
        """Every id, in the order of the table."""
        return tuple(self._by_id)

    def known_names(self) -> tuple[str, ...]:
        """Every name, ids first."""
        rest = [name for cells in self._cells for name in self._names_of(cells) if name]
        return tuple(dict.fromkeys([*self._by_id, *rest, *(name for name, _ in self._shared)]))
