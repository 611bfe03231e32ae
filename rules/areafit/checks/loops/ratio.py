"""The other route for inductance: the cable's L/R against the source's Lo/Ro."""

from decimal import Decimal

from areafit.checks.loops.budget import Budget
from areafit.checks.loops.circuit import Circuit, Supply
from areafit.checks.loops.lumped import Lumped
from areafit.checks.loops.permitted import permitted
from areafit.facts.loop import ByGroup
from areafit.facts.quantity import Dimension
from areafit.tables.figures import Figure, figure_if_any
from areafit.values import Frozen

DIMENSION = Dimension.INDUCTANCE_PER_RESISTANCE


class Ratio(Frozen):
    """L/R of the cable and what the source permits of it, in H/Ω; None where it is not known.

    `open` says why the route cannot be taken although both are known; `default` is the row that
    the cable's figure comes from, if it does.
    """

    cable: Decimal | None
    permitted: Decimal | None
    open: str = ""
    default: Figure | None = None

    @property
    def serves(self) -> bool:
        """Whether the cable's length may be left out of account."""
        known = self.cable is not None and self.permitted is not None
        return known and not self.open and not self.exceeds

    @property
    def exceeds(self) -> bool:
        """Whether the cable's figure is known to be too much."""
        return self.cable is not None and self.permitted is not None and self.cable > self.permitted


def ratio(circuit: Circuit, budget: Budget) -> Ratio:
    """Both figures, and whether this circuit may be judged by them.

    The route is for circuits whose devices lump next to no inductance. With both reactances above
    1 % it does not exist; with the inductance alone above 1 % the permitted L/R has to be
    calculated anew, which is for a specialist (IEC 60079-14:2013, 16.2.4; IEC 60079-25:2010).
    """
    cable, default = _cable(circuit)
    allowed = _permitted(circuit)
    if budget.lumped is not Lumped.BELOW:
        open_ = "the devices' own inductance is not below 1 % of what the source permits"
    elif len(circuit.sources) != 1:
        open_ = "it is for a single source"
    else:
        open_ = ""
    return Ratio(cable, allowed, open_, default)


def _permitted(circuit: Circuit) -> Decimal | None:
    """The figure is stated for the loop's own group, which must do for every place."""
    figures = [_figure(source) for source in circuit.sources]
    found = [permitted(each, circuit.group, circuit.needs.groups).value for each in figures]
    return min((value for value in found if value is not None), default=None)


def _figure(source: Supply) -> ByGroup | None:
    stated = source.inductance_per_resistance
    return None if stated is None else ByGroup(any=stated)


def _cable(circuit: Circuit) -> tuple[Decimal | None, Figure | None]:
    """The cable's L/R; the default one only where asked for and the current allows it."""
    cable = circuit.cable
    if cable is None:
        return None, None
    stated = cable.inductance_per_resistance
    row = _default(circuit) if cable.default and stated is None else None
    return (stated, None) if row is None else (row.amount(DIMENSION), row)


def _default(circuit: Circuit) -> Figure | None:
    if circuit.law is None:
        return None
    law = circuit.law.value
    row = figure_if_any("cable inductance per resistance", law)
    most = figure_if_any("highest current for the default inductance per resistance", law)
    if row is None or most is None:
        return None
    limit = most.amount(Dimension.CURRENT)
    fits = all(s.current is not None and s.current <= limit for s in circuit.sources)
    return row if fits else None
