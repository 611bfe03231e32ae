"""How sums, margins and lengths of a circuit are reckoned and written."""

from decimal import ROUND_DOWN, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal

from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, show

# A value per foot does not end as a decimal per metre. Rounding sums to 24 of the 28 digits that
# were reckoned makes 1000 ft of 60 pF/ft exactly 60 nF again, so that equality means equality.
_SETTLED = Context(prec=24)
_TENTH = Decimal("0.1")
_FOOT = Decimal("0.3048")


def settled(value: Decimal) -> Decimal:
    """The value without the last digits that conversions leave behind."""
    return _SETTLED.plus(value)


def margin(value: Decimal, limit: Decimal) -> str:
    """How far the value stays below the limit or exceeds it, in percent of the limit.

    A margin is rounded down, so that none is shown that is not there; an excess to the nearest.
    """
    if limit.is_infinite():
        return "no limit"
    if limit == 0:
        return "no margin" if value == 0 else "over a limit of zero"
    percent = (limit - value) * 100 / limit
    if value <= limit:
        return f"margin {percent.quantize(_TENTH, ROUND_FLOOR)} %"
    if -percent < _TENTH:
        return "over by less than 0.1 %"
    return f"over by {-percent.quantize(_TENTH, ROUND_HALF_EVEN)} %"


def amount(value: Decimal | None, dimension: Dimension) -> str:
    """A stated value as a finding shows it; an infinite limit is one that was stated as `none`."""
    if value is None:
        return "not stated"
    return "none" if value.is_infinite() else show(value, dimension)


def share(value: Decimal, limit: Decimal) -> str:
    """The value in percent of the limit."""
    if limit == 0:
        return "of a limit of zero"
    return f"{(value * 100 / limit):.3g} %"


def length_text(metres: Decimal, law: Law | None) -> str:
    """A length rounded down, in feet as well where the NEC governs."""
    text = show(_down(metres), Dimension.LENGTH)
    return f"{text} ({_down(metres / _FOOT)} ft)" if law is Law.NEC else text


def _down(value: Decimal) -> Decimal:
    step = Decimal(1) if value >= 10 else Decimal("0.1")
    return value.quantize(step, ROUND_DOWN)
