"""What the devices of a circuit lump, and whether that halves what may be connected."""

from collections.abc import Iterable
from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.quantity import Dimension
from areafit.tables.figures import Figure, figure
from areafit.values import Frozen, Term


class Sum(Frozen):
    """What is known of a sum, and the items whose share is not stated."""

    known: Decimal
    missing: tuple[str, ...]

    @classmethod
    def of(cls, shares: Iterable[tuple[str, Decimal | None]]) -> "Sum":
        """The sum of the stated shares."""
        listed = tuple(shares)
        known = sum((value for _, value in listed if value is not None), Decimal(0))
        return cls(known, tuple(item for item, value in listed if value is None))


class Lumped(Term):
    """Where the lumped reactance of the devices stands against 1 % of the permitted one."""

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


def lumped(devices: Sum, limit: Decimal | None) -> Lumped:
    """Compare with the share of the permitted reactance; nothing lumped is never too much."""
    if not devices.missing and devices.known == 0:
        return Lumped.BELOW
    if limit is None:
        return Lumped.OPEN
    edge = limit * lumped_share()
    if devices.known > edge:
        return Lumped.ABOVE
    if devices.missing:
        return Lumped.OPEN
    return Lumped.AT if devices.known == edge else Lumped.BELOW


def lumped_share() -> Decimal:
    """The share of a permitted reactance that devices may lump without halving it."""
    return figure("lumped share").amount(Dimension.FRACTION) / 100


def halving(capacitance: Lumped, inductance: Lumped) -> Halving:
    """Both above 1 % halve; texts differ on exactly 1 %, and an unknown share leaves it open."""
    found = {capacitance, inductance}
    if Lumped.BELOW in found:
        return Halving.NO
    if Lumped.OPEN in found:
        return Halving.OPEN
    return Halving.YES if found == {Lumped.ABOVE} else Halving.AT_THE_EDGE


def cap_row(groups: Iterable[Group]) -> Figure:
    """The lowest cap on a halved capacitance among the groups."""
    rows = [figure("reduced capacitance", group.value) for group in groups]
    return min(rows, key=lambda row: row.amount(Dimension.CAPACITANCE))
