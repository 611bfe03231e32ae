"""Unmarked, general-purpose devices that NFPA 70 lets into a classified area, and on what terms."""

from decimal import Decimal
from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Contacts(Term):
    """Whether make-and-break contacts may be there."""

    NEVER = "never"  # a device with them is not covered
    ANY = "any"  # the enclosure is enough
    PROTECTED = "protected"  # sealed, under oil, or in a nonincendive circuit


class GeneralPurpose(Frozen):
    """One allowance.

    `area` is a key of the acceptance table, `device` a word of the format. `enclosures` lists
    those that serve, empty where any does; `asks` further facts that must be stated to be absent
    or looked at (`inverter`, `space heater`); `share_pct` is the percentage of the autoignition
    temperature in °C that a surface may reach.
    """

    area: str
    device: str
    contacts: Contacts
    enclosures: tuple[str, ...]
    asks: tuple[str, ...]
    share_pct: Decimal
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def general_purpose() -> dict[tuple[str, str], GeneralPurpose]:
    """The table by area and device."""
    return {(row.area, row.device): row for row in rows("general_purpose", GeneralPurpose)}
