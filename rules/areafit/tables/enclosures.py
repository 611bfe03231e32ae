"""Ratings of enclosures: Types of NEMA 250 against IP, and the least IP of types of protection."""

from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis


class EnclosureType(Frozen):
    """A Type, the IP digits that it shows at least, and the Types that it covers.

    The correspondence holds one way: an IP rating never shows a Type, which also tests ice,
    corrosion, oil and the ageing of gaskets.
    """

    type: str
    ip_first: int
    ip_second: int
    covers: tuple[str, ...]
    source_id: str
    locator: str
    basis: Basis
    note: str


class MinimumIngress(Frozen):
    """The least digits for a type of protection and a dust group (`any` for all).

    `ip_second` is None where the standard leaves it open.
    """

    protection: str
    group: str
    ip_first: int
    ip_second: int | None
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str

    @property
    def degree(self) -> str:
        """As a plate prints it, `IP54` or `IP6X`."""
        return f"IP{self.ip_first}{'X' if self.ip_second is None else self.ip_second}"


@cache
def enclosure_types() -> dict[str, EnclosureType]:
    """The Types by name."""
    return {row.type: row for row in rows("enclosure_types", EnclosureType)}


@cache
def minimum_ingress() -> dict[tuple[str, str], MinimumIngress]:
    """The least ratings by type of protection and group."""
    return {(row.protection, row.group): row for row in rows("minimum_ingress", MinimumIngress)}
