"""Nameplate text to facts: `decode` for markings, `read_area` for declared areas."""

from areafit.marking.area import read_area, read_areas
from areafit.marking.level import effective_level
from areafit.marking.plate import decode

__all__ = ["decode", "effective_level", "read_area", "read_areas"]
