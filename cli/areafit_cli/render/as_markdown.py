"""Markdown for a merge request: gate, counts, open points as a table, cautions folded away."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.verdict import Verdict
from areafit_cli.render import Format
from areafit_cli.render.walk import open_findings
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run

_MOST = 100
_SPECIAL = str.maketrans({char: f"\\{char}" for char in "\\`*_{}[]()#+!|~"})


def head(run: "Run", _look: "Look") -> Iterator[str]:
    """The gate of the run, and what could not be read."""
    yield f"## areafit: {escape(run.gate)}\n\n"
    for fault in run.faults:
        where = f"{fault.path}:{fault.line}:{fault.column}"
        yield f"- {escape(where)}: {escape(fault.message)}; {escape(fault.remedy)}\n"
    if run.faults:
        yield "\n"


def body(report: "BomReport", _look: "Look") -> Iterator[str]:
    """One list: counts, then its open points, a hundred at most."""
    bom, counts = report.bom, report.counts
    revision = f" revision {bom.assembly.revision}" if bom.assembly.revision else ""
    yield f"### {escape(f'{bom.assembly.number}{revision}')}: {escape(report.gate)}\n\n"
    tally = ", ".join(f"{counts.parts[v]} {v.value}" for v in Verdict if counts.parts.get(v))
    bases = ", ".join(f"{n} {basis.value}" for basis, n in counts.by_basis.items())
    yield f"{counts.total} parts: {tally}. Passes rest on: {bases}. {escape(bom.name)}\n\n"
    found = sorted(open_findings(report), key=lambda each: each[1].verdict is not Verdict.FLAG)
    if not found:
        yield "No open points.\n"
        return
    yield "| verdict | subject | rule | what | to pass | ask | where |\n"
    yield "| --- | --- | --- | --- | --- | --- | --- |\n"
    for subject, finding in found[:_MOST]:
        position = finding.position
        component = f", {finding.component}" if finding.component else ""
        cells = (
            finding.verdict.value,
            f"{subject.title}{component}",
            finding.rule.id,
            f"{finding.message} Required: {finding.required}. Found: {finding.found}.",
            finding.remedy,
            finding.answer_by.value,
            f"{position.file}:{position.line}",
        )
        yield f"| {' | '.join(map(escape, cells))} |\n"
    if len(found) > _MOST:
        yield f"\n{len(found) - _MOST} more open points are left out here.\n"


def escape(text: str) -> str:
    """Text that Markdown shows as it stands, on one line."""
    safe = clean(text).translate(_SPECIAL)
    return safe.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def tail(_run: "Run", _look: "Look") -> Iterator[str]:
    """The cautions."""
    yield "\n<details><summary>Cautions</summary>\n\n"
    for caution in CAUTIONS:
        yield f"- {escape(caution)}\n"
    yield "\n</details>\n"


FORMAT = Format(head=head, body=body, tail=tail, between="\n")
