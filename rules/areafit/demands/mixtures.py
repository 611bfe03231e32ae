"""The flash point of a liquid mixture, from the vapour that it gives off.

At the flash point the vapour over the liquid reaches its lower limit. By the rule of Le Chatelier,
with what each component alone gives off at its own flash point as its limit, that is where the sum
of x γ p(T) / p(flash point) over the components that burn is 1 (Liaw, Tang, Lai: Combustion and
Flame 138, 2004, 308; Vidal et al.: Trans IChemE 84(B1), 2006, 1; both abstracts seen). The activity
coefficients γ are those of UNIFAC. Before it computes it makes sure that the model holds.
"""

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from decimal import ROUND_FLOOR, Decimal
from functools import cache
from importlib.metadata import version
from typing import TYPE_CHECKING

from areafit.facts.place import Mixture, ShareOf
from areafit.facts.quantity import Range, number
from areafit.pattern import pattern
from areafit.rule import COMPUTED, Row
from areafit.tables import Tables
from areafit.tables.chemicals import Chemical, Medium, Reaction
from areafit.tables.limits import Figure, figure
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
from areafit.values import Frozen, Term
from areafit.verdict import Basis, Reason

if TYPE_CHECKING:
    from thermo.unifac import UNIFAC

_WATER = "water"
_WATER_CAS = "7732-18-5"
_WATER_MOLAR_MASS = 18.015  # g/mol; IUPAC atomic weights, from memory
_NORMAL_PRESSURE = Decimal(101_325)  # Pa, the standard atmosphere
_ROOM = Decimal(20)  # °C: what boils below it is a gas
_ZERO_CELSIUS = 273.15
_HALOGENATED = "17"  # reactivity group of halogenated organics, EPA-600/2-80-076
_HALOGEN = pattern("F(?!e)|Cl|Br|I(?!n|r)")
_IONS = (
    Reaction.STRONG_ACID,
    Reaction.WEAK_ACID,
    Reaction.WEAK_ALKALI,
    Reaction.STRONG_ALKALI,
)
_STEPS = 5  # compositions looked at between the ends of a range of shares
_MOST_RANGES = 3  # ranges that are combined with each other in steps
_PRECISION = 0.001  # K, well below the 0.1 K that is told


class Computed(Frozen):
    """A flash point in °C, rounded down to 0.1 K; the first row says how it was computed.

    `beyond` says that the liquid has none up to there, which is as far as the coefficients reach.
    """

    celsius: Decimal
    beyond: bool
    rows: tuple[Row, ...]


class Why(Term):
    """Why a flash point is not computed."""

    HALOGENATED = "halogenated"
    GAS = "gas in it"
    ELECTROLYTE = "electrolyte"
    TWO_LIQUIDS = "two liquids"
    BURNS_NOT = "burns not"
    UNKNOWN = "component unknown"
    NO_PAIR = "no parameters"
    NO_FLASH_POINT = "no flash point"
    NO_PRESSURE = "no vapour pressure"
    NO_DENSITY = "no density"
    NOT_INSTALLED = "not installed"


class NotComputed(Frozen):
    """Why a flash point is not computed, and which components that is about."""

    why: Why
    about: tuple[str, ...] = ()

    @property
    def reason(self) -> Reason:
        """What is open by it."""
        return _REASONS.get(self.why, Reason.NOT_JUDGED)

    @property
    def message(self) -> str:
        """The same in words, as a clause."""
        return _MESSAGES[self.why].format(*self.about)

    @property
    def remedy(self) -> str:
        """What to do instead."""
        return _INSTALL_IT if self.why is Why.NOT_INSTALLED else _TEST_IT


_REASONS = {
    Why.UNKNOWN: Reason.NO_DATA,
    Why.NO_PAIR: Reason.NO_DATA,
    Why.NO_FLASH_POINT: Reason.NO_DATA,
    Why.NO_PRESSURE: Reason.NO_DATA,
    Why.NO_DENSITY: Reason.NO_DATA,
}
_MESSAGES = {
    Why.HALOGENATED: "{} is halogenated: its vapour may burn though no flash point is found",
    Why.GAS: "{} is a gas, or boils here: it leaves the liquid at once",
    Why.ELECTROLYTE: "{} makes the liquid an electrolyte, for which the model does not hold",
    Why.TWO_LIQUIDS: "it separates into two liquids, each of which gives off its own vapour",
    Why.BURNS_NOT: "no composition of these shares holds a liquid that burns",
    Why.UNKNOWN: "no groups are known for {}, or it may be several liquids",
    Why.NO_PAIR: "the model has no parameters for {} beside {}",
    Why.NO_FLASH_POINT: "no flash point is known for {}",
    Why.NO_PRESSURE: "the vapour pressure of {} at its flash point is not known",
    Why.NO_DENSITY: "no density is known for {}, to read % v/v by",
    Why.NOT_INSTALLED: "what computes it is not installed",
}
_INSTALL_IT = "Install it: pip install 'areafit[mixtures]'."
_TEST_IT = (
    "Have the flash point of the liquid tested, and state `flash_point` with its `source` and "
    "`document`."
)


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


def flash_point(mixture: Mixture, handled: Range | None, tables: Tables) -> Computed | NotComputed:
    """The flash point of a mixture handled at temperatures in °C, or why there is none to be had.

    Of shares stated as ranges the lowest flash point of the compositions between their ends.
    """
    known = tuple((one.name, component_known(one.name, tables)) for one in mixture.components)
    refused = _unfit(known, handled)
    if refused is not None:
        return refused
    liquids = tuple(_liquid(name, each) for name, each in known)
    lacking = _lacking(liquids, mixture)
    if lacking is not None:
        return lacking
    try:
        import thermo.unifac  # noqa: F401, PLC0415 - an extra of its own
    except ImportError:
        return NotComputed(Why.NOT_INSTALLED)
    unpaired = _unpaired(liquids)
    if unpaired is not None:
        return unpaired
    return _lowest(mixture, liquids, handled)


def allowances(*, pure: bool) -> tuple[Figure, Figure]:
    """What is taken off a computed flash point: the worst tested error, and the margin in K."""
    margin = "margin below the flash point"
    return (
        figure("worst tested error of a computed flash point"),
        figure(f"{margin} of a pure liquid" if pure else margin),
    )


class _Liquid(Frozen, eq=False):
    """A component with the rows that the model needs; water has no flash point."""

    name: str
    gas: Substance | None
    groups: UnifacGroups | None
    pressure: VapourPressure | None
    density: LiquidDensity | None

    @property
    def flash(self) -> Cited[Decimal] | None:
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
        return float(10 ** (float(row.a) - float(row.b) / (celsius + _ZERO_CELSIUS + float(row.c))))


def _unfit(known: Sequence[tuple[str, Known]], handled: Range | None) -> NotComputed | None:
    """What the model does not hold for, whatever the shares."""
    for name, one in known:
        if _halogenated(one):
            return NotComputed(Why.HALOGENATED, (name,))
    for name, one in known:
        if _gas(one, handled):
            return NotComputed(Why.GAS, (name,))
    for name, one in known:
        if any(
            c.reaction in _IONS or (c.medium is Medium.SOLUTION and not one.is_water)
            for c in one.chemicals
        ):
            return NotComputed(Why.ELECTROLYTE, (name,))
    return None


def _halogenated(one: Known) -> bool:
    return any(_HALOGEN.search(gas.formula) for gas in one.gases) or any(
        _HALOGENATED in chemical.epa_groups for chemical in one.chemicals
    )


def _gas(one: Known, handled: Range | None) -> bool:
    if any(chemical.medium in (Medium.GAS, Medium.ATMOSPHERE) for chemical in one.chemicals):
        return True
    hottest = max(_ROOM, handled.high) if handled is not None else _ROOM
    rows = (vapour_pressure(gas.id) for gas in one.gases)
    return any(row is not None and row.pressure(hottest) >= _NORMAL_PRESSURE for row in rows)


def _liquid(name: str, one: Known) -> _Liquid:
    gas = one.gases[0] if len(one.gases) == 1 else None
    key = _WATER if one.is_water else gas.id if gas is not None else ""
    return _Liquid(name, gas, unifac_groups(key), vapour_pressure(key), liquid_density(key))


def _lacking(liquids: Sequence[_Liquid], mixture: Mixture) -> NotComputed | None:
    """What the tables do not say of a component."""
    reach = figure("reach of a vapour pressure").kelvin
    for one in liquids:
        if one.groups is None or one.molar_mass is None:
            return NotComputed(Why.UNKNOWN, (one.name,))
        if mixture.share_of is ShareOf.VOLUME and one.density is None:
            return NotComputed(Why.NO_DENSITY, (one.name,))
        if one.gas is None:
            continue
        if one.flash is None:
            return NotComputed(Why.NO_FLASH_POINT, (one.name,))
        known = one.pressure
        if known is None or not (
            known.temp_min_c - reach <= one.flash.value <= known.temp_max_c + reach
        ):
            return NotComputed(Why.NO_PRESSURE, (one.name,))
    return None


@cache
def _main_groups() -> Callable[[str], int]:
    from thermo.unifac import UFSG  # noqa: PLC0415 - an extra of its own

    return lambda subgroup: int(UFSG[int(subgroup)].main_group_id)


def _unpaired(liquids: Sequence[_Liquid]) -> NotComputed | None:
    """Main groups without parameters for each other; the library would take none as zero."""
    from thermo.unifac import UFIP, load_unifac_ip  # noqa: PLC0415 - an extra of its own

    if not UFIP:
        load_unifac_ip()
    of = _main_groups()
    owners = {of(sub): one.name for one in liquids for sub in _counts(one)}
    for first, second in itertools.permutations(owners, 2):
        if second not in UFIP.get(first, {}):
            return NotComputed(Why.NO_PAIR, (owners[first], owners[second]))
    return None


def _counts(one: _Liquid) -> dict[str, int]:
    """Numbers of subgroups, by their number in the published list."""
    pairs = (each.split(":") for each in (one.groups.groups if one.groups is not None else ()))
    return {subgroup: int(count) for subgroup, count in pairs}


def _lowest(
    mixture: Mixture, liquids: Sequence[_Liquid], handled: Range | None
) -> Computed | NotComputed:
    """The lowest flash point of the compositions that the mixture may have."""
    from thermo.unifac import UNIFAC  # noqa: PLC0415 - an extra of its own

    groups = [{int(sub): count for sub, count in _counts(one).items()} for one in liquids]
    found: list[tuple[float, bool]] = []
    for fractions in _compositions(mixture, liquids):
        model = UNIFAC.from_subgroups(
            T=_ZERO_CELSIUS + float(_ROOM), xs=list(fractions), chemgroups=groups
        )
        celsius, beyond = _solved(fractions, liquids, model)
        if not all(map(_mixes, liquids)) and not all(
            _one_liquid(fractions, model, heat) for heat in _heats(handled, celsius)
        ):
            return NotComputed(Why.TWO_LIQUIDS)
        found.append((celsius, beyond))
    celsius, beyond = min(found, default=(math.inf, True))
    if not math.isfinite(celsius):
        return NotComputed(Why.BURNS_NOT)
    value = Decimal(celsius).quantize(Decimal("0.1"), ROUND_FLOOR)
    by = Row(
        COMPUTED,
        f"flash point of {mixture.text}",
        "UNIFAC activity coefficients and the rule of Le Chatelier",
        f"thermo {version('thermo')}",
        Basis.JUDGEMENT,
        f"{'none up to ' if beyond else ''}{number(value)} °C",
    )
    return Computed(value, beyond, (by, *dict.fromkeys(_rows(liquids))))


def _heats(handled: Range | None, flash: float) -> set[float]:
    """The temperatures in °C at which it must be one liquid: as handled, and at the flash point."""
    heats = {float(_ROOM)} if handled is None else {float(handled.low), float(handled.high)}
    return heats | {flash} if max(heats) < flash < math.inf else heats


def _mixes(one: _Liquid) -> bool:
    """Whether it is water or known to mix with it; the model separates some of these wrongly."""
    return one.gas is None or mixes_with_water(one.gas.id)


def _rows(liquids: Sequence[_Liquid]) -> Iterator[Row]:
    for one in liquids:
        if one.groups is not None:
            yield Row.of("unifac_groups", one.groups.substance, one.groups)
        if one.gas is not None and one.pressure is not None and one.flash is not None:
            yield Row.of("vapour_pressures", one.pressure.substance, one.pressure)
            yield Row(
                "substances",
                f"{one.gas.id} flash point",
                one.flash.source_id,
                one.flash.locator,
                one.flash.basis,
                f"{number(one.flash.value)} °C",
            )


def _compositions(mixture: Mixture, liquids: Sequence[_Liquid]) -> Iterator[tuple[float, ...]]:
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


def _moles(share: float, one: _Liquid, share_of: ShareOf) -> float:
    if share_of is ShareOf.MOLE:
        return share
    mass = share
    if share_of is ShareOf.VOLUME and one.density is not None:
        mass *= float(one.density.kg_m3)
    return mass / (one.molar_mass or math.inf)


def _solved(
    fractions: Sequence[float], liquids: Sequence[_Liquid], model: "UNIFAC"
) -> tuple[float, bool]:
    """The flash point in °C, and whether there is none up to there."""
    burning = [
        (index, one, one.pascal(float(one.flash.value)), one.pressure)
        for index, one in enumerate(liquids)
        if one.flash is not None and one.pressure is not None and fractions[index] > 0
    ]
    if not burning:
        return math.inf, True
    reach = float(figure("reach of a vapour pressure").kelvin)

    def reached(celsius: float) -> float:
        gammas = model.to_T_xs(T=celsius + _ZERO_CELSIUS, xs=list(fractions)).gammas()
        return float(
            sum(
                fractions[index] * gammas[index] * one.pascal(celsius) / limit
                for index, one, limit, _ in burning
            )
        )

    low = max(float(row.temp_min_c) for *_, row in burning) - reach
    low = min(low, *(float(one.flash.value) for _, one, *_ in burning if one.flash is not None))
    high = min(float(row.temp_max_c) for *_, row in burning) + reach
    if reached(high) < 1:
        return high, True
    while reached(low) >= 1:
        low -= reach
    while high - low > _PRECISION:
        middle = (low + high) / 2
        low, high = (middle, high) if reached(middle) < 1 else (low, middle)
    return low, False


_ROUNDS = 200  # of the search for a second liquid; it settles in some ten
_SAME = 1e-6  # a difference of fractions, and of their sum from 1, that is none


def _one_liquid(fractions: Sequence[float], model: "UNIFAC", celsius: float) -> bool:
    """Whether no second liquid comes of it: the tangent plane test of Michelsen.

    Fluid Phase Equilibria 9, 1982, 1, from memory. Each component nearly pure is tried as the
    second liquid; where the sum of its stationary amounts is above 1 the first one is not stable.
    """
    kelvin = celsius + _ZERO_CELSIUS
    present = [index for index, share in enumerate(fractions) if share > 0]

    def logs(shares: Sequence[float]) -> list[float]:
        return [math.log(g) for g in model.to_T_xs(T=kelvin, xs=list(shares)).gammas()]

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
