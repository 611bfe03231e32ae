"""Table rows as a judgement cites them."""

from collections.abc import Iterable

from areafit.corrosion.outcome import Decided
from areafit.corrosion.rating import Rated
from areafit.facts.quantity import number
from areafit.rule import Row
from areafit.tables.resistance import Mechanism, ResistanceRow
from areafit.verdict import Basis


def resistance_row(row: ResistanceRow) -> Row:
    """A resistance row with its band, its rating and by what the material suffers."""
    warm = "" if row.temp_max_c is None else f" to {number(row.temp_max_c)} °C"
    band = f"{number(row.conc_min_pct)}-{number(row.conc_max_pct)} %{warm}"
    by = "" if row.mechanism is Mechanism.NONE else f", {row.mechanism.value}"
    return Row.of(
        "resistance", f"{row.material} in {row.chemical}, {band}", row, f"{row.rating.value}{by}"
    )


def reasoned(key: str, value: str) -> Row:
    """A step that was reasoned here: relief of an exposure, an analogy, a stand-in."""
    return Row("exposure rules", key, "judgement", "reasoned by exposure", Basis.JUDGEMENT, value)


def rows_of(rated: Iterable[Rated]) -> tuple[Row, ...]:
    """Everything that a rating rests on, reasoned steps included."""
    found: list[Row] = []
    for one in rated:
        for point in one.points:
            found += [resistance_row(row) for row in point.rows]
            found += [reasoned(one.rule, text) for text in (point.why, point.stands_in) if text]
    return tuple(dict.fromkeys(found))


def deciding(decided: Decided) -> tuple[Row, ...]:
    """The one row behind an outcome, and what stands in or was reasoned beside it."""
    point = decided.point
    own = () if point.decisive is None else (resistance_row(point.decisive),)
    texts = (text for text in (point.why, point.stands_in) if text)
    return (*own, *(reasoned(decided.rated.rule, text) for text in texts))
