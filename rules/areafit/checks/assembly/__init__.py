"""The machine as a whole: conforming parts are not yet a conforming assembly."""

from typing import Any

from areafit.checks.assembly import assembly_assessment
from areafit.rule import Rule

RULES: tuple[Rule[Any], ...] = (assembly_assessment.RULE,)
