"""Hydrogen that the chemicals of a place evolve on the metals of the parts that stand there.

Acid on active metal and caustic on aluminium or zinc give hydrogen, whatever the area was
declared for: one more group that every electrical part of the place must cover.
"""

from collections.abc import Iterable, Iterator

from areafit.demands.demand import CorrodingChemical, Demands, Evolved, GroupDemand, GroupNeed
from areafit.demands.exposure import mass_percent
from areafit.demands.meeting import chosen
from areafit.demands.substances import resolve
from areafit.facts.part import LIQUID, Exposure, MaterialUse
from areafit.facts.place import PresentSubstance
from areafit.facts.protection import Hazard
from areafit.facts.quantity import Range
from areafit.rule import Row
from areafit.tables.chemicals import Chemical, Hydrogen, Reaction
from areafit.tables.materials import ALUMINIUM, BARE_STEEL, COATED_STEEL, MAGNESIUM, ZINC, Material
from areafit.tables.resistance import Rating
from areafit.values import replace

_HYDROGEN = "hydrogen"
_DISSOLVES = {
    Hydrogen.ACTIVE: ALUMINIUM | BARE_STEEL | MAGNESIUM | ZINC,
    Hydrogen.AMPHOTERIC: ALUMINIUM | ZINC,
}
_MAY_DISSOLVE = {
    Hydrogen.ACTIVE: COATED_STEEL,
    Hydrogen.AMPHOTERIC: frozenset({"lead", "tin-coated steel"}),
}
_STRONG = (Reaction.STRONG_ACID, Reaction.STRONG_ALKALI)
_MILD = frozenset({Exposure.ROOM, Exposure.ENCLOSED})


def with_hydrogen(demands: Demands, uses: Iterable[MaterialUse]) -> Demands:
    """The demands with the hydrogen that these uses of materials at the place evolve."""
    evolved = tuple(sorted(_merged(evolved_on(uses, demands)), key=_surest_first))
    if not evolved:
        return demands
    hazards = tuple(
        replace(one, groups=tuple(_with_need(group, evolved[0], demands) for group in one.groups))
        if one.hazard is Hazard.GAS
        else one
        for one in demands.hazards
    )
    return replace(demands, hazards=hazards, evolved=evolved)


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


def evolved_on(uses: Iterable[MaterialUse], demands: Demands) -> Iterator[Evolved]:
    """The hydrogen that these uses of materials evolve at the place, each pair as often as met."""
    acting = [c for c in demands.chemicals or () if not c.fume_only and _evolving(c, demands)]
    if not acting:
        return
    for use in uses:
        if use.exposure in _MILD:
            continue
        for corroding in chosen(use, demands):
            if corroding in acting:
                yield from _on(use, corroding, demands)


def _evolving(corroding: CorrodingChemical, demands: Demands) -> bool:
    rows = demands.tables.chemicals(corroding.stated.name)
    return any(row.hydrogen in _DISSOLVES for row in rows)


def _on(use: MaterialUse, corroding: CorrodingChemical, demands: Demands) -> Iterator[Evolved]:
    bare = [(material, True) for material in demands.tables.materials(use.material)]
    if use.substrate is not None and use.exposure is Exposure.IMMERSED:
        bare += [(material, False) for material in demands.tables.materials(use.substrate)]
    for chemical in demands.tables.chemicals(corroding.stated.name):
        for material, surface in bare:
            if _stands(use, material, chemical, corroding, demands):
                continue
            sure = material.family in _DISSOLVES.get(chemical.hydrogen, ())
            if not sure and material.family not in _MAY_DISSOLVE.get(chemical.hydrogen, ()):
                continue
            strong = chemical.reaction in _STRONG and use.exposure in LIQUID
            name = use.material if surface else use.substrate or material.id
            yield Evolved(
                corroding.stated.name, name, sure and surface and strong, _rows(chemical, material)
            )


def _stands(
    use: MaterialUse,
    material: Material,
    chemical: Chemical,
    corroding: CorrodingChemical,
    demands: Demands,
) -> bool:
    """Whether the metal is known to stand the liquid that it is immersed in.

    What does not corrode evolves nothing: steel in 98 % sulfuric acid, as long as it stays strong.
    """
    strength, heat = corroding.stated.concentration, corroding.stated.temperature
    if use.exposure is not Exposure.IMMERSED or strength is None or heat is None:
        return False
    span, warm = mass_percent(strength).span, Range(heat.low, heat.high)
    found = demands.tables.resistance_at(material.id, chemical.id, span, warm)
    return found.complete and found.rating is Rating.SUITABLE


def _rows(chemical: Chemical, material: Material) -> tuple[Row, ...]:
    key = f"{chemical.id} evolves hydrogen"
    return (
        Row.of(
            "chemicals",
            key,
            chemical,
            f"{chemical.hydrogen.value}; {material.id} is of {material.family}",
        ),
    )


def _with_need(demand: GroupDemand, evolved: Evolved, demands: Demands) -> GroupDemand:
    """The group that hydrogen asks for in this scheme; the surest cause stands for all."""
    needs = tuple(
        GroupNeed(
            found[0],
            evolved.cause,
            _HYDROGEN,
            (*found[1], *evolved.rows),
            uncertain=not evolved.certain,
        )
        for present in resolve(PresentSubstance(_HYDROGEN), "chemicals", demands.tables)
        if (found := present.group(demand.scheme)) is not None
    )
    return replace(demand, needs=(*demand.needs, *needs))
