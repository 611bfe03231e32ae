"""SARIF 2.1.0 (OASIS): one run, every rule described, open and waived findings as results.

There is no `informationUri`: the project has no page of its own that it could name.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.facts.bom import Position
from areafit.findings.cautions import CAUTIONS
from areafit.registry import RULES
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.json_text import encode
from areafit_cli.render.subjects import Distinct, NamedReport, subjects

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding
    from areafit.rule import Rule
    from areafit_cli.render import Run, Style

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_LEVEL = {Verdict.FLAG: "error", Verdict.UNPROVEN: "warning", Verdict.WAIVED: "note"}
_RULES = tuple(sorted(RULES, key=lambda rule: rule.id))
_KEPT = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/")
_INDEX = {rule.id: number for number, rule in enumerate(_RULES)}


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """The log down to the list of results."""
    driver = {
        "name": "areafit",
        "version": run.version,
        "semanticVersion": run.version,
        "shortDescription": {"text": f"Gate of this run: {run.gate}."},
        "fullDescription": {"text": " ".join((*wording.notices(run), *CAUTIONS))},
        "rules": [_rule(rule) for rule in _RULES],
    }
    yield f'{{"$schema": {encode(_SCHEMA)},\n"version": "2.1.0",\n"runs": [{{\n'
    yield f'"tool": {{"driver": {encode(driver)}}},\n"columnKind": "unicodeCodePoints",\n'
    yield f'"invocations": [{encode(_invocation(run))}],\n'
    yield f'"properties": {encode(_properties(run))},\n"results": ['


def _rule(rule: "Rule[object]") -> dict[str, object]:
    note = f"\n\n{rule.note}" if rule.note else ""
    text = f"{rule.why}\n\nTo pass: {rule.remedy}\n\nClause: {rule.clause}{note}"
    return {
        "id": rule.id,
        "shortDescription": {"text": f"{rule.title}."},
        "fullDescription": {"text": rule.why},
        "help": {"text": text, "markdown": text},
        "defaultConfiguration": {"level": "error"},
        "properties": {"tags": [rule.family.value]},
    }


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """The open and waived findings of one list."""
    yield ",".join(f"\n {encode(result)}" for result in _results(report))


def _results(report: "BomReport") -> Iterator[dict[str, object]]:
    distinct = Distinct()
    for subject in subjects(report):
        if subject.report.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE):
            continue
        for finding in subject.report.findings():
            if finding.verdict in _LEVEL:
                yield _result(subject, finding, distinct.of(finding.fingerprint))


def _result(subject: NamedReport, finding: "Finding", fingerprint: str) -> dict[str, object]:
    result: dict[str, object] = {
        "ruleId": finding.rule.id,
        "ruleIndex": _INDEX[finding.rule.id],
        "kind": "fail",
        "level": _LEVEL[finding.verdict],
        "message": {"text": _safe(wording.described(subject, finding))},
        "locations": [
            {
                "physicalLocation": _physical(finding.position),
                "logicalLocations": [{"fullyQualifiedName": f"{subject.kind} {subject.name}"}],
            }
        ],
        "partialFingerprints": {"areafit/v2": fingerprint},
        "properties": {
            "verdict": finding.verdict.value,
            "reason": finding.reason and finding.reason.value,
            "place": finding.location,
            "component": finding.component,
            "clause": finding.clause,
            "basis": finding.basis and finding.basis.value,
            "answerBy": finding.answer_by.value,
            "sources": list(finding.sources),
        },
    }
    if finding.waiver is not None:
        reason = wording.granted(finding.waiver)
        accepted = {"kind": "external", "status": "accepted", "justification": reason}
        result["suppressions"] = [accepted]
    return result


def tail(_run: "Run", _style: "Style") -> Iterator[str]:
    """The end of the log."""
    yield "\n]}]}\n"


def _invocation(run: "Run") -> dict[str, object]:
    """Whether every list could be read, what could not, and what limits the result."""
    errors = [
        _notification(
            f"{error.message}; {error.remedy}" if error.remedy else error.message,
            "error",
            error.position,
        )
        for error in run.errors
    ]
    limits = [_notification(remark, "note") for remark in wording.notices(run)]
    void = [
        _notification(wording.waiver_words(outcome), "warning", outcome.waiver.position)
        for bom in run.boms
        for outcome in bom.void
    ]
    return {
        "executionSuccessful": not run.errors,
        "toolExecutionNotifications": errors,
        "toolConfigurationNotifications": [*limits, *void],
    }


def _properties(run: "Run") -> dict[str, object]:
    """Gate and scope of the run and of each list."""
    return {
        "gate": run.gate,
        "asOf": run.as_of and run.as_of.isoformat(),
        "tables": run.tables,
        "ownTables": [overlay.name for overlay in run.overlays],
        "lists": [
            {"path": bom.path, "assembly": bom.number, "gate": bom.gate, "scope": bom.scope}
            for bom in run.boms
        ],
    }


def _notification(text: str, level: str, position: Position | None = None) -> dict[str, object]:
    told: dict[str, object] = {"level": level, "message": {"text": _safe(text)}}
    if position is not None:
        told["locations"] = [{"physicalLocation": _physical(position)}]
    return told


def _physical(position: Position) -> dict[str, object]:
    """File, line and column; what has no line is about the file, so its first."""
    return {
        "artifactLocation": {"uri": _uri(position.file)},
        "region": {
            "startLine": max(position.line, 1),
            "startColumn": max(position.column, 1),
        },
    }


def _safe(text: str) -> str:
    """A message in which nothing reads as the embedded link of SARIF 2.1.0, 3.11.6."""
    return text.replace("](", "] (")


def _uri(path: str) -> str:
    """The path as a relative reference (RFC 3986): what is not a path character is escaped."""
    return "".join(
        char
        if char in _KEPT
        else "".join(f"%{byte:02X}" for byte in char.encode("utf-8", "replace"))
        for char in path
    )


FORMAT = Format(head=head, body=body, tail=tail, between=",")
