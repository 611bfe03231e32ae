"""GitLab code quality: an array of open findings, each with a fingerprint of its own.

The format knows nothing but findings, so a narrowed scope, a waiver that does not hold and a date
that decided are entries of the lowest severity.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.facts.bom import Position
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.json_text import encode
from areafit_cli.render.subjects import Distinct, open_findings

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render import Run, Style, Summary

_SEVERITY = {Verdict.FLAG: "critical", Verdict.UNPROVEN: "major"}
_NOWHERE = "areafit"  # a location is asked for; a remark on the whole run has none


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """What could not be read, as blockers, and what a reader must know of the run."""
    yield "["
    entries = [
        _entry(
            f"{error.message}; {error.remedy}",
            "input",
            f"input-{_dashed(error.position)}-{number}",
            "blocker",
            error.position,
        )
        for number, error in enumerate(run.errors)
    ]
    top = _top(run.boms[0].path if run.boms else _NOWHERE)
    entries += [
        _entry(remark, "run", f"run-{remark}", "info", top) for remark in wording.notices(run)
    ]
    yield ",".join(f"\n {encode(entry)}" for entry in entries)
    if entries and any(map(_speaks, run.boms)):
        yield ","


def _speaks(bom: "Summary") -> bool:
    return not bom.passes or bool(bom.void)


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """The open findings of one list; equal fingerprints would hide each other."""
    yield ",".join(f"\n {encode(entry)}" for entry in _entries(report))


def _entries(report: "BomReport") -> Iterator[dict[str, object]]:
    distinct = Distinct()
    for subject, finding in open_findings(report):
        yield _entry(
            wording.described(subject, finding),
            finding.rule.id,
            distinct.of(f"{report.bom.name}-{finding.fingerprint}"),
            _SEVERITY[finding.verdict],
            finding.position,
        )
    for outcome in wording.void_waivers(report):
        waiver = outcome.waiver
        name = f"waiver-{report.bom.name}-{waiver.subject.value}-{waiver.name}-{waiver.fingerprint}"
        yield _entry(
            wording.waiver_words(outcome), "waiver", distinct.of(name), "info", waiver.position
        )
    if not report.parts:  # no part, no pass: the gate fails without a finding
        yield _entry(
            "No part was judged.",
            "input",
            f"no-part-{report.bom.name}",
            "blocker",
            _top(report.bom.name),
        )


def _top(file: str) -> Position:
    return Position(file, 1, 1)


def _dashed(position: Position) -> str:
    return f"{position.file}-{position.line}-{position.column}"


def _entry(
    text: str, name: str, fingerprint: str, severity: str, at: Position
) -> dict[str, object]:
    return {
        "description": text,
        "check_name": name,
        "fingerprint": fingerprint,
        "severity": severity,
        "location": {"path": at.file.removeprefix("./"), "lines": {"begin": max(at.line, 1)}},
    }


def tail(_run: "Run", _style: "Style") -> Iterator[str]:
    """The end of the array."""
    yield "\n]\n"


FORMAT = Format(head=head, body=body, tail=tail, between=",")
