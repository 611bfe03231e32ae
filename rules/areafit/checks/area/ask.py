"""How the area rules turn one part at one place into questions, one hazard at a time."""

from collections.abc import Callable, Iterator
from typing import TypeVar

from areafit.checks.area.candidates import Chosen, Need, choices, need
from areafit.checks.area.group_question import GroupQuestion
from areafit.checks.area.missing import Missing
from areafit.demands import Demands
from areafit.facts.groups import GroupScheme
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


def grouped(*schemes: GroupScheme) -> Callable[[Chosen], GroupQuestion | None]:
    """Picks the question about groups where the place's are of one of these schemes.

    There is nothing to ask of a box that protects outgoing circuits only: `protection-level`
    flags it.
    """

    def pick(choice: Chosen) -> GroupQuestion | None:
        demand = choice.group.demand
        if demand is None or choice.missing is Missing.ASSOCIATED:
            return None
        return choice.group if demand.scheme in schemes else None

    return pick
