"""Subjects whose findings read the same, gathered without making a finding for each of them."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from areafit.findings.finding import expand
from areafit.verdict import Verdict
from areafit_cli.render.walk import alternate

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import Block, BomReport, Finding, Judged, SubjectReport

Wanted = Callable[[Verdict], bool]
Answers = tuple[tuple["Judged", "Block"], ...]


class Entry:
    """Subjects that agree, each with where to look; `findings` are those of the first."""

    def __init__(self, verdict: Verdict, findings: tuple["Finding", ...]) -> None:
        self.verdict = verdict
        self.findings = findings
        self.subjects: list[tuple[SubjectReport, Position]] = []


class Readings:
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


class Gatherer:
    """Gathers the wanted findings of one list; shared answers are compared once."""

    def __init__(self, report: "BomReport", wanted: Wanted) -> None:
        self._report = report
        self._wanted = wanted
        self._readings = Readings()
        self._entries: dict[tuple[object, ...], Entry] = {}

    def entries(self) -> tuple[Entry, ...]:
        """Places, parts in the order of the file, loops and the list itself."""
        own, *others = self._report.subjects()
        for subject in (*others, own):
            if subject.verdict is not Verdict.PASS:  # else nothing of it can be wanted
                self._gather(subject)
        return tuple(self._entries.values())

    def _gather(self, subject: "SubjectReport") -> None:
        wanted = self._wanted
        answers: Answers = tuple(
            (judged, block)
            for block in subject.blocks
            for judged in block.judged
            if wanted(judged.judgement.verdict)
        )
        unjudged = not answers and subject.blocks and not subject.verdict.passes
        if not answers and not (unjudged and wanted(subject.verdict)):
            return
        number = self._readings.number
        told = ((number(j), b.place, alternate(subject, b.prefix)) for j, b in answers)
        alike = (subject.verdict, *told)
        entry = self._entries.get(alike)
        if entry is None:
            made = (expand(j, b, self._report.bom, subject.name) for j, b in answers)
            entry = self._entries[alike] = Entry(subject.verdict, tuple(made))
        entry.subjects.append((subject, self._position(subject, answers)))

    def _position(self, subject: "SubjectReport", answers: Answers) -> "Position":
        block = answers[0][1] if answers else subject.blocks[0]
        steps = (block.prefix, answers[0][0].ask.path if answers else "")
        return self._report.bom.locate("/".join(filter(None, steps)))
