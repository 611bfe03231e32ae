"""GitLab code quality: an array of open findings, each with a fingerprint of its own.

The format knows nothing but findings, so a narrowed scope, a waiver that does not hold and a date
that decided are entries of the lowest severity.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Verdict
from areafit_cli.render import Format, remarks
from areafit_cli.render.distinct import Distinct
from areafit_cli.render.json_words import encode
from areafit_cli.render.walk import open_findings, told

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run, Summary

_SEVERITY = {Verdict.FLAG: "critical", Verdict.UNPROVEN: "major"}
_NOWHERE = "areafit"  # a location is asked for; a remark on the whole run has none


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """What could not be read, as blockers, and what a reader must know of the run."""
    yield "["
    entries = [
        _entry(
            f"{fault.message}; {fault.remedy}",
            "input",
            f"input-{fault.path}-{fault.line}-{fault.column}-{number}",
            "blocker",
            (fault.path, fault.line),
        )
        for number, fault in enumerate(run.faults)
    ]
    where = run.boms[0].path if run.boms else _NOWHERE
    entries += [
        _entry(remark, "run", f"run-{remark}", "info", (where, 1)) for remark in remarks.of(run)
    ]
    yield ",".join(f"\n {encode(entry)}" for entry in entries)
    if entries and any(map(_speaks, run.boms)):
        yield ","


def _speaks(bom: "Summary") -> bool:
    return not bom.passes or bool(bom.void)


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """The open findings of one list; equal fingerprints would hide each other."""
    yield ",".join(f"\n {encode(entry)}" for entry in _entries(report))


def _entries(report: "BomReport") -> Iterator[dict[str, object]]:
    distinct = Distinct()
    for subject, finding in open_findings(report):
        position = finding.position
        yield _entry(
            told(subject, finding),
            finding.rule.id,
            distinct.of(f"{report.bom.name}-{finding.fingerprint}"),
            _SEVERITY[finding.verdict],
            (position.file, position.line),
        )
    for outcome in remarks.void_of(report):
        waiver = outcome.waiver
        name = f"waiver-{report.bom.name}-{waiver.subject.value}-{waiver.name}-{waiver.fingerprint}"
        where = (waiver.position.file, waiver.position.line)
        yield _entry(remarks.told(outcome), "waiver", distinct.of(name), "info", where)
    if not report.parts:  # no part, no pass: the gate fails without a finding
        yield _entry(
            "No part was judged.", "input", f"no-part-{report.bom.name}", "blocker", _top(report)
        )


def _top(report: "BomReport") -> tuple[str, int]:
    return report.bom.name, 1


def _entry(
    text: str, name: str, fingerprint: str, severity: str, where: tuple[str, int]
) -> dict[str, object]:
    return {
        "description": text,
        "check_name": name,
        "fingerprint": fingerprint,
        "severity": severity,
        "location": {"path": where[0].removeprefix("./"), "lines": {"begin": max(where[1], 1)}},
    }


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The end of the array."""
    yield "\n]\n"


FORMAT = Format(head=head, body=body, tail=tail, between=",")
