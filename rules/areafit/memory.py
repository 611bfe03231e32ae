"""What was judged in one run, remembered by as little as the answer may rest on.

A list repeats itself: thousands of lines share a nameplate, a material or a place, and differ in
an item number or a certificate. Answers are shared objects, so reports may tell them apart by
identity too. Nothing here outlives the run.
"""

from typing import Any

from areafit.asking import Judge, Rules, Weigh
from areafit.demands import Demands
from areafit.desks import Bundle, BundleForEach, Desk
from areafit.findings.report import Answers
from areafit.questions import Questions
from areafit.rule import Rule, Subject


class RememberingJudge(Judge):
    """The same answers, each worked out once."""

    def __init__(self, rules: Rules, weigh: Weigh) -> None:
        super().__init__(rules, weigh)
        self._desks: dict[tuple[Subject, type], tuple[Desk | Bundle, ...]] = {}
        self._materials: dict[tuple[int, int], Answers] = {}
        self._questions = Questions(weigh)

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
        return Answers([placed for desk in desks for placed in desk.answers(aspect, demands)])

    def _opened(self, subject: Subject, kind: type) -> tuple[Desk | Bundle, ...]:
        """One desk for all rules that read the same, and bundles of desks asked at once."""
        by_reads: dict[tuple[str, frozenset[str]], list[tuple[int, Rule[Any]]]] = {}
        for number, rule in enumerate(self._rules(subject)):
            by_reads.setdefault((rule.each, frozenset(rule.reads)), []).append((number, rule))
        alone: list[Desk] = []
        bundled: dict[str, list[Desk]] = {}
        for (each, reads), rules in by_reads.items():
            desk = Desk(rules, kind, reads, self._questions)
            if each or (reads and not any(map(_varied, reads))):
                bundled.setdefault(each, []).append(desk)
            else:
                alone.append(desk)
        bundles = (
            BundleForEach(kind, desks, each) if each else Bundle(kind, desks)
            for each, desks in bundled.items()
        )
        return (*alone, *bundles)


def _varied(name: str) -> bool:
    """Whether hardly two lines state a fact alike, so that little is gained by bundling."""
    return name in _UNLIKE or name.partition(".")[0] == "materials"


_UNLIKE = frozenset({"description", "evidence", "evidence.number", "evidence.covers"})
