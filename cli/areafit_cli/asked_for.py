"""What a single substance asks of equipment: group and temperature, under each code."""

from decimal import Decimal
from typing import TYPE_CHECKING

from areafit.demands import derive
from areafit.facts.groups import GroupScheme
from areafit.facts.place import Area, AreaReading, AreaSystem, Place, PresentSubstance
from areafit.facts.protection import Hazard, Law
from areafit.tables.classes import Scheme, TemperatureClass
from areafit.tables.dusts import Dust

if TYPE_CHECKING:
    from areafit.demands import HazardDemand
    from areafit.tables import Tables
    from areafit.tables.substances import Substance

_LAYER = Decimal("0.005")  # the layer that IEC 60079-14:2013, 5.6.3 takes as its base, in metres


def describe(found: "Substance | Dust", law: Law, tables: "Tables") -> dict[str, object] | None:
    """Group, highest surface temperature and temperature class; None where nothing is asked."""
    dusty = isinstance(found, Dust)
    area = _AREAS[law, Hazard.DUST if dusty else Hazard.GAS]
    place = Place(
        "here",
        law,
        area=AreaReading("", (area,)),
        substances=(PresentSubstance(found.id),),
        layer=_LAYER if dusty else None,
        chemicals=(),
    )
    (demand,) = _demands(place, tables)
    limit = min(demand.limits, key=lambda one: one.maximum, default=None)
    groups = {
        each.scheme.value: sorted({need.group.value for need in each.needs})
        for each in demand.groups
        if each.needs and (law is Law.NEC or each.scheme not in _NEC_ONLY)
    }
    return {
        "code": law.value,
        "groups": groups,
        "surface_below_c": None if limit is None else limit.maximum,
        "limit_itself_allowed": None if limit is None else limit.inclusive,
        "temperature_class": None
        if limit is None
        else _class(limit.maximum, law, tables, inclusive=limit.inclusive),
        "because": None if limit is None else limit.cause,
        "clause": None if limit is None else limit.clause,
        "dust_layer_mm": 5 if dusty else None,
        "open": [gap.message for each in demand.groups if each.needs for gap in each.gaps]
        + [gap.message for gap in demand.temperature_gaps],
    }


_NEC_ONLY = frozenset({GroupScheme.DIVISION_GAS, GroupScheme.DIVISION_DUST})
_AREAS = {
    (Law.IEC, Hazard.GAS): Area(AreaSystem.ZONE, Hazard.GAS, zone=1),
    (Law.IEC, Hazard.DUST): Area(AreaSystem.ZONE, Hazard.DUST, zone=21),
    (Law.NEC, Hazard.GAS): Area(AreaSystem.DIVISION, Hazard.GAS, hazard_class="I", division=1),
    (Law.NEC, Hazard.DUST): Area(AreaSystem.DIVISION, Hazard.DUST, hazard_class="II", division=1),
}


def _demands(place: Place, tables: "Tables") -> "tuple[HazardDemand, ...]":
    from areafit_cli import clock  # noqa: PLC0415 - no document is judged: any date serves

    return derive(place, tables, clock.today()).hazards


def _class(limit: Decimal, law: Law, tables: "Tables", *, inclusive: bool) -> str | None:
    """The hottest class whose maximum stays below the limit; None where no class does."""
    fitting = [
        row
        for row in tables.rows("temperature_classes", TemperatureClass)
        if (row.scheme is Scheme.BOTH or law is Law.NEC)
        and (row.max_c < limit or (inclusive and row.max_c == limit))
    ]
    best = max(fitting, key=lambda row: row.max_c, default=None)
    return best.name if best else None
