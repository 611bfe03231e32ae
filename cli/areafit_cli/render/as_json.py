"""The JSON report, written as it is made: one line a finding, the same bytes for the same input."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.render.json_findings import Findings
from areafit_cli.render.json_words import encode, lines
from areafit_cli.render.run import COUNTED

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Counts, PartReport, SubjectReport
    from areafit.findings.waivers import WaiverOutcome
    from areafit.tables import Laxer
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """Everything above the lists."""
    tool = {"name": "areafit", "version": run.version, "tables": run.tables}
    yield f'{{"format": "areafit-report/1",\n"tool": {encode(tool)},\n"boms": ['


def tail(run: "Run", _look: "Look") -> Iterator[str]:
    """Everything below the lists."""
    errors = [
        {
            "path": fault.path,
            "line": fault.line or None,
            "column": fault.column or None,
            "message": fault.message,
            "remedy": fault.remedy or None,
        }
        for fault in run.faults
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
    yield f'"tables": {encode(overlays)},\n"cautions": {lines(map(encode, CAUTIONS))}}}\n'


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
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
    findings = Findings(bom.name)
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
    yield f'],\n "waivers": {encode(counted)}}}'


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


def _part(report: "PartReport", findings: Findings) -> str:
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


def _subject(identity: dict[str, object], report: "SubjectReport", findings: Findings) -> str:
    known = {**identity, "verdict": report.verdict.value}
    return f'{encode(known)[:-1]},\n   "findings": {findings.of(report)}}}'


def _laxer(entry: "Laxer") -> dict[str, object]:
    return {
        "line": int(entry.where.rpartition(":")[2]),
        "key": entry.key,
        "column": entry.column,
        "value": entry.value,
        "shipped": entry.shipped or None,
        "approved": entry.approved or None,
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


FORMAT = Format(head=head, body=body, tail=tail, between=",")
