"""What stands behind the verdicts: loops with their arithmetic, waivers, sources; signatures."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit_cli.render.html.markup import isolated, table, text, word

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Judged
    from areafit.rule import Row


def loops(report: "BomReport") -> Iterator[str]:
    """Every loop with its arithmetic, passes too."""
    for loop in report.loops:
        rows = [
            (
                text(finding.rule.id),
                word(finding.verdict),
                isolated(finding.message),
                isolated(finding.required),
                isolated(finding.found),
                isolated(finding.clause),
            )
            for finding in loop.findings()
        ]
        head = ("Rule", "Verdict", "Comparison", "Required", "Values and sums", "Clause")
        yield table(f"Loop {loop.name}: {loop.verdict.value}", head, rows, "asks")


def waivers(report: "BomReport") -> Iterator[str]:
    """Waivers in use and those that no longer hold."""
    rows = [
        (
            isolated(f"{o.waiver.subject.value} {o.waiver.name}"),
            text(o.waiver.rule),
            text(o.state.value),
            isolated(o.waiver.reason),
            isolated(o.waiver.approved_by),
            text(o.waiver.until.isoformat()),
            isolated(o.waiver.document),
            isolated(o.message),
        )
        for o in report.waiver_outcomes
    ]
    head = ("Subject", "Rule", "State", "Reason", "Approved by", "Until", "Document", "Remark")
    if rows:
        yield table("Waivers of this list", head, rows, "asks")


def sources(report: "BomReport") -> Iterator[str]:
    """Every source that a finding rests on, in full, and every clause applied."""
    places: dict[str, dict[str, None]] = {}
    bases: dict[str, dict[str, None]] = {}
    clauses: dict[str, dict[str, None]] = {}
    for judged in _judged(report):
        clause = judged.judgement.clause or judged.rule.clause
        clauses.setdefault(clause, {})[judged.rule.id] = None
        for row in judged.judgement.rows:
            places.setdefault(row.source_id, {})[_used(row)] = None
            bases.setdefault(row.source_id, {})[row.basis.value] = None
    rows = [
        (
            isolated(_titled(report, name)),
            isolated("; ".join(places[name])),
            text(", ".join(bases[name])),
        )
        for name in sorted(places)
    ]
    if rows:
        head = ("Source", "Where in it", "How the rows were checked")
        yield table("Sources of the table rows used", head, rows, "asks")
    else:
        yield "<p>No table row was used.</p>\n"
    applied = [(isolated(c), text(", ".join(rules))) for c, rules in sorted(clauses.items())]
    if applied:
        yield table("Clauses applied", ("Clause", "By the rules"), applied)


def _used(row: "Row") -> str:
    return row.locator or "no locator"


def _judged(report: "BomReport") -> "Iterator[Judged]":
    """Every answer once; parts that agree share theirs."""
    seen: set[int] = set()
    for subject in report.subjects():
        for block in subject.blocks:
            for judged in block.judged:
                if id(judged.judgement) not in seen:
                    seen.add(id(judged.judgement))
                    yield judged


def _titled(report: "BomReport", name: str) -> str:
    """Title, edition and publisher of a source with its id."""
    tables = next((p.demands.tables for p in report.places if p.demands is not None), None)
    if tables is None:
        return name
    try:
        source = tables.source(name)
    except KeyError:  # own rows may name a source of the company's
        return name
    words = (source.title, source.edition, source.publisher)
    return f"{', '.join(word for word in words if word)} [{name}]"


_SIGNERS = ("Designer", "Process owner", "Area owner", "Installer", "Approved for release")


def signatures() -> str:
    """Space for names, dates and signatures by role; the tool signs nothing."""
    rows = [(text(role), "", "", "") for role in _SIGNERS]
    return table("Read and accepted, by role", ("Role", "Name", "Date", "Signature"), rows, "sign")
