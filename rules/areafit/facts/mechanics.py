"""How non-electrical parts move, strike, come off and are fed: the words that a list may use."""

from decimal import Decimal

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


class Finish(Term):
    """How the surface of stainless steel was left."""

    AS_WELDED = "as welded"
    PICKLED = "pickled"
    ELECTROPOLISHED = "electropolished"


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


class BrakeUse(Term):
    """What a brake is used for."""

    PARKING = "parking"  # holds what stands
    EMERGENCY = "emergency stop"
    SERVICE = "service"  # stops what moves, in every cycle


class Brake(Frozen):
    """A brake: its use, J that one stop puts into it and J that it may take in Ex use.

    `interlocked`: a parking brake under which the drive cannot start.
    """

    use: BrakeUse | None = None
    energy: Decimal | None = None
    rated_energy: Decimal | None = None
    interlocked: bool | None = None


class Slip(Term):
    """What becomes of a clutch or coupling that slips."""

    PREVENTED = "prevented"  # it engages by form, or lets go at once
    MONITORED = "monitored"  # speed, temperature or a fusible plug stops the drive
    POSSIBLE = "possible"


class Fluid(Term):
    """The working liquid of a hydraulic or hydrodynamic part (ISO 6743-4, ISO 12922)."""

    MINERAL_OIL = "mineral oil"
    HFA = "HFA"
    HFB = "HFB"
    HFC = "HFC"
    HFDR = "HFDR"
    HFDU = "HFDU"
    WATER = "water"
    OTHER = "other"


class Liquid(Frozen):
    """A liquid that a part works with or is immersed in; temperatures in °C.

    `hottest` is the highest that it, or what it touches, reaches.
    """

    kind: Fluid | None = None
    flash_point: Decimal | None = None
    autoignition: Decimal | None = None
    hottest: Decimal | None = None
