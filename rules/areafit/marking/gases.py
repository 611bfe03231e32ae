"""Names and formulae of single gases on a plate: `(NH3)`, `ammonia only`."""

from functools import cache

from areafit.marking.elements import Found, Gas
from areafit.marking.text import Tokens
from areafit.tables.load import rows
from areafit.tables.names import key
from areafit.tables.substances import SubstanceRow

_LONGEST = 8  # tokens of a name


@cache
def _names() -> frozenset[str]:
    """Every name, alias and formula of the substance table, folded as look-ups fold them."""
    table = rows("substances", SubstanceRow)
    return frozenset(
        key(name) for row in table for name in (row.name, row.formula, *row.names) if len(name) > 1
    )


def known_gas(name: str) -> bool:
    """Whether the substance table knows this name or formula."""
    return key(name) in _names()


def read_gas(tokens: Tokens, index: int) -> Found | None:
    """`(ammonia)`, `(NH3)`, `(ammonia only)`, `only ammonia`, `ammonia only`."""
    opened = tokens.at(index).text == "("
    at = index + 1 if opened else index
    before = tokens.at(at).low == "only"
    at += before
    for stop in range(at + 1, min(at + _LONGEST, len(tokens)) + 1):
        end = stop + (tokens.at(stop).low == "only")
        limited = opened or before or end > stop
        if opened and tokens.at(end).text != ")":
            continue
        if limited and known_gas(tokens.between(at, stop)):
            return (Gas(tokens.between(at, stop)),), end + opened
    return None
