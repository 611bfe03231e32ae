"""The report for a person with two minutes: what must change, who must answer, what to accept.

Each cause stands once, with what closes it and its lines whole. Folding shows less and counts
nothing less: `--full` prints every finding with clause and sources, and so do the other formats.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from areafit.answers.causes import Cause, Kind, causes
from areafit.findings.report import PartReport
from areafit.pattern import pattern
from areafit.verdict import Reason, Verdict
from areafit_cli.render import COUNTED, Format, full_text, wording
from areafit_cli.render.paper import Paper

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, PlaceReport
    from areafit_cli.render import Run, Style

_ITEMS = 22  # columns of the lines that a cause is about
_QUESTIONS = 2  # told of what one answer would state; actions has them all
_PARTY = 15  # columns of who is asked
_NARROW = 60
_SHORT = 3  # causes told of a list among several, and the shortest run of items
_ASIDE = pattern(r" \([^()]{24,}\)")
_SPAN = pattern(r"(?:, [^,:;]*(?:%|°C)[^,:;]*)+$")
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
    yield from _title(report, paper)
    yield from _gate(report, found, paper)
    if style.several:
        yield from _in_short(report, found, paper)
        return
    yield from _counts(report, paper)
    yield from _changes([one for one in found if one.kind is Kind.CHANGE], paper)
    yield from _answers([one for one in found if one.kind is Kind.ANSWER], paper)
    yield from _conditions([one for one in found if one.kind is Kind.ACCEPT], paper)
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
    law = f"{bom.law.value} {bom.edition}" if bom.edition else f"{bom.law.value}, no edition stated"
    name = wording.assembly_name(bom.assembly)
    words = (name, bom.assembly.title, law, bom.jurisdiction, bom.name)
    yield from paper.wrap(wording.joined(*words))


def _gate(report: "BomReport", found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    of = {kind: [one for one in found if one.kind is kind] for kind in Kind}
    flags = sum(len(one.bearers) for one in of[Kind.CHANGE])
    parties = {(one.who, one.vendor) for one in of[Kind.ANSWER]}
    changed = wording.counted(len(of[Kind.CHANGE]), "cause")
    asked = f"{len(parties)} {'party' if len(parties) == 1 else 'parties'}"
    said = (
        f"{wording.counted(flags, 'flag')} of {changed} to change",
        f"{wording.counted(len(of[Kind.ANSWER]), 'answer')} to get from {asked}",
        f"{wording.counted(len(of[Kind.ACCEPT]), 'condition')} to accept",
    )
    open_ = [text for text, kind in zip(said, Kind, strict=True) if of[kind]]
    rest = f": {', '.join(open_)}" if open_ else ""
    yield from paper.wrap(
        f"{report.gate}{rest}".removeprefix(report.gate), f"GATE {paper.paint(report.gate)}", "  "
    )


def _counts(report: "BomReport", paper: Paper) -> Iterator[str]:
    counts = report.counts
    lines = wording.tally(counts.parts, COUNTED)
    library, noted = report.bom.library, report.bom.statements
    said = {one.document for several in noted.values() for one in several}
    rests = [wording.bases(counts)]
    if said:
        rests.append(f"facts of {len(noted)} lines by {', '.join(sorted(said))}")
    if library.used:
        rests.append(f"{len(library.used)} of {library.entries} entries of the library")
    rows = (
        (wording.counted(counts.total, "line"), lines),
        ("rests on", "; ".join(rests)),
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
    for group in _together(found):
        for cause in group:
            number += 1
            yield from _columns(
                _short(cause.what), _items(cause.names), paper, f"C{number}".ljust(4)
            )
        step = _fitting(_step(group[0].closes), paper.width - 7)
        yield from paper.wrap(step, "    -> ", " " * 7)


def _together(found: Sequence[Cause]) -> Iterable[list[Cause]]:
    """Causes that one step closes, so that it is told once."""
    groups: dict[tuple[str, str], list[Cause]] = {}
    for cause in found:
        groups.setdefault((cause.first.rule.id, _step(cause.closes)), []).append(cause)
    return groups.values()


def _answers(found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    if not found:
        return
    yield paper.heading("To answer")
    said: object = None
    for cause in found:
        party = f"{cause.who.value} {cause.vendor}" if cause.vendor else cause.who.value
        lead = "" if party == said else party
        said = party
        if paper.width < _NARROW:
            if lead:
                yield f"{lead}\n"
            yield from _columns(_asked(cause), _items(cause.names), paper, "  ")
            continue
        yield from _columns(_asked(cause), _items(cause.names), paper, lead.ljust(_PARTY))


def _asked(cause: Cause) -> str:
    """The question; of several things without data each once."""
    if cause.first.reason is not Reason.NO_DATA:
        questions = list(dict.fromkeys(asked.row.question for asked in cause.asks))
        return " ".join(questions[:_QUESTIONS]) or _short(cause.what)
    missing: dict[str, dict[str, None]] = {}
    for bearer in cause.bearers:
        thing, _, other = _missing(bearer.finding.message).partition(" in ")
        missing.setdefault(thing, {})[other] = None
    said = (
        f"{thing} in {', '.join(others)}" if any(others) else thing
        for thing, others in missing.items()
    )
    return f"Data or a test: {'; '.join(said)}"


def _missing(message: str) -> str:
    """What data is missing of: `NBR in ethanol`."""
    return _short(message).rpartition("for: ")[2].partition(":")[0].partition(",")[0]


def _conditions(found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    if not found:
        return
    yield paper.heading("To accept")
    for number, cause in enumerate(found, 1):
        said = f"{_short(cause.what)} [{cause.who.value}]"
        yield from _columns(said, _items(cause.names), paper, f"A{number}".ljust(4))


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


def _short(text: str) -> str:
    """The first sentence, without long asides, strength and temperature."""
    return _SPAN.sub("", _ASIDE.sub("", text).partition(". ")[0].rstrip("."))


def _step(text: str) -> str:
    """What closes it, its first sentence."""
    return text.partition(". ")[0].rstrip(".")


def _fitting(text: str, width: int) -> str:
    """As much of a step as fits one line, cut where a thought ends; `…` where there is more."""
    if len(text) <= width or width < _NARROW:
        return text
    ends = [found.start() for found in _THOUGHT.finditer(text) if found.start() <= width - 2]
    return f"{text[: ends[-1]]} …" if ends else text


def _items(names: Iterable[str]) -> str:
    """Lines by item, runs of whole numbers drawn together: `1, 4..7, loop A`."""
    runs: list[list[str]] = []
    for name in dict.fromkeys(names):
        last = runs[-1][-1] if runs else ""
        follows = name.isdecimal() and last.isdecimal() and int(name) == int(last) + 1
        if follows and len(name) >= len(last):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(
        f"{run[0]}..{run[-1]}" if len(run) > _SHORT - 1 else ", ".join(run) for run in runs
    )


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
    for place in report.places:
        yield from paper.wrap(wording.joined(*_place(report, place)), "  ", "    ")


def _place(report: "BomReport", place: "PlaceReport") -> Iterator[str]:
    facts = report.bom.places.get(place.name)
    yield place.name
    if facts is not None:
        yield facts.area.text if facts.area is not None else "area not stated"
        if facts.ambient is not None:
            yield wording.span(facts.ambient)
        if facts.chemicals:
            yield ", ".join(dict.fromkeys(each.name for each in facts.chemicals))
    here = [part for part in report.parts if _stands(part, place.name)]
    open_ = sum(not part.verdict.passes for part in here)
    yield f"{open_} of {len(here)} open"


def _stands(part: PartReport, place: str) -> bool:
    return place in part.part.locations


def _in_short(report: "BomReport", found: Sequence[Cause], paper: Paper) -> Iterator[str]:
    """A list among several: its counts, the first causes, and where to read on."""
    yield from _counts(report, paper)
    shown = [one for one in found if one.kind is Kind.CHANGE][:_SHORT]
    shown = shown or [one for one in found if one.kind is Kind.ANSWER][:_SHORT]
    for cause in shown:
        what = _short(cause.what)
        about = f"{cause.who.value}: {what}" if cause.kind is Kind.ANSWER else what
        text = f"{about} · {_items(cause.names)}"
        yield from paper.wrap(_cut(text, paper.width - 4), "  - ", "    ")
    more = len(found) - len(shown)
    if more:
        yield from paper.wrap(f"and {more} more: areafit check {report.bom.name}", "  ", "  ")


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: width - 1].rstrip()}…"


FORMAT = Format(head=head, body=body, tail=tail, between="\n\n")
