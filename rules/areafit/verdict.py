"""The closed vocabularies of a judgement: verdict, reason, basis, and who can answer.

Everything here is ordered by severity, so that "the worst of" is one call and never a
comparison of words.
"""

from collections.abc import Iterable

from areafit.values import Term


class Verdict(Term):
    """What was found about one requirement, or the worst of many.

    >>> worst([Verdict.PASS, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE]).value
    'unproven'
    """

    FLAG = "flag"
    UNPROVEN = "unproven"
    WAIVED = "waived"
    PASS = "pass"  # noqa: S105 - a verdict, no secret
    NOT_APPLICABLE = "not applicable"

    @property
    def passes(self) -> bool:
        """Whether the gate may pass with this verdict: flag and unproven hold it."""
        return self is not Verdict.FLAG and self is not Verdict.UNPROVEN


_SEVERITY = {verdict: rank for rank, verdict in enumerate(Verdict)}


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """The most severe of the verdicts; `not applicable` if there are none."""
    return min(verdicts, key=_SEVERITY.__getitem__, default=Verdict.NOT_APPLICABLE)


class Reason(Term):
    """Why something is `unproven`; a closed list, part of the JSON report."""

    FACT_MISSING = "fact missing"
    NAME_UNKNOWN = "name unknown"
    NO_DATA = "no data"
    CONDITION_TO_ACCEPT = "condition to accept"
    NO_MARGIN = "no margin"
    NOT_JUDGED = "not judged"


class Basis(Term):
    """How far a table row was checked, best first.

    `seen`: read in the named source. `reported`: read in a secondary source, such as a maker's page
    that quotes a standard, an older list or a reprint. `memory`: recalled from the named source,
    not read again. `judgement`: reasoned here, or carried over from a similar case.
    """

    SEEN = "seen"
    REPORTED = "reported"
    MEMORY = "memory"
    JUDGEMENT = "judgement"


_TRUST = {basis: rank for rank, basis in enumerate(Basis)}


def trust(basis: Basis) -> int:
    """0 for the best basis; what a list or table of rows is sorted by."""
    return _TRUST[basis]


def weakest(bases: Iterable[Basis]) -> Basis | None:
    """The least trustworthy of the bases; None if there are none."""
    return max(bases, key=_TRUST.__getitem__, default=None)


def at_least(basis: Basis, least: Basis) -> bool:
    """Whether `basis` is as good as `least` or better."""
    return _TRUST[basis] <= _TRUST[least]


class Role(Term):
    """Who can answer an open point."""

    SUPPLIER = "supplier"
    AREA_OWNER = "area owner"
    INSTALLER = "installer"
    DESIGNER = "designer"
    PROCESS_OWNER = "process owner"
