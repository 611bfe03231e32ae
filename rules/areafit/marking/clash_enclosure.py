"""Enclosure degrees that a type of protection rules out."""

from collections.abc import Iterator

from areafit.facts.groups import Group
from areafit.facts.marking import Code, Problem
from areafit.marking import clauses
from areafit.pattern import pattern

_DEGREE = pattern(r"IP([0-6])([0-9X])")
# First digit that the enclosure of a dust type needs, by group (IEC 60079-31:2013, 4).
_NEEDED = {
    "ta": {Group.IIIA: 6, Group.IIIB: 6, Group.IIIC: 6},
    "tb": {Group.IIIA: 5, Group.IIIB: 6, Group.IIIC: 6},
    "tc": {Group.IIIA: 5, Group.IIIB: 5, Group.IIIC: 6},
}


def clashes(code: Code) -> Iterator[Problem]:
    """A printed degree below the least that the type allows; no degree printed is no problem."""
    degrees = _DEGREE.findall(code.ingress or "")
    if not degrees:
        return
    solid = min(int(first) for first, _ in degrees)
    water = min(int(second) for _, second in degrees if second != "X") if _wet(degrees) else 9
    for letter in code.protection:
        for group in sorted(code.groups, key=lambda group: group.value):
            needed = _NEEDED.get(letter, {}).get(group, 0)
            if solid < needed:
                text = f"Type {letter} for {group.value} needs IP{needed}X, not IP{solid}X."
                yield Problem(text, clauses.DUST_ENCLOSURE)
        if letter in {"e", "eb", "ec"} and min(solid, water) < 4:
            text = f"Type {letter} needs IP54, or IP44 without bare live parts."
            yield Problem(text, clauses.SAFETY_ENCLOSURE)


def _wet(degrees: list[tuple[str, str]]) -> bool:
    return any(second != "X" for _, second in degrees)
