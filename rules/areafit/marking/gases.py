"""Gases that a plate names: by the names and the formulae of the substance table."""

from collections import Counter
from functools import cache

from areafit.marking.tokens import Tokens
from areafit.marking.words import Found, Gas
from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.tables.names import key
from areafit.tables.substances import SubstanceRow

_LONGEST_NAME = 8  # tokens of a name
_FORMULA = pattern(r"(?:[A-Z][a-z]?[0-9]{0,2}){1,8}")
_ATOM = pattern(r"([A-Z][a-z]?)([0-9]{0,2})")

_Atoms = frozenset[tuple[str, int]]


@cache
def _names() -> dict[str, str]:
    """Every name and alias of the substance table, folded as look-ups fold them."""
    table = rows("substances", SubstanceRow)
    return {key(name): name for row in table for name in (row.name, *row.names) if len(name) > 1}


@cache
def _formulae() -> dict[_Atoms, str]:
    """Names by atoms, without the formulae that several substances share."""
    table = [(_atoms(row.formula), row.name) for row in rows("substances", SubstanceRow)]
    count = Counter(found for found, _ in table)
    return {found: name for found, name in table if found and count[found] == 1}


def _atoms(formula: str) -> _Atoms:
    """The atoms of a formula, so that NH3 equals H3N; empty where it is none."""
    if not _FORMULA.fullmatch(formula):
        return frozenset()
    count: Counter[str] = Counter()
    for element, number in _ATOM.findall(formula):
        count[element] += int(number or 1)
    return frozenset(count.items())


def gas_name(text: str) -> str | None:
    """The gas: its name as printed, the table's name for a formula; None where neither is known."""
    if key(text) in _names():
        return text
    return _formulae().get(_atoms(text))


def read_gas(tokens: Tokens, index: int) -> Found | None:
    """`(ammonia)`, `(NH3)`, `(ammonia only)`, `only ammonia`, `ammonia only`."""
    opened = tokens.at(index).text == "("
    at = index + 1 if opened else index
    before = tokens.at(at).low == "only"
    at += before
    for stop in range(at + 1, min(at + _LONGEST_NAME, len(tokens)) + 1):
        end = stop + (tokens.at(stop).low == "only")
        closed = tokens.at(end).text == ")" if opened else before or end > stop
        name = gas_name(tokens.between(at, stop)) if closed else None
        if name is not None:
            return (Gas(name),), end + opened
    return None
