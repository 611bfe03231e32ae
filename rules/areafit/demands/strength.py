"""A stated concentration as mass percent, the unit of the resistance rows."""

from decimal import Decimal

from areafit.facts.place import Concentration, ConcentrationUnit
from areafit.tables.lookup import Range
from areafit.values import Frozen

_WHOLE = Decimal(100)
_LIGHTEST = Decimal("0.6")  # kg/L, pentane and liquid ammonia
_HEAVIEST = Decimal(2)  # kg/L, oleum is 1.9
_LIGHTEST_SOLUTION = Decimal("0.85")  # kg/L, 35 % ammonia is 0.88


class Share(Frozen):
    """Mass percent; `certain` is False where the unit leaves room, since density is not stated."""

    span: Range
    certain: bool


def mass_percent(stated: Concentration) -> Share:
    """The mass percent that a statement allows.

    Volume percent and mass per volume need a density that nobody stated: they become the range
    that every density of a liquid allows, and only what holds over all of it is certain.
    """
    low, high = stated.span.low, stated.span.high
    match stated.unit:
        case ConcentrationUnit.MASS:
            return Share(Range(low, high), certain=True)
        case ConcentrationUnit.VOLUME:
            span = Range(_by_volume(low, _LIGHTEST), _by_volume(high, _HEAVIEST))
            return Share(span, certain=False)
        case ConcentrationUnit.GRAMS_PER_LITRE:
            return _per_litre(low, high)
        case _:
            return _per_litre(low / 1000, high / 1000)


def milligrams_per_litre(stated: Concentration) -> Range | None:
    """A content of dilute water in mg/L, kg of water taken as a litre; None by volume."""
    factor = {
        ConcentrationUnit.MASS: Decimal(10000),
        ConcentrationUnit.GRAMS_PER_LITRE: Decimal(1000),
        ConcentrationUnit.MILLIGRAMS_PER_LITRE: Decimal(1),
    }.get(stated.unit)
    if factor is None:
        return None
    return Range(stated.span.low * factor, stated.span.high * factor)


def _by_volume(volume: Decimal, density: Decimal) -> Decimal:
    return _WHOLE * density * volume / (density * volume + _WHOLE - volume)


def _per_litre(low: Decimal, high: Decimal) -> Share:
    """A litre of solution weighs at least 0.85 kg and at most 1 kg more than what is dissolved."""
    least = low / 10 / (1 + low / 1000)
    most = min(_WHOLE, high / 10 / _LIGHTEST_SOLUTION)
    return Share(Range(min(least, most), most), certain=False)
