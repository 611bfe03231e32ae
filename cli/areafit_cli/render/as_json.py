"""The JSON report, written as it is made: one line a finding, the same bytes for the same input."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, TypeAlias

from areafit.answers.asks import asked_at, keys_of
from areafit.findings.cautions import CAUTIONS
from areafit.findings.report import Finding
from areafit.rule import COMPUTED
from areafit.verdict import Verdict
from areafit_cli.render import COUNTED, Format
from areafit_cli.render.json_text import asked, encode, lines, text

if TYPE_CHECKING:
    from areafit.facts.bom import LibraryUse, Statement
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import (
        Block,
        BomReport,
        Counts,
        Judged,
        PartReport,
        SubjectReport,
    )
    from areafit.findings.waivers import WaiverOutcome
    from areafit.tables import LaxerValue
    from areafit_cli.render import Run, Style


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """Everything above the lists."""
    tool = {"name": "areafit", "version": run.version, "tables": run.tables}
    yield f'{{"format": "areafit-report/2",\n"tool": {encode(tool)},\n"boms": ['


def tail(run: "Run", _style: "Style") -> Iterator[str]:
    """Everything below the lists."""
    errors = [
        {
            "path": error.position.file,
            "line": error.position.line or None,
            "column": error.position.column or None,
            "message": error.message,
            "remedy": error.remedy or None,
        }
        for error in run.errors
    ]
    overlays = [
        {
            "name": overlay.name,
            "sha256": overlay.sha256,
            "laxer": [_laxer(e) for e in run.laxer if e.where.rpartition(":")[0] == overlay.name],
        }
        for overlay in run.overlays
    ]
    yield f'],\n"gate": {encode(run.gate)},\n"errors": {lines(map(encode, errors))},\n'
    yield f'"as_of": {encode(run.as_of and run.as_of.isoformat())},\n'
    if run.opened:
        yield f'"opened": {encode(run.opened)},\n'
    yield f'"tables": {encode(overlays)},\n"cautions": {lines(map(encode, CAUTIONS))}}}\n'


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """One judged list, part by part."""
    bom = report.bom
    assembly = {
        "number": bom.assembly.number,
        "title": bom.assembly.title,
        "revision": bom.assembly.revision,
    }
    top = {
        "path": bom.name,
        "assembly": assembly,
        "code": bom.law.value,
        "gate": report.gate,
        "scope": report.scope,
        "edition": bom.edition,
        "jurisdiction": bom.jurisdiction,
        "counts": _counts(report.counts),
    }
    yield "\n" + encode(top)[:-1]
    findings = _Findings(bom.name)
    yield f',\n "findings": {findings.of(report.own)},\n "parts": ['
    for number, part in enumerate(report.parts):
        yield ",\n  " if number else "\n  "
        yield _part(part, findings)
    yield '],\n "locations": ['
    for number, place in enumerate(report.places):
        yield ",\n  " if number else "\n  "
        yield _subject({"name": place.name}, place, findings)[:-1]
        yield f',\n   "requires": {encode(place.requires)}}}'
    yield '],\n "loops": ['
    for number, loop in enumerate(report.loops):
        yield ",\n  " if number else "\n  "
        yield _subject({"name": loop.name}, loop, findings)
    waivers = report.waivers
    counted = {
        "used": waivers.used,
        "expired": waivers.expired,
        "stale": waivers.stale,
        "unmatched": waivers.unmatched,
        "open": [_outcome(one) for one in report.waiver_outcomes if one.state.value != "used"],
    }
    yield f'],\n "waivers": {encode(counted)},\n "library": {encode(_library(bom.library))}'
    yield f',\n "remarks": {encode(bom.remarks)}}}'


def _library(library: "LibraryUse") -> dict[str, object]:
    """The files of bought parts, and the entries that lines of the list take facts of."""
    return {
        "files": [
            {"path": file.name, "sha256": file.sha256, "entries": file.entries}
            for file in library.files
        ],
        "used": [
            {
                "part_number": entry.number,
                "confirmed": entry.confirmed_on.isoformat(),
                "document": entry.document,
                "role": entry.role,
                "file": entry.position.file,
                "line": entry.position.line,
            }
            for entry in library.used
        ],
    }


def _counts(counts: "Counts") -> dict[str, object]:
    every = {verdict.value: counts.parts.get(verdict, 0) for verdict in COUNTED}
    return {
        "parts": counts.total,
        **every,
        "locations": _by_verdict(counts.places),
        "loops": _by_verdict(counts.loops),
        "by_basis": {basis.value: number for basis, number in counts.by_basis.items()},
    }


def _by_verdict(counts: Mapping[Verdict, int]) -> dict[str, int]:
    return {verdict.value: counts[verdict] for verdict in COUNTED if counts.get(verdict)}


def _part(report: "PartReport", findings: "_Findings") -> str:
    part = report.part
    position = report.bom.locate(part.prefix)
    identity = {
        "item": part.item,
        "part_number": part.part_number,
        "description": part.description,
        "location": list(part.locations),
        "verdict": report.verdict.value,
        "line": position.line or None,
    }
    return f'{encode(identity)[:-1]},\n   "findings": {findings.of(report)}}}'


def _subject(identity: dict[str, object], report: "SubjectReport", findings: "_Findings") -> str:
    known = {**identity, "verdict": report.verdict.value}
    return f'{encode(known)[:-1]},\n   "findings": {findings.of(report)}}}'


def _laxer(entry: "LaxerValue") -> dict[str, object]:
    return {
        "line": int(entry.where.rpartition(":")[2]),
        "key": entry.key,
        "column": entry.column,
        "value": entry.value,
        "shipped": entry.shipped or None,
        "approved": entry.approved or None,
        "governs": bool(entry.approved) and entry.governs,
    }


def _outcome(outcome: "WaiverOutcome") -> dict[str, object]:
    waiver, position = outcome.waiver, outcome.waiver.position
    return {
        waiver.subject.value: waiver.name,
        "rule": waiver.rule,
        "state": outcome.state.value,
        "message": outcome.message,
        "file": position.file,
        "line": position.line,
        "column": position.column,
    }


# Findings: what answers share between subjects is encoded once


_Shared: TypeAlias = tuple[str, str, str, tuple[str, ...]]


class _Findings:
    """Writes the findings of one list; `path` is that of its file."""

    def __init__(self, path: str) -> None:
        self._path = path
        self._shared: dict[tuple[int, str | None, str], _Shared] = {}

    def of(self, report: "SubjectReport") -> str:
        """All findings of one subject, a line each."""
        return lines(
            self._line(judged, block, report) for block in report.blocks for judged in block.judged
        )

    def _line(self, judged: "Judged", block: "Block", report: "SubjectReport") -> str:
        finding = Finding(judged, block, report.bom, report.name)
        key = (id(judged.judgement), finding.component, judged.ask.path)  # the report keeps it
        shared = self._shared.get(key)
        if shared is None:
            shared = self._shared[key] = _shared(finding)
        path, position, digest = finding.path, finding.position, finding.fingerprint
        said, proposed = finding.stated_by, finding.proposed
        rule, answer, ending, keys = shared
        own = f', "fingerprint": "{digest}", "path": {text(path)}'
        own += (
            f', "stated_by": {encode(list(map(_statement, said)))}' if said else ', "stated_by": []'
        )
        own += f', "asks": {encode([asked(asked_at(path, key, block.place)) for key in keys])}'
        own += f', "proposed": {encode(proposed)}' if proposed else ""
        line, column = position.line or "null", position.column or "null"
        file = f', "file": {encode(position.file)}' if position.file != self._path else ""
        return (
            f'   {{{rule}, "location": {text(block.place)}, {answer}{own}, {ending}, '
            f'"line": {line}, "column": {column}{file}{_waived(judged)}}}'
        )


def _statement(one: "Statement") -> dict[str, object]:
    return {
        "path": one.path,
        "level": one.level.value,
        "document": one.document,
        "role": one.role,
        "file": one.position.file,
        "line": one.position.line,
    }


def _shared(finding: Finding) -> _Shared:
    """The stretches of a finding's line that do not depend on the subject, and the keys asked."""
    rule = {"rule": finding.rule.id, "verdict": finding.verdict.value}
    answer = {
        "component": finding.component,
        "message": finding.message,
        "required": finding.required,
        "found": finding.found,
        "clause": finding.clause,
        "sources": finding.sources,
        "basis": finding.basis and finding.basis.value,
        "reason": finding.reason and finding.reason.value,
        **_computed(finding),
    }
    ending = {"remedy": finding.remedy, "answer_by": finding.answer_by.value}
    return encode(rule)[1:-1], encode(answer)[1:-1], encode(ending)[1:-1], keys_of(finding)


def _computed(finding: Finding) -> dict[str, object]:
    """By which method and version something in the finding was computed, where it was."""
    by = next((row for row in finding.rows if row.table == COMPUTED), None)
    return {"computed_by": {"method": by.source_id, "version": by.locator}} if by else {}


def _waived(judged: "Judged") -> str:
    waiver = judged.waiver
    return "" if waiver is None else f', "waiver": {encode(_waiver(waiver))}'


def _waiver(waiver: "Waiver") -> dict[str, object]:
    return {
        "reason": waiver.reason,
        "approved_by": waiver.approved_by,
        "until": None if waiver.revision else waiver.until.isoformat(),
        "revision": waiver.revision,
        "document": waiver.document,
    }


FORMAT = Format(head=head, body=body, tail=tail, between=",")
