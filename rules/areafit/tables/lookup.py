"""Which resistance row holds at a concentration and a temperature, or over ranges of them.

The rule of the look-up: of the rows whose band holds the concentration and whose `temp_max_c` is
at or above the temperature, the one with the lowest `temp_max_c`; on a tie the worse. Beyond the
rows there is no answer: a good row is never carried upward.
"""

from collections.abc import Iterable, Sequence
from decimal import Decimal

from areafit.tables.cited import Laxer
from areafit.tables.resistance import Rating, ResistanceRow
from areafit.values import Frozen, Term


class Gap(Term):
    """Why part of the range asked for has no row."""

    NO_ROWS = "no data for this pair"
    CONCENTRATION = "no data at this concentration"
    TEMPERATURE = "hotter than the data"


class Range(Frozen):
    """A closed range; a single value is one whose ends are equal. Mass % or °C."""

    low: Decimal
    high: Decimal

    @staticmethod
    def of(low: Decimal, high: Decimal | None = None) -> "Range":
        """A range from `low` to `high`, or the single value `low`.

        Raises:
            ValueError: the ends are reversed.
        """
        top = low if high is None else high
        if top < low:
            raise ValueError(f"the range {low}..{top} runs backwards")
        return Range(low, top)


class Lookup(Frozen):
    """Every row that governs somewhere in the range asked for, worst first, and what is missing.

    `rating` is the worst of the rows and None only if there is none. If `gaps` is not empty, part
    of the range has no data: the rows can show that a part fails, never that it passes.
    """

    rows: tuple[ResistanceRow, ...]
    gaps: tuple[Gap, ...]
    pending: tuple[Laxer, ...] = ()

    @property
    def rating(self) -> Rating | None:
        """The worst rating found."""
        return self.rows[0].rating if self.rows else None

    @property
    def complete(self) -> bool:
        """Whether the whole range has data."""
        return not self.gaps


class OwnResistance(Frozen):
    """A company's own row, and whether a role approved it as laxer than ours."""

    row: ResistanceRow
    approved: bool
    where: str


def lookup(
    rows: Iterable[ResistanceRow],
    conc: Range,
    temp: Range,
    own: Sequence[OwnResistance] = (),
) -> Lookup:
    """The rows of one pair that govern over a range of concentration and of temperature.

    At every point a stricter row of `own` governs, and so does one where `rows` has nothing; a
    laxer one governs only if approved and is otherwise reported in `pending`.
    """
    known = tuple(rows)
    theirs = {entry.row: entry for entry in own}
    everything = (*known, *theirs)
    if not everything:
        return Lookup((), (Gap.NO_ROWS,))
    governing: dict[ResistanceRow, None] = {}
    gaps: dict[Gap, None] = {}
    pending: dict[Laxer, None] = {}
    for strength in _strengths(everything, conc):
        band = [row for row in known if _holds(row, strength)]
        own_band = [row for row in theirs if _holds(row, strength)]
        if not band and not own_band:
            gaps[Gap.CONCENTRATION] = None
            continue
        for heat in _temperatures([*band, *own_band], temp):
            shipped, company = at_point(band, heat), at_point(own_band, heat)
            if company is not None:
                entry = theirs[company]
                if shipped is None or entry.approved or not _laxer(company, shipped):
                    shipped = company
                else:
                    pending[_waits(entry, shipped)] = None
            if shipped is None:
                gaps[Gap.TEMPERATURE if band else Gap.CONCENTRATION] = None
            else:
                governing[shipped] = None
    return Lookup(tuple(sorted(governing, key=_worst_first)), tuple(gaps), tuple(pending))


def _laxer(company: ResistanceRow, shipped: ResistanceRow) -> bool:
    return company.rating.rank < shipped.rating.rank


def _waits(entry: OwnResistance, shipped: ResistanceRow) -> Laxer:
    rating = entry.row.rating.value
    return Laxer(
        key=f"{shipped.material}|{shipped.chemical}",
        column="rating",
        value=rating,
        shipped=shipped.rating.value,
        where=entry.where,
        reason=(
            f"{entry.where} rates the pair {rating}, laxer than our {shipped.rating.value}; "
            "it needs approved_by (a role) and approved_on (a date that has come) in the row"
        ),
    )


def at_point(band: Sequence[ResistanceRow], heat: Decimal) -> ResistanceRow | None:
    """The row that governs at one temperature, of rows that all hold the concentration."""
    reach = [row for row in band if row.temp_max_c is None or heat <= row.temp_max_c]
    return min(reach, key=_lowest_then_worst, default=None)


def _holds(row: ResistanceRow, strength: Decimal) -> bool:
    above = strength > row.conc_min_pct or strength == row.conc_min_pct == 0
    return above and strength <= row.conc_max_pct


def _lowest_then_worst(row: ResistanceRow) -> tuple[bool, Decimal, int]:
    unlimited = row.temp_max_c is None
    return unlimited, row.temp_max_c or Decimal(0), -row.rating.rank


def _worst_first(row: ResistanceRow) -> tuple[int, Decimal, bool, Decimal]:
    limit = row.temp_max_c
    return -row.rating.rank, row.conc_min_pct, limit is None, limit or Decimal(0)


def _strengths(rows: Sequence[ResistanceRow], conc: Range) -> tuple[Decimal, ...]:
    """One concentration for each stretch of the range in which no band begins or ends.

    A band excludes its lower and includes its upper end, so every edge within the range stands
    for the stretch that ends there, and the upper end of the range for the last one. The lower
    end stands for itself.
    """
    edges = {edge for row in rows for edge in (row.conc_min_pct, row.conc_max_pct)}
    inside = {edge for edge in edges if conc.low < edge < conc.high}
    return tuple(sorted(inside | {conc.low, conc.high}))


def _temperatures(band: Sequence[ResistanceRow], temp: Range) -> tuple[Decimal, ...]:
    limits = {row.temp_max_c for row in band if row.temp_max_c is not None}
    inside = {limit for limit in limits if temp.low < limit < temp.high}
    return tuple(sorted(inside | {temp.low, temp.high}))
