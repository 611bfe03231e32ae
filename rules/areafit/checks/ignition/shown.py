"""What stands for the ignition sources of a part: a marking for its level, or an assessment."""

from datetime import date

from areafit.demands import Demands, HazardDemand
from areafit.demands.levels import asked_level
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.marking import Code
from areafit.facts.part import Body
from areafit.facts.place import AreaSystem
from areafit.facts.protection import Hazard, Level
from areafit.marking.level import effective_level
from areafit.values import Frozen, Term


class Assessed(Term):
    """What an ignition hazard assessment says for one hazard."""

    NO = "no ignition hazard assessment"
    YES = "ignition hazard assessment"
    EXPIRED = "ignition hazard assessment past its date"
    LOWER = "ignition hazard assessment for a lower level or another hazard"
    LEVEL_OPEN = "ignition hazard assessment that names no level"
    ELSEWHERE = "ignition hazard assessment of other part numbers"


class Shown(Frozen):
    """The level asked for, the best that a non-electrical code gives, and the assessment.

    `unread` says that a nameplate could not be read whole.
    """

    asked: Level
    marked: Level | None
    assessed: Assessed
    unread: bool = False

    @property
    def by_marking(self) -> bool:
        """Whether a marking for non-electrical equipment reaches the level."""
        return self.marked is not None and self.marked.rank <= self.asked.rank

    @property
    def holds(self) -> bool:
        """Whether marking or assessment covers the part's own ignition sources."""
        return self.by_marking or self.assessed is Assessed.YES

    @property
    def words(self) -> str:
        """What is stated, in words."""
        if self.marked is not None:
            return f"marking for non-electrical equipment, EPL {self.marked.value}"
        return "a marking that could not be read" if self.unread else self.assessed.value


def shown(body: Body, demands: Demands, hazard: HazardDemand) -> Shown:
    """What the part shows for one hazard of its place."""
    asked = asked_level(demands, hazard)
    markings = body.equipment.markings or ()
    levels = [_level(code, hazard.hazard) for marking in markings for code in marking.codes]
    marked = min((x for x in levels if x is not None), key=lambda x: x.rank, default=None)
    unread = any(problem.unread for marking in markings for problem in marking.problems)
    answers = [_assessed(e, asked, hazard, demands.as_of) for e in body.equipment.evidence or ()]
    best = next((each for each in _BEST_FIRST if each in answers), Assessed.NO)
    return Shown(asked, marked, best, unread)


_BEST_FIRST = (
    Assessed.YES,
    Assessed.LEVEL_OPEN,
    Assessed.LOWER,
    Assessed.EXPIRED,
    Assessed.ELSEWHERE,
)


def covered(body: Body, demands: Demands) -> bool:
    """Whether marking or assessment covers the part for every hazard of its place."""
    return all(shown(body, demands, hazard).holds for hazard in demands.hazards)


def is_best_zone(hazard: HazardDemand) -> bool:
    """Whether any of the areas is Zone 0 or 20."""
    return any(a.system is AreaSystem.ZONE and a.zone in (0, 20) for a in hazard.areas)


def certified(body: Body, demands: Demands) -> bool:
    """Whether a certificate is stated for the part that is not past its date."""
    return any(
        e.type is EvidenceType.CERTIFICATE
        and not e.elsewhere
        and (e.valid_until is None or e.valid_until >= demands.as_of)
        for e in body.equipment.evidence or ()
    )


def _level(code: Code, hazard: Hazard) -> Level | None:
    """The level of a non-electrical code for a hazard; fibres are lit like dust."""
    serves = {hazard, Hazard.DUST} if hazard is Hazard.FIBRES else {hazard}
    if not code.non_electrical or code.associated or code.hazard not in serves:
        return None
    return effective_level(code)


def _assessed(
    document: Evidence, asked: Level, hazard: HazardDemand, as_of: date
) -> Assessed | None:
    """What one document says.

    In Zone 0 and 20 rare malfunctions count, so that it must say that it reaches the level;
    elsewhere an assessment that names no level is taken for the place.
    """
    if document.type is not EvidenceType.ASSESSMENT:
        return None
    if document.elsewhere:
        return Assessed.ELSEWHERE
    if document.valid_until is not None and document.valid_until < as_of:
        return Assessed.EXPIRED
    if document.level is None:
        return Assessed.LEVEL_OPEN if is_best_zone(hazard) else Assessed.YES
    same = document.level.value[0] == asked.value[0]
    return Assessed.YES if same and document.level.rank <= asked.rank else Assessed.LOWER
