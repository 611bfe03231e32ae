"""What the area classification asks of a part: level, group, temperature, ambient, ingress."""

from typing import Any

from areafit.checks.area import (
    ambient_range,
    cable_entry,
    dust_group,
    gas_group,
    ingress,
    kind,
    protection_level,
    protection_type,
    temperature_class,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    kind.RULE,
    protection_level.RULE,
    protection_type.RULE,
    gas_group.RULE,
    dust_group.RULE,
    temperature_class.RULE,
    ambient_range.RULE,
    ingress.RULE,
    cable_entry.RULE,
)
