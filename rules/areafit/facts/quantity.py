"""Physical quantities with their units: the one place where unit text becomes a number.

The list of units is closed and every conversion is exact decimal arithmetic, so that equality
with a limit means equality. Factors are the SI definitions (SI brochure, 9th edition) and the
international foot and inch (0.3048 m and 25.4 mm exactly, NIST SP 811, 2008, B.8).
"""

from decimal import ROUND_FLOOR, Decimal
from functools import lru_cache

from areafit.pattern import pattern
from areafit.values import Frozen, Term


class Dimension(Term):
    """A kind of quantity and the unit that its numbers are kept in."""

    TEMPERATURE = "°C"
    LENGTH = "m"
    AREA = "m²"
    SPEED = "m/s"
    ENERGY = "J"
    MASS = "kg"
    PRESSURE = "Pa"
    CHARGE = "C"
    VOLTAGE = "V"
    CURRENT = "A"
    POWER = "W"
    CAPACITANCE = "F"
    INDUCTANCE = "H"
    RESISTANCE = "Ω"
    CAPACITANCE_PER_LENGTH = "F/m"
    INDUCTANCE_PER_LENGTH = "H/m"
    RESISTANCE_PER_LENGTH = "Ω/m"
    INDUCTANCE_PER_RESISTANCE = "H/Ω"
    FRACTION = "%"
    INTENSITY = "W/m²"
    TIME = "s"
    VOLUME_FLOW = "m³/h"


class QuantityError(ValueError):
    """A quantity that cannot be read; the message says what is wrong and what serves."""


_PREFIX = {
    "p": Decimal("1E-12"),
    "n": Decimal("1E-9"),
    "µ": Decimal("1E-6"),
    "m": Decimal("1E-3"),
    "": Decimal(1),
    "k": Decimal("1E3"),
    "M": Decimal("1E6"),
    "G": Decimal("1E9"),
}
_METRE = {
    "m": Decimal(1),
    "dm": Decimal("0.1"),
    "cm": Decimal("0.01"),
    "mm": Decimal("0.001"),
    "µm": Decimal("1E-6"),
    "km": Decimal(1000),
    "ft": Decimal("0.3048"),
    "in": Decimal("0.0254"),
}


def _prefixed(unit: str, prefixes: str) -> dict[str, Decimal]:
    return {p + unit: _PREFIX[p] for p in [*prefixes, ""]}


def _per_length(units: dict[str, Decimal]) -> dict[str, Decimal]:
    return {
        f"{unit}/{length}": factor / _METRE[length]
        for unit, factor in units.items()
        for length in ("m", "km", "ft")
    }


_FARAD = _prefixed("F", "pnµm")
_HENRY = _prefixed("H", "nµm")
_OHM = _prefixed("Ω", "mkMG")
_UNITS: dict[Dimension, dict[str, Decimal]] = {
    Dimension.LENGTH: _METRE,
    Dimension.AREA: {f"{unit}²": f * f for unit, f in _METRE.items() if unit in "cm mm dm in ft m"},
    Dimension.SPEED: {
        "m/s": Decimal(1),
        "mm/s": Decimal("0.001"),
        "m/min": Decimal(1) / 60,
        "ft/s": _METRE["ft"],
        "ft/min": _METRE["ft"] / 60,
    },
    Dimension.ENERGY: _prefixed("J", "µmk"),
    Dimension.MASS: {"kg": Decimal(1), "g": Decimal("0.001"), "lb": Decimal("0.45359237")},
    Dimension.PRESSURE: {
        "Pa": Decimal(1),
        "kPa": Decimal(1000),
        "MPa": Decimal("1E6"),
        "mbar": Decimal(100),
        "bar": Decimal("1E5"),
        "psi": Decimal("6894.757293168"),
    },
    Dimension.CHARGE: {f"{p}C": _PREFIX[p] for p in "pnµ"},
    Dimension.VOLTAGE: _prefixed("V", "mk"),
    Dimension.CURRENT: _prefixed("A", "µm"),
    Dimension.POWER: _prefixed("W", "µmk"),
    Dimension.CAPACITANCE: _FARAD,
    Dimension.INDUCTANCE: _HENRY,
    Dimension.RESISTANCE: _OHM,
    Dimension.CAPACITANCE_PER_LENGTH: _per_length(_FARAD),
    Dimension.INDUCTANCE_PER_LENGTH: _per_length(_HENRY),
    Dimension.RESISTANCE_PER_LENGTH: _per_length(_OHM),
    Dimension.INDUCTANCE_PER_RESISTANCE: {f"{unit}/Ω": f for unit, f in _HENRY.items()},
    Dimension.FRACTION: {"%": Decimal(1), "% w/w": Decimal(1)},
    Dimension.INTENSITY: {
        f"{p}W/{length}²": _PREFIX[p] / _METRE[length] ** 2
        for p in ("", "m")
        for length in ("m", "cm", "mm")
    },
    Dimension.VOLUME_FLOW: {
        "m³/h": Decimal(1),
        "m³/min": Decimal(60),
        "m³/s": Decimal(3600),
        "L/s": Decimal("3.6"),
        "L/min": Decimal("0.06"),
        "ft³/min": _METRE["ft"] ** 3 * 60,
    },
    Dimension.TIME: {"s": Decimal(1), "ms": Decimal("0.001"), "min": Decimal(60)},
}
_SQUARED = frozenset({Dimension.AREA, Dimension.INTENSITY})
_SERVE = {Dimension.TEMPERATURE: "°C, °F or K"}
_SPELLINGS = (("Ohms", "Ω"), ("ohms", "Ω"), ("Ohm", "Ω"), ("ohm", "Ω"), ("\u2126", "Ω"))
_FEW = {  # where all would be too many to read
    Dimension.CAPACITANCE_PER_LENGTH: "pF/m, nF/km or pF/ft",
    Dimension.INDUCTANCE_PER_LENGTH: "µH/m, mH/km or µH/ft",
    Dimension.RESISTANCE_PER_LENGTH: "mΩ/m, Ω/km or mΩ/ft",
}
_NUMBER = r"[+-]?(?:\d{1,15}(?:\.\d{1,12})?|\.\d{1,12})(?:[eE][+-]?\d{1,2})?"
_ONE = pattern(rf"\s*({_NUMBER})\s*(.*?)\s*")
_DASHED = pattern(rf"\s*({_NUMBER})\s*([^\d\s-]*)\s*[-–—]\s*({_NUMBER})\s*(.*?)\s*")
_SEVERAL = pattern(r".*\s[+-]?\d.*")
_SPAN = pattern(rf"\s*({_NUMBER})\s*(.*?)\s*(?:\.\.\.?|…|\bto\b)\s*({_NUMBER})\s*(.*?)\s*")

_QUOTES = "\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"
_COMMA = pattern(r"(\d),(\d)")
_UNTIL = pattern(
    rf"\s*({_NUMBER}\s*[^\d\s]*)\s+(?:bis|bis zu|à|hasta|a|tot|till|until|through)\s+"
    rf"({_NUMBER})\s*(.*?)\s*"
)


class Range(Frozen):
    """A closed range of one quantity, lowest and highest value in the dimension's own unit."""

    low: Decimal
    high: Decimal

    @staticmethod
    def of(low: Decimal, high: Decimal | None = None) -> "Range":
        """A range from `low` to `high`, or the single value `low`.

        Raises:
            ValueError: the ends are reversed.
        """
        top = low if high is None else high
        if top < low:
            raise ValueError(f"the range {low}..{top} runs backwards")
        return Range(low, top)

    def within(self, other: "Range") -> bool:
        """Whether every value of this range lies inside `other`, ends included."""
        return other.low <= self.low and self.high <= other.high

    def common(self, other: "Range") -> "Range | None":
        """The values that both ranges hold, or None where they do not meet."""
        low, high = max(self.low, other.low), min(self.high, other.high)
        return Range(low, high) if low <= high else None


def units(dimension: Dimension) -> str:
    """The units that serve for a dimension, as a message lists them."""
    return _SERVE.get(dimension) or ", ".join(_UNITS[dimension])


def _few_units(dimension: Dimension) -> str:
    """The usual units that serve for a dimension, as a mistake is answered."""
    return _FEW.get(dimension) or f"one of {units(dimension)}"


def parse(text: str, dimension: Dimension) -> Decimal:
    """Read one quantity, `45 °C` or `0.65 µF`, into the dimension's own unit.

    Raises:
        QuantityError: no number, no unit, or a unit of something else.

    >>> parse("113 °F", Dimension.TEMPERATURE)
    Decimal('45')
    """
    return _parse(text, dimension)


@lru_cache(maxsize=4096)
def _parse(text: str, dimension: Dimension) -> Decimal:
    _refuse_mistyped(text)
    found = _ONE.fullmatch(_plain(text))
    if found is None:
        raise QuantityError(f"{text!r} is not a number with a unit; write {_few_units(dimension)}")
    number, unit = found.groups()
    return _convert(number, unit, dimension, text)


def parse_range(text: str, dimension: Dimension) -> Range:
    """Read a quantity or a range of it, `5..40 °C`, `-20 °C to 40 °C`, into a closed range.

    Raises:
        QuantityError: as for `parse`, or the lower end stands above the upper one.

    >>> parse_range("5..40 °C", Dimension.TEMPERATURE)
    Range(low=Decimal('5'), high=Decimal('40'))
    """
    return _parse_range(text, dimension)


@lru_cache(maxsize=4096)
def _parse_range(text: str, dimension: Dimension) -> Range:
    _refuse_mistyped(text)
    found = _SPAN.fullmatch(_plain(text))
    if found is None:
        value = parse(text, dimension)
        return Range(value, value)
    low_text, low_unit, high_text, high_unit = found.groups()
    low = _convert(low_text, low_unit or high_unit, dimension, text)
    high = _convert(high_text, high_unit, dimension, text)
    if low > high:
        raise QuantityError(f"the range {text!r} runs downwards; write the lower value first")
    return Range(low, high)


def _plain(text: str) -> str:
    """The text with one spelling for minus, micro and ohm."""
    text = text.replace("\u2212", "-").replace("\u03bc", "µ").replace("\u00a0", " ")
    for spelling, sign in _SPELLINGS:
        text = text.replace(spelling, sign)
    return text


def _convert(number: str, unit: str, dimension: Dimension, text: str) -> Decimal:
    if not unit:
        raise QuantityError(f"{text!r} has no unit; write {_few_units(dimension)}")
    _refuse_several(unit, dimension, text)
    value = Decimal(number)
    if dimension is Dimension.TEMPERATURE:
        return _celsius(value, unit, text)
    if unit.endswith("2") and dimension in _SQUARED:
        unit = unit[:-1].removesuffix("^") + "²"
    if dimension is Dimension.VOLUME_FLOW:
        unit = unit.replace("^", "").replace("3/", "³/").replace("l/", "L/")
    if unit.startswith("u"):
        unit = "µ" + unit[1:]
    factor = _UNITS[dimension].get(unit)
    if factor is None:
        what = dimension.name.lower().replace("_", " ")
        message = f"{unit!r} in {text!r} is no unit of {what}"
        raise QuantityError(f"{message}; write {_few_units(dimension)}")
    return value * factor


def _refuse_mistyped(text: str) -> None:
    """Raise for what other languages and word processors write, with what is meant."""
    plain = _plain(text)
    bare = plain.strip(_QUOTES + " ")
    if bare != plain.strip():
        raise QuantityError(f"{text!r} stands in typographic quotes; write {bare}")
    if _COMMA.search(plain):
        meant = _COMMA.sub(r"\1.\2", plain)
        raise QuantityError(
            f"{text!r} has a comma in a number; write {meant}, and thousands without a sign"
        )
    until = _UNTIL.fullmatch(plain)
    if until is not None:
        low, high, unit = until.groups()
        raise QuantityError(f"{text!r} is no range; write {low.strip()}..{high} {unit}".rstrip())


def _refuse_several(unit: str, dimension: Dimension, text: str) -> None:
    """Raise for what holds more numbers than one: a range with a dash, values without a comma."""
    dashed = _DASHED.fullmatch(_plain(text))
    if dashed is not None:
        low, low_unit, high, high_unit = dashed.groups()
        shown = high_unit or low_unit or dimension.value
        raise QuantityError(f"{text!r} is no range; write {low}..{high} {shown}")
    if _SEVERAL.fullmatch(unit):
        raise QuantityError(f"{unit!r} in {text!r} is no unit; separate values by commas")


def _celsius(value: Decimal, unit: str, text: str) -> Decimal:
    match unit.replace(" ", ""):
        case "°C" | "C" | "℃" | "degC":
            celsius = value
        case "°F" | "F" | "℉" | "degF":
            celsius = (value - 32) * 5 / 9
        case "K":
            celsius = value - Decimal("273.15")
        case _:
            raise QuantityError(f"{unit!r} in {text!r} is no temperature unit; write °C, °F or K")
    if celsius < Decimal("-273.15"):
        raise QuantityError(f"{text!r} lies below absolute zero")
    return celsius


_SHOWN_PREFIX = (("G", 9), ("M", 6), ("k", 3), ("", 0), ("m", -3), ("µ", -6), ("n", -9), ("p", -12))
_STATED = -2  # who states a limit writes no more digits than these
_PREFIXED = {"V", "A", "W", "F", "H", "Ω", "J", "C", "Pa", "F/m", "H/m", "Ω/m", "H/Ω"}


def show(value: Decimal, dimension: Dimension) -> str:  # noqa: PLR0911 - by dimension
    """The quantity as a person writes it: `75 °C`, `83 nF`, `80 cm²`; six digits at most."""
    unit = dimension.value
    if dimension is Dimension.TEMPERATURE:
        return f"{degrees(value)} °C"
    if dimension is Dimension.AREA:
        return f"{number(value * 10000)} cm²"
    if dimension is Dimension.INTENSITY:
        return f"{number(value / 1000)} mW/mm²"
    if dimension is Dimension.LENGTH and abs(value) < 1:
        return f"{number(value * 1000)} mm"
    if unit not in _PREFIXED or value == 0:
        return f"{number(value)} {unit}"
    for prefix, power in _SHOWN_PREFIX:
        if abs(value) >= Decimal(1).scaleb(power):
            return f"{number(value.scaleb(-power))} {prefix}{unit}"
    return f"{number(value.scaleb(12))} p{unit}"


def show_range(span: Range, dimension: Dimension) -> str:
    """The range as a person writes it: `-20..40 °C`."""
    if span.low == span.high:
        return show(span.low, dimension)
    if dimension is Dimension.TEMPERATURE:
        return f"{degrees(span.low)}..{degrees(span.high)} °C"
    if dimension is Dimension.FRACTION:
        return f"{number(span.low)}..{number(span.high)} {dimension.value}"
    return f"{show(span.low, dimension)} to {show(span.high, dimension)}"


def degrees(value: Decimal) -> str:
    """A temperature in °C as a person reads it; one that was converted to two digits at most.

    >>> degrees((Decimal(60) - 32) * 5 / 9)
    '15.56'
    """
    exponent = value.as_tuple().exponent
    converted = isinstance(exponent, int) and exponent < _STATED
    return number(round(value, -_STATED) if converted else value)


def limit(value: Decimal) -> str:
    """An upper limit as a person writes it; one that was computed, with many digits, rounded down.

    >>> limit(Decimal(380) * 2 / 3)
    '253'
    """
    exponent = value.normalize().as_tuple().exponent
    computed = isinstance(exponent, int) and exponent < _STATED
    return number(value.to_integral_value(ROUND_FLOOR) if computed else value)


@lru_cache(maxsize=4096)  # the same few limits stand in thousands of sentences
def number(value: Decimal) -> str:
    """A decimal without exponent or trailing zeros, rounded to six digits."""
    rounded = +value if value == 0 else value.normalize()
    if len(rounded.as_tuple().digits) > 6:
        rounded = Decimal(f"{rounded:.6g}").normalize()
    return f"{rounded:f}" if rounded else "0"
