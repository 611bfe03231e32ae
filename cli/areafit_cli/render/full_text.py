"""The whole report for a reviewer: the gate, each open finding with its sources, every place.

A long list has parts that agree in one finding and not in the next, so above `_EACH` parts every
finding is told once instead of every subject, with all whom it is about.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from areafit.findings.cautions import CAUTIONS
from areafit.findings.report import Gate, PartReport, PlaceReport
from areafit.verdict import Verdict
from areafit_cli.render import COUNTED, wording
from areafit_cli.render.paper import Paper, block
from areafit_cli.render.subjects import (
    AlikeSubjects,
    SharedFinding,
    Wanted,
    alike_subjects,
    shared_findings,
)

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Finding, SubjectReport
    from areafit_cli.render import Run, Style, Summary

_INDENT, _COLUMN = 4, 10
_EACH = 200
_NOTHING_JUDGED = "No requirement could be judged, so nothing is shown."
# The answer to a question is shorter than the full cautions; it defers to the same people.
_BRIEF = (
    "Cautions: areafit compares stated facts with tables and clauses; it certifies nothing. The "
    "locally adopted code, the authority having jurisdiction and, where the law asks for it, a "
    "licensed or otherwise competent person decide. Confirm a pass on the delivered part; site "
    "data, the current standard and the safety data sheet outrank the tables. Conforming parts "
    "alone do not make a conforming machine."
)


def head(run: "Run", style: "Style") -> Iterator[str]:
    """The gate over all lists, where there are several; nothing else where all pass quietly."""
    paper = Paper(style.width, style.colour)
    unreadable = len({error.position.file for error in run.errors})
    if style.quiet and run.boms and run.gate == Gate.PASS:
        about = f"over {len(run.boms)} lists" if len(run.boms) > 1 else f"· {run.boms[0].path}"
        yield from paper.wrap(about, f"GATE {paper.paint(run.gate)} ", "  ")
        return
    if not run.boms or len(run.boms) + unreadable < 2:
        return
    lost = f", {unreadable} could not be read" if unreadable else ""
    yield f"GATE {paper.paint(run.gate)} over {wording.counted(len(run.boms), 'list')}{lost}\n"
    for bom in run.boms:
        yield from paper.wrap(f"{bom.path} · {_score(bom)}", f"  {paper.paint(bom.gate)}  ", "    ")
    yield "\n"


def _score(bom: "Summary") -> str:
    counts = wording.tally(bom.counts.parts, COUNTED)
    return f"{wording.counted(bom.counts.total, 'part')}: {counts}" if counts else "no parts"


def body(report: "BomReport", style: "Style") -> Iterator[str]:
    """One judged list."""
    paper = Paper(style.width, style.colour)
    if style.quiet and report.gate == Gate.PASS:
        return
    yield from _title(report, paper)
    if style.brief and not report.passes:
        yield from _shown(report, paper)
    if not style.quiet:
        yield from _counts(report, paper)
    elif report.scope != "full":
        yield from paper.labelled("scope", wording.scope(report), 2, 16)
    still_open = _points(report, lambda verdict: not verdict.passes, paper, terse=style.quiet)
    yield from _section("Open points", still_open, paper)
    if style.quiet:
        return
    waived = _points(report, lambda verdict: verdict is Verdict.WAIVED, paper)
    accepted = any(option.startswith("accept-unproven") for option in report.narrowed)
    title = "Waived, or accepted by an option" if accepted else "Waived: somebody answers for it"
    yield from _section(title, waived, paper)
    yield from _section("Waivers that do not hold", _void_waivers(report, paper), paper)
    yield from _requirements(report, paper)
    if not style.brief:
        yield from _section(wording.NOT_JUDGED, _not_judged(report, paper), paper)


def tail(run: "Run", style: "Style") -> Iterator[str]:
    """What the tool does not decide, once a run."""
    paper = Paper(style.width, style.colour)
    if run.unchanged and not run.boms and not run.errors:
        yield f"GATE {paper.paint(run.gate)}\n"
        yield from (line for remark in wording.notices(run) for line in paper.wrap(remark))
    if style.quiet or not run.boms:
        return
    yield from cautions(paper, brief=style.brief)
    yield "\n"
    for remark in wording.notices(run):
        yield from paper.wrap(remark)
    yield from paper.wrap(f"areafit {run.version}, tables {run.tables[:12]}")
    failing = [bom.path for bom in run.boms if not bom.passes]
    if failing and not style.brief:
        path = failing[0] if len(failing) == 1 else "FILE"
        yield from paper.wrap(
            f"Next: `areafit actions {path}` lists the questions by who answers them."
        )


def _title(report: "BomReport", paper: Paper) -> Iterator[str]:
    bom = report.bom
    yield from paper.wrap(wording.joined(wording.assembly_name(bom.assembly), bom.assembly.title))
    rules = wording.code_words(bom)
    yield from paper.wrap(wording.joined(bom.name, rules, bom.jurisdiction))
    yield f"\nGATE {paper.paint(report.gate)}\n"


def _shown(report: "BomReport", paper: Paper) -> Iterator[str]:
    """What is settled of the part that was asked about, before all that is not."""
    found = [f for part in (*report.parts, *report.loops) for f in part.findings()]
    open_ = {finding.rule.id for finding in found if not finding.verdict.passes}
    met = (finding.rule.id for finding in found if finding.verdict is Verdict.PASS)
    names = [rule for rule in dict.fromkeys(met) if rule not in open_]
    if names:
        yield from paper.labelled("shown to suit", ", ".join(names), 2, 16)


def _counts(report: "BomReport", paper: Paper) -> Iterator[str]:
    counts = report.counts
    rows = [
        ("parts", _sum(counts.parts)),
        ("locations", _sum(counts.places)),
        ("loops", _sum(counts.loops)),
        ("passes rest on", wording.bases(counts)),
        ("scope", wording.scope(report)),
        ("waivers", _waivers(report)),
    ]
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, 2, 16)


def _sum(counts: Mapping[Verdict, int]) -> str:
    total = sum(counts.values())
    return f"{total}: {wording.tally(counts, COUNTED)}" if total else ""


def _waivers(report: "BomReport") -> str:
    waivers = report.waivers
    counted = (
        ("used", waivers.used),
        ("past their date", waivers.expired),
        ("void, since facts changed", waivers.stale),
        ("match nothing", waivers.unmatched),
    )
    return ", ".join(f"{amount} {word}" for word, amount in counted if amount)


def _section(title: str, lines: Iterable[str], paper: Paper) -> Iterator[str]:
    started = False
    for line in lines:
        if not started:
            started = True
            yield paper.heading(title)
        yield line


def _void_waivers(report: "BomReport", paper: Paper) -> Iterator[str]:
    for outcome in wording.void_waivers(report):
        text = f"{wording.waiver_words(outcome)} · {outcome.waiver.position}"
        yield from paper.wrap(text, "- ", "  ")


def _not_judged(report: "BomReport", paper: Paper) -> Iterator[str]:
    for clause, said in wording.not_judged(report):
        yield from paper.wrap(f"{clause}: {said}", "- ", "  ")


def _requirements(report: "BomReport", paper: Paper) -> Iterator[str]:
    for index, place in enumerate(report.places):
        if not index:
            yield paper.heading("Requirements by location")
        facts = report.bom.places.get(place.name)
        title = facts.title if facts is not None else None
        yield "\n"
        yield from paper.wrap(wording.joined(place.name, title, place.verdict.value))
        yield from block(place.requires, paper)


# Open points


def _points(
    report: "BomReport", wanted: Wanted, paper: Paper, *, terse: bool = False
) -> Iterator[str]:
    """The wanted findings of places, parts in the order of the file, loops and the list itself.

    Subjects whose findings read the same stand together.
    """
    if len(report.parts) > _EACH:
        for shared in shared_findings(report, wanted):
            yield from _shared(shared, paper, terse=terse)
        return
    for alike in alike_subjects(report, wanted):
        yield from _alike(alike, paper, terse=terse)


def _subject(subject: "SubjectReport") -> str:
    match subject:
        case PartReport(part=part):
            words = (part.part_number, part.description, "at " + ", ".join(part.locations))
            return wording.joined(f"item {part.item}", *words)
        case PlaceReport(name=name):
            place = subject.bom.places.get(name)
            return wording.joined(f"location {name}", place.title if place else None)
    if subject.blocks and not subject.blocks[0].prefix:
        return "the list as a whole"
    return f"loop {subject.name}"


def _alike(alike: AlikeSubjects, paper: Paper, *, terse: bool) -> Iterator[str]:
    yield "\n"
    count = len(alike.subjects)
    if count > 1:
        yield f"{paper.paint(alike.verdict.value)} {count} alike:\n"
    lead = "- " if count > 1 else f"{paper.paint(alike.verdict.value)} "
    for subject, position in alike.subjects:
        yield from paper.wrap(f"{_subject(subject)} · {position}", lead, "    ")
    if not alike.findings:
        yield from paper.wrap(_NOTHING_JUDGED, " " * _INDENT, " " * _INDENT)
    for finding in alike.findings:
        other = wording.alternate(alike.subjects[0][0], finding.path)
        yield from _finding(finding, paper, other, position=count == 1, terse=terse)


def _shared(shared: SharedFinding, paper: Paper, *, terse: bool) -> Iterator[str]:
    yield "\n"
    yield from _finding(shared.finding, paper, "", position=True, terse=terse)
    bearers = shared.bearers
    kind = bearers[0].subject.kind
    if len(bearers) == 1:
        names = bearers[0].title
    else:
        names = f"{len(bearers)} {kind}s: {', '.join(bearer.short for bearer in bearers)}"
    yield from paper.labelled("for", names, _INDENT, _COLUMN)


def _finding(
    finding: "Finding", paper: Paper, other: str, *, position: bool, terse: bool
) -> Iterator[str]:
    reason = f" ({finding.reason.value})" if finding.reason else ""
    about = wording.joined(finding.rule.id, other, finding.component, finding.location)
    yield from paper.wrap(about + reason, f"  {paper.paint(finding.verdict.value)}  ", "    ")
    yield from paper.wrap(finding.message, " " * _INDENT, " " * _INDENT)
    see = str(finding.position) if position else ""
    yield from details(finding, paper, _INDENT, see, terse=terse)


def details(
    finding: "Finding", paper: "Paper", indent: int, see: str, *, terse: bool = False
) -> Iterator[str]:
    """All but the message. What would pass, and who knows, is told of what does not.

    `terse` leaves out what was required and found where the message says that nothing is stated.
    """
    met = finding.verdict in (Verdict.PASS, Verdict.NOT_APPLICABLE)
    left = terse and finding.found == "not stated"
    rows = (
        ("required", "" if left else finding.required),
        ("found", "" if left else finding.found),
        ("to pass", "" if met else finding.remedy or finding.rule.remedy),
        ("clause", finding.clause),
        ("source", "; ".join(finding.sources)),
        ("basis", wording.basis_words(finding.basis)),
        ("stated by", wording.stated_by(finding)),
        ("proposed", wording.proposed(finding)),
        ("waiver", wording.granted(finding.waiver) if finding.waiver else ""),
        ("who", "" if met else finding.answer_by.value),
        ("see", see),
    )
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, indent, _COLUMN)


def cautions(paper: Paper, *, brief: bool = False) -> Iterator[str]:
    """The cautions after an empty line."""
    if brief:
        yield "\n"
        yield from paper.wrap(_BRIEF)
        return
    yield paper.heading("Cautions")
    for caution in CAUTIONS:
        yield from paper.wrap(caution, "- ", "  ")
