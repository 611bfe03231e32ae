"""What the cable of a circuit adds, by stated values or by those that practice allows."""

from decimal import Decimal

from areafit.checks.loops.figures import settled
from areafit.facts.loop import Cable
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension
from areafit.tables.figures import Figure, figure_if_any
from areafit.values import Frozen


class Run(Frozen):
    """What the cable adds. `total` is None where it is not known, and `missing` says why.

    `each` is the value per metre that counts; `default` the table row that it comes from, or
    that could be asked for.
    """

    total: Decimal | None
    each: Decimal | None
    length: Decimal | None
    missing: str = ""
    default: Figure | None = None
    defaulted: bool = False


_ADDS = {
    Dimension.CAPACITANCE_PER_LENGTH: "capacitance",
    Dimension.INDUCTANCE_PER_LENGTH: "inductance",
}


def run(cable: Cable | None, law: Law | None, dimension: Dimension) -> Run:
    """What the cable adds in one dimension per length.

    Default values count only where the list asks for them, and never beside a stated value.
    """
    quantity = _ADDS[dimension]
    row = figure_if_any(f"cable {quantity}", law.value) if law is not None else None
    if cable is None:
        return Run(None, None, None, "no cable is stated", row)
    stated = cable.capacitance if quantity == "capacitance" else cable.inductance
    default = row.amount(dimension) if row is not None and cable.default else None
    each = default if stated is None else stated
    defaulted = stated is None and default is not None
    if cable.length is None:
        return Run(None, each, None, "the length of the cable is not stated", row, defaulted)
    if cable.length == 0:
        return Run(Decimal(0), each, cable.length, "", row, defaulted)
    if each is None:
        missing = f"the cable's {quantity} per length is not stated"
        return Run(None, None, cable.length, missing, row)
    return Run(settled(cable.length * each), each, cable.length, "", row, defaulted)
