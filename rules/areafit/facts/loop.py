"""An intrinsically safe circuit: source, devices and cable, by their entity values in SI units."""

from decimal import Decimal

from areafit.facts.groups import Group
from areafit.facts.part import Item
from areafit.values import Frozen


class ByGroup(Frozen):
    """A permitted reactance per group; `any` holds the figure stated for the loop's own group."""

    any: Decimal | None = None
    groups: tuple[tuple[Group, Decimal], ...] = ()


class LoopSource(Frozen):
    """The source's output parameters (Uo, Io, Po, Co, Lo; Voc, Isc, Ca, La) in V, A, W, F, H.

    `inductance_per_resistance` (Lo/Ro, in H/Ω) holds for the loop's own group. `maximum_voltage`
    is Um; `supply` the highest voltage that can reach the terminals on the safe side, both in V.
    `linear` says whether the output falls along a straight line from Uo to Io, `together` that the
    certificate gives Co and Lo as a pair that may be connected at the same time.
    """

    item: Item
    voltage: Decimal | None = None
    current: Decimal | None = None
    power: Decimal | None = None
    capacitance: ByGroup | None = None
    inductance: ByGroup | None = None
    inductance_per_resistance: Decimal | None = None
    maximum_voltage: Decimal | None = None
    supply: Decimal | None = None
    linear: bool | None = None
    together: bool | None = None


class LoopDevice(Frozen):
    """A device's input parameters (Ui, Ii, Pi, Ci, Li; Vmax, Imax) in V, A, W, F, H.

    Ui, Ii or Pi is infinite where the list says `none`: the device has no such limit, as simple
    apparatus has not. `active` says that the device is a further source of energy.
    """

    item: Item
    voltage: Decimal | None = None
    current: Decimal | None = None
    power: Decimal | None = None
    capacitance: Decimal | None = None
    inductance: Decimal | None = None
    active: bool | None = None


class Cable(Frozen):
    """Cable of a loop: m, F/m, H/m, H/Ω; `default` says that the file asks for default values."""

    length: Decimal | None = None
    capacitance: Decimal | None = None
    inductance: Decimal | None = None
    inductance_per_resistance: Decimal | None = None
    default: bool = False


class Loop(Frozen):
    """One circuit; `sources` holds one entry, or several where the file lists several."""

    index: int
    name: str
    group: Group | None
    sources: tuple[LoopSource, ...]
    devices: tuple[LoopDevice, ...]
    cable: Cable | None = None
    locations: tuple[str, ...] = ()
