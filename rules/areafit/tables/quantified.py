"""Rows whose value is a quantity, as the source prints it."""

from decimal import Decimal

from areafit.facts.quantity import Dimension, parse


class Quantified:
    """A row with a `value` that holds its unit."""

    __slots__ = ()
    value: str

    def amount(self, dimension: Dimension) -> Decimal:
        """The figure in the dimension's own unit.

        Raises:
            QuantityError: the table row is not a quantity of this dimension.
        """
        return parse(self.value, dimension)
