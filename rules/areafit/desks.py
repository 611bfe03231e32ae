"""Desks where rules are asked: each question once for all subjects that agree in what it reads."""

from collections.abc import Hashable, Iterable, Sequence
from typing import Any

from areafit.demands import Demands
from areafit.findings.report import Piece, Placed, Spot
from areafit.frozen import replace
from areafit.questions import Questions
from areafit.reads import key_of, key_of_each, narrowing
from areafit.rule import Rule


class Desk:
    """Rules that read the same facts of a subject: asked once for all subjects that share them."""

    def __init__(
        self,
        rules: Sequence[tuple[int, Rule[Any]]],
        kind: type,
        reads: Iterable[str],
        questions: Questions,
    ) -> None:
        self.reads = frozenset(reads)
        self._rules = rules
        self._key = key_of(kind, reads)
        self._narrowed = narrowing(reads)
        self._questions = questions
        self._known: dict[Hashable, Piece] = {}
        self._alive: list[object] = []

    def answers(self, aspect: Any, demands: Demands | None) -> Iterable[Placed]:  # noqa: ANN401
        """What the rules answer of an aspect."""
        piece = self.piece(aspect, demands)
        return ((piece, None),) if piece.numbered else ()

    def piece(self, aspect: Any, demands: Demands | None) -> Piece:  # noqa: ANN401 - any fact
        """The same as one piece, which is empty where there was nothing to ask."""
        key = (id(demands), self._key(aspect))
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._asked(aspect, demands)
        return found

    def _asked(self, aspect: object, demands: Demands | None) -> Piece:
        self._alive.append(aspect)  # a value that is gone may leave its identity to another
        narrowed = self._narrowed(aspect)
        return Piece(
            [
                (number, self._questions.judged(rule, ask))
                for number, rule in self._rules
                for ask in rule.ask(narrowed, demands)
            ]
        )


class Bundle:
    """Desks that are asked together: all answer at once for a subject met before."""

    def __init__(self, kind: type, desks: Sequence[Desk]) -> None:
        self._desks = desks
        self._key = key_of(kind, sorted(frozenset().union(*(desk.reads for desk in desks))))
        self._known: dict[Hashable, tuple[Placed, ...]] = {}
        self._alive: list[object] = []

    def answers(self, aspect: Any, demands: Demands | None) -> Iterable[Placed]:  # noqa: ANN401
        """What the rules of all desks answer of an aspect."""
        key = (id(demands), self._key(aspect))
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._gathered(aspect, demands)
            self._alive.append(aspect)  # as at a desk
        return found

    def _gathered(self, aspect: object, demands: Demands | None) -> tuple[Placed, ...]:
        return tuple(placed for desk in self._desks for placed in desk.answers(aspect, demands))


class BundleForEach(Bundle):
    """Desks of rules that judge the entries of a list one by one: each different entry once."""

    def __init__(self, kind: type, desks: Sequence[Desk], each: str) -> None:
        super().__init__(kind, desks)
        reads = frozenset().union(*(desk.reads for desk in desks))
        self._each = each
        self._key_of_rest = key_of(kind, sorted(n for n in reads if n.partition(".")[0] != each))
        self._key_of_entry = key_of_each(reads, each)
        self._entries: dict[Hashable, dict[Hashable, tuple[Piece, ...]]] = {}
        self._spots: dict[tuple[int, str | None], Spot] = {}

    def answers(self, aspect: Any, demands: Demands | None) -> Iterable[Placed]:  # noqa: ANN401
        """What the rules of all desks answer of an aspect, with the entry that each is about."""
        entries = getattr(aspect, self._each)
        if not entries:
            return super().answers(aspect, demands)
        rest = (id(demands), self._key_of_rest(aspect))
        known = self._entries.get(rest)
        if known is None:
            known = self._entries[rest] = {}
        placed = []
        for index, entry in enumerate(entries):
            key = self._key_of_entry(entry)
            pieces = known.get(key)
            if pieces is None:
                pieces = known[key] = self._pieces(aspect, entry, demands)
            if pieces:
                spot = self._spot(index, entry.component)
                placed += [(piece, spot) for piece in pieces]
        return placed

    def _pieces(self, aspect: Any, entry: object, demands: Demands | None) -> tuple[Piece, ...]:  # noqa: ANN401
        alone = replace(aspect, **{self._each: (entry,)})
        self._alive.append(alone)  # as at a desk
        found = (desk.piece(alone, demands) for desk in self._desks)
        return tuple(piece for piece in found if piece.numbered)

    def _spot(self, index: int, component: str | None) -> Spot:
        found = self._spots.get((index, component))
        if found is None:
            found = self._spots[index, component] = Spot(self._each, index, component)
        return found
