"""Locations: where parts stand, and what is present there."""

from typing import Annotated, ClassVar, Self

from pydantic import Field, model_validator

from areafit.facts.place import PresentChemical, PresentSubstance
from areafit.file.model.base import Model
from areafit.file.model.mistake import Mistake
from areafit.file.model.quantities import (
    AcidityRange,
    Layer,
    Oxygen,
    PressureRange,
    Strength,
    Temperature,
    TemperatureRange,
)
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import AtmosphereWord, GroupWord, LevelWord, Reference, Text, YesNo


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
            raise Mistake(
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
        Annotated[tuple[Text, ...], Listed()] | None,
        Field(description="as the area classification document writes it"),
    ] = None
    substances: Annotated[
        Annotated[
            tuple[Annotated[SubstanceModel, Fact(PresentSubstance, "name")], ...],
            Listed(none=True),
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
        AtmosphereWord | None, Field(description="severity of the air for galvanic pairs")
    ] = None
    chemicals: Annotated[
        Annotated[
            tuple[Annotated[ChemicalModel, Fact(PresentChemical, "name")], ...],
            Listed(none=True),
        ]
        | None,
        Field(description="what corrodes"),
    ] = None
    required_level: Annotated[
        LevelWord | None,
        Field(validation_alias="required_epl", description="if more than the area asks for"),
    ] = None
    pressure: Annotated[PressureRange | None, Field(description="absolute, of the air")] = None
    oxygen: Annotated[Oxygen | None, Field(description="share of oxygen by volume")] = None
    hybrid_mixtures: Annotated[
        YesNo | None, Field(description="whether gas and dust can form one mixture")
    ] = None
