"""Forms of marking whose standards no longer give a presumption of conformity in Europe."""

from functools import cache

from areafit.tables.load import rows
from areafit.tables.protection_types import TypeFamily
from areafit.values import Frozen
from areafit.verdict import Basis


class SupersededForm(Frozen):
    """A type letter, or `EEx`; `last_year` is the last in which its standard was harmonised."""

    form: str
    family: TypeFamily
    last_year: int
    standard: str
    successor: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def superseded_form(form: str, *, non_electrical: bool = False) -> SupersededForm | None:
    """The row of a form, None for one that is in use."""
    family = TypeFamily.NON_ELECTRICAL if non_electrical else TypeFamily.ELECTRICAL
    found = rows("superseded_forms", SupersededForm)
    return next((row for row in found if row.form == form and row.family is family), None)
