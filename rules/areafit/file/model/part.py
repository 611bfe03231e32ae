"""Lines of the list: parts, their materials and contacts, and alternates to them."""

from typing import Annotated, ClassVar

from pydantic import Field

from areafit.facts.evidence import Evidence
from areafit.facts.fittings import ConduitSeals, Pressurization
from areafit.facts.mechanics import AirSupply
from areafit.facts.part import ContactRef, Generates, MaterialUse, SurfaceTemperature
from areafit.file.model.base import Model
from areafit.file.model.evidence import EvidenceModel
from areafit.file.model.fittings import (
    ConduitSealsModel,
    EntryModel,
    PressurizationModel,
    entry,
)
from areafit.file.model.mechanics import AirSupplyModel
from areafit.file.model.quantities import (
    Capacitance,
    Charge,
    Composition,
    Current,
    Layer,
    Length,
    Power,
    Resistance,
    Speed,
    Surface,
    Temperature,
    TemperatureRange,
    Voltage,
)
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import (
    ContactProtectionWord,
    Date,
    DeviceWord,
    DriveWord,
    EnclosureWord,
    EndStopsWord,
    ExposureWord,
    FormWord,
    IntrinsicSafetyWord,
    KindWord,
    LongText,
    LoosePartsWord,
    NoneWord,
    Number,
    Reference,
    ReleaseWord,
    SurfaceCaseWord,
    Text,
    YesNo,
)

Many = Listed()
ManyOrNone = Listed(none=True)


class SurfaceTemperatureModel(Model):
    """A hottest surface, with the ambient and the state it was found at."""

    called: ClassVar[str] = "a surface temperature"

    value: Temperature
    at_ambient: Temperature | None = None
    case: SurfaceCaseWord | None = None
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
    exposure: ExposureWord | None = None
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
    form: Annotated[FormWord | None, Field(description="a belt or a hose")] = None
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
        Annotated[SurfaceTemperatureModel, Fact(SurfaceTemperature, "value")] | None,
        Field(
            validation_alias="surface_temperature",
            description="hottest surface where no temperature class is marked",
        ),
    ] = None
    ingress: Annotated[Text | None, Field(description="IP67, Type 4X")] = None
    evidence: Annotated[tuple[Annotated[EvidenceModel, Fact(Evidence)], ...], ManyOrNone] | None = (
        None
    )
    electrical_content: Annotated[
        Annotated[tuple[Text, ...], ManyOrNone] | None,
        Field(description="none, or what is electrical inside a mechanical part"),
    ] = None
    arcing: Annotated[YesNo | None, Field(description="make-and-break contacts")] = None
    generates: Annotated[GeneratesModel, Fact(Generates, "output")] | None = None
    placed_on_market: Date | None = None
    in_service: Annotated[YesNo | None, Field(description="taken over, not newly bought")] = None
    device: Annotated[
        DeviceWord | None, Field(description="what an unmarked part is, or a cable gland or plug")
    ] = None
    contact_protection: ContactProtectionWord | None = None
    enclosure: EnclosureWord | None = None
    heat_producing: YesNo | None = None
    inverter_fed: Annotated[YesNo | None, Field(description="motor fed by an inverter")] = None
    space_heater: Annotated[YesNo | None, Field(description="heater inside a motor")] = None
    overloadable: Annotated[YesNo | None, Field(description="may be overloaded")] = None
    pressurization: Annotated[PressurizationModel, Fact(Pressurization)] | None = None
    conduit_seals: Annotated[ConduitSealsModel, Fact(ConduitSeals)] | None = None
    entries: Annotated[tuple[Annotated[EntryModel, Fact(entry)], ...], ManyOrNone] | None = None
    intrinsic_safety: Annotated[
        IntrinsicSafetyWord | None,
        Field(description="why a part so marked stands in no circuit: own cell, or inside only"),
    ] = None
    rubbing_speed: Speed | None = None
    bonded: YesNo | None = None
    resistance_to_earth: Resistance | None = None
    capacitance: Annotated[Capacitance | None, Field(description="to earth, if isolated")] = None
    drive: Annotated[DriveWord | None, Field(description="what moves a mechanical part")] = None
    air_supply: Annotated[AirSupplyModel, Fact(AirSupply)] | None = None
    drop_height: Annotated[
        Layer | None, Field(description="from which a part or load can fall, or none")
    ] = None
    end_stops: EndStopsWord | None = None
    protects: Annotated[
        YesNo | None, Field(description="whether any protection depends on this part")
    ] = None
    release: Annotated[ReleaseWord | None, Field(description="what it takes to remove it")] = None
    loose_parts: Annotated[
        LoosePartsWord | None, Field(description="pins, springs and balls when it is released")
    ] = None
    materials: (
        Annotated[tuple[Annotated[MaterialModel, Fact(MaterialUse, "material")], ...], ManyOrNone]
        | None
    ) = None
    materials_complete: Annotated[
        YesNo | None, Field(description="seals, springs, grease and fasteners are all listed")
    ] = None
    exposure: Annotated[
        ExposureWord | None, Field(description="of all materials that state none of their own")
    ] = None
    contacts: (
        Annotated[tuple[Annotated[ContactModel, Fact(ContactRef)], ...], ManyOrNone] | None
    ) = None


class AlternateModel(LineModel):
    """Another make or type for the same line: what it leaves out is as in the line."""

    called: ClassVar[str] = "an alternate"

    kinds: Annotated[
        Annotated[tuple[KindWord, ...], Many] | None, Field(validation_alias="kind")
    ] = None
    locations: Annotated[
        Annotated[tuple[Text, ...], Many] | None, Field(validation_alias="location")
    ] = None


class PartModel(LineModel):
    """A line of the list."""

    called: ClassVar[str] = "a part"

    item: Annotated[Text, Field(description="unique within the list")]
    kinds: Annotated[
        tuple[KindWord, ...],
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
