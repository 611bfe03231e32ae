"""Lines of a list as models: a part with its documents, materials, openings and contacts.

Fields are named like those of the facts that they become.
"""

from decimal import Decimal
from functools import cache
from typing import Annotated, Any, Self

from pydantic import AfterValidator, Field, model_validator

from areafit.errors import InputError
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.fittings import (
    Battery,
    BatteryCare,
    Compartment,
    ConduitSeals,
    ContactProtection,
    Contents,
    CordServes,
    CordUsage,
    Device,
    Enclosure,
    Entry,
    EntryType,
    IntrinsicSafety,
    OnLoss,
    Pressurization,
    Starting,
    Wiring,
    WiringMethod,
)
from areafit.facts.marking import Marking
from areafit.facts.mechanics import (
    AirSupply,
    BeltUse,
    Brake,
    BrakeUse,
    Conveyed,
    Drive,
    EndStops,
    Finish,
    Fluid,
    Form,
    Liquid,
    LooseParts,
    LossOfAir,
    Release,
    Side,
    Slip,
    Sparks,
)
from areafit.facts.part import (
    Complete,
    ContactRef,
    Exposure,
    Generates,
    Kind,
    MaterialUse,
    SurfaceCase,
    SurfaceTemperature,
)
from areafit.facts.protection import Level
from areafit.file.fields import (
    Capacitance,
    Charge,
    Composition,
    Current,
    Date,
    Energy,
    Intensity,
    ItemText,
    Layer,
    Length,
    LongText,
    NoneWord,
    Number,
    OneWord,
    Power,
    Reference,
    Resistance,
    Speed,
    Surface,
    Temperature,
    TemperatureRange,
    Text,
    Time,
    TradeSize,
    Voltage,
    YesNo,
    whole,
)
from areafit.file.mappings import Becomes, Many, ManyOrNone, Model, written
from areafit.marking import decode

Plates = Annotated[ManyOrNone[Text], AfterValidator(whole)]
ABSENT = "none"
"""The material of a component that the part has not."""


class ConditionModel(Model):
    """A specific condition of use of an `X` certificate."""

    called = "a condition"
    under = "part.evidence.conditions."

    text: Text
    met: YesNo | None = None
    met_by: Reference | None = None
    document: Reference | None = None
    role: Reference | None = None


class EvidenceModel(Model):
    """One document."""

    called = "an evidence entry"
    under = "part.evidence."

    type: OneWord[EvidenceType]
    number: Reference | None = None
    covers: Reference | None = None
    ambient: TemperatureRange | None = None
    valid_until: Date | None = None
    conditions: ManyOrNone[Annotated[ConditionModel, Becomes(Condition, "text")]] | None = None
    level: OneWord[Level] | None = None
    standard: Text | None = None
    process_temperature: TemperatureRange | None = None


class PressurizationModel(Model):
    """What stands inside a purged enclosure, and what follows loss of pressure."""

    called = "`pressurization`"
    under = "part.pressurization."

    contents: OneWord[Contents] | None = None
    on_loss: OneWord[OnLoss] | None = None


class ConduitSealsModel(Model):
    """Seals in the conduits of an explosionproof enclosure."""

    called = "`conduit_seals`"
    under = "part.conduit_seals."

    within: Length | None = None
    all_runs: YesNo | None = None


class WiringModel(Model):
    """A line that is a cable, a cord or a raceway."""

    called = "`wiring`"
    under = "part.wiring."

    method: OneWord[WiringMethod] | None = None
    moves: YesNo | None = None
    usage: OneWord[CordUsage] | None = None
    serves: OneWord[CordServes] | None = None
    grounding_conductor: YesNo | None = None


class EntryConditionModel(ConditionModel):
    """A specific condition of use of an `X` on a fitting."""

    called = "a condition of an entry"


class EntryModel(Model):
    """One opening of an enclosure, and what closes it."""

    called = "an entry"
    under = "part.entries."

    type: OneWord[EntryType]
    marking: Plates | None = None
    thread: Text | None = None
    hole: Text | None = None
    into: OneWord[Compartment] | None = None
    ingress: Text | None = None
    within: Length | None = None
    trade_size: TradeSize | None = None
    conditions: ManyOrNone[Annotated[EntryConditionModel, Becomes(Condition, "text")]] | None = None


def entry(  # noqa: PLR0913, PLR0917 - the keys of an entry
    type: EntryType,  # noqa: A002 - the key of the file
    marking: tuple[str, ...] | None,
    thread: str | None,
    hole: str | None,
    into: Compartment | None,
    ingress: str | None,
    within: Decimal | None,
    trade_size: Decimal | None,
    conditions: tuple[Condition, ...] | None,
) -> Entry:
    """The fact of an entry, its marking decoded."""
    markings = None if marking is None else tuple(map(_decode, marking))
    return Entry(type, markings, thread, hole, ingress, within, conditions, into, trade_size)


@cache
def _decode(text: str) -> Marking:
    return decode(text)


class AirSupplyModel(Model):
    """Where compressed air is drawn and let out, and what its loss brings about."""

    called = "`air_supply`"
    under = "part.air_supply."

    source: OneWord[Side] | None = None
    exhaust: OneWord[Side] | None = None
    on_loss: OneWord[LossOfAir] | None = None


class BrakeModel(Model):
    """A brake: what it is used for, and what a stop puts into it."""

    called = "`brake`"
    under = "part.brake."

    use: OneWord[BrakeUse] | None = None
    energy: Energy | None = None
    rated_energy: Energy | None = None
    interlocked: YesNo | None = None


class LiquidModel(Model):
    """A liquid that a part works with or is immersed in."""

    called = "`liquid`"
    under = "part.liquid."

    kind: OneWord[Fluid] | None = None
    flash_point: Temperature | None = None
    autoignition: Temperature | None = None
    hottest: Temperature | None = None


class BatteryModel(Model):
    """The battery of a part, where it is charged and replaced."""

    called = "`battery`"
    under = "part.battery."

    charged: OneWord[BatteryCare] | None = None
    replaced: OneWord[BatteryCare] | None = None
    present: NoneWord | None = None


class SurfaceTemperatureModel(Model):
    """A hottest surface, with the ambient and the state it was found at."""

    called = "a surface temperature"
    under = "part.surface_temperature."

    value: Temperature
    at_ambient: Temperature | None = None
    case: OneWord[SurfaceCase] | None = None
    source: Reference | None = None


class GeneratesModel(Model):
    """What a simple apparatus can generate."""

    called = "`generates`"
    under = "part.generates."

    voltage: Voltage | None = None
    current: Current | None = None
    power: Power | None = None
    output: NoneWord | None = None


class MaterialModel(Model):
    """A material of a part, where and how it is used."""

    called = "a material"
    under = "part.materials."

    material: Text
    component: Text | None = None
    exposure: OneWord[Exposure] | None = None
    to: Many[Text] | None = None
    surface_area: Surface | None = None
    surface_resistance: Resistance | None = None
    width: Length | None = None
    layer_thickness: Length | None = None
    backing: Text | None = None
    substrate: Text | None = None
    composition: Composition | None = None
    welded: YesNo | None = None
    property_class: Text | None = None
    hardness: Text | None = None
    crevice: YesNo | None = None
    stressed: YesNo | None = None
    breathes: YesNo | None = None
    temperature: TemperatureRange | None = None
    framed: YesNo | None = None
    charge: Charge | None = None
    breakdown_voltage: Voltage | None = None
    counterface: Text | None = None
    form: OneWord[Form] | None = None
    finish: OneWord[Finish] | None = None
    resistance: Resistance | None = None
    speed: Speed | None = written("speed", "belt_speed")
    use: OneWord[BeltUse] | None = None
    conveys: OneWord[Conveyed] | None = None
    instead: Text | None = None
    document: Reference | None = None

    @model_validator(mode="after")
    def _absent_what(self) -> Self:
        if self.material == ABSENT and self.component is None:
            raise InputError(
                "`material: none` says of no component that the part has not got it",
                "add `component:` with what the part has not",
            )
        return self


class CompleteModel(Model):
    """That the list of materials is complete, and the document that says so."""

    called = "`materials_complete`"
    under = "part.materials_complete."

    complete: YesNo = True
    document: Reference | None = None

    @model_validator(mode="after")
    def _names_it(self) -> Self:
        if "document" in self.model_fields_set and self.document is None:
            raise InputError("no document is named", "name it, or write `true` or `false` alone")
        if not self.model_fields_set:
            raise InputError(
                "an empty mapping says nothing",
                "write `true` or `false`, or `document` with the one that says so",
            )
        return self


class ContactModel(Model):
    """A galvanic contact with another item."""

    called = "a contact"
    under = "part.contacts."

    item: ItemText = Field(validation_alias="with")
    wet: YesNo | None = None
    component: Text | None = None
    with_component: Text | None = None


class AnsweredModel(Model):
    """An answer that came in for a fact which was stated otherwise already."""

    called = "an answer"
    under = "part.answered."

    key: Text
    value: Any
    document: Reference | None = None
    role: Reference
    on: Date

    @model_validator(mode="after")
    def _says_who(self) -> Self:
        if self.role is None:
            raise InputError("nobody gave this answer", "name the role in `role`")
        return self


class LineModel(Model):
    """What a part and an alternate to it have in common."""

    under = "part."
    part_number: Text | None = None
    description: LongText | None = None
    maker: Text | None = None
    maker_number: Text | None = None
    vendor: Text | None = None
    note: LongText | None = None
    quantity: Number | None = None
    unit_cost: Number | None = None
    markings: Plates | None = written("marking")
    ambient: TemperatureRange | None = None
    surface: Annotated[SurfaceTemperatureModel, Becomes(SurfaceTemperature, "value")] | None = (
        written("surface_temperature")
    )
    ingress: Text | None = None
    evidence: ManyOrNone[Annotated[EvidenceModel, Becomes(Evidence)]] | None = None
    electrical_content: ManyOrNone[Text] | None = None
    arcing: YesNo | None = None
    generates: Annotated[GeneratesModel, Becomes(Generates, "output")] | None = None
    placed_on_market: Date | None = None
    in_service: YesNo | None = None
    device: OneWord[Device] | None = None
    contact_protection: OneWord[ContactProtection] | None = None
    enclosure: OneWord[Enclosure] | None = None
    heat_producing: YesNo | None = None
    inverter_fed: YesNo | None = None
    space_heater: YesNo | None = None
    overloadable: YesNo | None = None
    pressurization: Annotated[PressurizationModel, Becomes(Pressurization)] | None = None
    conduit_seals: Annotated[ConduitSealsModel, Becomes(ConduitSeals)] | None = None
    inside_ambient: TemperatureRange | None = None
    entries: ManyOrNone[Annotated[EntryModel, Becomes(entry)]] | None = None
    intrinsic_safety: OneWord[IntrinsicSafety] | None = None
    optical_power: Power | None = None
    optical_irradiance: Intensity | None = None
    radio_power: Power | None = None
    ultrasound_intensity: Intensity | None = None
    te_time: Time | None = None
    overload_trip: Time | None = None
    starting: OneWord[Starting] | None = None
    wiring: Annotated[WiringModel, Becomes(Wiring)] | None = None
    interlocked: YesNo | None = None
    battery: Annotated[BatteryModel, Becomes(Battery, "present")] | None = None
    rubbing_speed: Speed | None = None
    bonded: YesNo | None = None
    resistance_to_earth: Resistance | None = None
    capacitance: Capacitance | None = None
    drive: OneWord[Drive] | None = None
    air_supply: Annotated[AirSupplyModel, Becomes(AirSupply)] | None = None
    drop_height: Layer | None = None
    end_stops: OneWord[EndStops] | None = None
    protects: YesNo | None = None
    release: OneWord[Release] | None = None
    loose_parts: OneWord[LooseParts] | None = None
    use: OneWord[BeltUse] | None = None
    belt_speed: Speed | None = None
    conveys: OneWord[Conveyed] | None = None
    sparks: OneWord[Sparks] | None = None
    brake: Annotated[BrakeModel, Becomes(Brake)] | None = None
    slip: OneWord[Slip] | None = None
    liquid: Annotated[LiquidModel, Becomes(Liquid)] | None = None
    materials: ManyOrNone[Annotated[MaterialModel, Becomes(MaterialUse, "material")]] | None = None
    materials_complete: Annotated[CompleteModel, Becomes(Complete, "complete")] | None = None
    exposure: OneWord[Exposure] | None = None
    contacts: ManyOrNone[Annotated[ContactModel, Becomes(ContactRef)]] | None = None


class AlternateModel(LineModel):
    """Another make or type for the same line: what it leaves out is as in the line."""

    called = "an alternate"

    kinds: Many[OneWord[Kind]] | None = written("kind")
    locations: Many[Text] | None = written("location")


class PartModel(LineModel):
    """A line of the list."""

    called = "a part"

    item: ItemText
    line_id: Text | None = None
    kinds: Many[OneWord[Kind]] | None = written("kind")
    proposed: Many[Text] | None = None
    locations: Many[Text] | None = written("location")
    parent: ItemText | None = None
    inside: ItemText | None = None
    process_side: Text | None = None
    alternates: Many[AlternateModel] | None = None
    answered: Many[AnsweredModel] | None = None
