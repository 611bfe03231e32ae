"""Where rows and values come from: the register of sources, and what every row says of its own."""

from typing import Generic, TypeVar

from areafit.values import Frozen, Term
from areafit.verdict import Basis

T = TypeVar("T")


class SourceKind(Term):
    """What a source is, which tells a reader how far to trust it."""

    STANDARD = "standard"
    LAW = "law"
    HANDBOOK = "handbook"
    SUPPLIER = "supplier"  # a maker's letter, data sheet or test report
    OPEN_DATA = "open data"
    WEB_PAGE = "web page"
    SECOND_HAND = "second-hand"
    JUDGEMENT = "judgement"
    PRACTICE = "practice"


class Source(Frozen):
    """A document, data set or stated practice. `read_on` is an ISO date, empty if not recorded."""

    id: str
    title: str
    edition: str
    publisher: str
    kind: SourceKind
    read_on: str
    note: str


class Sourced(Frozen, kw_only=True):
    """What every row of a table has: these four columns are its last ones."""

    source_id: str
    locator: str
    basis: Basis
    note: str


PROVENANCE = Sourced.__struct_fields__


class Cited(Sourced, Generic[T]):
    """One value of a table and where it stands.

    `system` names the list that the value belongs to where two published lists stand side by
    side: `iec`, `nfpa` or `nec`; it is empty where there is only one.
    """

    value: T
    system: str


class LaxerValue(Frozen):
    """A company's own value that is laxer than the shipped one, and what becomes of it.

    It governs if `approved` says by which role and when; else it is not used, and reports say so.
    One that does not `govern` is never put in the place of the shipped one, approved or not.
    """

    key: str
    column: str
    value: str
    shipped: str
    where: str
    reason: str
    approved: str = ""
    governs: bool = True
