"""Findings as lines of JSON; what answers share between subjects is encoded once."""

from typing import TYPE_CHECKING

from areafit.findings.finding import expand, fingerprint
from areafit_cli.render.json_words import encode, lines, text

if TYPE_CHECKING:
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import Block, Finding, Judged, SubjectReport


class Findings:
    """Writes the findings of one list; `path` is that of its file."""

    def __init__(self, path: str) -> None:
        self._path = path
        self._shared: dict[tuple[int, str | None], tuple[str, str, str]] = {}

    def of(self, report: "SubjectReport") -> str:
        """All findings of one subject, a line each."""
        return lines(
            self._line(judged, block, report) for block in report.blocks for judged in block.judged
        )

    def _line(self, judged: "Judged", block: "Block", report: "SubjectReport") -> str:
        key = (id(judged.judgement), judged.ask.component)  # kept alive by the report
        shared = self._shared.get(key)
        if shared is None:
            finding = expand(judged, block, report.bom, report.name)
            shared = self._shared[key] = _shared(finding)
            path, position, digest = finding.path, finding.position, finding.fingerprint
        else:
            path = "/".join(filter(None, (block.prefix, judged.ask.path)))
            position = report.bom.locate(path)
            waiver = judged.waiver
            digest = waiver.fingerprint if waiver else fingerprint(judged, block.place, report.name)
        rule, answer, ending = shared
        own = f', "fingerprint": "{digest}", "path": {text(path)}'
        line, column = position.line or "null", position.column or "null"
        file = f', "file": {encode(position.file)}' if position.file != self._path else ""
        return (
            f'   {{{rule}, "location": {text(block.place)}, {answer}{own}, {ending}, '
            f'"line": {line}, "column": {column}{file}{_waived(judged)}}}'
        )


def _shared(finding: "Finding") -> tuple[str, str, str]:
    """The three stretches of a finding's line that do not depend on the subject."""
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
    }
    ending = {"remedy": finding.remedy, "answer_by": finding.answer_by.value}
    return encode(rule)[1:-1], encode(answer)[1:-1], encode(ending)[1:-1]


def _waived(judged: "Judged") -> str:
    waiver = judged.waiver
    return "" if waiver is None else f', "waiver": {encode(_waiver(waiver))}'


def _waiver(waiver: "Waiver") -> dict[str, object]:
    return {
        "reason": waiver.reason,
        "approved_by": waiver.approved_by,
        "until": waiver.until.isoformat(),
        "document": waiver.document,
    }
