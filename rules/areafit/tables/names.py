"""Names of the trade to rows: exact up to case, blanks, hyphens and spelling, never by likeness."""

import re
import unicodedata
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
_PLAIN = str.maketrans(
    "АВЕКМНОРСТУХавекмнорстух\u2010\u2011\u2012\u2013\u2212", "ABEKMHOPCTYXabekmhopctyx-----"
)
_QUOTES = "\"'`´\u2018\u2019\u201a\u201b\u201c\u201d\u201e\u201f\u2039\u203a«»®™©"
_UNQUOTED = str.maketrans(dict.fromkeys(_QUOTES, " "))
_IGNORED = dict.fromkeys(map(ord, f" \t\n\r\f\v-_\u2014{_QUOTES}"))
_SPELLINGS = (("sulph", "sulf"), ("aluminum", "aluminium"), ("vapor", "vapour"))


class SharedName(Sourced):
    """A name that more than one row answers to: all of `members` are judged, the worst governs."""

    table: str
    name: str
    members: tuple[str, ...]


def key(name: str) -> str:
    """The form in which two spellings of one name are equal.

    Case, blanks of any kind, hyphens, quotation marks and accents do not count. Commas, dots,
    brackets and slashes stay: `1,1-` and `11-` are different substances.
    """
    folded = plain(name).casefold()
    if not folded.isalnum():  # else there is nothing to leave out
        folded = folded.translate(_IGNORED)
    for other, ours in _SPELLINGS:
        folded = folded.replace(other, ours)
    return folded


def _another_compound(words: Sequence[str], start: int, stop: int) -> bool:
    """Whether the word before or behind says that the name is part of that of another compound."""
    before = start > 0 and _RADICAL.fullmatch(words[start - 1]) is not None
    behind = stop < len(words) and _REST.fullmatch(words[stop]) is not None
    return before or behind


def plain(name: str) -> str:
    """The name in plain characters: no accents or raised digits, and one kind of quote and hyphen.

    Cyrillic letters that look like Latin ones are taken for them: drawings mix the two.
    """
    if name.isascii():
        return name
    apart = unicodedata.normalize("NFKD", name)
    kept = "".join(c for c in apart if not _is_accent(c))
    return unicodedata.normalize("NFC", kept).translate(_PLAIN)


def tidy(name: str) -> str:
    """The name in plain characters, without quotation marks and needless blanks."""
    return " ".join(plain(name).translate(_UNQUOTED).split())


def _is_accent(character: str) -> bool:
    return unicodedata.combining(character) != 0 or unicodedata.category(character) == "Cf"


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
    """Known names that the writer of `text` may have meant: for messages only, never a look-up.

    A name but for a slip of one or two letters comes first, then names that have a telling word
    in common with it. Names that merely look alike are none: methanol is not nearly ethanol. Of a
    number that lacks its last digit, such as 1.430, those that begin with it.
    """
    by_key = {key(name): name for name in reversed(list(known))}
    wanted = key(text)
    slips = 2 if len(wanted) >= _LONG else 1
    near = [(_slips(wanted, one, slips), one) for one in by_key]
    slipped = sorted((far, one) for far, one in near if far is not None)
    begun = [
        (1, one)
        for one in by_key
        if len(wanted) >= _DIGITS and one[:-1] == wanted and one[-2:].isdecimal()
    ]
    slipped += sorted(begun)
    told = _words(text)
    words = {one: _words(name) for one, name in by_key.items()}
    holders = {word: [one for one, own in words.items() if word in own] for word in told}
    telling = {one for holding in holders.values() if len(holding) <= _COMMON for one in holding}

    def weight(one: str) -> float:
        shared = (len(holders[word]) for word in told & words[one])
        return sum(1 / many for many in shared) / (len(words[one]) + len(told))

    alike = sorted((-weight(one), one) for one in telling)
    found = dict.fromkeys(one for _, one in (*slipped, *alike))
    return tuple(by_key[one] for one in list(found)[:count])


_LONG = 6  # letters; one slip in a shorter name is the most that is taken for one
_DIGITS = 4  # of a number but for its last; a shorter one begins too many
_LETTERS = 4  # of a word that tells something
_STEM = 7  # letters of a word that are compared: hydroxid, hydroxide
_COMMON = 24  # names; a word that more of them hold, such as acid or powder, tells nothing
_WORD = pattern(r"[^\W\d_]+")


def _words(name: str) -> frozenset[str]:
    return frozenset(
        word[:_STEM] for word in _WORD.findall(plain(name).casefold()) if len(word) >= _LETTERS
    )


def _figures(name: str) -> list[str]:
    """The digits of a name; a letter o among digits is taken for a zero."""
    return [c for c in (name.replace("o", "0") if name[:1].isdigit() else name) if c.isdigit()]


def _slips(one: str, other: str, most: int) -> int | None:
    """How many letters are wrong, missing, too many or swapped; None if more than `most`.

    Digits are no letters here: 1.4404 is no slip for 1.4401. The first letter is right.
    """
    if abs(len(one) - len(other)) > most or one[:1] != other[:1]:
        return None
    if _figures(one) != _figures(other):
        return None
    before, row = list(range(len(other) + 1)), list(range(len(other) + 1))
    older = row
    for i, left in enumerate(one, 1):
        older, before, row = before, row, [i, *([0] * len(other))]
        for j, right in enumerate(other, 1):
            row[j] = min(row[j - 1] + 1, before[j] + 1, before[j - 1] + (left != right))
            if i > 1 and j > 1 and left == other[j - 2] and one[i - 2] == right:
                row[j] = min(row[j], older[j - 2] + 1)
    return row[-1] if row[-1] <= most else None


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
    def _shared_by_key(self) -> Mapping[str, tuple[str, ...]]:
        return {key(name): members for name, members in self._shared}

    @cached_property
    def _index(self) -> Mapping[str, tuple[str, ...]]:
        return index((cells[0], (cells[0], *self._names_of(cells))) for cells in self._cells)

    @cached_property
    def _as_written(self) -> Mapping[str, tuple[str, ...]]:
        """The ids by each name exactly as it is written, for names that differ in case alone."""
        found: dict[str, tuple[str, ...]] = {}
        for cells in self._cells:
            for name in (cells[0], *self._names_of(cells)):
                if cells[0] not in (known := found.get(name, ())):
                    found[name] = (*known, cells[0])
        return found

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
        """The ids of a name: what is listed as shared first, since it may be an id too.

        `PPs` and `PPS` are two polymers: where several rows bear a name in some spelling, the
        one that bears it exactly as written is meant, and all of them where none does.
        """
        folded = key(name)
        shared = self._shared_by_key.get(folded)
        if shared is not None:  # a company's row of that name is meant too
            return tuple(dict.fromkeys((*shared, *self._index.get(folded, ()))))
        if name in self._by_id:  # asked before the index of all names, which is seldom needed
            return (name,)
        meant = self._index.get(folded, ())
        if len(meant) > 1:
            written = self._as_written.get(tidy(name), meant)
            return written if len(written) == 1 else meant
        return meant

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
