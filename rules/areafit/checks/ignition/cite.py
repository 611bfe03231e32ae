"""Rows of the limit tables as a judgement cites them."""

from areafit.rule import Row
from areafit.tables.ignition import Counterface, LightMetalLimit, StaticLimit
from areafit.tables.materials import Material


def light_metal_row(row: LightMetalLimit) -> Row:
    """The light-metal limits of a level."""
    total = "" if row.al_mg_ti_zr_pct is None else f"Al+Mg+Ti+Zr {row.al_mg_ti_zr_pct} %, "
    value = f"{total}Mg+Ti+Zr {row.mg_ti_zr_pct} %"
    return Row.of("light_metal_limits", row.level, row, value)


def static_row(row: StaticLimit, value: str) -> Row:
    """The figure of the static limits that decided."""
    key = f"{row.level}, {row.group}"
    return Row.of("static_limits", key, row, value)


def material_row(row: Material, what: str, value: str) -> Row:
    """A value of a material."""
    key = f"{row.id} {what}"
    return Row.of("materials", key, row, value)


def counterface_row(row: Counterface) -> Row:
    """What a family of materials is to a light metal."""
    value = f"rusts: {row.rusts.value}"
    return Row.of("counterfaces", row.family, row, value)
