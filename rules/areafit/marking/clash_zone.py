"""What contradicts the North American zone form: class, zone, `AEx` and level."""

from collections.abc import Iterator

from areafit.facts.marking import Code, Problem
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.marking import clauses
from areafit.marking.level import joined_to_ga, type_levels
from areafit.marking.parts import Parts


def clashes(parts: Parts, code: Code) -> Iterator[Problem]:
    """Every contradiction between the place words of a block and the rest of its code."""
    mark_clause = clauses.DUST_ZONE_MARK if code.hazard is Hazard.DUST else clauses.ZONE_MARK
    if parts.zones and parts.marks - {"AEx"}:
        yield Problem("A code with a zone number needs AEx, not Ex.", mark_clause)
    if code.system is MarkingSystem.ATEX and "AEx" in parts.marks:
        yield Problem("AEx and a category are of two systems.", mark_clause)
    wrong = [name for name in parts.classes if name != "I"]
    if wrong:
        yield Problem(f"Class {wrong[0]} does not go with zones.", clauses.ZONES)
    if parts.letters:
        yield Problem("Division group letters stand in a zone code.", clauses.LETTERS)
    if code.zone is not None:
        yield from _zone(code, code.zone, bool(parts.classes))


def _zone(code: Code, zone: int, classed: bool) -> Iterator[Problem]:  # noqa: FBT001 - one caller
    dust = code.hazard is Hazard.DUST
    if (zone >= 20) is not dust:
        yield Problem(f"Zone {zone} stands in a code for {code.hazard.value}.", clauses.ZONES)
        return
    if classed and dust:
        yield Problem("Zones 20 to 22 have no class in front.", clauses.ZONES)
    clause = clauses.DUST_ZONE_MARK if dust else clauses.ZONE_MARK
    best = "abc"[zone % 10]
    if code.level is not None and code.level.hazard is code.hazard and code.level.value[1] > best:
        text = f"Level {code.level.value} does not reach Zone {zone}."
        yield Problem(text, clause)
    types = type_levels(code)
    if types and not joined_to_ga(code) and max(types) > best:
        text = f"Type {'/'.join(code.protection)} does not reach Zone {zone}."
        yield Problem(text, clause)
