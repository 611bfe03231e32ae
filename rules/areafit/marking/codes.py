"""One block of a plate to its codes: one for each class of a Division, one for each hazard."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

from areafit.facts.groups import Group, severity
from areafit.facts.marking import Code, Output, PartSide, Problem, TemperatureMark
from areafit.facts.protection import Hazard, Level, MarkingSystem, Suffix
from areafit.marking import clauses
from areafit.marking.blocks import CodeBlock
from areafit.marking.level import find_type, zone_hazard
from areafit.marking.limits import limits_of
from areafit.marking.north_america import INTRINSICALLY_SAFE
from areafit.marking.temperature import class_limits
from areafit.marking.words import Ambient, CategoryItem, Temperature, Unread
from areafit.pattern import pattern
from areafit.tables.area import Gives, ProtectionType, TypeStatus
from areafit.values import replace

HAZARD_OF_CLASS = {"I": Hazard.GAS, "II": Hazard.DUST, "III": Hazard.FIBRES}


def codes_of(block: CodeBlock) -> list[Code]:
    """The codes of a block, none where nothing in it starts one; problems are added to it."""
    zoned = bool(block.zones or block.types or block.brackets or block.equipment_group)
    if zoned and not block.divisions:
        hazards = hazards_of(block)
        return [_ex(block, hazard, split=len(hazards) > 1) for hazard in hazards]
    if block.divisions or block.classes or block.purges or block.associated:
        return _divisions(block)
    return []


def worse_suffix(found: Iterable[Suffix | None]) -> Suffix | None:
    """U (a component, no equipment yet) before X (special conditions) before none."""
    present = set(found)
    return next((suffix for suffix in (Suffix.U, Suffix.X) if suffix in present), None)


def _with_rest(code: Code, block: CodeBlock) -> Code:
    """The code with what is read alike in both systems."""
    return replace(
        code,
        ingress=", ".join(dict.fromkeys(block.ingress)) or None,
        suffix=worse_suffix(block.suffixes),
        purge=max(block.purges, key=lambda purge: purge.value, default=None),
        words=tuple(dict.fromkeys(block.trade_words)),
        purge_contents=block.purge_contents,
        purge_action=block.purge_action,
    )


# Division


def _divisions(block: CodeBlock) -> list[Code]:
    """One code for each class, or one without a class."""
    limits = limits_of(block.temperatures, MarkingSystem.NEC_DIVISION)
    block.problems.extend(limits.problems)
    letters = _letters(block)
    divisions = _one_division(block)
    codes = [
        Code(
            system=MarkingSystem.NEC_DIVISION,
            hazard=hazard,
            outputs=tuple(block.outputs),
            associated=block.associated,
            groups=frozenset(group for group in letters if group.hazard is hazard),
            gases=tuple(block.gases) if hazard_class == "I" else (),
            temperatures=limits.temperatures,
            hazard_class=hazard_class or None,
            divisions=divisions,
            ambient=limits.ambient,
        )
        for hazard_class, hazard in _classes(block, letters)
    ]
    return [_with_rest(code, block) for code in codes]


def _one_division(block: CodeBlock) -> tuple[int, ...]:
    """What the block prints as its division; none counts where two differ."""
    stated = set(block.divisions)
    return stated.pop() if len(stated) == 1 else ()


def _classes(block: CodeBlock, letters: frozenset[Group]) -> Iterator[tuple[str, Hazard]]:
    """Each class with its hazard; where none is printed the letters tell, gas if they do not."""
    for hazard_class in dict.fromkeys(block.classes):
        yield hazard_class, HAZARD_OF_CLASS.get(hazard_class, Hazard.GAS)
    if not block.classes:
        told = {group.hazard for group in letters} or {Hazard.GAS}
        yield from (("", hazard) for hazard in Hazard if hazard in told)


def letters_of(hazard_class: str, letters: frozenset[Group]) -> frozenset[Group]:
    """The group letters that a class can have; Class III has none."""
    return frozenset(group for group in letters if group.hazard is HAZARD_OF_CLASS[hazard_class])


def _letters(block: CodeBlock) -> frozenset[Group]:
    """All letters that stand in the block, with what is wrong about them."""
    letters = frozenset[Group]().union(*block.letters)
    hazards = [{group.hazard for group in found} for found in block.letters]
    if any(a & b for n, a in enumerate(hazards) for b in hazards[n + 1 :]):
        text = "The groups of one class are stated twice."
        block.problems.append(Problem(text, clauses.LETTERS))
        letters = frozenset[Group]()
    if block.groups:
        named = ", ".join(word.group.value for word in block.groups)
        text = f"Group {named} belongs to zones, not to a division."
        block.problems.append(Problem(text, clauses.LETTERS))
    if block.levels:
        named = block.levels[0][0].value
        text = f"The protection level {named} belongs to zones, not to a division."
        block.problems.append(Problem(text, clauses.DIVISION_MARK))
    possible = frozenset[Group]().union(*(letters_of(c, letters) for c in block.classes))
    if block.classes and letters - possible:
        wrong = ", ".join(sorted(group.value for group in letters - possible))
        text = f"Group {wrong} does not belong to Class {' or '.join(block.classes)}."
        block.problems.append(Problem(text, clauses.LETTERS))
    return letters


def circuits_of(block: CodeBlock) -> Output:
    """The circuits that a block behind `provides … circuits to` describes."""
    groups = frozenset[Group]().union(*block.letters, {word.group for word in block.groups})
    return Output((INTRINSICALLY_SAFE,), groups, divisions=_one_division(block))


# Ex, category or zone


def hazards_of(block: CodeBlock, *, categories: bool = True) -> Sequence[Hazard]:
    """Both where the plate says so (`GD`, or levels of both), else the one.

    The types decide first, since `db` cannot be for dust; what disagrees is a problem later.
    `categories` says whether the printed categories count.
    """
    items = _categorised(block) if categories else set[Hazard]()
    levels = {level.hazard for pair in block.levels for level in pair}
    groups = {word.group.hazard for word in block.groups}
    if len(items) == 2 or len(levels) == 2:
        return (Hazard.GAS, Hazard.DUST)
    rows = _rows(block)
    only = {Hazard.GAS for row in rows if row.dust is Gives.NONE}
    only |= {Hazard.DUST for row in rows if row.gas is Gives.NONE}
    zones = {zone_hazard(zone or 0) for zone in block.zones}
    for said in (only, levels, groups, items, zones):
        if len(said) == 1:
            return tuple(said)
    return (Hazard.GAS,)


def _categorised(block: CodeBlock) -> set[Hazard]:
    """Hazards of the categories of the housing, or of the circuits where only they have any."""
    own = {item.hazard for item in block.categories if item.number is not None}
    return own or {item.hazard for item in block.categories}


def _rows(block: CodeBlock) -> list[ProtectionType]:
    own = block.protection
    found = (find_type(letter, non_electrical=own.mark == "") for letter in own.types)
    return [row for row in found if row is not None]


def _ex(block: CodeBlock, hazard: Hazard, *, split: bool) -> Code:
    """The code for a hazard; `split` where the block states another one too."""
    only = hazard if split else None
    gas = hazard is Hazard.GAS
    system = _system(block)
    item = _category(block, hazard)
    own = block.protection
    types = _types_for(block, hazard) if split else own.types
    mixed = gas and any(word.group.hazard is Hazard.DUST for word in block.groups)
    words = _temperatures(block, hazard) if split or mixed else block.temperatures
    limits = limits_of(_of_dust(block, words) if hazard is Hazard.DUST else words, system)
    block.problems.extend(limits.problems)
    level, inner_level = _level(block, only)
    groups = _groups(block, only)
    outputs = _outputs(block, groups, only)
    code = Code(
        system=system,
        hazard=hazard,
        protection=types,
        joined=own.joined and types == own.types,
        outputs=outputs,
        associated=block.associated or bool(outputs and not own.types),
        groups=groups,
        gases=tuple(block.gases) if gas else (),
        temperatures=limits.temperatures if gas else _as_hot_as_unread(block, limits.temperatures),
        level=level,
        inner_level=inner_level,
        hazard_class=block.classes[0] if block.classes else None,
        zone=block.zones[0] if block.zones else None,
        inner_zone=block.inner_zone,
        equipment_group=block.equipment_group,
        category=_category_text(block, item.hazard, item.number) if item else None,
        inner_category=_category_text(block, item.hazard, item.inner) if item else None,
        bare=_bare(block, item),
        ambient=limits.ambient,
        non_electrical=bool(own.types) and (own.mark == "" or set(own.types) == {"h"}),
        legacy=_legacy(block, hazard),
        practice=None if split and gas else own.practice,
        extra_gases=tuple(name for word in block.groups for name in word.extra) if gas else (),
    )
    return _with_rest(code, block)


def _system(block: CodeBlock) -> MarkingSystem:
    if block.equipment_group is not None:
        return MarkingSystem.ATEX
    if "AEx" in block.marks or (block.zones and not block.marks):
        return MarkingSystem.NEC_ZONE
    return MarkingSystem.IEC


def _category(block: CodeBlock, hazard: Hazard) -> CategoryItem | None:
    """The category of the hazard; where there is none of it, the one that contradicts it."""
    fitting = [item for item in block.categories if item.hazard is hazard]
    return max(fitting or block.categories, key=lambda item: item.number or 0, default=None)


def _bare(block: CodeBlock, item: CategoryItem | None) -> PartSide | None:
    """The side that category or level leave out; where they differ, the outside, which is worse."""
    sides = dict.fromkeys([*([item.bare] if item and item.bare else []), *block.bare])
    if len(sides) > 1:
        text = "Category and level leave out different sides of the part."
        block.problems.append(Problem(text, clauses.CATEGORY))
        return PartSide.OUTER
    return next(iter(sides), None)


def _category_text(block: CodeBlock, hazard: Hazard, number: int | None) -> str | None:
    if number is None:
        return None
    if block.equipment_group == "I":
        return f"M{number}"
    return f"{number}{'D' if hazard is Hazard.DUST else 'G'}"


def _types_for(block: CodeBlock, hazard: Hazard) -> tuple[str, ...]:
    """The types that serve the hazard, of a code that states two."""
    return tuple(row.letter for row in _rows(block) if row.gives(hazard) is not Gives.NONE)


def _temperatures(block: CodeBlock, hazard: Hazard) -> list[Temperature | Ambient]:
    """Classes belong to gas, figures to dust; on plates older than EPLs a figure serves both."""
    words = block.temperatures
    named = any(isinstance(word, Temperature) and word.mark.name for word in words)
    named |= bool(block.levels) or any(w.group.hazard is Hazard.DUST for w in block.groups)
    wanted = hazard is Hazard.GAS
    return [
        word
        for word in words
        if isinstance(word, Ambient) or bool(word.mark.name) is wanted or (wanted and not named)
    ]


def _of_dust(
    block: CodeBlock, words: Sequence[Temperature | Ambient]
) -> list[Temperature | Ambient]:
    """The words of a dust code: a class gives it no temperature, and beside a figure counts not."""
    classes = [w for w in words if isinstance(w, Temperature) and w.mark.name in class_limits()]
    rest = [word for word in words if word not in classes]
    if not classes:
        return rest
    if any(isinstance(word, Temperature) for word in rest):
        block.problems.append(no_class_of_dust(classes[0].mark.name))
        return rest
    unknown = (replace(word, mark=replace(word.mark, maximum=None)) for word in classes)
    return [*unknown, *rest]


_UNREAD_HEAT = pattern(r"(?<!\d)\d{2,3}(?= ?°? ?C)")


def _as_hot_as_unread(
    block: CodeBlock, marks: tuple[TemperatureMark, ...]
) -> tuple[TemperatureMark, ...]:
    """Without a figure where an unread one, as of a deeper layer, is higher than what was read."""
    texts = [word.text for word in block.unread if isinstance(word, Unread)]
    unread = [Decimal(found) for text in texts for found in _UNREAD_HEAT.findall(text)]
    read = [mark.maximum for mark in marks if mark.maximum is not None]
    if not unread or not read or max(unread) <= max(read):
        return marks
    return tuple(replace(mark, maximum=None) for mark in marks)


def no_class_of_dust(name: str | None) -> Problem:
    """What is wrong with a class in a code for dust."""
    text = f"Dust codes print a temperature in °C, not the class {name}."
    return Problem(text, clauses.DUST_MARK)


def _level(block: CodeBlock, hazard: Hazard | None) -> tuple[Level | None, Level | None]:
    """The weakest printed level, and the better first half of a pair."""
    found = (
        tuple(level for level in pair if hazard in {None, level.hazard}) for pair in block.levels
    )
    pairs = [pair for pair in found if pair]
    flat = [level for pair in pairs for level in pair]
    outer = max(flat, key=lambda level: level.rank, default=None)
    if outer is None:
        return None, None
    if len(set(pairs)) > 1:
        text = "More than one protection level is printed."
        block.problems.append(Problem(text, clauses.GENERAL))
        return outer, None
    first = pairs[0][0]
    return outer, first if first.rank < outer.rank else None


def _groups(block: CodeBlock, hazard: Hazard | None) -> frozenset[Group]:
    """The printed group; of several for one hazard the mildest, and the plate is at odds."""
    printed = dict.fromkeys(word.group for word in block.groups)
    found = [group for group in printed if hazard in {None, group.hazard}]
    if len(found) < 2:
        return frozenset(found)
    named = " and ".join(group.value for group in found)
    block.problems.append(Problem(f"Groups {named} stand in one code.", clauses.GROUPS))
    return frozenset({min(found, key=_mildness)})


def _mildness(group: Group) -> int:
    """Below every ladder for a bare `I`, `II` or `III`, which covers nothing by itself."""
    rank = severity(group)
    return -1 if rank is None else rank


def _outputs(
    block: CodeBlock, groups: frozenset[Group], hazard: Hazard | None
) -> tuple[Output, ...]:
    """Bracketed circuits; without a group of their own they have that of the code.

    Of a code for two hazards each half has its own; a level for dust takes no gas group.
    """
    return tuple(
        replace(o, groups=o.groups or _inherited(groups, o.level))
        for o in block.outputs
        if hazard is None or o.level is None or o.level.hazard is hazard
    )


def _inherited(groups: frozenset[Group], level: Level | None) -> frozenset[Group]:
    fits = (group for group in groups if level is None or group.hazard is level.hazard)
    return frozenset(fits)


def _legacy(block: CodeBlock, hazard: Hazard) -> bool:
    """Whether the form is older than EPLs: EEx, tD, EN 13463, bare old letters, bare `II 2 D`."""
    if block.levels:
        return any(types.mark == "EEx" or types.practice for types in block.types)
    if not block.types:
        bare_dust = hazard is Hazard.DUST and bool(block.categories)
        return bare_dust and not block.brackets and bool(block.temperatures)
    old = any(row.status is TypeStatus.LEGACY for row in _rows(block))
    return old or any(types.mark in {"", "EEx"} for types in block.types)
