"""Reader of the ambient temperature: `Ta -40 to +60`, `-20 °C ≤ Ta ≤ +60 °C`, `Tamb <= 60`."""

import re
from decimal import ROUND_CEILING, ROUND_FLOOR

from areafit.marking import clauses
from areafit.marking.degrees import Degrees, read_degrees, read_span
from areafit.marking.elements import AmbientMark, Fault, Found
from areafit.marking.text import Tokens
from areafit.pattern import pattern

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
    label = _behind_label(tokens, index + leading)
    if label is not None:
        return _behind(tokens, label)
    return _around(tokens, index) or _before(tokens, index)


def _behind_label(tokens: Tokens, index: int) -> int | None:
    return tokens.phrase(index, _LABEL)


def _behind(tokens: Tokens, index: int) -> Found | None:
    """What follows the label."""
    at = index
    while tokens.at(at).text in {"=", ":"}:
        at += 1
    span = read_span(tokens, at)
    if span is not None:
        return _range(span[0], span[1], span[2])
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
    label = _behind_label(tokens, low[1] + 1)
    if label is None:
        return None
    high = read_degrees(tokens, label + 1) if tokens.at(label).text in _LESS else None
    if high is None:
        return _range(low[0], None, label)
    return _range(Degrees(low[0].number, low[0].unit or high[0].unit), *high)


def _before(tokens: Tokens, index: int) -> Found | None:
    """`-40 °C to +60 °C ambient`."""
    span = read_span(tokens, index)
    label = _behind_label(tokens, span[2]) if span else None
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
    mark = AmbientMark(low_value, high_value)
    if low_value is not None and high_value is not None and low_value > high_value:
        text = f"The ambient range {low_value} to {high_value} °C runs downwards."
        return (Fault(text, clauses.AMBIENT),), at
    return (mark,), at
