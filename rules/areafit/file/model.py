"""A list as models, and a shared file of places; fields are named like those of their facts."""

from functools import cache
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from areafit.errors import InputError
from areafit.facts.bom import Assembly
from areafit.facts.loop import LoopDevice, LoopSource
from areafit.facts.place import (
    Atmosphere,
    Availability,
    Presence,
    PresentChemical,
    PresentSubstance,
    Ventilation,
)
from areafit.facts.protection import Law, Level
from areafit.file.fields import (
    AcidityRange,
    Capacitance,
    CapacitancePerLength,
    Current,
    GroupWord,
    Inductance,
    InductancePerLength,
    InductancePerResistance,
    ItemText,
    Layer,
    Length,
    MixtureOf,
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
    Schema,
    Strength,
    Temperature,
    TemperatureRange,
    Text,
    Version,
    Voltage,
    VolumeFlow,
    YesNo,
    whole,
)
from areafit.file.library import LibraryModel
from areafit.file.mappings import Becomes, Many, ManyOrNone, Model, models_in, written
from areafit.file.notes import NoteModel
from areafit.file.part_model import PartModel


class SubstanceModel(Model):
    """A flammable gas, vapour or dust; own test values need a source."""

    called = "a substance"
    under = "place.substances."

    name: Text = ""
    mixture: MixtureOf | None = None
    group: GroupWord | None = None
    autoignition: Temperature | None = None
    flash_point: Temperature | None = None
    cloud_ignition: Temperature | None = None
    layer_ignition: Temperature | None = None
    layer_melts: YesNo | None = None
    carbonises: YesNo | None = None
    conductive: YesNo | None = None
    temperature: TemperatureRange | None = None
    source: Reference | None = None
    document: Reference | None = None

    @model_validator(mode="after")
    def _has_a_name(self) -> Self:
        if not self.name:
            if self.mixture is None:
                raise InputError("a substance without `name`", "add `name:`, or `mixture:`")
            self.name = self.mixture.text
        return self

    @model_validator(mode="after")
    def _own_values_have_a_source(self) -> Self:
        stated = self.model_fields_set - {"name", "mixture", "temperature", "source", "document"}
        own = sorted(name for name in stated if getattr(self, name) is not None)
        if own and self.source is None:
            raise InputError(
                f"own values ({', '.join(own)}) without `source`",
                "add `source:` with the test report or data sheet that they come from",
            )
        return self


class ChemicalModel(Model):
    """A chemical that corrodes, with its strength and temperature."""

    called = "a chemical"
    under = "place.chemicals."

    name: Text
    concentration: Strength | None = None
    temperature: TemperatureRange | None = None
    bath: Text | None = None
    chloride: Strength | None = None
    rinsed: YesNo | None = None
    mist: YesNo | None = None
    ventilated: YesNo | None = None
    ph: AcidityRange | None = None


class VentilationModel(Model):
    """The air that is moved through a place."""

    called = "`ventilation`"
    under = "place.ventilation."

    rate: VolumeFlow | None = None
    document: Reference | None = None
    availability: OneWord[Availability] | None = None
    dead_spaces: OneWord[Presence] | None = None
    other_hydrogen: OneWord[Presence] | None = None


class LocationModel(Model):
    """A place where parts stand. What is left out is not stated; `none` says there is none."""

    called = "a location"
    under = "place."

    title: Text | None = None
    area: Annotated[Many[Text], AfterValidator(whole)] | None = None
    substances: ManyOrNone[Annotated[SubstanceModel, Becomes(PresentSubstance, "name")]] | None = (
        None
    )
    layer: Layer | None = None
    ambient: TemperatureRange | None = None
    document: Reference | None = None
    ingress: Text | None = None
    atmosphere: OneWord[Atmosphere] | None = None
    chemicals: ManyOrNone[Annotated[ChemicalModel, Becomes(PresentChemical, "name")]] | None = None
    required_levels: Many[OneWord[Level]] | None = written("required_epl")
    pressure: PressureRange | None = None
    oxygen: Oxygen | None = None
    hybrid_mixtures: YesNo | None = None
    restricted_access: YesNo | None = None
    ventilation: Annotated[VentilationModel, Becomes(Ventilation)] | None = None
    unless_stated: Many[NoteModel] | None = None


class SourceModel(Model):
    """The source of a loop: what can come out of it at most."""

    called = "a loop source"
    under = "loop.source."

    item: ItemText
    voltage: Voltage | None = written("Uo", "Voc")
    current: Current | None = written("Io", "Isc")
    power: Power | None = written("Po")
    capacitance: PermittedCapacitance | None = written("Co", "Ca")
    inductance: PermittedInductance | None = written("Lo", "La")
    inductance_per_resistance: InductancePerResistance | None = written("Lo/Ro", "La/Ra")
    maximum_voltage: Voltage | None = written("Um")
    supply: Voltage | None = None
    linear: YesNo | None = None
    together: YesNo | None = None


class DeviceModel(Model):
    """A device of a loop: what may go into it at most."""

    called = "a loop device"
    under = "loop.devices."

    item: ItemText
    voltage: RatedVoltage | None = written("Ui", "Vmax")
    current: RatedCurrent | None = written("Ii", "Imax")
    power: RatedPower | None = written("Pi")
    capacitance: Capacitance | None = written("Ci")
    inductance: Inductance | None = written("Li")
    active: YesNo | None = None


class CableModel(Model):
    """The cable of a loop."""

    called = "a cable"
    under = "loop.cable."

    length: Length | None = None
    capacitance: CapacitancePerLength | None = None
    inductance: InductancePerLength | None = None
    inductance_per_resistance: InductancePerResistance | None = None
    values: Literal["default"] | None = None


class LoopModel(Model):
    """An intrinsically safe circuit."""

    called = "a loop"
    under = "loop."

    name: Text
    group: GroupWord | None = None
    source: Annotated[SourceModel, Becomes(LoopSource)] | None = None
    sources: Many[Annotated[SourceModel, Becomes(LoopSource)]] | None = None
    devices: Many[Annotated[DeviceModel, Becomes(LoopDevice)]]
    cable: CableModel | None = None
    locations: Many[Text] | None = written("location")

    @model_validator(mode="after")
    def _source_or_sources(self) -> Self:
        if (self.source is None) is (self.sources is None):
            raise InputError("a loop needs `source` or `sources`", "state one of the two")
        return self


class AssemblyModel(Model):
    """The machine."""

    called = "`assembly`"
    under = "list.assembly."

    number: Text
    title: Text | None = None
    revision: Text | None = None
    assessment: Reference | None = None
    note: Text | None = None


class HeaderModel(Model):
    """A bill of materials whose places, parts and loops are still as written."""

    called = "a bill of materials"
    under = "list."

    areafit: Version
    assembly: Annotated[AssemblyModel, Becomes(Assembly)]
    code: OneWord[Law] | None = None
    edition: Text | None = None
    jurisdiction: Text | None = None
    areas: Text | None = None
    library: Many[Text] | None = None
    unless_stated: Many[NoteModel] | None = None
    locations: Any = None
    parts: Any = None
    loops: Any = None


class SiteHeaderModel(Model):
    """A shared file of places whose places are still as written."""

    called = "a shared file of places"
    under = "list."

    areas_version: Version = Field(validation_alias="areafit-areas")
    code: OneWord[Law] | None = None
    library: Many[Text] | None = None
    unless_stated: Many[NoteModel] | None = None
    locations: Any = None


class SiteModel(SiteHeaderModel):
    """Places shared by the machines of a site."""

    locations: dict[str, LocationModel]


class BomModel(HeaderModel):
    """A machine's bill of materials, with the places where its parts will stand."""

    locations: dict[str, LocationModel] | None = None
    parts: Many[PartModel]
    loops: ManyOrNone[LoopModel] | None = None


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


def bom_schema() -> Schema:
    """A bill of materials as JSON Schema (draft 2020-12), made from the models of reading."""
    return BomModel.schema_for_editors()


def library_schema() -> Schema:
    """As `bom_schema`, for a file of the library of bought parts."""
    return LibraryModel.schema_for_editors()


def areas_schema() -> Schema:
    """As `bom_schema`, for a shared file of places."""
    return SiteModel.schema_for_editors()
