"""What is on file for a part: certificates, listings, drawings, assessments, and conditions."""

from datetime import date

from areafit.facts.protection import Level
from areafit.facts.quantity import Range
from areafit.values import Frozen, Term


class EvidenceType(Term):
    """The kinds of document that the contract knows."""

    CERTIFICATE = "certificate"
    DECLARATION = "declaration"
    LISTING = "listing"
    CONTROL_DRAWING = "control drawing"
    ASSESSMENT = "assessment"
    TEST_REPORT = "test report"
    REPAIR_RECORD = "repair record"
    MATERIAL_CERTIFICATE = "material certificate"


class Condition(Frozen):
    """A specific condition of use of an `X` certificate and how it is met."""

    text: str
    met: bool | None = None
    met_by: str | None = None
    document: str | None = None
    role: str | None = None


class Evidence(Frozen):
    """One document. `level` is the EPL that it shows where it is not on the nameplate.

    `process_temperature` in °C is what the part may be immersed in or mounted to by it.
    `elsewhere` says that `covers` names other part numbers than that of the line.
    """

    type: EvidenceType
    number: str | None = None
    covers: str | None = None
    ambient: Range | None = None
    valid_until: date | None = None
    conditions: tuple[Condition, ...] | None = None
    level: Level | None = None
    standard: str | None = None
    elsewhere: bool = False
    process_temperature: Range | None = None
