"""Loops: intrinsically safe circuits by their entity values."""

from typing import Annotated, ClassVar, Literal, Self

from pydantic import AliasChoices, Field, model_validator

from areafit.facts.loop import LoopDevice, LoopSource
from areafit.file.model.base import Model
from areafit.file.model.mistake import Mistake
from areafit.file.model.quantities import (
    Capacitance,
    CapacitancePerLength,
    Current,
    Inductance,
    InductancePerLength,
    InductancePerResistance,
    Length,
    PermittedCapacitance,
    PermittedInductance,
    Power,
    RatedCurrent,
    RatedPower,
    RatedVoltage,
    Voltage,
)
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import GroupWord, Text, YesNo


def _written(*names: str) -> AliasChoices:
    return AliasChoices(*names)


class SourceModel(Model):
    """The source of a loop: what can come out of it at most."""

    called: ClassVar[str] = "a loop source"

    item: Text
    voltage: Annotated[Voltage | None, Field(validation_alias=_written("Uo", "Voc"))] = None
    current: Annotated[Current | None, Field(validation_alias=_written("Io", "Isc"))] = None
    power: Annotated[Power | None, Field(validation_alias="Po")] = None
    capacitance: Annotated[
        PermittedCapacitance | None,
        Field(validation_alias=_written("Co", "Ca"), description="for `group`, or by group"),
    ] = None
    inductance: Annotated[
        PermittedInductance | None,
        Field(validation_alias=_written("Lo", "La"), description="for `group`, or by group"),
    ] = None
    inductance_per_resistance: Annotated[
        InductancePerResistance | None, Field(validation_alias=_written("Lo/Ro", "La/Ra"))
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
    voltage: Annotated[RatedVoltage | None, Field(validation_alias=_written("Ui", "Vmax"))] = None
    current: Annotated[RatedCurrent | None, Field(validation_alias=_written("Ii", "Imax"))] = None
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
    source: Annotated[SourceModel, Fact(LoopSource)] | None = None
    sources: Annotated[
        Annotated[tuple[Annotated[SourceModel, Fact(LoopSource)], ...], Listed()] | None,
        Field(description="instead of `source` where there are several"),
    ] = None
    devices: Annotated[tuple[Annotated[DeviceModel, Fact(LoopDevice)], ...], Listed()]
    cable: CableModel | None = None
    locations: Annotated[
        Annotated[tuple[Text, ...], Listed()] | None,
        Field(
            validation_alias="location",
            description="places that the cable enters besides those of its ends",
        ),
    ] = None

    @model_validator(mode="after")
    def _source_or_sources(self) -> Self:
        if (self.source is None) is (self.sources is None):
            raise Mistake("a loop needs `source` or `sources`", "state one of the two")
        return self
