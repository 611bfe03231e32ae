"""The demands of a place in the words of a purchase specification."""

from collections.abc import Mapping

from areafit.demands import Demands, HazardDemand
from areafit.facts.groups import Group
from areafit.facts.place import Area, AreaSystem
from areafit.facts.quantity import Dimension, show_range


def requires(demands: Demands) -> Mapping[str, object]:
    """What every part at the place must meet, as plain values for reports.

    Keys: `hazards` (one mapping each with area, groups by scheme, highest surface temperature in
    °C and what is not known), `ambient`, `ingress`, `chemicals`.
    """
    place = demands.place
    return {
        "hazards": [_hazard(demand) for demand in demands.hazards],
        "ambient": _range(demands),
        "ingress": place.ingress,
        "chemicals": None
        if demands.chemicals is None
        else [chemical.stated.name for chemical in demands.chemicals],
        "document": place.document,
    }


def _hazard(demand: HazardDemand) -> Mapping[str, object]:
    limit = min(demand.limits, key=lambda each: each.maximum, default=None)
    gaps = [gap.message for group in demand.groups for gap in group.gaps if group.needs]
    return {
        "hazard": demand.hazard.value,
        "area": [describe(area) for area in demand.areas],
        "groups": {
            each.scheme.value: _letters({need.group for need in each.needs})
            for each in demand.groups
            if each.needs
        },
        "surface_below_c": None if limit is None else limit.maximum,
        "surface_because": None if limit is None else limit.cause,
        "open": list(dict.fromkeys(gaps + [gap.message for gap in demand.temperature_gaps])),
    }


def _letters(groups: set[Group]) -> list[str]:
    return sorted(group.value for group in groups)


def _range(demands: Demands) -> str | None:
    if demands.ambient is None:
        return None
    return show_range(demands.ambient, Dimension.TEMPERATURE)


def describe(area: Area) -> str:
    """The declared area in one spelling."""
    match area.system:
        case AreaSystem.UNCLASSIFIED:
            return "unclassified"
        case AreaSystem.DIVISION:
            words = [f"Class {area.hazard_class}", f"Division {area.division}"]
            letters = _letters(set(area.groups))
            if letters:
                words.append(f"Group{'s' if len(letters) > 1 else ''} {', '.join(letters)}")
        case AreaSystem.ZONE:
            words = [f"Zone {area.zone}", *_letters(set(area.groups))]
    if area.temperature_class is not None:
        words.append(area.temperature_class)
    return ", ".join(words)
