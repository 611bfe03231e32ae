"""What follows and what stands behind it: open points, purchase, loops, waivers, sources."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.actions import Action, actions
from areafit.answers.need import need
from areafit.values import replace
from areafit.verdict import Role
from areafit_cli.render import purchase, wording
from areafit_cli.render.html import bullets, facts, isolated, table, text, word

if TYPE_CHECKING:
    from areafit.answers.need import ExposureNeed, HazardNeed, Need
    from areafit.facts.bom import Bom, Statement
    from areafit.facts.part import Exposure
    from areafit.findings.report import BomReport, Judged

_MOST = 100
_NAMED = 12
_SIGNERS = ("Designer", "Process owner", "Area owner", "Installer", "Approved for release")


def open_points(report: "BomReport") -> Iterator[str]:
    """One table a role, alike questions put together; a role that has nothing has none."""
    found = actions(report)
    if not found:
        yield "<p>No open points.</p>\n"
    for role in Role:
        own = [action for action in found if action.role is role]
        if not own:
            continue
        rows = [
            (word(a.verdict), text(a.rule), isolated(a.question), isolated(a.remedy), _for(a))
            for a in own[:_MOST]
        ]
        head = ("Verdict", "Rule", "What is open", "To pass", "For")
        yield table(f"{role.value.capitalize()}: {len(own)} open", head, rows, "asks")
        if len(own) > _MOST:
            yield (
                f"<p>{len(own) - _MOST} more points for this role are left out here; "
                "<code>areafit actions</code> lists all.</p>\n"
            )


def _for(action: Action) -> str:
    shown = isolated("; ".join(action.subjects[:_NAMED]))
    rest = len(action.subjects) - _NAMED
    return shown + (f" and {rest} more" if rest > 0 else "")


def purchases(report: "BomReport") -> Iterator[str]:
    """What to write into the purchase specification of each location."""
    exposures = _exposures(report)
    for place in report.places:
        if place.demands is not None:
            used = sorted(exposures.get(place.name, ()), key=lambda each: each.value)
            yield from _place(need(place.demands, used))
    yield f"<p>{text(purchase.RULES_LEFT)} {text(purchase.DEFERS)}</p>\n"


def _exposures(report: "BomReport") -> "dict[str, set[Exposure]]":
    """The exposures in which materials of the listed parts stand, by location."""
    found: dict[str, set[Exposure]] = {}
    for part in report.parts:
        used = {each.exposure or part.part.exposure for each in part.part.materials or ()}
        for name in part.part.locations:
            found.setdefault(name, set()).update(one for one in used if one is not None)
    return found


def _place(asked: "Need") -> Iterator[str]:
    yield f"<h4>{wording.joined(isolated(asked.place), isolated(asked.title))}</h4>\n"
    yield facts((label.capitalize(), isolated(said)) for label, said in purchase.facts(asked))
    for hazard in asked.hazards:
        yield from _hazard(hazard)
    if not asked.hazards:
        yield "<p>No classified area is declared: no marking is asked for.</p>\n"
    still_open = purchase.open_points(asked)
    if still_open:
        yield f"<h5>Not known yet</h5>\n{bullets(map(isolated, still_open))}"
    for exposure in asked.exposures:
        yield from _materials(exposure)


def _hazard(hazard: "HazardNeed") -> Iterator[str]:
    yield f"<h5>{text(hazard.hazard.capitalize())}: {isolated('; '.join(hazard.area))}</h5>\n"
    surface = [(label.capitalize(), isolated(said)) for label, said in purchase.surface(hazard)]
    yield facts((*surface, ("With", isolated("; ".join(purchase.evidence(hazard))))))
    rows = [
        (text(system), bullets(map(isolated, markings)))
        for system, markings in purchase.by_system(hazard)
    ]
    if rows:
        yield table("Accepted markings, any one of them", ("System", "Marking"), rows)


def _materials(exposure: "ExposureNeed") -> Iterator[str]:
    caption = f"Materials where exposed to: {exposure.exposure}"
    if exposure.unknown:
        names = isolated(", ".join(exposure.unknown))
        yield f"<p>{text(caption)}: no data for {names}, so none can be named.</p>\n"
        return
    rows = [
        (label, isolated(condition), bullets(map(isolated, families)))
        for label, suits in (("suitable", exposure.suits), ("on condition", exposure.limited))
        for condition, families in purchase.by_condition(suits)
    ]
    if rows:
        yield table(caption, ("Fitness", "Condition", "Materials"), rows, "asks")
        yield '<p class="soft"><code>areafit need</code> names the materials to avoid.</p>\n'
    elif not exposure.no_data:
        yield f"<p>{text(caption)}: no material of the tables suits.</p>\n"
    else:
        yield f"<p>{text(caption)}: none of the tables is known to suit.</p>\n"


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
            places.setdefault(row.source_id, {})[row.locator or "no locator"] = None
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
    said = [tuple(map(isolated, row)) for row in _said_once(report.bom)]
    if said:
        columns = ("Note or entry", "Who answers", "Where", "What it says", "Of the items")
        yield table("Notes and library entries that the verdicts rest on", columns, said, "asks")


def _said_once(bom: "Bom") -> Iterator[tuple[str, str, str, str, str]]:
    """Every note and entry that lines take facts of: what it says, and of which."""
    keys: dict[Statement, dict[str, None]] = {}
    items: dict[Statement, dict[str, None]] = {}
    for prefix, statements in bom.statements.items():
        item = bom.parts[int(prefix.split("/")[1])].item
        for one in statements:
            source = replace(one, path="")
            steps = one.path.removeprefix(f"{prefix}/").split("/")
            keys.setdefault(source, {})[" ".join(s for s in steps if not s.isdecimal())] = None
            items.setdefault(source, {})[item] = None
    for one, said in keys.items():
        yield (
            f"{one.document} ({one.level.value})",
            one.role,
            str(one.position),
            ", ".join(said),
            ", ".join(items[one]),
        )


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
