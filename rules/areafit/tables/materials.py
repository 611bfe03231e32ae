"""Engineering materials: grade, composition limits, service temperature, surface, anodic index."""

from decimal import Decimal

from areafit.values import Frozen, Term
from areafit.verdict import Basis


class SurfaceClass(Term):
    """How a surface carries charge away; above 1 GΩ at 50 % humidity it is insulating."""

    CONDUCTIVE = "conductive"
    DISSIPATIVE = "dissipative"
    INSULATING_FILM = "insulating film"  # thin non-conducting film on conductive metal
    DEPENDS = "depends"  # filler or, on glass, moisture decides: a test value is needed
    INSULATING = "insulating"


class Material(Frozen):
    """A material as a part list names it.

    Temperatures in °C (dry service), density in g/cm³, contents in mass %. `cr`, `mo`, `n`, `ni`
    are nominal; every `…_max` is the most that the grade's standard allows. `pren` is
    Cr + 3.3 Mo + 16 N. `anodic_index_mv` is in whole millivolts. `carbon_max_pct` and
    `stabilised` are given for stainless steels. `behaves_as` names the material whose resistance
    rows serve where the exact pair has none (basis then `judgement`), except in `behaves_not`.
    """

    id: str
    name: str
    family: str
    names: tuple[str, ...]
    uses: tuple[str, ...]
    density_g_cm3: Decimal | None
    tmin_c: Decimal | None
    tmax_c: Decimal | None
    cr_pct: Decimal | None
    ni_pct: Decimal | None
    mo_pct: Decimal | None
    n_pct: Decimal | None
    pren: Decimal | None
    carbon_max_pct: Decimal | None
    stabilised: bool | None
    light_metal_pct_max: Decimal | None
    mg_ti_zr_pct_max: Decimal | None
    cu_pct_max: Decimal | None
    high_strength: bool
    surface: SurfaceClass
    anodic_index_mv: int | None
    anodic_basis: Basis
    anodic_source_id: str
    anodic_note: str
    behaves_as: str
    behaves_not: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str
