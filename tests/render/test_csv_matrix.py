"""The compliance matrix as a spreadsheet reads it."""

import csv
import io
import re
from typing import Any

import pytest

from areafit_cli.render.as_csv import inert
from areafit_cli.safe_text import obeyed


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_every_requirement_judged_has_a_line(made: Any) -> None:
    found = rows(made.rendered("csv", made.run(made.rich), made.rich))
    subjects = made.rich.subjects()
    judged = [one for each in subjects for one in each.findings()]
    told = [row for row in found if row["fingerprint"] and row["subject"] != "waiver"]
    assert [row["rule"] for row in told] == [one.rule.id for one in judged]
    assert [row["verdict"] for row in told] == [one.verdict.value for one in judged]
    assert {row["verdict"] for row in told} >= {"pass", "flag", "unproven", "waived"}
    (gate,) = (row for row in found if row["subject"] == "gate")
    assert (gate["name"], gate["verdict"]) == ("RF-1", "fail")


@pytest.mark.parametrize(
    "cell",
    [
        *("=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1", "\r=1", "＝1", "－2+3", "＋1", "＠x"),
        *("a;=1+1", "a;@x", "-25..70 °C"),
    ],
)
def test_no_cell_starts_a_formula(cell: str) -> None:
    safe = inert(cell)
    for piece in safe.split(";"):
        assert piece[:1] not in set("=+-@\t\r＝＋－＠")


HOSTILE = [
    *('x;"=HYPERLINK(1);', "x; =1+1", "a;;@SUM(A1)", "b;'\"-cmd", "c;+a", "\t=1", "=1", "@x", "-a"),
    *("x;-2+3+cmd|' /C calc'!A0", "x;+1(A1)", "x;-1|y"),
]


@pytest.mark.parametrize("cell", HOSTILE)
@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_no_cell_of_any_delimiter_starts_a_formula(cell: str, delimiter: str) -> None:
    stream = io.StringIO()
    csv.writer(stream).writerow([inert(cell), inert("end")])
    for row in csv.reader(io.StringIO(stream.getvalue()), delimiter=delimiter):
        for each in row:
            said = each.lstrip(" \"'") if not each.startswith("'") else each
            assert not re.match(r"[=@\uff1d\uff20]|[+\-](?!\d[^|!(]*$)", said), each


@pytest.mark.parametrize("cell", ["::error::x", "##vso[task.complete]x", " ::stop-commands::t"])
def test_no_line_of_a_matrix_is_a_command_of_a_build_service(cell: str) -> None:
    """The first cell of a row begins a line of the log that it is printed to."""
    assert not obeyed(inert(cell))
    assert "##[" not in inert("a ##[group]b")


@pytest.mark.parametrize("cell", ["-5", "+3.2", "0.5", "12", "a - b", "a; b", "x=y", ""])
def test_numbers_and_plain_words_stay(cell: str) -> None:
    assert inert(cell) == cell


def test_hostile_cells_come_back_as_text_of_one_line(made: Any) -> None:
    report = made.hostile_report()
    found = rows(made.rendered("csv", made.run(report), report))
    openpyxl = pytest.importorskip("openpyxl")
    sheet = openpyxl.Workbook().active
    for row in found:
        assert None not in row
        sheet.append(list(row.values()))
    for line in sheet.iter_rows():
        for cell in line:
            assert cell.data_type in ("s", "n")  # never "f", a formula
            assert "\n" not in str(cell.value)
