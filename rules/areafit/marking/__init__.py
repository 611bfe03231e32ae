"""Nameplate text to facts: `decode` for markings, `read_area` for declared areas."""

from areafit.marking.area import read_area, read_areas
from areafit.marking.decoder import decode
from areafit.marking.json_form import as_json
from areafit.marking.level import effective_level

__all__ = ["as_json", "decode", "effective_level", "read_area", "read_areas"]
