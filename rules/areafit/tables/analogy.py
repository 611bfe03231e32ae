"""What may stand in for a pair without rows of its own, and what the analogy must not cover.

An answer by analogy is never better than `judgement`.
"""

from collections.abc import Callable, Iterator
from typing import TypeVar

from areafit.tables.chemicals import Chemical, Presence, Reaction
from areafit.tables.materials import Material

Row = TypeVar("Row", Material, Chemical)

_ACIDS = (Reaction.STRONG_ACID, Reaction.WEAK_ACID)
_ALKALIS = (Reaction.STRONG_ALKALI, Reaction.WEAK_ALKALI)
_WATER = "106"  # EPA group: water and mixtures containing water


def material_covers(material: Material, chemical: Chemical) -> bool:
    """Whether the material behaves as its `behaves_as` does in this chemical."""
    classes = {
        chemical.id: True,
        "acids": chemical.reaction in _ACIDS,
        "alkalis": chemical.reaction in _ALKALIS,
        "chlorides": chemical.chloride is not Presence.NO,
        "oxidisers": chemical.oxidising is not Presence.NO,
        "water": _WATER in chemical.epa_groups or chemical.reaction is not Reaction.NOT_AQUEOUS,
    }
    return bool(material.behaves_as) and not any(
        classes.get(word, False) for word in material.behaves_not
    )


def chemical_covers(chemical: Chemical, material: Material) -> bool:
    """Whether the chemical acts on the material as its `behaves_as` does."""
    excluded = (material.id, material.family)
    return bool(chemical.behaves_as) and not any(word in excluded for word in chemical.behaves_not)


def analogues(
    material: Material,
    chemical: Chemical,
    materials: Callable[[str], Material],
    chemicals: Callable[[str], Chemical],
) -> Iterator[tuple[str, str]]:
    """Pairs of ids whose rows may serve, nearest first, the pair itself left out."""
    alike_materials = list(_chain(material, materials, lambda row: material_covers(row, chemical)))
    alike_chemicals = list(_chain(chemical, chemicals, lambda row: chemical_covers(row, material)))
    yield from ((row.id, chemical.id) for row in alike_materials)
    yield from ((material.id, row.id) for row in alike_chemicals)
    yield from ((left.id, right.id) for left in alike_materials for right in alike_chemicals)


def _chain(start: Row, get: Callable[[str], Row], covers: Callable[[Row], bool]) -> Iterator[Row]:
    seen = {start.id}
    row = start
    while covers(row) and row.behaves_as not in seen:
        row = get(row.behaves_as)
        seen.add(row.id)
        yield row
