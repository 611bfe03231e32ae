"""The question of `temperature-class`: the hottest surfaces, and the limits that hold for them."""

from decimal import Decimal

from areafit.checks.area.bid import Bid
from areafit.checks.area.fitting import is_fitting, is_unmarked_fitting
from areafit.checks.area.general_use import general_row, general_use
from areafit.checks.area.missing import Missing
from areafit.demands import Demands, HazardDemand, Limit
from areafit.demands.demand import Gap
from areafit.facts.marking import Code, TemperatureMark
from areafit.facts.part import Equipment, SurfaceCase, SurfaceTemperature
from areafit.facts.protection import Hazard, Law, MarkingSystem
from areafit.facts.quantity import Range
from areafit.values import Frozen


class Share(Frozen):
    """The percentage of an autoignition temperature in °C that a surface may reach, and whose."""

    percent: Decimal
    clause: str


EN_1127_CATEGORY_1 = Share(Decimal(80), "EN 1127-1:2019 6.4.2; ISO 80079-36:2016 6.2")
NEC_SPACE_HEATER = Share(Decimal(80), "NFPA 70-2023 501.125(B)")


class TemperatureQuestion(Frozen):
    """Do the hottest surfaces stay within these limits?

    Where neither class nor surface is stated, `device_stated` says that the kind of device is, and
    `cold_would_do` that a part which makes no heat may go without them.
    """

    temperatures: tuple[TemperatureMark, ...]
    ambient_default: Range | None
    surface: SurfaceTemperature | None
    site: Range | None
    limits: tuple[Limit, ...]
    gaps: tuple[Gap, ...]
    share: Share | None = None
    overloadable: bool | None = None
    heat_free: bool = False
    needed_case: SurfaceCase | None = None
    device_stated: bool = False
    cold_would_do: bool = False

    @classmethod
    def of(cls, bid: Bid) -> "TemperatureQuestion":
        """The facts of a part with the demands of its place."""
        equipment, demands, hazard, code, missing = (
            bid.equipment,
            bid.demands,
            bid.hazard,
            bid.code,
            bid.missing,
        )
        marks = code.temperatures if code is not None else ()
        bare = not marks and equipment.surface is None
        return cls(
            marks,
            code.ambient if code is not None else None,
            equipment.surface,
            demands.ambient,
            hazard.limits,
            hazard.temperature_gaps,
            share_of(equipment, demands, hazard, missing) if not marks else None,
            equipment.overloadable if hazard.hazard is Hazard.FIBRES else None,
            _heat_free(equipment, demands, code),
            _needed_case(demands, hazard) if not marks else None,
            device_stated=bare and equipment.device is not None,
            cold_would_do=bare and equipment.heat_producing is None and _may_be_cold(demands, code),
        )


def _heat_free(equipment: Equipment, demands: Demands, code: Code | None) -> bool:
    """Who may go without a temperature class.

    Fittings may; other equipment that makes no heat by NFPA 70 alone, outside its zones.
    """
    if is_fitting(equipment, code) or is_unmarked_fitting(equipment):
        return True
    return equipment.heat_producing is False and _may_be_cold(demands, code)


def _may_be_cold(demands: Demands, code: Code | None) -> bool:
    zone = code is not None and code.system is not MarkingSystem.NEC_DIVISION
    return demands.law is Law.NEC and not zone


def share_of(
    equipment: Equipment, demands: Demands, hazard: HazardDemand, missing: Missing | None
) -> Share | None:
    """The share of the autoignition temperature in °C that an unmarked surface may reach."""
    if demands.law is not Law.NEC:
        best = any(area.zone == 0 for area in hazard.areas)
        return EN_1127_CATEGORY_1 if best and not equipment.electrical else None
    use = general_use(equipment, demands, missing)
    if use is None:
        return None
    rows = [general_row(area, use) for area in hazard.areas]
    shares = [Share(row.share_pct, row.clause) for row in rows if row is not None]
    if use.space_heater:
        shares.append(NEC_SPACE_HEATER)
    return min((s for s in shares if s.percent < 100), key=lambda s: s.percent, default=None)


def _needed_case(demands: Demands, hazard: HazardDemand) -> SurfaceCase | None:
    """In which state a surface must have been found: worse states count in worse zones."""
    if demands.law is Law.NEC:
        return None
    zone = min((area.zone % 10 for area in hazard.areas if area.zone is not None), default=2)
    cases = (SurfaceCase.RARE_MALFUNCTION, SurfaceCase.EXPECTED_MALFUNCTION, SurfaceCase.NORMAL)
    return cases[zone]
