"""Readers of temperature classes and of maximum surface temperatures."""

from decimal import ROUND_CEILING, Decimal
from functools import cache

from areafit.facts.marking import TemperatureMark
from areafit.marking import clauses
from areafit.marking.degrees import Degrees, read_degrees, read_span, read_unit
from areafit.marking.elements import Fault, Found, Temperature, Unread
from areafit.marking.text import Tokens
from areafit.pattern import pattern
from areafit.tables.classes import TemperatureClass
from areafit.tables.load import rows

_CLASS = pattern(r"T[0-9][A-Z]?")
_FIGURE = pattern(r"T([0-9]{2,3}(?:\.[0-9]{1,3})?)(C|F)?")
_COOLEST = Decimal(10)  # °C; a lower figure is no maximum surface temperature
_TO = frozenset({"-", "to"})


@cache
def class_limits() -> dict[str, Decimal]:
    """The highest surface temperature in °C by class, Division sub-classes included."""
    return {row.name: row.max_c for row in rows("temperature_classes", TemperatureClass)}


def read_class_mark(tokens: Tokens, index: int) -> Found | None:
    """`T4`, `T3C`, `T 4`, and `T6..T4`, of which the hottest governs."""
    found = _class_name(tokens, index)
    if found is None:
        return None
    name, at = found
    then = tokens.at(at)
    if then.low in _TO or then.text.startswith(".."):
        other = _class_name(tokens, at + 1)
        if other is not None and {name, other[0]} <= class_limits().keys():
            return (
                Temperature(_mark(max(name, other[0], key=class_limits().__getitem__))),
            ), other[1]
    if name in class_limits():
        return (Temperature(_mark(name)),), at
    fault = Fault(f"There is no temperature class {name}.", clauses.TEMPERATURE)
    return (Temperature(TemperatureMark(None, name)), fault), at


def _class_name(tokens: Tokens, index: int) -> tuple[str, int] | None:
    if _CLASS.fullmatch(tokens.at(index).text):
        return tokens.at(index).text, index + 1
    number = tokens.at(index + 1).text
    if tokens.at(index).text == "T" and number in {"1", "2", "3", "4", "5", "6"}:
        apart = read_unit(tokens, index + 2)[0] == "" and tokens.at(index + 2).spaced
        return (f"T{number}", index + 2) if apart or index + 2 >= len(tokens) else None
    return None


def _mark(name: str) -> TemperatureMark:
    return TemperatureMark(class_limits()[name], name)


def read_figure(tokens: Tokens, index: int) -> Found | None:
    """`T135 °C`, `T80C`, `T 120 °C`, `100 °C`, and `T500 120 °C` for a layer of 500 mm."""
    found = _t_number(tokens, index)
    if found is None:
        plain = read_degrees(tokens, index)
        behind_sign = tokens.at(index - 1).text in {"+", "-"}
        if plain is None or not plain[0].unit or behind_sign or not tokens.at(index).is_number:
            return None  # a signed figure is no surface temperature
        return _figure(plain[0], plain[1], None)
    degrees, at = found
    if not degrees.unit:
        layered = read_degrees(tokens, at)
        if layered is not None and layered[0].unit and tokens.at(at).is_number:
            depth = Decimal(degrees.number) / 1000
            return _figure(layered[0], layered[1], depth)
        return _without_unit(degrees, at)
    return _figure(degrees, at, None)


def _without_unit(degrees: Degrees, at: int) -> Found | None:
    """`T130`: taken as °C, the hotter reading, and asked about."""
    found = _figure(degrees, at, None)
    if found is None:
        return None
    text = f"T{degrees.number}"
    why = f"{text} has no unit: a maximum surface temperature is printed in °C, {text} °C."
    return (*found[0], Unread(text, why)), found[1]


def _t_number(tokens: Tokens, index: int) -> tuple[Degrees, int] | None:
    found = _FIGURE.fullmatch(tokens.at(index).text)
    if found is not None:
        number, unit = found.groups()
        if unit:
            return Degrees(number, unit), index + 1
        unit, at = read_unit(tokens, index + 1)
        return Degrees(number, unit), at
    if tokens.at(index).text == "T" and tokens.at(index + 1).is_number:
        figure = read_degrees(tokens, index + 1)
        return figure if figure is not None and figure[0].unit else None
    return None


def _figure(degrees: Degrees, at: int, layer: Decimal | None) -> Found | None:
    value = degrees.celsius(ROUND_CEILING)
    if value is None or value < _COOLEST:
        return None
    return (Temperature(TemperatureMark(value, layer=layer)),), at


def read_unlabelled_span(tokens: Tokens, index: int) -> Found | None:
    """`-20 °C to +40 °C` with no `Ta`: nobody says what it is the temperature of."""
    span = read_span(tokens, index)
    if span is None or not span[1].unit:
        return None
    return (Unread(tokens.between(index, span[2])),), span[2]
