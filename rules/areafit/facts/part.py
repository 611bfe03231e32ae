"""A line of the bill of materials, split into the aspects that rules read.

A rule sees one aspect and one place, never the whole part: that keeps its reading small, and
parts that agree in an aspect are judged once. None means not stated; an empty tuple means that
the list says `none`.
"""

from datetime import date
from decimal import Decimal

from areafit.facts.evidence import Evidence, Examined
from areafit.facts.fittings import (
    Battery,
    ConduitSeals,
    ContactProtection,
    Device,
    Enclosure,
    Entry,
    IntrinsicSafety,
    Pressurization,
    Starting,
    Wiring,
)
from areafit.facts.marking import Code, Marking
from areafit.facts.mechanics import (
    AirSupply,
    BeltUse,
    Brake,
    Conveyed,
    Drive,
    EndStops,
    Finish,
    Form,
    Liquid,
    LooseParts,
    Release,
    Slip,
    Sparks,
)
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Range
from areafit.values import Frozen, Term


class Kind(Term):
    """What sort of part a line is; decides which rules ask."""

    ELECTRICAL = "electrical"
    MECHANICAL = "mechanical"
    STRUCTURAL = "structural"
    SIMPLE_APPARATUS = "simple apparatus"
    LOOSE_ITEM = "loose item"
    UNKNOWN = "unknown"


class Exposure(Term):
    """How a surface meets a chemical, most severe first."""

    IMMERSED = "immersed"
    SPLASH = "splash"
    WASHDOWN = "washdown"
    FUME = "fume"
    ROOM = "room"
    ENCLOSED = "enclosed"


LIQUID = frozenset({Exposure.IMMERSED, Exposure.SPLASH, Exposure.WASHDOWN})
WET = LIQUID | {Exposure.FUME}
"""Exposures at which a surface is wetted: by liquid, or by what condenses."""


class Item(str):
    """The item of a line, or of a line that another one names."""

    __slots__ = ()


class SurfaceCase(Term):
    """In which state a surface temperature was found (EN 1127-1)."""

    NORMAL = "normal"
    EXPECTED_MALFUNCTION = "expected malfunction"
    RARE_MALFUNCTION = "rare malfunction"


class SurfaceTemperature(Frozen):
    """A stated hottest surface in °C, with the ambient and the state it was found at."""

    value: Decimal
    at_ambient: Decimal | None = None
    case: SurfaceCase | None = None
    source: str | None = None


class Generates(Frozen):
    """What a simple apparatus can generate: V, A and W; `output` is False if it is nothing."""

    voltage: Decimal | None = None
    current: Decimal | None = None
    power: Decimal | None = None
    output: bool | None = None


class Housed(Frozen):
    """The enclosure that a part stands in, as it is judged at the part's place.

    `lacks` says why it does not count there, empty where marking, document and rating pass and a
    document names or allows the part; `named` says that one names it. `inside_ambient` is in °C.
    The list does not state it: it follows from the line that `inside` names.
    """

    item: Item
    lacks: str
    named: bool
    inside_ambient: Range | None
    markings: "tuple[Marking, ...] | None" = None
    ingress: str | None = None

    @property
    def counts(self) -> bool:
        """Whether it protects what stands in it."""
        return not self.lacks


class MountedLine(Frozen):
    """What a line says that it is, which is or holds something electrical."""

    description: str | None = None
    device: Device | None = None
    content: str | None = None


class Mounted(Frozen):
    """The lines of an assembly, in others of it too: their kinds, and which are electrical."""

    kinds: frozenset[Kind]
    electrical: frozenset[MountedLine] = frozenset()


_WITHOUT_LOAD = frozenset({Device.JUNCTION_BOX, Device.SWITCH, Device.PUSH_BUTTON})


class Equipment(Frozen):
    """What the area rules read of a part: nameplate, ratings and documents.

    `in_loop` says that a loop of the list names the part; `parent` is the item it is mounted in,
    `inside` the enclosure that it stands in, `inside_ambient` the air there or inside itself in °C.
    `housed` and `faces_process` are worked out for each place and stated nowhere, `kept` (somebody
    answers for its plate or papers) from the options of a run, `mounted` from
    the lines of an assembly.
    in the `description` rules look for what contradicts a statement, never for what would stand
    for one. `optical_power` in W is that of focused light, `optical_irradiance` in W/m² that of
    its narrowest spot, `radio_power` in W what an antenna radiates in its best direction,
    `ultrasound_intensity` in W/m². `te_time` and `overload_trip` in s. `interlocked`:
    a receptacle whose plug goes in and out only while it is dead.
    """

    kinds: frozenset[Kind]
    markings: tuple[Marking, ...] | None = None
    ambient: Range | None = None
    surface: SurfaceTemperature | None = None
    ingress: str | None = None
    evidence: tuple[Evidence, ...] | None = None
    electrical_content: str | None = None
    arcing: bool | None = None
    generates: Generates | None = None
    placed_on_market: date | None = None
    in_service: bool | None = None
    device: Device | None = None
    contact_protection: ContactProtection | None = None
    enclosure: Enclosure | None = None
    heat_producing: bool | None = None
    inverter_fed: bool | None = None
    space_heater: bool | None = None
    overloadable: bool | None = None
    pressurization: Pressurization | None = None
    conduit_seals: ConduitSeals | None = None
    entries: tuple[Entry, ...] | None = None
    intrinsic_safety: IntrinsicSafety | None = None
    optical_power: Decimal | None = None
    optical_irradiance: Decimal | None = None
    radio_power: Decimal | None = None
    ultrasound_intensity: Decimal | None = None
    te_time: Decimal | None = None
    overload_trip: Decimal | None = None
    starting: Starting | None = None
    wiring: Wiring | None = None
    interlocked: bool | None = None
    battery: Battery | None = None
    in_loop: bool = False
    description: str | None = None
    parent: Item | None = None
    inside: Item | None = None
    inside_ambient: Range | None = None
    housed: Housed | None = None
    faces_process: bool = False
    kept: bool = False
    mounted: Mounted | None = None

    @property
    def electrical(self) -> bool:
        """Whether the part is or holds something electrical, as far as it is stated."""
        wired = self.electrical_content is not None and self.electrical_content != "none"
        return Kind.ELECTRICAL in self.kinds or wired

    @property
    def dissipates_nothing(self) -> bool:
        """Whether it is simple apparatus with nothing in it that a circuit heats.

        IEC 60079-11:2011 5.7 names boxes for terminals and switches.
        """
        named = self.device in _WITHOUT_LOAD and self.heat_producing is not True
        return named and self.kinds == {Kind.SIMPLE_APPARATUS}

    @property
    def codes(self) -> tuple[Code, ...]:
        """Every complete code of the nameplate."""
        return tuple(code for marking in self.markings or () for code in marking.codes)


class Body(Frozen):
    """What the rules for non-electrical equipment and static read of a part.

    `rubbing_speed` in m/s, `resistance_to_earth` in Ω, `capacitance` to earth in F, `drop_height`
    in m (0: nothing can fall). `protects` says whether the protection of anything depends on the
    part. `use`, `belt_speed` in m/s and `conveys` are of those belts and hoses among its materials
    that state none of their own. `examined` and `refused`, the hazards for which its plate is
    flagged, are worked out for each place and stated nowhere.
    """

    equipment: Equipment
    materials: "tuple[MaterialUse, ...] | None" = None
    materials_complete: bool | None = None
    rubbing_speed: Decimal | None = None
    bonded: bool | None = None
    resistance_to_earth: Decimal | None = None
    capacitance: Decimal | None = None
    drive: Drive | None = None
    air_supply: AirSupply | None = None
    drop_height: Decimal | None = None
    end_stops: EndStops | None = None
    protects: bool | None = None
    release: Release | None = None
    loose_parts: LooseParts | None = None
    use: BeltUse | None = None
    belt_speed: Decimal | None = None
    conveys: Conveyed | None = None
    sparks: Sparks | None = None
    brake: Brake | None = None
    slip: Slip | None = None
    liquid: Liquid | None = None
    examined: tuple[Examined, ...] = ()
    refused: frozenset[Hazard] = frozenset()

    def papers(self, hazard: Hazard) -> Examined | None:
        """What its papers say of its housing against a hazard; None where there are none."""
        return next((each for each in self.examined if each.hazard is hazard), None)


class MaterialUse(Frozen):
    """One material of a part, where and how it is used. Lengths in m, areas in m², Ω, %.

    `framed`: the surface is bounded by an earthed metal frame. `charge` in C is what a test of
    the surface transferred, `breakdown_voltage` in V that of a layer on metal. `counterface` is
    the material that it rubs or may strike, `none` where it touches nothing. `resistance` of a
    hose is taken from end to end, of a belt from its running face to earth; `speed` in m/s.
    The engine puts on what is stated nowhere here: `works_in` is the liquid of its part, `screw`
    the description of a line that is one by its name.
    """

    material: str
    component: str | None = None
    exposure: Exposure | None = None
    to: tuple[str, ...] | None = None
    surface_area: Decimal | None = None
    surface_resistance: Decimal | None = None
    width: Decimal | None = None
    layer_thickness: Decimal | None = None
    backing: str | None = None
    substrate: str | None = None
    composition: tuple[tuple[str, Decimal], ...] | None = None
    welded: bool | None = None
    property_class: str | None = None
    hardness: str | None = None
    crevice: bool | None = None
    stressed: bool | None = None
    breathes: bool | None = None
    temperature: Range | None = None
    framed: bool | None = None
    charge: Decimal | None = None
    breakdown_voltage: Decimal | None = None
    counterface: str | None = None
    form: Form | None = None
    finish: Finish | None = None
    resistance: Decimal | None = None
    speed: Decimal | None = None
    use: BeltUse | None = None
    conveys: Conveyed | None = None
    instead: str | None = None
    document: str | None = None
    works_in: Liquid | None = None
    screw: str | None = None


class Disagreement(Frozen):
    """A fact that a line states otherwise than the library's entry of its part number.

    `prefix` is the path of the line or of its alternate; both values as they are written.
    """

    prefix: str
    key: str
    line: str
    library: str


class Answered(Frozen):
    """An answer that came in for a fact which the line states otherwise, or through others.

    `path` is that of the fact below the line; both values as they are written. `agrees` says that
    both are the same fact, so that nothing is open.
    """

    path: str
    line: str
    answer: str
    document: str | None
    role: str
    on: date
    agrees: bool = False


class ContactRef(Frozen):
    """A galvanic contact with another item, as the list states it."""

    item: Item
    wet: bool | None = None
    component: str | None = None
    with_component: str | None = None


class Complete(Frozen):
    """Whether all materials of a part are listed, and the document that says so."""

    complete: bool | None = None
    document: str | None = None


class Wetting(Frozen):
    """Whether everything of a part that meets the chemicals of its place is listed.

    `exposure` is the worst of any of its materials; the description is that of a part of which no
    document says that its list is complete, else None, and `components` are those that the list
    names then, be it as ones that the part has not. `bare`: the list says `none` of a part that
    must have a material, or that is not said to be kept dry. `assembled`: other lines are mounted
    in it, so that it may be made of nothing but them. `plated`: nothing is said of what it is made
    of, and it is electrical and bears a plate, or states what cable or raceway it is.
    """

    listed: bool
    complete: bool | None
    exposure: Exposure | None
    description: str | None = None
    bare: bool = False
    assembled: bool = False
    components: tuple[str, ...] = ()
    plated: bool = False


class Part(Frozen):
    """One line: identity, where it stands, and its aspects.

    `index` is its place in `parts`; `alternate` the number of the alternative judged, 0 for the
    line itself; `prefix` the path that findings on it start with. `without` are components that it
    is said not to have, `materials_document` says that the materials are all, `contacts_note` is
    the note that says that it touches nothing. `proposed` are the keys that a
    program or a colleague proposed and nobody confirmed yet; `line_id` is the CAD's own.
    `answered` came in for facts that are stated; `otherwise` is the line as each of those has it
    that differ, and last as all of them have it where there are several.
    """

    index: int
    item: Item
    locations: tuple[str, ...]
    equipment: Equipment
    body: Body
    materials: tuple[MaterialUse, ...] | None = None
    materials_complete: bool | None = None
    materials_document: str | None = None
    without: tuple[str, ...] = ()
    exposure: Exposure | None = None
    contacts: tuple[ContactRef, ...] | None = None
    contacts_note: str | None = None
    part_number: str | None = None
    description: str | None = None
    quantity: Decimal | None = None
    unit_cost: Decimal | None = None
    parent: Item | None = None
    proposed: tuple[str, ...] | None = None
    disagreements: tuple[Disagreement, ...] = ()
    line_id: str | None = None
    maker: str | None = None
    maker_number: str | None = None
    vendor: str | None = None
    note: str | None = None
    alternates: tuple["Part", ...] = ()
    process_side: str | None = None
    alternate: int = 0
    answered: tuple[Answered, ...] = ()
    otherwise: tuple["Part", ...] = ()

    @property
    def prefix(self) -> str:
        """The path of this line, or of its alternative, in the file."""
        line = f"parts/{self.index}"
        return f"{line}/alternates/{self.alternate - 1}" if self.alternate else line
