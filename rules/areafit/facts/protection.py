"""Levels and types of protection: what a code promises, apart from group and temperature."""

from areafit.values import Term


class Law(Term):
    """The installation rules that govern a machine: the `code` of a bill of materials."""

    NEC = "NEC"
    IEC = "IEC"
    ATEX = "ATEX"


class Hazard(Term):
    """What may be ignited."""

    GAS = "gas"
    DUST = "dust"
    FIBRES = "fibres"


class MarkingSystem(Term):
    """The family of marking rules that a code follows."""

    NEC_DIVISION = "NEC division"
    NEC_ZONE = "NEC zone"
    IEC = "IEC"
    ATEX = "ATEX"


class Level(Term):
    """Equipment protection level (IEC 60079-0:2017, 3.26), best of each hazard first."""

    GA = "Ga"
    GB = "Gb"
    GC = "Gc"
    DA = "Da"
    DB = "Db"
    DC = "Dc"
    MA = "Ma"
    MB = "Mb"

    @property
    def hazard(self) -> Hazard:
        """Gas (mines included) or dust."""
        return Hazard.DUST if self.value[0] == "D" else Hazard.GAS

    @property
    def rank(self) -> int:
        """0 for the best level of the hazard, 2 for the weakest."""
        return "abc".index(self.value[1])


def level_of(hazard: Hazard, rank: int) -> Level:
    """The level of a hazard by its rank, 0 for the best; fibres have those of dust."""
    return Level(("G" if hazard is Hazard.GAS else "D") + "abc"[rank])


class Suffix(Term):
    """The letter behind a certificate or marking (IEC 60079-0:2017, 29.3)."""

    X = "X"
    U = "U"


class Purge(Term):
    """North American purge type (NFPA 496)."""

    X = "X"
    Y = "Y"
    Z = "Z"
