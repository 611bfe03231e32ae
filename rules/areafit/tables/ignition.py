"""Limits by level and group for ignition sources that are not electrical: light metals, static.

Set by standards and guides, so that a company's own rows cannot be laid over them.
"""

from decimal import Decimal
from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class LightMetalLimit(Frozen):
    """Largest content, in mass %, of light metals for one level; None where there is none.

    `fans_only`: the limit is for fans, hoods and vent screens; other parts have none.
    """

    level: str
    al_mg_ti_zr_pct: Decimal | None
    mg_ti_zr_pct: Decimal
    fans_only: bool
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


class StaticLimit(Frozen):
    """What an insulating surface, or a metal part without earth, may be at one level and group.

    Area in cm², width of long parts and layer on earthed metal in mm, charge that a test may
    transfer in nC, capacitance of a metal part without earth in pF. None: no such way out.
    """

    level: str
    group: str
    area_cm2: Decimal
    width_mm: Decimal | None
    layer_mm: Decimal | None
    charge_nc: Decimal
    capacitance_pf: Decimal
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


class Rust(Term):
    """Whether a surface may carry rust when a light metal strikes or rubs it."""

    YES = "yes"
    POSSIBLE = "possible"
    NO = "no"


class Counterface(Frozen):
    """A family of materials as the other half of a friction pair; `hard`: titanium sparks on it."""

    family: str
    rusts: Rust
    hard: bool
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def light_metal_limit(level: str) -> LightMetalLimit:
    """The row of a level, `Ga` to `Dc`.

    Raises:
        KeyError: there is none.
    """
    return {row.level: row for row in rows("light_metal_limits", LightMetalLimit)}[level]


@cache
def static_limit(level: str, group: str) -> StaticLimit:
    """The row of a level and a group; dust has one for all its groups, `III`.

    Raises:
        KeyError: there is none.
    """
    return {(row.level, row.group): row for row in rows("static_limits", StaticLimit)}[level, group]


@cache
def counterface(family: str) -> Counterface | None:
    """What a family of materials is to a light metal; None where nothing is known."""
    return {row.family: row for row in rows("counterfaces", Counterface)}.get(family)
