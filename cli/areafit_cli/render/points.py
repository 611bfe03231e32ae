"""Findings told once: each with all subjects of one place for which it reads the same."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from areafit.findings.finding import expand
from areafit.values import Frozen
from areafit.verdict import Verdict
from areafit_cli.render.alike import Readings
from areafit_cli.render.walk import Subject, alternate, subjects

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.findings.report import Answers, BomReport, Finding, Judged


class Bearer(Frozen):
    """A subject that a finding is about; `alternate` names the alternative of a part."""

    subject: Subject
    alternate: str
    position: "Position"

    @property
    def title(self) -> str:
        """Whom the finding is about, in one line."""
        return " · ".join(word for word in (self.subject.title, self.alternate) if word)

    @property
    def short(self) -> str:
        """The name alone, for a long list of them."""
        return " ".join(word for word in (self.subject.name, self.alternate) if word)


class Point:
    """One finding, that of its first bearer, and all who bear it."""

    def __init__(self, finding: "Finding") -> None:
        self.finding = finding
        self.bearers: list[Bearer] = []


def points(report: "BomReport", wanted: Callable[[Verdict], bool]) -> tuple[Point, ...]:
    """The wanted findings: flags first, then in the order of the list.

    A finding is made for the first bearer only, so that a long list costs little.
    """
    readings = Readings()
    shared: dict[Answers, tuple[tuple[Judged, int], ...]] = {}
    found: dict[tuple[object, ...], Point] = {}
    for subject in subjects(report):
        if subject.report.verdict is Verdict.PASS:  # nothing of it can be wanted
            continue
        for block in subject.report.blocks:
            picked = shared.get(block.judged)
            if picked is None:
                picked = shared[block.judged] = tuple(
                    (judged, readings.number(judged))
                    for judged in block.judged
                    if wanted(judged.judgement.verdict)
                )
            for judged, number in picked:
                key = (number, block.place, subject.kind)
                path = "/".join(step for step in (block.prefix, judged.ask.path) if step)
                point = found.get(key)
                if point is None:
                    made = expand(judged, block, report.bom, subject.report.name)
                    point = found[key] = Point(made)
                place = report.bom.locate(path)
                point.bearers.append(Bearer(subject, alternate(subject.report, path), place))
    order = list(Verdict)
    return tuple(sorted(found.values(), key=lambda each: order.index(each.finding.verdict)))
