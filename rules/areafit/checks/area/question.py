"""The questions of the area rules: the few typed facts that each judgement rests on."""

from dataclasses import dataclass
from enum import Enum

from areafit.demands import Demands, GroupDemand, HazardDemand, Limit
from areafit.demands.demand import Gap
from areafit.facts.groups import Group, GroupScheme
from areafit.facts.marking import Code, TemperatureMark
from areafit.facts.part import Equipment, SurfaceTemperature
from areafit.facts.place import Area, AreaSystem
from areafit.facts.protection import Hazard, Law, Level, MarkingSystem
from areafit.facts.quantity import Range


class Missing(Enum):
    """Why no code of the nameplate answers a hazard."""

    NO_MARKING = "no marking is stated"
    UNREAD = "the marking could not be read whole"
    OTHER_HAZARD = "nothing on the nameplate is for this hazard"
    ASSOCIATED = "the nameplate protects outgoing circuits only, not the housing"


@dataclass(frozen=True, slots=True)
class LevelQuestion:
    """Is this code accepted in these areas? `required_level` is the site's own demand."""

    law: Law
    areas: tuple[Area, ...]
    required_level: Level | None
    documented: bool
    code: Code | None
    missing: Missing | None
    electrical: bool

    @classmethod
    def of(
        cls,
        demands: Demands,
        hazard: HazardDemand,
        code: Code | None,
        missing: Missing | None,
        *,
        electrical: bool,
    ) -> "LevelQuestion":
        place = demands.place
        level = place.required_level
        own = level if level is not None and level.hazard is hazard.hazard else None
        documented = place.document is not None
        return cls(demands.law, hazard.areas, own, documented, code, missing, electrical)


@dataclass(frozen=True, slots=True)
class GroupQuestion:
    """Do these marked groups, or gases, cover what the place asks for in their own scheme?"""

    groups: frozenset[Group]
    gases: tuple[str, ...]
    protection: tuple[str, ...]
    marked: bool
    missing: Missing | None
    demand: GroupDemand | None

    @classmethod
    def of(
        cls, demands: Demands, hazard: HazardDemand, code: Code | None, missing: Missing | None
    ) -> "GroupQuestion":
        if code is None:
            scheme = _home(hazard)
            return cls(frozenset(), (), (), False, missing, hazard.group_demand(scheme))
        gases = tuple(_gas_id(demands, name) for name in code.gases)
        demand = hazard.group_demand(_scheme(code.system, hazard.hazard))
        return cls(code.groups, gases, code.protection, True, None, demand)


def _gas_id(demands: Demands, name: str) -> str:
    known = demands.tables.substance(name)
    return known.id if known is not None else name


def _scheme(system: MarkingSystem, hazard: Hazard) -> GroupScheme:
    division = system is MarkingSystem.NEC_DIVISION
    if hazard is Hazard.GAS:
        return GroupScheme.DIVISION_GAS if division else GroupScheme.ZONE_GAS
    return GroupScheme.DIVISION_DUST if division else GroupScheme.ZONE_DUST


def _home(hazard: HazardDemand) -> GroupScheme:
    division = any(area.system is AreaSystem.DIVISION for area in hazard.areas)
    system = MarkingSystem.NEC_DIVISION if division else MarkingSystem.IEC
    return _scheme(system, hazard.hazard)


@dataclass(frozen=True, slots=True)
class TemperatureQuestion:
    """Do the hottest surfaces stay within these limits?"""

    temperatures: tuple[TemperatureMark, ...]
    ambient_default: Range | None
    surface: SurfaceTemperature | None
    site: Range | None
    limits: tuple[Limit, ...]
    gaps: tuple[Gap, ...]

    @classmethod
    def of(
        cls, equipment: Equipment, demands: Demands, hazard: HazardDemand, code: Code | None
    ) -> "TemperatureQuestion":
        return cls(
            code.temperatures if code is not None else (),
            code.ambient if code is not None else None,
            equipment.surface,
            demands.ambient,
            hazard.limits,
            hazard.temperature_gaps,
        )


@dataclass(frozen=True, slots=True)
class AmbientQuestion:
    """Does the certified ambient range, narrowed by the catalogue's, hold the site's?"""

    site: Range | None
    marked: tuple[Range, ...]
    evidence: tuple[Range, ...]
    catalogue: Range | None
    system: MarkingSystem | None

    @classmethod
    def of(cls, equipment: Equipment, demands: Demands, code: Code | None) -> "AmbientQuestion":
        marked: tuple[Range, ...] = ()
        if code is not None:
            by_class = tuple(t.ambient for t in code.temperatures if t.ambient is not None)
            marked = (code.ambient,) if code.ambient is not None else by_class
        evidence = tuple(e.ambient for e in equipment.evidence or () if e.ambient is not None)
        system = code.system if code is not None else None
        return cls(demands.ambient, marked, evidence, equipment.ambient, system)


@dataclass(frozen=True, slots=True)
class TypeQuestion:
    """Is the type of protection one that this kind of equipment may use here?"""

    law: Law
    areas: tuple[Area, ...]
    code: Code | None
    electrical: bool

    @classmethod
    def of(
        cls, demands: Demands, hazard: HazardDemand, code: Code | None, *, electrical: bool
    ) -> "TypeQuestion":
        return cls(demands.law, hazard.areas, code, electrical)
