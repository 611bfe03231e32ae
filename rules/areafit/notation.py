"""Quantities and words as a person states them, in a list or on the command line: read once, here.

`facts.quantity` knows units; this knows what a stated value may be: not less than nothing, no more
than the whole, not of any length. Messages read `what is wrong; what to do`.
"""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any, TypeVar

from areafit.facts.place import (
    Concentration,
    ConcentrationUnit,
    Mixture,
    MixtureComponent,
    ShareOf,
)
from areafit.facts.quantity import Dimension, QuantityError, Range, number, parse, parse_range
from areafit.pattern import pattern

T = TypeVar("T")
Word = TypeVar("Word", bound=Enum)
LONGEST = 80
UNLIMITED = Decimal("Infinity")
_BELOW_ZERO = frozenset({Dimension.TEMPERATURE})
_STRENGTHS = (
    (pattern("% ?v/v", re.IGNORECASE), ConcentrationUnit.VOLUME),
    (pattern("% ?w/w", re.IGNORECASE), ConcentrationUnit.MASS),
    (pattern("mg/[lL]"), ConcentrationUnit.MILLIGRAMS_PER_LITRE),
    (pattern("g/[lL]"), ConcentrationUnit.GRAMS_PER_LITRE),
    (pattern("%"), ConcentrationUnit.MASS),
)
_SHARES = frozenset({ConcentrationUnit.MASS, ConcentrationUnit.VOLUME})
_STRENGTH_UNIT = pattern(r"% ?[vV]/[vV]|% ?[wW]/[wW]|mg/[lL]|g/[lL]|%")
_STRENGTH_REMEDY = "write one of % (by mass), % v/v, g/L, mg/L"


def amount(text: str, dimension: Dimension) -> Decimal:
    """One quantity, not less than nothing unless it is a temperature.

    Raises:
        QuantityError: it cannot be read, or cannot be.
    """
    value = _parsed(parse, text, dimension)
    _not_negative(value, text, dimension)
    return value


def span(text: str, dimension: Dimension) -> Range:
    """One quantity or a range of it, as `amount`.

    Raises:
        QuantityError: it cannot be read, or cannot be.
    """
    found = _parsed(parse_range, text, dimension)
    _not_negative(found.low, text, dimension)
    return found


def rating(text: str, dimension: Dimension) -> Decimal:
    """A limit that may be `none`, as simple apparatus has none; that is an infinite one.

    Raises:
        QuantityError: it cannot be read, or cannot be.
    """
    return UNLIMITED if text == "none" else amount(text, dimension)


def layer(text: str) -> Decimal:
    """The depth of a layer of dust; `none` is a layer of nothing.

    Raises:
        QuantityError: it cannot be read, or cannot be.
    """
    return Decimal(0) if text == "none" else amount(text, Dimension.LENGTH)


def strength(text: str) -> Concentration:
    """How much of a chemical there is; percent is by mass unless `% v/v` is written.

    Raises:
        QuantityError: it cannot be read, or is more than the whole.
    """
    _refuse_long(text, _STRENGTH_REMEDY)
    _refuse_other_strengths(text)
    found = {_strength_unit(unit) for unit in _STRENGTH_UNIT.findall(text)}
    if len(found) != 1:
        other = _OTHER_UNIT.fullmatch(text)
        if other is not None and not found:
            said = f"'{_shown(other[1])}' in '{_shown(text)}' is no unit of a concentration"
        else:
            said = f"'{_shown(text)}' {'mixes units' if found else 'has no unit'}"
        raise QuantityError(f"{said}; {_STRENGTH_REMEDY}")
    share = _parsed(parse_range, _STRENGTH_UNIT.sub("%", text), Dimension.FRACTION)
    (unit,) = found
    _not_negative(share.low, text, Dimension.FRACTION)
    if share.high > 100 and unit in _SHARES:
        raise QuantityError(f"'{_shown(text)}' is more than the whole; check the figure")
    return Concentration(share, unit)


_OTHER_UNIT = pattern(r"[\d\s.,+<>=-]*\d\s*([^\s\d.,-][^\d]*?)\s*")
_PER_MILLION = pattern(r"\s*(.*?)\s*pp([mb])\b.*", re.IGNORECASE)
_BY_VOLUME = pattern(r"(.*?)\s*(?:vol[. -]*%|% ?\(?(?:by )?vol\w*\)?\.?)\s*", re.IGNORECASE)
_BY_MASS = pattern(
    r"(.*?)\s*(?:(?:gew|wt|ma|m|mass)[. -]*%|% ?\(?(?:by )?(?:mass|weight|gew)\w*\)?\.?)\s*",
    re.IGNORECASE,
)


def _refuse_other_strengths(text: str) -> None:
    """Raise for what data sheets write of a strength, with how it is written here."""
    if _PER_MILLION.fullmatch(text):
        raise QuantityError(
            f"'{_shown(text)}' does not say parts of what; write mg/L, or % by mass "
            "(1000 ppm by mass are 0.1 %)"
        )
    for written, unit in ((_BY_VOLUME, "% v/v"), (_BY_MASS, "%")):
        found = written.fullmatch(text)
        if found is not None:
            raise QuantityError(
                f"'{_shown(text)}' has a unit that is not read; write {_shown(found[1])} {unit}"
            )


_SHARE_UNITS = (
    (pattern("% ?v/v", re.IGNORECASE), ShareOf.VOLUME),
    (pattern("mol ?%|mol-%", re.IGNORECASE), ShareOf.MOLE),
    (pattern("% ?w/w", re.IGNORECASE), ShareOf.MASS),
    (pattern("%"), ShareOf.MASS),
)
_SHARE_REMEDY = "write one of % (by mass), % v/v, mol %, or rest"
_WHOLE_WITHIN = Decimal("0.5")  # shares as data sheets round them


def mixture(shares: Mapping[str, str]) -> Mixture:
    """What a liquid is mixed of, by its components' names: `{isopropanol: 15 %, water: rest}`.

    Raises:
        QuantityError: a share cannot be read, or they do not make up a whole.
    """
    if not shares:
        raise QuantityError("a mixture of nothing; name its components")
    found, units = [], set()
    for name, text in shares.items():
        if text.strip().lower() == "rest":
            found.append(MixtureComponent(name))
            continue
        span, unit = _share(text)
        units.add(unit)
        found.append(MixtureComponent(name, span))
    if len(units) > 1:
        raise QuantityError(
            "the shares of a mixture are in different units; write all by mass, by volume or in "
            "mol %"
        )
    stated = [one.share for one in found if one.share is not None]
    low, high = sum(one.low for one in stated), sum(one.high for one in stated)
    rests = len(found) - len(stated)
    if rests > 1:
        raise QuantityError("two components are the rest; write the share of one")
    if low > 100 + _WHOLE_WITHIN:
        raise QuantityError(f"the shares make up {number(Decimal(low))} %; check the figures")
    if not rests and high < 100 - _WHOLE_WITHIN:
        raise QuantityError(
            f"the shares make up only {number(Decimal(high))} %; write `rest` for what fills it up"
        )
    return Mixture(tuple(found), units.pop() if units else ShareOf.MASS)


def _share(text: str) -> tuple[Range, ShareOf]:
    _refuse_other_strengths(text)
    for written, unit in _SHARE_UNITS:
        if written.search(text):
            span = _parsed(parse_range, written.sub("%", text), Dimension.FRACTION)
            _not_negative(span.low, text, Dimension.FRACTION)
            if span.high > 100:
                raise QuantityError(f"'{_shown(text)}' is more than the whole; check the figure")
            return span, unit
    if _STRENGTH_UNIT.search(text):
        raise QuantityError(f"'{_shown(text)}' is no share of the whole; {_SHARE_REMEDY}")
    raise QuantityError(f"'{_shown(text)}' has no unit; {_SHARE_REMEDY}")


def has_strength_unit(text: str) -> bool:
    """Whether the text means to state a concentration."""
    return _STRENGTH_UNIT.search(text) is not None


def oxygen(text: str) -> Range:
    """The share of oxygen in the air.

    Raises:
        QuantityError: as for `strength`, or it is no share.
    """
    found = strength(text)
    if found.unit not in _SHARES:
        raise QuantityError(
            f"'{_shown(text)}' is no share of a gas; write percent by volume, such as 21 % v/v"
        )
    return found.span


def acidity(text: str) -> Range:
    """A pH or a range of it; the scale has no unit, so `%` stands in while it is read.

    Raises:
        QuantityError: it is none.
    """
    if "%" in text:
        raise QuantityError(f"'{_shown(text)}' is no pH; write a number or a range, such as 6..8")
    found = _parsed(parse_range, f"{text} %", Dimension.FRACTION)
    if found.high > 14:
        raise QuantityError(f"'{_shown(text)}' is beyond the scale of pH; write 0 to 14")
    _not_negative(found.low, text, Dimension.FRACTION)
    return found


def member(kind: type[Word], text: str, drop: str = "") -> Word | None:
    """The member of a closed list that a word names, or None; case, `-` and `_` do not matter.

    `drop` is what may stand before the word: `Group IIC`.
    """
    known: dict[str, Word] = _members(kind)
    return known.get(text) or known.get(_normal(text).removeprefix(drop))


@cache
def _members(kind: type[Enum]) -> dict[str, Any]:
    return {_normal(str(member.value)): member for member in kind}


def _normal(text: str) -> str:
    return " ".join(text.replace("_", " ").replace("-", " ").replace("+", " + ").lower().split())


def _strength_unit(text: str) -> ConcentrationUnit:
    return next(unit for written, unit in _STRENGTHS if written.fullmatch(text))


def _parsed(parser: Callable[[str, Dimension], T], text: str, dimension: Dimension) -> T:
    _refuse_long(text, "write a number and its unit")
    return parser(text, dimension)


def _refuse_long(text: str, remedy: str) -> None:
    if len(text) > LONGEST:
        raise QuantityError(f"'{_shown(text[:59])}…' is too long for a quantity; {remedy}")


def _not_negative(lowest: Decimal, text: str, dimension: Dimension) -> None:
    if lowest < 0 and dimension not in _BELOW_ZERO:
        raise QuantityError(f"'{_shown(text)}' is less than nothing; check the sign")


def _shown(text: str) -> str:
    """The text on one line."""
    return " ".join(text.split())
