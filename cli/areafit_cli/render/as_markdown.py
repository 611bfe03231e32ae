"""Markdown for a merge request: gate, counts, open points as a table, cautions folded away.

Foreign text is shown as it stands: it makes no markup, no link, no picture, and calls nobody.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.causes import CauseKind, causes
from areafit.findings.cautions import CAUTIONS
from areafit.pattern import pattern
from areafit.verdict import Verdict
from areafit_cli.render import Format, wording
from areafit_cli.render.subjects import shared_findings
from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from areafit.answers.causes import Cause
    from areafit.findings.report import BomReport
    from areafit_cli.render import Run, Style

# A comment on a merge request may hold 65,536 characters (GitHub; from memory); a list takes less.
_ROOM = 40_000
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
    yield from _open(causes(report))
    yield from _waivers(report)


def _open(found: "tuple[Cause, ...]") -> Iterator[str]:
    """What must change, who must answer, what to accept: a table each, a cause a row."""
    if not found:
        yield "No open points.\n"
        return
    room = _ROOM
    left = 0
    for kind in CauseKind:
        own = [cause for cause in found if cause.kind is kind]
        if not own:
            continue
        yield f"\n#### {kind.value.capitalize()}\n\n"
        yield f"| what | for | {_CLOSES[kind]} | rules | where |\n"
        yield "| --- | --- | --- | --- | --- |\n"
        for number, cause in enumerate(own):
            line = _row(cause)
            room -= len(line)
            if number and room < 0:
                left += len(own) - number
                break
            yield line
    if left:
        yield f"\n{left} more open points are left out here; the other formats hold all.\n"


_CLOSES = {
    CauseKind.CHANGE: "to pass",
    CauseKind.ANSWER: "who answers",
    CauseKind.ACCEPT: "who accepts",
}


def _row(cause: "Cause") -> str:
    position = cause.first.position
    who = f"{cause.who.value} {cause.vendor}" if cause.vendor else cause.who.value
    rules = dict.fromkeys(bearer.finding.rule.id for bearer in cause.bearers)
    cells = (
        " ".join(dict.fromkeys((cause.what, cause.first.message, *_explained(cause)))),
        wording.subjects_of(cause),
        cause.closes if cause.kind is CauseKind.CHANGE else who,
        ", ".join(rules),
        f"{position.file}:{position.line}",
    )
    return f"| {' | '.join(map(escape, cells))} |\n"


def _explained(cause: "Cause") -> Iterator[str]:
    """What else must be known of the findings, such as who stated the fact."""
    for bearer in cause.bearers:
        yield from wording.explained(bearer.finding)


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
