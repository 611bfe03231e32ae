"""What the molecules of a mixed liquid make of each other: UNIFAC activity coefficients.

The library is an extra of its own, of which only this module imports anything, and only where a
mixture is stated.
"""

import itertools
import math
from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING

from areafit.demands.liquids import ROOM, ZERO_CELSIUS, MixedLiquid
from areafit.values import Frozen

if TYPE_CHECKING:
    from thermo.unifac import UNIFAC

NORMAL_PRESSURE = Decimal(101_325)  # Pa, the standard atmosphere
_HOTTEST = 200.0  # °C, as far as boiling is looked for
_PRECISION = 0.001  # K, well below the 0.1 K that is told
_ROUNDS = 200  # of the search for a second liquid; it settles in some ten
_SAME = 1e-6  # a difference of fractions, and of their sum from 1, that is none


def library() -> str | None:
    """The library and its version; None where it is not installed."""
    try:
        import thermo.unifac  # noqa: F401, PLC0415 - an extra of its own
    except ImportError:
        return None
    from importlib.metadata import version  # noqa: PLC0415 - slow, and only told of mixtures

    return f"thermo {version('thermo')}"


@cache
def _main_groups() -> Callable[[int], int]:
    from thermo.unifac import UFSG  # noqa: PLC0415 - an extra of its own

    return lambda subgroup: int(UFSG[subgroup].main_group_id)


def unpaired(liquids: Sequence[MixedLiquid]) -> tuple[str, str] | None:
    """Two liquids with main groups that have no parameters; the library would take them as zero."""
    from thermo.unifac import UFIP, load_unifac_ip  # noqa: PLC0415 - an extra of its own

    if not UFIP:
        load_unifac_ip()
    of = _main_groups()
    owners = {of(subgroup): one.name for one in liquids for subgroup in one.subgroups}
    for first, second in itertools.permutations(owners, 2):
        if second not in UFIP.get(first, {}):
            return owners[first], owners[second]
    return None


class Blend(Frozen, eq=False):
    """One composition, in mole fractions, with the model of its activity coefficients."""

    liquids: tuple[MixedLiquid, ...]
    fractions: tuple[float, ...]
    model: "UNIFAC"

    @classmethod
    def of(cls, liquids: tuple[MixedLiquid, ...], fractions: tuple[float, ...]) -> "Blend":
        """The blend of liquids that all have groups."""
        from thermo.unifac import UNIFAC  # noqa: PLC0415 - an extra of its own

        groups = [one.subgroups for one in liquids]
        kelvin = ZERO_CELSIUS + float(ROOM)
        return cls(
            liquids,
            fractions,
            UNIFAC.from_subgroups(T=kelvin, xs=list(fractions), chemgroups=groups),
        )

    def at(self, fractions: tuple[float, ...]) -> "Blend":
        """The same liquids in other mole fractions."""
        return Blend(self.liquids, fractions, self.model)

    @property
    def parts(self) -> tuple[tuple[int, MixedLiquid], ...]:
        """The liquids that there is anything of, by their places."""
        return tuple((i, one) for i, one in enumerate(self.liquids) if self.fractions[i] > 0)

    def activities(self, celsius: float) -> tuple[float, ...]:
        """The activity x γ of each liquid at a temperature in °C."""
        at = self.model.to_T_xs(T=celsius + ZERO_CELSIUS, xs=list(self.fractions))
        return tuple(x * gamma for x, gamma in zip(self.fractions, at.gammas(), strict=True))


def turn(low: float, high: float, before: Callable[[float], bool]) -> float:
    """The last temperature in °C up to which something holds that holds at the lower end."""
    while high - low > _PRECISION:
        middle = (low + high) / 2
        low, high = (middle, high) if before(middle) else (low, middle)
    return low


def boiling(blend: Blend) -> Decimal | None:
    """Where the pressures of all its vapours together are that of the air, in °C to 1 K."""
    if any(one.pressure is None for _, one in blend.parts):
        return None

    def calm(celsius: float) -> bool:
        active = blend.activities(celsius)
        return sum(active[i] * one.pascal(celsius) for i, one in blend.parts) < NORMAL_PRESSURE

    if not calm(float(ROOM)) or calm(_HOTTEST):
        return None
    return Decimal(round(turn(float(ROOM), _HOTTEST, calm)))


def one_liquid(blend: Blend, celsius: float) -> bool:
    """Whether no second liquid comes of it: the tangent plane test of Michelsen.

    Fluid Phase Equilibria 9, 1982, 1, from memory. Each component nearly pure is tried as the
    second liquid; where the sum of its stationary amounts is above 1 the first one is not stable.
    What is known to mix with water is one liquid with it: the model separates some of it wrongly.
    """
    fractions, kelvin = blend.fractions, celsius + ZERO_CELSIUS
    if all(one.mixes_with_water for one in blend.liquids):
        return True
    present = [index for index, share in enumerate(fractions) if share > 0]

    def logs(shares: Sequence[float]) -> list[float]:
        return [math.log(g) for g in blend.model.to_T_xs(T=kelvin, xs=list(shares)).gammas()]

    own = logs(fractions)
    for tried in present:
        spread = _SAME * 1000
        shares = [
            (1 - spread if index == tried else spread * fractions[index])
            if index in present
            else 0.0
            for index in range(len(fractions))
        ]
        for _ in range(_ROUNDS):
            other = logs(shares)
            amounts = [
                math.exp(math.log(share) + own[index] - other[index]) if share > 0 else 0.0
                for index, share in enumerate(fractions)
            ]
            total = sum(amounts)
            next_shares = [amount / total for amount in amounts]
            moved = max(abs(a - b) for a, b in zip(next_shares, shares, strict=True))
            shares = next_shares
            if moved < _SAME / 100:
                break
        apart = max(abs(a - b) for a, b in zip(shares, fractions, strict=True))
        if total > 1 + _SAME and apart > _SAME * 1000:
            return False
    return True
