"""The dossier's other sections: title block, purchase requirements, loops, waivers, sources, open
points by who answers, signatures.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.actions import actions
from areafit.answers.need import HazardNeed, need
from areafit.verdict import Role, Verdict
from areafit_cli.render.html.markup import facts, isolated, table, text, word

if TYPE_CHECKING:
    from areafit.findings.report import BomReport


def title_block(report: "BomReport") -> Iterator[str]:
    """What was judged, by which rules, and how it fared."""
    bom, counts = report.bom, report.counts
    name = " revision ".join(x for x in (bom.assembly.number, bom.assembly.revision) if x)
    title = f" · {isolated(bom.assembly.title)}" if bom.assembly.title else ""
    yield f"<h2>{isolated(name)}{title}</h2>\n"
    kind = "pass" if report.passes else "fail"
    yield f'<p>Gate: <span class="gate {kind}">{text(report.gate)}</span></p>\n'
    tally = ", ".join(f"{counts.parts[v]} {v.value}" for v in Verdict if counts.parts.get(v))
    bases = ", ".join(f"{count} {basis.value}" for basis, count in counts.by_basis.items())
    edition = bom.edition or "edition not stated: where editions differ the stricter holds"
    yield facts(
        (
            ("List", isolated(bom.name)),
            ("Rules", text(f"{bom.law.value} {edition}")),
            ("Jurisdiction", isolated(bom.jurisdiction) if bom.jurisdiction else ""),
            ("Parts", text(f"{counts.total}: {tally}")),
            ("Passes rest on", text(bases)),
            ("Scope", text(report.scope) if report.scope != "full" else ""),
        )
    )


def purchase(report: "BomReport") -> Iterator[str]:
    """What to write into the purchase specification of each location."""
    yield "<h3>Purchase requirements by location</h3>\n"
    for place in report.places:
        if place.demands is None:
            continue
        asked = need(place.demands)
        title = f" · {isolated(asked.title)}" if asked.title else ""
        yield f"<h4>{isolated(asked.place)}{title}</h4>\n"
        yield facts(
            (
                ("Ambient", text(asked.ambient)),
                ("Ingress", isolated(asked.ingress) if asked.ingress else ""),
                ("Document", isolated(asked.document) if asked.document else ""),
            )
        )
        for hazard in asked.hazards:
            yield from _hazard(hazard)
        if not asked.hazards:
            yield "<p>No classified area is declared here.</p>\n"


def _hazard(hazard: HazardNeed) -> Iterator[str]:
    yield facts(
        (
            ("Hazard", text(f"{hazard.hazard}: {'; '.join(hazard.area)}")),
            ("Surface limit", isolated(hazard.surface) if hazard.surface else ""),
            ("Not known", isolated("; ".join(hazard.open))),
        )
    )
    if hazard.options:
        rows = [
            (isolated(o.text), text(o.evidence), text(o.clause), isolated(o.note))
            for o in hazard.options
        ]
        yield table("Accepted markings", ("Marking", "Evidence", "Clause", "Note"), rows)


def loops(report: "BomReport") -> Iterator[str]:
    """Every loop with its arithmetic."""
    if not report.loops:
        return
    yield "<h3>Intrinsically safe loops</h3>\n"
    for loop in report.loops:
        rows = [
            (
                text(finding.rule.id),
                word(finding.verdict),
                isolated(finding.required),
                isolated(finding.found),
                isolated(finding.message),
            )
            for finding in loop.findings()
        ]
        head = ("Requirement", "Verdict", "Required", "Found", "Arithmetic")
        yield table(f"Loop {loop.name}: {loop.verdict.value}", head, rows)


def waivers(report: "BomReport") -> Iterator[str]:
    """Waivers in use and those that no longer hold."""
    if not report.waiver_outcomes:
        return
    yield "<h3>Waivers</h3>\n"
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
    yield table("Waivers of this list", head, rows)


def open_points(report: "BomReport") -> Iterator[str]:
    """Open points gathered by who can answer them."""
    found = actions(report)
    yield "<h3>Open points by who answers</h3>\n"
    if not found:
        yield "<p>No open points.</p>\n"
    for role in Role:
        rows = [
            (
                word(a.verdict),
                text(a.rule),
                isolated(a.question),
                isolated(a.remedy),
                isolated("; ".join(a.subjects)),
            )
            for a in found
            if a.role is role
        ]
        if rows:
            head = ("Verdict", "Rule", "What is open", "To pass", "For")
            yield table(role.value.capitalize(), head, rows)


def sources(report: "BomReport") -> Iterator[str]:
    """Every table row that a finding rests on, once."""
    cited: dict[str, None] = {}
    for subject in (report.findings, *report.parts, *report.places, *report.loops):
        for block in subject.blocks:
            for judged in block.judged:
                for row in judged.judgement.rows:
                    cited[f"{row.source_id} · {row.locator}"] = None
    yield "<h3>Sources used</h3>\n"
    items = "".join(f"<li>{isolated(each)}</li>" for each in sorted(cited))
    yield f"<ul>{items}</ul>\n" if items else "<p>No table row was used.</p>\n"


_SIGNERS = ("Designer", "Process owner", "Area owner", "Installer", "Approved for release")


def signatures() -> str:
    """Space for names, dates and signatures by role; the tool signs nothing."""
    rows = [(text(role), "", "", "") for role in _SIGNERS]
    return "<h3>Signatures</h3>\n" + table(
        "Read and accepted, by role", ("Role", "Name", "Date", "Signature"), rows, "sign"
    )
