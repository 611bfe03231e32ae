"""Names as drawings and data sheets bear them, taken apart into what the tables know.

A name that no row bears is read by rows of `designations.csv`, never by likeness: as a whole, by
the rule of its standard (`1.7131` is a low-alloy steel), or as a known name with words beside it
(`6082 T6`, `NBR 70`, `Messing CuZn37`, `HNO3 65 %`). What such a word does stands in its row: it
changes nothing, it names a filler or a coat, or it states a strength. A word without a row, or
beside a material that it is not said of, leaves the name unknown.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from areafit.pattern import pattern
from areafit.tables.load import columns, lines_of, to_row
from areafit.tables.names import key, tidy
from areafit.tables.sources import Sourced
from areafit.values import Frozen, Term, replace


class Scope(Term):
    """What a form is compared with."""

    WHOLE = "whole"  # all of the name
    BESIDE = "beside"  # a word before or behind a known name
    KIND = "kind"  # the same, and of several that the name may mean it says which


class Designation(Sourced):
    """A form of names, and what it says.

    In `form`, folded as names are, `#` is a number, `##` one of two digits; of a whole name `?`
    is a digit and `*` any rest. `of` are the ids, families or their words beside which a form
    may stand; empty: any. `members` are the ids that a whole name means, or what a coat makes of
    its base. `fillers` are the ids of what is in the material beside its name. `strength` is a
    concentration, `#` the number of the form.
    """

    table: str
    form: str
    of: tuple[str, ...]
    scope: Scope
    members: tuple[str, ...]
    fillers: tuple[str, ...]
    strength: str
    says: str


class Reading(Frozen):
    """What a name means: ids of its table, and of the fillers in it.

    `strength` is what the name states of it, empty if it says nothing; `said` the rows that a
    word beside a known name rests on. `trade`: it is, or holds, a maker's name of several grades.
    """

    ids: tuple[str, ...]
    fillers: tuple[str, ...] = ()
    strength: str = ""
    said: tuple[Designation, ...] = ()
    trade: bool = False

    @property
    def plain(self) -> bool:
        """Whether the name is one that a row bears, with nothing to tell about it."""
        return not self.said and not self.trade


UNKNOWN = Reading(())
_FORM, _SCOPE, _MEMBERS = map(columns(Designation).index, ("form", "scope", "members"))
_WORDS_OF = {"substances": "chemicals"}
_MEDIA = frozenset({"solution", "liquid", "gas"})
_MIXED = frozenset({"chemicals"})  # two names in one are mixed, and no row of either holds
_MOST_WORDS = 6
_NEARLY = 1  # mass %: what a bare and a coated steel of the tables differ by decides nothing
_MOST_WAYS = 200  # of taking a name apart; one that allows more is no name of the trade
_LONGEST = 80  # characters; nor is a longer one
_NUMBER = pattern(
    r"[0-9]+(?:[.,][0-9]+)?(?: ?(?:\.\.\.?|[-\u2013/]|to|bis) ?[0-9]+(?:[.,][0-9]+)?)?"
)
_TWO_DIGITS = pattern(r"(?<![0-9.,])[0-9]{2}(?![0-9.,])")
_EDGE = " \t,;:/&-\u2013\u2014_+."
_DECIMAL = pattern(r"(?<=[0-9]),(?=[0-9])")
_OR = pattern(r"\s(?:or|oder|bzw\.?)\s", re.IGNORECASE)
_GERMAN_END = pattern(r"(?<=[^\W\d_]{2})(?:staub|pulver|mehl)(?![^\W_])", re.IGNORECASE)
_POINT = pattern(r"(?<=[0-9])[.,](?=[0-9])")
_FILLED = pattern(r"[GC]F[0-9]")
_PARTS = frozenset("/(),;=|+&")
_OPEN, _CLOSED = "([{", ")]}"


class Reader:
    """Reads the names of one table; `known` gives the ids of a name as it is, `get` a row.

    Vapours are named in the words of chemicals.
    """

    def __init__(
        self, table: str, known: Callable[[str], tuple[str, ...]], get: Callable[[str], Any]
    ) -> None:
        words = _WORDS_OF.get(table, table)
        self._known = known
        self._get = get
        self._several = words not in _MIXED
        self._forms: dict[str, list[list[str]]] = {}  # converted when a name holds them
        self._by_first: dict[str, tuple[re.Pattern[str], list[list[str]]]] = {}
        for cells in lines_of("designations", (words,)):
            if words == table or not cells[_MEMBERS]:
                self._forms.setdefault(cells[_FORM], []).append(cells)

    def read(self, name: str) -> Reading:
        """What a name means that no row bears; an empty one where the rules do not say."""
        text = _OR.sub(" / ", tidy(name))
        if not text or len(text) > _LONGEST:
            return UNKNOWN
        named = self._taken_apart(text, self._known_or_dotted)
        return named if named.ids else self._taken_apart(text, self._base)

    def _taken_apart(self, text: str, base_of: Callable[[str], tuple[str, ...]]) -> Reading:
        """The reading that needs the fewest words beside a base; of several all together."""
        start = _Beside(marked=self._several, figures=self._several)
        layer: dict[str, tuple[_Beside, ...]] = {text: (start,)}
        for _ in range(_MOST_WORDS):
            bases = ((rest, base_of(rest), taken) for rest, taken in layer.items())
            found = [one for rest, base, taken in bases for one in self._ended(rest, base, taken)]
            if found:
                return _together(found)
            layer = self._shorter(layer, base_of)
            if sum(map(len, layer.values())) > _MOST_WAYS:
                return UNKNOWN
        return UNKNOWN

    def _base(self, text: str) -> tuple[str, ...]:
        """The ids of a name as it is, or by the rule of its standard."""
        known, folded = self._known_or_dotted(text), key(text)
        if known or not folded:
            return known
        forms, cells = self._whole(folded[0])
        whole = forms.fullmatch(folded)
        if whole is None or whole.lastindex is None:
            return ()
        return to_row(Designation, cells[whole.lastindex - 1]).members

    def _known_or_dotted(self, text: str) -> tuple[str, ...]:
        """The ids of a name; a decimal comma is a point: `AlMg4,5Mn`."""
        return self._known(text) or self._known(_DECIMAL.sub(".", text))

    def _whole(self, first: str) -> tuple[re.Pattern[str], list[list[str]]]:
        """The forms of whole names that may begin so, a group each, and their rows."""
        if first not in self._by_first:
            starts = {first, "*", *(["?"] if first.isdigit() else [])}
            cells = [
                each
                for form, alike in self._forms.items()
                for each in alike
                if form[0] in starts and each[_SCOPE] == Scope.WHOLE.value
            ]
            forms = "|".join(f"({_whole(each[_FORM])})" for each in cells) or "(?!)"
            self._by_first[first] = re.compile(forms), cells
        return self._by_first[first]

    def _ended(
        self, rest: str, base: tuple[str, ...], taken: Iterable["_Beside"]
    ) -> Iterator[Reading]:
        """The readings of a rest that is a known name, with all that stood beside it."""
        made = base and any(row.members or row.fillers for row in self._named(rest))
        for one in taken if base else ():
            if made and one.ids is not None:  # a coat or a filler of what stands beside it
                continue
            ids = one.agreed(base, rest)
            of_coat = []  # `hardened, 58 HRC`: said of what the treatment makes of the base
            for row in sorted(one.said, key=lambda each: bool(each.members)):  # coats come last
                left = self._with(row, ids)
                if left or row.members or row.scope is Scope.KIND:
                    ids = left
                else:
                    of_coat.append(row)
            for row in of_coat:
                ids = self._with(row, ids)
            if ids:
                yield Reading(ids, one.fillers, one.strength, one.said)

    def _with(self, row: Designation, ids: tuple[str, ...]) -> tuple[str, ...]:
        """The ids that a word beside them leaves, or what its coat makes of them."""
        fit = tuple(filter(partial(self._is_of, row), ids))
        if row.scope is Scope.KIND:
            return fit
        if not fit or len(fit) < len(ids):
            return ()
        return self._coated(row, ids) if row.members else ids

    def _is_of(self, row: Designation, identity: str) -> bool:
        found = self._get(identity)
        kind = getattr(found, "family", None) or getattr(found, "medium", None)
        if not row.of or identity in row.of:
            return True
        if kind is None:  # of a vapour, that it is liquid, a gas or a solution says nothing
            return not _MEDIA.isdisjoint(row.of)
        text = str(getattr(kind, "value", kind))
        return any(
            word == identity or word in text or identity.startswith(f"{word}-") for word in row.of
        )

    def _coated(self, row: Designation, base: tuple[str, ...]) -> tuple[str, ...]:
        """What the coat makes of its base; the base too where its row is the more onerous."""
        coats = [self._get(identity) for identity in row.members]
        if any(_allowed_for(self._get(identity), coats) for identity in base):
            return row.members
        return (*row.members, *base)

    def _shorter(
        self,
        layer: Mapping[str, Sequence["_Beside"]],
        base_of: Callable[[str], tuple[str, ...]],
    ) -> dict[str, tuple["_Beside", ...]]:
        """Every rest that is left when one more word before or behind it is taken off."""
        found: dict[str, dict[_Beside, None]] = {}
        for text, taken in layer.items():
            for word, rest, marked in _cuts(text):
                named, name = self._named(word), _trimmed(word)
                made = any(row.members or row.fillers for row in named)
                also = () if made else base_of(name)
                if named or also:
                    own = found.setdefault(rest, {})
                    for one in taken:
                        own.update(dict.fromkeys(one.with_row(row, word) for row in named))
                        both = one.with_name(also, name, marked=marked) if also else None
                        if both is not None:
                            own[both] = None
        return {rest: tuple(states) for rest, states in found.items() if states}

    def _named(self, word: str) -> tuple[Designation, ...]:
        """The rows of a word; a number that is a name of its own, such as 8.8, is that name."""
        written = self._beside(_folded(word))
        if written:
            return written
        two = _folded(_TWO_DIGITS.sub("##", word))
        numbered = self._beside(two) or self._beside(_form(word))
        name = _trimmed(word)
        number = name.replace(".", "").isdigit()  # of EN 10027-2 and the like
        named = bool(numbered) and bool(self._base(name) if number else self._known(name))
        return tuple(row for row in numbered if row.members) if named else numbered

    def _beside(self, form: str) -> tuple[Designation, ...]:
        return tuple(
            to_row(Designation, cells)
            for cells in self._forms.get(form, ())
            if cells[_SCOPE] != Scope.WHOLE.value
        )


class _Beside(Frozen):
    """What stood beside a rest: rows, and other names of the same thing; the order is of no matter.

    `ids` are what the other names mean, None where there is none. `marked`: a mark parts the
    names, so that they may be of two things; `figures`: they have some.
    """

    ids: tuple[str, ...] | None = None
    marked: bool = True
    figures: bool = True
    fillers: tuple[str, ...] = ()
    strength: str = ""
    said: tuple[Designation, ...] = ()

    def with_row(self, row: Designation, word: str) -> "_Beside":
        strength = self.strength or _strength(row, word)
        fillers = tuple(sorted({*self.fillers, *row.fillers}))
        said = tuple(sorted({*self.said, row}, key=lambda one: (one.form, one.of)))
        return replace(self, fillers=fillers, strength=strength, said=said)

    def with_name(self, ids: tuple[str, ...], name: str, *, marked: bool) -> "_Beside | None":
        met = self.agreed(ids, name)
        figures = self.figures and _has_figures(name)
        if not met:
            return None
        return replace(self, ids=met, marked=self.marked and marked, figures=figures)

    def agreed(self, ids: tuple[str, ...], name: str) -> tuple[str, ...]:
        """What both names mean; all that either may mean where they may be of two things."""
        if self.ids is None:
            return ids
        both = tuple(one for one in ids if one in self.ids)
        if both:
            return both
        two = self.marked or (self.figures and _has_figures(name))
        return tuple(sorted({*self.ids, *ids})) if two else ()


def _has_figures(name: str) -> bool:
    return any(map(str.isdigit, name))


def _cuts(text: str) -> Iterator[tuple[str, str, bool]]:
    """A word at one end of the text, the rest, and whether a mark parts them.

    The text is cut at blanks and marks, between a letter and a digit, before a filler, and before
    what ends German names of dusts (`Zinkstaub`); never within a number: `PEEK 1.4301` is no PEEK
    of a grade 4301.
    """
    ends = {found.start() for found in _GERMAN_END.finditer(text)}
    points = {at for found in _POINT.finditer(text) for at in (found.start(), found.end())}
    for at in range(1, len(text)):
        left, right = text[at - 1], text[at]
        glued = at in ends
        within = (
            not glued and left.isalnum() and right.isalnum() and left.isdigit() is right.isdigit()
        )
        if (within and not _FILLED.match(text, at)) or at in points:
            continue
        before, behind = text[:at].strip(), text[at:].strip()
        head, tail = _trimmed(before), _trimmed(behind)
        if head and tail:
            marked = not _PARTS.isdisjoint(before[len(head) :] + behind[: -len(tail)])
            yield behind, head, marked
            yield before, tail, marked


def _trimmed(text: str) -> str:
    """Without blanks, marks and brackets of no partner at its ends."""
    text = text.strip(_EDGE)
    while text and (text[0] in _CLOSED or (text[0] in _OPEN and _lone(text, 0))):
        text = text[1:].strip(_EDGE)
    while text and (text[-1] in _OPEN or (text[-1] in _CLOSED and _lone(text, -1))):
        text = text[:-1].strip(_EDGE)
    if (
        len(text) > 1
        and text[0] in _OPEN
        and text.find(_CLOSED[_OPEN.index(text[0])]) == len(text) - 1
    ):
        return text[1:-1].strip(_EDGE)
    return text


def _lone(text: str, at: int) -> bool:
    kind = (_OPEN if text[at] in _OPEN else _CLOSED).index(text[at])
    return text.count(_OPEN[kind]) != text.count(_CLOSED[kind])


def _form(word: str) -> str:
    """A word as the forms of the table are written."""
    return _folded(_NUMBER.sub("#", word))


def _folded(word: str) -> str:
    folded = key(word).strip(",;:()[]{}/&|=")
    return folded if folded[:2] == "+#" or folded[1:2].isalpha() else folded.removeprefix("+")


def _strength(row: Designation, word: str) -> str:
    number = _NUMBER.search(word)
    if "#" not in row.strength or number is None:
        return row.strength
    ends = re.findall(r"[0-9]+(?:[.,][0-9]+)?", number.group())
    return row.strength.replace("#", "..".join(end.replace(",", ".") for end in ends))


def _whole(form: str) -> str:
    return re.escape(form).replace(r"\?", "[0-9]").replace(r"\*", ".*")


def _allowed_for(base: Any, coats: Sequence[Any]) -> bool:  # noqa: ANN401 - rows of any table
    """Whether the rows of the coats ask for as much as that of the base, wherever rules compare."""
    strong = getattr(base, "high_strength", False)
    if strong and not all(coat.high_strength for coat in coats):
        return False
    contents = ("cu_pct_max", "light_metal_pct_max", "mg_ti_zr_pct_max")
    return all(
        (getattr(coat, name, 0) or 0) + _NEARLY >= (getattr(base, name, 0) or 0)
        for coat in coats
        for name in contents
    )


def _together(found: Sequence[Reading]) -> Reading:
    """Every reading of one name: all that it may mean."""

    def every(field: str) -> tuple[Any, ...]:
        return tuple(dict.fromkeys(one for each in found for one in getattr(each, field)))

    strength = next((each.strength for each in found if each.strength), "")
    return Reading(every("ids"), every("fillers"), strength, every("said"))
