"""Evidence: certificates, listings, drawings and other documents on file for a part."""

from typing import Annotated, ClassVar

from pydantic import Field

from areafit.facts.evidence import Condition
from areafit.file.model.base import Model
from areafit.file.model.quantities import TemperatureRange
from areafit.file.model.types import Fact, Listed
from areafit.file.model.words import Date, EvidenceWord, LevelWord, Reference, Text, YesNo


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

    type: EvidenceWord
    number: Reference | None = None
    covers: Annotated[Reference | None, Field(description="part numbers it covers")] = None
    ambient: Annotated[TemperatureRange | None, Field(description="the certified Ta")] = None
    valid_until: Date | None = None
    conditions: (
        Annotated[tuple[Annotated[ConditionModel, Fact(Condition, "text")], ...], Listed(none=True)]
        | None
    ) = None
    level: Annotated[
        LevelWord | None, Field(description="EPL that it shows where the nameplate does not")
    ] = None
    standard: Text | None = None
    process_temperature: Annotated[
        TemperatureRange | None, Field(description="of what the part is immersed in, as certified")
    ] = None
