"""How much hydrogen the parts of a place evolve, and the air that keeps it thin.

The metal that a chemical takes away in an hour is area × corrosion rate × density. Each mole of it
gives electrons / 2 moles of hydrogen, whose volume at the hottest is R T / p.
"""

from collections.abc import Collection, Iterable, Iterator
from decimal import ROUND_UP, Context, Decimal

from areafit.demands.demand import (
    CorrodingChemical,
    Demands,
    Evolution,
    Evolved,
    GroupDemand,
    GroupNeed,
    Lack,
)
from areafit.demands.exposure import mass_percent
from areafit.demands.hydrogen import Dissolved, dissolved_of, evolved_on
from areafit.demands.substances import resolve
from areafit.facts.part import MaterialUse, Part
from areafit.facts.place import Availability, Presence, PresentSubstance, Ventilation
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Dimension
from areafit.rule import Row
from areafit.tables import Tables
from areafit.tables.dissolution import corrosion_rate, dissolving
from areafit.tables.limits import figure
from areafit.tables.sources import Cited
from areafit.tables.words import is_placeholder
from areafit.values import Frozen, replace

_HYDROGEN = "hydrogen"
_GAS_CONSTANT = Decimal("8.314462618")  # J/(mol K), CODATA 2018, exact
_PRESSURE = Decimal(101_325)  # Pa, the standard atmosphere
_ZERO_CELSIUS = Decimal("273.15")
_HOURS = Decimal(8766)  # in a year of 365.25 days
_MM = Decimal("0.001")  # m
_LITRES = Decimal(1000)  # in a m³
_TOLD = Context(prec=2, rounding=ROUND_UP)  # to two digits, to the onerous side


def with_hydrogen(demands: Demands, parts: Collection[Part]) -> Demands:
    """The demands with the hydrogen that the metals of these parts at the place evolve.

    Air that is shown to keep it thin leaves no need of a group. Short of that the need is uncertain
    until stated air proves too little for hydrogen that is certain.
    """
    uses = dict.fromkeys(use for _, use in _uses(parts, demands.place.name))
    evolved = tuple(sorted(_merged(evolved_on(uses, demands)), key=_surest_first))
    if not evolved:
        return demands
    amount = evolution(parts, demands)
    demands = replace(demands, evolved=evolved, evolution=amount)
    ventilation = demands.place.ventilation
    if shown_to_suffice(ventilation, amount):
        return demands
    certain = evolved[0].certain and suffices(ventilation, amount) is False
    hazards = tuple(
        replace(
            one,
            groups=tuple(
                _with_need(group, evolved[0], demands, certain=certain) for group in one.groups
            ),
        )
        if one.hazard is Hazard.GAS
        else one
        for one in demands.hazards
    )
    return replace(demands, hazards=hazards)


def _uses(parts: Iterable[Part], place: str) -> Iterator[tuple[Part, MaterialUse]]:
    for part in parts:
        for variant in (part, *part.alternates):
            if place in variant.locations:
                yield from ((part, use) for use in variant.materials or ())


def _surest_first(evolved: Evolved) -> tuple[bool, str, str]:
    return not evolved.certain, evolved.chemical, evolved.material


def _merged(found: Iterable[Evolved]) -> Iterable[Evolved]:
    """Each pair once, certain if it is so anywhere."""
    pairs: dict[tuple[str, str], Evolved] = {}
    for one in found:
        key = (one.chemical, one.material)
        if key not in pairs or one.certain:
            pairs[key] = one
    return pairs.values()


def _with_need(
    demand: GroupDemand, evolved: Evolved, demands: Demands, *, certain: bool
) -> GroupDemand:
    """The group that hydrogen asks for in this scheme; the surest cause stands for all."""
    needs = tuple(
        GroupNeed(
            found[0],
            evolved.cause,
            _HYDROGEN,
            (*found[1], *evolved.rows),
            uncertain=not certain,
        )
        for present in resolve(PresentSubstance(_HYDROGEN), "chemicals", demands.tables)
        if (found := present.group(demand.scheme)) is not None
    )
    return replace(demand, needs=(*demand.needs, *needs))


def shown_to_suffice(ventilation: Ventilation | None, evolution: Evolution) -> bool:
    """Whether the stated air keeps the hydrogen thin, everything that decides stated and proven."""
    return (
        ventilation is not None
        and suffices(ventilation, evolution) is True
        and evolution.published
        and not wanting(ventilation)
    )


def suffices(ventilation: Ventilation | None, evolution: Evolution) -> bool | None:
    """Whether the stated air is as much as is needed; None where either is not known."""
    if ventilation is None or ventilation.rate is None or evolution.flow is None:
        return None
    return ventilation.rate >= evolution.flow


def wanting(ventilation: Ventilation) -> tuple[str, ...]:
    """The keys of the ventilation that are not stated as a pass needs them."""
    fine = {
        "document": ventilation.document is not None and not is_placeholder(ventilation.document),
        "availability": ventilation.availability is Availability.GOOD,
        "dead_spaces": ventilation.dead_spaces is Presence.NONE,
        "other_hydrogen": ventilation.other_hydrogen is Presence.NONE,
    }
    return tuple(key for key, good in fine.items() if not good)


def evolution(parts: Iterable[Part], demands: Demands) -> Evolution:
    """The hydrogen of every line × quantity; of alternates what evolves most."""
    litres, lacking, rates = Decimal(0), dict[tuple[str, Lack], None](), dict[Row, None]()
    known: dict[MaterialUse, tuple[_Amount, ...]] = {}
    for part in parts:
        most = Decimal(0)
        for variant in (part, *part.alternates):
            if demands.place.name not in variant.locations:
                continue
            found: list[_Amount] = []
            for use in variant.materials or ():
                if use not in known:
                    known[use] = tuple(_of_use(use, demands))
                found += known[use]
            if found and part.quantity is None:
                lacking[part.item, Lack.QUANTITY] = None
            for one in found:
                lacking.update({(part.item, lack): None for lack in one.lacking})
                rates.update(dict.fromkeys(one.rates))
            most = max(most, sum((one.litres or Decimal(0) for one in found), Decimal(0)))
        litres += most * (part.quantity or Decimal(0))
    factors = _factors(demands.tables)
    if lacking:
        return Evolution(None, None, tuple(lacking), tuple(rates), factors)
    told = _TOLD.plus(litres)
    return Evolution(told, _TOLD.plus(_flow(told, demands.tables)), (), tuple(rates), factors)


class _Amount(Frozen, eq=False):
    """Hydrogen in litres an hour of one use of a material, and what is lacking to know it."""

    litres: Decimal | None
    lacking: tuple[Lack, ...] = ()
    rates: tuple[Row, ...] = ()


def _of_use(use: MaterialUse, demands: Demands) -> Iterator[_Amount]:
    """What each chemical evolves on one of a use; of the metals that it may be the worst."""
    for corroding, metals in dissolved_of(use, demands):
        found = [_of_metal(use, corroding, one) for one in metals]
        lacking = tuple(dict.fromkeys(lack for one in found for lack in one.lacking))
        rates = tuple(dict.fromkeys(row for one in found for row in one.rates))
        worst = max((one.litres or Decimal(0) for one in found), default=Decimal(0))
        yield _Amount(None if lacking else worst, lacking, rates)


def _of_metal(use: MaterialUse, corroding: CorrodingChemical, one: Dissolved) -> _Amount:
    stated = corroding.stated
    spans = (stated.temperature, use.temperature, corroding.liquid)
    heats = [span.high for span in spans if span is not None]
    lacks = {
        Lack.AREA: use.surface_area is None,
        Lack.STRENGTH: stated.concentration is None,
        Lack.HEAT: stated.temperature is None and corroding.liquid is None,
    }
    lacking = tuple(lack for lack, missing in lacks.items() if missing)
    if lacking or use.surface_area is None or stated.concentration is None:
        return _Amount(None, lacking)
    strength, hottest = mass_percent(stated.concentration).span.high, max(heats)
    metal = dissolving(one.material.family)
    if metal is None:
        return _Amount(None, (Lack.RATE,))
    rate = corrosion_rate(metal.metal, one.chemical.id, strength, hottest)
    if rate is None:
        return _Amount(None, (Lack.RATE,))
    metres = rate.mm_per_year * _MM / _HOURS
    moles = use.surface_area * metres * metal.kg_m3 * 1000 / metal.g_per_mol
    volume = moles * metal.electrons / 2 * _GAS_CONSTANT * (hottest + _ZERO_CELSIUS) / _PRESSURE
    rows = (
        Row.of(
            "corrosion_rates",
            f"{rate.metal} in {rate.chemical}, {rate.conc_max_pct} %, {rate.temp_max_c} °C",
            rate,
            f"{rate.mm_per_year} mm a year",
        ),
        Row.of("dissolving_metals", metal.family, metal, f"{metal.electrons} electrons"),
    )
    return _Amount(volume * _LITRES, (), rows)


_SHARE = "share of the lower limit that air may hold"
_MIXING = "mixing of hydrogen with air"


def _flow(litres: Decimal, tables: Tables) -> Decimal:
    """The air in m³/h that keeps so many litres an hour below the share of the lower limit."""
    lower = _lower_limit(tables).value
    share = figure(_SHARE).amount(Dimension.FRACTION) / 100
    return litres / _LITRES / (share * lower / 100) * figure(_MIXING).number


def _lower_limit(tables: Tables) -> Cited[Decimal]:
    hydrogen = tables.substance(_HYDROGEN)
    if hydrogen is None:
        raise KeyError("substances.csv has no row of hydrogen")
    return min(hydrogen.lower_limit, key=lambda cited: cited.value)


def _factors(tables: Tables) -> tuple[Row, ...]:
    """What the flow rests on beside the rate; it only asks for more, so it is not weighed."""
    lower = _lower_limit(tables)
    limit = Row(
        "substances",
        "hydrogen lower limit",
        lower.source_id,
        lower.locator,
        lower.basis,
        f"{lower.value} % by volume",
    )
    return (
        limit,
        *(replace(Row.of_figure(figure(name)), governs=False) for name in (_SHARE, _MIXING)),
    )
