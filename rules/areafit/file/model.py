"""The format of a list as models: each mapping with its keys, named like the fields of its fact."""

from collections.abc import Iterator
from decimal import Decimal
from functools import cache
from typing import Annotated, Any, ClassVar, Literal, Self, get_args

from pydantic import (
    AliasChoices,
    BaseModel,
    ConfigDict,
    Field,
    GetJsonSchemaHandler,
    model_validator,
)
from pydantic_core import core_schema

from areafit.errors import InputError
from areafit.facts.bom import Assembly
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.facts.fittings import (
    ConduitSeals,
    ContactProtection,
    Contents,
    Device,
    Enclosure,
    Entry,
    EntryType,
    IntrinsicSafety,
    OnLoss,
    Pressurization,
)
from areafit.facts.loop import LoopDevice, LoopSource
from areafit.facts.marking import Marking
from areafit.facts.mechanics import (
    AirSupply,
    Drive,
    EndStops,
    Form,
    LooseParts,
    LossOfAir,
    Release,
    Side,
)
from areafit.facts.part import (
    ContactRef,
    Exposure,
    Generates,
    Kind,
    MaterialUse,
    SurfaceCase,
    SurfaceTemperature,
)
from areafit.facts.place import Atmosphere, PresentChemical, PresentSubstance
from areafit.facts.protection import Law, Level
from areafit.file.fields import (
    AcidityRange,
    Becomes,
    Capacitance,
    CapacitancePerLength,
    Charge,
    Composition,
    Current,
    Date,
    GroupWord,
    Inductance,
    InductancePerLength,
    InductancePerResistance,
    Layer,
    Length,
    Listed,
    LongText,
    NoneWord,
    Number,
    OneWord,
    Oxygen,
    PermittedCapacitance,
    PermittedInductance,
    Power,
    PressureRange,
    RatedCurrent,
    RatedPower,
    RatedVoltage,
    Reference,
    Resistance,
    Schema,
    Speed,
    Strength,
    Surface,
    Temperature,
    TemperatureRange,
    Text,
    Version,
    Voltage,
    YesNo,
)
from areafit.marking import decode

Many = Listed()
ManyOrNone = Listed(none=True)


class Model(BaseModel):
    """A mapping of the file: no other keys than its own, no value turned into another type.

    `called` names such a mapping in messages.
    """

    # Deferred: those that only stand inside others need no validator of their own.
    model_config = ConfigDict(
        strict=True, extra="forbid", str_strip_whitespace=True, defer_build=True
    )

    called: ClassVar[str]

    @classmethod
    def keys(cls) -> dict[str, tuple[str, ...]]:
        """For each field, the keys that a file may write for it."""
        return {name: _spellings(name, field) for name, field in cls.model_fields.items()}

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Schema:
        """Called by pydantic, which itself would describe one spelling of a key only."""
        described = handler(schema)
        properties = handler.resolve_ref_schema(described).get("properties", {})
        for first, *others in cls.keys().values():
            properties.update((other, properties[first]) for other in others)
        return described


def models_in(annotation: Any) -> Iterator[type[Model]]:  # noqa: ANN401 - any type annotation
    """The models that a field's type speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, Model):
        yield annotation
    for inner in get_args(annotation):
        yield from models_in(inner)


def _spellings(name: str, field: Any) -> tuple[str, ...]:  # noqa: ANN401 - pydantic's field
    alias = field.validation_alias
    if alias is None:
        return (name,)
    return (alias,) if isinstance(alias, str) else tuple(map(str, alias.choices))


class ConditionModel(Model):
    """A specific condition of use of an `X` certificate."""

    called: ClassVar[str] = "a condition"

    text: Text
    met: YesNo | None = None
    met_by: Annotated[Reference | None, Field(description="the measure that meets it")] = None
    document: Annotated[Reference | None, Field(description="where that is written")] = None
    role: Annotated[Reference | None, Field(description="who answers for it")] = None


class EvidenceModel(Model):
    """One document."""

    called: ClassVar[str] = "an evidence entry"

    type: OneWord[EvidenceType]
    number: Reference | None = None
    covers: Annotated[Reference | None, Field(description="part numbers it covers")] = None
    ambient: Annotated[TemperatureRange | None, Field(description="the certified Ta")] = None
    valid_until: Date | None = None
    conditions: (
        Annotated[tuple[Annotated[ConditionModel, Becomes(Condition, "text")], ...], ManyOrNone]
        | None
    ) = None
    level: Annotated[
        OneWord[Level] | None, Field(description="EPL that it shows where the nameplate does not")
    ] = None
    standard: Text | None = None
    process_temperature: Annotated[
        TemperatureRange | None, Field(description="of what the part is immersed in, as certified")
    ] = None


class SubstanceModel(Model):
    """A flammable gas, vapour or dust; own test values need a source."""

    called: ClassVar[str] = "a substance"

    name: Annotated[Text, Field(description="its name, CAS number or a common alias")]
    group: GroupWord | None = None
    autoignition: Temperature | None = None
    flash_point: Temperature | None = None
    cloud_ignition: Temperature | None = None
    layer_ignition: Temperature | None = None
    layer_melts: YesNo | None = None
    carbonises: YesNo | None = None
    conductive: YesNo | None = None
    temperature: Annotated[TemperatureRange | None, Field(description="at which it is handled")] = (
        None
    )
    source: Annotated[
        Reference | None, Field(description="where own values come from: report, data sheet")
    ] = None
    document: Annotated[
        Reference | None, Field(description="on file, where own values are laxer than the tables")
    ] = None

    @model_validator(mode="after")
    def _own_values_have_a_source(self) -> Self:
        stated = self.model_fields_set - {"name", "temperature", "source", "document"}
        own = sorted(name for name in stated if getattr(self, name) is not None)
        if own and self.source is None:
            raise InputError(
                f"own values ({', '.join(own)}) without `source`",
                "add `source:` with the test report or data sheet that they come from",
            )
        return self


class ChemicalModel(Model):
    """A chemical that corrodes, with its strength and temperature."""

    called: ClassVar[str] = "a chemical"

    name: Annotated[Text, Field(description="its name, CAS number or a common alias")]
    concentration: Strength | None = None
    temperature: TemperatureRange | None = None
    bath: Annotated[Text | None, Field(description="chemicals with the same one are mixed")] = None
    chloride: Annotated[Strength | None, Field(description="chloride content")] = None
    rinsed: Annotated[YesNo | None, Field(description="rinsed off with clean water")] = None
    mist: Annotated[YesNo | None, Field(description="sprayed or atomised")] = None
    ventilated: Annotated[
        YesNo | None, Field(description="vapour is drawn off and never saturated")
    ] = None
    ph: Annotated[AcidityRange | None, Field(description="measured, of the bath")] = None


class LocationModel(Model):
    """A place where parts stand. What is left out is not stated; `none` says there is none."""

    called: ClassVar[str] = "a location"

    title: Text | None = None
    area: Annotated[
        Annotated[tuple[Text, ...], Many] | None,
        Field(description="as the area classification document writes it"),
    ] = None
    substances: Annotated[
        Annotated[
            tuple[Annotated[SubstanceModel, Becomes(PresentSubstance, "name")], ...],
            ManyOrNone,
        ]
        | None,
        Field(description="flammable gases, vapours and dusts present"),
    ] = None
    layer: Annotated[Layer | None, Field(description="dust layer to be expected, or none")] = None
    ambient: Annotated[TemperatureRange | None, Field(description="of the air")] = None
    document: Annotated[
        Reference | None, Field(description="the area classification that it was taken from")
    ] = None
    ingress: Annotated[
        Text | None, Field(description="least enclosure rating asked for, IP65 or Type 4X")
    ] = None
    atmosphere: Annotated[
        OneWord[Atmosphere] | None, Field(description="severity of the air for galvanic pairs")
    ] = None
    chemicals: Annotated[
        Annotated[
            tuple[Annotated[ChemicalModel, Becomes(PresentChemical, "name")], ...],
            ManyOrNone,
        ]
        | None,
        Field(description="what corrodes"),
    ] = None
    required_level: Annotated[
        OneWord[Level] | None,
        Field(validation_alias="required_epl", description="if more than the area asks for"),
    ] = None
    pressure: Annotated[PressureRange | None, Field(description="absolute, of the air")] = None
    oxygen: Annotated[Oxygen | None, Field(description="share of oxygen by volume")] = None
    hybrid_mixtures: Annotated[
        YesNo | None, Field(description="whether gas and dust can form one mixture")
    ] = None


class PressurizationModel(Model):
    """What stands inside a purged enclosure, and what follows loss of pressure."""

    called: ClassVar[str] = "`pressurization`"

    contents: OneWord[Contents] | None = None
    on_loss: OneWord[OnLoss] | None = None


class ConduitSealsModel(Model):
    """Seals in the conduits of an explosionproof enclosure."""

    called: ClassVar[str] = "`conduit_seals`"

    within: Annotated[Length | None, Field(description="greatest distance from the box")] = None
    all_runs: YesNo | None = None


class EntryConditionModel(ConditionModel):
    """A specific condition of use of an `X` on a fitting."""

    called: ClassVar[str] = "a condition of an entry"


class EntryModel(Model):
    """One opening of an enclosure, and what closes it."""

    called: ClassVar[str] = "an entry"

    type: OneWord[EntryType]
    marking: Annotated[tuple[Text, ...], ManyOrNone] | None = None
    thread: Annotated[Text | None, Field(description="of the fitting, such as M20x1.5")] = None
    hole: Annotated[Text | None, Field(description="thread of the enclosure's opening")] = None
    ingress: Text | None = None
    within: Annotated[Length | None, Field(description="of a conduit seal, from the box")] = None
    conditions: (
        Annotated[
            tuple[Annotated[EntryConditionModel, Becomes(Condition, "text")], ...], ManyOrNone
        ]
        | None
    ) = None


def entry(  # noqa: PLR0913, PLR0917 - the keys of an entry
    type: EntryType,  # noqa: A002 - the key of the file
    marking: tuple[str, ...] | None,
    thread: str | None,
    hole: str | None,
    ingress: str | None,
    within: Decimal | None,
    conditions: tuple[Condition, ...] | None,
) -> Entry:
    """The fact of an entry, its marking decoded."""
    markings = None if marking is None else tuple(map(_decode, marking))
    return Entry(type, markings, thread, hole, ingress, within, conditions)


@cache
def _decode(text: str) -> Marking:
    return decode(text)


class AirSupplyModel(Model):
    """Where compressed air is drawn and let out, and what its loss brings about."""

    called: ClassVar[str] = "`air_supply`"

    source: OneWord[Side] | None = None
    exhaust: OneWord[Side] | None = None
    on_loss: OneWord[LossOfAir] | None = None


class SurfaceTemperatureModel(Model):
    """A hottest surface, with the ambient and the state it was found at."""

    called: ClassVar[str] = "a surface temperature"

    value: Temperature
    at_ambient: Temperature | None = None
    case: OneWord[SurfaceCase] | None = None
    source: Reference | None = None


class GeneratesModel(Model):
    """What a simple apparatus can generate."""

    called: ClassVar[str] = "`generates`"

    voltage: Voltage | None = None
    current: Current | None = None
    power: Power | None = None
    output: Annotated[NoneWord | None, Field(description="none for a passive part")] = None


class MaterialModel(Model):
    """A material of a part, where and how it is used."""

    called: ClassVar[str] = "a material"

    material: Annotated[Text, Field(description="grade, EN number, UNS or a common name")]
    component: Text | None = None
    exposure: OneWord[Exposure] | None = None
    to: Annotated[
        Annotated[tuple[Text, ...], Many] | None,
        Field(description="the chemicals that it meets, if not all of the location"),
    ] = None
    surface_area: Annotated[Surface | None, Field(description="for static electricity")] = None
    surface_resistance: Resistance | None = None
    width: Length | None = None
    layer_thickness: Length | None = None
    backing: Text | None = None
    substrate: Annotated[Text | None, Field(description="under a coating")] = None
    composition: Composition | None = None
    welded: YesNo | None = None
    property_class: Annotated[Text | None, Field(description="of fasteners, such as 8.8")] = None
    hardness: Text | None = None
    crevice: YesNo | None = None
    stressed: YesNo | None = None
    breathes: Annotated[
        YesNo | None, Field(description="whether its enclosure takes in air as it cools")
    ] = None
    temperature: Annotated[
        TemperatureRange | None, Field(description="of the surface, where the part itself is hot")
    ] = None
    framed: Annotated[YesNo | None, Field(description="by an earthed metal frame")] = None
    charge: Annotated[Charge | None, Field(description="transferred in a test")] = None
    breakdown_voltage: Annotated[Voltage | None, Field(description="of a layer on metal")] = None
    counterface: Annotated[
        Text | None, Field(description="material that it rubs or may strike, or none")
    ] = None
    form: Annotated[OneWord[Form] | None, Field(description="a belt or a hose")] = None
    resistance: Annotated[
        Resistance | None, Field(description="of a hose end to end, of a belt to earth")
    ] = None
    speed: Annotated[Speed | None, Field(description="of a belt")] = None


class ContactModel(Model):
    """A galvanic contact with another item."""

    called: ClassVar[str] = "a contact"

    item: Annotated[Text, Field(validation_alias="with", description="the other item")]
    wet: YesNo | None = None
    component: Text | None = None
    with_component: Text | None = None


class LineModel(Model):
    """What a part and an alternate to it have in common."""

    part_number: Text | None = None
    description: LongText | None = None
    quantity: Annotated[Number | None, Field(description="pieces")] = None
    unit_cost: Number | None = None
    markings: Annotated[
        Annotated[tuple[Text, ...], ManyOrNone] | None,
        Field(validation_alias="marking", description="as on the nameplate; a list where several"),
    ] = None
    ambient: Annotated[TemperatureRange | None, Field(description="catalogue range")] = None
    surface: Annotated[
        Annotated[SurfaceTemperatureModel, Becomes(SurfaceTemperature, "value")] | None,
        Field(
            validation_alias="surface_temperature",
            description="hottest surface where no temperature class is marked",
        ),
    ] = None
    ingress: Annotated[Text | None, Field(description="IP67, Type 4X")] = None
    evidence: (
        Annotated[tuple[Annotated[EvidenceModel, Becomes(Evidence)], ...], ManyOrNone] | None
    ) = None
    electrical_content: Annotated[
        Annotated[tuple[Text, ...], ManyOrNone] | None,
        Field(description="none, or what is electrical inside a mechanical part"),
    ] = None
    arcing: Annotated[YesNo | None, Field(description="make-and-break contacts")] = None
    generates: Annotated[GeneratesModel, Becomes(Generates, "output")] | None = None
    placed_on_market: Date | None = None
    in_service: Annotated[YesNo | None, Field(description="taken over, not newly bought")] = None
    device: Annotated[
        OneWord[Device] | None,
        Field(description="what an unmarked part is, or a cable gland or plug"),
    ] = None
    contact_protection: OneWord[ContactProtection] | None = None
    enclosure: OneWord[Enclosure] | None = None
    heat_producing: YesNo | None = None
    inverter_fed: Annotated[YesNo | None, Field(description="motor fed by an inverter")] = None
    space_heater: Annotated[YesNo | None, Field(description="heater inside a motor")] = None
    overloadable: Annotated[YesNo | None, Field(description="may be overloaded")] = None
    pressurization: Annotated[PressurizationModel, Becomes(Pressurization)] | None = None
    conduit_seals: Annotated[ConduitSealsModel, Becomes(ConduitSeals)] | None = None
    entries: Annotated[tuple[Annotated[EntryModel, Becomes(entry)], ...], ManyOrNone] | None = None
    intrinsic_safety: Annotated[
        OneWord[IntrinsicSafety] | None,
        Field(description="why a part so marked stands in no circuit: own cell, or inside only"),
    ] = None
    rubbing_speed: Speed | None = None
    bonded: YesNo | None = None
    resistance_to_earth: Resistance | None = None
    capacitance: Annotated[Capacitance | None, Field(description="to earth, if isolated")] = None
    drive: Annotated[OneWord[Drive] | None, Field(description="what moves a mechanical part")] = (
        None
    )
    air_supply: Annotated[AirSupplyModel, Becomes(AirSupply)] | None = None
    drop_height: Annotated[
        Layer | None, Field(description="from which a part or load can fall, or none")
    ] = None
    end_stops: OneWord[EndStops] | None = None
    protects: Annotated[
        YesNo | None, Field(description="whether any protection depends on this part")
    ] = None
    release: Annotated[OneWord[Release] | None, Field(description="what it takes to remove it")] = (
        None
    )
    loose_parts: Annotated[
        OneWord[LooseParts] | None, Field(description="pins, springs and balls when it is released")
    ] = None
    materials: (
        Annotated[
            tuple[Annotated[MaterialModel, Becomes(MaterialUse, "material")], ...], ManyOrNone
        ]
        | None
    ) = None
    materials_complete: Annotated[
        YesNo | None, Field(description="seals, springs, grease and fasteners are all listed")
    ] = None
    exposure: Annotated[
        OneWord[Exposure] | None, Field(description="of all materials that state none of their own")
    ] = None
    contacts: (
        Annotated[tuple[Annotated[ContactModel, Becomes(ContactRef)], ...], ManyOrNone] | None
    ) = None


class AlternateModel(LineModel):
    """Another make or type for the same line: what it leaves out is as in the line."""

    called: ClassVar[str] = "an alternate"

    kinds: Annotated[
        Annotated[tuple[OneWord[Kind], ...], Many] | None, Field(validation_alias="kind")
    ] = None
    locations: Annotated[
        Annotated[tuple[Text, ...], Many] | None, Field(validation_alias="location")
    ] = None


class PartModel(LineModel):
    """A line of the list."""

    called: ClassVar[str] = "a part"

    item: Annotated[Text, Field(description="unique within the list")]
    kinds: Annotated[
        tuple[OneWord[Kind], ...],
        Many,
        Field(validation_alias="kind", description="what sort of part this is"),
    ]
    locations: Annotated[
        Annotated[tuple[Text, ...], Many] | None,
        Field(
            validation_alias="location",
            description="one of `locations`, or several; may be left to the parent",
        ),
    ] = None
    parent: Annotated[
        Text | None, Field(description="item that this one is mounted in: gives its location")
    ] = None
    alternates: Annotated[tuple[AlternateModel, ...], Many] | None = None


class SourceModel(Model):
    """The source of a loop: what can come out of it at most."""

    called: ClassVar[str] = "a loop source"

    item: Text
    voltage: Annotated[Voltage | None, Field(validation_alias=AliasChoices("Uo", "Voc"))] = None
    current: Annotated[Current | None, Field(validation_alias=AliasChoices("Io", "Isc"))] = None
    power: Annotated[Power | None, Field(validation_alias="Po")] = None
    capacitance: Annotated[
        PermittedCapacitance | None,
        Field(validation_alias=AliasChoices("Co", "Ca"), description="for `group`, or by group"),
    ] = None
    inductance: Annotated[
        PermittedInductance | None,
        Field(validation_alias=AliasChoices("Lo", "La"), description="for `group`, or by group"),
    ] = None
    inductance_per_resistance: Annotated[
        InductancePerResistance | None, Field(validation_alias=AliasChoices("Lo/Ro", "La/Ra"))
    ] = None
    maximum_voltage: Annotated[
        Voltage | None, Field(validation_alias="Um", description="on its safe side")
    ] = None
    supply: Annotated[
        Voltage | None, Field(description="the most that can reach its safe side")
    ] = None
    linear: Annotated[YesNo | None, Field(description="resistive output characteristic")] = None


class DeviceModel(Model):
    """A device of a loop: what may go into it at most."""

    called: ClassVar[str] = "a loop device"

    item: Text
    voltage: Annotated[RatedVoltage | None, Field(validation_alias=AliasChoices("Ui", "Vmax"))] = (
        None
    )
    current: Annotated[RatedCurrent | None, Field(validation_alias=AliasChoices("Ii", "Imax"))] = (
        None
    )
    power: Annotated[RatedPower | None, Field(validation_alias="Pi")] = None
    capacitance: Annotated[Capacitance | None, Field(validation_alias="Ci")] = None
    inductance: Annotated[Inductance | None, Field(validation_alias="Li")] = None
    active: Annotated[YesNo | None, Field(description="a further source of energy")] = None


class CableModel(Model):
    """The cable of a loop."""

    called: ClassVar[str] = "a cable"

    length: Length | None = None
    capacitance: CapacitancePerLength | None = None
    inductance: InductancePerLength | None = None
    inductance_per_resistance: InductancePerResistance | None = None
    values: Annotated[
        Literal["default"] | None, Field(description="take the standard's default values")
    ] = None


class LoopModel(Model):
    """An intrinsically safe circuit."""

    called: ClassVar[str] = "a loop"

    name: Text
    group: Annotated[GroupWord | None, Field(description="that the circuit is judged for")] = None
    source: Annotated[SourceModel, Becomes(LoopSource)] | None = None
    sources: Annotated[
        Annotated[tuple[Annotated[SourceModel, Becomes(LoopSource)], ...], Many] | None,
        Field(description="instead of `source` where there are several"),
    ] = None
    devices: Annotated[tuple[Annotated[DeviceModel, Becomes(LoopDevice)], ...], Many]
    cable: CableModel | None = None
    locations: Annotated[
        Annotated[tuple[Text, ...], Many] | None,
        Field(
            validation_alias="location",
            description="places that the cable enters besides those of its ends",
        ),
    ] = None

    @model_validator(mode="after")
    def _source_or_sources(self) -> Self:
        if (self.source is None) is (self.sources is None):
            raise InputError("a loop needs `source` or `sources`", "state one of the two")
        return self


class AssemblyModel(Model):
    """The machine."""

    called: ClassVar[str] = "`assembly`"

    number: Text
    title: Text | None = None
    revision: Text | None = None
    assessment: Annotated[
        Reference | None, Field(description="ignition hazard assessment of the whole machine")
    ] = None


class HeaderModel(Model):
    """A bill of materials whose places, parts and loops are still as written."""

    called: ClassVar[str] = "a bill of materials"

    areafit: Annotated[Version, Field(description="version of this format")]
    assembly: Annotated[AssemblyModel, Becomes(Assembly)]
    code: Annotated[
        OneWord[Law] | None,
        Field(description="the installation rules that govern; may be in `areas`"),
    ] = None
    edition: Annotated[Text | None, Field(description="of that code, such as 2023")] = None
    jurisdiction: Annotated[Text | None, Field(description="free text, printed")] = None
    areas: Annotated[
        Text | None, Field(description="file of places shared by the machines of a site")
    ] = None
    locations: Any = None
    parts: Any = None
    loops: Any = None


class SiteHeaderModel(Model):
    """A shared file of places whose places are still as written."""

    called: ClassVar[str] = "a shared file of places"

    areas_version: Annotated[Version, Field(validation_alias="areafit-areas")]
    code: OneWord[Law] | None = None
    locations: Any = None


class SiteModel(SiteHeaderModel):
    """Places shared by the machines of a site."""

    locations: dict[str, LocationModel]


class BomModel(HeaderModel):
    """A machine's bill of materials, with the places where its parts will stand."""

    locations: Annotated[
        dict[str, LocationModel] | None, Field(description="places by name; may be in `areas`")
    ] = None
    parts: Annotated[tuple[PartModel, ...], Many]
    loops: Annotated[
        Annotated[tuple[LoopModel, ...], ManyOrNone] | None,
        Field(description="intrinsically safe circuits"),
    ] = None


@cache
def spellings() -> dict[str, tuple[str, ...]]:
    """For each fact that the file names differently, the keys it may stand under."""
    found: dict[str, tuple[str, ...]] = {}
    seen: set[type[Model]] = set()
    waiting: list[type[Model]] = [BomModel]
    while waiting:
        model = waiting.pop()
        seen.add(model)
        for name, keys in model.keys().items():
            if keys != (name,):
                found[name] = (
                    *found.get(name, ()),
                    *(k for k in keys if k not in found.get(name, ())),
                )
            annotation = model.model_fields[name].annotation
            waiting += (inner for inner in models_in(annotation) if inner not in seen)
    return found
