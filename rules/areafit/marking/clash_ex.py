"""What contradicts itself within one zone, IEC or ATEX code."""

from collections.abc import Iterator

from areafit.facts.groups import Group, GroupScheme
from areafit.facts.marking import Code, Problem
from areafit.facts.protection import Hazard
from areafit.marking import clauses
from areafit.marking.letters import find_type
from areafit.marking.level import (
    category_letter,
    is_old_mechanical,
    joined_to_ga,
    output_types_letter,
    type_gives,
    type_levels,
)
from areafit.tables.protection_types import Gives, TypeStatus

_ATMOSPHERE = {Hazard.GAS: "gas", Hazard.DUST: "dust"}
_ZONE_CLASSES = frozenset({"T1", "T2", "T3", "T4", "T5", "T6"})


def clashes(code: Code) -> Iterator[Problem]:
    """Every contradiction of the code, each with its clause."""
    yield from _hazard(code)
    yield from _level(code)
    yield from _category(code)
    yield from _group(code)
    yield from _temperature(code)
    yield from _outputs(code)


def _clause(code: Code) -> str:
    return clauses.DUST_MARK if code.hazard is Hazard.DUST else clauses.GAS_MARK


def _hazard(code: Code) -> Iterator[Problem]:
    """Types, group, level and category must all be for the same kind of atmosphere."""
    name = _ATMOSPHERE[code.hazard]
    for letter in code.protection:
        if type_gives(code, letter) is Gives.NONE:
            yield Problem(f"Type {letter} is not for {name}.", _clause(code))
    dust = code.hazard is Hazard.DUST
    for group in code.groups:
        if (group.scheme is GroupScheme.ZONE_DUST) is not dust:
            yield Problem(f"Group {group.value} stands in a code for {name}.", clauses.GROUPS)
    if code.level is not None and code.level.hazard is not code.hazard:
        yield Problem(f"Level {code.level.value} stands in a code for {name}.", _clause(code))
    if code.category is not None and code.category.endswith("D") is not dust:
        yield Problem(f"Category {code.category} stands in a code for {name}.", clauses.CATEGORY)


def _level(code: Code) -> Iterator[Problem]:
    """A printed level or category better than the types give; `+` lifts to Ga only."""
    types = type_levels(code)
    if types and not joined_to_ga(code):
        given = max(types)
        weakest = "/".join(code.protection)
        if code.level is not None and code.level.value[1] < given:
            text = f"Level {code.level.value} is printed, but {weakest} gives only {given}."
            yield Problem(text, _of_types(code))
        if code.category is not None and category_letter(code.category) < given:
            text = f"Category {code.category} is printed, but {weakest} gives only {given}."
            yield Problem(text, clauses.CATEGORY)
    if code.practice is not None and "tD" not in code.protection:
        yield Problem(f"{code.practice} belongs behind tD.", clauses.DUST_MARK)


def _of_types(code: Code) -> str:
    """The clause on the level of one type or of several; beside it that of an old letter."""
    if len(code.protection) > 1:
        return clauses.TWO_TYPES if code.joined else clauses.COMBINED
    row = find_type(code.protection[0], non_electrical=is_old_mechanical(code))
    if row is None or row.status is TypeStatus.CURRENT:
        return _clause(code)
    return f"{row.standard}; {_clause(code)}"


def _category(code: Code) -> Iterator[Problem]:
    if code.category is None:
        return
    if code.level is not None and category_letter(code.category) != code.level.value[1]:
        text = f"Category {code.category} and level {code.level.value} do not go together."
        yield Problem(text, clauses.CATEGORY)
    mines = {code.category[0] == "M", *(group is Group.I for group in code.groups)}
    if len(mines) > 1:
        yield Problem("Mines and surface industry stand in one code.", clauses.CATEGORY)
    if code.inner_category is not None and code.level is not None:
        inner = code.inner_level or code.level
        if category_letter(code.inner_category) != inner.value[1]:
            text = (
                f"Inner category {code.inner_category} and level {inner.value} do not go together."
            )
            yield Problem(text, clauses.CATEGORY)


def _group(code: Code) -> Iterator[Problem]:
    level = code.level
    if level is not None and code.groups and level.hazard is code.hazard:
        named = ", ".join(group.value for group in code.groups)
        if (level.value[0] == "M") is not (named == "I"):
            yield Problem(f"Level {level.value} does not go with group {named}.", clauses.GROUPS)
    if Group.II in code.groups and not code.gases:
        for letter in code.protection:
            row = find_type(letter, non_electrical=is_old_mechanical(code))
            if row is not None and row.gas_group_letter and code.hazard is Hazard.GAS:
                yield Problem(f"Type {letter} needs IIA, IIB or IIC, not II alone.", clauses.GROUPS)


def _temperature(code: Code) -> Iterator[Problem]:
    for mark in code.temperatures:
        if mark.name is None:
            if mark.layer is not None and code.hazard is Hazard.GAS:
                yield Problem("A dust layer stands in a code for gas.", clauses.GAS_MARK)
            continue
        if code.hazard is Hazard.DUST:
            text = f"Dust codes print a temperature in °C, not the class {mark.name}."
            yield Problem(text, clauses.DUST_MARK)
        elif mark.name not in _ZONE_CLASSES and mark.maximum is not None:
            text = f"{mark.name} is a Division class; zone and Ex codes know T1 to T6."
            yield Problem(text, clauses.TEMPERATURE)


def _outputs(code: Code) -> Iterator[Problem]:
    """A bracket that promises more than its types give."""
    for output in code.outputs:
        given = output_types_letter(output)
        if output.level is not None and given is not None and output.level.value[1] < given:
            named = "/".join(output.protection)
            text = f"The bracket prints {output.level.value}, but {named} gives only {given}."
            yield Problem(text, clauses.COMBINED)
