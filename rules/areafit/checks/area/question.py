"""The questions of the area rules on level, ambient and type: the facts that a judgement rests on.

Those on group and temperature stand beside, in `group_question` and `heat_question`.
"""

from datetime import date

from areafit.checks.area.bid import Bid
from areafit.checks.area.general_use import GeneralUse, general_use
from areafit.checks.area.missing import Missing
from areafit.demands import Demands, HazardDemand
from areafit.documents import certifies, expired
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import Pressurization
from areafit.facts.marking import Code
from areafit.facts.part import Equipment
from areafit.facts.place import Area
from areafit.facts.protection import Law, Level, MarkingSystem
from areafit.facts.quantity import Range
from areafit.values import Frozen


class LevelQuestion(Frozen):
    """Is this code accepted in these areas?

    `required_level` is the site's own demand; `general` is set where the part bears no marking
    and the governing rules know allowances for that; `in_use_before_2003` where it is stated that
    the part was in service before the European directive bound it; `listed` where a listing is.
    """

    law: Law
    areas: tuple[Area, ...]
    required_level: Level | None
    code: Code | None
    missing: Missing | None
    electrical: bool
    general: GeneralUse | None = None
    in_use_before_2003: bool = False
    listed: bool = False

    @classmethod
    def of(cls, bid: Bid) -> "LevelQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard, code, missing = (
            bid.equipment,
            bid.demands,
            bid.hazard,
            bid.code,
            bid.missing,
        )
        level = demands.place.required_level
        own = level if level is not None and level.hazard is hazard.hazard else None
        return cls(
            demands.law,
            hazard.areas,
            own,
            code,
            missing,
            equipment.electrical,
            general_use(equipment, demands, missing),
            _in_use_before_2003(equipment),
            any(each.type is EvidenceType.LISTING for each in equipment.evidence or ()),
        )


_ATEX_BINDS = date(2003, 7, 1)


def _in_use_before_2003(equipment: Equipment) -> bool:
    placed = equipment.placed_on_market
    if placed is not None:
        return placed < _ATEX_BINDS
    return equipment.in_service is True


class AmbientQuestion(Frozen):
    """Does the certified ambient range, narrowed by the catalogue's, hold the site's?

    `evidence` are the ranges of documents that certify the part, `others` those of documents that
    do not: they count against the part only.
    """

    site: Range | None
    marked: tuple[Range, ...]
    evidence: tuple[Range, ...]
    catalogue: Range | None
    system: MarkingSystem | None
    others: tuple[Range, ...] = ()

    @classmethod
    def of(cls, equipment: Equipment, demands: Demands, code: Code | None) -> "AmbientQuestion":
        """The facts of a part with the ambient of its place."""
        marked: tuple[Range, ...] = ()
        if code is not None:
            by_class = tuple(t.ambient for t in code.temperatures if t.ambient is not None)
            marked = (code.ambient,) if code.ambient is not None else by_class
        evidence: list[Range] = []
        others: list[Range] = []
        for each in equipment.evidence or ():
            if each.ambient is not None:
                counts = binding(each, equipment, demands, code)
                (evidence if counts else others).append(each.ambient)
        system = code.system if code is not None else None
        own = equipment.ambient
        return cls(demands.ambient, marked, tuple(evidence), own, system, tuple(others))


def binding(document: Evidence, equipment: Equipment, demands: Demands, code: Code | None) -> bool:
    """Whether what a document allows is certified: numbered, valid, for this part, accepted."""
    run_out = expired(document, equipment.placed_on_market, demands.as_of)
    electrical = equipment.electrical
    return not run_out and certifies(document, demands.law, code, electrical=electrical)


class TypeQuestion(Frozen):
    """Is the type of protection one that this kind of equipment may use here?"""

    law: Law
    areas: tuple[Area, ...]
    code: Code | None
    electrical: bool
    pressurization: Pressurization | None = None

    @classmethod
    def of(
        cls,
        equipment: Equipment,
        demands: Demands,
        hazard: HazardDemand,
        code: Code | None,
        *,
        electrical: bool,
    ) -> "TypeQuestion":
        """The facts of a part with the areas of its place."""
        return cls(demands.law, hazard.areas, code, electrical, equipment.pressurization)
