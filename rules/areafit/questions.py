"""Questions that were answered in one run: equal ones are one object, and are judged once."""

from typing import TYPE_CHECKING, Any

from areafit.asking import Weigh
from areafit.findings.report import Judged
from areafit.reads import Key, key_of
from areafit.rule import Ask, Judgement, Rule

if TYPE_CHECKING:
    from collections.abc import Hashable


class Questions:
    """Judges what it has not judged before; `weigh` has the last word on each judgement."""

    def __init__(self, weigh: Weigh) -> None:
        self._weigh = weigh
        self._keys: dict[type, Key] = {}
        self._known: dict[Hashable, _One] = {}
        self._equal: dict[tuple[str, object], _One] = {}
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

    def _compared(self, rule: Rule[Any], question: object) -> "_One":
        key = (rule.id, question)
        equal = self._equal.get(key)
        if equal is None:
            judgement = self._weigh(rule, rule.judge(question))
            equal = self._equal[key] = _One(question, judgement)
        return equal


class _One:
    """A question, its answer, and what was made of it for each field and component asked about."""

    def __init__(self, question: object, judgement: Judgement) -> None:
        self.question = question
        self.judgement = judgement
        self.judged: dict[tuple[str, str | None], Judged] = {}
