"""Words of the command line as facts, dates, rules and the options of a run.

Facts are read as in a list, and refused with the option's name.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterable
from datetime import date, datetime, timedelta
from decimal import Decimal
from enum import Enum
from typing import TypeVar

import areafit
from areafit import notation
from areafit.facts.place import Concentration, Mixture, PresentChemical
from areafit.facts.quantity import Dimension, QuantityError, Range
from areafit.pattern import pattern
from areafit.verdict import Basis
from areafit_cli.errors import CallError, unknown
from areafit_cli.render import Age

T = TypeVar("T")
Word = TypeVar("Word", bound=Enum)
_QUANTITY_LEFT = pattern(r",\s*[-+]?\d[\d.]*\s*(?:%|°|g/|mg/|\.\.|[CFK]\b|$)")
_AGE = pattern(r"([1-9]\d{0,3})\s*(day|month|year)s?")
_CHEMICAL = 'write name, concentration, temperature: "sodium hydroxide, 2 %, 60 °C"'


def word(kind: type[Word], text: str, what: str, drop: str = "") -> Word:
    """A member of a closed list by its word.

    Raises:
        CallError: there is no such word; the message names the nearest.
    """
    found = notation.member(kind, text, drop)
    if found is None:
        raise unknown(what, text, [str(member.value) for member in kind])
    return found


def quantity(text: str, dimension: Dimension, option: str) -> Decimal:
    """A quantity with its unit.

    Raises:
        CallError: it cannot be read, or cannot be; the message says which units serve.
    """
    return _told(lambda: notation.amount(text, dimension), option)


def rating(text: str, dimension: Dimension, option: str) -> Decimal:
    """A limit, or `none` for what has none.

    Raises:
        CallError: as for `quantity`.
    """
    return _told(lambda: notation.rating(text, dimension), option)


def layer(text: str, option: str) -> Decimal:
    """The depth of a layer of dust, or `none`.

    Raises:
        CallError: as for `quantity`.
    """
    return _told(lambda: notation.layer(text), option)


def span(text: str, dimension: Dimension, option: str) -> Range:
    """A range of a quantity.

    Raises:
        CallError: as for `quantity`.
    """
    return _told(lambda: notation.span(text, dimension), option)


def chemical(text: str) -> PresentChemical:
    """`sodium hydroxide, 2 %, 60 °C`: a name, then a concentration and a temperature, each once.

    A name may hold commas itself: whatever stands before the first quantity belongs to it.

    Raises:
        CallError: something behind the name is neither.
    """
    name, strength, heat = text.strip(), None, None
    while "," in name:
        before, _, piece = name.rpartition(",")
        if strength is None and notation.has_strength_unit(piece):
            strength = _strength(piece, text)
        elif heat is None and (warm := _temperature(piece)) is not None:
            heat = warm
        else:
            break
        name = before.strip()
    if not name or _QUANTITY_LEFT.search(name):
        raise CallError(f"the chemical {text!r} cannot be read; {_CHEMICAL}")
    return PresentChemical(name, strength, heat)


_COMPONENTS = pattern(r";\s*|,\s+|\s+and\s+")
# A share, or what means to be one: the shortest name before it is the name.
_COMPONENT = pattern(
    r"(?P<name>.*?\S)\s+(?P<share>rest|[-+\u2212]?\d[\d.,]*"
    r"(?:\s*(?:\.\.|-|\u2013|to)\s*\d[\d.,]*)?\s*"
    r"(?:%.*|(?:vol|wt|gew|mass|mol|ppm|ppb|percent|pct|parts?|[gml]|mg|kg|ml)\b.*)?)",
    re.IGNORECASE,
)
_SHARE_FIRST = pattern(
    r"(?P<share>\d[\d.,]*(?:\s*(?:\.\.|-|\u2013|to)\s*\d[\d.,]*)?\s*(?:% ?v/v|% ?w/w|mol ?%|%))"
    r"\s*(?P<name>\S.*)",
    re.IGNORECASE,
)


def mixture(text: str) -> Mixture | None:
    """A liquid mixture, `isopropanol 15 %, water 85 %`; None where the text names no two liquids.

    Raises:
        CallError: the shares cannot be read, or make up no whole, or a name stands there twice.
    """
    pieces = [piece for piece in _COMPONENTS.split(text.strip()) if piece]
    found = [_SHARE_FIRST.fullmatch(piece) or _COMPONENT.fullmatch(piece) for piece in pieces]
    if len(pieces) < 2 or not any(found):
        return None
    named = [
        (each["name"].removesuffix(":"), each["share"]) if each else (piece, "rest")
        for each, piece in zip(found, pieces, strict=True)
    ]
    shares = dict(named)
    if len(shares) < len(named):
        twice = next(
            name for name, count in Counter(name for name, _ in named).items() if count > 1
        )
        raise CallError(f"NAME: {twice!r} stands there twice; write its share once")
    return _told(lambda: notation.mixture(shares), "NAME")


def _strength(piece: str, text: str) -> Concentration:
    try:
        return notation.strength(piece.strip())
    except QuantityError as error:
        said = str(error).partition(";")[0]
        raise CallError(f"the chemical {text!r} cannot be read: {said}; {_CHEMICAL}") from None


def _temperature(text: str) -> Range | None:
    try:
        return notation.span(text.strip(), Dimension.TEMPERATURE)
    except QuantityError:
        return None


def _told(read: Callable[[], T], option: str) -> T:
    try:
        return read()
    except QuantityError as error:
        raise CallError(f"{option}: {error}") from None


def today() -> date:
    """The date of this computer, in its own time zone; nothing else asks for it."""
    return datetime.now().astimezone().date()


def day(text: str) -> date:
    """A date written as YYYY-MM-DD.

    Raises:
        CallError: it is none.
    """
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CallError(f"{text!r} is no date; write it as year-month-day, 2026-03-31") from None


def age(text: str, today_: date) -> Age:
    """How old something may be, such as `24 months`, reckoned from a day.

    Raises:
        CallError: it is no such time.
    """
    found = _AGE.fullmatch(text.strip())
    if found is None:
        raise CallError(f"{text!r} is no time; write it as 24 months, 2 years or 90 days")
    number, unit = int(found[1]), found[2]
    if unit == "day":
        return Age(text.strip(), today_ - timedelta(days=number))
    months = today_.year * 12 + today_.month - 1 - number * (12 if unit == "year" else 1)
    year, month = max(months // 12, 1), months % 12 + 1
    last = date(year + month // 12, month % 12 + 1, 1) - timedelta(days=1)  # of the month
    return Age(text.strip(), last.replace(day=min(today_.day, last.day)))


def options(
    *,
    only: Iterable[str] = (),
    skip: Iterable[str] = (),
    accept_unproven: Iterable[str] = (),
    least_basis: Basis = Basis.MEMORY,
    as_of: str | None = None,
    partial: bool = False,
) -> "areafit.Options":
    """The options of a run.

    Raises:
        CallError: a rule id or the date does not serve.
    """
    now = today()
    judged = day(as_of) if as_of else now
    return areafit.Options(
        as_of=judged,
        as_of_chosen=judged != now,
        only=rules(only),
        skip=rules(skip),
        accept_unproven=rules(accept_unproven),
        least_basis=least_basis,
        partial=partial,
    )


def rules(asked: Iterable[str]) -> frozenset[str]:
    """The rule ids, each checked against the rules there are; commas separate too."""
    names = [name.strip().casefold() for text in asked for name in text.split(",")]
    known = [rule.id for rule in areafit.RULES] if names else []
    for name in names:
        if name not in known:
            raise unknown("rule", name, known)
    return frozenset(names)
