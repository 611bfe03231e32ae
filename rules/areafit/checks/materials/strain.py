"""Whether a part is under lasting stress, by what it is called and by what the list says."""

import re

from areafit.facts.part import MaterialUse
from areafit.pattern import pattern
from areafit.tables.materials import Material

_SPRING = pattern(r"\bsprings?\b", re.IGNORECASE)
_FASTENER = pattern(
    r"\b(?:bolts?|cap screws?|fasteners?|nuts?|screws?|studs?|threaded rods?|washers?)\b",
    re.IGNORECASE,
)


def called_spring(use: MaterialUse) -> bool:
    """Whether the component is called a spring."""
    return use.component is not None and _SPRING.search(use.component) is not None


def is_spring(use: MaterialUse, material: Material) -> bool:
    """Whether the component is a spring, or of a material that is made into nothing else."""
    return called_spring(use) or material.uses == ("spring",)


def is_fastener(use: MaterialUse) -> bool:
    """Whether the component is called a screw, a nut or the like."""
    return use.component is not None and _FASTENER.search(use.component) is not None


def strained(use: MaterialUse, material: Material) -> bool | None:
    """Springs always are; otherwise what the list says, None where it says nothing."""
    return True if is_spring(use, material) else use.stressed
