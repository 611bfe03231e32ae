"""Default cable values, the caps of the 50 % rule and the limits of simple apparatus.

Set by standards and practice documents, so that a company's own rows cannot be laid over them.
"""

from decimal import Decimal
from functools import cache

from areafit.facts.quantity import Dimension, parse
from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis


class LoopLimit(Frozen):
    """One figure.

    `applies_to` is the code (`IEC`, `ATEX`, `NEC`), the group or the ambient that it is for, or
    `all`; `value` is a quantity with its unit, as the source prints it.
    """

    name: str
    applies_to: str
    value: str
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


@cache
def _by_key() -> dict[tuple[str, str], LoopLimit]:
    return {(row.name, row.applies_to): row for row in rows("loop_limits", LoopLimit)}


def loop_limit(name: str, applies_to: str = "all") -> LoopLimit | None:
    """The row of this name for a code, group or ambient; None where there is none."""
    return _by_key().get((name, applies_to))
