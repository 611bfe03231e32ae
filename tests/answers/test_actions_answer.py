"""Open points: one question to each role, with everything that it is asked for."""

from collections.abc import Callable

from areafit.answers.actions import actions
from areafit.answers.causes import CauseKind
from areafit.findings.report import BomReport
from areafit.verdict import Role


def test_every_open_finding_is_asked_of_its_role(judged: Callable[..., BomReport]) -> None:
    report = judged()
    found = actions(report)
    wanted = {
        (finding.answer_by, finding.rule.id, finding.message)
        for subject in report.subjects()
        for finding in subject.findings()
        if not finding.verdict.passes
    }
    asked = {(a.role, rule) for a in found for rule in a.rules}
    assert {rule for _, rule in asked} == {rule for _, rule, _ in wanted}
    told = {(a.role, a.rule, a.question) for a in found if a.kind is not CauseKind.ANSWER}
    assert told
    assert told <= wanted
    roles = [list(Role).index(action.role) for action in found]
    assert roles == sorted(roles)
    for role in Role:
        own = [action.kind for action in found if action.role is role]
        assert own == sorted(own, key=list(CauseKind).index)


def test_what_asks_the_same_is_asked_once(judged: Callable[..., BomReport], small: str) -> None:
    twice = small.replace('"20", location: [head, office]', '"20", location: head').replace(
        "loops:", '  - {item: "40", location: head, kind: structural}\nloops:'
    )
    (bonding,) = (a for a in actions(judged(twice)) if a.rule == "bonding" and "20" in str(a))
    assert bonding.subjects[-2:] == ("item 20", "item 40")
    assert len(bonding.where) == len(bonding.subjects)
    assert bonding.where[-1].startswith("t.yaml:")


def test_an_item_is_named_once_where_it_stands_twice(judged: Callable[..., BomReport]) -> None:
    for action in actions(judged()):
        assert len(set(action.subjects)) == len(action.subjects)
    subjects = {subject for action in actions(judged()) for subject in action.subjects}
    assert "item 10, PN-1, Sensor" in subjects
    assert "loop L-1" in subjects
