"""A deviation that somebody with a role answers for, until a date."""

from datetime import date

from areafit.facts.bom import Position
from areafit.values import Frozen, Term


class WaivedSubject(Term):
    """What sort of subject a waiver names."""

    ITEM = "item"
    LOOP = "loop"
    PLACE = "place"


class Waiver(Frozen):
    """One entry of a waiver file; `fingerprint` binds it to the facts it was granted for.

    `assembly` is the number of the list that it is for; None where the file serves one list only.
    `revision` is the one of the list that it holds for, where no last day is stated; `until` is
    then the last day that there is.
    """

    subject: WaivedSubject
    name: str
    rule: str
    fingerprint: str
    reason: str
    approved_by: str
    until: date
    position: Position
    component: str | None = None
    document: str | None = None
    assembly: str | None = None
    revision: str | None = None

    @property
    def held(self) -> str:
        """Until when it holds, in words: a day, or the revision that it is for."""
        return self.until.isoformat() if self.revision is None else f"revision {self.revision}"
