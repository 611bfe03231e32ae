"""Intrinsically safe circuits, by their entity values."""

from typing import Any

from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = ()
