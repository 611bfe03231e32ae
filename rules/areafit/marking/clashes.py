"""What contradicts itself on a plate, and what its marking rules ask for and it does not print."""

from collections.abc import Iterator, Sequence

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Marking, Output, Problem
from areafit.facts.protection import Hazard, MarkingSystem, Purge, Suffix
from areafit.facts.quantity import number
from areafit.marking import clauses, north_america
from areafit.marking.blocks import CodeBlock
from areafit.marking.codes import no_class_of_dust
from areafit.marking.level import (
    category_letter,
    joined_to_ga,
    output_letter,
    output_types_letter,
    type_gives,
    type_levels,
    type_of,
    zone_hazard,
    zone_letter,
)
from areafit.marking.temperature import class_limits, zone_classes
from areafit.pattern import pattern
from areafit.tables.area import Gives, TypeStatus, minimum_ingress


def _unread(text: str) -> Problem:
    return Problem(text, clauses.NOT_READ, unread=True)


def _mark_clause(code: Code) -> str:
    return clauses.DUST_MARK if code.hazard is Hazard.DUST else clauses.GAS_MARK


# Between the words of a block and the rest of its codes


def of_block(block: CodeBlock, codes: Sequence[Code]) -> Iterator[Problem]:
    """What is wrong between the words of a block, or missing from it."""
    if block.circuits:
        return
    if block.safe_place and not block.associated:
        yield _unread("A non-hazardous place is no marking, except of associated apparatus.")
    if set(block.suffixes) == {Suffix.X, Suffix.U}:
        yield Problem("X and U exclude each other.", clauses.COMPONENT)
    if block.divisions and not block.classes:
        yield _unread("A division is printed without its class (I, II or III).")
    if block.divisions and (block.zones or len(set(block.divisions)) > 1):
        yield Problem("More than one kind of place stands in one code.", clauses.CLASSES)
    for code in codes:
        if code.system is not MarkingSystem.NEC_DIVISION:
            yield from _place(block, code)
            yield from _no_type(block, code)
    yield from _circuits_of_category(block)


def _place(block: CodeBlock, code: Code) -> Iterator[Problem]:
    """The North American zone form: class, zone, `AEx` and level."""
    dust = code.hazard is Hazard.DUST
    clause = clauses.DUST_ZONE_MARK if dust else clauses.ZONE_MARK
    if block.zones and block.marks - {"AEx"}:
        yield Problem("A code with a zone number needs AEx, not Ex.", clause)
    if code.system is MarkingSystem.ATEX and "AEx" in block.marks:
        yield Problem("AEx and a category are of two systems.", clause)
    wrong = [name for name in block.classes if name != "I"]
    if wrong:
        yield Problem(f"Class {wrong[0]} does not go with zones.", clauses.ZONES)
    if block.letters:
        yield Problem("Division group letters stand in a zone code.", clauses.LETTERS)
    if code.zone is None:
        return
    if zone_hazard(code.zone) is not code.hazard:
        text = f"Zone {code.zone} stands in a code for {code.hazard.value}."
        yield Problem(text, clauses.ZONES)
        return
    if block.classes and dust:
        yield Problem("Zones 20 to 22 have no class in front.", clauses.ZONES)
    best = zone_letter(code.zone)
    level = code.level
    if level is not None and level.hazard is code.hazard and level.value[1] > best:
        yield Problem(f"Level {level.value} does not reach Zone {code.zone}.", clause)
    yield from _inner_place(code, clause)
    types = type_levels(code)
    if types and not joined_to_ga(code) and max(types) > best:
        text = f"Type {'/'.join(code.protection)} does not reach Zone {code.zone}."
        yield Problem(text, clause)


def _inner_place(code: Code, clause: str) -> Iterator[Problem]:
    """The zone of the process side, which the first level of a pair is for."""
    if code.inner_zone is None:
        return
    inner = code.inner_level
    if inner is None:
        text = f"Zone {code.inner_zone}/{code.zone} names two sides, and no level for each is read."
        yield Problem(text, clause, unread=True)
    elif inner.value[1] > zone_letter(code.inner_zone):
        yield Problem(f"Level {inner.value} does not reach Zone {code.inner_zone}.", clause)


def _no_type(block: CodeBlock, code: Code) -> Iterator[Problem]:
    """A code that names no type of protection for its hazard."""
    if code.protection or code.associated or (code.legacy and code.hazard is Hazard.DUST):
        return
    if block.protection.types:
        yield Problem(f"No type of protection for {code.hazard.value}.", _mark_clause(code))
    elif block.marks or code.system is not MarkingSystem.NEC_ZONE or not code.groups:
        yield _unread("The code prints no type of protection.")


def _circuits_of_category(block: CodeBlock) -> Iterator[Problem]:
    """A category in round brackets needs a protected circuit of that level."""
    for item in block.categories:
        if item.output is None:
            continue
        wanted = " abc"[item.output]
        if not any(_reaches(output, wanted) for output in block.outputs):
            text = f"Category ({item.output}) needs a bracketed circuit of level {wanted}."
            yield Problem(text, clauses.CATEGORY)


def _reaches(output: Output, wanted: str) -> bool:
    letter = output_letter(output)
    return letter is not None and letter <= wanted


# Within one code


def of_code(code: Code) -> Iterator[Problem]:
    """Every contradiction of the code, each with its clause."""
    yield from _hotter_air(code)
    if code.system is MarkingSystem.NEC_DIVISION:
        yield from _division(code)
        return
    yield from _hazard(code)
    yield from _level(code)
    yield from _category(code)
    yield from _group(code)
    yield from _temperature(code)
    yield from _outputs(code)
    yield from _enclosure(code)


def _division(code: Code) -> Iterator[Problem]:
    if code.hazard is Hazard.DUST and code.divisions == (2,) and Group.E in code.groups:
        text = "Class II, Division 2, Group E does not exist: metal dust is Division 1."
        yield Problem(text, clauses.CLASSES)
    for word in code.words:
        if word == north_america.NONINCENDIVE and 1 in code.divisions:
            text = "Nonincendive equipment serves Division 2 only."
            yield Problem(text, clauses.DIVISION_TYPES)
        if word == north_america.EXPLOSIONPROOF and code.hazard is not Hazard.GAS:
            text = f"Explosionproof is a type of Class I, not of Class {code.hazard_class}."
            yield Problem(text, clauses.DIVISION_TYPES)
        if word == north_america.DUST_IGNITIONPROOF and code.hazard_class == "I":
            text = "Dust-ignitionproof is a type of Class II, not of Class I."
            yield Problem(text, clauses.DIVISION_TYPES)
    if code.purge is Purge.Z and 1 in code.divisions:
        yield Problem("Type Z pressurization serves Division 2 only.", clauses.PURGING)


def _hazard(code: Code) -> Iterator[Problem]:
    """Types, group, level and category must all be for the same kind of atmosphere."""
    name = code.hazard.value
    for letter in code.protection:
        if type_gives(code, letter) is Gives.NONE:
            yield Problem(f"Type {letter} is not for {name}.", _mark_clause(code))
    for group in code.groups:
        if group.hazard is not code.hazard:
            yield Problem(f"Group {group.value} stands in a code for {name}.", clauses.GROUPS)
    if code.level is not None and code.level.hazard is not code.hazard:
        text = f"Level {code.level.value} stands in a code for {name}."
        yield Problem(text, _mark_clause(code))
    if code.category is not None and code.category.endswith("D") is not (name == "dust"):
        yield Problem(f"Category {code.category} stands in a code for {name}.", clauses.CATEGORY)


def _level(code: Code) -> Iterator[Problem]:
    """A printed level or category better than the types give; `+` lifts to Ga only."""
    types = type_levels(code)
    if types and not joined_to_ga(code):
        given = max(types)
        weakest = "/".join(code.protection)
        if code.level is not None and code.level.value[1] < given:
            text = f"Level {code.level.value} is printed, but {weakest} gives only {given}."
            yield Problem(text, _types_clause(code))
        if code.category is not None and category_letter(code.category) < given:
            text = f"Category {code.category} is printed, but {weakest} gives only {given}."
            yield Problem(text, clauses.CATEGORY)
    if code.practice is not None and "tD" not in code.protection:
        yield Problem(f"{code.practice} belongs behind tD.", clauses.DUST_MARK)


def _types_clause(code: Code) -> str:
    """The clause on the level of one type or of several; beside it that of an old letter."""
    if len(code.protection) > 1:
        return clauses.TWO_TYPES if code.joined else clauses.COMBINED
    row = type_of(code, code.protection[0])
    if row is None or row.status is TypeStatus.CURRENT:
        return _mark_clause(code)
    return f"{row.standard}; {_mark_clause(code)}"


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
            text = f"Inner category {code.inner_category} and level {inner.value}"
            yield Problem(f"{text} do not go together.", clauses.CATEGORY)


def _group(code: Code) -> Iterator[Problem]:
    level = code.level
    if level is not None and code.groups and level.hazard is code.hazard:
        named = ", ".join(group.value for group in code.groups)
        if (level.value[0] == "M") is not (named == "I"):
            yield Problem(f"Level {level.value} does not go with group {named}.", clauses.GROUPS)
    if Group.II in code.groups and not code.gases and code.hazard is Hazard.GAS:
        for letter in code.protection:
            row = type_of(code, letter)
            if row is not None and row.gas_group_letter:
                yield Problem(f"Type {letter} needs IIA, IIB or IIC, not II alone.", clauses.GROUPS)


def _temperature(code: Code) -> Iterator[Problem]:
    for mark in code.temperatures:
        if mark.name is None:
            if mark.layer is not None and code.hazard is Hazard.GAS:
                yield Problem("A dust layer stands in a code for gas.", clauses.GAS_MARK)
        elif code.hazard is Hazard.DUST and mark.name in class_limits():
            yield no_class_of_dust(mark.name)
        elif mark.name not in zone_classes() and mark.maximum is not None:
            text = f"{mark.name} is a Division class; zone and Ex codes know T1 to T6."
            yield Problem(text, clauses.TEMPERATURE)


def _hotter_air(code: Code) -> Iterator[Problem]:
    """An ambient above the surface temperature that holds in it: surfaces are hotter than air."""
    for mark in code.temperatures:
        air = mark.ambient or code.ambient
        if air is not None and mark.maximum is not None and air.high > mark.maximum:
            shown = mark.name or f"{number(mark.maximum)} °C"
            text = f"An ambient up to {number(air.high)} °C does not go with {shown}."
            yield Problem(text, clauses.TEMPERATURE)


def _outputs(code: Code) -> Iterator[Problem]:
    """A bracket that promises more than its types give."""
    for output in code.outputs:
        given = output_types_letter(output)
        if output.level is not None and given is not None and output.level.value[1] < given:
            named = "/".join(output.protection)
            text = f"The bracket prints {output.level.value}, but {named} gives only {given}."
            yield Problem(text, clauses.COMBINED)


_DEGREE = pattern(r"IP([0-6])([0-9X])")


def _enclosure(code: Code) -> Iterator[Problem]:
    """A printed degree below the least that the type allows; no degree printed is no problem."""
    degrees = _DEGREE.findall(code.ingress or "")
    if not degrees:
        return
    solid = min(int(first) for first, _ in degrees)
    water = min((int(second) for _, second in degrees if second != "X"), default=9)
    known = minimum_ingress()
    for letter in code.protection:
        for group in sorted(group.value for group in code.groups):
            least = known.get((letter, group))
            if least is not None and solid < least.ip_first:
                text = f"Type {letter} for {group} needs {least.degree}, not IP{solid}X."
                yield Problem(text, clauses.DUST_ENCLOSURE)
        least = known.get((f"{letter} without bare live parts", "any"))
        if least is not None and (solid < least.ip_first or water < (least.ip_second or 0)):
            usual = known[letter, "any"].degree
            text = f"Type {letter} needs {usual}, or {least.degree} without bare live parts."
            yield Problem(text, clauses.SAFETY_ENCLOSURE)


# Not printed


def missing_elements(marking: Marking) -> tuple[Problem, ...]:
    """Every element that a code of the marking lacks; those of components (U) may lack them.

    A list states a nameplate for a purpose, and what is missing shows in the requirement that
    needs it; a nameplate that is asked about for itself has to be complete.
    """
    found = (
        problem
        for code in marking.codes
        if code.suffix is not Suffix.U
        for problem in _missing(code)
    )
    return tuple(dict.fromkeys(found))


def _missing(code: Code) -> Iterator[Problem]:
    grouped = code.groups or code.gases or any(output.groups for output in code.outputs)
    if code.system is MarkingSystem.NEC_DIVISION:
        if code.hazard is not Hazard.FIBRES and not grouped and code.purge is None:
            yield Problem("No group letter is printed.", clauses.LETTERS)
        return
    dust = code.hazard is Hazard.DUST
    clause = _mark_clause(code)
    old = code.legacy and (dust or code.non_electrical)
    if not (old or grouped):
        yield Problem(f"No {code.hazard.value} group is printed.", clause)
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
