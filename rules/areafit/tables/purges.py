"""Purged and pressurized enclosures: what may stand inside, and what must follow loss of purge."""

from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen
from areafit.verdict import Basis


class PurgeType(Frozen):
    """One type: `X`, `Y`, `Z` of NFPA 496 or the p letters of IEC 60079-2.

    `contents` and `on_loss` list the words of the format that serve.
    """

    type: str
    contents: tuple[str, ...]
    on_loss: tuple[str, ...]
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def purges() -> dict[str, PurgeType]:
    """The table by type."""
    return {row.type: row for row in rows("purges", PurgeType)}
