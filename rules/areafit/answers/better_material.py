"""What would be better than this material where it stands: nearest first, same use."""

from collections.abc import Iterator
from itertools import islice

from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import MaterialUse
from areafit.frozen import frozen
from areafit.suggest import better
from areafit.tables.materials import Material


@frozen
class Better:
    """Materials of the same use that stand everything that this one meets.

    `suits` are the nearest; `carries_charge_away` the nearest that are no insulators either, for
    places with an explosive atmosphere. Both may be empty: the tables hold none.
    """

    material: str
    suits: tuple[Material, ...]
    carries_charge_away: tuple[Material, ...]


def better_materials(use: MaterialUse, demands: Demands, count: int = 3) -> tuple[Better, ...]:
    """One answer for each material that the name may mean; none where the name is unknown.

    A chemical without a row keeps every material from being suggested.
    """
    met = tuple(meetings(use, demands))
    mets = tuple(one for each in met for one in (*each.mets, *each.if_mist))
    if not mets or any(not each.mets for each in met):
        return tuple(Better(row.name, (), ()) for row in demands.tables.materials(use.material))
    return tuple(
        Better(
            row.name,
            tuple(islice(_found(row, mets, use, demands), count)),
            tuple(islice(_found(row, mets, use, demands, dissipative=True), count)),
        )
        for row in demands.tables.materials(use.material)
    )


def _found(
    row: Material,
    mets: tuple[Met, ...],
    use: MaterialUse,
    demands: Demands,
    *,
    dissipative: bool = False,
) -> Iterator[Material]:
    return better(row, mets, demands.tables, dissipative=dissipative, strained=use.stressed)
