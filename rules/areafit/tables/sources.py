"""The register of sources that rows refer to."""

from areafit.values import Frozen, Term


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
