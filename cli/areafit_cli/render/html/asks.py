"""Open points by who can answer, and what to ask of what is bought for each location."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from areafit.answers.actions import Action, actions
from areafit.answers.need import need
from areafit.verdict import Role
from areafit_cli.render import need_words
from areafit_cli.render.html.markup import bullets, facts, isolated, table, text, word

if TYPE_CHECKING:
    from areafit.answers.need import HazardNeed, Need
    from areafit.answers.suiting import ExposureNeed
    from areafit.facts.part import Exposure
    from areafit.findings.report import BomReport

_MOST = 100
_NAMED = 12


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


def purchase(report: "BomReport") -> Iterator[str]:
    """What to write into the purchase specification of each location."""
    exposures = _exposures(report)
    for place in report.places:
        if place.demands is not None:
            used = sorted(exposures.get(place.name, ()), key=lambda each: each.value)
            yield from _place(need(place.demands, used))
    yield f"<p>{text(need_words.RULES_LEFT)} {text(need_words.DEFERS)}</p>\n"


def _exposures(report: "BomReport") -> "dict[str, set[Exposure]]":
    """The exposures in which materials of the listed parts stand, by location."""
    found: dict[str, set[Exposure]] = {}
    for part in report.parts:
        used = {each.exposure or part.part.exposure for each in part.part.materials or ()}
        for name in part.part.locations:
            found.setdefault(name, set()).update(one for one in used if one is not None)
    return found


def _place(asked: "Need") -> Iterator[str]:
    title = f" · {isolated(asked.title)}" if asked.title else ""
    yield f"<h4>{isolated(asked.place)}{title}</h4>\n"
    yield facts((label.capitalize(), isolated(said)) for label, said in need_words.facts(asked))
    for hazard in asked.hazards:
        yield from _hazard(hazard)
    if not asked.hazards:
        yield "<p>No classified area is declared: no marking is asked for.</p>\n"
    still_open = [*asked.open, *(point for hazard in asked.hazards for point in hazard.open)]
    if still_open:
        yield f"<h5>Not known yet</h5>\n{bullets(map(isolated, still_open))}"
    for exposure in asked.exposures:
        yield from _materials(exposure)


def _hazard(hazard: "HazardNeed") -> Iterator[str]:
    yield f"<h5>{text(hazard.hazard.capitalize())}: {isolated('; '.join(hazard.area))}</h5>\n"
    surface = [(label.capitalize(), isolated(said)) for label, said in need_words.surface(hazard)]
    yield facts((*surface, ("With", isolated("; ".join(need_words.evidence(hazard))))))
    rows = [
        (text(system), bullets(map(isolated, markings)))
        for system, markings in need_words.by_system(hazard)
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
        for condition, families in need_words.by_condition(suits)
    ]
    if rows:
        yield table(caption, ("Fitness", "Condition", "Materials"), rows, "asks")
        yield '<p class="soft"><code>areafit need</code> names the materials to avoid.</p>\n'
    elif not exposure.no_data:
        yield f"<p>{text(caption)}: no material of the tables suits.</p>\n"
    else:
        yield f"<p>{text(caption)}: none of the tables is known to suit.</p>\n"
