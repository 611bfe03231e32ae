"""What evaporates: neutral solvents by class, vapour pressures, vapours above solutions."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cache

from areafit.facts.quantity import Range
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term

_ZERO_CELSIUS = Decimal("273.15")
_COLDEST = Decimal(-100)  # of any solution here: colder ones are taken as this warm


class SolventClass(Term):
    """Classes of neutral organic solvents: neither acid nor base, no halogen, no sulfur."""

    ALCOHOL = "alcohol"
    KETONE = "ketone"
    ESTER = "ester"
    ETHER = "ether"
    HYDROCARBON = "hydrocarbon"


class Solvent(Sourced):
    """A flammable liquid, by its id there, that is a neutral organic solvent.

    What has no row here counts as a chemical that may corrode: gases, acids, amines, aldehydes,
    epoxides, acetylenes, nitriles, and whatever holds sulfur or a halogen.
    """

    substance: str
    solvent_class: SolventClass


class QuietGas(Sourced):
    """A flammable gas, as a chemical by its id, whose leak does nothing to a listed device.

    It is dry and neutral, and comes at a few hundredths of the pressure at which cylinders of usual
    metals, plastics and rubbers hold it. What a metal takes up from traces is not here: acetylene,
    ammonia, carbon monoxide, and whatever holds sulfur or a halogen.
    """

    chemical: str


class WaterMiscible(Sourced):
    """A chemical, by id, that takes up enough water for its solution to be a water that rusts."""

    chemical: str


class SolventCracking(Sourced):
    """A chemical, by id, that cracks a family of materials under tension above a mass %."""

    family: str
    chemical: str
    conc_min_pct: Decimal


class VapourPressure(Sourced):
    """Antoine coefficients of a pure liquid: log10(p / Pa) = a - b / (T + c), T in K.

    They hold from `temp_min_c` to `temp_max_c`.
    """

    substance: str
    a: Decimal
    b: Decimal
    c: Decimal
    temp_min_c: Decimal
    temp_max_c: Decimal

    def pressure(self, celsius: Decimal) -> Decimal:
        """The vapour pressure in Pa at a temperature in °C; never less than at `temp_min_c`.

        >>> water = vapour_pressure("water")
        >>> round(water.pressure(Decimal(25)), -2)
        Decimal('3.2E+3')
        """
        return _antoine(self.a, self.b, max(celsius, self.temp_min_c) + _ZERO_CELSIUS + self.c)


class UnifacGroups(Sourced):
    """The groups that UNIFAC takes a liquid for: `1:2` are two of subgroup 1 of its list."""

    substance: str
    groups: tuple[str, ...]


class MixesWithWater(Sourced):
    """A liquid, by id, that mixes with water in all shares at room temperature."""

    substance: str


class LiquidDensity(Sourced):
    """The density of a pure liquid at 20 °C in kg/m³."""

    substance: str
    kg_m3: Decimal


class Carried(Term):
    """What rises from a solution."""

    NOTHING = "nothing"  # but water
    PRESSURE = "by pressure"  # of the chemical itself, by the coefficients of the row
    FUMES = "fumes"  # of itself


class SolutionVapour(Sourced):
    """The vapour of a chemical above its solutions up to a strength and a temperature.

    Of several rows that hold, the one of the lowest strength and then of the lowest temperature
    governs. The partial pressure is log10(p / Pa) = a - b / T, T in K, of the strongest of the
    band; strengths in mass %.
    """

    chemical: str
    conc_max_pct: Decimal
    temp_max_c: Decimal | None
    carried: Carried
    a: Decimal | None
    b: Decimal | None

    def pressure(self, celsius: Decimal) -> Decimal:
        """The partial pressure in Pa at a temperature in °C; 0 where nothing rises."""
        if self.a is None or self.b is None:
            return Decimal(0)
        return _antoine(self.a, self.b, max(celsius, _COLDEST) + _ZERO_CELSIUS)

    def holds(self, strength: Range, heat: Range) -> bool:
        """Whether all of a range of strength and of temperature is within its bounds."""
        cool = self.temp_max_c is None or heat.high <= self.temp_max_c
        return strength.high <= self.conc_max_pct and cool


class SolutionCondensate(Sourced):
    """The most of a solvent, by chemical id, in what condenses over its solutions in water.

    Both in mass %; it holds for every solution up to `conc_max_pct`.
    """

    chemical: str
    conc_max_pct: Decimal
    condensate_pct: Decimal


def _antoine(a: Decimal, b: Decimal, kelvin: Decimal) -> Decimal:
    return Decimal(10) ** (a - b / kelvin)


def vapour_pressure(substance: str) -> VapourPressure | None:
    """The coefficients of a pure liquid, by id; None where the table has none."""
    return _pure().get(substance)


def unifac_groups(substance: str) -> UnifacGroups | None:
    """The groups of a liquid, by id or `water`; None where the table has none."""
    return _groups().get(substance)


def mixes_with_water(substance: str) -> bool:
    """Whether a liquid, by id, is known to mix with water in all shares."""
    return substance in _mixing()


def liquid_density(substance: str) -> LiquidDensity | None:
    """The density of a liquid, by id or `water`; None where the table has none."""
    return _densities().get(substance)


def solution_vapour(chemical: str, strength: Range, heat: Range) -> SolutionVapour | None:
    """The row that governs above a solution; None where the table has none for it."""
    return next((row for row in _above().get(chemical, ()) if row.holds(strength, heat)), None)


def solution_condensate(chemical: str, percent: Decimal) -> SolutionCondensate | None:
    """The row for a strength in mass %; None where the table has none for the chemical.

    Above the strongest row what condenses is no stronger than that, or than the solution itself.

    >>> solution_condensate("ethanol", Decimal(10)).condensate_pct > 50
    True
    """
    rows_of = _condensates().get(chemical, ())
    held = [row for row in rows_of if percent <= row.conc_max_pct]
    if held:
        return min(held, key=lambda row: row.conc_max_pct)
    return max(rows_of, key=lambda row: row.conc_max_pct, default=None)


def takes_water(chemical: str) -> bool:
    """Whether a liquid, by id, mixes with water or takes up much of it."""
    return chemical in _miscible()


@cache
def _miscible() -> frozenset[str]:
    return frozenset(row.chemical for row in rows("water_miscible", WaterMiscible))


@cache
def _pure() -> dict[str, VapourPressure]:
    return {row.substance: row for row in rows("vapour_pressures", VapourPressure)}


@cache
def _groups() -> dict[str, UnifacGroups]:
    return {row.substance: row for row in rows("unifac_groups", UnifacGroups)}


@cache
def _mixing() -> frozenset[str]:
    return frozenset(row.substance for row in rows("mixes_with_water", MixesWithWater))


@cache
def _densities() -> dict[str, LiquidDensity]:
    return {row.substance: row for row in rows("liquid_densities", LiquidDensity)}


@cache
def _above() -> dict[str, Sequence[SolutionVapour]]:
    found: dict[str, list[SolutionVapour]] = {}
    for row in rows("solution_vapours", SolutionVapour):
        found.setdefault(row.chemical, []).append(row)
    return {chemical: sorted(listed, key=_weakest_first) for chemical, listed in found.items()}


@cache
def _condensates() -> Mapping[str, Sequence[SolutionCondensate]]:
    found: dict[str, list[SolutionCondensate]] = {}
    for row in rows("solution_condensates", SolutionCondensate):
        found.setdefault(row.chemical, []).append(row)
    return found


def _weakest_first(row: SolutionVapour) -> tuple[Decimal, bool, Decimal]:
    return row.conc_max_pct, row.temp_max_c is None, row.temp_max_c or Decimal(0)
