"""What stands behind it: loops, waivers, notes and entries, sources, what nobody judged."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.verdict import Basis
from areafit_cli.render import wording
from areafit_cli.render.html import figures, isolated, table, text

if TYPE_CHECKING:
    from areafit.findings.report import BomReport, Judged
    from areafit_cli.render.html.findings import Numbers

_SIGNERS = ("Designer", "Process owner", "Area owner", "Installer", "Approved for release")


def words_of_others(report: "BomReport") -> Iterator[str]:
    """The notes and entries that verdicts rest on: who says what, and of how many lines."""
    told: dict[tuple[str, str, str], tuple[set[str], set[str], str]] = {}
    for line, several in report.bom.statements.items():
        for one in several:
            key = (one.document, one.role, one.level.value)
            keys, lines, _ = told.setdefault(key, (set(), set(), str(one.position)))
            keys.add(next(step for step in reversed(one.path.split("/")) if not step.isdecimal()))
            lines.add(line)
    notes = [
        (
            isolated(document),
            isolated(role),
            text(level),
            text(", ".join(sorted(keys))),
            str(len(lines)),
            isolated(where),
        )
        for (document, role, level), (keys, lines, where) in told.items()
    ]
    if notes:
        head = ("Document", "Role", "Level", "States", "Lines", "Where")
        yield table("Notes and entries, by their documents", head, notes, "asks")
    entries = [
        (
            isolated(", ".join(entry.numbers) or entry.number),
            text(entry.confirmed_on.isoformat()),
            isolated(entry.document),
            isolated(entry.role),
            isolated(str(entry.position)),
        )
        for entry in report.bom.library.used
    ]
    if entries:
        columns = ("Part number", "Confirmed", "Document", "Role", "Where")
        yield table("Entries of the library used", columns, entries, "asks")


def loops(report: "BomReport") -> Iterator[str]:
    """Every loop with its arithmetic, passes too, and its curves."""
    for loop in report.loops:
        yield from figures.loop(loop)


def waivers(report: "BomReport") -> Iterator[str]:
    """Waivers in use and those that no longer hold."""
    rows = [
        (
            isolated(f"{o.waiver.subject.value} {o.waiver.name}"),
            text(o.waiver.rule),
            text(o.state.value),
            isolated(o.waiver.reason),
            isolated(o.waiver.approved_by),
            text(o.waiver.held),
            isolated(o.waiver.document),
            isolated(o.message),
        )
        for o in report.waiver_outcomes
    ]
    head = ("Subject", "Rule", "State", "Reason", "Approved by", "Until", "Document", "Remark")
    if rows:
        yield table("Waivers of this list", head, rows, "asks")


def sources(report: "BomReport", numbers: "Numbers") -> Iterator[str]:
    """Every source that a finding rests on, with the number of its rows, and clauses applied."""
    used: dict[str, set[tuple[str, str, str]]] = {}
    bases: dict[str, set[str]] = {}
    clauses: dict[str, dict[str, None]] = {}
    for judged in _judged(report):
        clause = judged.judgement.clause or judged.rule.clause
        clauses.setdefault(clause, {})[judged.rule.title] = None
        for row in judged.judgement.rows:
            used.setdefault(row.source_id, set()).add((row.table, row.key, row.value))
            bases.setdefault(row.source_id, set()).add(row.basis.value)
    for name in sorted(used):
        numbers.known.setdefault(name, len(numbers.known) + 1)
    rows = [
        (
            f"[{number}] {isolated(_titled(report, name))}",
            str(len(used[name])),
            text(", ".join(basis.value for basis in Basis if basis.value in bases[name])),
        )
        for name, number in numbers.known.items()
        if name in used
    ]
    if rows:
        head = ("Source", "Rows used", "How they were checked")
        yield table("Sources of the table rows used", head, rows, "sources")
    else:
        yield "<p>No table row was used.</p>\n"
    applied = isolated("; ".join(sorted(clauses)))
    if applied:
        yield f'<p class="clauses">Clauses applied: {applied}.</p>\n'


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


def not_judged(report: "BomReport") -> Iterator[str]:
    """What the list touches and no rule judges, with whom to ask."""
    rows = [(isolated(clause), isolated(said)) for clause, said in wording.not_judged(report)]
    if rows:
        yield table("A person must look at these", ("Clause", "What, and who should"), rows, "asks")


def signatures(_report: "BomReport") -> Iterator[str]:
    """Space for names, dates and signatures by role; the tool signs nothing."""
    rows = [(text(role), "", "", "") for role in _SIGNERS]
    yield table("Read and accepted, by role", ("Role", "Name", "Date", "Signature"), rows, "sign")
