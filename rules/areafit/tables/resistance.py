"""How a material stands up to a chemical, by concentration and temperature."""

from decimal import Decimal

from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Rating(Term):
    """Ordered from best to worst.

    Metals: suitable below 0.1 mm/year without local attack, limited to 1 mm/year or a local risk
    that can be managed. Elastomers: about 20 % and 40 % swelling. Plastics: the three classes of
    ISO/TR 10358, unstressed.
    """

    SUITABLE = "suitable"
    LIMITED = "limited"
    UNSUITABLE = "unsuitable"

    @property
    def rank(self) -> int:
        """0 for the best."""
        return _RANK[self]


_RANK = {rating: rank for rank, rating in enumerate(Rating)}


class Mechanism(Term):
    """By what a material suffers."""

    NONE = "none"
    CATALYTIC_DECOMPOSITION = "catalytic decomposition of the chemical"
    CREVICE = "crevice corrosion"
    DEHYDROFLUORINATION = "dehydrofluorination and stress cracking"
    DEPOSITION = "deposition corrosion (noble-metal plating-out)"
    DEZINCIFICATION = "dezincification"
    DISBONDING = "disbonding/under-film attack"
    DISSOLUTION = "dissolution"
    EMBRITTLEMENT = "embrittlement"
    ENVIRONMENTAL_STRESS_CRACKING = "environmental stress cracking"
    ETCHING = "etching of silica"
    ACETYLIDE = "explosive acetylide formation"
    HYDROLYSIS = "hydrolysis"
    IGNITION = "ignition / violent reaction"
    INTERGRANULAR = "intergranular corrosion"
    OXIDATION = "oxidative degradation"
    OZONE_CRACKING = "ozone cracking"
    PERMEATION = "permeation"
    PITTING = "pitting"
    PLASTICISER_LOSS = "plasticiser extraction and hardening"
    STRESS_CORROSION = "stress corrosion cracking"
    SULFIDE = "sulphide tarnish/attack"
    SWELLING = "swelling"
    UNIFORM = "uniform corrosion"
    UNIFORM_WITH_HYDROGEN = "uniform corrosion with hydrogen evolution"


class ResistanceRow(Frozen):
    """Holds for concentrations in (min, max], 0 included, and temperatures up to `temp_max_c`.

    Mass %; °C. No `temp_max_c` means at any temperature.
    """

    material: str
    chemical: str
    conc_min_pct: Decimal
    conc_max_pct: Decimal
    temp_max_c: Decimal | None
    rating: Rating
    mechanism: Mechanism
    figure: str
    source_id: str
    locator: str
    basis: Basis
    note: str
