"""What a part states of itself beyond its nameplate: kind of device, contacts, purge, entries.

The allowances for unmarked equipment, purged enclosures and cable entries rest on these facts.
"""

from decimal import Decimal

from areafit.facts.evidence import Condition
from areafit.facts.marking import Marking
from areafit.values import Frozen, Term


class Device(Term):
    """What an electrical part is, as the installation rules speak of it."""

    SQUIRREL_CAGE_MOTOR = "squirrel-cage motor"
    MOTOR_WITH_SWITCH = "motor with switch"  # start switch, brushes, slip rings or a protector
    MOTOR_SPACE_HEATER = "motor space heater"
    HEATER = "heater"
    RESISTOR = "resistor"
    LUMINAIRE = "luminaire"
    TRANSFORMER = "transformer"
    SOLENOID = "solenoid"
    INSTRUMENT = "instrument"
    RELAY = "relay"
    CONTACTOR = "contactor"
    SWITCH = "switch"
    PUSH_BUTTON = "push button"
    CIRCUIT_BREAKER = "circuit breaker"
    RECEPTACLE = "receptacle"
    JUNCTION_BOX = "junction box"
    CABLE_GLAND = "cable gland"
    STOPPING_PLUG = "stopping plug"
    THREAD_ADAPTER = "thread adapter"
    CONDUIT_SEAL = "conduit seal"


class ContactProtection(Term):
    """What keeps make-and-break contacts from the atmosphere, or from igniting it."""

    HERMETIC = "hermetically sealed"
    SEALED_CHAMBER = "sealed chamber"
    OIL = "oil immersed"
    NONINCENDIVE = "nonincendive circuit"
    NONE = "none"


class IntrinsicSafety(Term):
    """Why a part that bears the marking of intrinsic safety stands in no circuit."""

    OWN_CELL = "own cell"  # fed by it, and nothing is connected from outside
    INSIDE_ONLY = "inside only"  # what is connected from outside has another protection


class Starting(Term):
    """How a motor is started, as the time tE speaks of it."""

    DIRECT = "direct-on-line"  # easy and seldom
    HEAVY = "heavy or frequent"
    SOFT = "soft starter"


class WiringMethod(Term):
    """How a circuit is run: the kinds of cable and raceway that the installation rules name."""

    RIGID_CONDUIT = "threaded rigid conduit"  # RMC or IMC
    MI_CABLE = "MI cable"
    MC_HL_CABLE = "MC-HL cable"
    ITC_HL_CABLE = "ITC-HL cable"
    TC_ER_HL_CABLE = "TC-ER-HL cable"
    MC_CABLE = "MC cable"
    TC_CABLE = "TC cable"
    ITC_CABLE = "ITC cable"
    PLTC_CABLE = "PLTC cable"
    LISTED_FLEXIBLE_FITTING = "listed flexible fitting"  # for the class: explosionproof, dusttight
    LIQUIDTIGHT_CONDUIT = "liquidtight flexible conduit"
    FLEXIBLE_METAL_CONDUIT = "flexible metal conduit"
    METALLIC_TUBING = "electrical metallic tubing"
    PLASTIC_CONDUIT = "PVC conduit"
    WIREWAY = "wireway"
    SHEATHED_CABLE = "sheathed cable"  # as IEC 60079-14 speaks of it: round, compact, filled
    FLEXIBLE_CORD = "flexible cord"
    OTHER = "other"


class CordUsage(Term):
    """For which usage a flexible cord is listed or built."""

    EXTRA_HARD = "extra-hard"  # heavy rubber sheath
    HARD = "hard"  # ordinary rubber sheath
    LIGHT = "light"


class CordServes(Term):
    """What a flexible cord feeds."""

    PORTABLE = "portable equipment"
    MOVING = "moving equipment"
    IMMERSED = "submersible pump or mixer"
    TEMPORARY = "temporary assembly"
    FIXED = "fixed equipment"


class Wiring(Frozen):
    """A line that is a cable, a cord or a raceway: how it runs, and of a cord what it is for.

    `moves`: what it joins moves or vibrates against its supply. `grounding_conductor`: the cord
    has one beside its other conductors.
    """

    method: WiringMethod | None = None
    moves: bool | None = None
    usage: CordUsage | None = None
    serves: CordServes | None = None
    grounding_conductor: bool | None = None


class BatteryCare(Term):
    """Where a battery is charged or replaced."""

    OUTSIDE = "outside the area"
    INSIDE = "inside the area"
    NEVER = "never"


class Battery(Frozen):
    """The battery of a part; `present` is False where there is none."""

    charged: BatteryCare | None = None
    replaced: BatteryCare | None = None
    present: bool | None = None


class Enclosure(Term):
    """How a general-purpose part is enclosed."""

    OPEN = "open"
    GENERAL_PURPOSE = "general purpose"
    DUSTTIGHT = "dusttight"
    TOTALLY_ENCLOSED = "totally enclosed"


class Contents(Term):
    """What may stand inside a purged or pressurized enclosure."""

    GENERAL_PURPOSE = "general purpose"
    DIVISION_2 = "Division 2"
    ZONE_2 = "Zone 2"


class OnLoss(Term):
    """What follows when the pressure in a purged enclosure is lost."""

    POWER_CUT = "power cut"
    ALARM = "alarm"
    NOTHING = "nothing"


class Pressurization(Frozen):
    """A purged enclosure: what stands inside, and what follows loss of pressure."""

    contents: Contents | None = None
    on_loss: OnLoss | None = None


class ConduitSeals(Frozen):
    """Conduit seals at an explosionproof enclosure: greatest distance in m, and on every run."""

    within: Decimal | None = None
    all_runs: bool | None = None


class EntryType(Term):
    """What closes an opening of an enclosure."""

    CABLE_GLAND = "cable gland"
    CONDUIT_SEAL = "conduit seal"
    CONDUIT = "conduit"  # threaded in, without a seal near the enclosure
    ADAPTER = "adapter"
    PLUG = "plug"
    OPEN_HOLE = "open hole"


class Compartment(Term):
    """What an opening leads into, of equipment with a flameproof and an increased-safety part."""

    FLAMEPROOF = "d"
    INCREASED_SAFETY = "e"


class Entry(Frozen):
    """One opening of an enclosure and what closes it.

    `thread` is that of the fitting, `hole` that of the enclosure; `within` the distance of a
    conduit seal from the enclosure in m, `trade_size` that of its conduit in inches; `conditions`
    are those of an `X` on the fitting.
    """

    type: EntryType
    markings: tuple[Marking, ...] | None = None
    thread: str | None = None
    hole: str | None = None
    ingress: str | None = None
    within: Decimal | None = None
    conditions: tuple[Condition, ...] | None = None
    into: Compartment | None = None
    trade_size: Decimal | None = None
