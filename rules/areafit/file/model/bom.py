"""The outermost keys of a bill of materials and of a shared file of places."""

from typing import Annotated, Any, ClassVar

from pydantic import Field

from areafit.facts.bom import Assembly
from areafit.file.model.base import Model
from areafit.file.model.loop import LoopModel
from areafit.file.model.part import PartModel
from areafit.file.model.place import LocationModel
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import LawWord, Reference, Text, Version


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
    assembly: Annotated[AssemblyModel, Fact(Assembly)]
    code: Annotated[
        LawWord | None, Field(description="the installation rules that govern; may be in `areas`")
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
    code: LawWord | None = None
    locations: Any = None


class SiteModel(SiteHeaderModel):
    """Places shared by the machines of a site."""

    locations: dict[str, LocationModel]


class BomModel(HeaderModel):
    """A machine's bill of materials, with the places where its parts will stand."""

    locations: Annotated[
        dict[str, LocationModel] | None, Field(description="places by name; may be in `areas`")
    ] = None
    parts: Annotated[tuple[PartModel, ...], Listed()]
    loops: Annotated[
        Annotated[tuple[LoopModel, ...], Listed(none=True)] | None,
        Field(description="intrinsically safe circuits"),
    ] = None
