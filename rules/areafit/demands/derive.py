"""Facts of a place and the tables in, demands out."""

from collections.abc import Collection
from datetime import date

from areafit import notation
from areafit.demands.demand import CorrodingChemical, Demands, Gap, HazardDemand, Limit
from areafit.demands.dust import dust_limits
from areafit.demands.groups import group_demands
from areafit.demands.solvents import neutral_solvent, quiet_gas
from areafit.demands.substances import ResolvedSubstance, resolve
from areafit.demands.temperature import fibre_limits, gas_limits
from areafit.facts.part import Part
from areafit.facts.place import Area, Concentration, Place, PresentChemical, PresentSubstance
from areafit.facts.protection import Hazard, Level
from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.names import key
from areafit.tables.substances import Substance
from areafit.values import replace


def derive(place: Place, tables: Tables, as_of: date, parts: Collection[Part] = ()) -> Demands:
    """All that a place asks for; `parts` are those that stand there, by any alternate.

    The two lists meet here: a chemical that burns counts as a substance, and each substance as a
    chemical in the vapour. Acids and caustics on the parts' own metals add hydrogen.
    """
    place = _with_strengths(place, tables)
    substances = _substances(place, tables)
    areas = place.area.areas if place.area is not None else ()
    hazards = tuple(
        _hazard_demand(hazard, tuple(a for a in areas if a.hazard is hazard), place, substances)
        for hazard in Hazard
        if any(area.hazard is hazard and area.classified for area in areas)
    )
    chemicals = _chemicals(place, substances, tables)
    demands = Demands(place, tables, hazards, substances, chemicals, as_of)
    if not parts:
        return demands
    from areafit.demands.evolution import with_hydrogen  # noqa: PLC0415 - not of one plate

    return with_hydrogen(demands, parts)


def _with_strengths(place: Place, tables: Tables) -> Place:
    """The place with the strengths that names of chemicals state: `HNO3 65 %`, `conc. HCl`."""
    if place.chemicals is None:
        return place
    found = tuple(_with_strength(chemical, tables) for chemical in place.chemicals)
    return place if found == place.chemicals else replace(place, chemicals=found)


def _with_strength(chemical: PresentChemical, tables: Tables) -> PresentChemical:
    """Where the list states a strength too, both hold; none is known where they do not compare."""
    said = tables.reading("chemicals", chemical.name).strength
    if not said:
        return chemical
    named, own = notation.strength(said), chemical.concentration
    if own is None or own == named:
        return replace(chemical, concentration=named)
    if own.unit is not named.unit:
        return replace(chemical, concentration=None)
    span = Range(min(own.span.low, named.span.low), max(own.span.high, named.span.high))
    return replace(chemical, concentration=Concentration(span, own.unit))


def _substances(place: Place, tables: Tables) -> tuple[ResolvedSubstance, ...]:
    """What the place lists as present, and every chemical of it that burns.

    A chemical that is listed as a substance too counts once, at the hotter of its temperatures.
    """
    stated = place.substances or ()
    found = [
        each for i, one in enumerate(stated) for each in resolve(one, f"substances/{i}", tables)
    ]
    for i, chemical in enumerate(place.chemicals or ()):
        for gas in _flammable(chemical.name, tables):
            same = next(
                (
                    number
                    for number, one in enumerate(found)
                    if one.gas and one.gas.id == gas.id and one.mixture is None
                ),
                None,
            )
            if same is not None:
                found[same] = _hotter(found[same], chemical.temperature)
                continue
            own = PresentSubstance(chemical.name, temperature=chemical.temperature)
            found.append(ResolvedSubstance(own, f"chemicals/{i}", gas, None, from_chemical=True))
    return tuple(found)


def _flammable(name: str, tables: Tables) -> tuple[Substance, ...]:
    """The substances that a chemical's name stands for, by its row or else by the name itself."""
    rows = tables.chemicals(name)
    if not rows:
        return tables.substances(name)
    found = (tables.substance(row.substance) for row in rows if row.substance)
    return tuple(gas for gas in found if gas is not None)


def _hotter(present: ResolvedSubstance, temperature: Range | None) -> ResolvedSubstance:
    own = present.stated.temperature
    if temperature is None or (own is not None and own.high >= temperature.high):
        return present
    return replace(present, stated=replace(present.stated, temperature=temperature))


def _chemicals(
    place: Place, substances: tuple[ResolvedSubstance, ...], tables: Tables
) -> tuple[CorrodingChemical, ...] | None:
    if place.chemicals is None:
        return None
    listed = {chemical_meant(chemical.name, tables) for chemical in place.chemicals}
    heats = [
        (chemical_meant(one.name, tables), one.temperature)
        for one in place.substances_named
        if one.temperature is not None
    ]

    def heat(name: str) -> Range | None:
        own = [span for meant, span in heats if meant == chemical_meant(name, tables)]
        return max(own, key=lambda span: span.high, default=None) if heats else None

    leaks = _leaks_only(place)
    # A name of one's own stands for itself and for the listed one that it contains: one vapour.
    named = dict.fromkeys(
        one.name
        for one in substances
        if not one.from_chemical
        and chemical_meant(one.name, tables) not in listed
        and one.dust is None
        and one.stated.mixture is None  # what it is mixed of counts
    )
    vapours = (
        CorrodingChemical(
            PresentChemical(name),
            fume_only=True,
            solvent=leaks and neutral_solvent(name, tables),
            quiet=leaks and quiet_gas(name, tables),
            liquid=heat(name),
        )
        for name in named
    )
    stated = (
        CorrodingChemical(chemical, liquid=heat(chemical.name)) for chemical in place.chemicals
    )
    return (*stated, *vapours)


def _leaks_only(place: Place) -> bool:
    """Whether no vapour is there for long: the area is stated, and neither Zone 0 nor level Ga."""
    stated = place.area
    if (
        stated is None
        or stated.problems
        or not stated.areas
        or place.level_asked(Hazard.GAS) is Level.GA
    ):
        return False
    return not any(area.zone == 0 for area in stated.areas)


def chemical_meant(name: str, tables: Tables) -> frozenset[str]:
    """What a chemical's name means, the same for all its names; its folded form where unknown.

    One that no table of chemicals has may be a listed substance, which has several names too.
    """
    rows = tables.chemicals(name) or tables.substances(name)
    return frozenset(row.id for row in rows) or frozenset({key(name)})


def _hazard_demand(
    hazard: Hazard, areas: tuple[Area, ...], place: Place, substances: tuple[ResolvedSubstance, ...]
) -> HazardDemand:
    if hazard is Hazard.FIBRES:
        return HazardDemand(hazard, areas, limits=fibre_limits())
    listed = place.substances is not None
    groups = group_demands(hazard, areas, substances, listed=listed, document=place.document)
    limits, gaps = _limits(hazard, areas, place, substances)
    return HazardDemand(hazard, areas, groups, limits, gaps)


def _limits(
    hazard: Hazard, areas: tuple[Area, ...], place: Place, substances: tuple[ResolvedSubstance, ...]
) -> tuple[tuple[Limit, ...], tuple[Gap, ...]]:
    if hazard is Hazard.GAS:
        return gas_limits(place.law, areas, substances)
    return dust_limits(place.law, areas, substances, place.layer)
