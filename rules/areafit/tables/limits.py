"""Figures, clauses, and limits by level and group, as standards and the trade set them."""

from decimal import Decimal
from functools import cache, lru_cache

from areafit.facts.mechanics import BeltUse, Sparks
from areafit.facts.protection import Law
from areafit.facts.quantity import Dimension, Range, parse, parse_range
from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term
from areafit.verdict import Basis, weakest


class Figure(Sourced):
    """One figure.

    `applies_to` is what it is for, such as a code (`IEC`, `ATEX`, `NEC`), a group, an ambient or a
    chemical, or `all`; `value` a quantity with its unit, as the source prints it, or a year or a
    day; `clause` what a report cites, empty where the rule's own clause sets it.
    """

    name: str
    applies_to: str
    value: str
    clause: str

    def amount(self, dimension: Dimension) -> Decimal:
        """The figure in the dimension's own unit.

        Raises:
            QuantityError: the row is not a quantity of this dimension.
        """
        return parse(self.value, dimension)

    def fraction_of(self, amount: Decimal) -> Decimal:
        """That part of an amount which a fraction, `2/3`, says."""
        part, whole = map(Decimal, self.value.split("/"))
        return amount * part / whole

    @property
    def kelvin(self) -> Decimal:
        """A difference of temperature, which `amount` would take for a temperature.

        Raises:
            ValueError: the row is not a number of K.
        """
        value, unit = self.value.split()
        if unit != "K":
            raise ValueError(f"{self.name} is {self.value}, no difference in K")
        return Decimal(value)

    def span(self, dimension: Dimension) -> Range:
        """The figure where it is a range, `10..20 %`.

        Raises:
            QuantityError: the row is no quantity of this dimension.
        """
        return parse_range(self.value, dimension)

    @property
    def number(self) -> Decimal:
        """The figure without its unit, for units that no dimension has: `320 HV`."""
        return Decimal(self.value.partition(" ")[0])


def figure(name: str, applies_to: str = "all") -> Figure:
    """The row of this name for a code, group, level or ambient.

    Raises:
        KeyError: there is none.
    """
    found = figure_if_any(name, applies_to)
    if found is None:
        raise KeyError(f"figures.csv has no row {name!r} that applies to {applies_to!r}")
    return found


def figure_if_any(name: str, applies_to: str) -> Figure | None:
    """As `figure`, or None where the table knows none for this code, group, level or ambient."""
    return _figures().get((name, applies_to))


@cache
def _figures() -> dict[tuple[str, str], Figure]:
    return {(row.name, row.applies_to): row for row in rows("figures", Figure)}


_NEXT = pattern(r"; (?![^()]*\))")  # none inside round brackets


class Clause(Sourced):
    """A clause as it is cited; `law` names the laws under which it binds, none: under all."""

    citation: str
    document: str
    edition: str
    clause: str
    law: tuple[str, ...]


@lru_cache(maxsize=4096)
def binding(citations: str, law: Law) -> tuple[str, ...]:
    """The citations without those of laws that do not govern; all where none would be left."""
    every = tuple(_NEXT.split(citations))
    own = tuple(
        c for c in every if not (row := _clauses().get(c)) or law.value in (row.law or law.value)
    )
    return own or every


@lru_cache(maxsize=4096)
def basis_of(citations: str, law: Law) -> Basis:
    """The weakest basis of the clauses that bind; a citation without a row is judgement."""
    known = _clauses()
    found = (known[c].basis if c in known else Basis.JUDGEMENT for c in binding(citations, law))
    return weakest(found) or Basis.JUDGEMENT


@cache
def _clauses() -> dict[str, Clause]:
    return {row.citation: row for row in rows("clauses", Clause)}


class LightMetalLimit(Sourced):
    """Largest content, in mass %, of light metals for one level; None where there is none.

    `fans_only`: the limit is for fans, hoods and vent screens; other parts have none.
    """

    level: str
    al_mg_ti_zr_pct: Decimal | None
    mg_ti_zr_pct: Decimal
    fans_only: bool
    clause: str


class StaticLimit(Sourced):
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


class BeltLimit(Sourced):
    """What a belt may be at one level and group; dust has one group, `III`.

    Not `allowed`: no belt of this use. Along its surface at most so many MΩ, resistance to earth
    times width at most so many kΩ·m, speed in m/s; None where nothing is asked. A belt that carries
    goods faster may be held to the rule of those that drive.
    """

    use: BeltUse
    level: str
    group: str
    allowed: bool
    surface_mohm: Decimal | None
    resistance_width_kohm_m: Decimal | None
    speed_m_s: Decimal | None
    faster_as_transmission: bool
    clause: str

    @property
    def surface(self) -> Decimal:
        """The largest resistance along the surface in Ω."""
        return (self.surface_mohm or Decimal(0)) * 10**6

    @property
    def resistance_width(self) -> Decimal:
        """The largest resistance to earth times width in Ω·m."""
        return (self.resistance_width_kohm_m or Decimal(0)) * 1000

    @property
    def fastest(self) -> Decimal:
        """The highest speed in m/s."""
        return self.speed_m_s or Decimal(0)


class Rust(Term):
    """Whether a surface may carry rust when a light metal strikes or rubs it."""

    YES = "yes"
    POSSIBLE = "possible"
    NO = "no"


class Counterface(Sourced):
    """A family of materials as the other half of a friction pair; `hard`: titanium sparks on it.

    `steel`: a tool of it counts as one of steel.
    """

    family: str
    rusts: Rust
    hard: bool
    steel: bool


class Allowed(Term):
    """Whether a steel tool may be used; `cleared`: only while nothing explosive is there."""

    YES = "yes"
    CLEARED = "cleared"
    NO = "no"


class HandToolRow(Sourced):
    """Whether steel tools with such sparks may be used at a level."""

    level: str
    sparks: Sparks
    allowed: Allowed
    clause: str


class SteelToolGas(Sourced):
    """A gas or vapour with which no steel tool is used at level b, unless it is cleared."""

    substance: str
    clause: str


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
def belt_limit(use: BeltUse, level: str, group: str) -> BeltLimit:
    """The row of a use, a level and a group.

    Raises:
        KeyError: there is none.
    """
    found = {(row.use, row.level, row.group): row for row in rows("belts", BeltLimit)}
    return found[use, level, group]


@cache
def counterface(family: str) -> Counterface | None:
    """What a family of materials is to a light metal; None where nothing is known."""
    return {row.family: row for row in rows("counterfaces", Counterface)}.get(family)


@cache
def hand_tool(level: str, sparks: Sparks) -> HandToolRow:
    """The row of a level and of single sparks or a shower.

    Raises:
        KeyError: there is none.
    """
    found = {(row.level, row.sparks): row for row in rows("hand_tools", HandToolRow)}
    return found[level, sparks]


@cache
def steel_tool_gas(substance: str) -> SteelToolGas | None:
    """The row of a substance by its id; None where a steel tool with single sparks will do."""
    found = {row.substance: row for row in rows("steel_tool_gases", SteelToolGas)}
    return found.get(substance)
