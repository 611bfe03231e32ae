"""Ignition sources of parts that are not electrical, and static charge."""

from typing import Any

from areafit.checks.ignition import (
    air_supply,
    belt_and_hose,
    bonding,
    hot_surface,
    ignition_hazard,
    impact,
    light_metal,
    loose_parts,
    rubbing_speed,
    simple_apparatus,
    static_surface,
    tool_release,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    ignition_hazard.RULE,
    hot_surface.RULE,
    rubbing_speed.RULE,
    impact.RULE,
    light_metal.RULE,
    static_surface.RULE,
    belt_and_hose.RULE,
    bonding.RULE,
    loose_parts.RULE,
    tool_release.RULE,
    air_supply.RULE,
    simple_apparatus.RULE,
)
