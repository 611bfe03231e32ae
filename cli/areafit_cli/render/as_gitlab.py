"""GitLab code quality: an array of open findings, each with a fingerprint of its own."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.render.json_words import encode
from areafit_cli.render.walk import open_findings, told

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_SEVERITY = {Verdict.FLAG: "critical", Verdict.UNPROVEN: "major"}


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """What could not be read, as blockers."""
    yield "["
    for number, fault in enumerate(run.faults):
        entry = _entry(
            f"{fault.message}; {fault.remedy}",
            "input",
            f"input-{fault.path}-{fault.line}-{fault.column}-{number}",
            "blocker",
            (fault.path, fault.line),
        )
        yield ("" if not number else ",") + f"\n {encode(entry)}"
    if run.faults and any(not bom.passes for bom in run.boms):
        yield ","


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """The open findings of one list; equal fingerprints would hide each other."""
    seen: dict[str, int] = {}
    for number, (subject, finding) in enumerate(open_findings(report)):
        own = f"{report.bom.name}-{finding.fingerprint}"
        seen[own] = seen.get(own, 0) + 1
        if seen[own] > 1:
            own = f"{own}-{seen[own]}"
        position = finding.position
        entry = _entry(
            told(subject, finding),
            finding.rule.id,
            own,
            _SEVERITY[finding.verdict],
            (position.file, position.line),
        )
        yield ("" if not number else ",") + f"\n {encode(entry)}"


def _entry(
    text: str, name: str, fingerprint: str, severity: str, where: tuple[str, int]
) -> dict[str, object]:
    return {
        "description": text,
        "check_name": name,
        "fingerprint": fingerprint,
        "severity": severity,
        "location": {"path": where[0], "lines": {"begin": max(where[1], 1)}},
    }


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The end of the array."""
    yield "\n]\n"


FORMAT = Format(head=head, body=body, tail=tail, between=",")
