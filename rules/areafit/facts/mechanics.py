"""How non-electrical parts move, strike, come off and are fed: the words that a list may use."""

from areafit.values import Frozen, Term


class Drive(Term):
    """What moves a part. `mechanical`: another part of the machine; `none`: nothing does."""

    PNEUMATIC = "pneumatic"
    HYDRAULIC = "hydraulic"
    ELECTRIC = "electric"
    MECHANICAL = "mechanical"
    MANUAL = "manual"
    NONE = "none"


class EndStops(Term):
    """How a movement ends."""

    NONE = "none"
    DAMPED = "damped"
    HARD = "hard"


class Release(Term):
    """What it takes to remove or open a part."""

    TOOL = "tool"
    HAND = "hand"


class LooseParts(Term):
    """What becomes of pins, springs and balls when a part is released or breaks.

    `captive`: held by a lanyard or retained; `contained`: they stay inside a closed housing.
    """

    NONE = "none"
    CAPTIVE = "captive"
    CONTAINED = "contained"
    FREE = "free"


class Form(Term):
    """A material that runs or carries a flow, and is charged by that."""

    BELT = "belt"
    HOSE = "hose"


class BeltUse(Term):
    """What a belt is for: it drives something, or it carries goods."""

    TRANSMISSION = "transmission"
    CONVEYING = "conveying"


class Conveyed(Term):
    """What flows in a hose. Dust is any powder or granulate, with the air that carries it."""

    AIR = "air"
    LIQUID = "liquid"
    DUST = "dust"


class Sparks(Term):
    """What steel of a hand tool gives off in use.

    `single`: blows and slips, as of spanners; `shower`: sawing and grinding; `none`: it strikes and
    cuts nothing, or is no tool.
    """

    NONE = "none"
    SINGLE = "single"
    SHOWER = "shower"


class Side(Term):
    """On which side of the boundary of the classified area something lies."""

    OUTSIDE = "outside the area"
    INSIDE = "inside the area"


class LossOfAir(Term):
    """What a part does when its supply fails."""

    SAFE = "safe"
    UNSAFE = "unsafe"


class AirSupply(Frozen):
    """Compressed air of a part: where it is drawn, where it leaves, what its loss brings about."""

    source: Side | None = None
    exhaust: Side | None = None
    on_loss: LossOfAir | None = None
