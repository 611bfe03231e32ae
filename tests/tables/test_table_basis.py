"""How far rows were checked, and what becomes of sources that contradict each other.

What is expected is common practice of citing (no source) but where a line names one.
"""

import re
import runpy
from decimal import Decimal
from pathlib import Path

import pytest

from areafit.tables import Tables, load
from areafit.tables.catalogue import CATALOGUE
from areafit.tables.limits import figure
from areafit.tables.sources import Source, Sourced, SourceKind
from areafit.tables.substances import Property, SubstanceValue
from areafit.verdict import Basis

T = Tables.shipped()
SOURCES = {source.id: source for source in load.rows("sources", Source)}
SECOND = {SourceKind.WEB_PAGE, SourceKind.SECOND_HAND, SourceKind.HANDBOOK, SourceKind.SUPPLIER}
"""Kinds that print what another document says, or an opinion of it."""
ORIGINAL = {"resistance"}
"""Tables of measured attack, of which a maker's chart is the original."""
NOT_THE_THING = (
    "as carried by",
    "recalled",
    "reprint",
    "transcription",
    "older list",
    "superseded",
    "public",
)
COMPUTED = "computed"


def _seen() -> list[tuple[str, Sourced]]:
    return [
        (spec.name, row)
        for spec in CATALOGUE.values()
        if issubclass(spec.row_type, Sourced)
        for row in load.rows(spec.name, spec.row_type)
        if row.basis is Basis.SEEN
    ]


def test_no_row_is_seen_that_was_read_in_a_secondary_source() -> None:
    wrong = {
        (table, row.source_id)
        for table, row in _seen()
        if table not in ORIGINAL and SOURCES[row.source_id].kind in SECOND
    }
    assert not wrong, "These are `reported`: read where somebody prints what the source says."


def test_no_row_is_seen_whose_source_is_a_reprint_an_older_list_or_recalled() -> None:
    wrong = {
        (table, row.source_id)
        for table, row in _seen()
        if table not in ORIGINAL
        and (
            "as carried by" in SOURCES[row.source_id].title
            or any(word in SOURCES[row.source_id].note for word in NOT_THE_THING)
        )
        and row.source_id != "computed"
    }
    assert not wrong


def test_judgement_is_never_called_reading() -> None:
    assert {
        row.source_id
        for _, row in _seen()
        if SOURCES[row.source_id].kind in (SourceKind.JUDGEMENT, SourceKind.PRACTICE)
    } == {COMPUTED}  # arithmetic on rows that were read


@pytest.mark.parametrize(
    ("name", "prop", "governs", "beside"),
    [
        # a supplier's list with MESG limits has C; the web list of NEC groups and a note of 2003 D
        ("cyclopropane", "group_nec", "C", "D"),
        # PUE 7.3.3 of 1980 has IIB; IIA is recalled of IEC 60079-20-1
        ("diesel fuel", "group_iec", "IIB", "IIA"),
    ],
)
def test_of_groups_that_contradict_the_more_onerous_governs_and_both_are_there(
    name: str, prop: str, governs: str, beside: str
) -> None:
    row = T.substance(name)
    assert row is not None
    assert getattr(row, prop).value == governs
    assert [line.value for line in row.groups_disputed] == [beside]
    assert all("disputed" in line.note for line in (getattr(row, prop), *row.groups_disputed))


@pytest.mark.parametrize(
    ("name", "lowest", "border"),
    [
        # PUE 7.3.3 of 1980 prints the class; IS/IEC 60079-20-1 and NFPA 497 by the library
        ("propylene", 455, 450),
        ("methyl acrylate", 455, 450),
        ("propionic acid", 466, 450),
        ("n-butyraldehyde", 205, 200),
    ],
)
def test_at_the_border_of_a_class_the_lower_value_governs(
    name: str, lowest: int, border: int
) -> None:
    row = T.substance(name)
    assert row is not None
    governing = row.lowest_autoignition()
    assert governing is not None
    assert governing.value == border
    assert min(each.value for each in row.autoignition if each.system) == lowest
    assert lowest <= border * Decimal("1.05")


@pytest.mark.parametrize(
    ("name", "ignites"),
    [
        # IS/IEC 60079-20-1 and NFPA 497 by the library; the list of 1980 has T4, far from these
        ("hydrogen sulfide", 260),
        ("tetrahydrofuran", 230),
    ],
)
def test_far_from_a_border_an_older_class_changes_nothing(name: str, ignites: int) -> None:
    row = T.substance(name)
    assert row is not None
    governing = row.lowest_autoignition()
    assert governing is not None
    assert governing.value == ignites
    assert all("an older list of 1980 has T4" in each.note for each in row.autoignition)


@pytest.mark.parametrize(("name", "flash"), [("furan", -36), ("methanethiol", -53)])
def test_a_flash_point_that_lost_its_below_is_overruled_by_a_printed_one(
    name: str, flash: int
) -> None:
    """ANSI/AARST SGM-SF 2017, reference chart; the library prints -20 and -18 °C without a sign."""
    row = T.substance(name)
    assert row is not None
    governing = row.lowest_flash_point()
    assert governing is not None
    assert governing.value == flash


def test_flash_points_about_minus_18_say_that_a_sign_may_be_lost() -> None:
    silent = {
        line.substance
        for line in load.rows("substance_values", SubstanceValue)
        if line.property is Property.FLASH_POINT
        and Decimal(-20) <= Decimal(line.value) <= Decimal(-17)
        and line.source_id.startswith("chemicals-")
        and "sign lost" not in line.note
        and not any(
            Decimal(other.value) < Decimal(line.value) for other in _flash_points_of(line.substance)
        )
    }
    assert not silent


def _flash_points_of(identity: str) -> list[SubstanceValue]:
    return [
        row
        for row in load.rows("substance_values", SubstanceValue)
        if row.substance == identity and row.property is Property.FLASH_POINT
    ]


def test_no_source_alone_makes_a_group_or_an_ignition_milder() -> None:
    """Of several lines the most onerous governs, whoever printed it: the design."""
    order = ("IIA", "IIB", "IIB+H2", "IIC"), ("D", "C", "B", "A")
    for line in load.rows("substance_values", SubstanceValue):
        row = T.substance(line.substance)
        if row is None:  # a name of several rows
            continue
        if line.property is Property.GROUP:
            governing = row.group_iec if line.system == "iec" else row.group_nec
            assert governing is not None
            scheme = order[line.system == "nec"]
            assert scheme.index(governing.value) >= scheme.index(line.value), line.substance
        if line.property is Property.AUTOIGNITION:
            lowest = row.lowest_autoignition()
            assert lowest is not None
            assert lowest.value <= Decimal(line.value), line.substance


def test_the_day_of_the_transition_is_read_in_the_law_that_transposes_it() -> None:
    """SI 1996/192, regulation 5: excluded until 30 June 2003 what met the law of March 1994."""
    row = figure("last day of use without an equipment category")
    assert (row.value, row.basis) == ("2003-06-30", Basis.REPORTED)


def test_the_readme_tells_the_share_of_each_basis() -> None:
    """Within ten points: tables grow; the script writes it anew."""
    script = runpy.run_path(str(Path(__file__).parent / "readme_basis.py"))
    readme = script["README"].read_text(encoding="utf-8")
    said = readme.partition(script["START"])[2].partition(script["END"])[0]
    for title, tables in script["TABLES"].items():
        line = next(line for line in said.splitlines() if line.startswith(f"| {title} |"))
        shares = [int(share) for share in re.findall(r"(\d+) %", line)]
        now = script["shares"](script["counted"](tables))
        assert all(abs(a - b) <= 10 for a, b in zip(shares, now, strict=True)), (
            f"{title}: run python tests/tables/readme_basis.py"
        )
