"""Every finding of a list in the order of a report, with the subject that it is about."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.report import PartReport
from areafit.values import Frozen

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding, SubjectReport


class Subject(Frozen):
    """A part, location or loop, or the list itself: what kind it is, its name, its words."""

    kind: str
    name: str
    words: str
    report: "SubjectReport"

    @property
    def title(self) -> str:
        """Kind, name and words in one line."""
        return " · ".join(word for word in (f"{self.kind} {self.name}", self.words) if word)


def subjects(report: "BomReport") -> Iterator[Subject]:
    """The list itself, then locations, parts in the order of the file, and loops."""
    yield Subject("list", report.own.name, "", report.own)
    for place in report.places:
        facts = report.bom.places.get(place.name)
        yield Subject("location", place.name, (facts and facts.title) or "", place)
    for part in report.parts:
        words = (part.part.part_number, part.part.description)
        yield Subject("item", part.name, " · ".join(word for word in words if word), part)
    for loop in report.loops:
        yield Subject("loop", loop.name, "", loop)


def open_findings(report: "BomReport") -> Iterator[tuple[Subject, "Finding"]]:
    """The findings that hold the gate, each with its subject."""
    for subject in subjects(report):
        yield from ((subject, finding) for finding in subject.report.open_findings())


def alternate(subject: "SubjectReport", path: str) -> str:
    """Which alternative of a part a path is about, in words; empty for the part itself."""
    steps = path.split("/", 4)
    if not isinstance(subject, PartReport) or len(steps) < 4 or steps[2] != "alternates":
        return ""
    number = int(steps[3])
    known = subject.part.alternates[number : number + 1]
    name = known[0].part_number if known else None
    return f"alternate {name or number + 1}"


def told(subject: Subject, finding: "Finding") -> str:
    """A finding in a few sentences: whom it is about, what is wrong, what would pass."""
    names = (alternate(subject.report, finding.path), finding.component)
    about = "".join(f", {name}" for name in names if name)
    place = at(subject, finding)
    said = f"{subject.kind.capitalize()} {subject.name}{about}{place}: {finding.message}"
    return " ".join((said, *explained(finding)))


def at(subject: Subject, finding: "Finding") -> str:
    """The place that a finding holds for, where that is not the subject itself."""
    own = subject.kind == "location"
    return f" at {finding.location}" if finding.location and not own else ""


def explained(finding: "Finding") -> Iterator[str]:
    """Required, found and what would pass, a sentence each, where there is one."""
    rows = (
        ("Required", finding.required),
        ("Found", finding.found),
        ("To pass", finding.remedy),
    )
    yield from (f"{label}: {text.rstrip('.')}." for label, text in rows if text)
