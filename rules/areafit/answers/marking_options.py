"""The families of markings that a place accepts, from its demands and the acceptance table.

Only what the rules would let pass is offered: an option must be accepted in every area of its
hazard, reach the level that the site asks for, and name the groups and the class it needs.
"""

from decimal import Decimal

from areafit.demands import Demands, HazardDemand
from areafit.facts.groups import Group, scheme_of, severity
from areafit.facts.place import Area
from areafit.facts.protection import Hazard, Law, Level
from areafit.facts.quantity import number
from areafit.tables.area import Acceptance, Accepted, ClassScheme, TemperatureClass, acceptance
from areafit.values import Frozen


class MarkingOption(Frozen):
    """One family of markings that the place accepts, as a buyer can paste it."""

    system: str
    text: str
    groups: tuple[str, ...]
    temperature: str | None
    evidence: str
    clause: str
    note: str = ""


_EVIDENCE = {
    "NEC": "listed for this marking by a recognised laboratory; control drawing where "
    "intrinsically safe",
    "IEC": "IECEx or national certificate, conditions of an X included",
    "ATEX": "EU declaration of conformity; EU-type certificate for category 1 and electrical "
    "category 2, conditions of an X included",
}


def marking_options(demands: Demands, hazard: HazardDemand) -> tuple[MarkingOption, ...]:
    """Every accepted family; none where what decides between them is not known."""
    options = (_option(demands, hazard, row) for row in _accepted(demands, hazard))
    return tuple(option for option in options if option is not None)


def _accepted(demands: Demands, hazard: HazardDemand) -> list[Acceptance]:
    """The rows of the first area whose offer every other area accepts too."""
    first, *others = (_rows(demands, area) for area in hazard.areas)
    everywhere = [row for row in first if all(_offered(row, rows) for rows in others)]
    if any(area.division == 1 for area in hazard.areas):
        return everywhere  # electrical equipment follows Articles 501 to 503, whatever the level
    asked = demands.place.level_asked(hazard.hazard)
    return [row for row in everywhere if _reaches(row, asked)]


def _rows(demands: Demands, area: Area) -> list[Acceptance]:
    place = (demands.law.value, area.key)
    rows = [row for row in acceptance().values() if (row.law, row.area) == place]
    return [row for row in rows if row.answer is Accepted.YES]


def _offered(row: Acceptance, rows: list[Acceptance]) -> bool:
    return any(other.offer == row.offer for other in rows)


def _reaches(row: Acceptance, asked: Level | None) -> bool:
    """Whether an offer shows the level that the site asks for; a Division marking shows none."""
    if asked is None:
        return True
    system, _, level = row.offer.partition(" ")
    if system not in _LEVELLED:
        return False
    return asked.value[0] != level[0] or Level(level).rank <= asked.rank


_LEVELLED = frozenset({"Ex", "AEx"})


def _option(demands: Demands, hazard: HazardDemand, row: Acceptance) -> MarkingOption | None:
    """One accepted family with group and class; None where its group is not known."""
    division = "/" in row.offer or row.offer.startswith("purge")
    demand = hazard.group_demand(scheme_of(hazard.hazard, division=division))
    groups: tuple[str, ...] = ()
    if demand is not None:
        if demand.gaps or not demand.needs:
            return None
        groups = _least({need.group.value for need in demand.needs}, division=division)
    mark = _class(demands, hazard, division=division)
    if hazard.limits and mark is None:
        return None
    words = [_family(demands.law, row.offer, groups), mark or ""]
    return MarkingOption(
        _SYSTEM["division" if "/" in row.offer else row.offer.split()[0]],
        ", ".join(word for word in words if word),
        groups,
        mark,
        _EVIDENCE[demands.law.value],
        row.clause,
        row.note,
    )


_SYSTEM = {
    "division": "NEC division",
    "purge": "NEC division",
    "AEx": "NEC zone",
    "Ex": "IEC or European",
}


def _least(groups: set[str], *, division: bool) -> tuple[str, ...]:
    """The groups to ask for: all letters of a Division, the most onerous of a Zone."""
    if division:
        return tuple(sorted(groups))
    return (max(groups, key=lambda value: severity(Group(value)) or 0),)


def _class(demands: Demands, hazard: HazardDemand, *, division: bool) -> str | None:
    """The hottest class, or for dust the highest figure, that every limit allows."""
    if not hazard.limits:
        return None
    if hazard.hazard is Hazard.GAS or division:
        fitting = [
            each
            for each in _classes(demands, division=division)
            if all(limit.keeps(each.max_c) for limit in hazard.limits)
        ]
        if not fitting:
            return None
        hottest = max(fitting, key=lambda each: each.max_c)
        return f"{hottest.name} or cooler ({number(hottest.max_c)} °C)"
    lowest = min(limit.maximum for limit in hazard.limits)
    figure = lowest.to_integral_value(rounding="ROUND_FLOOR")
    if not all(limit.keeps(figure) for limit in hazard.limits):
        figure -= Decimal(1)
    return f"T{number(figure)} °C or cooler"


def _classes(demands: Demands, *, division: bool) -> list[TemperatureClass]:
    return [
        each
        for each in demands.tables.rows("temperature_classes", TemperatureClass)
        if division or each.scheme is ClassScheme.BOTH
    ]


def _family(law: Law, offer: str, groups: tuple[str, ...]) -> str:
    """The marking family in words: level first, then groups."""
    if "/" in offer:
        hazard_class, _, rest = offer.partition("/")
        division, _, safe = rest.partition(" ")
        letters = f", Group{'s' if len(groups) > 1 else ''} {', '.join(groups)}" if groups else ""
        prefix = "Intrinsically safe, " if safe else ""
        return f"{prefix}Class {hazard_class}, Division {division}{letters}"
    system, level = offer.split()
    if system == "purge":
        return f"Pressurized, Type {level} (NFPA 496), outer surfaces"
    group = f", group {groups[0]}" if groups else ""
    if law is Law.ATEX:
        category = {"a": "1", "b": "2", "c": "3"}[level[1]] + level[0]
        return f"II {category} Ex, EPL {level}{group}"
    return f"{system}, EPL {level}{group}"
