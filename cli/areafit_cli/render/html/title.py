"""The title block of a list: what was judged, by which rules, and how it fared."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from areafit.verdict import Verdict
from areafit_cli.render import remarks
from areafit_cli.render.html.markup import anchor, facts, gate, isolated, table, text, word

if TYPE_CHECKING:
    from areafit.findings.report import BomReport


def title_block(report: "BomReport") -> Iterator[str]:
    """Heading, gate and facts of one list."""
    bom, counts = report.bom, report.counts
    name = " revision ".join(x for x in (bom.assembly.number, bom.assembly.revision) if x)
    title = f" · {isolated(bom.assembly.title)}" if bom.assembly.title else ""
    yield f'<h2 id="{anchor(bom.name)}">{isolated(name)}{title}</h2>\n'
    yield f"<p>Gate: {gate(report.gate)}</p>\n"
    bases = ", ".join(f"{count} {basis.value}" for basis, count in counts.by_basis.items())
    edition = bom.edition or "edition not stated: those that the clauses cite are applied"
    yield facts(
        (
            ("List", isolated(bom.name)),
            ("Rules", isolated(f"{bom.law.value} {edition}")),
            ("Jurisdiction", isolated(bom.jurisdiction)),
            ("Scope", text(remarks.scope(report))),
            ("Parts", _tally(counts.parts)),
            ("Locations", _tally(counts.places)),
            ("Loops", _tally(counts.loops)),
            ("Passes rest on", text(bases)),
            ("Waivers", text(_waivers(report))),
        )
    )
    yield from _others(report)


def _tally(counts: Mapping[Verdict, int]) -> str:
    total = sum(counts.values())
    told = ", ".join(f"{counts[v]} {v.value}" for v in Verdict if counts.get(v))
    return text(f"{total}: {told}") if total else ""


def _waivers(report: "BomReport") -> str:
    found = report.waivers
    counted = (
        (found.used, "used"),
        (found.expired, "past their date"),
        (found.stale, "void, since facts changed or a document is missing"),
        (found.unmatched, "match nothing"),
    )
    return ", ".join(f"{amount} {said}" for amount, said in counted if amount)


def _others(report: "BomReport") -> Iterator[str]:
    """Verdicts of all that is no part, so that none of them is missed beside the matrix."""
    rows = [(f"list {isolated(report.own.name)}", word(report.own.verdict))]
    for place in report.places:
        facts_of = report.bom.places.get(place.name)
        title = f" · {isolated(facts_of.title)}" if facts_of and facts_of.title else ""
        rows.append((f"location {isolated(place.name)}{title}", word(place.verdict)))
    rows += [(f"loop {isolated(loop.name)}", word(loop.verdict)) for loop in report.loops]
    head = ("Subject", "Verdict")
    yield table("The list as a whole, its locations and loops", head, rows, "narrow")
