"""Intrinsically safe circuits, by their entity values."""

from typing import Any

from areafit.checks.loops import (
    loop_capacitance,
    loop_current,
    loop_group,
    loop_inductance,
    loop_items,
    loop_level,
    loop_power,
    loop_simple_apparatus,
    loop_source,
    loop_source_place,
    loop_supply,
    loop_voltage,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    loop_items.RULE,
    loop_source.RULE,
    loop_source_place.RULE,
    loop_supply.RULE,
    loop_voltage.RULE,
    loop_current.RULE,
    loop_power.RULE,
    loop_capacitance.RULE,
    loop_inductance.RULE,
    loop_group.RULE,
    loop_level.RULE,
    loop_simple_apparatus.RULE,
)
