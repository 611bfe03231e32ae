"""What a place says of itself."""

from typing import Any

from areafit.checks.places import (
    chemicals_together,
    declared_area,
    hydrogen_evolution,
    flash_point,
    place_stated,
    standard_atmosphere,
    substance_known,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    place_stated.RULE,
    declared_area.RULE,
    standard_atmosphere.RULE,
    substance_known.RULE,
    flash_point.RULE,
)
