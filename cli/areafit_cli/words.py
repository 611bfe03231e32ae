"""Words of the command line to facts, for what a list would state in a mapping of its own."""

import re
from decimal import Decimal
from enum import Enum
from typing import TypeVar

from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.quantity import Dimension, QuantityError, Range, parse, parse_range
from areafit.pattern import pattern
from areafit_cli.faults import CallError, unknown

Word = TypeVar("Word", bound=Enum)
_UNITS = (
    (pattern("% ?v/v", re.IGNORECASE), ConcentrationUnit.VOLUME),
    (pattern("mg/l", re.IGNORECASE), ConcentrationUnit.MILLIGRAMS_PER_LITRE),
    (pattern("g/l", re.IGNORECASE), ConcentrationUnit.GRAMS_PER_LITRE),
    (pattern("% ?w/w|%", re.IGNORECASE), ConcentrationUnit.MASS),
)
_QUANTITY_LEFT = pattern(r",\s*[-+]?\d[\d.]*\s*(?:%|°|g/|mg/|\.\.|[CFK]\b|$)")


def word(kind: type[Word], text: str, what: str) -> Word:
    """A member of a closed list by its word; hyphens and underscores serve as blanks.

    Raises:
        CallError: there is no such word; the message names the nearest.
    """
    wanted = text.replace("-", " ").replace("_", " ").casefold()
    for member in kind:
        if str(member.value).casefold() == wanted:
            return member
    raise unknown(what, text, [str(member.value) for member in kind])


def quantity(text: str | None, dimension: Dimension, option: str) -> Decimal | None:
    """A quantity with its unit, or None where the option was not given.

    Raises:
        CallError: it cannot be read; the message says which units serve.
    """
    try:
        return None if text is None else parse(text, dimension)
    except QuantityError as error:
        raise CallError(f"{option}: {error}") from None


def span(text: str | None, dimension: Dimension, option: str) -> Range | None:
    """A range of a quantity, or None where the option was not given.

    Raises:
        CallError: it cannot be read.
    """
    try:
        return None if text is None else parse_range(text, dimension)
    except QuantityError as error:
        raise CallError(f"{option}: {error}") from None


def chemical(text: str) -> PresentChemical:
    """`sodium hydroxide, 2 %, 60 °C`: a name, then a concentration and a temperature, each once.

    A name may hold commas itself: whatever stands before the first quantity belongs to it.

    Raises:
        CallError: something behind the name is neither.
    """
    name, strength, heat = text.strip(), None, None
    while "," in name:
        before, _, piece = name.rpartition(",")
        if strength is None and (found := _concentration(piece)) is not None:
            strength = found
        elif heat is None and (warm := _temperature(piece)) is not None:
            heat = warm
        else:
            break
        name = before.strip()
    if not name or _QUANTITY_LEFT.search(name):
        raise CallError(
            f"the chemical {text!r} cannot be read; write name, concentration, temperature: "
            '"sodium hydroxide, 2 %, 60 °C"'
        )
    return PresentChemical(name, strength, heat)


def _concentration(text: str) -> Concentration | None:
    for written, unit in _UNITS:
        if written.search(text):
            try:
                share = parse_range(written.sub("%", text), Dimension.FRACTION)
            except QuantityError:
                return None
            return Concentration(share, unit) if share.low >= 0 else None
    return None


def _temperature(text: str) -> Range | None:
    try:
        return parse_range(text, Dimension.TEMPERATURE)
    except QuantityError:
        return None
