"""What is on file for a marking: evidence, conditions, contradictions."""

from typing import Any

from areafit.checks.proof import (
    evidence,
    ex_component,
    marking_consistency,
    special_conditions,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    marking_consistency.RULE,
    evidence.RULE,
    special_conditions.RULE,
    ex_component.RULE,
)
