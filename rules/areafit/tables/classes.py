"""Small tables set by standards: temperature classes, galvanic limits, what a part hides."""

from decimal import Decimal

from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Scheme(Term):
    """Which markings may use a temperature class."""

    BOTH = "both"
    NEC_DIVISION = "nec division"


class Atmosphere(Term):
    """The air in which a galvanic pair stands, harshest first."""

    SEVERE = "severe"
    NORMAL = "normal"
    CONTROLLED = "controlled"


class TemperatureClass(Frozen):
    """A class and the highest surface temperature, in °C, that it stands for."""

    name: str
    max_c: Decimal
    scheme: Scheme
    source_id: str
    locator: str
    basis: Basis
    note: str


class GalvanicLimit(Frozen):
    """The largest difference of anodic index, in whole millivolts, that an atmosphere allows."""

    atmosphere: Atmosphere
    limit_mv: int
    source_id: str
    locator: str
    basis: Basis
    note: str


class HiddenItem(Frozen):
    """What a bought part of a given kind usually holds that its description does not say.

    `materials` are the usual ones, for the question to the supplier; none of them is a fact.
    """

    kind: str
    component: str
    names: tuple[str, ...]
    materials: tuple[str, ...]
    question: str
    source_id: str
    locator: str
    basis: Basis
    note: str


class SharedName(Frozen):
    """A name that more than one row answers to: all of `members` are judged, the worst governs."""

    table: str
    name: str
    members: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str
