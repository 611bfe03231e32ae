"""Every rule, in the order that reports list them; explicit, so that order is reviewed."""

from typing import Any

from areafit.checks import area, assembly, ignition, loops, materials, places, proof
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    *area.RULES,
    *proof.RULES,
    *ignition.RULES,
    *materials.RULES,
    *places.RULES,
    *loops.RULES,
    *assembly.RULES,
)


def find(identity: str) -> Rule[Any] | None:
    """The rule with this id, or None."""
    return next((rule for rule in RULES if rule.id == identity), None)
