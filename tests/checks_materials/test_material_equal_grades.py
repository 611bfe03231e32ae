"""Grades that are known to resist as another one are judged by its rows, and that is no guess.

From memory of the grades: what sets each apart has no part in the attack.
"""

from typing import Any

import pytest

from areafit.tables import Tables
from areafit.tables.resistance import EqualGrade, Rating, ResistanceRow
from areafit.verdict import Basis, Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
TABLES = Tables.shipped()
EQUAL = TABLES.rows("equal_grades", EqualGrade)


@pytest.mark.parametrize(
    ("material", "chemical", "expected"),
    [
        ("EPDM, peroxide-cured", ("sodium hydroxide", "1 %", "70 °C"), PASS),
        ("EPDM, peroxide-cured", ("toluene", None, "20 °C"), FLAG),
        ("321", ("tartaric acid", "10 %", "20 °C"), PASS),
        ("titanium grade 7", ("wet chlorine", None, "25 °C"), PASS),
        ("titanium grade 7", ("hydrofluoric acid", "1 %", "20 °C"), FLAG),
        ("brass", ("mineral oil", None, "70 °C"), PASS),
        ("brass", ("ammonia solution", "10 %", "20 °C"), FLAG),
        # EN 10088-1, from memory: 1.4435 has no less of anything than 1.4404, and more molybdenum
        ("1.4435", ("sodium hydroxide", "1 %", "80 °C"), PASS),
        ("1.4435", ("hydrochloric acid", "5 %", "25 °C"), FLAG),
        # makers of titanium, from memory: the alloy is worse in reducing acids and peroxide alone
        ("titanium", ("ferric chloride", "40 %", "45 °C"), PASS),
        ("titanium", ("hydrochloric acid", "20 %", "60 °C"), FLAG),
        ("titanium", ("hydrogen peroxide", "30 %", "25 °C"), UNPROVEN),
        ("UHMWPE", ("toluene", None, "25 °C"), FLAG),
        ("impregnated graphite", ("hydrochloric acid", "10 %", "30 °C"), PASS),
        ("impregnated graphite", ("sodium hydroxide", "50 %", "60 °C"), UNPROVEN),  # its resin
        ("graphite", ("sodium hydroxide", "50 %", "60 °C"), PASS),
    ],
)
def test_a_grade_is_judged_by_the_rows_of_its_like(
    resist: Any, material: str, chemical: tuple[str, str | None, str], expected: Verdict
) -> None:
    assert resist(material, *chemical).verdict is expected


def test_the_row_that_makes_them_alike_is_cited(resist: Any) -> None:
    answer = resist("EPDM, peroxide-cured", "sodium hydroxide", "1 %", "70 °C")
    assert {"resistance", "equal_grades"} <= {row.table for row in answer.decisive.rows}


def test_titanium_in_a_steel_is_no_help_in_nitric_acid(resist: Any) -> None:
    # nitric acid may eat titanium carbide along the weld: from memory
    answer = resist("321", "nitric acid", "20 %", "25 °C")
    assert all(row.table != "equal_grades" for one in answer.judgements for row in one.rows)


def test_a_grade_is_never_equal_by_steps_nor_to_a_worse_one() -> None:
    alike = {row.material: row.alike for row in EQUAL}
    assert not set(alike) & set(alike.values())
    for row in EQUAL:
        assert row.basis is not Basis.JUDGEMENT
        kinds = {TABLES.materials(one)[0].family for one in (row.material, row.alike)}
        assert len(kinds) == 1, row


def test_no_row_of_its_own_refuses_what_its_like_is_good_for() -> None:
    """Where both have a row of the same band; a difference would say that they are not alike."""
    mine = {
        (r.material, r.chemical, r.conc_min_pct, r.conc_max_pct, r.temp_max_c): r.rating
        for r in TABLES.rows("resistance", ResistanceRow)
        if r.temp_min_c is None
    }
    alike = {row.material: row for row in EQUAL}
    worse = [
        key
        for key, rating in mine.items()
        if key[0] in alike
        and key[1] not in alike[key[0]].excepted
        and rating is Rating.UNSUITABLE
        and mine.get((alike[key[0]].alike, *key[1:])) is Rating.SUITABLE
    ]
    assert worse == []
