"""Gases and vapours against the two published lists that the `chemicals` library carries.

Sources: IS/IEC 60079-20-1:2010 and NFPA 497:2008, as files of that library, read here by CAS
number without regard to how our table was made.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import chemicals
import pytest

from areafit.tables import Cited, Tables
from areafit.tables.substances import Substance

T = Tables.shipped()
SUBSTANCES = [T.substances(name)[0] for name in T.ids("substances")]
FILES = {"iec": "IS IEC 60079-20-1 2010.tsv", "nfpa": "NFPA 497 2008.tsv"}
COLUMNS = {"autoignition": "T_autoignition", "flash_point": "T_flash"}
WITHIN = Decimal(1)  # the lists print whole degrees
AGREE = Decimal("0.90")


def _published(system: str) -> dict[str, dict[str, str]]:
    path = Path(chemicals.__file__).parent / "Safety" / FILES[system]
    with path.open(encoding="utf-8", newline="") as file:
        return {row["CAS"]: row for row in csv.DictReader(file, delimiter="\t")}


PUBLISHED = {system: _published(system) for system in FILES}


def _celsius(system: str, cas: str, prop: str) -> Decimal | None:
    cell = PUBLISHED[system].get(cas, {}).get(COLUMNS[prop], "")
    return Decimal(cell) - Decimal("273.15") if cell else None


def _ours(row: Substance, prop: str) -> tuple[Cited[Decimal], ...]:
    return row.autoignition if prop == "autoignition" else row.flash_point


@pytest.mark.parametrize("prop", COLUMNS)
def test_nine_in_ten_agree_with_one_of_the_lists_and_the_others_are_explained(
    prop: str, checked: Counter[tuple[str, str]]
) -> None:
    agree = total = 0
    for row in SUBSTANCES:
        published = {system: _celsius(system, row.cas, prop) for system in FILES}
        if not any(published.values()):
            continue
        total += 1
        ours = _ours(row, prop)
        matching = [
            system
            for system, value in published.items()
            if value is not None and any(abs(cited.value - value) <= WITHIN for cited in ours)
        ]
        for system in matching:
            checked["substance_values", f"{prop}, {FILES[system]}"] += 1
        agree += bool(matching)
        unmatched = [s for s, value in published.items() if value is not None and s not in matching]
        for system in unmatched:
            # What a list prints and our table does not carry is explained in the row.
            notes = " ".join(cited.note for cited in ours)
            assert "by name" in notes or "not used" in notes, (row.id, prop, system)
    checked["substance_values", f"{prop}: agree with a list, of {total} with a figure"] = agree
    assert total > 200
    assert agree / Decimal(total) >= AGREE


@pytest.mark.parametrize("prop", COLUMNS)
def test_the_governing_value_is_the_lower_and_a_difference_is_said(prop: str) -> None:
    for row in SUBSTANCES:
        ours = _ours(row, prop)
        governing = (
            row.lowest_autoignition() if prop == "autoignition" else row.lowest_flash_point()
        )
        if ours:
            assert governing is not None
            assert governing.value == min(cited.value for cited in ours)
        if len({cited.value for cited in ours}) > 1:
            for cited in ours:
                assert "the lists differ" in cited.note, row.id


@pytest.mark.parametrize(
    ("name", "iec", "nfpa"),
    [
        # library file of NFPA 497:2008, whose CAS numbers do not belong to these names
        ("methyl isobutyl ketone", 475, 440),
        ("mesityl oxide", 306, 344),
        ("epichlorohydrin", 385, 411),
        ("1,1-dichloroethane", 439, 438),
        ("2-ethylhexyl acrylate", 252, 252),
        ("1,2-dichloroethylene", 440, 460),
    ],
)
def test_rows_whose_cas_number_is_wrong_in_the_library_are_matched_by_name(
    name: str, iec: int, nfpa: int
) -> None:
    row = T.substance(name)
    assert row is not None
    assert {cited.system: cited.value for cited in row.autoignition} == {"iec": iec, "nfpa": nfpa}
    assert any("by name" in cited.note for cited in row.autoignition)


@pytest.mark.parametrize(
    ("name", "prop", "absent"),
    [
        ("allyl glycidyl ether", "autoignition", 57),
        ("pentanal", "flash_point", 280),
        ("1,2-dichloroethylene", "flash_point", 97),
        ("isobutanol", "flash_point", -40),
        ("kerosene", "flash_point", 72),
    ],
)
def test_column_slips_of_the_library_are_left_out_and_said(
    name: str, prop: str, absent: int
) -> None:
    row = T.substance(name)
    assert row is not None
    assert absent not in [cited.value for cited in _ours(row, prop)]
    assert any("not used" in cited.note for cited in _ours(row, prop))


def test_lower_limits_that_the_library_cannot_mean_are_left_out() -> None:
    octanol, amyl = T.substance("1-octanol"), T.substance("sec-amyl acetate")
    assert octanol is None or all(limit.value > 0 for limit in octanol.lower_limit)
    assert amyl is not None
    assert all(limit.value < 7 for limit in amyl.lower_limit)


def test_limits_of_flammability_agree_with_one_of_the_lists(
    checked: Counter[tuple[str, str]],
) -> None:
    for prop, column in (("lower_limit", "LFL"), ("upper_limit", "UFL")):
        agree = total = 0
        for row in SUBSTANCES:
            ours = row.lower_limit if prop == "lower_limit" else row.upper_limit
            cells = [PUBLISHED[system].get(row.cas, {}).get(column, "") for system in FILES]
            published = [Decimal(cell) * 100 for cell in cells if cell]
            if published:
                total += 1
                matches = any(
                    abs(cited.value - value) <= Decimal("0.05")
                    for cited in ours
                    for value in published
                )
                agree += matches
                checked["substance_values", f"{prop}, either list"] += matches
        assert agree / Decimal(total) >= AGREE
