"""Chlorides and stainless steel: content of common waters, limits for pitting and for cracking."""

from decimal import Decimal

from areafit.values import Frozen, Term
from areafit.verdict import Basis


class ChlorideContent(Frozen):
    """Chloride that a chemical brings: per mass % of it, or as it stands, in mg/L."""

    chemical: str
    mg_l_per_pct: Decimal | None
    mg_l: Decimal | None
    source_id: str
    locator: str
    basis: Basis
    note: str


class SaltAir(Term):
    """How a class of stainless steel stands salt that settles from the air."""

    STAINS = "stains"  # on open surfaces too
    OPEN_SURFACES = "open surfaces"  # holds where rain or washing reaches
    HOLDS = "holds"


class PittingLimit(Frozen):
    """Chloride in mg/L that a pitting resistance number from `pren_min` on withstands.

    In open, neutral water up to `temp_max_c`, without crevices; from `fails_mg_l` on it pits.
    `salt_air` says where it serves in salt-laden air.
    """

    pren_min: Decimal
    chloride_mg_l: Decimal
    fails_mg_l: Decimal | None
    temp_max_c: Decimal
    salt_air: SaltAir
    source_id: str
    locator: str
    basis: Basis
    note: str

    @property
    def most_mg_l(self) -> Decimal:
        """The most that it withstands: no more than where it pits, whatever an own row says."""
        fails = self.fails_mg_l
        return self.chloride_mg_l if fails is None else min(self.chloride_mg_l, fails)

    def pits(self, chloride: Decimal) -> bool:
        """Whether it is known to pit at this content."""
        return self.fails_mg_l is not None and chloride >= self.fails_mg_l

    def withstands(self, chloride: Decimal) -> bool:
        """Whether it is known to stand this content."""
        return chloride <= self.most_mg_l and not self.pits(chloride)


class CrackingLimit(Frozen):
    """Temperatures in °C from which chlorides crack a stressed alloy; empty where they do not.

    From `drying_c` on where chloride concentrates, is acid or frees chlorine, from `guide_c` on
    in any chloride water, and from `limit_c` on no stress is low enough.
    """

    family: str
    material: str
    drying_c: Decimal | None
    guide_c: Decimal | None
    limit_c: Decimal | None
    source_id: str
    locator: str
    basis: Basis
    note: str

    def lowest(self, *, sharp: bool) -> Decimal | None:
        """From where it may crack; None where it does not.

        `sharp`: the chloride concentrates, is acid or frees chlorine. An own row may set any one
        of the three: the lowest governs.
        """
        marks = (self.drying_c if sharp else None, self.guide_c, self.limit_c)
        return min((mark for mark in marks if mark is not None), default=None)
