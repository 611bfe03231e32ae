"""How fast acids and caustics take metals away, which gives their hydrogen by stoichiometry."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cache

from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.verdict import trust


class DissolvingMetal(Sourced):
    """What a family of materials gives up where it dissolves.

    Density in kg/m³, molar mass in g/mol, electrons given up by each atom.
    """

    family: str
    metal: str
    kg_m3: Decimal
    g_per_mol: Decimal
    electrons: Decimal


class CorrosionRate(Sourced):
    """The most that a chemical, by id, takes of a metal in mm a year.

    It holds for every strength up to `conc_max_pct` (mass %) and every temperature up to
    `temp_max_c`.
    """

    metal: str
    chemical: str
    conc_max_pct: Decimal
    temp_max_c: Decimal
    mm_per_year: Decimal


def dissolving(family: str) -> DissolvingMetal | None:
    """The metal that a family of materials gives up; None where the table has none."""
    return _metals().get(family)


def corrosion_rate(
    metal: str, chemical: str, percent: Decimal, celsius: Decimal
) -> CorrosionRate | None:
    """The row for a strength in mass % and a temperature in °C; None where no row reaches so far.

    Every row that holds is a bound: the best founded counts, of these the lowest.

    >>> rate = corrosion_rate("iron", "hydrochloric-acid", Decimal(3), Decimal(40))
    >>> rate.mm_per_year
    Decimal('23')
    """
    holding = (
        row
        for row in _rates().get((metal, chemical), ())
        if percent <= row.conc_max_pct and celsius <= row.temp_max_c
    )
    return min(holding, key=lambda row: (trust(row.basis), row.mm_per_year), default=None)


@cache
def _metals() -> dict[str, DissolvingMetal]:
    return {row.family: row for row in rows("dissolving_metals", DissolvingMetal)}


@cache
def _rates() -> Mapping[tuple[str, str], Sequence[CorrosionRate]]:
    found: dict[tuple[str, str], list[CorrosionRate]] = {}
    for row in rows("corrosion_rates", CorrosionRate):
        found.setdefault((row.metal, row.chemical), []).append(row)
    return found
