"""How hot an acid and an alkali get where they meet.

The worst proportion is that which leaves neither over. Of a kg of it the equivalents, times the
heat that each gives, over the heat capacity; no heat is lost. What an acid gives with water alone
is left out of that; one that boils water by itself needs no alkali of any strength.
"""

from decimal import ROUND_HALF_UP, Decimal

from areafit.demands.demand import CorrodingChemical
from areafit.demands.exposure import mass_percent
from areafit.facts.quantity import Dimension, Range
from areafit.rule import Row
from areafit.tables.chemicals import Chemical, Neutralising, neutralising
from areafit.tables.limits import Figure, figure, figure_if_any
from areafit.values import Frozen

_STRONG = Decimal(56)  # kJ by equivalent of strong acid and strong alkali


class MixingHeat(Frozen):
    """The temperature in °C that a mixture comes to, in whole degrees, and the rows behind it.

    `by_water`: the acid boils the water of any solution, whatever the alkali in it adds.
    """

    celsius: Decimal
    rows: tuple[Row, ...]
    by_water: bool = False


def mixing_heat(
    first: tuple[Chemical, CorrodingChemical],
    second: tuple[Chemical, CorrodingChemical],
    air: Range | None,
) -> MixingHeat | None:
    """What an acid and an alkali come to; None where they are no such pair.

    Each counts at its strongest and hottest: as stated, else as it is sold and as the air is.
    """
    rows = [neutralising(chemical.id) for chemical, _ in (first, second)]
    left, right = rows
    if left is None or right is None or left.acts is right.acts:
        return None
    one, other = _equivalents(left, first[1]), _equivalents(right, second[1])
    if not one or not other:
        return None
    each = left.kj_per_equivalent + right.kj_per_equivalent - _STRONG
    capacity = figure("heat capacity of a mixture of acid and alkali")
    rise = one * other / (one + other) * each / capacity.number
    reached = _start(first[1], second[1], air) + rise
    water = [_boils_water(*each) for each in (first, second)]
    cited = (_row(left), _row(right), Row.of_figure(capacity))
    return MixingHeat(
        reached.quantize(Decimal(1), ROUND_HALF_UP),
        (*cited, *(Row.of_figure(found) for found in water if found is not None)),
        any(found is not None for found in water),
    )


def _boils_water(chemical: Chemical, listed: CorrodingChemical) -> Figure | None:
    """The strength from which its heat of dilution boils water, where it is as strong or may be."""
    limit = figure_if_any("strength from which it boils the water of a solution", chemical.id)
    stated = listed.stated.concentration
    if limit is None or stated is None:
        return limit
    reached = mass_percent(stated).span.high >= limit.amount(Dimension.FRACTION)
    return limit if reached else None


def _equivalents(row: Neutralising, listed: CorrodingChemical) -> Decimal:
    """In one kg of it as listed."""
    stated = listed.stated.concentration
    percent = row.strongest_pct if stated is None else mass_percent(stated).span.high
    return percent * 10 / row.g_per_mol * row.equivalents


def _start(first: CorrodingChemical, second: CorrodingChemical, air: Range | None) -> Decimal:
    default = figure("highest ambient where none is printed", "IEC").amount(Dimension.TEMPERATURE)
    room = default if air is None else air.high
    stated = [one.stated.temperature for one in (first, second)]
    return max(room if span is None else span.high for span in stated)


def _row(row: Neutralising) -> Row:
    return Row.of("neutralisation", row.chemical, row, f"{row.kj_per_equivalent} kJ")
