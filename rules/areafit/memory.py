"""What was judged in one run, remembered by as little as the answer may rest on.

A list repeats itself: thousands of lines share a nameplate, a material or a place, and differ in
an item number or a certificate. Answers are shared objects, so reports may tell them apart by
identity too. Nothing here outlives the run.
"""

from collections.abc import Callable, Hashable, Iterable, Sequence
from typing import Any

from areafit.demands import Demands
from areafit.findings.report import Answers, Judged, Piece, Placed, Spot
from areafit.frozen import replace
from areafit.reading import Key, key_of, key_of_each, narrowing
from areafit.rule import Ask, Judgement, Rule, Subject

Rules = Callable[[Subject], Sequence[Rule[Any]]]
Weigh = Callable[[Rule[Any], Judgement], Judgement]


class Judge:
    """Asks and judges by the rules for a subject; `weigh` has the last word on each judgement.

    Remembers nothing.
    """

    def __init__(self, rules: Rules, weigh: Weigh) -> None:
        self._rules = rules
        self._weigh = weigh

    def answers(self, subject: Subject, aspect: object, demands: Demands | None) -> Answers:
        """Every question that the rules for a subject ask about it, answered."""
        return Answers.of(
            Judged(rule, ask, self._weigh(rule, rule.judge(ask.question)))
            for rule in self._rules(subject)
            for ask in rule.ask(aspect, demands)
        )


class RememberingJudge(Judge):
    """The same answers, each worked out once."""

    def __init__(self, rules: Rules, weigh: Weigh) -> None:
        super().__init__(rules, weigh)
        self._desks: dict[tuple[Subject, type], tuple[_Desk, ...]] = {}
        self._materials: dict[tuple[int, int], Answers] = {}
        self._shared = _Shared(weigh)

    def answers(self, subject: Subject, aspect: object, demands: Demands | None) -> Answers:
        """As those of a judge that remembers nothing, to the letter."""
        if subject is not Subject.MATERIAL:
            return self._asked(subject, aspect, demands)
        key = (id(aspect), id(demands))  # equal materials are one object, which the list keeps
        known = self._materials.get(key)
        if known is None:
            known = self._materials[key] = self._asked(subject, aspect, demands)
        return known

    def _asked(self, subject: Subject, aspect: object, demands: Demands | None) -> Answers:
        desks = self._desks.get((subject, type(aspect)))
        if desks is None:
            desks = self._desks[subject, type(aspect)] = self._opened(subject, type(aspect))
        given = (placed for desk in desks for placed in desk.answers(aspect, demands))
        return Answers([placed for placed in given if placed[0].numbered])

    def _opened(self, subject: Subject, kind: type) -> "tuple[_Desk, ...]":
        """One desk for all rules that read the same."""
        by_reads: dict[tuple[str, frozenset[str]], list[tuple[int, Rule[Any]]]] = {}
        for numbered in enumerate(self._rules(subject)):
            rule = numbered[1]
            by_reads.setdefault((rule.each, frozenset(rule.reads)), []).append(numbered)
        return tuple(
            _DeskForEach(rules, kind, reads, self._shared, each)
            if each
            else _Desk(rules, kind, reads, self._shared)
            for (each, reads), rules in by_reads.items()
        )


class _Desk:
    """Rules that read the same facts of a subject: asked once for all subjects that share them."""

    def __init__(
        self,
        rules: Sequence[tuple[int, Rule[Any]]],
        kind: type,
        reads: Iterable[str],
        shared: "_Shared",
    ) -> None:
        self._rules = rules
        self._key = key_of(kind, reads)
        self._narrowed = narrowing(reads)
        self._shared = shared
        self._known: dict[Hashable, tuple[Placed]] = {}
        self._alive: list[object] = []

    def answers(self, aspect: Any, demands: Demands | None) -> Iterable[Placed]:  # noqa: ANN401
        """What the rules answer of an aspect."""
        key = (id(demands), self._key(aspect))
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = ((self._asked(aspect, demands), None),)
        return found

    def _asked(self, aspect: object, demands: Demands | None) -> Piece:
        self._alive.append(aspect)  # a value that is gone may leave its identity to another
        narrowed = self._narrowed(aspect)
        return Piece(
            [
                (number, self._shared.judged(rule, ask))
                for number, rule in self._rules
                for ask in rule.ask(narrowed, demands)
            ]
        )


class _DeskForEach(_Desk):
    """Rules that judge the entries of a list one by one: asked once for each different entry."""

    def __init__(
        self,
        rules: Sequence[tuple[int, Rule[Any]]],
        kind: type,
        reads: Iterable[str],
        shared: "_Shared",
        each: str,
    ) -> None:
        super().__init__(rules, kind, reads, shared)
        self._each = each
        self._key_of_rest = key_of(kind, [name for name in reads if name.split(".")[0] != each])
        self._key_of_entry = key_of_each(reads, each)
        self._entries: dict[Hashable, dict[Hashable, Piece]] = {}
        self._spots: dict[tuple[int, str | None], Spot] = {}

    def answers(self, aspect: Any, demands: Demands | None) -> Iterable[Placed]:  # noqa: ANN401
        """What the rules answer of an aspect, a piece for each entry."""
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
            piece = known.get(key)
            if piece is None:
                alone = replace(aspect, **{self._each: (entry,)})
                piece = known[key] = self._asked(alone, demands)
            placed.append((piece, self._spot(index, entry.component)))
        return placed

    def _spot(self, index: int, component: str | None) -> Spot:
        found = self._spots.get((index, component))
        if found is None:
            found = self._spots[index, component] = Spot(self._each, index, component)
        return found


class _Shared:
    """Answered questions: equal ones are one object, and are judged once."""

    def __init__(self, weigh: Weigh) -> None:
        self._weigh = weigh
        self._keys: dict[type, Key] = {}
        self._known: dict[Hashable, _Answered] = {}
        self._equal: dict[tuple[str, object], _Answered] = {}
        self._alive: list[object] = []

    def judged(self, rule: Rule[Any], ask: Ask[Any]) -> Judged:
        """The answer to a question.

        One made of values met before is known by their identity, which is quick; others are
        compared, which is not, since a question may hold a whole nameplate and a table row.
        """
        question = ask.question
        kind = type(question)
        key_of_question = self._keys.get(kind)
        if key_of_question is None:
            key_of_question = self._keys[kind] = key_of(kind)
        key = (rule.id, key_of_question(question))
        answered = self._known.get(key)
        if answered is None:
            answered = self._known[key] = self._compared(rule, question)
            self._alive.append(question)  # as at a desk
        where = (ask.path, ask.component)
        judged = answered.judged.get(where)
        if judged is None:
            shared = Ask(answered.question, ask.path, ask.component)
            judged = answered.judged[where] = Judged(rule, shared, answered.judgement)
        return judged

    def _compared(self, rule: Rule[Any], question: object) -> "_Answered":
        key = (rule.id, question)
        equal = self._equal.get(key)
        if equal is None:
            judgement = self._weigh(rule, rule.judge(question))
            equal = self._equal[key] = _Answered(question, judgement)
        return equal


class _Answered:
    """A question, its answer, and what was made of it for each field and component asked about."""

    def __init__(self, question: object, judgement: Judgement) -> None:
        self.question = question
        self.judgement = judgement
        self.judged: dict[tuple[str, str | None], Judged] = {}
