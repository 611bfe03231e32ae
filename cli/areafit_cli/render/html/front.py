"""The first page of a review, from which a meeting works: what, who, and blanks to decide on."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from areafit.answers.causes import Cause, CauseKind
from areafit.verdict import Verdict
from areafit_cli.render import COUNTED, wording
from areafit_cli.render.html import anchor, figures, gate, isolated, table, text

if TYPE_CHECKING:
    from areafit.findings.report import BomReport
    from areafit_cli.render import Style

_PARTIES, _CONDITIONS, _PLACES, _BLANKS = 7, 4, 4, 3
_CHANGES, _LINE = 10, 80  # lines of print that the causes may take, and letters of one
FOOT = (
    "Compares stated facts with tables. Certifies, classifies and approves nothing. The adopted "
    "code, the authority having jurisdiction and a competent person decide. Cautions in full stand "
    "at the end."
)


def page(report: "BomReport", found: Sequence[Cause], style: "Style") -> Iterator[str]:
    """The first page of one list."""
    bom = report.bom
    name = map(isolated, (wording.assembly_name(bom.assembly), bom.assembly.title))
    yield '<div class="front">\n'
    yield f'<h2 id="{anchor(bom.name)}">{wording.joined(*name)}</h2>\n'
    words = (
        f"Rules {wording.code_words(bom)}",
        bom.jurisdiction,
        f"list {bom.name}",
    )
    yield f"<p>{wording.joined(*map(isolated, filter(None, words)))}</p>\n"
    if bom.assembly.note:
        yield f"<p>{isolated(bom.assembly.note)}</p>\n"
    yield from _held(report, found)
    yield '<div class="boxes">\n'
    yield _box("1 Must change", _changes(found))
    yield _box("2 Who must answer", figures.parties(report, found, _PARTIES, style))
    yield _box("3 To accept", _conditions(found))
    yield _box("4 Verdicts by family", figures.by_family(report))
    yield _box("5 Rests on somebody's word", _rests(report))
    yield _box("6 Decided today", _decided())
    yield "</div>\n"
    yield _box("7 Places", figures.places(report, _PLACES))
    yield f'<p class="foot">{text(FOOT)}</p>\n</div>\n'


def _box(title: str, inside: str) -> str:
    return f'<div class="box"><p class="named">{text(title)}</p>\n{inside}</div>\n'


def _held(report: "BomReport", found: Sequence[Cause]) -> Iterator[str]:
    counts = report.counts
    lines = wording.tally(counts.parts, COUNTED)
    said = wording.counted_causes(found)
    yield (
        f'<p class="held">Gate {gate(report.gate)} {text("; ".join(said) or "nothing is open")}'
        f"<br>{text(wording.counted(counts.total, 'line'))}: {text(lines)}</p>\n"
    )
    step = wording.first_step(found)
    if step:
        yield f"<p>First: {isolated(step)}.</p>\n"
    others = [
        f"{kind} {subject.name}"
        for kind, several in (("place", report.places), ("loop", report.loops))
        for subject in several
        if not subject.verdict.passes
    ]
    if report.own.verdict in (Verdict.FLAG, Verdict.UNPROVEN):
        others.insert(0, "the list as a whole")
    if others:
        yield f"<p>Open beside the lines: {isolated(', '.join(others))}</p>\n"
    if report.scope != "full":
        yield f"<p>Scope {text(wording.scope(report))}</p>\n"


def numbered(found: Sequence[Cause], kind: CauseKind) -> list[tuple[str, Cause]]:
    """Causes of a kind by their numbers, as the text report counts them."""
    own = [one for one in found if one.kind is kind]
    if kind is CauseKind.CHANGE:
        own = [one for group in wording.together(own) for one in group]
    letter = {CauseKind.CHANGE: "C", CauseKind.ANSWER: "Q", CauseKind.ACCEPT: "A"}[kind]
    return [(f"{letter}{number}", one) for number, one in enumerate(own, 1)]


def _changes(found: Sequence[Cause]) -> str:
    own = list(wording.alike(numbered(found, CauseKind.CHANGE)))
    rows: list[tuple[str, str, str]] = []
    lines = told = 0
    for number, about, alike in own:
        said = f"{number} {about}"
        lines += -(-len(said) // _LINE)
        if rows and lines > _CHANGES:
            left = sum(len(each) for _, _, each in own) - told
            rows.append((f"and {left} more under “Findings by cause”", "", ""))
            break
        told += len(alike)
        rows.append((isolated(said), _about(alike), ""))
    if not rows:
        return "<p>Nothing is flagged.</p>\n"
    return table("What must change", ("Cause", "Items", "Decided"), rows, "blanks")


def _about(found: Sequence[Cause]) -> str:
    names = wording.names_of(found)
    more = f" and {len(names) - 8} more" if len(names) > 8 else ""
    return isolated(wording.items(names[:8]) + more)


def _conditions(found: Sequence[Cause]) -> str:
    own = numbered(found, CauseKind.ACCEPT)
    rows = [
        (
            f"{number} {isolated(wording.short(cause.what))}",
            text(cause.who.value),
            _about([cause]),
            "",
        )
        for number, cause in own[:_CONDITIONS]
    ]
    if len(own) > _CONDITIONS:
        rows.append((f"and {len(own) - _CONDITIONS} more below", "", "", ""))
    if not rows:
        return "<p>No condition waits to be accepted.</p>\n"
    return table("Conditions", ("Condition", "Who", "Items", "Name, date"), rows, "blanks")


def _decided() -> str:
    rows = [(f"{number}", "", "") for number in range(1, _BLANKS + 1)]
    return table("What was decided", ("What", "Who", "Until"), rows, "blanks decided")


def _rests(report: "BomReport") -> str:
    bom = report.bom
    said = [f"Passes: {wording.bases(report.counts) or 'none'}."]
    said += [f"{one}." for one in wording.others_words(report)]
    if bom.library.used:
        oldest = min(entry.confirmed_on for entry in bom.library.used)
        said.append(
            f"Library: {len(bom.library.used)} of {bom.library.entries} entries, the oldest "
            f"confirmed {oldest.isoformat()}."
        )
    waived = report.waivers
    counted = (
        (waived.used, "used"),
        (waived.expired, "past their date"),
        (waived.stale, "void"),
        (waived.unmatched, "match nothing"),
    )
    told = ", ".join(f"{amount} {word}" for amount, word in counted if amount)
    if told:
        said.append(f"Waivers: {told}.")
    return "".join(f"<p>{isolated(one)}</p>\n" for one in said)
