"""The look-up rule, its ranges and gaps, and the worked cases for immersed parts."""

import json
from collections import Counter
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from areafit.facts.quantity import Range
from areafit.tables import Tables
from areafit.tables.load import rows
from areafit.tables.resistance import (
    Mechanism,
    MissingData,
    OwnResistance,
    Rating,
    ResistanceRow,
    lookup,
)
from areafit.values import replace
from areafit.verdict import Basis

T = Tables.shipped()
CASES = json.loads(
    (Path(__file__).parents[1] / "cases" / "material_checks.json").read_text(encoding="utf-8")
)
D = Decimal


def _row(  # noqa: PLR0917 - the columns that decide
    low: int,
    high: int,
    temp: int | None,
    rating: Rating,
    source: str = "s",
    basis: Basis = Basis.SEEN,
) -> ResistanceRow:
    limit = None if temp is None else D(temp)
    mechanism = Mechanism.NONE if rating is Rating.SUITABLE else Mechanism.UNIFORM
    return ResistanceRow(
        "m",
        "c",
        D(low),
        D(high),
        None,
        limit,
        rating,
        mechanism,
        figure="",
        source_id=source,
        locator="l",
        basis=basis,
        note="",
    )


GOOD, FAIR, BAD = Rating.SUITABLE, Rating.LIMITED, Rating.UNSUITABLE
STEEL = (_row(0, 10, 40, GOOD), _row(0, 10, 60, FAIR), _row(10, 50, 40, FAIR))


def _at(conc: int, temp: int, table: tuple[ResistanceRow, ...] = STEEL) -> Any:
    return lookup(table, Range.of(D(conc)), Range.of(D(temp)))


@pytest.mark.parametrize(
    ("conc", "temp", "rating"),
    [
        (0, 20, GOOD),  # the lower end 0 is included
        (10, 40, GOOD),  # upper ends are included
        (10, 41, FAIR),  # the next row
        (11, 40, FAIR),  # lower ends other than 0 are not
    ],
)
def test_the_row_with_the_lowest_temperature_at_or_above(
    conc: int, temp: int, rating: Rating
) -> None:
    found = _at(conc, temp)
    assert found.rating is rating
    assert found.complete


def test_beyond_the_data_nothing_is_carried_upward() -> None:
    assert _at(5, 61).rows == ()
    assert _at(5, 61).gaps == (MissingData.TEMPERATURE,)
    assert _at(60, 20).gaps == (MissingData.CONCENTRATION,)
    assert _at(5, 20, ()).gaps == (MissingData.NO_ROWS,)


def test_on_a_tie_the_worse_row_governs() -> None:
    tie = (_row(0, 100, 60, GOOD), _row(0, 50, 60, BAD))
    assert _at(20, 50, tie).rating is BAD
    assert _at(80, 50, tie).rating is GOOD


def test_all_of_a_range_is_judged() -> None:
    found = lookup(STEEL, Range.of(D(5), D(20)), Range.of(D(20), D(55)))
    assert found.rating is FAIR
    assert [row.rating for row in found.rows].count(GOOD) == 1
    assert found.gaps == (MissingData.TEMPERATURE,)  # 10 to 20 % above 40 °C


def test_a_range_that_runs_backwards_is_refused() -> None:
    with pytest.raises(ValueError, match="backwards"):
        Range.of(D(5), D(2))


def _own(row: ResistanceRow, *, approved: bool = False) -> OwnResistance:
    return OwnResistance(row, approved, "resistance.csv:2")


def test_a_companys_stricter_row_governs_also_where_it_reaches_further() -> None:
    own = [_own(_row(0, 10, 80, BAD))]
    found = lookup(STEEL, Range.of(D(5)), Range.of(D(20)), own)
    assert found.rating is BAD
    assert found.pending == ()


def test_a_companys_laxer_row_waits_for_an_approval() -> None:
    row = _row(0, 10, 60, GOOD)
    at = Range.of(D(5)), Range.of(D(50))
    waiting = lookup(STEEL, *at, [_own(row)])
    assert waiting.rating is FAIR
    assert waiting.pending[0].where == "resistance.csv:2"
    assert "approved_by" in waiting.pending[0].reason
    approved = lookup(STEEL, *at, [_own(row, approved=True)])
    assert approved.rating is GOOD
    assert approved.pending == ()


def test_a_companys_row_serves_where_ours_have_nothing() -> None:
    found = lookup(STEEL, Range.of(D(5)), Range.of(D(75)), [_own(_row(0, 10, 80, FAIR))])
    assert found.rating is FAIR
    assert found.complete


@pytest.mark.parametrize(
    "case",
    [case for case in CASES["material_checks"] if case["exposure"] == "immersed"],
    ids=lambda case: f"{case['material']} in {case['chemical']}",
)
def test_worked_cases_of_immersed_parts(
    case: dict[str, Any], checked: Counter[tuple[str, str]]
) -> None:
    material, chemical = T.material(case["material"]), T.chemical(case["chemical"])
    assert material is not None
    assert chemical is not None
    percent = case["conc_pct"]
    conc = chemical.assumed_pct if percent is None else D(str(percent))
    at = (
        Range.of(D(0), D(100)) if conc is None else Range.of(conc),
        Range.of(D(str(case["temp_c"]))),
    )
    found = T.resistance_at(material.id, chemical.id, *at)
    if not found.rows:
        pairs = T.analogues(material.id, chemical.id)
        found = next((near for pair in pairs if (near := T.resistance_at(*pair, *at)).rows), found)
    assert found.rating is not None
    assert found.rating.value == case["expected"]
    checked["resistance", "worked cases of one engineer (consistency)"] += 1


ROWS = st.builds(
    _row,
    st.sampled_from([0, 10, 20]),
    st.sampled_from([30, 50, 100]),
    st.sampled_from([20, 40, 60, None]),
    st.sampled_from(list(Rating)),
)
POINTS = st.integers(0, 100).map(D)


@settings(deadline=None)
@given(st.lists(ROWS, max_size=6), POINTS, POINTS, POINTS, POINTS)
def test_a_range_is_the_worst_of_its_points(
    table: list[ResistanceRow], a: Decimal, b: Decimal, c: Decimal, d: Decimal
) -> None:
    conc, temp = Range.of(min(a, b), max(a, b)), Range.of(min(c, d), max(c, d))
    whole = lookup(table, conc, temp)
    worst, gap = -1, False
    for step in range(int(conc.low), int(conc.high) + 1):
        for heat in range(int(temp.low), int(temp.high) + 1, 5):
            point = lookup(table, Range.of(D(step)), Range.of(D(heat)))
            gap |= not point.complete
            if point.rating is not None:
                worst = max(worst, point.rating.rank)
    if gap:
        assert not whole.complete
    if worst >= 0:
        assert whole.rating is not None
        assert whole.rating.rank >= worst


@settings(deadline=None)
@given(st.lists(ROWS, min_size=1, max_size=6), POINTS, POINTS, POINTS)
def test_a_wider_range_never_gives_a_better_answer(
    table: list[ResistanceRow], a: Decimal, b: Decimal, heat: Decimal
) -> None:
    narrow = lookup(table, Range.of(min(a, b)), Range.of(heat))
    wide = lookup(table, Range.of(min(a, b), max(a, b)), Range.of(heat))
    if not narrow.complete:
        assert not wide.complete
    if narrow.rating is not None:
        assert wide.rating is not None
        assert wide.rating.rank >= narrow.rating.rank


def test_every_shipped_row_can_be_reached() -> None:
    reached = 0
    for row in rows("resistance", ResistanceRow):
        temp = row.temp_max_c if row.temp_max_c is not None else D(500)
        found = T.resistance_at(
            row.material, row.chemical, Range.of(row.conc_max_pct), Range.of(temp)
        )
        assert found.rating is not None
        assert found.rating.rank >= 0
        reached += row in found.rows
    assert reached > 2000


# Several sources of one pair; that the stricter governs is the project's own rule.


def test_of_two_sources_the_stricter_governs_and_the_other_is_disputed() -> None:
    kind = _row(0, 100, 60, GOOD, "one", Basis.SEEN)
    harsh = _row(0, 100, 60, FAIR, "two", Basis.MEMORY)
    for table in ((kind, harsh), (harsh, kind)):
        found = _at(20, 40, table)
        assert found.rows == (harsh,)
        assert found.disputed == (kind,)


def test_a_hotter_good_row_disputes_a_colder_bad_one_and_never_passes_above_it() -> None:
    good = _row(0, 100, 80, GOOD, "one")
    bad = _row(0, 100, 60, BAD, "two")
    cold, hot = Range(D(-273), D(50)), Range(D(-273), D(70))
    for heat in (cold, hot):
        found = lookup((good, bad), Range.of(D(20)), heat)
        assert found.rating is BAD
        assert found.disputed == (good,)


def test_rows_of_one_source_dispute_nothing() -> None:
    assert _at(5, 50).disputed == ()
    assert lookup(STEEL, Range(D(0), D(50)), Range(D(-273), D(60))).disputed == ()


def test_a_bad_row_that_speaks_of_the_heat_alone_is_no_dispute_with_a_good_one() -> None:
    good, bad = _row(0, 100, 60, GOOD, "one"), _row(0, 100, 80, BAD, "two")
    assert _at(20, 40, (good, bad)).rating is BAD  # its band begins at any cold
    hot = replace(bad, temp_min_c=D(60))
    assert _at(20, 40, (good, hot)).rating is GOOD
    assert _at(20, 40, (good, hot)).disputed == ()
    assert _at(20, 60, (good, hot)).rating is GOOD
    assert _at(20, 70, (good, hot)).rating is BAD
    assert _at(20, 40, (hot,)).rating is None


def test_of_rows_that_agree_the_best_basis_is_cited() -> None:
    recalled = _row(0, 100, 60, GOOD, "one", Basis.MEMORY)
    read = _row(0, 100, 80, GOOD, "two", Basis.SEEN)
    assert _at(20, 40, (recalled, read)).rows == (read,)
    assert _at(20, 40, (read, recalled)).rows == (read,)
    assert _at(20, 70, (recalled, read)).rows == (read,)
    limited = _row(0, 100, 60, FAIR, "one", Basis.MEMORY)
    same = _row(0, 100, 60, FAIR, "two", Basis.REPORTED)
    hotter = _row(0, 100, 80, FAIR, "three", Basis.SEEN)
    assert _at(20, 40, (limited, same)).rows == (same,)
    assert _at(20, 40, (limited, same, hotter)).rows == (hotter,)


def test_a_good_row_of_another_strength_does_not_speak() -> None:
    recalled = _row(0, 100, 60, GOOD, "one", Basis.MEMORY)
    assert _at(20, 40, (recalled, _row(0, 10, 80, GOOD, "two"))).rows == (recalled,)


_BASES = tuple(Basis)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(((0, 10), (0, 100), (10, 100))),
            st.sampled_from((20, 40, 60, 80)),
            st.sampled_from((GOOD, FAIR, BAD)),
            st.sampled_from(("one", "two", "three")),
            st.sampled_from(_BASES),
        ),
        min_size=1,
        max_size=6,
    ),
    st.sampled_from((5, 20, 100)),
    st.sampled_from((10, 30, 50, 70)),
)
def test_one_more_source_never_makes_an_answer_better(
    made: list[tuple[tuple[int, int], int, Rating, str, Basis]], conc: int, temp: int
) -> None:
    table = tuple(
        _row(*band, heat, rating, source, basis) for band, heat, rating, source, basis in made
    )
    heat = Range(D(-273), D(temp))
    whole = lookup(table, Range.of(D(conc)), heat)
    for source in ("one", "two", "three"):
        others = tuple(row for row in table if row.source_id != source)
        less = lookup(others, Range.of(D(conc)), heat)
        if less.rating is None or less.gaps:
            continue
        assert whole.rating is not None
        assert whole.rating.rank >= less.rating.rank, source
    assert all(row.rating.rank < max(r.rating.rank for r in whole.rows) for row in whole.disputed)


def _turning(*, cold: int, hot: int, rating: Rating = Rating.UNSUITABLE) -> list[ResistanceRow]:
    """A source that prints a pair good up to `cold` and bad above `hot`."""
    bad = replace(_row(0, 100, None, rating), temp_min_c=D(hot))
    return [_row(0, 100, cold, Rating.SUITABLE), bad]


def _asked(found: list[ResistanceRow], heat: int, **more: Any) -> tuple[Rating | None, bool]:
    answer = lookup(found, Range.of(D(50)), Range(D(-273), D(heat)), **more)
    return answer.rating, answer.complete


@pytest.mark.parametrize(
    ("heat", "expected"),
    [
        (20, (Rating.SUITABLE, True)),
        (40, (Rating.SUITABLE, True)),
        (41, (Rating.SUITABLE, False)),
        (90, (Rating.SUITABLE, False)),
        (91, (Rating.UNSUITABLE, False)),
        (150, (Rating.UNSUITABLE, False)),
    ],
)
def test_between_what_holds_and_what_fails_nothing_is_known(
    heat: int, expected: tuple[Rating, bool]
) -> None:
    """Own reasoning: printed good at 40 °C and bad at 100 °C, it turns somewhere between."""
    assert _asked(_turning(cold=40, hot=90), heat) == expected


def test_no_other_row_passes_between_what_holds_and_what_fails() -> None:
    """Own reasoning: another source may be worse there, and is none that makes it better."""
    memory = _row(0, 100, 80, Rating.SUITABLE, "memory", Basis.MEMORY)
    rows_ = [*_turning(cold=40, hot=90), memory]
    assert _asked(rows_, 60) == (Rating.SUITABLE, False)
    assert MissingData.BETWEEN in lookup(rows_, Range.of(D(50)), Range.of(D(60))).gaps
    worse = _row(0, 100, 80, Rating.UNSUITABLE, "other", Basis.MEMORY)
    assert _asked([*rows_, worse], 60)[0] is Rating.UNSUITABLE
    limited = [*_turning(cold=40, hot=90, rating=Rating.LIMITED), memory]
    assert _asked(limited, 60) == (Rating.SUITABLE, True)
    room = [*_turning(cold=20, hot=90), memory]
    assert _asked(room, 30) == (Rating.SUITABLE, True)  # room temperature is all that was printed
    assert _asked(room, 60) == (Rating.SUITABLE, False)


def test_an_own_row_between_the_two_needs_an_approval() -> None:
    row = _row(0, 100, 80, Rating.SUITABLE, "own", Basis.SEEN)
    waiting = OwnResistance(row, approved=False, where="own.csv:2")
    granted = OwnResistance(row, approved=True, where="own.csv:2")
    assert not _asked(_turning(cold=40, hot=90), 60, own=[waiting])[1]
    assert _asked(_turning(cold=40, hot=90), 60, own=[granted]) == (Rating.SUITABLE, True)


_PAIRS = sorted({(row.material, row.chemical) for row in rows("resistance", ResistanceRow)})


@given(pair=st.sampled_from(_PAIRS), strength=st.integers(0, 100), data=st.data())
@settings(max_examples=1500, deadline=None)
def test_hotter_never_makes_a_pass(
    pair: tuple[str, str], strength: int, data: st.DataObject
) -> None:
    """Own reasoning: what fails or is not known is no better hotter, and a flag stays one."""
    edges = {
        edge + step
        for row in T.resistance(*pair)
        for edge in (row.temp_min_c, row.temp_max_c)
        if edge is not None
        for step in (-1, 0, 1)
    }
    heat = st.sampled_from(sorted(edges | {D(20), D(45), D(60), D(95)}))
    cold, hot = sorted((data.draw(heat), data.draw(heat)))
    less, more = (
        T.resistance_at(*pair, Range.of(D(strength)), Range(D(-273), end)) for end in (cold, hot)
    )
    passes = [each.rating is Rating.SUITABLE and each.complete for each in (less, more)]
    assert passes[0] or not passes[1], (pair, strength, cold, hot)
    if less.rating is Rating.UNSUITABLE:
        assert more.rating is Rating.UNSUITABLE, (pair, strength, cold, hot)


@pytest.mark.parametrize(
    ("material", "chemical", "strength", "good", "between", "bad"),
    [
        # a stainless maker's tables: cells of `printed_metals.csv`
        ("304", "citric-acid", 50, 40, 60, 100),
        ("304L", "citric-acid", 50, 40, 89, 100),
        ("316L", "oxalic-acid", 2, 40, 85, 100),
        ("Ti-gr2", "sulfamic-acid", 5, 50, 60, 75),
        ("304", "lactic-acid", 40, 70, 85, 100),
    ],
)
def test_printed_points_that_turn(  # noqa: PLR0917 - one for each point
    material: str, chemical: str, strength: int, good: int, between: int, bad: int
) -> None:
    def at(heat: int) -> Rating | None:
        found = T.resistance_at(material, chemical, Range.of(D(strength)), Range(D(-273), D(heat)))
        return found.rating if found.complete or found.rating is Rating.UNSUITABLE else None

    assert at(good) is not Rating.UNSUITABLE
    assert at(between) in {None, Rating.LIMITED}
    assert at(bad) is Rating.UNSUITABLE
