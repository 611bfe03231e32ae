"""A company's own rows: the stricter governs, the laxer needs an approval, faults are named."""

import ast
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import areafit
from areafit.facts.quantity import Range
from areafit.tables import LaxerValue, TableError, Tables
from areafit.tables.catalogue import CATALOGUE, Merge
from areafit.tables.load import columns
from areafit.tables.resistance import Rating

SOURCES = b"id,title,edition,publisher,kind,read_on,note\nlab,Works laboratory TR-7,,,practice,,\n"
D = Decimal


def _file(table: str, *rows: dict[str, str], approved: bool = False) -> bytes:
    header = list(columns(CATALOGUE[table].row_type))
    given = {"source_id": "lab", "locator": "TR-7 p. 3", "basis": "seen"}
    if approved:
        header += ["approved_by", "approved_on"]
        given |= {"approved_by": "materials engineer", "approved_on": "2026-03-31"}
    lines = [",".join(header)]
    lines += [",".join({**given, **row}.get(name, "") for name in header) for row in rows]
    return ("\n".join(lines) + "\n").encode()


def _overlay(table: str, *rows: dict[str, str], approved: bool = False) -> Tables:
    name = f"{table}.csv"
    return Tables.overlaid({"sources.csv": SOURCES, name: _file(table, *rows, approved=approved)})


def _waiting(tables: Tables, key: str) -> list[LaxerValue]:
    return [entry for entry in tables.laxer if entry.key == key and not entry.approved]


ETHANOL = {"substance": "ethanol", "property": "autoignition_c"}
FLASH = {"substance": "ethanol", "property": "flash_point_c"}
GROUP = {"substance": "ethanol", "property": "group", "system": "iec"}


def test_a_stricter_value_governs() -> None:
    tables = _overlay("substance_values", {**ETHANOL, "value": "350"})
    row = tables.substance("ethanol")
    assert row is not None
    lowest = row.lowest_autoignition()
    assert lowest is not None
    assert (lowest.value, lowest.source_id) == (D(350), "lab")
    assert _waiting(tables, "ethanol") == []
    assert tables.source("lab").title == "Works laboratory TR-7"


def test_a_laxer_value_waits() -> None:
    tables = _overlay("substance_values", {**ETHANOL, "value": "425"})
    row = tables.substance("ethanol")
    assert row is not None
    assert row == Tables.shipped().substance("ethanol")
    (pending,) = _waiting(tables, "ethanol")
    assert (pending.column, pending.value, pending.shipped) == ("autoignition_c", "425", "400")
    assert pending.where == "substance_values.csv:2"


def test_an_approved_laxer_value_governs() -> None:
    tables = _overlay("substance_values", {**FLASH, "value": "40"}, approved=True)
    row = tables.substance("ethanol")
    assert row is not None
    assert [cited.value for cited in row.flash_point] == [D(40)]
    (told,) = tables.laxer
    assert told.approved == "materials engineer, 2026-03-31"
    assert told.governs
    assert told.reason.endswith("; it is approved by materials engineer, 2026-03-31")


def test_an_approved_laxer_group_or_autoignition_is_told_and_decides_nothing() -> None:
    """ISO/IEC 80079-20-1:2017: they belong to the substance (from memory)."""
    for row in ({**ETHANOL, "value": "425"}, {**GROUP, "value": "IIA"}):
        tables = _overlay("substance_values", row, approved=True)
        assert tables.substance("ethanol") == Tables.shipped().substance("ethanol")
        (told,) = tables.laxer
        assert told.approved
        assert not told.governs
        assert told.reason.endswith("; the shipped one decides all the same")


def test_a_milder_group_waits_and_a_stricter_one_governs() -> None:
    milder = _overlay("substance_values", {**GROUP, "value": "IIA"})
    stricter = _overlay("substance_values", {**GROUP, "value": "IIC"})
    for tables, expected, waiting in ((milder, "IIB", 1), (stricter, "IIC", 0)):
        row = tables.substance("ethanol")
        assert row is not None
        assert row.group_iec is not None
        assert row.group_iec.value == expected
        assert len(_waiting(tables, "ethanol")) == waiting


def test_a_new_substance_with_its_values() -> None:
    identity = {
        "id": "blend-4",
        "name": "Blend 4",
        "names": "filling blend|B4",
        "cautions": "composition varies",
    }
    value = {"substance": "blend-4", "property": "autoignition_c", "value": "285"}
    tables = Tables.overlaid(
        {
            "own/sources.csv": SOURCES,
            "own/substances.csv": _file("substances", identity),
            "own/substance_values.csv": _file("substance_values", value),
        }
    )
    row = tables.substance("filling blend")
    assert row is not None
    assert [cited.value for cited in row.autoignition] == [D(285)]
    assert Tables.shipped().substance("filling blend") is None


def test_material_columns_are_compared_one_by_one() -> None:
    tables = _overlay("materials", {"id": "PVDF", "tmax_c": "100", "tmin_c": "-60"})
    row = tables.material("PVDF")
    assert row is not None
    assert (row.tmax_c, row.tmin_c) == (D(100), D(-30))
    (pending,) = _waiting(tables, "PVDF")
    assert pending.column == "tmin_c"
    assert row.source_id == "lab"


def test_a_column_without_a_direction_needs_an_approval() -> None:
    waiting = _overlay("materials", {"id": "PVDF", "behaves_as": "PTFE"})
    assert waiting.material("PVDF") == Tables.shipped().material("PVDF")
    assert len(_waiting(waiting, "PVDF")) == 1
    approved = _overlay("materials", {"id": "PVDF", "behaves_as": "PTFE"}, approved=True)
    row = approved.material("PVDF")
    assert row is not None
    assert row.behaves_as == "PTFE"


def test_names_are_added_and_cannot_be_taken_from_another_row() -> None:
    tables = _overlay("materials", {"id": "PVDF", "names": "house grade 7"})
    row = tables.material("house grade 7")
    assert row is not None
    assert row.id == "PVDF"
    with pytest.raises(TableError, match=r"materials\.csv:2: names: '304' already names 304"):
        _overlay("materials", {"id": "C276", "names": "304"})


PAIR = {
    "material": "304",
    "chemical": "hydrochloric-acid",
    "conc_min_pct": "0",
    "conc_max_pct": "5",
    "temp_max_c": "30",
    "mechanism": "none",
}


def test_resistance_is_compared_where_it_applies() -> None:
    at = Range.of(D(2)), Range.of(D(25))
    lax = _overlay("resistance", {**PAIR, "rating": "suitable"})
    found = lax.resistance_at("304", "hydrochloric-acid", *at)
    assert found.rating is Rating.UNSUITABLE
    assert found.pending[0].where == "resistance.csv:2"
    approved = _overlay("resistance", {**PAIR, "rating": "suitable"}, approved=True)
    assert approved.resistance_at("304", "hydrochloric-acid", *at).rating is Rating.SUITABLE
    shipped = Tables.shipped().resistance("304", "hydrochloric-acid")
    assert lax.resistance("304", "hydrochloric-acid")[:-1] == shipped


PITTING = {"chloride_mg_l": "200", "fails_mg_l": "1000", "temp_max_c": "40", "salt_air": "stains"}


@pytest.mark.parametrize(
    ("table", "row", "waits"),
    [
        # a class between two of ours takes what the lower one withstands, and no more
        ("pitting_limits", {"pren_min": "20", **PITTING, "chloride_mg_l": "900"}, True),
        ("pitting_limits", {"pren_min": "20", **PITTING, "temp_max_c": "80"}, True),
        ("pitting_limits", {"pren_min": "10", **PITTING}, True),
        ("pitting_limits", {"pren_min": "20", **PITTING, "chloride_mg_l": "150"}, False),
        ("chloride_content", {"chemical": "acetone", "mg_l": "0"}, True),
        (
            "plating_windows",
            {"family": "lead", "surface": "lead", "ph_min": "0", "ph_max": "14"},
            True,
        ),
    ],
)
def test_a_row_with_a_key_of_its_own_needs_an_approval_where_it_relaxes(
    table: str,
    row: dict[str, str],
    waits: bool,  # noqa: FBT001 - a column of cases
) -> None:
    """As of other milder rows: common practice, no published source."""
    ours = len(Tables.shipped().rows(table, CATALOGUE[table].row_type))
    more = {"chloride_rusts": "no"} if table == "plating_windows" else {}
    tables = _overlay(table, {**row, **more})
    found = tables.rows(table, CATALOGUE[table].row_type)
    assert (len(found), [entry.approved for entry in tables.laxer]) == (
        (ours, [""]) if waits else (ours + 1, [])
    )
    approved = _overlay(table, {**row, **more}, approved=True)
    assert len(approved.rows(table, CATALOGUE[table].row_type)) == ours + 1
    assert len(approved.laxer) == int(waits)


def test_a_dust_value_of_ones_own() -> None:
    value = {"dust": "wheat-flour", "property": "cloud_ignition_c", "value": "350"}
    row = _overlay("dust_values", value).dust("wheat flour")
    assert row is not None
    cloud = row.lowest_cloud()
    assert cloud is not None
    assert cloud.value == D(350)


@pytest.mark.parametrize(
    ("name", "data", "message"),
    [
        ("valves.csv", b"id\n", r"valves\.csv:1: no table has this name\."),
        ("temperature_classes.csv", b"name\n", r":1: this table is set by a standard\."),
        ("materials.csv", b"id,colour\n", r":1: the columns differ; missing: name, "),
        ("materials.csv", b"\xff\xfe", r"materials\.csv:1: this is not UTF-8 text\."),
        (
            "substance_values.csv",
            _file("substance_values", {**ETHANOL, "value": "1", "source_id": ""}),
            r":2: the row has no source\.",
        ),
        (
            "substance_values.csv",
            _file("substance_values", {**ETHANOL, "value": "1", "source_id": "hearsay"}),
            r":2: source_id: the source 'hearsay' is not registered\.",
        ),
        (
            "substance_values.csv",
            _file("substance_values", {**ETHANOL, "value": "1", "basis": "sure"}),
            r":2: basis: 'sure' must be one of: seen, reported, memory, judgement\.",
        ),
        (
            "substance_values.csv",
            _file("substance_values", {**ETHANOL, "value": "350 °C"}),
            r":2: value: '350 °C' is not a number",
        ),
        (
            "resistance.csv",
            _file("resistance", {**PAIR, "rating": "suitable", "conc_max_pct": "5 %"}),
            r":2: conc_max_pct: '5 %' is not a number",
        ),
        (
            "resistance.csv",
            _file("resistance", {**PAIR, "rating": "suitable", "material": "304X"}),
            r":2: material: no row has the id '304X'\. Known ids near it: 304",
        ),
        (
            "resistance.csv",
            _file("resistance", {**PAIR, "rating": "suitable", "conc_min_pct": "9"}),
            r":2: conc_min_pct: 9 is not below conc_max_pct 5, ",
        ),
        (
            "materials.csv",
            _file("materials", {"id": "PVDF", "behaves_as": "PTFF"}),
            r":2: behaves_as: no row has the id 'PTFF'\. Known ids near it: ",
        ),
        (
            "shared_names.csv",
            _file("shared_names", {"table": "materials", "name": "x", "members": "304|305"}),
            r":2: members: no row has the id '305'\.",
        ),
        (
            "resistance.csv",
            _file("resistance", {**PAIR, "rating": "suitable", "chemical": "qqqqqq"}),
            r":2: chemical: no row has the id 'qqqqqq'\. `areafit table chemicals` lists the ids\.",
        ),
        (
            "shared_names.csv",
            _file("shared_names", {"table": "metals", "name": "x", "members": "304"}),
            r":2: table: there is no table 'metals'\.",
        ),
        (
            "materials.csv",
            _file("materials", {"id": "PVDF", "tmax_c": "warm"}),
            r":2: tmax_c: 'warm' is not a number",
        ),
    ],
)
def test_faults_are_named_with_file_and_line(name: str, data: bytes, message: str) -> None:
    with pytest.raises(TableError, match=message):
        Tables.overlaid({"sources.csv": SOURCES, name: data})


def test_an_approval_needs_role_and_date() -> None:
    data = _file("substance_values", {**ETHANOL, "value": "425"}, approved=True)
    for wrong, message in ((b",2026-03-31", b","), (b"2026-03-31", b"last spring")):
        with pytest.raises(TableError, match="approved_"):
            Tables.overlaid(
                {"sources.csv": SOURCES, "substance_values.csv": data.replace(wrong, message)}
            )


@pytest.mark.parametrize("nobody", [b"tbd", b"to be confirmed", b"-"])
def test_a_placeholder_approves_nothing(nobody: bytes) -> None:
    """As of waivers: common practice, no published source."""
    data = _file("substance_values", {**ETHANOL, "value": "425"}, approved=True)
    files = {"sources.csv": SOURCES, "substance_values.csv": data}
    files["substance_values.csv"] = data.replace(b"materials engineer", nobody)
    with pytest.raises(TableError, match="names nobody"):
        Tables.overlaid(files)


def test_an_approval_to_come_is_none() -> None:
    """As of waivers: common practice, no published source."""
    data = _file("substance_values", {**FLASH, "value": "40"}, approved=True)
    files = {"sources.csv": SOURCES, "substance_values.csv": data}
    for day, waits in ((date(2026, 3, 30), True), (date(2026, 3, 31), False)):
        tables = Tables.overlaid(files, day)
        row = tables.substance("ethanol")
        assert row is not None
        lowest = row.lowest_flash_point()
        assert lowest is not None
        assert (lowest.value != D(40)) is waits
        assert bool(_waiting(tables, "ethanol")) is waits


def test_every_fault_of_every_file_is_reported_at_once() -> None:
    with pytest.raises(TableError) as error:
        Tables.overlaid(
            {
                "valves.csv": b"id\n",
                "resistance.csv": _file("resistance", PAIR, {**PAIR, "temp_max_c": "x"}),
            }
        )
    assert [(problem.file, problem.line) for problem in error.value.problems] == [
        ("resistance.csv", 2),
        ("resistance.csv", 3),
        ("resistance.csv", 3),
        ("valves.csv", 1),
    ]


def test_overlays_are_named_and_change_the_digest() -> None:
    shipped, own = Tables.shipped(), _overlay("substance_values", {**ETHANOL, "value": "350"})
    assert shipped.overlays == ()
    assert own.overlays == ("sources.csv", "substance_values.csv")
    assert len({shipped.digest, own.digest, Tables.overlaid({}).digest}) == 2
    assert Tables.overlaid({}).digest == shipped.digest


def test_an_overlay_leaves_the_shipped_tables_alone() -> None:
    before = Tables.shipped().material("PVDF")
    _overlay("materials", {"id": "PVDF", "tmax_c": "100"}).material("PVDF")
    assert Tables().material("PVDF") == before


PLACE = """areafit: 1
assembly: {{number: T-1}}
code: IEC
locations:
  here: {{area: 'Zone 1, IIB, T3', substances: [ethanol], chemicals: ['{}'], ambient: 5..40 °C}}
parts:
  - {{item: '1', kind: structural, location: here}}
"""


@pytest.mark.parametrize("name", ["nitryl chloride", "Nitryl-Chloride gas", "sulfur dioxide"])
def test_an_oxidising_gas_of_ones_own_counts(name: str) -> None:
    # IEC 60079-0:2017 1: air only. The last is a shipped chemical that is none by our own row.
    bom = areafit.read(PLACE.format(name).encode(), "list.yaml")
    options = areafit.Options(as_of=date(2026, 1, 1), only=frozenset({"standard-atmosphere"}))
    own = _overlay("oxidising_gases", {"name": "Nitryl chloride"}, {"name": "sulfur dioxide"})
    verdicts = [
        areafit.judge(bom, tables, options).places[0].verdict.value
        for tables in (Tables.shipped(), own)
    ]
    assert verdicts == ["pass", "unproven"]


def test_no_rule_reads_a_table_past_a_companys_own_rows() -> None:
    """Only what a standard fixes may be read from the package; a plate knows no company's tables.

    `decode` takes no tables, and a gas on a plate that is in none of ours is unread, not passed.
    Neither does `read`: a note holds less where ours know a description, and what a company's own
    rows know beside them is asked of the part that claims to list all.
    """
    past = {
        (path.parent.name, call.args[0].value)
        for path in Path(areafit.__path__[0]).rglob("*.py")
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call)
        and isinstance(call.func, ast.Name)
        and call.func.id == "rows"
        and call.args
        and isinstance(call.args[0], ast.Constant)
    }
    assert ("tables", "acceptance") in past
    assert {
        (folder, name)
        for folder, name in past
        if isinstance(name, str) and CATALOGUE[name].merge is not Merge.FIXED
    } == {("marking", "substances"), ("file", "hidden_items")}


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(Tables.shipped().ids("substances")), st.integers(60, 700))
def test_without_an_approval_no_value_gets_milder(identity: str, value: int) -> None:
    row = {"substance": identity, "property": "autoignition_c", "value": str(value)}
    tables = _overlay("substance_values", row)
    ours, theirs = Tables.shipped().substance(identity), tables.substance(identity)
    assert ours is not None
    assert theirs is not None
    before, after = ours.lowest_autoignition(), theirs.lowest_autoignition()
    assert after is not None or _waiting(tables, identity)
    if before is not None:
        assert after is not None
        assert after.value == min(before.value, D(value))


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(["304", "PVDF", "EPDM", "carbon-steel"]),
    st.sampled_from(["hydrochloric-acid", "sodium-hydroxide", "acetone"]),
    st.sampled_from(["suitable", "limited", "unsuitable"]),
    st.integers(1, 100),
    st.integers(0, 150),
)
def test_without_an_approval_no_pair_gets_better(
    material: str, chemical: str, rating: str, conc: int, temp: int
) -> None:
    pair = {"material": material, "chemical": chemical, "rating": rating, "mechanism": "none"}
    band = {"conc_min_pct": "0", "conc_max_pct": "100", "temp_max_c": "80"}
    at = Range.of(D(conc)), Range.of(D(temp))
    before = Tables.shipped().resistance_at(material, chemical, *at)
    after = _overlay("resistance", {**pair, **band}).resistance_at(material, chemical, *at)
    if before.rating is not None:
        assert after.rating is not None
        assert after.rating.rank >= before.rating.rank
