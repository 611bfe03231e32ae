"""What a review of a purchase list touches, clause by clause, and what becomes of each."""

from functools import cache

from areafit.pattern import pattern
from areafit.tables.load import rows
from areafit.tables.sources import Sourced
from areafit.values import Term


class CoverageOutcome(Term):
    """What becomes of a requirement in a review of a list."""

    JUDGED = "judged"
    NOT_JUDGED = "not judged"
    NO_MATTER = "no matter of a list"


class CoverageRow(Sourced):
    """One thing that a clause asks: the rules that judge it, or why none does and who should.

    The row concerns places under one of `laws`, classified by one of `systems`, with one of
    `hazards`; and parts of one of `kinds` (`loop`: lists with circuits), whose description names
    one of `named` and whose nameplate bears one of the letters of `marked`. Empty: any. `who` is
    the role that should judge what no rule does.
    """

    document: str
    section: str
    about: str
    outcome: CoverageOutcome
    rules: tuple[str, ...]
    laws: tuple[str, ...]
    systems: tuple[str, ...]
    hazards: tuple[str, ...]
    kinds: tuple[str, ...]
    named: tuple[str, ...]
    marked: tuple[str, ...]
    who: str
    reason: str

    @property
    def of_parts(self) -> bool:
        """Whether only some parts, or circuits, are concerned."""
        return bool(self.kinds or self.named or self.marked)


_NUMBERS = pattern(r"\d+")


@cache
def coverage() -> tuple[CoverageRow, ...]:
    """The table, document after document, with clauses as a reader counts them: 5.9 before 5.10."""
    return tuple(sorted(rows("coverage", CoverageRow), key=_order))


def _order(row: CoverageRow) -> tuple[object, ...]:
    counted = tuple(map(int, _NUMBERS.findall(row.section)))
    return row.document, counted, row.section, row.about
