"""SARIF 2.1.0 (OASIS): one run, every rule described, open and waived findings as results."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.registry import RULES
from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.render.json_words import encode
from areafit_cli.render.walk import Subject, subjects, told

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding
    from areafit.rule import Rule
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVEL = {Verdict.FLAG: "error", Verdict.UNPROVEN: "warning", Verdict.WAIVED: "note"}
_ORDER = tuple(sorted(rule.id for rule in RULES))


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """The log down to the list of results."""
    driver = {
        "name": "areafit",
        "version": run.version,
        "semanticVersion": run.version,
        "fullDescription": {"text": " ".join(CAUTIONS)},
        "rules": [_rule(rule) for rule in sorted(RULES, key=lambda rule: rule.id)],
    }
    yield f'{{"$schema": {encode(_SCHEMA)},\n"version": "2.1.0",\n"runs": [{{\n'
    yield f'"tool": {{"driver": {encode(driver)}}},\n"columnKind": "unicodeCodePoints",\n'
    yield '"results": ['


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


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """The open and waived findings of one list."""
    first = True
    for subject in subjects(report):
        if subject.report.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE):
            continue
        for finding in subject.report.findings():
            if finding.verdict in _LEVEL:
                yield ("\n " if first else ",\n ") + encode(_result(subject, finding))
                first = False


def _result(subject: Subject, finding: "Finding") -> dict[str, object]:
    position = finding.position
    waived = finding.waiver
    result: dict[str, object] = {
        "ruleId": finding.rule.id,
        "ruleIndex": _ORDER.index(finding.rule.id),
        "kind": "fail",
        "level": _LEVEL[finding.verdict],
        "message": {"text": told(subject, finding)},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": _uri(position.file)},
                    "region": {
                        "startLine": max(position.line, 1),
                        "startColumn": max(position.column, 1),
                    },
                },
                "logicalLocations": [{"fullyQualifiedName": f"{subject.kind} {subject.name}"}],
            }
        ],
        "partialFingerprints": {"areafit/v1": finding.fingerprint},
        "properties": {
            "verdict": finding.verdict.value,
            "clause": finding.clause,
            "answerBy": finding.answer_by.value,
            "sources": list(finding.sources),
        },
    }
    if waived is not None:
        result["suppressions"] = [
            {"kind": "external", "status": "accepted", "justification": waived.reason}
        ]
    return result


def _uri(path: str) -> str:
    """The path as a relative reference (RFC 3986): what is not a path character is escaped."""
    kept = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~/"
    return "".join(
        char if char in kept else "".join(f"%{byte:02X}" for byte in char.encode("utf-8", "replace"))
        for char in path
    )


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The end of the log."""
    yield "\n]}]}\n"


FORMAT = Format(head=head, body=body, tail=tail, between=",")
