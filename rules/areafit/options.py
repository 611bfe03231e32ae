"""What a caller may ask of a run: which rules, what may pass, and the date that decides."""

from datetime import date

from areafit.values import Frozen
from areafit.verdict import Basis

WAITED_FOR = frozenset(
    {
        *("kind", "protection-level", "protection-type", "gas-group", "dust-group"),
        *("ambient-range", "marking-consistency", "ex-component"),
        *("evidence", "document-number", "superseded-marking", "special-conditions"),
    }
)
"""The rules of what plate and papers lack: while one of them holds a part, what plate and papers
would answer is not asked. Where somebody answers for one, or it is left out, all is asked."""


class Options(Frozen):
    """Options of one run; rules are named by their ids.

    `as_of` is the date for certificates and waivers; it must be given by the caller, since the
    rules know no clock. `as_of_chosen` says that it is not today. `answered_for` are the items of
    parts for whose plate or papers a waiver answers: of these all is asked that elsewhere waits for
    them, or for the part that comes instead. `apply_waivers` sees to it.

    >>> Options(as_of=date(2026, 3, 31), skip=frozenset({"ingress"})).scope
    'partial'
    """

    as_of: date
    as_of_chosen: bool = False
    only: frozenset[str] = frozenset()
    skip: frozenset[str] = frozenset()
    accept_unproven: frozenset[str] = frozenset()
    least_basis: Basis = Basis.MEMORY
    partial: bool = False
    answered_for: frozenset[str] = frozenset()

    @property
    def scope(self) -> str:
        """`full`, `partial` where rules or files were left out, `relaxed` where more may pass."""
        if self.accept_unproven or self.as_of_chosen or self.least_basis is Basis.JUDGEMENT:
            return "relaxed"
        return "partial" if self.partial or self.only or self.skip else "full"

    @property
    def narrowed(self) -> tuple[str, ...]:
        """What makes the scope less than full: each option as it is given, with its value.

        >>> Options(as_of=date(2026, 3, 31), skip=frozenset({"ingress"})).narrowed
        ('skip ingress',)
        """
        judgement = self.least_basis is Basis.JUDGEMENT
        said = (
            ("accept-unproven", ", ".join(sorted(self.accept_unproven))),
            ("least-basis", self.least_basis.value if judgement else ""),
            ("as-of", self.as_of.isoformat() if self.as_of_chosen else ""),
            ("only", ", ".join(sorted(self.only))),
            ("skip", ", ".join(sorted(self.skip))),
        )
        return tuple(f"{option} {value}" for option, value in said if value)
