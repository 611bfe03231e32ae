"""What a cell's type cannot say: numbers among words, and bands that run the right way."""

from collections.abc import Mapping

from areafit.tables.dusts import DustProperty, DustValue, LayerState
from areafit.tables.load import NUMBER
from areafit.tables.resistance import ResistanceRow
from areafit.tables.substances import Property, SubstanceValue

_GROUPS = {
    "iec": ("IIA", "IIB", "IIB+H2", "IIC"),
    "nec": ("A", "B", "C", "D"),
}
_DUST_GROUPS = {"iec": ("IIIA", "IIIB", "IIIC"), "nec": ("E", "F", "G")}


def fault(row: object) -> str:
    """What is wrong with a converted row, or an empty text."""
    if isinstance(row, SubstanceValue):
        groups = row.property in {Property.GROUP, Property.GROUP_WITH_SEALS}
        return _word(row.system, row.value, _GROUPS) if groups else _number(row.value)
    if isinstance(row, DustValue):
        if row.property is DustProperty.GROUP:
            return _word(row.system, row.value, _DUST_GROUPS)
        without = row.state not in {LayerState.EXACT, LayerState.ABOVE}
        return "" if without and not row.value else _number(row.value)
    if isinstance(row, ResistanceRow) and not 0 <= row.conc_min_pct < row.conc_max_pct <= 100:
        return (
            f"conc_min_pct: {row.conc_min_pct} is not below conc_max_pct {row.conc_max_pct}, "
            "both from 0 to 100."
        )
    return ""


def _number(value: str) -> str:
    if NUMBER.fullmatch(value):
        return ""
    return f"value: {value!r} is not a number; write digits with a decimal point and no unit."


def _word(system: str, value: str, groups: Mapping[str, tuple[str, ...]]) -> str:
    if system not in groups:
        return f"system: {system!r} must be one of: {', '.join(groups)}."
    if value not in groups[system]:
        return f"value: {value!r} must be one of: {', '.join(groups[system])}."
    return ""
