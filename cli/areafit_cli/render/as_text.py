"""The report for a person with two minutes: what must change, who must answer, what to accept.

Each cause stands once, with what closes it and its lines whole. Folding shows less and counts
nothing less: `--full` prints every finding with clause and sources, and so do the other formats.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from areafit.answers.causes import Cause, CauseKind, causes
from areafit.pattern import pattern
from areafit.verdict import Reason, Verdict
from areafit_cli.render import COUNTED, Format, full_text, wording
from areafit_cli.render.paper import Paper

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, PlaceReport
    from areafit_cli.render import Run, Style

_ITEMS = 22  # columns of the lines that a cause is about
_PARTY = 15  # columns of who is asked
_NARROW = 60
_BLOCK = 12  # lines of a list among several
_SHORT = 3  # causes told of a list among several
_THOUGHT = pattern(r"[;,] | or | and ")
_CAUTIONS = (
    "Facts of the list against tables; nothing is certified. The locally adopted code, the "
    "authority having jurisdiction and a licensed or otherwise competent person decide. Site data, "
    "the current standard and the safety data sheet outrank the tables. Confirm a pass on the "
    "delivered part; conforming parts alone do not make a conforming machine."
)


def head(run: "Run", style: "Style") -> Iterator[str]:
    """The gate over all lists, where there are several."""
    if style.full or style.brief or style.quiet:
        yield from full_text.head(run, style)
        return
    unreadable = len({error.position.file for error in run.errors})
    if not run.boms or len(run.boms) + unreadable < 2:
        return
    paper = Paper(style.width, style.colour)
    lost = f", {unreadable} could not be read" if unreadable else ""
    yield f"GATE {paper.paint(run.gate)} over {wording.counted(len(run.boms), 'list')}{lost}\n\n"


def body(report: "BomReport", style: "Style") -> Iterator[str]:
    """One judged list."""
    if style.full or style.brief or style.quiet:
        yield from full_text.body(report, style)
        return
    paper = Paper(style.width, style.colour)
    found = causes(report)
    if style.several:
        yield from _in_short(report, found, paper)
        return
    yield from _title(report, paper)
    yield from _gate(report, found, paper)
    yield from _first(found, paper)
    yield from _counts(report, paper)
    if style.since is not None:
        yield from paper.labelled(*wording.since(style.since, report), 2, 10)
    yield from _changes([one for one in found if one.kind is CauseKind.CHANGE], paper)
    asked = [one for one in found if one.kind is CauseKind.ANSWER]
    yield from _answers(asked, report, style, paper)
    yield from _conditions([one for one in found if one.kind is CauseKind.ACCEPT], paper)
    yield from _waivers(report, paper)
    yield from _places(report, paper)


def tail(run: "Run", style: "Style") -> Iterator[str]:
    """What the tool does not decide, once a run, and where to read on."""
    if style.full or style.brief or style.quiet or not run.boms:
        yield from full_text.tail(run, style)
        return
    paper = Paper(style.width, style.colour)
    yield "\n"
    yield from paper.wrap(_CAUTIONS)
    for remark in wording.notices(run):
        yield from paper.wrap(remark)
    yield from paper.wrap(f"areafit {run.version}, tables {run.tables[:12]}")
    path = run.boms[0].path if len(run.boms) == 1 else "FILE"
    if any(not bom.passes for bom in run.boms):
        yield from paper.wrap(f"next: areafit actions {path} · --full for clauses and sources")


def _title(report: "BomReport", paper: Paper) -> Iterator[str]:
    bom = report.bom
    law = wording.code_words(bom, "(no edition stated)")
    name = wording.assembly_name(bom.assembly)
    words = (name, bom.assembly.title, law, bom.jurisdiction, bom.name)
    yield from paper.wrap(wording.joined(*words))
    if bom.assembly.note:
        yield from paper.wrap(bom.assembly.note)


def _gate(report: "BomReport", found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    open_ = wording.counted_causes(found)
    rest = f": {', '.join(open_)}" if open_ else ""
    yield from paper.wrap(rest, f"GATE {paper.paint(report.gate)}", "  ")


def _first(found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    step = wording.first_step(found)
    if step:
        yield from paper.labelled("first", step, 2, 10)


def _counts(report: "BomReport", paper: Paper, *, short: bool = False) -> Iterator[str]:
    rests = (wording.bases(report.counts), *(() if short else wording.others_words(report)))
    rows = (
        (wording.counted(report.counts.total, "line"), wording.tally(report.counts.parts, COUNTED)),
        ("rests on", "; ".join(filter(None, rests))),
        ("scope", wording.scope(report)),
    )
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, 2, 10)


# Causes


def _changes(found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    if not found:
        return
    yield paper.heading("To change")
    number = 0
    for group in wording.together(found):
        numbered = [(f"C{i}", cause) for i, cause in enumerate(group, number + 1)]
        number += len(group)
        for label, said, alike in wording.alike(numbered):
            names = wording.items(wording.names_of(alike))
            yield from _columns(said, names, paper, f"{label} ".ljust(4))
        step = _fitting(wording.step(group[0].closes), paper.width - 7)
        yield from paper.wrap(step, "    -> ", " " * 7)


def _answers(
    found: Sequence[Cause], report: "BomReport", style: "Style", paper: Paper
) -> Iterator[str]:
    if not found:
        return
    yield paper.heading("To answer")
    said: object = None
    for asked in _asked_together(found):
        first = asked[0]
        party = f"{first.who.value} {first.vendor}" if first.vendor else first.who.value
        lead = "" if party == said else party
        said = party
        text = " ".join(_question(cause) for cause in asked)
        numbered = wording.asked(report, asked, style.asked, style.on)
        text = f"{text} [{numbered}]" if numbered else text
        if paper.width < _NARROW:
            if lead:
                yield f"{lead}\n"
            yield from _columns(text, wording.items(first.names), paper, "  ")
            continue
        yield from _columns(text, wording.items(first.names), paper, lead.ljust(_PARTY))


def _asked_together(found: Sequence[Cause]) -> Iterable[list[Cause]]:
    """Questions that the same party is asked about the same lines."""
    groups: dict[tuple[object, ...], list[Cause]] = {}
    for cause in found:
        groups.setdefault((cause.who, cause.vendor, cause.names), []).append(cause)
    return groups.values()


def _question(cause: Cause) -> str:
    return cause.what if cause.asks or cause.first.reason is Reason.NO_DATA else _sentence(cause)


def _sentence(cause: Cause) -> str:
    return f"{wording.short(cause.what)}."


def _conditions(found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    if not found:
        return
    yield paper.heading("To accept")
    numbered = [(f"A{number}", cause) for number, cause in enumerate(found, 1)]
    groups: dict[str, list[tuple[str, Cause]]] = {}
    for label, cause in numbered:
        groups.setdefault(wording.second(cause.what), []).append((label, cause))
    for accepted, group in groups.items():
        for label, said, alike in wording.alike(group):
            names = wording.items(wording.names_of(alike))
            who = alike[0].who.value
            yield from _columns(f"{said} [{who}]", names, paper, f"{label} ".ljust(4))
        if accepted:
            yield from paper.wrap(_fitting(accepted, paper.width - 7), "    -> ", " " * 7)


def _columns(text: str, items: str, paper: Paper, lead: str) -> Iterator[str]:
    """What is said, and at its right the lines that it is about; behind it where it is narrow."""
    rest = " " * len(lead)
    if not items:
        yield from paper.wrap(text, lead, rest)
        return
    if paper.width < _NARROW:
        yield from paper.wrap(f"{text} · {items}", lead, rest)
        return
    left = Paper(paper.width - _ITEMS)
    said = [line.rstrip("\n") for line in left.wrap(text, lead, rest)]
    room = Paper(paper.width - left.width - 2)
    names = [line.rstrip("\n") for line in room.wrap(items)]
    for i in range(max(len(said), len(names))):
        first = said[i] if i < len(said) else ""
        second = names[i] if i < len(names) else ""
        yield f"{first:<{left.width + 2}}{second}".rstrip() + "\n"


def _fitting(text: str, width: int) -> str:
    """As much of a step as fits one line, cut where a thought ends; `…` where there is more."""
    if len(text) <= width or width < _NARROW:
        return text
    ends = [found.start() for found in _THOUGHT.finditer(text) if found.start() <= width - 2]
    return f"{text[: ends[-1]]} …" if ends else text


# What else a reader must see


def _waivers(report: "BomReport", paper: Paper) -> Iterator[str]:
    void = wording.void_waivers(report)
    used = report.waivers.used
    if not (void or used):
        return
    yield paper.heading("Waived")
    if used:
        waived = sum(
            finding.verdict is Verdict.WAIVED
            for subject in report.subjects()
            for finding in subject.findings()
        )
        yield from paper.wrap(
            f"{wording.counted(waived, 'finding')} by {wording.counted(used, 'waiver')}, each with "
            "its role and last day in --full"
        )
    for outcome in void:
        text = f"{wording.waiver_words(outcome)} · {outcome.waiver.position}"
        yield from paper.wrap(text, "- ", "  ")


def _places(report: "BomReport", paper: Paper) -> Iterator[str]:
    if report.places:
        yield paper.heading("Places")
    here = Counter(name for part in report.parts for name in part.part.locations)
    left_open = (part for part in report.parts if not part.verdict.passes)
    open_ = Counter(name for part in left_open for name in part.part.locations)
    for place in report.places:
        counts = f"{open_[place.name]} of {here[place.name]} open"
        yield from paper.wrap(wording.joined(*_place(report, place), counts), "  ", "    ")


def _place(report: "BomReport", place: "PlaceReport") -> Iterator[str]:
    facts = report.bom.places.get(place.name)
    yield place.name
    if facts is not None:
        yield facts.area.text if facts.area is not None else "area not stated"
        if facts.ambient is not None:
            yield wording.span(facts.ambient)
        if facts.chemicals:
            yield ", ".join(dict.fromkeys(each.name for each in facts.chemicals))


def _in_short(report: "BomReport", found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    """A list among several: its counts, the first causes, and where to read on; twelve lines."""
    head = [*_title(report, paper), *_gate(report, found, paper)]
    counts = list(_counts(report, paper, short=True))
    more = f"all {wording.counted(len(found), 'cause')}: areafit check {report.bom.name}"
    end = list(paper.wrap(more, "  ", "  ")) if found else []
    room = _BLOCK - len(head) - len(end)
    if len(counts) > room - 1:
        counts = list(paper.wrap(_lines(report), "  ", "  "))
    yield from head
    yield from counts
    first = [one for one in found if one.kind is found[0].kind]
    for cause in first[: max(min(_SHORT, room - len(counts)), 0)]:
        about = (
            f"{cause.who.value}: {wording.short(cause.what)}"
            if cause.kind is CauseKind.ANSWER
            else ""
        )
        items = f" · {_cut(wording.subject(cause), paper.width // 3)}"
        text = _cut(about or wording.short(cause.what), paper.width - 4 - len(items))
        yield from paper.wrap(f"{text}{items}", "  - ", "    ")
    yield from end


def _lines(report: "BomReport") -> str:
    lines = wording.counted(report.counts.total, "line")
    return f"{lines}: {wording.tally(report.counts.parts, COUNTED)}"


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: width - 1].rstrip()}…"


FORMAT = Format(head=head, body=body, tail=tail, between="\n")
