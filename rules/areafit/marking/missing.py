"""What a code does not print and its marking rules ask for.

A list states a nameplate for a purpose, and what is missing shows in the requirement that needs
it; a nameplate that is asked about for itself has to be complete.
"""

from collections.abc import Iterator

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Marking, Problem
from areafit.facts.protection import Hazard, MarkingSystem, Suffix
from areafit.marking import clauses


def missing_elements(marking: Marking) -> tuple[Problem, ...]:
    """Every element that a code of the marking lacks; those of components (U) may lack them."""
    found = (
        problem
        for code in marking.codes
        if code.suffix is not Suffix.U
        for problem in (_division(code) if _is_division(code) else _zone(code))
    )
    return tuple(dict.fromkeys(found))


def _is_division(code: Code) -> bool:
    return code.system is MarkingSystem.NEC_DIVISION


def _division(code: Code) -> Iterator[Problem]:
    grouped = code.groups or code.gases or any(output.groups for output in code.outputs)
    if code.hazard is not Hazard.FIBRES and not grouped and code.purge is None:
        yield Problem("No group letter is printed.", clauses.LETTERS)


def _zone(code: Code) -> Iterator[Problem]:
    dust = code.hazard is Hazard.DUST
    clause = clauses.DUST_MARK if dust else clauses.GAS_MARK
    old = code.legacy and (dust or code.non_electrical)
    grouped = code.groups or code.gases or any(output.groups for output in code.outputs)
    if not (old or grouped):
        yield Problem(
            "No gas group is printed." if not dust else "No dust group is printed.", clause
        )
    mines = code.groups == {Group.I}  # limited to 150 °C or 450 °C without a class
    if not (code.associated or code.temperatures or mines):
        what = "maximum surface temperature" if dust else "temperature class"
        yield Problem(
            f"No {what} is printed; of equipment only cable glands, plugs and adapters do without.",
            clause,
        )
    leveled = code.level or code.category or code.zone is not None or code.legacy
    if not (leveled or code.associated):
        yield Problem("No protection level (EPL) is printed.", clause)
