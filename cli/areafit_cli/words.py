"""Words of the command line to facts: read as in a list, and refused with the option's name."""

from collections.abc import Callable
from decimal import Decimal
from enum import Enum
from typing import TypeVar

from areafit import notation
from areafit.facts.place import Concentration, PresentChemical
from areafit.facts.quantity import Dimension, QuantityError, Range
from areafit.pattern import pattern
from areafit_cli.faults import CallError, unknown

T = TypeVar("T")
Word = TypeVar("Word", bound=Enum)
_QUANTITY_LEFT = pattern(r",\s*[-+]?\d[\d.]*\s*(?:%|°|g/|mg/|\.\.|[CFK]\b|$)")
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
