"""The liquids that a mixture is mixed of: what is known of each, and how much of each there is."""

import itertools
import math
from collections.abc import Iterator, Sequence
from decimal import Decimal

from areafit.facts.place import Mixture, ShareOf
from areafit.facts.quantity import Range, number
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Medium
from areafit.tables.sources import Cited
from areafit.tables.substances import Substance
from areafit.tables.vapours import (
    LiquidDensity,
    UnifacGroups,
    VapourPressure,
    liquid_density,
    mixes_with_water,
    unifac_groups,
    vapour_pressure,
)
from areafit.values import Frozen

_WATER = "water"
_WATER_CAS = "7732-18-5"
_WATER_MOLAR_MASS = 18.015  # g/mol; IUPAC atomic weights, from memory
ZERO_CELSIUS = 273.15  # K, exact by definition
ROOM = Decimal(20)  # °C: what boils below it is a gas
_STEPS = 5  # compositions looked at between the ends of a range of shares
_MOST_RANGES = 3  # ranges that are combined with each other in steps


class Known(Frozen):
    """What the tables know of a component by its name."""

    gases: tuple[Substance, ...]
    chemicals: tuple[Chemical, ...]

    @property
    def is_water(self) -> bool:
        """Whether it is water, pure enough to be no electrolyte."""
        return bool(self.chemicals) and all(one.cas == _WATER_CAS for one in self.chemicals)

    @property
    def burns_not(self) -> bool:
        """Whether a row shows that it does not burn: water, salts, acids, bases, inert gases."""
        return (
            not self.gases
            and bool(self.chemicals)
            and (self.is_water or all(one.medium is not Medium.LIQUID for one in self.chemicals))
        )


def component_known(name: str, tables: Tables) -> Known:
    """The rows that a component's name answers to; a chemical leads to the substance that it is."""
    chemicals = tables.chemicals(name)
    linked = (tables.substance(one.substance) for one in chemicals if one.substance)
    gases = (*tables.substances(name), *(gas for gas in linked if gas is not None))
    return Known(tuple(dict.fromkeys(gases)), chemicals)


class MixedLiquid(Frozen, eq=False):
    """A component with the rows that the model needs; water has no flash point.

    `gas` is its row among the substances that burn; None: water, or nothing that burns.
    """

    name: str
    gas: Substance | None
    groups: UnifacGroups | None
    pressure: VapourPressure | None
    density: LiquidDensity | None

    @property
    def is_water(self) -> bool:
        """Whether it is water."""
        return self.groups is not None and self.groups.substance == _WATER

    @property
    def mixes_with_water(self) -> bool:
        """Whether it is water, or known to mix with it in all shares."""
        return self.gas is None or mixes_with_water(self.gas.id)

    @property
    def flash(self) -> Cited[Decimal] | None:
        """Its own flash point in °C, the lowest that is published."""
        return self.gas.lowest_flash_point() if self.gas is not None else None

    @property
    def molar_mass(self) -> float | None:
        """In g/mol."""
        if self.gas is None:
            return _WATER_MOLAR_MASS
        return float(self.gas.molar_mass) if self.gas.molar_mass is not None else None

    def pascal(self, celsius: float) -> float:
        """Its own vapour pressure in Pa, beyond the range of its coefficients too."""
        row = self.pressure
        if row is None:
            raise ValueError(f"{self.name} has no vapour pressure")
        return float(10 ** (float(row.a) - float(row.b) / (celsius + ZERO_CELSIUS + float(row.c))))

    @property
    def subgroups(self) -> dict[int, int]:
        """How many of each subgroup, by its number in the published list."""
        pairs = (
            each.split(":") for each in (self.groups.groups if self.groups is not None else ())
        )
        return {int(subgroup): int(count) for subgroup, count in pairs}

    @property
    def rows(self) -> Iterator[Row]:
        """The rows that a computed figure rests on."""
        if self.groups is not None:
            yield Row.of("unifac_groups", self.groups.substance, self.groups)
        if self.gas is not None and self.pressure is not None and self.flash is not None:
            yield Row.of("vapour_pressures", self.pressure.substance, self.pressure)
            yield Row(
                "substances",
                f"{self.gas.id} flash point",
                self.flash.source_id,
                self.flash.locator,
                self.flash.basis,
                f"{number(self.flash.value)} °C",
            )


def liquids_of(name: str, one: Known) -> tuple[MixedLiquid, ...]:
    """The liquids that a name may mean; one without rows where nothing is known of it."""
    if one.is_water or not one.gases:
        return (_of_id(name, None, _WATER if one.is_water else ""),)
    return tuple(_of_id(name, gas, gas.id) for gas in one.gases)


def _of_id(name: str, gas: Substance | None, key: str) -> MixedLiquid:
    return MixedLiquid(name, gas, unifac_groups(key), vapour_pressure(key), liquid_density(key))


def compositions(mixture: Mixture, liquids: Sequence[MixedLiquid]) -> Iterator[tuple[float, ...]]:
    """Mole fractions of each composition that the shares allow, ranges in steps."""
    stated = [one.share for one in mixture.components]
    ranged = sum(one is not None and one.low != one.high for one in stated)
    steps = _STEPS if ranged <= _MOST_RANGES else 2
    choices = [(None,) if one is None else _between(one, steps) for one in stated]
    for shares in itertools.product(*choices):
        rest = 100.0 - sum(share for share in shares if share is not None)
        if None in shares and rest < 0:
            continue
        full = [rest if share is None else share for share in shares]
        moles = [
            _moles(share, one, mixture.share_of) for share, one in zip(full, liquids, strict=True)
        ]
        total = sum(moles)
        if total > 0:
            yield tuple(each / total for each in moles)


def _between(span: Range, steps: int) -> tuple[float, ...]:
    low, high = float(span.low), float(span.high)
    if low == high:
        return (low,)
    return tuple(low + (high - low) * step / (steps - 1) for step in range(steps))


def _moles(share: float, one: MixedLiquid, share_of: ShareOf) -> float:
    if share_of is ShareOf.MOLE:
        return share
    mass = share
    if share_of is ShareOf.VOLUME and one.density is not None:
        mass *= float(one.density.kg_m3)
    return mass / (one.molar_mass or math.inf)
