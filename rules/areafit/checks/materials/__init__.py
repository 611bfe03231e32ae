"""Materials against chemicals, and against each other."""

from typing import Any

from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = ()
