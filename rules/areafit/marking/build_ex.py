"""One block with `Ex`, a category or a zone to its codes: one for each hazard."""

from areafit.facts.groups import Group, severity
from areafit.facts.marking import Code, Output, Problem
from areafit.facts.protection import Hazard, Level, MarkingSystem
from areafit.marking import clauses
from areafit.marking.elements import AmbientMark, CategoryItem, Temperature, Types
from areafit.marking.heat import settle
from areafit.marking.letters import find_type
from areafit.marking.parts import Parts
from areafit.marking.readers_ex import group_hazard
from areafit.marking.suffixes import worse_suffix
from areafit.tables.protection_types import Gives, ProtectionType, TypeStatus

_BOTH = (Hazard.GAS, Hazard.DUST)
_NO_TYPES = Types("", ())


def ex_codes(parts: Parts) -> list[Code]:
    """The codes of the block; its problems are added to the block's."""
    hazards = hazards_of(parts)
    return [_code(parts, hazard, split=len(hazards) > 1) for hazard in hazards]


def _rows(parts: Parts) -> list[ProtectionType]:
    own = parts.types[0] if parts.types else _NO_TYPES
    found = (find_type(letter, non_electrical=own.mark == "") for letter in own.types)
    return [row for row in found if row is not None]


def hazards_of(parts: Parts, *, categories: bool = True) -> tuple[Hazard, ...]:
    """Both where the plate says so (`GD`, or levels of both), else the one.

    The types decide first, since `db` cannot be for dust; what disagrees is a problem later.
    `categories` says whether the printed categories count.
    """
    items = _housing(parts) if categories else set[Hazard]()
    levels = {level.hazard for pair in parts.levels for level in pair}
    groups = {group_hazard(group) for group in parts.groups}
    if len(items) == 2 or len(levels) == 2:
        return _BOTH
    rows = _rows(parts)
    only = {Hazard.GAS for row in rows if row.dust is Gives.NONE}
    only |= {Hazard.DUST for row in rows if row.gas is Gives.NONE}
    zones = {Hazard.DUST if (zone or 0) >= 20 else Hazard.GAS for zone in parts.zones}
    for said in (only, levels, groups, items, zones):
        if len(said) == 1:
            return tuple(said)
    return (Hazard.GAS,)


def _housing(parts: Parts) -> set[Hazard]:
    """Hazards of the categories of the housing, or of the circuits where only they have any."""
    own = {item.hazard for item in parts.categories if item.number is not None}
    return own or {item.hazard for item in parts.categories}


def _code(parts: Parts, hazard: Hazard, *, split: bool) -> Code:
    system = _system(parts)
    item = _category(parts, hazard)
    own = parts.types[0] if parts.types else _NO_TYPES
    types = _types(parts, hazard) if split else own.types
    heat = settle(_heat(parts, hazard) if split else parts.heat, system)
    parts.problems.extend(heat.problems)
    level, inner_level = _level(parts, hazard if split else None)
    groups = _groups(parts, hazard if split else None)
    outputs = _outputs(parts, groups, hazard if split else None)
    return Code(
        system=system,
        hazard=hazard,
        protection=types,
        joined=own.joined and types == own.types,
        outputs=outputs,
        associated=parts.associated or bool(outputs and not own.types),
        groups=groups,
        gases=tuple(parts.gases) if hazard is Hazard.GAS else (),
        temperatures=heat.temperatures,
        level=level,
        inner_level=inner_level,
        hazard_class=parts.classes[0] if parts.classes else None,
        zone=parts.zones[0] if parts.zones else None,
        equipment_group=parts.equipment_group,
        category=_category_text(parts, item.hazard, item.number) if item else None,
        inner_category=_category_text(parts, item.hazard, item.inner) if item else None,
        ambient=heat.ambient,
        ingress=", ".join(dict.fromkeys(parts.ingress)) or None,
        suffix=worse_suffix(parts.suffixes),
        purge=max(parts.purges, key=lambda purge: purge.value, default=None),
        words=tuple(dict.fromkeys(parts.words)),
        non_electrical=bool(own.types) and (own.mark == "" or set(own.types) == {"h"}),
        legacy=_legacy(parts, hazard),
        practice=None if split and hazard is Hazard.GAS else own.practice,
        extra_gases=tuple(parts.extra) if hazard is Hazard.GAS else (),
        purge_contents=parts.contents,
        purge_action=parts.action,
    )


def _system(parts: Parts) -> MarkingSystem:
    if parts.equipment_group is not None:
        return MarkingSystem.ATEX
    if "AEx" in parts.marks or (parts.zones and not parts.marks):
        return MarkingSystem.NEC_ZONE
    return MarkingSystem.IEC


def _category(parts: Parts, hazard: Hazard) -> CategoryItem | None:
    """The category of the hazard; where there is none of it, the one that contradicts it."""
    fitting = [item for item in parts.categories if item.hazard is hazard]
    return max(fitting or parts.categories, key=lambda item: item.number or 0, default=None)


def _category_text(parts: Parts, hazard: Hazard, number: int | None) -> str | None:
    if number is None:
        return None
    if parts.equipment_group == "I":
        return f"M{number}"
    return f"{number}{'D' if hazard is Hazard.DUST else 'G'}"


def _types(parts: Parts, hazard: Hazard) -> tuple[str, ...]:
    """The types that serve the hazard, of a code that states two."""
    fits = (row for row in _rows(parts) if _gives(row, hazard) is not Gives.NONE)
    return tuple(row.letter for row in fits)


def _gives(row: ProtectionType, hazard: Hazard) -> Gives:
    return row.dust if hazard is Hazard.DUST else row.gas


def _heat(parts: Parts, hazard: Hazard) -> list[Temperature | AmbientMark]:
    """Classes belong to gas, figures to dust; a figure alone serves both."""
    named = any(isinstance(e, Temperature) and e.mark.name for e in parts.heat)
    wanted = hazard is Hazard.GAS
    return [
        element
        for element in parts.heat
        if isinstance(element, AmbientMark)
        or bool(element.mark.name) is wanted
        or (wanted and not named)
    ]


def _level(parts: Parts, hazard: Hazard | None) -> tuple[Level | None, Level | None]:
    """The weakest printed level, and the better first half of a pair."""
    pairs = [
        tuple(level for level in pair if hazard is None or level.hazard is hazard)
        for pair in parts.levels
    ]
    flat = [level for pair in pairs for level in pair]
    if not flat:
        return None, None
    outer = max(flat, key=lambda level: level.rank)
    if len(set(filter(None, pairs))) > 1:
        parts.problems.append(
            Problem("More than one protection level is printed.", clauses.GENERAL)
        )
        return outer, None
    pair = next(filter(None, pairs))
    return outer, pair[0] if pair[0].rank < outer.rank else None


def _groups(parts: Parts, hazard: Hazard | None) -> frozenset[Group]:
    """The printed group; of several for one hazard the mildest, and the plate is at odds."""
    found = [g for g in dict.fromkeys(parts.groups) if hazard in {None, group_hazard(g)}]
    if len(found) < 2:
        return frozenset(found)
    named = " and ".join(group.value for group in found)
    parts.problems.append(Problem(f"Groups {named} stand in one code.", clauses.GROUPS))
    return frozenset({min(found, key=_mildness)})


def _mildness(group: Group) -> int:
    """Below every ladder for a bare `I`, `II` or `III`, which covers nothing by itself."""
    rank = severity(group)
    return -1 if rank is None else rank


def _outputs(parts: Parts, groups: frozenset[Group], hazard: Hazard | None) -> tuple[Output, ...]:
    """Bracketed circuits; without a group of their own they have that of the code.

    Of a code for two hazards each half has its own; a level for dust takes no gas group.
    """
    return tuple(
        Output(o.protection, o.groups or _inherited(groups, o.level), o.level)
        for o in parts.outputs
        if hazard is None or o.level is None or o.level.hazard is hazard
    )


def _inherited(groups: frozenset[Group], level: Level | None) -> frozenset[Group]:
    fits = (g for g in groups if level is None or group_hazard(g) is level.hazard)
    return frozenset(fits)


def _legacy(parts: Parts, hazard: Hazard) -> bool:
    """Whether the form is older than EPLs: EEx, tD, EN 13463, bare old letters, bare `II 2 D`."""
    if parts.levels:
        return any(types.mark == "EEx" or types.practice for types in parts.types)
    if not parts.types:
        bare_dust = hazard is Hazard.DUST and bool(parts.categories)
        return bare_dust and not parts.outputs and bool(parts.heat)
    old = any(row.status is TypeStatus.LEGACY for row in _rows(parts))
    return old or any(types.mark in {"", "EEx"} for types in parts.types)
