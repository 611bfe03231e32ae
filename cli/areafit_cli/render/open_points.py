"""The open points of a list in plain text: subject by subject, alike ones told once."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from areafit.verdict import Basis, Verdict
from areafit_cli.render.paper import Paper

if TYPE_CHECKING:
    from areafit.facts.bom import Position
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport, Finding, PartReport, SubjectReport

Wanted = Callable[[Verdict], bool]
_INDENT, _COLUMN = 4, 10
_NOTHING_JUDGED = (
    "No requirement could be judged. That is no pass unless every place of the part is a "
    "documented `unclassified` one with `chemicals: none`."
)


@dataclass(slots=True)
class _Entry:
    """Subjects whose findings read the same, each with its name and where to look."""

    verdict: Verdict
    findings: tuple["Finding", ...]
    titles: list[str] = field(default_factory=list)


def is_open(verdict: Verdict) -> bool:
    """Whether a verdict holds the gate."""
    return not verdict.passes


def is_waived(verdict: Verdict) -> bool:
    """Whether somebody answers for it."""
    return verdict is Verdict.WAIVED


def of(report: "BomReport", wanted: Wanted, paper: Paper) -> Iterator[str]:
    """The wanted findings of places, parts in the order of the file, loops and the list itself.

    Subjects whose findings read the same stand together.
    """
    entries: dict[tuple[object, ...], _Entry] = {}
    for place in report.places:
        facts = report.bom.places.get(place.name)
        title = _joined(f"location {place.name}", facts.title if facts else None)
        _gather(entries, place, title, wanted)
    for part in report.parts:
        _gather(entries, part, _part_title(part), wanted)
    for loop in report.loops:
        _gather(entries, loop, f"loop {loop.name}", wanted)
    _gather(entries, report.findings, "the list as a whole", wanted)
    return _print(entries.values(), paper)


def _gather(
    entries: dict[tuple[object, ...], _Entry], report: "SubjectReport", title: str, wanted: Wanted
) -> None:
    if report.verdict is Verdict.PASS:
        return  # most of a long list: nothing need be expanded
    findings = tuple(one for one in report.findings() if wanted(one.verdict))
    if not findings and not (report.blocks and wanted(report.verdict) and is_open(report.verdict)):
        return
    alike = (report.verdict, *map(_reading, findings))
    entry = entries.setdefault(alike, _Entry(report.verdict, findings))
    position = findings[0].position if findings else report.bom.locate(report.blocks[0].prefix)
    entry.titles.append(f"{title} · {where(position)}")


def _reading(finding: "Finding") -> tuple[object, ...]:
    """All that is printed of a finding but its position."""
    return (
        finding.rule.id,
        finding.verdict,
        finding.reason,
        finding.message,
        finding.required,
        finding.found,
        finding.remedy,
        finding.clause,
        finding.sources,
        finding.answer_by,
        finding.location,
        finding.component,
        finding.waiver,
    )


def _part_title(report: "PartReport") -> str:
    part = report.part
    return _joined(
        f"item {part.item}", part.part_number, part.description, "at " + ", ".join(part.locations)
    )


def _joined(*words: str | None) -> str:
    return " · ".join(word for word in words if word)


def where(position: "Position") -> str:
    """`file:line:column`; only a name where the fact came from no file."""
    if not position.line:
        return position.file
    return f"{position.file}:{position.line}:{position.column}"


def _print(entries: Iterable[_Entry], paper: Paper) -> Iterator[str]:
    for entry in entries:
        yield "\n"
        count = len(entry.titles)
        if count > 1:
            yield f"{paper.paint(entry.verdict.value)} {count} alike:\n"
        for title in entry.titles:
            lead = "- " if count > 1 else f"{paper.paint(entry.verdict.value)} "
            yield from paper.wrap(title, lead, "    ")
        if not entry.findings:
            yield from paper.wrap(_NOTHING_JUDGED, " " * _INDENT, " " * _INDENT)
        for finding in entry.findings:
            yield from _finding(finding, paper, position=count == 1)


def _finding(finding: "Finding", paper: Paper, *, position: bool) -> Iterator[str]:
    reason = f" ({finding.reason.value})" if finding.reason else ""
    about = _joined(finding.rule.id, finding.component, finding.location)
    yield from paper.wrap(about + reason, f"  {paper.paint(finding.verdict.value)}  ", "    ")
    yield from paper.wrap(finding.message, " " * _INDENT, " " * _INDENT)
    lines = (
        ("required", finding.required),
        ("found", finding.found),
        ("to pass", finding.remedy or finding.rule.remedy),
        ("clause", finding.clause),
        ("source", "; ".join(finding.sources)),
        ("basis", _basis(finding.basis)),
        ("waiver", _waiver(finding.waiver)),
        ("ask", finding.answer_by.value),
        ("see", where(finding.position) if position else ""),
    )
    for label, text in lines:
        if text:
            yield from paper.labelled(label, text, _INDENT, _COLUMN)


def _waiver(waiver: "Waiver | None") -> str:
    if waiver is None:
        return ""
    document = f", {waiver.document}" if waiver.document else ""
    return f"{waiver.reason}; {waiver.approved_by}{document}, until {waiver.until.isoformat()}"


def _basis(basis: Basis | None) -> str:
    match basis:
        case Basis.MEMORY:
            return "memory: recalled from the source, not read again"
        case Basis.JUDGEMENT:
            return "judgement: reasoned, or carried over from a similar case"
        case _:
            return ""
