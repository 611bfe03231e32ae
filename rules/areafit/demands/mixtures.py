"""The flash point of a liquid mixture, from the vapour that it gives off.

At the flash point the vapour over the liquid reaches its lower limit. By the rule of Le Chatelier,
with what each component alone gives off at its own flash point as its limit, that is where the sum
of x γ p(T) / p(flash point) over the components that burn is 1 (Liaw, Tang, Lai: Combustion and
Flame 138, 2004, 308; Vidal et al.: Trans IChemE 84(B1), 2006, 1; both abstracts seen). The activity
coefficients γ are those of UNIFAC. Before it computes it makes sure that the model holds.
"""

import itertools
import math
from collections.abc import Sequence
from decimal import ROUND_FLOOR, Decimal

from areafit.demands.activity import (
    NORMAL_PRESSURE,
    Blend,
    boiling,
    library,
    one_liquid,
    turn,
    unpaired,
)
from areafit.demands.liquids import (
    ROOM,
    Known,
    MixedLiquid,
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
from areafit.tables.vapours import vapour_pressure
from areafit.values import Frozen, Term, replace
from areafit.verdict import Basis, Reason

_HALOGENATED = "17"  # reactivity group of halogenated organics, EPA-600/2-80-076
_HALOGEN = pattern("F(?!e)|Cl|Br|I(?!n|r)")
_IONS = (
    Reaction.STRONG_ACID,
    Reaction.WEAK_ACID,
    Reaction.WEAK_ALKALI,
    Reaction.STRONG_ALKALI,
)
_FINE = 0.005  # mole fraction: steps of the weaker solutions that are looked at
_DRAWN = (0, 1, 2, 3, 4, 6, 8, *range(10, 101, 5))  # shares in % at which a curve has a point


class Computed(Frozen):
    """A flash point in °C, rounded down to 0.1 K; the first row says how it was computed.

    `beyond` says that the liquid has none up to there, which is as far as the coefficients reach.
    `boils_at` is where it boils, in °C to 1 K; None where that is not found, or it is not said how
    warm it is. `watery` says that there is water in it, `aqueous` that there is water and one
    liquid that burns.
    """

    celsius: Decimal
    beyond: bool
    rows: tuple[Row, ...]
    boils_at: Decimal | None = None
    watery: bool = False
    aqueous: bool = False

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
    if library() is None:
        return NotComputed(Why.NOT_INSTALLED)
    found = []
    for liquids in itertools.product(*choices):
        pair = unpaired(liquids)
        one = NotComputed(Why.NO_PAIR, pair) if pair else _lowest(mixture, liquids, handled)
        if isinstance(one, NotComputed) and one.why is not Why.BURNS_NOT:
            return one
        found.append(one)
    computed = [one for one in found if isinstance(one, Computed)]
    return min(computed, key=lambda one: (one.celsius, one.beyond), default=found[0])


def allowances(*, pure: bool, aqueous: bool) -> tuple[Figure, Figure]:
    """What is taken off a computed flash point: the worst tested error, and the margin in K.

    Of one liquid in water more was tested than of solvents in each other, and it errs less.
    """
    error = "worst tested error of a computed flash point"
    margin = "margin below the flash point"
    return (
        figure(f"{error} in water" if aqueous else error),
        figure(f"{margin} of a pure liquid" if pure else margin),
    )


class Weighed(Frozen):
    """A mixture's flash point against how warm it is handled, in °C; it is never proof of safety.

    `taken` is what is taken off the computed one; nothing where it is not computed.
    """

    found: Computed | NotComputed
    taken: tuple[Figure, ...]
    hottest: Decimal | None

    @property
    def lowered(self) -> Decimal | None:
        """The computed one less that."""
        if not isinstance(self.found, Computed):
            return None
        return self.found.celsius - sum(one.kelvin for one in self.taken)

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
    if not isinstance(found, Computed):
        return Weighed(found, (), None if handled is None else handled.high)
    taken = allowances(pure=len(mixture.components) == 1, aqueous=found.aqueous)
    return Weighed(found, taken, None if handled is None else handled.high)


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
    return any(row is not None and row.pressure(ROOM) >= NORMAL_PRESSURE for row in rows)


def _lacking(liquids: Sequence[MixedLiquid], mixture: Mixture) -> NotComputed | None:
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


def _lowest(
    mixture: Mixture, liquids: tuple[MixedLiquid, ...], handled: Range | None
) -> Computed | NotComputed:
    """The lowest flash point of the compositions that the mixture may have."""
    found: list[tuple[float, bool, Blend]] = []
    for fractions in compositions(mixture, liquids):
        blend = Blend.of(liquids, fractions)
        celsius, beyond = _solved(blend)
        if not all(one_liquid(blend, heat) for heat in _heats(handled, celsius)):
            return NotComputed(Why.TWO_LIQUIDS)
        found.append((celsius, beyond, blend))
    if not found or not math.isfinite(min(celsius for celsius, *_ in found)):
        return NotComputed(Why.BURNS_NOT)
    celsius, beyond, blend = min(found, key=lambda one: one[:2])
    aqueous = sum(one.is_water for one in liquids) == len(liquids) - 1 > 0
    if aqueous and all(one.mixes_with_water for one in liquids):
        strongest = max((one[2] for one in found), key=_burning_share)
        celsius, beyond = min((celsius, beyond), *_of_weaker(strongest))
    value = Decimal(celsius).quantize(Decimal("0.1"), ROUND_FLOOR)
    by = Row(
        COMPUTED,
        f"flash point of {mixture.text}",
        "UNIFAC activity coefficients and the rule of Le Chatelier",
        library() or "",
        Basis.JUDGEMENT,
        f"{'none up to ' if beyond else ''}{number(value)} °C",
    )
    rows = itertools.chain.from_iterable(one.rows for one in liquids)
    boils = None if handled is None else boiling(blend)
    watery = any(one.is_water for _, one in blend.parts)
    return Computed(value, beyond, (by, *dict.fromkeys(rows)), boils, watery, aqueous)


def _heats(handled: Range | None, flash: float) -> set[float]:
    """The temperatures in °C at which it must be one liquid: as handled, and at the flash point."""
    heats = {float(ROOM)} if handled is None else {float(handled.low), float(handled.high)}
    return heats | {flash} if max(heats) < flash < math.inf else heats


def _burning_share(blend: Blend) -> float:
    return sum(x for x, one in zip(blend.fractions, blend.liquids, strict=True) if one.flash)


def _of_weaker(strongest: Blend) -> list[tuple[float, bool]]:
    """The lowest flash point of one liquid in less of it and more water, and whether there is none.

    What mixes with water gives off the more, the more of it there is: thermodynamics allows nothing
    else in one liquid. The model has some give off less in between, where it sees two liquids.
    """
    share, waters = _burning_share(strongest), len(strongest.liquids) - 1
    found = [_solved(strongest)]
    for step in range(1, math.ceil(share / _FINE)):
        burning = step * _FINE
        weaker = strongest.at(
            tuple(burning if one.flash else (1 - burning) / waters for one in strongest.liquids)
        )
        if _vapour(weaker, found[-1][0]) >= 1:
            found.append(_solved(weaker))
    return found


def _vapour(blend: Blend, celsius: float) -> float:
    """The vapour as a share of what burns: at the flash point it is 1."""
    active = blend.activities(celsius)
    return sum(
        active[index] * one.pascal(celsius) / one.pascal(float(one.flash.value))
        for index, one in blend.parts
        if one.flash is not None
    )


def _solved(blend: Blend) -> tuple[float, bool]:
    """The flash point in °C, and whether there is none up to there."""
    burning = [
        (float(one.flash.value), one.pressure)
        for _, one in blend.parts
        if one.flash is not None and one.pressure is not None
    ]
    if not burning:
        return math.inf, True
    reach = float(figure("reach of a vapour pressure").kelvin)

    def short(celsius: float) -> bool:
        return _vapour(blend, celsius) < 1

    low = max(float(row.temp_min_c) for _, row in burning) - reach
    low = min(low, *(flash for flash, _ in burning))
    high = min(float(row.temp_max_c) for _, row in burning) + reach
    if short(high):
        return high, True
    while not short(low):
        low -= reach
    return turn(low, high, short), False


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
