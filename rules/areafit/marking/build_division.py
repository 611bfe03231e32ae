"""One block to its Division codes: one for each class that it names."""

from areafit.facts.groups import Group, GroupScheme
from areafit.facts.marking import Code, Output, Problem
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.marking import clauses
from areafit.marking.heat import settle
from areafit.marking.parts import Parts
from areafit.marking.phrases import INTRINSICALLY_SAFE
from areafit.marking.suffixes import worse_suffix

HAZARD_OF_CLASS = {"I": Hazard.GAS, "II": Hazard.DUST, "III": Hazard.FIBRES}
_SCHEMES = {"I": {GroupScheme.DIVISION_GAS}, "II": {GroupScheme.DIVISION_DUST}, "III": set()}


def letters_of(hazard_class: str, letters: frozenset[Group]) -> frozenset[Group]:
    """The group letters that a class can have."""
    return frozenset(group for group in letters if group.scheme in _SCHEMES[hazard_class])


def division_codes(parts: Parts) -> list[Code]:
    """The codes of a block with a class; its problems are added to the block's."""
    heat = settle(parts.heat, MarkingSystem.NEC_DIVISION)
    parts.problems.extend(heat.problems)
    letters = _letters(parts)
    return [
        Code(
            system=MarkingSystem.NEC_DIVISION,
            hazard=HAZARD_OF_CLASS.get(hazard_class, Hazard.GAS),
            outputs=tuple(parts.outputs),
            associated=parts.associated,
            groups=letters_of(hazard_class, letters) if hazard_class else frozenset(),
            gases=tuple(parts.gases) if hazard_class == "I" else (),
            temperatures=heat.temperatures,
            hazard_class=hazard_class or None,
            divisions=_divisions(parts),
            ambient=heat.ambient,
            ingress=", ".join(dict.fromkeys(parts.ingress)) or None,
            suffix=worse_suffix(parts.suffixes),
            purge=max(parts.purges, key=lambda purge: purge.value, default=None),
            words=tuple(dict.fromkeys(parts.words)),
            purge_contents=parts.contents,
            purge_action=parts.action,
        )
        for hazard_class in dict.fromkeys(parts.classes or [""])
    ]


def _divisions(parts: Parts) -> tuple[int, ...]:
    """The divisions, none where two statements differ."""
    found = dict.fromkeys(parts.divisions)
    return next(iter(found)) if len(found) == 1 else ()


def _letters(parts: Parts) -> frozenset[Group]:
    """All letters that stand in the block, with what is wrong about them."""
    letters = frozenset[Group]().union(*parts.letters)
    kinds = [{group.scheme for group in found} for found in parts.letters]
    if any(a & b for n, a in enumerate(kinds) for b in kinds[n + 1 :]):
        text = "The groups of one class are stated twice."
        parts.problems.append(Problem(text, clauses.LETTERS))
        letters = frozenset[Group]()
    if parts.groups:
        named = ", ".join(group.value for group in parts.groups)
        text = f"Group {named} belongs to zones, not to a division."
        parts.problems.append(Problem(text, clauses.LETTERS))
    if parts.levels:
        named = parts.levels[0][0].value
        text = f"The protection level {named} belongs to zones, not to a division."
        parts.problems.append(Problem(text, clauses.DIVISION_MARK))
    possible = frozenset[Group]().union(*(letters_of(c, letters) for c in parts.classes))
    if parts.classes and letters - possible:
        wrong = ", ".join(sorted(group.value for group in letters - possible))
        text = f"Group {wrong} does not belong to Class {' or '.join(parts.classes)}."
        parts.problems.append(Problem(text, clauses.LETTERS))
    return letters


def circuits_of(parts: Parts) -> Output:
    """The circuits that a block behind `provides … circuits to` describes."""
    return Output((INTRINSICALLY_SAFE,), frozenset[Group]().union(*parts.letters, parts.groups))
