"""Types of protection: the letters behind `Ex`, and the level that each of them gives."""

from areafit.facts.protection import Hazard
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class TypeFamily(Term):
    """Letters behind `Ex`, or the letters of the old standards for non-electrical equipment."""

    ELECTRICAL = "electrical"
    NON_ELECTRICAL = "non-electrical"


class TypeStatus(Term):
    """Whether the current edition still uses the letter."""

    CURRENT = "current"
    LEGACY = "legacy"


class Gives(Term):
    """The level that a type gives for one hazard.

    `A`, `B`, `C` are the second letters of the level; `AS_PRINTED` leaves it to the printed level
    or category; `BY_PRACTICE` to the zone printed behind `tD`; `NONE`: not for this hazard.
    """

    A = "a"
    B = "b"
    C = "c"
    AS_PRINTED = "as printed"
    BY_PRACTICE = "by practice"
    NONE = ""


class ProtectionType(Frozen):
    """One type; `gas_group_letter`: for gas it needs IIA, IIB or IIC, `II` alone says nothing."""

    letter: str
    family: TypeFamily
    status: TypeStatus
    gas: Gives
    dust: Gives
    gas_group_letter: bool
    standard: str
    source_id: str
    locator: str
    basis: Basis
    note: str

    def gives(self, hazard: Hazard) -> Gives:
        """The level that the type gives for a hazard."""
        return self.dust if hazard is Hazard.DUST else self.gas
