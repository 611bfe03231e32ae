"""SARIF 2.1.0 (OASIS): one run, every rule described, open and waived findings as results.

There is no `informationUri`: the project has no page of its own that it could name.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.registry import RULES
from areafit.verdict import Verdict
from areafit_cli.render import Format, remarks
from areafit_cli.render.distinct import Distinct
from areafit_cli.render.json_words import encode
from areafit_cli.render.sarif_run import invocation, physical, properties, safe
from areafit_cli.render.walk import Subject, subjects, told

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding
    from areafit.rule import Rule
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_LEVEL = {Verdict.FLAG: "error", Verdict.UNPROVEN: "warning", Verdict.WAIVED: "note"}
_RULES = tuple(sorted(RULES, key=lambda rule: rule.id))
_INDEX = {rule.id: number for number, rule in enumerate(_RULES)}


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """The log down to the list of results."""
    driver = {
        "name": "areafit",
        "version": run.version,
        "semanticVersion": run.version,
        "shortDescription": {"text": f"Gate of this run: {run.gate}."},
        "fullDescription": {"text": " ".join((*remarks.of(run), *CAUTIONS))},
        "rules": [_rule(rule) for rule in _RULES],
    }
    yield f'{{"$schema": {encode(_SCHEMA)},\n"version": "2.1.0",\n"runs": [{{\n'
    yield f'"tool": {{"driver": {encode(driver)}}},\n"columnKind": "unicodeCodePoints",\n'
    yield f'"invocations": [{encode(invocation(run))}],\n'
    yield f'"properties": {encode(properties(run))},\n"results": ['


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
    yield ",".join(f"\n {encode(result)}" for result in _results(report))


def _results(report: "BomReport") -> Iterator[dict[str, object]]:
    distinct = Distinct()
    for subject in subjects(report):
        if subject.report.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE):
            continue
        for finding in subject.report.findings():
            if finding.verdict in _LEVEL:
                yield _result(subject, finding, distinct.of(finding.fingerprint))


def _result(subject: Subject, finding: "Finding", fingerprint: str) -> dict[str, object]:
    result: dict[str, object] = {
        "ruleId": finding.rule.id,
        "ruleIndex": _INDEX[finding.rule.id],
        "kind": "fail",
        "level": _LEVEL[finding.verdict],
        "message": {"text": safe(told(subject, finding))},
        "locations": [
            {
                "physicalLocation": physical(finding.position),
                "logicalLocations": [{"fullyQualifiedName": f"{subject.kind} {subject.name}"}],
            }
        ],
        "partialFingerprints": {"areafit/v1": fingerprint},
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
        reason = remarks.granted(finding.waiver)
        accepted = {"kind": "external", "status": "accepted", "justification": reason}
        result["suppressions"] = [accepted]
    return result


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The end of the log."""
    yield "\n]}]}\n"


FORMAT = Format(head=head, body=body, tail=tail, between=",")
