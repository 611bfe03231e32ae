"""Numbers of degrees as plates print them: `-20 °C`, `+60`, `140 °F`."""

from decimal import Decimal

from areafit.facts.quantity import Dimension, QuantityError, parse
from areafit.marking.text import Tokens
from areafit.values import Frozen

_LONGEST = 7  # characters of a number; a longer one is no temperature
HIGHEST = Decimal(1000)
_HUNDREDTH = Decimal("0.01")
_UNITS = {"c": "C", "degc": "C", "f": "F", "degf": "F"}


class Degrees(Frozen):
    """A number with the unit that stood behind it; `unit` is empty where none was printed."""

    number: str
    unit: str

    def celsius(self, rounding: str) -> Decimal | None:
        """The value in °C, None where no surface or air can have it.

        Figures in °F are rounded to a hundredth, upwards or downwards as the caller has it safe.
        """
        try:
            value = parse(f"{self.number} °{self.unit or 'C'}", Dimension.TEMPERATURE)
        except QuantityError:  # below absolute zero
            return None
        if self.unit == "F":
            value = value.quantize(_HUNDREDTH, rounding)
        return value if value <= HIGHEST else None


def read_unit(tokens: Tokens, index: int) -> tuple[str, int]:
    """The unit at `index`, `C` or `F`, and the index behind it; empty where there is none."""
    at = index
    if tokens.at(at).text == "°" or tokens.at(at).low == "deg":
        at += 1
    unit = _UNITS.get(tokens.at(at).low, "")
    if unit and tokens.at(at).text not in {"c", "f"}:
        return unit, at + 1
    return "", index


def read_degrees(tokens: Tokens, index: int) -> tuple[Degrees, int] | None:
    """A signed number with or without a unit; the sign must touch its number."""
    sign = tokens.at(index).text
    at = index + 1 if sign in {"+", "-"} else index
    number = tokens.at(at)
    if not number.is_number or len(number.text) > _LONGEST or (at > index and number.spaced):
        return None
    unit, behind = read_unit(tokens, at + 1)
    return Degrees(("-" if sign == "-" else "") + number.text, unit), behind


def read_span(tokens: Tokens, index: int) -> tuple[Degrees, Degrees, int] | None:
    """`-20..+40 °C`, `-20 °C to +60 °C`, `-20/+60`; a unit behind the second serves both."""
    first = read_degrees(tokens, index)
    if first is None:
        return None
    low, at = first
    behind = _behind_sign_of_range(tokens, at)
    second = read_degrees(tokens, behind) if behind is not None else None
    if second is None:
        return None
    high, end = second
    return Degrees(low.number, low.unit or high.unit), high, end


def _behind_sign_of_range(tokens: Tokens, index: int) -> int | None:
    """The index behind `to`, `..`, `/`, or a dash that cannot be a minus."""
    token, after = tokens.at(index), tokens.at(index + 1)
    if token.low == "up" and after.low == "to":
        return index + 2
    if token.low in {"to", "thru", "through", "/"} or token.text.startswith(".."):
        return index + 1
    if token.text == "-" and (after.text in {"+", "-"} or (token.spaced and after.spaced)):
        return index + 1
    return None
