"""The flash point of a liquid mixture, from the vapour that it gives off.

At the flash point the vapour over the liquid reaches its lower limit. By the rule of Le Chatelier,
with what each component alone gives off at its own flash point as its limit, that is where the sum
of x γ p(T) / p(flash point) over the components that burn is 1 (Liaw, Tang, Lai: Combustion and
Flame 138, 2004, 308; Vidal et al.: Trans IChemE 84(B1), 2006, 1; both abstracts seen). The activity
coefficients γ are those of UNIFAC. Before it computes it makes sure that the model holds.
"""

import itertools
import math
from collections.abc import Callable, Sequence
from decimal import ROUND_FLOOR, Decimal
from functools import cache
from importlib.metadata import version
from typing import TYPE_CHECKING

from areafit.demands.liquids import (
    ZERO_CELSIUS,
    Known,
    Liquid,
    component_known,
    compositions,
    liquids_of,
)
from areafit.facts.place import Mixture, MixtureComponent, ShareOf
from areafit.facts.quantity import Range, number
from areafit.pattern import pattern
from areafit.rule import COMPUTED, Row
from areafit.tables import Tables
from areafit.tables.chemicals import Medium, Reaction
from areafit.tables.limits import Figure, figure
from areafit.tables.vapours import mixes_with_water, vapour_pressure
from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis, Reason

if TYPE_CHECKING:
    from thermo.unifac import UNIFAC

_NORMAL_PRESSURE = Decimal(101_325)  # Pa, the standard atmosphere
_ROOM = Decimal(20)  # °C: what boils below it is a gas
_HALOGENATED = "17"  # reactivity group of halogenated organics, EPA-600/2-80-076
_HALOGEN = pattern("F(?!e)|Cl|Br|I(?!n|r)")
_IONS = (
    Reaction.STRONG_ACID,
    Reaction.WEAK_ACID,
    Reaction.WEAK_ALKALI,
    Reaction.STRONG_ALKALI,
)
_PRECISION = 0.001  # K, well below the 0.1 K that is told
_HOTTEST = 200.0  # °C, as far as boiling is looked for
_DRAWN = (0, 1, 2, 3, 4, 6, 8, *range(10, 101, 5))  # shares in % at which a curve has a point


class Computed(Frozen):
    """A flash point in °C, rounded down to 0.1 K; the first row says how it was computed.

    `beyond` says that the liquid has none up to there, which is as far as the coefficients reach.
    `boils_at` is where it boils, in °C to 1 K; None where that is not found, or it is not said how
    warm it is. `watery` says that there is water in it.
    """

    celsius: Decimal
    beyond: bool
    rows: tuple[Row, ...]
    boils_at: Decimal | None = None
    watery: bool = False

    def beside(self, handled: Range | None) -> str:
        """What else becomes of it as it is handled, a sentence; empty where it stays a liquid."""
        if handled is None:
            return ""
        if self.boils_at is not None and handled.high >= self.boils_at:
            return f"It boils at about {number(self.boils_at)} °C."
        if self.watery and handled.low < 0:
            return "Ice may separate from it; what stays liquid is stronger."
        return ""


class Why(Term):
    """Why a flash point is not computed."""

    HALOGENATED = "halogenated"
    GAS = "gas in it"
    ELECTROLYTE = "electrolyte"
    TWO_LIQUIDS = "two liquids"
    BURNS_NOT = "burns not"
    UNKNOWN = "component unknown"
    NO_GROUPS = "no groups"
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
        """What to do instead; nothing where nothing burns."""
        return _REMEDIES.get(self.why, _TEST_IT)


_REASONS = {
    Why.UNKNOWN: Reason.NAME_UNKNOWN,
    Why.NO_GROUPS: Reason.NO_DATA,
    Why.NO_PAIR: Reason.NO_DATA,
    Why.NO_FLASH_POINT: Reason.NO_DATA,
    Why.NO_PRESSURE: Reason.NO_DATA,
    Why.NO_DENSITY: Reason.NO_DATA,
}
_MESSAGES = {
    Why.HALOGENATED: "{} is halogenated: its vapour may burn though no flash point is found",
    Why.GAS: "{} is a gas at room temperature: it leaves the liquid at once",
    Why.ELECTROLYTE: "{} makes the liquid an electrolyte, for which the model does not hold",
    Why.TWO_LIQUIDS: "it separates into two liquids, each of which gives off its own vapour",
    Why.BURNS_NOT: "nothing in it burns",
    Why.UNKNOWN: "no liquid called {} is known",
    Why.NO_GROUPS: "of {} no groups are known to compute it by",
    Why.NO_PAIR: "the model has no parameters for {} beside {}",
    Why.NO_FLASH_POINT: "no flash point is known for {}",
    Why.NO_PRESSURE: "the vapour pressure of {} at its flash point is not known",
    Why.NO_DENSITY: "no density is known for {}, to read % v/v by",
    Why.NOT_INSTALLED: "what computes it is not installed",
}
_TEST_IT = (
    "Have the flash point of the liquid tested, and state `flash_point` with its `source` and "
    "`document`."
)
_REMEDIES = {
    Why.BURNS_NOT: "",
    Why.NOT_INSTALLED: "Install it: pip install 'areafit[mixtures]'.",
    Why.NO_DENSITY: "State the shares by mass (%) or in mol %.",
    Why.UNKNOWN: f"Use a known name or a CAS number. Or: {_TEST_IT}",
}


def flash_point(mixture: Mixture, handled: Range | None, tables: Tables) -> Computed | NotComputed:
    """The flash point of a mixture handled at temperatures in °C, or why there is none to be had.

    Of shares stated as ranges the lowest flash point of the compositions between their ends, and of
    a name that may mean several liquids that of the worst.
    """
    known = tuple((one.name, component_known(one.name, tables)) for one in mixture.components)
    refused = _unfit(known)
    if refused is not None:
        return refused
    choices = tuple(liquids_of(name, each) for name, each in known)
    lacking = _lacking(tuple(itertools.chain(*choices)), mixture)
    if lacking is not None:
        return lacking
    try:
        import thermo.unifac  # noqa: F401, PLC0415 - an extra of its own
    except ImportError:
        return NotComputed(Why.NOT_INSTALLED)
    found = []
    for liquids in itertools.product(*choices):
        one = _unpaired(liquids) or _lowest(mixture, liquids, handled)
        if isinstance(one, NotComputed) and one.why is not Why.BURNS_NOT:
            return one
        found.append(one)
    computed = [one for one in found if isinstance(one, Computed)]
    return min(computed, key=lambda one: (one.celsius, one.beyond), default=found[0])


def allowances(*, pure: bool) -> tuple[Figure, Figure]:
    """What is taken off a computed flash point: the worst tested error, and the margin in K."""
    margin = "margin below the flash point"
    return (
        figure("worst tested error of a computed flash point"),
        figure(f"{margin} of a pure liquid" if pure else margin),
    )


class Weighed(Frozen):
    """A mixture's flash point against how warm it is handled, in °C; it is never proof of safety.

    `lowered` is the computed one less what `allowances` takes off.
    """

    found: Computed | NotComputed
    lowered: Decimal | None
    hottest: Decimal | None

    @property
    def reached(self) -> bool | None:
        """Whether its vapour may burn there; None where either is not known."""
        if self.lowered is None or self.hottest is None:
            return None
        return self.hottest >= self.lowered

    @property
    def answer(self) -> str:
        """The same in one sentence."""
        found, hottest = self.found, self.hottest
        if isinstance(found, NotComputed):
            if found.why is Why.BURNS_NOT:
                return "no flash point: nothing in it burns"
            return f"flash point not computed: {found.message}. {found.remedy}".rstrip()
        value = f"{number(found.celsius)} °C"
        told = (
            f"{'no computed flash point up to' if found.beyond else 'computed flash point'} {value}"
        )
        safe = f"{number(self.lowered or Decimal(0))} °C with error and margin"
        if hottest is None:
            return f"{told}; {safe}"
        at = f"at {number(hottest)} °C"
        if hottest >= found.celsius and not found.beyond:
            return f"gives off vapour that burns {at}: {told}"
        if self.reached:
            return f"may give off vapour that burns {at}: {told}, {safe}"
        return f"below its flash point {at}: {told}, {safe}; no proof that the place is safe"


def weigh(mixture: Mixture, handled: Range | None, tables: Tables) -> Weighed:
    """The flash point of a mixture handled at temperatures in °C, lowered, against the hottest."""
    found = flash_point(mixture, handled, tables)
    taken = sum(one.kelvin for one in allowances(pure=len(mixture.components) == 1))
    lowered = found.celsius - taken if isinstance(found, Computed) else None
    return Weighed(found, lowered, None if handled is None else handled.high)


def _unfit(known: Sequence[tuple[str, Known]]) -> NotComputed | None:
    """What the model does not hold for, whatever the shares."""
    if all(one.burns_not for _, one in known):
        return NotComputed(Why.BURNS_NOT)
    for name, one in known:
        if not (one.gases or one.chemicals):
            return NotComputed(Why.UNKNOWN, (name,))
    for name, one in known:
        if _halogenated(one):
            return NotComputed(Why.HALOGENATED, (name,))
    for name, one in known:
        if _gas(one):
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


def _gas(one: Known) -> bool:
    """Whether it boils at room temperature; what boils as it is handled flashes long before."""
    if any(chemical.medium in (Medium.GAS, Medium.ATMOSPHERE) for chemical in one.chemicals):
        return True
    rows = (vapour_pressure(gas.id) for gas in one.gases)
    return any(row is not None and row.pressure(_ROOM) >= _NORMAL_PRESSURE for row in rows)


def _lacking(liquids: Sequence[Liquid], mixture: Mixture) -> NotComputed | None:
    """What the tables do not say of a component."""
    reach = figure("reach of a vapour pressure").kelvin
    for one in liquids:
        if one.groups is None or one.molar_mass is None:
            return NotComputed(Why.NO_GROUPS, (one.name,))
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
def _main_groups() -> Callable[[int], int]:
    from thermo.unifac import UFSG  # noqa: PLC0415 - an extra of its own

    return lambda subgroup: int(UFSG[subgroup].main_group_id)


def _unpaired(liquids: Sequence[Liquid]) -> NotComputed | None:
    """Main groups without parameters for each other; the library would take none as zero."""
    from thermo.unifac import UFIP, load_unifac_ip  # noqa: PLC0415 - an extra of its own

    if not UFIP:
        load_unifac_ip()
    of = _main_groups()
    owners = {of(subgroup): one.name for one in liquids for subgroup in one.subgroups}
    for first, second in itertools.permutations(owners, 2):
        if second not in UFIP.get(first, {}):
            return NotComputed(Why.NO_PAIR, (owners[first], owners[second]))
    return None


class _Blend(Frozen, eq=False):
    """One composition, in mole fractions, with the model of its activity coefficients."""

    liquids: tuple[Liquid, ...]
    fractions: tuple[float, ...]
    model: "UNIFAC"

    @property
    def parts(self) -> tuple[tuple[int, Liquid], ...]:
        """The liquids that there is anything of, by their places."""
        return tuple((i, one) for i, one in enumerate(self.liquids) if self.fractions[i] > 0)

    def activities(self, celsius: float) -> tuple[float, ...]:
        """The activity x γ of each liquid at a temperature in °C."""
        at = self.model.to_T_xs(T=celsius + ZERO_CELSIUS, xs=list(self.fractions))
        return tuple(x * gamma for x, gamma in zip(self.fractions, at.gammas(), strict=True))


def _lowest(
    mixture: Mixture, liquids: tuple[Liquid, ...], handled: Range | None
) -> Computed | NotComputed:
    """The lowest flash point of the compositions that the mixture may have."""
    from thermo.unifac import UNIFAC  # noqa: PLC0415 - an extra of its own

    groups = [one.subgroups for one in liquids]
    found: list[tuple[float, bool, _Blend]] = []
    for fractions in compositions(mixture, liquids):
        model = UNIFAC.from_subgroups(
            T=ZERO_CELSIUS + float(_ROOM), xs=list(fractions), chemgroups=groups
        )
        blend = _Blend(liquids, fractions, model)
        celsius, beyond = _solved(blend)
        if not all(map(_mixes, liquids)) and not all(
            _one_liquid(fractions, model, heat) for heat in _heats(handled, celsius)
        ):
            return NotComputed(Why.TWO_LIQUIDS)
        found.append((celsius, beyond, blend))
    if not found or not math.isfinite(min(celsius for celsius, *_ in found)):
        return NotComputed(Why.BURNS_NOT)
    celsius, beyond, blend = min(found, key=lambda one: one[:2])
    value = Decimal(celsius).quantize(Decimal("0.1"), ROUND_FLOOR)
    by = Row(
        COMPUTED,
        f"flash point of {mixture.text}",
        "UNIFAC activity coefficients and the rule of Le Chatelier",
        f"thermo {version('thermo')}",
        Basis.JUDGEMENT,
        f"{'none up to ' if beyond else ''}{number(value)} °C",
    )
    rows = itertools.chain.from_iterable(one.rows for one in liquids)
    boils = None if handled is None else _boiling(blend)
    watery = any(one.is_water for _, one in blend.parts)
    return Computed(value, beyond, (by, *dict.fromkeys(rows)), boils, watery)


def _heats(handled: Range | None, flash: float) -> set[float]:
    """The temperatures in °C at which it must be one liquid: as handled, and at the flash point."""
    heats = {float(_ROOM)} if handled is None else {float(handled.low), float(handled.high)}
    return heats | {flash} if max(heats) < flash < math.inf else heats


def _mixes(one: Liquid) -> bool:
    """Whether it is water or known to mix with it; the model separates some of these wrongly."""
    return one.gas is None or mixes_with_water(one.gas.id)


def _solved(blend: _Blend) -> tuple[float, bool]:
    """The flash point in °C, and whether there is none up to there."""
    burning = [
        (index, one, one.pascal(float(one.flash.value)), one.pressure)
        for index, one in blend.parts
        if one.flash is not None and one.pressure is not None
    ]
    if not burning:
        return math.inf, True
    reach = float(figure("reach of a vapour pressure").kelvin)

    def short(celsius: float) -> bool:
        active = blend.activities(celsius)
        return sum(active[i] * one.pascal(celsius) / limit for i, one, limit, _ in burning) < 1

    low = max(float(row.temp_min_c) for *_, row in burning) - reach
    low = min(low, *(float(one.flash.value) for _, one, *_ in burning if one.flash is not None))
    high = min(float(row.temp_max_c) for *_, row in burning) + reach
    if short(high):
        return high, True
    while not short(low):
        low -= reach
    return _turn(low, high, short), False


def _turn(low: float, high: float, before: Callable[[float], bool]) -> float:
    """The last temperature in °C up to which something holds that holds at the lower end."""
    while high - low > _PRECISION:
        middle = (low + high) / 2
        low, high = (middle, high) if before(middle) else (low, middle)
    return low


def _boiling(blend: _Blend) -> Decimal | None:
    """Where the pressures of all its vapours together are that of the air, in °C to 1 K."""
    if any(one.pressure is None for _, one in blend.parts):
        return None

    def calm(celsius: float) -> bool:
        active = blend.activities(celsius)
        return sum(active[i] * one.pascal(celsius) for i, one in blend.parts) < _NORMAL_PRESSURE

    if not calm(float(_ROOM)) or calm(_HOTTEST):
        return None
    return Decimal(round(_turn(float(_ROOM), _HOTTEST, calm)))


class Drawn(Frozen):
    """Flash points in °C over the share of one component in %, the others in their proportion.

    `low` and `high` are the stated share; points that cannot be computed are left out.
    """

    component: str
    share_of: ShareOf
    low: Decimal
    high: Decimal
    points: tuple[tuple[Decimal, Decimal], ...]


def drawn(mixture: Mixture, tables: Tables) -> Drawn | None:
    """The flash point over the share of what flashes coldest; None where there is none of it."""
    flashes = {
        one.name: min(
            (
                flash.value
                for gas in component_known(one.name, tables).gases
                if (flash := gas.lowest_flash_point()) is not None
            ),
            default=None,
        )
        for one in mixture.components
    }
    known = {name: flash for name, flash in flashes.items() if flash is not None}
    if not known or len(flashes) < 2:
        return None
    chosen = min(known, key=lambda name: known[name])
    full = _filled(mixture)
    share = full.pop(chosen)
    others = sum((each.high for each in full.values()), Decimal(0))
    points = []
    for at in map(Decimal, _DRAWN):
        left = {
            name: (100 - at) * (each.high / others if others else Decimal(1) / len(full))
            for name, each in full.items()
        }
        components = tuple(
            MixtureComponent(name, Range.of(share)) for name, share in {chosen: at, **left}.items()
        )
        found = flash_point(replace(mixture, components=components), None, tables)
        if isinstance(found, Computed) and not found.beyond:
            points.append((at, found.celsius))
    return Drawn(chosen, mixture.share_of, share.low, share.high, tuple(points))


def _filled(mixture: Mixture) -> dict[str, Range]:
    """The share of each component, that of the rest from what the others leave of the whole."""
    stated = [one.share for one in mixture.components if one.share is not None]
    least = max(Decimal(0), 100 - sum((one.high for one in stated), Decimal(0)))
    most = max(Decimal(0), 100 - sum((one.low for one in stated), Decimal(0)))
    return {one.name: one.share or Range(least, most) for one in mixture.components}


_ROUNDS = 200  # of the search for a second liquid; it settles in some ten
_SAME = 1e-6  # a difference of fractions, and of their sum from 1, that is none


def _one_liquid(fractions: Sequence[float], model: "UNIFAC", celsius: float) -> bool:
    """Whether no second liquid comes of it: the tangent plane test of Michelsen.

    Fluid Phase Equilibria 9, 1982, 1, from memory. Each component nearly pure is tried as the
    second liquid; where the sum of its stationary amounts is above 1 the first one is not stable.
    """
    kelvin = celsius + ZERO_CELSIUS
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
