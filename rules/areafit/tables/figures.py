"""Single figures that a standard or the trade sets: limits, defaults, factors, one row each.

A rule that compares with a figure takes it from here, so that reports cite it with its basis.
"""

from decimal import Decimal
from functools import cache

from areafit.facts.quantity import Dimension, parse
from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis


class Figure(Frozen):
    """One figure.

    `applies_to` is the code (`IEC`, `ATEX`, `NEC`), group, level or ambient that it is for, or
    `all`; `value` a quantity with its unit, as the source prints it; `clause` what a report cites,
    empty where the rule's own clause sets it.
    """

    name: str
    applies_to: str
    value: str
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str

    def amount(self, dimension: Dimension) -> Decimal:
        """The figure in the dimension's own unit.

        Raises:
            QuantityError: the row is not a quantity of this dimension.
        """
        return parse(self.value, dimension)

    @property
    def kelvin(self) -> Decimal:
        """A difference of temperature, which `amount` would take for a temperature.

        Raises:
            ValueError: the row is not a number of K.
        """
        value, unit = self.value.split()
        if unit != "K":
            raise ValueError(f"{self.name} is {self.value}, no difference in K")
        return Decimal(value)


def figure(name: str, applies_to: str = "all") -> Figure:
    """The row of this name for a code, group, level or ambient.

    Raises:
        KeyError: there is none.
    """
    return _by_key()[name, applies_to]


def figure_if_any(name: str, applies_to: str) -> Figure | None:
    """As `figure`, or None where the table knows none for this code, group, level or ambient."""
    return _by_key().get((name, applies_to))


@cache
def _by_key() -> dict[tuple[str, str], Figure]:
    return {(row.name, row.applies_to): row for row in rows("figures", Figure)}
