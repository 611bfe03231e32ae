"""Materials against chemicals, and against each other."""

from typing import Any

from areafit.checks.materials import (
    chemical_resistance,
    copper_alloy,
    galvanic_couple,
    hydrogen_embrittlement,
    material_temperature,
    materials_listed,
    pitting,
    plating,
    stress_corrosion,
    weld_sensitisation,
)
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (
    materials_listed.RULE,
    chemical_resistance.RULE,
    stress_corrosion.RULE,
    pitting.RULE,
    galvanic_couple.RULE,
    copper_alloy.RULE,
    plating.RULE,
    material_temperature.RULE,
    hydrogen_embrittlement.RULE,
    weld_sensitisation.RULE,
)
