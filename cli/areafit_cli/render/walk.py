"""Every finding of a list in the order of a report, with the subject that it is about."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding, SubjectReport


@dataclass(frozen=True, slots=True)
class Subject:
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
    yield Subject("list", report.findings.name, "", report.findings)
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
        if not subject.report.verdict.passes:
            for finding in subject.report.findings():
                if not finding.verdict.passes:
                    yield subject, finding


def told(subject: Subject, finding: "Finding") -> str:
    """A finding in one sentence: whom it is about, what is wrong, what would pass."""
    component = f", {finding.component}" if finding.component else ""
    place = f" at {finding.location}" if finding.location else ""
    return (
        f"{subject.kind.capitalize()} {subject.name}{component}{place}: {finding.message} "
        f"Required: {finding.required}. Found: {finding.found}. To pass: {finding.remedy}"
    )
