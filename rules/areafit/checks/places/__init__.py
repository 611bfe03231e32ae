"""What a place says of itself."""

from typing import Any

from areafit.checks.places import (
    declared_area,
    place_stated,
    substance_known,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    place_stated.RULE,
    declared_area.RULE,
    substance_known.RULE,
)
