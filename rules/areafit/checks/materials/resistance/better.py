"""Materials to name instead of one that does not stand a chemical."""

from collections.abc import Callable
from itertools import islice

from areafit.checks.materials.strain import strained
from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.levels import asked_level
from areafit.demands.meeting import Meeting
from areafit.facts.part import MaterialUse
from areafit.suggest import better, keeps_charge
from areafit.tables.ignition import light_metal_limit
from areafit.tables.materials import Material
from areafit.values import Frozen

_COUNT = 3


class Better(Frozen):
    """Names of materials that would pass; `everywhere`: in every chemical of the place."""

    names: tuple[str, ...] = ()
    everywhere: bool = True


NONE = Better()


def better_than(
    use: MaterialUse,
    material: Material,
    meeting: Meeting,
    met: tuple[Meeting, ...],
    demands: Demands,
) -> Better:
    """Materials that stand all that the use meets, else such as stand this chemical.

    Where the atmosphere may explode none is named that holds more light metal than the level
    allows, and one at least is no insulator if the tables hold such.
    """
    strain = strained(use, material)
    together = tuple(one for each in met for one in (*each.mets, *each.if_mist))
    if all(each.mets for each in met):
        names = _remembered(material, together, demands, strained=strain)
        if names:
            return Better(names)
    alone = (*meeting.mets, *meeting.if_mist)
    return Better(_remembered(material, alone, demands, strained=strain), everywhere=False)


def _remembered(
    material: Material, mets: tuple[Met, ...], demands: Demands, *, strained: bool | None
) -> tuple[str, ...]:
    levels = tuple(asked_level(demands, hazard) for hazard in demands.hazards)
    key = ("better", material.id, mets, strained, levels)
    return demands.tables.remembered(
        key, lambda: _search(material, mets, demands, strained=strained)
    )


def _search(
    material: Material, mets: tuple[Met, ...], demands: Demands, *, strained: bool | None
) -> tuple[str, ...]:
    tables, fit = demands.tables, _fit(demands)
    found = tuple(islice(better(material, mets, tables, fit, strained=strained), _COUNT))
    if demands.classified and found and all(keeps_charge(one) for one in found):
        # The chemical cure often brings the static problem: name one that cures both.
        carries = better(
            material, mets, tables, lambda x: fit(x) and not keeps_charge(x), strained=strained
        )
        found += tuple(islice(carries, 1))
    return tuple(_named(one, demands) for one in found)


def _fit(demands: Demands) -> Callable[[Material], bool]:
    """Whether a material may be named at a place: not one that brings light metal there."""
    limits = [
        light_metal_limit(asked_level(demands, hazard).value).mg_ti_zr_pct
        for hazard in demands.hazards
    ]
    if not limits:
        return lambda _material: True
    least = min(limits)
    return lambda material: (material.mg_ti_zr_pct_max or 0) <= least


def _named(material: Material, demands: Demands) -> str:
    charged = demands.classified and keeps_charge(material)
    return f"{material.name} (may keep a charge: see static-surface)" if charged else material.name
