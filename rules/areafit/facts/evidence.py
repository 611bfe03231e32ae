"""What is on file for a part: certificates, listings, drawings, assessments, and conditions."""

from datetime import date

from areafit.facts.protection import Hazard, Level
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


class Examined(Frozen):
    """What the papers of a part answer of its own housing against one hazard of a place.

    `paper` is the document that answers, None where none does; `lacks` says why the marking for the
    hazard does not then. `met` are conditions of an `X`.
    The list does not state it: it follows from marking, documents and place.
    """

    hazard: Hazard
    paper: str | None = None
    lacks: str = ""
    met: tuple[Condition, ...] = ()

    @property
    def by(self) -> str:
        """The document with the conditions of its `X`, as a finding names them."""
        met = "; ".join(f"{each.text}: {each.met_by} ({each.document})" for each in self.met)
        return f"{self.paper}, conditions met ({met})" if met else self.paper or ""


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
