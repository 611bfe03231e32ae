"""The subjects of a report, each with its findings, and those that read alike told once.

Of what reads alike, a finding is made for the first subject only: a long list costs little.
"""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from areafit.findings.report import Finding
from areafit.values import Frozen
from areafit.verdict import Verdict
from areafit_cli.render.wording import alternate, joined

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import Answers, BomReport, Judged, SubjectReport

Wanted = Callable[[Verdict], bool]


class NamedReport(Frozen):
    """A part, location or loop, or the list itself: what kind it is, its name, its words."""

    kind: str
    name: str
    words: str
    report: "SubjectReport"

    @property
    def title(self) -> str:
        """Kind, name and words in one line."""
        return joined(f"{self.kind} {self.name}", self.words)


def subjects(report: "BomReport") -> Iterator[NamedReport]:
    """The list itself, then locations, parts in the order of the file, and loops."""
    yield NamedReport("list", report.own.name, "", report.own)
    for place in report.places:
        facts = report.bom.places.get(place.name)
        yield NamedReport("location", place.name, (facts and facts.title) or "", place)
    for part in report.parts:
        words = joined(part.part.part_number, part.part.description)
        yield NamedReport("item", part.name, words, part)
    for loop in report.loops:
        yield NamedReport("loop", loop.name, "", loop)


def open_findings(report: "BomReport") -> Iterator[tuple[NamedReport, Finding]]:
    """The findings that hold the gate, each with its subject."""
    for subject in subjects(report):
        yield from ((subject, finding) for finding in subject.report.open_findings())


class Distinct:
    """Keeps count of fingerprints, so that equal findings do not hide each other."""

    def __init__(self) -> None:
        self._seen: dict[str, int] = {}

    def of(self, name: str) -> str:
        """The name itself the first time, then with `-2`, `-3` and so on, in order."""
        count = self._seen[name] = self._seen.get(name, 0) + 1
        return name if count == 1 else f"{name}-{count}"


# What reads alike


class _Readings:
    """Numbers answers so that those share one which print the same but for place and position."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[object, ...], int] = {}
        self._known: dict[tuple[int, str | None, Waiver | None], int] = {}

    def number(self, judged: "Judged") -> int:
        """The number of an answer; the report must be kept as long as this."""
        j = judged.judgement
        key = (id(j), judged.ask.component, judged.waiver)  # the report keeps it alive
        number = self._known.get(key)
        if number is None:
            told = (
                *(judged.rule.id, judged.ask.component, judged.waiver, j.verdict, j.reason),
                *(j.message, j.required, j.found, j.remedy, j.clause, j.rows, j.answer_by),
            )
            number = self._numbers.setdefault(told, len(self._numbers))
            self._known[key] = number
        return number


# Subjects that agree in all findings


class AlikeSubjects:
    """Subjects that agree, each with where to look; `findings` are those of the first."""

    def __init__(self, verdict: Verdict, findings: tuple[Finding, ...]) -> None:
        self.verdict = verdict
        self.findings = findings
        self.subjects: list[tuple[SubjectReport, Position]] = []


def alike_subjects(report: "BomReport", wanted: Wanted) -> tuple[AlikeSubjects, ...]:
    """Places, parts in the order of the file, loops and the list itself, as far as wanted."""
    readings = _Readings()
    found: dict[tuple[object, ...], AlikeSubjects] = {}
    own, *others = report.subjects()
    for subject in (*others, own):
        if subject.verdict is Verdict.PASS:  # nothing of it can be wanted
            continue
        answers = tuple(
            (judged, block)
            for block in subject.blocks
            for judged in block.judged
            if wanted(judged.judgement.verdict)
        )
        unjudged = not answers and subject.blocks and not subject.verdict.passes
        if not answers and not (unjudged and wanted(subject.verdict)):
            continue
        told = ((readings.number(j), b.place, alternate(subject, b.prefix)) for j, b in answers)
        key = (subject.verdict, *told)
        alike = found.get(key)
        if alike is None:
            made = (Finding(j, b, report.bom, subject.name) for j, b in answers)
            alike = found[key] = AlikeSubjects(subject.verdict, tuple(made))
        first, path = (
            (answers[0][1], answers[0][0].ask.path) if answers else (subject.blocks[0], "")
        )
        alike.subjects.append((subject, report.bom.locate(report.bom.path(first.prefix, path))))
    return tuple(found.values())


# Findings that agree, of whatever subject of one place


class FindingSubject(Frozen):
    """A subject that a finding is about; `alternate` names the alternative of a part."""

    subject: NamedReport
    alternate: str
    position: "Position"

    @property
    def title(self) -> str:
        """Whom the finding is about, in one line."""
        return joined(self.subject.title, self.alternate)

    @property
    def short(self) -> str:
        """The name alone, for a long list of them."""
        return " ".join(word for word in (self.subject.name, self.alternate) if word)


class SharedFinding:
    """One finding, that of its first bearer, and all who bear it."""

    def __init__(self, finding: Finding) -> None:
        self.finding = finding
        self.bearers: list[FindingSubject] = []


def shared_findings(report: "BomReport", wanted: Wanted) -> tuple[SharedFinding, ...]:
    """The wanted findings: flags first, then in the order of the list."""
    readings = _Readings()
    known: dict[Answers, tuple[tuple[Judged, int], ...]] = {}
    found: dict[tuple[object, ...], SharedFinding] = {}
    for subject in subjects(report):
        if subject.report.verdict is Verdict.PASS:  # nothing of it can be wanted
            continue
        for block in subject.report.blocks:
            picked = known.get(block.judged)
            if picked is None:
                picked = known[block.judged] = tuple(
                    (judged, readings.number(judged))
                    for judged in block.judged
                    if wanted(judged.judgement.verdict)
                )
            for judged, number in picked:
                key = (number, block.place, subject.kind)
                shared = found.get(key)
                if shared is None:
                    made = Finding(judged, block, report.bom, subject.report.name)
                    shared = found[key] = SharedFinding(made)
                path = report.bom.path(block.prefix, judged.ask.path)
                place = report.bom.locate(path)
                shared.bearers.append(
                    FindingSubject(subject, alternate(subject.report, path), place)
                )
    order = list(Verdict)
    return tuple(sorted(found.values(), key=lambda each: order.index(each.finding.verdict)))
