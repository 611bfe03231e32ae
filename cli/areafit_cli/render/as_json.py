"""The JSON report, written as it is made: one line a finding, the same bytes for the same input."""

import json
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.safe_text import clean_json

if TYPE_CHECKING:
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport, Counts, Finding, PartReport, SubjectReport
    from areafit.findings.waivers import WaiverOutcome
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run


def encode(value: object) -> str:
    """One line of JSON; decimals become numbers, enumerations their words, sets sorted lists."""
    return clean_json(json.dumps(value, ensure_ascii=False, default=_plain))


def pretty(value: object) -> str:
    """JSON over several lines, for an answer that a person may read too."""
    text = json.dumps(value, ensure_ascii=False, default=_plain, indent=2)
    return "\n".join(map(clean_json, text.split("\n")))


def _plain(value: object) -> object:
    match value:
        case Decimal():
            return int(value) if value == value.to_integral_value() else float(value)
        case Enum():
            return value.value
        case Mapping():
            return dict(value)
        case set() | frozenset():
            return sorted((_plain(one) for one in value), key=str)
        case str() | int() | float():
            return value
    raise TypeError(f"{type(value).__name__} has no form in a JSON report")


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
    overlays = [{"name": overlay.name, "sha256": overlay.sha256} for overlay in run.overlays]
    yield f'],\n"gate": {encode(run.gate)},\n"errors": {_lines(map(encode, errors))},\n'
    yield f'"as_of": {encode(run.as_of and run.as_of.isoformat())},\n'
    yield f'"tables": {encode(overlays)},\n"cautions": {_lines(map(encode, CAUTIONS))}}}\n'


def _lines(items: Iterable[str]) -> str:
    lines = ",\n ".join(items)
    return f"[\n {lines}]" if lines else "[]"


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
    yield f',\n "findings": {_findings(report.findings, bom.name)},\n "parts": ['
    for number, part in enumerate(report.parts):
        yield ",\n  " if number else "\n  "
        yield _part(part, bom.name)
    yield '],\n "locations": ['
    for number, place in enumerate(report.places):
        yield ",\n  " if number else "\n  "
        yield _subject({"name": place.name}, place, bom.name)[:-1]
        yield f',\n   "requires": {encode(place.requires)}}}'
    yield '],\n "loops": ['
    for number, loop in enumerate(report.loops):
        yield ",\n  " if number else "\n  "
        yield _subject({"name": loop.name}, loop, bom.name)
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
    every = {verdict.value: counts.parts.get(verdict, 0) for verdict in _COUNTED}
    return {
        "parts": counts.total,
        **every,
        "locations": _by_verdict(counts.places),
        "loops": _by_verdict(counts.loops),
        "by_basis": {basis.value: number for basis, number in counts.by_basis.items()},
    }


_COUNTED = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.WAIVED,
    Verdict.NOT_APPLICABLE,
)


def _by_verdict(counts: Mapping[Verdict, int]) -> dict[str, int]:
    return {verdict.value: counts[verdict] for verdict in _COUNTED if counts.get(verdict)}


def _part(report: "PartReport", path: str) -> str:
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
    return f'{encode(identity)[:-1]},\n   "findings": {_findings(report, path)}}}'


def _subject(identity: dict[str, object], report: "SubjectReport", path: str) -> str:
    known = {**identity, "verdict": report.verdict.value}
    return f'{encode(known)[:-1]},\n   "findings": {_findings(report, path)}}}'


def _findings(report: "SubjectReport", path: str) -> str:
    return _lines(f"   {encode(_finding(finding, path))}" for finding in report.findings())


def _finding(finding: "Finding", path: str) -> dict[str, object]:
    position = finding.position
    found: dict[str, object] = {
        "rule": finding.rule.id,
        "verdict": finding.verdict.value,
        "location": finding.location,
        "component": finding.component,
        "message": finding.message,
        "required": finding.required,
        "found": finding.found,
        "clause": finding.clause,
        "sources": finding.sources,
        "basis": finding.basis and finding.basis.value,
        "reason": finding.reason and finding.reason.value,
        "fingerprint": finding.fingerprint,
        "path": finding.path,
        "remedy": finding.remedy,
        "answer_by": finding.answer_by.value,
        "line": position.line or None,
        "column": position.column or None,
    }
    if position.file != path:  # a place that stands in a shared file
        found["file"] = position.file
    if finding.waiver is not None:
        found["waiver"] = _waiver(finding.waiver)
    return found


def _waiver(waiver: "Waiver") -> dict[str, object]:
    return {
        "reason": waiver.reason,
        "approved_by": waiver.approved_by,
        "until": waiver.until.isoformat(),
        "document": waiver.document,
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
