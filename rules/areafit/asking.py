"""Asking and judging, question by question: what a run comes to, however it is sped up."""

from collections.abc import Callable, Sequence
from typing import Any

from areafit.demands import Demands
from areafit.findings.report import Answers, Judged
from areafit.rule import Judgement, Rule, Subject

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
