"""What a circuit may hold of one reactance against what it holds: capacitance or inductance."""

from decimal import Decimal

from areafit.checks.loops.cable import Run, run
from areafit.checks.loops.circuit import Circuit
from areafit.checks.loops.figures import settled
from areafit.checks.loops.lumped import Halving, Lumped, Sum, cap_row, halving, lumped
from areafit.checks.loops.permitted import Permitted, permitted
from areafit.facts.groups import Group
from areafit.facts.quantity import Dimension
from areafit.tables.figures import Figure
from areafit.values import Frozen

PER_LENGTH = {
    Dimension.CAPACITANCE: Dimension.CAPACITANCE_PER_LENGTH,
    Dimension.INDUCTANCE: Dimension.INDUCTANCE_PER_LENGTH,
}


class Lump(Frozen):
    """What the devices lump of one reactance beside what the source permits of it."""

    dimension: Dimension
    devices: Sum
    permitted: Decimal | None


class Budget(Frozen):
    """One reactance of a circuit, reckoned.

    `full` is the permitted one and `reduced` what is left of it by the 50 % rule; both are None
    where no stated figure holds for the places. `known` is the sum of all that is stated, and
    `lumps` what the devices hold of both reactances.
    """

    dimension: Dimension
    allowed: Permitted
    devices: Sum
    run: Run
    halving: Halving
    lumped: Lumped
    cap: Figure | None
    full: Decimal | None
    reduced: Decimal | None
    known: Decimal
    lumps: tuple[Lump, ...]

    @property
    def certain(self) -> Decimal | None:
        """The limit that certainly holds: more than that is too much, whatever is missing."""
        return self.reduced if self.halving is Halving.YES else self.full

    @property
    def strict(self) -> Decimal | None:
        """The limit that is safe to keep, whether or not the missing facts would halve it."""
        return self.full if self.halving is Halving.NO else self.reduced

    def longest(self) -> Decimal | None:
        """The longest cable in m that keeps the strict limit; None where it cannot be told.

        Where the list states no value per length, the default one is taken for this figure only.
        """
        each = self.run.each
        if each is None and self.run.default is not None:
            each = self.run.default.amount(PER_LENGTH[self.dimension])
        if self.strict is None or self.devices.missing or not each:
            return None
        return max(settled((self.strict - self.devices.known) / each), Decimal(0))


def budget(circuit: Circuit, dimension: Dimension) -> Budget:
    """Reckon one reactance of a circuit."""
    sums = {each: _sum(circuit, each) for each in PER_LENGTH}
    allowed = {each: _allowed(circuit, each) for each in PER_LENGTH}
    shares = {each: lumped(sums[each], allowed[each].value) for each in PER_LENGTH}
    full = allowed[dimension].value
    cap = cap_row(_groups(circuit, allowed[dimension])) if full is not None else None
    adds = run(circuit.cable, circuit.law, PER_LENGTH[dimension])
    return Budget(
        dimension,
        allowed[dimension],
        sums[dimension],
        adds,
        halving(*shares.values()),
        shares[dimension],
        cap if dimension is Dimension.CAPACITANCE else None,
        full,
        _reduced(full, cap, dimension),
        settled(sums[dimension].known + (adds.total or 0)),
        tuple(Lump(each, sums[each], allowed[each].value) for each in PER_LENGTH),
    )


def _reduced(full: Decimal | None, cap: Figure | None, dimension: Dimension) -> Decimal | None:
    if full is None:
        return None
    if cap is None or dimension is not Dimension.CAPACITANCE:
        return full / 2
    return min(full / 2, cap.amount(dimension))


def _sum(circuit: Circuit, dimension: Dimension) -> Sum:
    if dimension is Dimension.CAPACITANCE:
        return Sum.of((device.item, device.capacitance) for device in circuit.devices)
    return Sum.of((device.item, device.inductance) for device in circuit.devices)


def _allowed(circuit: Circuit, dimension: Dimension) -> Permitted:
    """What the sources permit: with several, the least of it, or what one leaves open."""
    capacitive = dimension is Dimension.CAPACITANCE
    figures = [s.capacitance if capacitive else s.inductance for s in circuit.sources]
    found = [permitted(each, circuit.group, circuit.needs.groups) for each in figures]
    known = [each for each in found if each.value is not None]
    if not found or len(known) < len(found):
        return next((each for each in found if each.value is None), Permitted())
    return min(known, key=lambda each: each.value or Decimal(0))


def _groups(circuit: Circuit, allowed: Permitted) -> tuple[Group, ...]:
    needed = tuple(need.group for need in circuit.needs.groups)
    return needed or (allowed.group if allowed.group is not None else Group.IIC,)
