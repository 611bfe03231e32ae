"""`areafit table sources`: of each source, how many rows rest on it. Common practice, no source."""

import csv
import io
import json
from collections import Counter
from collections.abc import Callable

from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE

Call = Callable[..., str]


def test_the_rows_of_each_source_are_those_of_the_tables(call: Call) -> None:
    said = json.loads(call("table", "sources", "--format", "json"))
    told = {row["id"]: row["rows"] for row in said}
    rows: Counter[tuple[str, str, str]] = Counter()
    for name in CATALOGUE:
        for row in csv.DictReader(io.StringIO(load.shipped(name).decode())):
            if "source_id" in row:
                rows[row["source_id"], name, row["basis"]] += 1
            if row.get("anodic_source_id"):
                rows[row["anodic_source_id"], name, row["anodic_basis"]] += 1
    assert {
        (source, table, basis): count
        for source, tables in told.items()
        for table, bases in tables.items()
        for basis, count in bases.items()
    } == dict(rows)
    assert all(told.values()), "a source that no row names"


def test_the_text_says_them_in_a_line(call: Call) -> None:
    said = " ".join(call("table", "sources").split())
    assert "id dir-1999-92-ec title" in said
    assert "rows 12: acceptance (12 seen)" in said


def test_other_tables_have_no_such_count(call: Call) -> None:
    purges = json.loads(call("table", "purges", "--format", "json"))
    assert all("rows" not in row for row in purges)
    exported = call("table", "sources", "--format", "csv")
    assert exported == load.shipped("sources").decode()
