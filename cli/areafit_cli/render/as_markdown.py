"""Markdown for a merge request: gate, counts, open points as a table, cautions folded away.

Foreign text is shown as it stands: it makes no markup, no link, no picture, and calls nobody.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.pattern import pattern
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.subjects import SharedFinding, shared_findings
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render import Run, Style

# A comment on a merge request may hold 65,536 characters (GitHub; from memory); a list takes less.
_ROOM = 40_000
_NAMED = 8
_SPECIAL = str.maketrans({char: f"\\{char}" for char in "\\`*_{}[]()#+!|~^$"})
# What forges turn into mentions, references, pictures or links even where it is no markup.
_TRIGGER = pattern(r"[@#!~%$&](?=\w)|:(?=[A-Za-z_+/-])|(?i:www)(?=\.)|(?<=\b)GH(?=-\d)")
_SPLIT = "\x00"


def head(run: "Run", _style: "Style") -> Iterator[str]:
    """The gate of the run, its limits, and what could not be read."""
    yield f"## areafit: {escape(run.gate)}\n\n"
    for remark in wording.notices(run):
        yield f"- {escape(remark)}\n"
    for error in run.errors:
        yield f"- Not read: {escape(str(error))}\n"
    if not run.boms and not run.errors:
        yield "- No list was judged.\n"
    yield "\n"


def body(report: "BomReport", _style: "Style") -> Iterator[str]:
    """One list: counts, its open points as far as a comment holds them, and its waivers."""
    bom, counts = report.bom, report.counts
    yield f"### {escape(wording.assembly_name(bom.assembly))}: {escape(report.gate)}\n\n"
    tally = wording.tally(counts.parts, Verdict)
    parts = wording.counted(counts.total, "part")
    yield f"{parts}: {tally}. Passes rest on: {wording.bases(counts)}. {escape(bom.name)}\n\n"
    if report.scope != "full":
        yield f"Scope {escape(wording.scope(report))}.\n\n"
    yield from _open(shared_findings(report, lambda verdict: not verdict.passes))
    yield from _waivers(report)


def _open(found: tuple[SharedFinding, ...]) -> Iterator[str]:
    if not found:
        yield "No open points.\n"
        return
    yield "| verdict | rule | for | what | ask | where |\n"
    yield "| --- | --- | --- | --- | --- | --- |\n"
    room = _ROOM
    for number, shared in enumerate(found):
        line = _row(shared)
        room -= len(line)
        if number and room < 0:
            left = len(found) - number
            yield f"\n{left} more open points are left out here; the other formats hold all.\n"
            return
        yield line


def _row(shared: SharedFinding) -> str:
    finding, first = shared.finding, shared.bearers[0]
    if len(shared.bearers) == 1:
        names = first.title
    else:
        shown = ", ".join(bearer.short for bearer in shared.bearers[:_NAMED])
        rest = len(shared.bearers) - _NAMED
        names = f"{first.subject.kind}s {shown}" + (f" and {rest} more" if rest > 0 else "")
    place = wording.at_place(first.subject, finding)
    component = f", {finding.component}" if finding.component else ""
    cells = (
        finding.verdict.value,
        finding.rule.id,
        f"{names}{component}{place}",
        " ".join((finding.message, *wording.explained(finding))),
        finding.answer_by.value,
        f"{first.position.file}:{first.position.line}",
    )
    return f"| {' | '.join(map(escape, cells))} |\n"


def _waivers(report: "BomReport") -> Iterator[str]:
    waived = shared_findings(report, lambda verdict: verdict is Verdict.WAIVED)
    void = wording.void_waivers(report)
    if waived or void:
        yield "\nWaivers:\n\n"
    for shared in waived:
        finding = shared.finding
        names = ", ".join(bearer.title for bearer in shared.bearers)
        granted = wording.granted(finding.waiver) if finding.waiver else ""
        said = f"waived: {names}, {finding.rule.id}: {finding.message} {granted}"
        yield f"- {escape(said)}\n"
    for outcome in void:
        yield f"- {escape(wording.waiver_words(outcome))}\n"


def escape(text: str) -> str:
    """Text that Markdown shows as it stands, on one line."""
    split = _TRIGGER.sub(lambda found: found[0] + _SPLIT, clean(text).translate(_SPECIAL))
    safe = split.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return safe.replace(_SPLIT, "<span></span>")


def tail(_run: "Run", _style: "Style") -> Iterator[str]:
    """The cautions."""
    yield "\n<details><summary>Cautions</summary>\n\n"
    for caution in CAUTIONS:
        yield f"- {escape(caution)}\n"
    yield "\n</details>\n"


FORMAT = Format(head=head, body=body, tail=tail, between="\n")
