"""Hydrogen that the chemicals of a place evolve on the metals of the parts that stand there.

Acid on active metal and caustic on aluminium or zinc give hydrogen, whatever the area was
declared for: one more group that every electrical part of the place must cover.
"""

from collections.abc import Iterable, Iterator

from areafit.demands.demand import CorrodingChemical, Demands, Evolved
from areafit.demands.exposure import mass_percent
from areafit.demands.meeting import Pores, chosen, pores_of
from areafit.facts.part import LIQUID, Exposure, MaterialUse
from areafit.facts.quantity import Range
from areafit.rule import Row
from areafit.tables.chemicals import Chemical, Hydrogen, Reaction
from areafit.tables.materials import ALUMINIUM, BARE_STEEL, COATED_STEEL, MAGNESIUM, ZINC, Material
from areafit.tables.resistance import Rating
from areafit.values import Frozen

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
    for one in _dissolved(use, corroding, demands):
        yield Evolved(
            corroding.stated.name, one.name, one.certain, _rows(one.chemical, one.material)
        )


class Dissolved(Frozen, eq=False):
    """A metal that a chemical dissolves; `certain` as of `Evolved`."""

    name: str
    material: Material
    chemical: Chemical
    certain: bool


def dissolved_of(
    use: MaterialUse, demands: Demands
) -> Iterator[tuple[CorrodingChemical, tuple[Dissolved, ...]]]:
    """For each chemical that evolves hydrogen on a use of a material, the metals that it may be."""
    if use.exposure in _MILD:
        return
    acting = [c for c in demands.chemicals or () if not c.fume_only and _evolving(c, demands)]
    for corroding in chosen(use, demands):
        found = tuple(_dissolved(use, corroding, demands)) if corroding in acting else ()
        if found:
            yield corroding, found


def _dissolved(
    use: MaterialUse, corroding: CorrodingChemical, demands: Demands
) -> Iterator[Dissolved]:
    layers = demands.tables.materials(use.material)
    bare = [(material, True) for material in layers]
    tight = bool(layers) and all(pores_of(use, one) is Pores.NONE for one in layers)
    if use.substrate is not None and use.exposure is Exposure.IMMERSED and not tight:
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
            yield Dissolved(name, material, chemical, sure and surface and strong)


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
    hottest = heat.high if use.temperature is None else max(heat.high, use.temperature.high)
    span, warm = mass_percent(strength).span, Range(heat.low, hottest)
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
