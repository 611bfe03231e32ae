"""What a surface meets: which strengths of a chemical, how warm, and by which exposure rule."""

from collections.abc import Iterator
from decimal import Decimal

from areafit.demands.demand import CorrodingChemical
from areafit.facts.part import LIQUID, WET, Exposure
from areafit.facts.place import Concentration, ConcentrationUnit, PresentChemical
from areafit.facts.quantity import Dimension, Range, number
from areafit.rule import Row
from areafit.tables.chemicals import Chemical, Drying, Medium, PropertyState, Reaction, Volatility
from areafit.tables.limits import Figure, figure
from areafit.tables.vapours import (
    Carried,
    SolutionVapour,
    solution_condensate,
    solution_vapour,
    takes_water,
    vapour_pressure,
)
from areafit.values import Frozen, Term, replace

_ANY_STRENGTH = Range(Decimal(0), Decimal(100))
_ANY_HEAT = Range(Decimal(0), Decimal(1000))
_HYDROCHLORIC = frozenset({"hydrochloric-acid", "hydrogen-chloride"})
# Their vapour takes up moisture: what condenses runs from the strength of the bath down to none.
_HYGROSCOPIC = frozenset(
    {"nitric-acid", "hydrochloric-acid", "hydrofluoric-acid", "hydrobromic-acid"}
)
_IN_AIR = frozenset({Exposure.FUME, Exposure.ROOM, Exposure.ENCLOSED})
_DRIES = frozenset({Exposure.SPLASH, Exposure.WASHDOWN})
_FUMING = frozenset({"sulfuric-acid"})  # does the same where it fumes, and reaches no further
_WHOLE = Decimal(100)


class SolutionState(Term):
    """In which state of the chemical a strength is met."""

    BATH = "as it stands"
    DRIED = "as the drop dries"
    CONDENSATE = "as condensate"
    WATER = "with the water in it"


class Rises(Term):
    """How much of the chemical itself is in the vapour."""

    FREELY = "freely"  # what condenses is judged as the liquid
    TRACES = "traces"  # too little to eat, enough for what traces attack
    NOT = "not"


class Strength(Frozen):
    """A strength in mass %; `certain` is False where the list leaves it open.

    `open_ended` says that the residue has no known strength: everything above `span.low` counts.
    `passing` says that it is met for minutes only: what takes time, and what no row says, do not
    count.
    `figures` and `rows` are those that it rests on.
    """

    form: SolutionState
    span: Range
    certain: bool = True
    open_ended: bool = False
    passing: bool = False
    figures: tuple[Figure, ...] = ()
    rows: tuple[Row, ...] = ()


class Met(Frozen):
    """One chemical as one surface meets it; temperatures in °C.

    `vapour` says whether the chemical itself is in the vapour, by `rises_by` where a row says so
    for its strength and heat; `mist` that drops of it are. `clean_air`: a row says that nothing
    rises, and nothing throws it about. `leaked`: nothing but the air of a room brings it, where
    it is not present for long. `watery`: the part of it that is not the solvent may be water.
    """

    chemical: Chemical
    stated: PresentChemical
    exposure: Exposure
    strengths: tuple[Strength, ...]
    heat: Range
    heat_certain: bool
    vapour: Rises
    mist: bool = False
    breathes: bool | None = None
    leaked: bool = False
    rises_by: tuple[Row, ...] = ()
    clean_air: bool = False
    watery: bool = False
    warmed: bool = False

    def __hash__(self) -> int:
        """Cheap: one that is looked up is nearly always the very object that is found."""
        return hash((self.stated.name, self.chemical.id, self.exposure))

    @property
    def name(self) -> str:
        """The name as the list writes it."""
        return self.stated.name

    @property
    def rises(self) -> bool:
        """Whether the chemical itself is in the vapour, traces included."""
        return self.vapour is not Rises.NOT

    @property
    def calm(self) -> bool:
        """Whether a row says that nothing rises, and the list that nothing throws it about."""
        return self.clean_air and self.stated.mist is False

    @property
    def rinsed(self) -> bool:
        """Whether it is said to be rinsed off before it dries."""
        return self.stated.rinsed is True

    @property
    def ventilated(self) -> bool:
        """Whether its vapour is said never to saturate."""
        return self.stated.ventilated is True

    @property
    def brings_chloride(self) -> bool:
        """Whether there is or may be chloride in it; what the list states decides."""
        stated = self.stated.chloride
        if stated is not None:
            return stated.span.high > 0
        aqueous = self.chemical.reaction is not Reaction.NOT_AQUEOUS
        return aqueous and self.chemical.chloride is not PropertyState.NO

    @property
    def rule(self) -> str:
        """The exposure rule in words, for the finding."""
        if self.mist:
            return "mist: as splash, at the bath strength and at what a drop dries to"
        if self.exposure is Exposure.FUME:
            return f"fume, {_FUME_RULE[self.vapour]}"
        return _RULE[self.exposure]


_FUME_RULE = {
    Rises.FREELY: "vapour: the immersion rating at condensate strength",
    Rises.TRACES: "traces in the vapour: no worse than limited, but for what traces attack",
    Rises.NOT: "not volatile: one step better where the mechanism allows it",
}
_RULE = {
    Exposure.IMMERSED: "immersed: the rating as it stands",
    Exposure.SPLASH: "splash: the bath strength and what a drop dries to, the worse of both",
    Exposure.WASHDOWN: "washdown: the dose as used, and its dried residue unless it is rinsed off",
    Exposure.ROOM: "room: better by steps where mechanism, material and vapour allow it",
    Exposure.ENCLOSED: "enclosed: up to two steps better unless the enclosure breathes vapour",
}


def meet(
    chemical: Chemical,
    corroding: CorrodingChemical,
    exposure: Exposure,
    air: Range | None,
    *,
    mist: bool = False,
) -> Met:
    """How a surface of this exposure meets a chemical. `air` is the ambient range in °C."""
    stated = corroding.stated
    bath = _bath(chemical, corroding)
    heat, heat_certain = _heat(chemical, corroding, air, wetted=exposure in LIQUID)
    thrown = mist and exposure is Exposure.FUME
    vapour, rows = _vapour(chemical, bath, heat)
    freely = vapour is Rises.FREELY
    dries = thrown or exposure in _DRIES
    strengths = [bath]
    if dries:
        strengths += _dried(chemical, bath)
    if exposure is Exposure.FUME and freely and chemical.id in _HYDROCHLORIC:
        condensate = figure("condensate above hydrochloric acid")
        span = condensate.span(Dimension.FRACTION)
        strengths.append(Strength(SolutionState.CONDENSATE, span, figures=(condensate,)))
    if exposure is Exposure.FUME and freely:
        strengths += _condensed(chemical, bath)
    if bath.certain and freely and _drinks(chemical, exposure):
        strengths.append(Strength(SolutionState.CONDENSATE, Range(Decimal(0), bath.span.high)))
    in_air = exposure in _IN_AIR
    return Met(
        chemical,
        stated,
        exposure,
        tuple(strengths),
        heat,
        heat_certain,
        vapour,
        mist=thrown,
        rises_by=rows if in_air else (),
        clean_air=in_air and bool(rows) and vapour is Rises.NOT and stated.mist is not True,
        watery=_watery(chemical, corroding),
    )


def warmed(met: Met, surface: Range | None) -> Met:
    """The same on a surface of this temperature: a hot one heats what wets it, none cools it.

    What rises is that of the bath. A hot surface in the air of a room stays drier, which is no
    reason for more.
    """
    if surface is None or met.exposure not in WET or not met.heat_certain:
        return met
    if surface.high <= met.heat.high:
        return met
    return replace(met, heat=Range(met.heat.low, surface.high), warmed=True)


def _drinks(chemical: Chemical, exposure: Exposure) -> bool:
    """Whether the vapour takes up moisture at this exposure."""
    if exposure is Exposure.FUME and chemical.id in _FUMING:
        return True
    return exposure in _IN_AIR and chemical.id in _HYGROSCOPIC


def may_mist(chemical: Chemical, corroding: CorrodingChemical) -> bool | None:
    """Whether spray or gassing throws the chemical about; None where the list does not say.

    Only what does not rise by itself needs the answer.
    """
    if chemical.volatile in (Volatility.YES, Volatility.LOW, Volatility.HOT):
        return False
    if corroding.stated.mist is None and chemical.volatile is Volatility.MIST:
        return True
    return corroding.stated.mist


def _bath(chemical: Chemical, corroding: CorrodingChemical) -> Strength:
    stated = corroding.stated.concentration
    if stated is not None:
        share = mass_percent(stated)
        return Strength(SolutionState.BATH, share.span, share.certain, figures=share.figures)
    if chemical.assumed_pct is not None:
        return Strength(SolutionState.BATH, Range.of(chemical.assumed_pct))
    return Strength(SolutionState.BATH, _ANY_STRENGTH, certain=False)


def _heat(
    chemical: Chemical, corroding: CorrodingChemical, air: Range | None, *, wetted: bool
) -> tuple[Range, bool]:
    """The temperature; vapours and atmospheres without one have that of the air.

    What the liquid wets has the temperature that the substance states too.
    """
    stated = corroding.stated.temperature
    if stated is None and (corroding.fume_only or chemical.medium is Medium.ATMOSPHERE):
        stated = air
    if stated is None:
        return _ANY_HEAT, False
    liquid = corroding.liquid if wetted and corroding.liquid is not None else stated
    return Range(min(stated.low, liquid.low), max(stated.high, liquid.high)), True


def _vapour(chemical: Chemical, bath: Strength, heat: Range) -> tuple[Rises, tuple[Row, ...]]:
    """How much of it is in the vapour at this strength and heat, and the row that says so."""
    row = solution_vapour(chemical.id, bath.span, heat)
    if row is not None:
        return _above(row, heat)
    volatile = chemical.volatile in (Volatility.YES, Volatility.LOW, Volatility.HOT)
    pure = vapour_pressure(chemical.substance)
    boils_off = pure is not None and pure.pressure(heat.high) >= attacking_pressure().number
    return Rises.FREELY if volatile or boils_off else Rises.NOT, ()


def _above(row: SolutionVapour, heat: Range) -> tuple[Rises, tuple[Row, ...]]:
    key = f"{row.chemical} to {number(row.conc_max_pct)} %"
    if row.carried is not Carried.PRESSURE:
        rises = Rises.FREELY if row.carried is Carried.FUMES else Rises.NOT
        return rises, (Row.of("solution_vapours", key, row, row.carried.value),)
    pressure = row.pressure(heat.high)
    if pressure >= attacking_pressure().number:
        return Rises.FREELY, ()
    return Rises.TRACES, (Row.of("solution_vapours", key, row, f"{pressure:.2g} Pa"),)


def attacking_pressure() -> Figure:
    """The partial pressure in Pa from which what condenses is taken as the liquid."""
    return figure("partial pressure from which a vapour attacks as its liquid")


def _watery(chemical: Chemical, corroding: CorrodingChemical) -> bool:
    """Whether it may hold water: it mixes with it, and is not merely listed as flammable."""
    return not corroding.fume_only and takes_water(chemical.id)


def _dried(chemical: Chemical, bath: Strength) -> list[Strength]:
    if chemical.drying is Drying.EVAPORATES:
        return []
    end = chemical.dried_pct
    if end is None:
        span = Range(bath.span.high, max(bath.span.high, _WHOLE))
        return [Strength(SolutionState.DRIED, span, bath.certain, open_ended=True)]
    dried = [Strength(SolutionState.DRIED, Range.of(end))]
    if bath.certain and bath.span != Range.of(end):
        way = Range(min(bath.span.low, end), max(bath.span.high, end))
        dried.append(Strength(SolutionState.DRIED, way, passing=True))
    return dried


def _condensed(chemical: Chemical, bath: Strength) -> Iterator[Strength]:
    """What condenses over a solvent in water is stronger than the bath; of unknown strength, any.

    What dries to something stronger is less volatile than water, and condenses weaker.
    """
    if not takes_water(chemical.id) or chemical.drying is not Drying.EVAPORATES or not bath.certain:
        return
    row = solution_condensate(chemical.id, bath.span.high)
    most = _WHOLE if row is None else row.condensate_pct
    if most <= bath.span.high:
        return
    span = Range(bath.span.low, most)
    cited: tuple[Row, ...] = ()
    if row is not None:
        key = f"{row.chemical} to {number(row.conc_max_pct)} %"
        one = Row.of("solution_condensates", key, row, f"{number(most)} %")
        cited = (replace(one, governs=False),)  # it only asks for more
    yield Strength(SolutionState.CONDENSATE, span, rows=cited)


# A stated concentration as mass percent, the unit of the resistance rows


class MassShare(Frozen):
    """Mass percent; `certain` is False where the unit leaves room, since density is not stated.

    `figures` are the densities that bound it then.
    """

    span: Range
    certain: bool
    figures: tuple[Figure, ...] = ()


def mass_percent(stated: Concentration) -> MassShare:
    """The mass percent that a statement allows.

    Volume percent and mass per volume need a density that nobody stated: they become the range
    that every density of a liquid allows, and only what holds over all of it is certain.
    """
    low, high = stated.span.low, stated.span.high
    match stated.unit:
        case ConcentrationUnit.MASS:
            return MassShare(Range(low, high), certain=True)
        case ConcentrationUnit.VOLUME:
            light, heavy = (figure("density of a liquid", end) for end in ("lightest", "heaviest"))
            span = Range(_by_volume(low, light.number), _by_volume(high, heavy.number))
            return MassShare(span, certain=False, figures=(light, heavy))
        case ConcentrationUnit.GRAMS_PER_LITRE:
            return _per_litre(low, high)
        case _:
            return _per_litre(low / 1000, high / 1000)


def milligrams_per_litre(stated: Concentration) -> Range | None:
    """A content of dilute water in mg/L, kg of water taken as a litre; None by volume."""
    factor = {
        ConcentrationUnit.MASS: Decimal(10000),
        ConcentrationUnit.GRAMS_PER_LITRE: Decimal(1000),
        ConcentrationUnit.MILLIGRAMS_PER_LITRE: Decimal(1),
    }.get(stated.unit)
    if factor is None:
        return None
    return Range(stated.span.low * factor, stated.span.high * factor)


def _by_volume(volume: Decimal, density: Decimal) -> Decimal:
    return _WHOLE * density * volume / (density * volume + _WHOLE - volume)


def _per_litre(low: Decimal, high: Decimal) -> MassShare:
    """A litre of solution weighs at most 1 kg more than what is dissolved, and never too little.

    So little that every density leaves the same is certain: all that it may be is judged.
    """
    light = figure("density of a solution", "lightest")
    least = low / 10 / (1 + low / 1000)
    most = min(_WHOLE, high / 10 / light.number)
    dilute = high / 10 <= figure("strength of a dilute solution").amount(Dimension.FRACTION)
    return MassShare(Range(min(least, most), most), certain=dilute, figures=(light,))
