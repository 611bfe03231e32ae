"""Which marking is accepted in which place, by the installation rules that govern.

A combination without a row is refused; no row is ever inferred from another.
"""

from functools import cache

from areafit.tables.load import rows
from areafit.values import Frozen, Term
from areafit.verdict import Basis


class Answer(Term):
    """What the rules say of a combination that they name."""

    YES = "yes"
    UNPROVEN = "unproven"


class Acceptance(Frozen):
    """One accepted combination.

    `area` is `I/1` (Class I, Division 1) or `zone 1`; `offer` is `I/2` for a Division marking
    (` is` where it is intrinsically safe), `AEx Gb` for a North American zone marking, `Ex Gb`
    for an IEC or European one.
    """

    law: str
    area: str
    offer: str
    answer: Answer
    clause: str
    source_id: str
    locator: str
    basis: Basis
    note: str


@cache
def acceptance() -> dict[tuple[str, str, str], Acceptance]:
    """The table by law, area and offer."""
    return {(row.law, row.area, row.offer): row for row in rows("acceptance", Acceptance)}
