"""What a place says of itself."""

from typing import Any

from areafit.checks.places import (
    chemicals_together,
    declared_area,
    flash_point,
    hydrogen_evolution,
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
    chemicals_together.RULE,
    hydrogen_evolution.RULE,
)
