"""Temperatures: classes, figures and ambient ranges as plates print them, and which go together."""

import re
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import cache

from areafit.facts.marking import TemperatureMark
from areafit.facts.quantity import Dimension, QuantityError, parse
from areafit.marking import clauses
from areafit.marking.tokens import Tokens
from areafit.marking.words import (
    Ambient,
    BareSpan,
    Fault,
    Found,
    Temperature,
    Unread,
    glued_dash,
)
from areafit.pattern import pattern
from areafit.tables.area import ClassScheme, TemperatureClass
from areafit.tables.load import rows
from areafit.values import Frozen

_LONGEST = 7  # characters of a number; a longer one is no temperature
_HIGHEST = Decimal(1000)
_HUNDREDTH = Decimal("0.01")
_UNITS = {"c": "C", "degc": "C", "celsius": "C", "f": "F", "degf": "F", "fahrenheit": "F"}
_DEGREE = frozenset({"°", "deg", "degree", "degrees"})


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
        return value if value <= _HIGHEST else None


def _read_unit(tokens: Tokens, index: int) -> tuple[str, int]:
    """The unit at `index`, `C` or `F`, and the index behind it; empty where there is none."""
    at = index
    if tokens.at(at).low in _DEGREE:
        at += 1 + (tokens.at(at + 1).text == ".")
    if tokens.at(at).text in {"oC", "OC"}:  # a raised letter o for the degree sign
        return "C", at + 1
    unit = _UNITS.get(tokens.at(at).low, "")
    if unit and tokens.at(at).text not in {"c", "f"}:
        return unit, at + 1 + (at == index and tokens.at(at + 1).text == "°")
    return "", index


def read_degrees(tokens: Tokens, index: int, *, apart: bool = False) -> tuple[Degrees, int] | None:
    """A signed number with or without a unit; the sign touches it, or stands `apart`."""
    sign = tokens.at(index).text
    at = index + 1 if sign in {"+", "-"} else index
    number = tokens.at(at)
    if (
        not number.is_number
        or len(number.text) > _LONGEST
        or (at > index and number.spaced and not apart)
    ):
        return None
    unit, behind = _read_unit(tokens, at + 1)
    return Degrees(("-" if sign == "-" else "") + number.text, unit), behind


def read_span(tokens: Tokens, index: int) -> tuple[Degrees, Degrees, int] | None:
    """`-20..+40 °C`, `-20 °C to +60 °C`, `-20/+60`; a unit behind one serves both."""
    index += tokens.at(index).low in _FROM
    # `- 20 to + 60 °C`: both signs stand apart, so the first is no dash between words.
    apart = tokens.at(index).text == "-" and tokens.at(index + 1).spaced
    first = read_degrees(tokens, index, apart=apart)
    if first is None:
        return None
    low, at = first
    behind = _behind_sign_of_range(tokens, at) or _behind_tie(tokens, low, at)
    second = read_degrees(tokens, behind, apart=apart) if behind is not None else None
    if second is None or (apart and tokens.at(behind or 0).text != "+"):
        return None
    high, end = second
    unit = low.unit or high.unit
    return Degrees(low.number, unit), Degrees(high.number, high.unit or unit), end


_FROM = frozenset({"from", "von", "de", "da"})
_UNTIL = frozenset({"to", "thru", "through", "till", "bis", "à", "a", "hasta", "/"})


def _behind_sign_of_range(tokens: Tokens, index: int) -> int | None:
    """The index behind `to`, `..`, `/`, or a dash that cannot be a minus."""
    token, after = tokens.at(index), tokens.at(index + 1)
    if token.low == "up" and after.low == "to":
        return index + 2
    if token.low in _UNTIL or token.text.startswith(".."):
        return index + 1
    if token.text == "+":
        return index  # `-20°C +40°C`, `-20+40`
    if token.text == "-" and (after.text in {"+", "-"} or (token.spaced and after.spaced)):
        return index + 1
    return None


def _behind_tie(tokens: Tokens, low: Degrees, index: int) -> int | None:
    """The index behind the dash of `0-50 °C`: it ties two numbers that rise, and is no minus."""
    dash, after = tokens.at(index), tokens.at(index + 1)
    if dash.text != "-" or dash.spaced or after.spaced or not after.is_number:
        return None
    rises = "-" not in low.number and Decimal(low.number) < Decimal(after.text)
    return index + 1 if rises and not low.unit else None


_CLASS = pattern(r"T[0-9][A-Z]?|t[1-6][a-d]?")
_FIGURE = pattern(r"T((?:[25]00)?[0-9]{2,3}(?:\.[0-9]{1,3})?)(C|F)?")
_LAYERED = pattern(r"([25]00)([0-9]{2,3})")  # `T₂₀₀ 85 °C` as copied: T20085 °C
# °C; surfaces are not cooler than the air of the standard, so `11C` is a misprinted IIC.
_COOLEST = Decimal(40)
_TO = frozenset({"-", "to", "bis", "à", "a", "hasta"})
_OR = frozenset({"/", ",", "or", "oder", "ou", "o"})


@cache
def class_limits() -> dict[str, Decimal]:
    """The highest surface temperature in °C by class, Division sub-classes included."""
    return {row.name: row.max_c for row in rows("temperature_classes", TemperatureClass)}


@cache
def zone_classes() -> frozenset[str]:
    """The classes that zone and Ex codes know."""
    table = rows("temperature_classes", TemperatureClass)
    return frozenset(row.name for row in table if row.scheme is ClassScheme.BOTH)


def read_one_class(tokens: Tokens, index: int) -> Found | None:
    """`T4` of a place, which has one limit."""
    return _class(tokens, index, listed=False)


def read_class_mark(tokens: Tokens, index: int) -> Found | None:
    """`T4`, `T3C`, `T 4`, and `T6..T4`, `T6/T5/T4`, `T6, T5 or T4`: the hottest governs.

    Which class holds when is then told elsewhere than on the plate.
    """
    return _class(tokens, index, listed=True)


def _class(tokens: Tokens, index: int, *, listed: bool) -> Found | None:
    text = tokens.at(index).text
    if text in {"TX", "Tx"} or (text == "T" and tokens.at(index + 1).text == "*"):
        at = index + 1 + (text == "T")
        why = (
            f"{tokens.between(index, at)} leaves the temperature to the instructions; write what "
            "they give for this use, such as T4 or T135 °C."
        )
        return (Unread("TX", why),), at
    found = _class_name(tokens, index)
    if found is None:
        return None
    name, at = found
    while listed and name in class_limits() and (other := _other_class(tokens, at)) is not None:
        name, at = max(name, other[0], key=class_limits().__getitem__), other[1]
    if name in class_limits():
        return (Temperature(_mark(name)),), at
    fault = Fault(f"There is no temperature class {name}.", clauses.TEMPERATURE)
    return (Temperature(TemperatureMark(None, name)), fault), at


def _other_class(tokens: Tokens, index: int) -> tuple[str, int] | None:
    """The next class of a range or a list, with the index behind it."""
    while tokens.at(index).low in _TO | _OR or tokens.at(index).text.startswith(".."):
        index += 1
        other = _class_name(tokens, index)
        if other is not None:
            return other if other[0] in class_limits() else None
    return None


def _class_name(tokens: Tokens, index: int) -> tuple[str, int] | None:
    if _CLASS.fullmatch(tokens.at(index).text):
        return tokens.at(index).text.upper(), index + 1
    at = index + 1 + glued_dash(tokens, index + 1)
    name = "T" + tokens.at(at).text
    if tokens.at(index).text == "T" and name in zone_classes():
        after = tokens.at(at + 1)
        apart = _read_unit(tokens, at + 1)[0] == "" and (after.spaced or after.text in {",", ";"})
        return (name, at + 1) if apart or at + 1 >= len(tokens) else None
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
        return _figure(plain[0], plain[1], None, tokens.between(index, plain[1]))
    degrees, at = found
    run = _LAYERED.fullmatch(degrees.number)
    if run is not None and degrees.unit:  # the depth is printed lower than the line
        return _figure(Degrees(run[2], degrees.unit), at, Decimal(run[1]) / 1000)
    if not degrees.unit:
        layered = read_degrees(tokens, at)
        if layered is not None and layered[0].unit and tokens.at(at).is_number:
            depth = Decimal(degrees.number) / 1000
            return _figure(layered[0], layered[1], depth)
        return _without_unit(tokens, degrees, at)
    while (hotter := _hotter(tokens, at)) is not None and hotter[0].unit == degrees.unit:
        at = hotter[1]
        degrees = max(degrees, hotter[0], key=lambda each: Decimal(each.number))
    return _figure(degrees, at, None)


def _hotter(tokens: Tokens, index: int) -> tuple[Degrees, int] | None:
    """The next figure of `T80 °C...T110 °C`, `T80 °C, T95 °C`."""
    sign = tokens.at(index)
    ranged = sign.low in _TO | _OR or sign.text.startswith("..")
    found = _t_number(tokens, index + 1) if ranged else None
    return found if found and found[0].unit else None


def _without_unit(tokens: Tokens, degrees: Degrees, at: int) -> Found | None:
    """`T130`: taken as °C, the hotter reading, and asked about; not where a sign touches it."""
    found = _figure(degrees, at, None)
    after = tokens.at(at)
    if found is None or (not after.spaced and after.text not in {"", *",;/()."}):
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
        unit, at = _read_unit(tokens, index + 1)
        return Degrees(number, unit), at
    if tokens.at(index).text == "T" and tokens.at(index + 1).is_number:
        figure = read_degrees(tokens, index + 1)
        return figure if figure is not None and figure[0].unit else None
    return None


def _figure(degrees: Degrees, at: int, layer: Decimal | None, plain: str = "") -> Found | None:
    value = degrees.celsius(ROUND_CEILING)
    if value is None or value < _COOLEST:
        return None
    return (Temperature(TemperatureMark(value, layer=layer), plain),), at


def read_unlabelled_span(tokens: Tokens, index: int) -> Found | None:
    """`-20 °C to +40 °C` with no `Ta`: nobody says what it is the temperature of."""
    span = read_span(tokens, index)
    if span is None or not span[1].unit:
        return None
    return (Unread(tokens.between(index, span[2])),), span[2]


def read_bare_span(tokens: Tokens, index: int) -> Found | None:
    """The same on a plate, and `@ 40 °C` behind a class: what stands around it decides."""
    leading = tokens.at(index).low in _AT
    span = read_span(tokens, index + leading)
    single = read_degrees(tokens, index + leading) if leading else None
    if span is not None and span[1].unit:
        low, high, at = span
    elif single is not None and single[0].unit:
        low, (high, at) = None, single
    else:
        return None
    found = _range(low, high, at)
    text = tokens.between(index, at)
    if found is None or not isinstance(found[0][0], Ambient):
        return (Unread(text),), at
    return (BareSpan(text, found[0][0], at=leading),), at


# `Tu` is the German sign; the words of five languages.
_LABEL = pattern(
    r"(?:(?:max(?:imum\b|\b\.?)|zul(?:ässige|\.)) ?)?(?:T°? ?[. -]?(?:a(?:mb)?|u(?:mg)?)\b\.?"
    r"|amb(?:ient)?\b\.?(?: temp(?:erature)?\b\.?)?(?: range\b)?"
    r"|umgebungstemp(?:eratur(?:bereich)?\b|\b\.?)"
    r"|temp(?:[ée]rature?|eratura|\.)? ?amb(?:i[ae]nt[ea]\b|\b\.?))",
    re.IGNORECASE,
)
_AT = frozenset({"@", "at", "for"})
_LESS = frozenset({"<=", "<", "=<"})
_MORE = frozenset({">=", ">", "=>"})
_UP_TO = frozenset({"max", "to", "up", "bis"})


def read_ambient(tokens: Tokens, index: int) -> Found | None:
    """The ambient range in any spelling; a single figure is the upper end."""
    leading = tokens.at(index).low in _AT
    label = tokens.phrase(index + leading, _LABEL)
    if label is not None:
        return _behind(tokens, label)
    return _around(tokens, index) or _before(tokens, index, leading=leading)


def _behind(tokens: Tokens, index: int) -> Found | None:
    """What follows the label."""
    at = index
    while tokens.at(at).text in {"=", ":"}:
        at += 1
    span = read_span(tokens, at)
    if span is not None:
        return _range(*span)
    around = _around(tokens, at)
    if around is not None:
        return around
    sign = tokens.at(at)
    if sign.text in _LESS or sign.low in _UP_TO:
        at += 2 if sign.low == "up" and tokens.at(at + 1).low == "to" else 1
        while tokens.at(at).text in {".", "=", ":"}:
            at += 1
        high = read_degrees(tokens, at)
        return _range(None, *high) if high else None
    if sign.text in _MORE or sign.low == "min":
        low = read_degrees(tokens, at + 1)
        return _range(low[0], None, low[1]) if low else None
    single = read_degrees(tokens, at)
    if single is None or single[0].number.startswith("-"):
        return None  # `Ta -20` alone: lower or upper end, nobody can tell
    behind = single[1] + (tokens.at(single[1]).low == "max")
    return _range(None, single[0], behind)


def _around(tokens: Tokens, index: int) -> Found | None:
    """`-20 °C ≤ Ta ≤ +60 °C`, or either half of it; `+60 °C ≥ Ta ≥ -20 °C`."""
    first = read_degrees(tokens, index)
    if first is None or tokens.at(first[1]).text not in _LESS | _MORE:
        return None
    rises = tokens.at(first[1]).text in _LESS
    label = tokens.phrase(first[1] + 1, _LABEL)
    if label is None:
        return None
    signs = _LESS if rises else _MORE
    second = read_degrees(tokens, label + 1) if tokens.at(label).text in signs else None
    if second is None:
        return _range(first[0], None, label) if rises else _range(None, first[0], label)
    other, at = second
    unit = first[0].unit or other.unit
    one, other = Degrees(first[0].number, unit), Degrees(other.number, other.unit or unit)
    return _range(one, other, at) if rises else _range(other, one, at)


def _before(tokens: Tokens, index: int, *, leading: bool) -> Found | None:
    """`-40 °C to +60 °C ambient`, `60 °C max. ambient`, `at 60 °C ambient`."""
    start = index + leading
    span = read_span(tokens, start)
    single = read_degrees(tokens, start)
    if span is None and (single is None or not single[0].unit or single[0].number[0] == "-"):
        return None
    low, high, at = span or (None, *single) if single else (None, None, 0)
    label = tokens.phrase(at, _LABEL)
    if label is None or _goes_on(tokens, label):
        return None
    return _range(low, high, label)


def _goes_on(tokens: Tokens, index: int) -> bool:
    """Whether figures follow, so that the label belongs to them."""
    index += tokens.at(index).text == "("
    word = tokens.at(index)
    return word.is_number or word.low in {
        "=",
        ":",
        "+",
        "-",
        "min",
        "from",
        *_UP_TO,
        *_LESS,
        *_MORE,
    }


def _range(low: Degrees | None, high: Degrees | None, at: int) -> Found | None:
    low_value = low.celsius(ROUND_CEILING) if low else None
    high_value = high.celsius(ROUND_FLOOR) if high else None
    if (low and low_value is None) or (high and high_value is None):
        return None
    mark = Ambient(low_value, high_value)
    if low_value is not None and high_value is not None and low_value > high_value:
        text = f"The ambient range {low_value} to {high_value} °C runs downwards."
        return (Fault(text, clauses.AMBIENT),), at
    return (mark,), at
