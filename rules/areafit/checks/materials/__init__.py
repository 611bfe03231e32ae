"""Materials against chemicals, and against each other."""

from typing import Any

from areafit.checks.materials import chemical_resistance
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (chemical_resistance.RULE,)
