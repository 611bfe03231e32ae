"""A name may mean several materials or chemicals: all are judged and the worst governs."""

from collections.abc import Callable, Iterable, Iterator
from typing import Generic, TypeVar

from areafit.demands import Demands
from areafit.demands.exposure import Met
from areafit.demands.meeting import meetings
from areafit.facts.part import MaterialUse
from areafit.rule import Ask, Judgement
from areafit.tables import Tables
from areafit.tables.materials import Material
from areafit.values import Frozen
from areafit.verdict import worst

C = TypeVar("C")


class EveryMeaning(Frozen, Generic[C]):
    """A case of each material and chemical that the names may mean."""

    cases: tuple[C, ...]


def ask_each(
    use: MaterialUse,
    demands: Demands,
    cases_of: Callable[[tuple[Met, ...]], Iterable[C]],
    path: str = "",
) -> Iterator[Ask[EveryMeaning[C]]]:
    """One question for each chemical that the use meets, if it makes any case."""
    for meeting in meetings(use, demands):
        cases = tuple(cases_of(meeting.mets))
        if cases:
            yield Ask(EveryMeaning(cases), path, use.component)


def worst_of(judge: Callable[[C], Judgement]) -> Callable[[EveryMeaning[C]], Judgement]:
    """The judge of a question, from that of a case."""
    return lambda question: most_severe(judge(case) for case in question.cases)


def most_severe(found: Iterable[Judgement]) -> Judgement:
    """The first judgement of the worst verdict; there must be one at least."""
    listed = tuple(found)
    decisive = worst(one.verdict for one in listed)
    return next(one for one in listed if one.verdict is decisive)


def called(word: str, material: Material, tables: Tables) -> str:
    """The list's own word for a material, with what it is read as where that is not plain.

    Of several that it may mean the one that is judged is named, and so is a filler in it.
    """
    read = tables.reading("materials", word)
    if material.id in read.fillers and material.id not in read.ids:
        return f"{word} (its filler: {material.name})"
    if len(read.ids) > 1:
        return f"{word} (which may be {material.name})"
    return word if read.plain else f"{word} (read as {material.name})"
