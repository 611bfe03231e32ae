"""A name may mean several materials or chemicals: all are judged and the worst governs."""

from collections.abc import Iterable

from areafit.rule import Judgement
from areafit.tables import Tables
from areafit.tables.materials import Material
from areafit.verdict import Verdict, worst


def called(word: str, material: Material, tables: Tables) -> str:
    """The list's own word for a material; with the grade that is judged where it may be several."""
    alone = len(tables.materials(word)) == 1
    return word if alone else f"{word} (which may be {material.name})"


def most_severe(found: Iterable[Judgement]) -> Judgement:
    """The first judgement of the worst verdict; there must be one at least."""
    listed = tuple(found)
    decisive: Verdict = worst(one.verdict for one in listed)
    return next(one for one in listed if one.verdict is decisive)
