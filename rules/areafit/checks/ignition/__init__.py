"""Ignition sources of parts that are not electrical, and static charge."""

from typing import Any

from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = ()
