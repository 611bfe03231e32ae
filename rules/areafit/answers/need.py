"""What to write into the purchase specification of a place.

Built from the demands and the tables alone, so that it can never promise what the rules then
refuse; what is not known stands among the open points.
"""

from collections.abc import Iterable, Iterator

from areafit.answers.marking_options import MarkingOption, marking_options
from areafit.answers.suiting import ExposureNeed, exposure_need
from areafit.demands import Demands, HazardDemand
from areafit.facts.groups import Group
from areafit.facts.part import Exposure
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension, limit, show_range
from areafit.findings.requires import describe
from areafit.tables.enclosures import minimum_ingress
from areafit.values import Frozen

CHEMICALS_OPEN = "The chemicals of the place are not stated, so no material can be named."


class HazardNeed(Frozen):
    """What one hazard of the place asks for. `open` lists what is not known and why.

    `ingress` names the least rating that types of protection rest on, whatever the place asks.
    """

    hazard: str
    area: tuple[str, ...]
    options: tuple[MarkingOption, ...]
    surface: str | None
    open: tuple[str, ...]
    ingress: tuple[str, ...] = ()


class Need(Frozen):
    """The purchase specification of one place: explosion protection, enclosure, materials.

    `open` lists what the place does not state; `exposures` only what was asked for.
    """

    place: str
    title: str | None
    hazards: tuple[HazardNeed, ...]
    ambient: str | None
    ingress: str | None
    document: str | None
    law: str = ""
    edition: str | None = None
    area: str | None = None
    substances: tuple[str, ...] = ()
    chemicals: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    exposures: tuple[ExposureNeed, ...] = ()


def need(demands: Demands, exposures: Iterable[Exposure] = ()) -> Need:
    """The specification for one place, with materials for the exposures asked for."""
    place = demands.place
    ambient = demands.ambient
    return Need(
        place.name,
        place.title,
        tuple(_hazard(demands, hazard) for hazard in demands.hazards),
        show_range(ambient, Dimension.TEMPERATURE) if ambient is not None else None,
        place.ingress,
        place.document,
        law=demands.law.value,
        edition=place.edition,
        area=place.area.text if place.area is not None else None,
        substances=tuple(dict.fromkeys(one.name for one in demands.substances)),
        chemicals=tuple(one.stated.name for one in demands.chemicals or ()),
        open=tuple(_open(demands)),
        exposures=tuple(exposure_need(demands, each) for each in exposures),
    )


def _open(demands: Demands) -> Iterator[str]:
    """What the place does not state; `none` is a statement."""
    place = demands.place
    if place.area is None:
        yield "The area classification is not stated."
    else:
        for problem in place.area.problems:
            yield f"The declared area cannot be relied on: {problem}."
    if place.document is None:
        yield "The document that the area was taken from is not stated."
    if demands.classified and place.substances is None:
        yield "The gases, vapours and dusts present are not stated."
    if place.ambient is None:
        yield "The air temperature of the place is not stated."
    if demands.hazard(Hazard.DUST) is not None and place.layer is None:
        yield "The dust layer to be expected is not stated."
    if place.chemicals is None:
        yield CHEMICALS_OPEN


def _hazard(demands: Demands, hazard: HazardDemand) -> HazardNeed:
    least = min(hazard.limits, key=lambda each: each.maximum, default=None)
    surface = f"{limit(least.maximum)} °C ({least.cause})" if least is not None else None
    options = marking_options(demands, hazard)
    open_points = [gap.message for gap in hazard.temperature_gaps]
    demand = hazard.group_demand(hazard.home)
    open_points += [gap.message for gap in demand.gaps] if demand is not None else []
    if not options:
        open_points.append("No marking can be named before these points are answered.")
    return HazardNeed(
        hazard.hazard.value,
        tuple(describe(area) for area in hazard.areas),
        options,
        surface,
        tuple(dict.fromkeys(open_points)),
        tuple(_least_ingress(options)),
    )


_TYPES = ("eb", "ec", "pxb", "pyb", "pzc", "ta", "tb", "tc")
_ZONE_SYSTEMS = frozenset({"NEC zone", "IEC or European"})


def _least_ingress(options: Iterable[MarkingOption]) -> Iterator[str]:
    """The rating that each type of protection rests on, for the groups asked for."""
    groups = {g for option in options if option.system in _ZONE_SYSTEMS for g in option.groups}
    dusty = any(group.startswith("III") for group in groups)
    for name in _TYPES if groups else ():
        if name.startswith("t") != dusty:
            continue
        for group in sorted(groups) if dusty else ("any",):
            row = minimum_ingress()[name, Group(group).value if dusty else group]
            yield f"{name}: {row.degree} ({row.clause})"
