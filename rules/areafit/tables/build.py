"""Unconverted rows to the things they describe; each row type is imported when first needed."""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from areafit.tables.load import to_row

if TYPE_CHECKING:
    from areafit.tables.chemicals import Chemical
    from areafit.tables.dusts import Dust
    from areafit.tables.materials import Material
    from areafit.tables.substances import Substance

Lines = Callable[[str, str], list[list[str]]]  # (table, id) -> unconverted lines of values


def substance(lines: Lines, cells: list[str]) -> "Substance":
    """A gas or vapour with its lines of values."""
    from areafit.tables.substances import (  # noqa: PLC0415 - imported when first needed
        SubstanceRow,
        SubstanceValue,
        assemble,
    )

    values = lines("substance_values", cells[0])
    return assemble(to_row(SubstanceRow, cells), [to_row(SubstanceValue, line) for line in values])


def dust(lines: Lines, cells: list[str]) -> "Dust":
    """A dust with its lines of values."""
    from areafit.tables.dusts import (  # noqa: PLC0415 - imported when first needed
        DustRow,
        DustValue,
        assemble,
    )

    values = lines("dust_values", cells[0])
    return assemble(to_row(DustRow, cells), [to_row(DustValue, line) for line in values])


def material(_lines: Lines, cells: list[str]) -> "Material":
    """A material."""
    from areafit.tables.materials import Material  # noqa: PLC0415 - imported when first needed

    return to_row(Material, cells)


def chemical(_lines: Lines, cells: list[str]) -> "Chemical":
    """A chemical."""
    from areafit.tables.chemicals import Chemical  # noqa: PLC0415 - imported when first needed

    return to_row(Chemical, cells)


BUILDERS: Mapping[str, Callable[[Lines, list[str]], Any]] = {
    "chemicals": chemical,
    "dusts": dust,
    "materials": material,
    "substances": substance,
}
