"""Temperatures: classes, figures and ambient ranges as plates print them, and which go together."""

import re
from collections.abc import Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import cache

from areafit.facts.marking import Problem, TemperatureMark
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Dimension, QuantityError, Range, number, parse
from areafit.marking import clauses
from areafit.marking.tokens import Tokens
from areafit.marking.words import Ambient, Fault, Found, Temperature, Unread
from areafit.pattern import pattern
from areafit.tables.area import ClassScheme, TemperatureClass
from areafit.tables.limits import figure
from areafit.tables.load import rows
from areafit.values import Frozen, replace

_LONGEST = 7  # characters of a number; a longer one is no temperature
_HIGHEST = Decimal(1000)
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
        return value if value <= _HIGHEST else None


def _read_unit(tokens: Tokens, index: int) -> tuple[str, int]:
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
    unit, behind = _read_unit(tokens, at + 1)
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


_CLASS = pattern(r"T[0-9][A-Z]?")
_FIGURE = pattern(r"T([0-9]{2,3}(?:\.[0-9]{1,3})?)(C|F)?")
_COOLEST = Decimal(10)  # °C; a lower figure is no maximum surface temperature
_TO = frozenset({"-", "to"})


@cache
def class_limits() -> dict[str, Decimal]:
    """The highest surface temperature in °C by class, Division sub-classes included."""
    return {row.name: row.max_c for row in rows("temperature_classes", TemperatureClass)}


@cache
def zone_classes() -> frozenset[str]:
    """The classes that zone and Ex codes know."""
    table = rows("temperature_classes", TemperatureClass)
    return frozenset(row.name for row in table if row.scheme is ClassScheme.BOTH)


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
            hottest = max(name, other[0], key=class_limits().__getitem__)
            return (Temperature(_mark(hottest)),), other[1]
    if name in class_limits():
        return (Temperature(_mark(name)),), at
    fault = Fault(f"There is no temperature class {name}.", clauses.TEMPERATURE)
    return (Temperature(TemperatureMark(None, name)), fault), at


def _class_name(tokens: Tokens, index: int) -> tuple[str, int] | None:
    if _CLASS.fullmatch(tokens.at(index).text):
        return tokens.at(index).text, index + 1
    name = "T" + tokens.at(index + 1).text
    if tokens.at(index).text == "T" and name in zone_classes():
        apart = _read_unit(tokens, index + 2)[0] == "" and tokens.at(index + 2).spaced
        return (name, index + 2) if apart or index + 2 >= len(tokens) else None
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
        unit, at = _read_unit(tokens, index + 1)
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


_LABEL = pattern(
    r"(?:Ta(?:mb)?|T ?amb)\b\.?|amb(?:ient)?\b\.?(?: temp(?:erature)?\b\.?)?(?: range\b)?",
    re.IGNORECASE,
)
_LESS = frozenset({"<=", "<"})
_MORE = frozenset({">=", ">"})
_UP_TO = frozenset({"max", "to"})


def read_ambient(tokens: Tokens, index: int) -> Found | None:
    """The ambient range in any spelling; a single figure is the upper end."""
    leading = tokens.at(index).low in {"@", "at", "for"}
    label = tokens.phrase(index + leading, _LABEL)
    if label is not None:
        return _behind(tokens, label)
    return _around(tokens, index) or _before(tokens, index)


def _behind(tokens: Tokens, index: int) -> Found | None:
    """What follows the label."""
    at = index
    while tokens.at(at).text in {"=", ":"}:
        at += 1
    span = read_span(tokens, at)
    if span is not None:
        return _range(*span)
    sign = tokens.at(at)
    if sign.text in _LESS or sign.low in _UP_TO:
        at = at + 1 + (tokens.at(at + 1).text == ".")
        high = read_degrees(tokens, at)
        return _range(None, *high) if high else None
    if sign.text in _MORE or sign.low == "min":
        low = read_degrees(tokens, at + 1)
        return _range(low[0], None, low[1]) if low else None
    single = read_degrees(tokens, at)
    if single is None or single[0].number.startswith("-"):
        return None  # `Ta -20` alone: lower or upper end, nobody can tell
    return _range(None, *single)


def _around(tokens: Tokens, index: int) -> Found | None:
    """`-20 °C ≤ Ta ≤ +60 °C`, or either half of it."""
    low = read_degrees(tokens, index)
    if low is None or tokens.at(low[1]).text not in _LESS:
        return None
    label = tokens.phrase(low[1] + 1, _LABEL)
    if label is None:
        return None
    high = read_degrees(tokens, label + 1) if tokens.at(label).text in _LESS else None
    if high is None:
        return _range(low[0], None, label)
    return _range(Degrees(low[0].number, low[0].unit or high[0].unit), *high)


def _before(tokens: Tokens, index: int) -> Found | None:
    """`-40 °C to +60 °C ambient`."""
    span = read_span(tokens, index)
    label = tokens.phrase(span[2], _LABEL) if span else None
    if span is None or label is None or _goes_on(tokens, label):
        return None
    return _range(span[0], span[1], label)


def _goes_on(tokens: Tokens, index: int) -> bool:
    """Whether figures follow, so that the label belongs to them."""
    signs = {"=", ":", "+", "-", *_LESS, *_MORE}
    return tokens.at(index).text in signs or tokens.at(index).is_number


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


_ENDS = ("lowest", "highest")


class Limits(Frozen):
    """What a code says of temperatures, and what is wrong with it."""

    temperatures: tuple[TemperatureMark, ...] = ()
    ambient: Range | None = None
    problems: tuple[Problem, ...] = ()


@cache
def default_ambient(system: MarkingSystem) -> Range:
    """The range in °C that holds where a code of this system prints none."""
    ends = (figure(f"{end} ambient where none is printed", system.value) for end in _ENDS)
    return Range(*(end.amount(Dimension.TEMPERATURE) for end in ends))


def limits_of(words: Sequence[Temperature | Ambient], system: MarkingSystem) -> Limits:
    """Classes with their ambient ranges, or the hottest where they cannot be told apart."""
    marks = [word.mark for word in words if isinstance(word, Temperature)]
    ambients = [word for word in words if isinstance(word, Ambient)]
    ranges = [span for mark in ambients if (span := _completed(mark, system)) is not None]
    if len(ranges) < len(ambients):
        text = "The ambient range has one end only, beyond the other end of the standard range."
        problem = Problem(text, clauses.AMBIENT, unread=True)
        return Limits(_hottest(marks), None, (problem,))
    if len(marks) > 1 and _alternates(words):
        pairs = zip(marks, ranges, strict=True)
        return _by_ambient(tuple(replace(mark, ambient=span) for mark, span in pairs))
    ambient, problems = _one_range(ranges)
    return Limits(_hottest(marks), ambient, (*_contradictions(marks), *problems))


def _completed(mark: Ambient, system: MarkingSystem) -> Range | None:
    """The range, an end that is not printed from the standard; None where they do not meet."""
    default = default_ambient(system)
    low = default.low if mark.low is None else mark.low
    high = default.high if mark.high is None else mark.high
    return Range(low, high) if low <= high else None


def _alternates(words: Sequence[Temperature | Ambient]) -> bool:
    """Whether each class has exactly one range, always behind it or always in front of it."""
    kinds = [type(word) for word in words]
    return len(kinds) % 2 == 0 and kinds in (
        [Temperature, Ambient] * (len(kinds) // 2),
        [Ambient, Temperature] * (len(kinds) // 2),
    )


def _by_ambient(marks: tuple[TemperatureMark, ...]) -> Limits:
    """The certified range is all that the classes cover, if they leave no gap."""
    spans = sorted((mark.ambient for mark in marks if mark.ambient), key=lambda span: span.low)
    whole = spans[0]
    for span in spans[1:]:
        if span.low > whole.high:
            text = "The ambient ranges of the temperature classes leave a gap."
            return Limits(marks, None, (Problem(text, clauses.AMBIENT),))
        whole = Range(whole.low, max(whole.high, span.high))
    return Limits(marks, whole)


def _one_range(ranges: list[Range]) -> tuple[Range | None, tuple[Problem, ...]]:
    """One range; where several differ what they share holds, and the plate contradicts itself."""
    if not ranges:
        return None, ()
    shared: Range | None = ranges[0]
    for span in ranges[1:]:
        shared = shared.common(span) if shared else None
    if len(set(ranges)) == 1:
        return shared, ()
    text = "More than one ambient range, and no class of its own for each."
    return shared, (Problem(text, clauses.AMBIENT),)


def _hottest(marks: list[TemperatureMark]) -> tuple[TemperatureMark, ...]:
    """The worst mark alone: without its own ambient no cooler one may be relied on."""
    if not marks:
        return ()
    for mark in marks:
        if mark.maximum is None:
            return (mark,)
    return (max(marks, key=lambda mark: (mark.maximum or 0, mark.name or "")),)


def _contradictions(marks: list[TemperatureMark]) -> tuple[Problem, ...]:
    """Two classes, two figures for the same depth of dust, or a figure above its class."""
    named = sorted({mark.name for mark in marks if mark.name})
    found = {(mark.layer, mark.maximum) for mark in marks if not mark.name}
    figures = sorted({maximum for _, maximum in found if maximum is not None})
    told_apart = len({layer for layer, _ in found}) == len(found)
    if len(named) > 1 or (len(figures) > 1 and not told_apart):
        shown = [*named, *(f"{number(figure)} °C" for figure in figures)]
        text = f"{' and '.join(shown)} without ambient ranges that tell them apart."
        return (Problem(text, clauses.TEMPERATURE),)
    limit = next((mark.maximum for mark in marks if mark.name), None)
    if figures and limit is not None and figures[0] > limit:
        text = f"{number(figures[0])} °C is above the limit of {named[0]}, {number(limit)} °C."
        return (Problem(text, clauses.TEMPERATURE),)
    return ()
