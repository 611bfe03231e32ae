"""The report for a reviewer: the gate first, then what is open, then what each place asks for."""

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

from areafit.findings.report import Gate
from areafit.verdict import Verdict
from areafit_cli.render import Format, cautions_text, open_points, remarks
from areafit_cli.render.paper import Paper
from areafit_cli.render.run import COUNTED
from areafit_cli.render.values import block

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Counts
    from areafit_cli.render.look import Look
    from areafit_cli.render.run import Run, Summary


def head(run: "Run", look: "Look") -> Iterator[str]:
    """The gate over all lists, where there are several; nothing else where all pass quietly."""
    paper = Paper(look.width, look.colour)
    unreadable = len({fault.path for fault in run.faults})
    if look.quiet and run.boms and run.gate == Gate.PASS:
        about = f"over {len(run.boms)} lists" if len(run.boms) > 1 else f"· {run.boms[0].path}"
        yield from paper.wrap(about, f"GATE {paper.paint(run.gate)} ", "  ")
        return
    if not run.boms or len(run.boms) + unreadable < 2:
        return
    lost = f", {unreadable} could not be read" if unreadable else ""
    yield f"GATE {paper.paint(run.gate)} over {remarks.counted(len(run.boms), 'list')}{lost}\n"
    for bom in run.boms:
        yield from paper.wrap(f"{bom.path} · {_score(bom)}", f"  {paper.paint(bom.gate)}  ", "    ")
    yield "\n"


def _score(bom: "Summary") -> str:
    counts = ", ".join(_counted(bom.counts.parts))
    return f"{remarks.counted(bom.counts.total, 'part')}: {counts}" if counts else "no parts"


def body(report: "BomReport", look: "Look") -> Iterator[str]:
    """One judged list."""
    paper = Paper(look.width, look.colour)
    if look.quiet and report.gate == Gate.PASS:
        return
    yield from _title(report, paper)
    if look.brief and not report.passes:
        yield from _shown(report, paper)
    if not look.quiet:
        yield from _counts(report, paper)
    elif report.scope != "full":
        yield from paper.labelled("scope", remarks.scope(report), 2, 16)
    still_open = open_points.of(report, open_points.is_open, paper, terse=look.quiet)
    yield from _section("Open points", still_open, paper)
    if look.quiet:
        return
    waived = open_points.of(report, open_points.is_waived, paper)
    accepted = any(option.startswith("accept-unproven") for option in report.narrowed)
    title = "Waived, or accepted by an option" if accepted else "Waived: somebody answers for it"
    yield from _section(title, waived, paper)
    yield from _section("Waivers that do not hold", _void_waivers(report, paper), paper)
    yield from _requirements(report, paper)


def tail(run: "Run", look: "Look") -> Iterator[str]:
    """What the tool does not decide, once a run."""
    paper = Paper(look.width, look.colour)
    if run.unchanged and not run.boms and not run.faults:
        yield f"GATE {paper.paint(run.gate)}\n"
        yield from (line for remark in remarks.of(run) for line in paper.wrap(remark))
    if look.quiet or not run.boms:
        return
    yield from cautions_text.lines(paper, brief=look.brief)
    yield "\n"
    for remark in remarks.of(run):
        yield from paper.wrap(remark)
    yield from paper.wrap(f"areafit {run.version}, tables {run.tables[:12]}")
    failing = [bom.path for bom in run.boms if not bom.passes]
    if failing and not look.brief:
        path = failing[0] if len(failing) == 1 else "FILE"
        yield from paper.wrap(
            f"Next: `areafit actions {path}` lists the questions by who answers them."
        )


def _title(report: "BomReport", paper: Paper) -> Iterator[str]:
    bom = report.bom
    revision = f" revision {bom.assembly.revision}" if bom.assembly.revision else ""
    name = f"{bom.assembly.number}{revision}"
    yield from paper.wrap(" · ".join(word for word in (name, bom.assembly.title) if word))
    edition = bom.edition or "edition not stated: those that the clauses cite are applied"
    words = (bom.name, f"{bom.law.value} {edition}", bom.jurisdiction)
    yield from paper.wrap(" · ".join(word for word in words if word))
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
        ("passes rest on", _bases(counts)),
        ("scope", remarks.scope(report)),
        ("waivers", _waivers(report)),
    ]
    for label, text in rows:
        if text:
            yield from paper.labelled(label, text, 2, 16)


def _sum(counts: Mapping[Verdict, int]) -> str:
    total = sum(counts.values())
    return f"{total}: {', '.join(_counted(counts))}" if total else ""


def _counted(counts: Mapping[Verdict, int]) -> list[str]:
    return [f"{counts[v]} {v.value}" for v in COUNTED if counts.get(v)]


def _bases(counts: "Counts") -> str:
    return ", ".join(f"{amount} {basis.value}" for basis, amount in counts.by_basis.items())


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
    for outcome in remarks.void_of(report):
        text = f"{remarks.told(outcome)} · {open_points.where(outcome.waiver.position)}"
        yield from paper.wrap(text, "- ", "  ")


def _requirements(report: "BomReport", paper: Paper) -> Iterator[str]:
    for index, place in enumerate(report.places):
        if not index:
            yield paper.heading("Requirements by location")
        facts = report.bom.places.get(place.name)
        title = f" · {facts.title}" if facts is not None and facts.title else ""
        yield "\n"
        yield from paper.wrap(f"{place.name}{title} · {place.verdict.value}")
        yield from block(place.requires, paper)


FORMAT = Format(head=head, body=body, tail=tail, between="\n\n")
