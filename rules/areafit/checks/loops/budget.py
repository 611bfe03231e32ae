"""What a circuit holds of capacitance or inductance, and how much its source permits of it."""

from collections.abc import Iterable
from decimal import Context, Decimal

from areafit.checks.loops.needs import (
    GroupNeeds,
    Permitted,
    law_of,
    needs_of,
    permitted,
    stated_system,
)
from areafit.demands import Gap
from areafit.facts.groups import Group
from areafit.facts.loop import ByGroup, Cable
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension
from areafit.subjects import LoopCase
from areafit.tables.limits import Figure, figure, figure_if_any
from areafit.values import Frozen, Term, replace

PER_LENGTH = {
    Dimension.CAPACITANCE: Dimension.CAPACITANCE_PER_LENGTH,
    Dimension.INDUCTANCE: Dimension.INDUCTANCE_PER_LENGTH,
}

# A value per foot does not end as a decimal per metre. Rounding sums to 24 of the 28 digits that
# were reckoned makes 1000 ft of 60 pF/ft exactly 60 nF again, so that equality means equality.
_SETTLED = Context(prec=24).plus


class DeviceShare(Frozen):
    """A device's internal capacitance and inductance in F and H; None where not stated."""

    item: str
    capacitance: Decimal | None
    inductance: Decimal | None

    def of(self, dimension: Dimension) -> Decimal | None:
        """One of the two."""
        return self.capacitance if dimension is Dimension.CAPACITANCE else self.inductance


class SourcePermits(Frozen):
    """What a source permits outside of it, in F, H and H/Ω, and its current in A.

    `together`: its capacitance and inductance are a pair that holds for both at once.
    """

    item: str
    capacitance: ByGroup | None
    inductance: ByGroup | None
    inductance_per_resistance: Decimal | None
    current: Decimal | None
    together: bool | None = None

    def of(self, dimension: Dimension) -> ByGroup | None:
        """The figures of one reactance."""
        return self.capacitance if dimension is Dimension.CAPACITANCE else self.inductance


class Circuit(Frozen):
    """All that the two reactance rules rest on."""

    law: Law | None
    group: Group | None
    sources: tuple[SourcePermits, ...]
    devices: tuple[DeviceShare, ...]
    cable: Cable | None
    needs: GroupNeeds

    @classmethod
    def of(cls, case: LoopCase) -> "Circuit":
        """The reactances of a loop with the groups of the places that it enters."""
        loop = case.loop
        return cls(
            law_of(case),
            loop.group,
            tuple(
                SourcePermits(
                    s.item,
                    s.capacitance,
                    s.inductance,
                    s.inductance_per_resistance,
                    s.current,
                    s.together,
                )
                for s in loop.sources
            ),
            tuple(DeviceShare(d.item, d.capacitance, d.inductance) for d in loop.devices),
            loop.cable,
            needs_of(case, stated_system(case)),
        )

    @property
    def paired(self) -> bool:
        """Whether the permitted reactances hold for both at once, so that nothing is halved."""
        return bool(self.sources) and all(source.together for source in self.sources)

    def over(self, gaps: tuple[Gap, ...]) -> "Circuit":
        """The same, were these gaps all that is not known of its places."""
        return replace(self, needs=replace(self.needs, gaps=gaps))


class CableAdds(Frozen):
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


def cable_adds(cable: Cable | None, law: Law | None, dimension: Dimension) -> CableAdds:
    """What the cable adds of one reactance.

    Default values count only where the list asks for them, and never beside a stated value.
    """
    capacitive = dimension is Dimension.CAPACITANCE
    quantity = "capacitance" if capacitive else "inductance"
    row = figure_if_any(f"cable {quantity}", law.value) if law is not None else None
    if cable is None:
        return CableAdds(None, None, None, "no cable is stated", row)
    stated = cable.capacitance if capacitive else cable.inductance
    asked = row is not None and cable.default
    default = row.amount(PER_LENGTH[dimension]) if row is not None and asked else None
    each = default if stated is None else stated
    defaulted = stated is None and default is not None
    if cable.length is None:
        return CableAdds(None, each, None, "the length of the cable is not stated", row, defaulted)
    if cable.length == 0:
        return CableAdds(Decimal(0), each, cable.length, "", row, defaulted)
    if each is None:
        missing = f"the cable's {quantity} per length is not stated"
        return CableAdds(None, None, cable.length, missing, row)
    return CableAdds(_SETTLED(cable.length * each), each, cable.length, "", row, defaulted)


class Sum(Frozen):
    """What is known of a sum, and the items whose share is not stated."""

    known: Decimal
    missing: tuple[str, ...]


class Lumped(Term):
    """Where the lumped reactance of the devices stands against its share of the permitted one."""

    BELOW = "below"
    AT = "at"
    ABOVE = "above"
    OPEN = "open"


class Halving(Term):
    """Whether the permitted reactances are halved."""

    NO = "no"
    YES = "yes"
    AT_THE_EDGE = "at the edge"
    OPEN = "open"


class Lump(Frozen):
    """What the devices lump of one reactance beside what the source permits of it."""

    dimension: Dimension
    devices: Sum
    allowed: Permitted

    @property
    def stands(self) -> Lumped:
        """Nothing lumped is never too much, whatever is permitted."""
        if not self.devices.missing and self.devices.known == 0:
            return Lumped.BELOW
        if self.allowed.value is None:
            return Lumped.OPEN
        edge = self.allowed.value * _percent(lumped_share())
        if self.devices.known > edge:
            return Lumped.ABOVE
        if self.devices.missing:
            return Lumped.OPEN
        return Lumped.AT if self.devices.known == edge else Lumped.BELOW


def lumped_share() -> Figure:
    """The share of a permitted reactance that devices may lump without halving it."""
    return figure("lumped share")


def halved_share() -> Figure:
    """What is left of both permitted reactances where the devices lump more than that of both."""
    return figure("permitted share where both are lumped")


def _percent(row: Figure) -> Decimal:
    return row.amount(Dimension.FRACTION) / 100


class Budget(Frozen):
    """One reactance of a circuit, reckoned.

    `own` is what the devices hold of it and `lumps` what they hold of both. `full` is the
    permitted one and `reduced` what is left of it where it is halved; both are None where no
    stated figure holds for the places. `known` is the sum of all that is stated.
    """

    own: Lump
    lumps: tuple[Lump, ...]
    cable: CableAdds
    halving: Halving
    cap: Figure | None
    reduced: Decimal | None

    @property
    def dimension(self) -> Dimension:
        """Which reactance."""
        return self.own.dimension

    @property
    def full(self) -> Decimal | None:
        """The permitted reactance."""
        return self.own.allowed.value

    @property
    def known(self) -> Decimal:
        """What the devices and the cable hold, as far as it is stated."""
        return _SETTLED(self.own.devices.known + (self.cable.total or 0))

    @property
    def certain(self) -> Decimal | None:
        """The limit that certainly holds: more than that is too much, whatever is missing."""
        return self.reduced if self.halving is Halving.YES else self.full

    @property
    def capped(self) -> bool:
        """Whether the cap of the group is what is left, not the share."""
        share = None if self.full is None else self.full * _percent(halved_share())
        return share is not None and self.reduced is not None and self.reduced < share

    @property
    def strict(self) -> Decimal | None:
        """The limit that is safe to keep, whether or not the missing facts would halve it."""
        return self.full if self.halving is Halving.NO else self.reduced

    @property
    def longest(self) -> Decimal | None:
        """The longest cable in m that keeps the strict limit; None where it cannot be told.

        Where the list states no value per length, the default one is taken for this figure only.
        """
        each = self.cable.each
        if each is None and self.cable.default is not None:
            each = self.cable.default.amount(PER_LENGTH[self.dimension])
        if self.strict is None or self.own.devices.missing or not each:
            return None
        return max(_SETTLED((self.strict - self.own.devices.known) / each), Decimal(0))


def budget(circuit: Circuit, dimension: Dimension) -> Budget:
    """Reckon one reactance of a circuit."""
    lumps = {each: Lump(each, _sum(circuit, each), _allowed(circuit, each)) for each in PER_LENGTH}
    own = lumps[dimension]
    full, cap = own.allowed.value, None
    reduced = None if full is None else full * _percent(halved_share())
    if reduced is not None and dimension is Dimension.CAPACITANCE:
        cap = _cap(_groups(circuit, own.allowed))
        reduced = min(reduced, cap.amount(dimension))
    return Budget(
        own,
        tuple(lumps.values()),
        cable_adds(circuit.cable, circuit.law, dimension),
        Halving.NO if circuit.paired else _halving(lumps.values()),
        cap,
        reduced,
    )


def _sum(circuit: Circuit, dimension: Dimension) -> Sum:
    shares = [(device.item, device.of(dimension)) for device in circuit.devices]
    known = sum((value for _, value in shares if value is not None), Decimal(0))
    return Sum(known, tuple(item for item, value in shares if value is None))


def _allowed(circuit: Circuit, dimension: Dimension) -> Permitted:
    """What the sources permit: with several, the least of it, or what one leaves open."""
    figures = [source.of(dimension) for source in circuit.sources]
    found = [permitted(each, circuit.group, circuit.needs.groups) for each in figures]
    known = [each for each in found if each.value is not None]
    if not found or len(known) < len(found):
        return next((each for each in found if each.value is None), Permitted())
    return min(known, key=lambda each: each.value or Decimal(0))


def _halving(lumps: Iterable[Lump]) -> Halving:
    """Both above the share halve; texts differ on just the share, and an unknown one is open."""
    found = {lump.stands for lump in lumps}
    if Lumped.BELOW in found:
        return Halving.NO
    if Lumped.OPEN in found:
        return Halving.OPEN
    return Halving.YES if found == {Lumped.ABOVE} else Halving.AT_THE_EDGE


def _groups(circuit: Circuit, allowed: Permitted) -> tuple[Group, ...]:
    needed = tuple(need.group for need in circuit.needs.groups)
    return needed or (allowed.group if allowed.group is not None else Group.IIC,)


def _cap(groups: Iterable[Group]) -> Figure:
    """The lowest cap on a halved capacitance among the groups."""
    rows = [figure("reduced capacitance", group.value) for group in groups]
    return min(rows, key=lambda row: row.amount(Dimension.CAPACITANCE))
