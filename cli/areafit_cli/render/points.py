"""Findings told once: each with all subjects of one place for which it reads the same."""

from collections.abc import Callable, Iterator
from operator import itemgetter
from typing import TYPE_CHECKING

from areafit.findings.finding import expand
from areafit.frozen import frozen
from areafit.verdict import Verdict
from areafit_cli.render.alike import Readings
from areafit_cli.render.walk import Subject, alternate, subjects

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.findings.report import BomReport, Finding, Judged, Placed


@frozen
class Bearer:
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
    shared: dict[Placed, tuple[tuple[int, Judged, int], ...]] = {}

    def pick(placed: "Placed") -> tuple[tuple[int, "Judged", int], ...]:
        found = shared.get(placed)
        if found is None:
            found = shared[placed] = tuple(_picked(placed, wanted, readings))
        return found

    found: dict[tuple[object, ...], Point] = {}
    for subject in subjects(report):
        if subject.report.verdict is Verdict.PASS:  # nothing of it can be wanted
            continue
        for block in subject.report.blocks:
            picked = [one for placed in block.judged.placed for one in pick(placed)]
            for _, judged, number in sorted(picked, key=itemgetter(0)):
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


def _picked(
    placed: "Placed", wanted: Callable[[Verdict], bool], readings: Readings
) -> Iterator[tuple[int, "Judged", int]]:
    """The wanted answers of a piece with the order of their rules and the number they read by."""
    piece, spot = placed
    for order, judged in piece.numbered:
        if wanted(judged.judgement.verdict):
            own = judged if spot is None else spot.put(judged)
            yield order, own, readings.number(own)
