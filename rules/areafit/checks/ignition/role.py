"""What a part does, as far as ignition sources that are not electrical are concerned."""

from areafit.facts.mechanics import Drive
from areafit.facts.part import Body, Kind
from areafit.facts.quantity import Dimension
from areafit.tables.figures import figure
from areafit.values import Term


class Motion(Term):
    """How a part moves; a part that is nothing but electrical has none that is asked about."""

    FIXED = "fixed, without moving parts"
    LOOSE = "loose item"
    MOVING = "moving parts"


_BY_HAND = frozenset({Drive.MANUAL, Drive.NONE})


def motion(body: Body) -> Motion | None:
    """The most onerous motion that kind, rubbing speed or drive speak of.

    A part called structural or loose that states a rubbing speed or a drive moves all the same.
    """
    kinds = body.equipment.kinds
    if Kind.MECHANICAL in kinds or body.rubbing_speed:
        return Motion.MOVING
    powered = body.drive is not None and body.drive not in _BY_HAND
    if powered and kinds & {Kind.STRUCTURAL, Kind.LOOSE_ITEM}:
        return Motion.MOVING
    if Kind.LOOSE_ITEM in kinds:
        return Motion.LOOSE
    return Motion.FIXED if Kind.STRUCTURAL in kinds else None


def by_hand(body: Body) -> bool:
    """Whether the list says that nothing but a hand moves the part."""
    return body.drive in _BY_HAND


def is_slow(body: Body) -> bool:
    """Whether a speed is stated at which rubbing makes no spark."""
    limit = figure("rubbing speed").amount(Dimension.SPEED)
    return body.rubbing_speed is not None and body.rubbing_speed <= limit
