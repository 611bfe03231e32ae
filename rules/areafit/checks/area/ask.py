"""How the area rules turn one part at one place into questions, one hazard at a time."""

from collections.abc import Callable, Iterator
from typing import TypeVar

from areafit.checks.area.candidates import Chosen, Need, choices, need
from areafit.demands import Demands
from areafit.facts.part import Equipment
from areafit.rule import Ask

Q = TypeVar("Q")


def per_hazard(
    pick: Callable[[Chosen], Q | None],
) -> Callable[[Equipment, Demands], Iterator[Ask[Q]]]:
    """An `ask` that yields the picked question for every hazard of the place.

    Electrical parts are asked whether marked or not; other parts only if they bear a marking.
    """

    def ask(equipment: Equipment, demands: Demands) -> Iterator[Ask[Q]]:
        if need(equipment) is Need.NONE:
            return
        for hazard in demands.hazards:
            for choice in choices(equipment, demands, hazard):
                question = pick(choice)
                if question is not None:
                    yield Ask(question, choice.path)

    return ask
