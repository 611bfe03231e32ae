"""Questions out and answers back: books, register, cells of every wrong kind.

Own design, no source.
"""

import csv
import io
import json
import re
import shutil
import subprocess
import threading
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

import areafit
from areafit.answers.questions import Party
from areafit.answers.register import (
    Register,
    RegisterError,
    RegisterLine,
    bare,
    inert,
    read_register,
    written_register,
)
from areafit.answers.replies import AnswerCell, Reply
from areafit.answers.taking import checked
from areafit.verdict import Role
from areafit_cli import registers

Call = Callable[..., str]
Book = Any

LIST = """\
areafit: 1
assembly: {number: QA-77, title: Secret filler of Nemo, revision: B, assessment: IHA-1}
code: ATEX
locations:
  wash-corner:
    title: Corner of the customer Nemo
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: IP65
    chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 60 °C}]
parts:
  - item: "10"
    part_number: PN-1
    description: Cylinder, "guided"
    maker_number: 7720-32
    vendor: V-104
    location: wash-corner
    kind: mechanical
    electrical_content: none
    exposure: splash
    unit_cost: 84.5
  - item: "11"   # the same part again
    part_number: PN-1
    vendor: V-104
    location: wash-corner
    kind: mechanical
    electrical_content: none
    exposure: splash
  - item: "20"
    part_number: PN-2
    description: Sensor
    vendor: V-9
    location: wash-corner
    kind: electrical
    exposure: splash
    materials: [{component: housing, material: 316L}]
"""


@pytest.fixture
def machine(folder: Path) -> Path:
    path = folder / "qa.yaml"
    path.write_text(LIST, encoding="utf-8")
    return path


def column(sheet: Any, name: str) -> int:
    return int(next(cell.column for cell in sheet[1] if cell.value == name))


def row_of(sheet: Any, key: str, line: str = "PN-1") -> int:
    keys, lines = column(sheet, "key"), column(sheet, "line")
    return next(
        r
        for r in range(2, sheet.max_row + 1)
        if sheet.cell(r, keys).value == key and sheet.cell(r, lines).value == line
    )


def sent(call: Call, name: str = "V-104.xlsx") -> Book:
    call("actions", "qa.yaml", "--format", "xlsx", "--output", "out")
    return openpyxl.load_workbook(Path("out", name))


def fill(sheet: Any, key: str, answer: object, **more: object) -> str:
    row = row_of(sheet, key)
    cell = sheet.cell(row, column(sheet, "answer"))
    cell.value = answer
    for name, value in more.items():
        sheet.cell(row, column(sheet, name)).value = value
    return str(cell.coordinate)


def back(call: Call, book: Book, *more: str) -> str:
    book.save("filled.xlsx")
    return call("answers", "filled.xlsx", "--into", "qa.yaml", *more)


def register() -> dict[str, dict[str, str]]:
    text = Path("questions.csv").read_text(encoding="utf-8")
    return {row["number"]: row for row in csv.DictReader(io.StringIO(text))}


def test_a_vendors_book_tells_nothing_of_others(call: Call, machine: Path) -> None:
    book = sent(call)
    said = " ".join(
        str(cell.value) for sheet in book.worksheets for row in sheet.iter_rows() for cell in row
    )
    for other in ("Nemo", "Secret", "wash-corner", "84.5", "V-9", "PN-2", "Sensor", "guided"):
        assert other not in said
    assert str(machine.parent) not in said
    assert "flag" not in said
    assert {"PN-1", "7720-32", "QA-77"} <= set(said.split())


def test_cells_are_text_and_words_stand_on_a_hidden_sheet(call: Call, machine: Path) -> None:
    del machine
    book = sent(call)
    assert book["words"].sheet_state == book["book"].sheet_state == "hidden"
    sheet = book["QA-77"]
    assert not sheet.protection.sheet
    row = row_of(sheet, "part.materials_complete")
    assert sheet.cell(row, column(sheet, "words or unit")).value == "yes | no"
    assert all(cell.number_format == "@" for line in sheet.iter_rows(min_row=2) for cell in line)
    lists = [each.formula1 for each in sheet.data_validations.dataValidation]
    assert lists
    assert all(each.startswith("words!$") for each in lists)
    words = {cell.value for line in book["words"].iter_rows() for cell in line}
    assert {"yes", "no", "not known"} <= words
    assert not words & {"true", "false"}


def test_the_same_input_gives_the_same_bytes_and_numbers(call: Call, machine: Path) -> None:
    del machine
    sent(call)
    first = Path("out", "V-104.xlsx").read_bytes()
    kept = Path("questions.csv").read_bytes()
    sent(call)
    assert Path("out", "V-104.xlsx").read_bytes() == first
    assert Path("questions.csv").read_bytes() == kept
    assert all(n.startswith(("V104-", "V9-", "AO-", "PO-", "IN-", "DE-")) for n in register())


def test_a_register_that_a_spreadsheet_sorted_is_read(call: Call, machine: Path) -> None:
    del machine
    sent(call)
    before = register()
    head, *rows = Path("questions.csv").read_text(encoding="utf-8").splitlines()
    semicolons = io.StringIO()
    writer = csv.writer(semicolons, delimiter=";")
    writer.writerows(csv.reader([head, *reversed(rows)]))
    Path("questions.csv").write_bytes(b"\xef\xbb\xbf" + semicolons.getvalue().encode())
    sent(call)
    assert register() == before


def test_runs_at_the_same_time_lose_no_line(tmp_path: Path) -> None:
    path = tmp_path / "questions.csv"

    def add(number: int) -> None:
        with registers.held(path):
            known = registers.read(path)
            entry = RegisterLine(
                f"V1-{number:02}", "supplier V-1", key="part.ambient", line=str(number)
            )
            registers.write(path, Register((*known.entries, entry)))

    threads = [threading.Thread(target=add, args=(number,)) for number in range(1, 21)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(registers.read(path).entries) == 20


def test_a_formula_in_the_register_is_text(call: Call, machine: Path) -> None:
    del machine
    book = sent(call)
    fill(book["QA-77"], "part.materials_complete", "not known", remark="=cmd|calc")
    back(call, book)
    assert ",'=cmd|calc," in Path("questions.csv").read_text(encoding="utf-8")
    assert next(each for each in register().values() if each["refused"])["refused"] == "not known"


def test_columns_of_ones_own_keep_their_order_and_are_text_too() -> None:
    text = "number,key,=b,z,a\nV-01,part.bonded,,1,2\nV-02,part.bonded,3,,\n"
    made = written_register(read_register(text.encode(), "questions.csv"))
    head, *rows = csv.reader(io.StringIO(made.decode()))
    assert head[-3:] == ["'=b", "z", "a"]
    assert [row[-3:] for row in rows] == [["", "1", "2"], ["3", "", ""]]
    assert written_register(read_register(made, "questions.csv")) == made


def test_a_return_in_a_cell_ends_no_row() -> None:
    """Found by fuzzing: before Python 3.13 `csv` does not quote it."""
    entry = RegisterLine("V-01", "supplier", key="part.bonded", remark="a\rb\r\nc")
    made = written_register(Register((entry,)))
    (again,) = read_register(made, "questions.csv").entries
    assert again.remark == "a\nb\nc"


def test_a_cell_too_long_for_csv_is_told() -> None:
    with pytest.raises(RegisterError, match="cannot be read as CSV"):
        read_register(b"number,key\nV-01," + b"x" * 200_000, "questions.csv")


HOSTILE_CELLS = [
    *('x;"=HYPERLINK(1);', "x\t=1+1", "a\n@SUM(A1)", "b;'\"-cmd", "-2+3+cmd|' /C calc'!A0", "'=1"),
    *("\n@ ", "''", "\uff1d1", "x;+1(A1)"),
]


@pytest.mark.parametrize("cell", HOSTILE_CELLS)
def test_a_cell_is_inert_by_any_delimiter_and_comes_back(cell: str) -> None:
    told = inert(cell)
    for piece in re.split(r"[;\t\r\n]", told):
        assert not re.match(r"[\s\"]*(?:[=@\uff1d\uff20]|[+\-](?!\d[^|!(]*$))", piece), piece
    assert bare(told) == cell


@given(st.text(st.sampled_from("=+-@|%;\t\r\n'\" 1a\uff1d,!("), max_size=9))
def test_any_cell_comes_back(cell: str) -> None:
    assert bare(inert(cell)) == cell


def _materials(book: Book, *rows: tuple[str, str], document: str = "DS-1") -> None:
    sheet = book["materials"]
    for place, (component, material) in enumerate(rows, 2):
        sheet.cell(place, column(sheet, "component")).value = component
        sheet.cell(place, column(sheet, "material or grade")).value = material
        sheet.cell(place, column(sheet, "document")).value = document


def test_answers_are_written_to_every_line_of_the_part(call: Call, machine: Path) -> None:
    book = sent(call)
    fill(book["QA-77"], "part.materials_complete", "yes", document="DS-1")
    _materials(book, ("housing", "316L"), ("seal", "EPDM"))
    told = back(call, book)
    assert "refused" not in told
    bom = areafit.read(machine.read_bytes(), "qa.yaml")
    assert [use.material for use in bom.parts[0].materials or ()] == ["316L", "EPDM"]
    assert bom.parts[0].materials == bom.parts[1].materials
    assert bom.parts[1].materials_document == "DS-1"
    text = machine.read_text(encoding="utf-8")
    assert "# the same part again" in text
    once = machine.read_bytes(), Path("questions.csv").read_bytes()
    call("answers", "filled.xlsx", "--into", "qa.yaml")
    assert (machine.read_bytes(), Path("questions.csv").read_bytes()) == once


WRONG = [
    ("part.surface_temperature.value", 75, "has no unit"),
    ("part.surface_temperature.value", 10.9, "has no unit"),
    ("part.surface_temperature.value", "=1+1", "formula"),
    ("part.surface_temperature.value", datetime(2026, 11, 12), "made a date"),  # noqa: DTZ001
    ("part.surface_temperature.value", "warm", "cannot be read"),
    ("part.surface_temperature.value", "75", "has no unit"),
    ("part.surface_temperature.at_ambient", "40 °C", "without the answer to: How hot"),
    ("part.materials_complete", "perhaps", "neither yes nor no"),
    ("part.materials_complete", 1, "number"),
]


@pytest.mark.parametrize(("key", "answer", "why"), WRONG)
def test_a_cell_of_a_wrong_kind_is_told_and_kept(
    call: Call, machine: Path, key: str, answer: object, why: str
) -> None:
    before = machine.read_bytes()
    book = sent(call)
    cell = fill(book["QA-77"], key, answer, document="DS-1")
    told = back(call, book, "--return", "again")
    assert f"QA-77, {cell}" in told
    assert why in told
    assert machine.read_bytes() == before
    row = next(each for each in register().values() if each["key"] == key and each["refused"])
    assert why in row["why"]
    again = openpyxl.load_workbook(Path("again", "V-104-again.xlsx"))
    assert why in str(again["QA-77"].cell(2, column(again["QA-77"], "remark")).value)


def test_merged_cells_answer_nothing(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    sheet = book["QA-77"]
    fill(sheet, "part.surface_temperature.value", "75 °C")
    row, place = row_of(sheet, "part.surface_temperature.value"), column(sheet, "answer")
    sheet.merge_cells(start_row=row, end_row=row + 1, start_column=place, end_column=place)
    assert "merged" in back(call, book)
    assert machine.read_bytes() == before


def test_a_lost_column_or_row_is_told(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    sheet = book["QA-77"]
    fill(sheet, "part.surface_temperature.value", "75 °C")
    row = row_of(sheet, "part.surface_temperature.value")
    for name in ("number", "line", "key", "assembly", "of", "part number"):
        sheet.cell(row, column(sheet, name)).value = None
    assert "lost its number" in back(call, book)
    book = sent_again(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C", remark="see sheet")
    book["QA-77"].delete_cols(column(book["QA-77"], "answer"))
    assert "column `answer` is gone" in back(call, book)
    assert machine.read_bytes() == before


def sent_again(call: Call) -> Book:
    call("questions", "qa.yaml", "--format", "xlsx", "--output", "out2")
    return openpyxl.load_workbook(Path("out2", "V-104.xlsx"))


def test_a_row_without_its_hidden_cells_is_refused(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    sheet = book["QA-77"]
    fill(sheet, "part.surface_temperature.value", "75 °C")
    for name in ("line", "key", "assembly", "of"):
        sheet.delete_cols(column(sheet, name))
    assert "no longer says which question" in back(call, book)
    assert machine.read_bytes() == before
    row = next(r for r in register().values() if r["key"] == "part.surface_temperature.value")
    assert row["refused"] == "75 °C"


def test_a_second_answer_stands_beside_the_first(call: Call, machine: Path) -> None:
    book = sent(call)
    _materials(book, ("housing", "316L"))
    back(call, book)
    _materials(book, ("housing", "AL-6061"), document="DS-2")
    assert "written beside" in back(call, book)
    text = machine.read_text(encoding="utf-8")
    assert "material: 316L" in text
    assert "DS-2" in text
    found = json.loads(call("check", "qa.yaml", "--format", "json", status=1))
    rules = {
        (one["rule"], one["verdict"])
        for part in found["boms"][0]["parts"]
        if part["item"] == "10"
        for one in part["findings"]
    }
    assert ("answer-agreement", "unproven") in rules
    assert ("chemical-resistance", "flag") in rules  # as the second answer has it
    once = machine.read_bytes()
    back(call, book)
    assert machine.read_bytes() == once


def test_an_answer_to_another_part_party_or_machine_is_not_taken(call: Call, machine: Path) -> None:
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C")
    book.save("filled.xlsx")
    changed = LIST.replace("part_number: PN-1\n", "part_number: PN-1B\n")
    machine.write_text(changed, encoding="utf-8")
    assert "no line" in call("answers", "filled.xlsx", "--into", "qa.yaml")
    assert machine.read_text(encoding="utf-8") == changed
    machine.write_text(LIST.replace("vendor: V-104", "vendor: V-200"), encoding="utf-8")
    assert "no line" in call("answers", "filled.xlsx", "--into", "qa.yaml")
    machine.write_text(LIST.replace("QA-77", "QA-78"), encoding="utf-8")
    assert "no list named" in call("answers", "filled.xlsx", "--into", "qa.yaml")


def test_a_renumbered_list_still_takes_its_answers(call: Call, machine: Path) -> None:
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C")
    machine.write_text(LIST.replace('"10"', '"110"').replace('"11"', '"111"'), encoding="utf-8")
    assert "refused" not in back(call, book)
    assert machine.read_text(encoding="utf-8").count("75 °C") == 2


def test_a_grade_without_a_document_is_not_taken(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    _materials(book, ("housing", "316L"), document="")
    assert "without the document" in back(call, book)
    assert machine.read_bytes() == before


def test_what_is_said_instead_is_kept_and_reminded(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", "follows on 2026-12-24")
    back(call, book)
    assert machine.read_bytes() == before
    row = next(r for r in register().values() if r["key"] == "part.surface_temperature.value")
    assert (row["refused"], row["answered"]) == ("follows on 2026-12-24", "")
    call("actions", "qa.yaml", "--format", "xlsx", "--output", "r", "--reminder")
    assert all(each["reminded"] == "2026-01-31" for each in register().values())


def test_a_telephone_call_and_a_dry_run(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    sent(call)
    number = next(n for n, r in register().items() if r["key"] == "part.surface_temperature.value")
    told = call("answers", "--number", number, "75 °C", "--into", "qa.yaml", "--dry-run")
    assert "closes" in told
    assert machine.read_bytes() == before
    call("answers", "--number", number, "75 °C", "--into", "qa.yaml")
    assert machine.read_text(encoding="utf-8").count("75 °C") == 2


def test_csv_goes_out_and_comes_back(call: Call, machine: Path) -> None:
    call("actions", "qa.yaml", "--format", "csv", "--output", "out")
    path = Path("out", "V-104.csv")
    rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig"))))
    for row in rows:
        if row["key"] == "part.surface_temperature.value":
            row["answer"] = "75 °C"
    text = io.StringIO()
    writer = csv.DictWriter(text, rows[0].keys(), delimiter=";")
    writer.writeheader()
    writer.writerows(rows)
    Path("back.csv").write_text(text.getvalue(), encoding="utf-8")
    assert "refused" not in call("answers", "back.csv", "--into", "qa.yaml")
    assert machine.read_text(encoding="utf-8").count("75 °C") == 2


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "save it as .xlsx"),
        (b"%PDF-1.7", "is a PDF"),
        (b"a,b\n1,2\n", "was not made by"),
        (b"PK\x03\x04 no archive", "cannot be read"),
    ],
)
def test_other_files_are_told_what_to_do(call: Call, machine: Path, data: bytes, told: str) -> None:
    del machine
    Path("some.file").write_bytes(data)
    assert told in call("answers", "some.file", "--into", "qa.yaml", status=2, both=True)


def test_a_filled_book_is_not_written_over(call: Call, machine: Path) -> None:
    del machine
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C")
    book.save("out/V-104.xlsx")
    told = call("actions", "qa.yaml", "--format", "xlsx", "--output", "out", status=2, both=True)
    assert "holds answers" in told


def test_reports_tell_numbers_days_and_what_came_back(call: Call, machine: Path) -> None:
    before = call("check", "qa.yaml", status=1)
    assert "[V104-" not in before
    verdicts = json.loads(call("check", "qa.yaml", "--format", "json", status=1))["boms"]
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", 75)
    back(call, book)
    told = " ".join(call("check", "qa.yaml", status=1).split())
    assert "asked 31 Jan, 0 d" in told
    later = call("check", "qa.yaml", "--as-of", "2026-02-18", status=1)
    assert "asked 31 Jan, 18 d" in " ".join(later.split())
    assert 'came back: "75"' in told
    page = call("check", "qa.yaml", "--format", "html", status=1)
    front = page.partition("3 To accept")[0]
    assert "Numbers, asked, came back" in front
    assert "asked 31 Jan, 0 d" in front
    assert "came back: &quot;75&quot;" in front
    assert "asked 31 Jan, 0 d" in page.partition("Findings by cause")[2]
    assert json.loads(call("check", "qa.yaml", "--format", "json", status=1))["boms"] == verdicts
    assert machine.read_text(encoding="utf-8") == LIST


def test_what_follows_from_another_answer_waits_for_it(call: Call, machine: Path) -> None:
    del machine
    call("actions", "qa.yaml", "--format", "xlsx", "--output", "out")
    keys = {row["key"] for row in register().values()}
    assert "part.bonded" in keys
    assert not keys & {"part.resistance_to_earth", "part.capacitance", "part.kind", "place.area"}


def test_an_alternative_is_asked_for_only_with_offers(call: Call, machine: Path) -> None:
    text = LIST.replace("    unit_cost: 84.5\n", "    materials: AL-6061\n")
    machine.write_text(text, encoding="utf-8")
    call("actions", "qa.yaml", "--format", "xlsx", "--output", "out")
    assert all(row["key"] != "offer" for row in register().values())
    call("actions", "qa.yaml", "--format", "xlsx", "--output", "more", "--offers")
    (asked,) = [row for row in register().values() if row["key"] == "offer"]
    assert asked["party"] == "supplier V-104"
    call("answers", "--number", asked["number"], "we offer instead PN-9", "--into", "qa.yaml")
    assert machine.read_text(encoding="utf-8") == text
    assert register()[asked["number"]]["answer"] == "we offer instead PN-9"


def test_a_book_that_nobody_filled_answers_nothing(call: Call, machine: Path) -> None:
    text = LIST.replace("    unit_cost: 84.5\n", "    materials: 316L\n")
    machine.write_text(text, encoding="utf-8")
    for name in ("V-104.xlsx", "V-9.xlsx"):
        book = sent(call, name)
        before = register()
        back(call, book)
        assert register() == before
    assert machine.read_text(encoding="utf-8") == text


SHELF = """\
areafit-parts: 1
parts:
  PN-9:
    kind: mechanical
    electrical_content: none
    drive: electric
    materials: [{component: body, material: 316L}]
    confirmed: {on: 2026-01-05, document: sheet 9, role: supplier}
"""
OF_SHELF = LIST.partition("  - item")[0].replace("locations:", "library: shelf.yaml\nlocations:")


@pytest.fixture
def two(folder: Path) -> tuple[Path, Path]:
    """Two machines that use one bought part with an entry."""
    Path("shelf.yaml").write_text(SHELF, encoding="utf-8")
    for number in "12":
        Path(f"m{number}.yaml").write_text(
            OF_SHELF.replace("QA-77", f"QA-{number}")
            + f'  - {{item: "{number}0", part_number: PN-9, description: Gearbox, vendor: V-9, '
            "location: wash-corner, exposure: splash}\n",
            encoding="utf-8",
        )
    return folder / "m1.yaml", folder / "m2.yaml"


def _of_both(call: Call) -> tuple[Book, Any]:
    call("actions", "m1.yaml", "m2.yaml", "--format", "xlsx", "--output", "out")
    book = openpyxl.load_workbook("out/V-9.xlsx")
    return book, book["the library"]


def _shelf(name: str = "m1.yaml") -> areafit.Bom:
    return areafit.read(Path(name).read_bytes(), name, lambda each: Path(each).read_bytes(), None)


@pytest.mark.usefixtures("two")
def test_a_bought_part_with_an_entry_is_asked_once_for_all_lists(call: Call) -> None:
    _, sheet = _of_both(call)
    asked = [
        (row[column(sheet, "key") - 1].value, row[column(sheet, "of") - 1].value)
        for row in sheet.iter_rows(min_row=2)
    ]
    assert asked
    assert len(asked) == len(set(asked))
    numbers = [one["number"] for one in register().values() if one["assembly"] == "the library"]
    assert len(numbers) == len(set(numbers))


def test_a_dated_document_takes_the_answer_into_the_entry(
    call: Call, two: tuple[Path, Path]
) -> None:
    """One answer, and both machines have it; who confirms the entry is told and the old stays."""
    book, sheet = _of_both(call)
    row = row_of(sheet, "part.surface_temperature.value", "PN-9")
    before = [path.read_bytes() for path in two]
    for name, said in (("answer", "70 °C"), ("document", "sheet 9 B"), ("date", "2026-11-20")):
        sheet.cell(row, column(sheet, name)).value = said
    book.save("filled.xlsx")
    dry = call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml", "--dry-run")
    assert "into the entry of PN-9" in dry
    assert "closes" in dry
    assert Path("shelf.yaml").read_text(encoding="utf-8") == SHELF
    told = call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml")
    assert "into the entry of PN-9, confirmed by sheet 9; sheet 9 B" in told
    assert [path.read_bytes() for path in two] == before
    assert "70 °C" in Path("shelf.yaml").read_text(encoding="utf-8")
    for name in ("m1.yaml", "m2.yaml"):
        bom = _shelf(name)
        assert bom.parts[0].equipment.surface is not None
        assert bom.library.used[0].document == "sheet 9; sheet 9 B"
    after = Path("shelf.yaml").read_bytes()
    call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml")
    assert Path("shelf.yaml").read_bytes() == after  # twice the same changes nothing
    assert [path.read_bytes() for path in two] == before


def test_without_a_date_it_stands_on_the_lines(call: Call, two: tuple[Path, Path]) -> None:
    book, sheet = _of_both(call)
    row = row_of(sheet, "part.surface_temperature.value", "PN-9")
    sheet.cell(row, column(sheet, "answer")).value = "70 °C"
    book.save("filled.xlsx")
    call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml")
    assert Path("shelf.yaml").read_text(encoding="utf-8") == SHELF
    assert all("70 °C" in path.read_text(encoding="utf-8") for path in two)


def test_an_entry_that_says_otherwise_is_not_overwritten(
    call: Call, two: tuple[Path, Path]
) -> None:
    """The answer stands beside it on the line, and both are judged."""
    book, sheet = _of_both(call)
    row = row_of(sheet, "part.surface_temperature.value", "PN-9")
    stated = SHELF.replace("    drive:", "    surface_temperature: 60 °C\n    drive:")
    Path("shelf.yaml").write_text(stated, encoding="utf-8")
    for name, said in (("answer", "190 °C"), ("document", "sheet 9 B"), ("date", "2026-11-20")):
        sheet.cell(row, column(sheet, name)).value = said
    book.save("filled.xlsx")
    told = call("answers", "filled.xlsx", "--into", "m1.yaml")
    assert "both are judged" in told
    assert Path("shelf.yaml").read_text(encoding="utf-8") == stated
    assert "answered" in two[0].read_text(encoding="utf-8")
    assert "answer-agreement" in call("check", "m1.yaml", "--full", status=1)


@pytest.mark.parametrize(
    ("key", "stated", "said"),
    [
        ("part.surface_temperature.value", "surface_temperature: 60 °C", "190 °C"),
        ("part.materials.material", "materials: [PTFE]", "316L"),
    ],
)
def test_what_is_written_short_is_stated_too(
    call: Call, machine: Path, key: str, stated: str, said: str
) -> None:
    """By a colleague, after the question went out: it stays, and the answer stands beside it."""
    from areafit.answers.questions import Party
    from areafit.answers.replies import AnswerCell, Reply
    from areafit.answers.taking import Done, take
    from areafit.verdict import Role

    del call
    data = LIST.replace("    unit_cost: 84.5\n", f"    unit_cost: 84.5\n    {stated}\n").encode()
    source, party = AnswerCell("b", "", ""), Party(Role.SUPPLIER, "V-104")
    about = "PTFE" if "materials" in key else ""
    reply = Reply(source, "", party, "QA-77", "PN-1", key, about, said, said, document="D-1")
    taken = take(
        data, machine.name, [reply], lambda each: areafit.read(each, "qa.yaml"), date(2026, 11, 30)
    )
    assert f"    {stated}\n" in taken.data.decode()
    assert [one.done for one in taken.outcomes] == [Done.BESIDE]


def _cell_of(sheet: Any, row: int, name: str) -> Any:
    return sheet.cell(row, column(sheet, name))


WRONG_IN_TABLES = [
    ("material or grade", 316, "may have lost zeros"),
    ("material or grade", "=1+1", "formula"),
    ("material or grade", datetime(2026, 11, 12), "made a date"),  # noqa: DTZ001
    ("material or grade", True, "is asked"),
    ("treatment", "somehow", "is none of"),
    ("document", 7720, "holds no text"),
    ("document", "tbd", "'tbd' names no document"),
    ("document", "to follow", "names no document"),
    ("document", "=A1", "formula"),
    ("date", "last week", "no date"),
    ("date", 45000, "no date"),
    ("this list is complete", "mostly", "neither yes nor no"),
    ("this list is complete", "=TRUE()", "formula"),
]


@pytest.mark.parametrize(("name", "said", "why"), WRONG_IN_TABLES)
def test_a_wrong_cell_of_a_small_table_is_told_and_kept(
    call: Call, machine: Path, name: str, said: object, why: str
) -> None:
    """The whole table goes back: half of what a part is made of would look like all of it."""
    before = machine.read_bytes()
    book = sent(call)
    _materials(book, ("housing", "316L"), ("seal", "EPDM"))
    cell = _cell_of(book["materials"], 3, name)
    cell.value = said
    told = back(call, book, "--return", "again")
    assert "materials, " in told
    assert why in told
    assert machine.read_bytes() == before
    row = next(each for each in register().values() if each["key"] == "part.materials")
    assert why in row["why"]
    assert "316L" in row["refused"]
    again = openpyxl.load_workbook(Path("again", "V-104-again.xlsx"))
    assert "materials" in again.sheetnames


def test_a_row_of_a_table_without_what_it_is_about_is_told(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    _materials(book, ("housing", "316L"))
    _cell_of(book["materials"], 3, "treatment").value = "anodised"
    told = back(call, book)
    assert "`material or grade` beside it is empty" in told
    assert machine.read_bytes() == before


def test_a_lost_column_of_a_table_is_told(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    _materials(book, ("housing", "316L"))
    sheet = book["materials"]
    sheet.delete_cols(column(sheet, "material or grade"))
    told = back(call, book)
    assert "the column `material or grade` is gone" in told
    assert machine.read_bytes() == before
    assert any("is gone" in each["why"] for each in register().values())


def test_a_lost_number_or_head_is_told(call: Call, machine: Path) -> None:
    """A row is found by its hidden cells too; a sheet without its head says nothing."""
    before = machine.read_bytes()
    book = sent(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C")
    book["QA-77"].delete_cols(column(book["QA-77"], "number"))
    assert "written" in back(call, book)
    machine.write_bytes(before)
    book = sent_again(call)
    fill(book["QA-77"], "part.surface_temperature.value", "75 °C")
    book["QA-77"].delete_rows(1)
    told = back(call, book)
    assert "QA-77" in told
    assert "the row with the names of the columns is gone" in told
    assert machine.read_bytes() == before


def test_what_a_row_of_a_table_says_instead_is_no_material(call: Call, machine: Path) -> None:
    """And a list with such a row is not complete, whatever its last column says."""
    book = sent(call)
    _materials(book, ("housing", "316L"), ("seal", "follows on 2026-12-24"))
    _cell_of(book["materials"], 2, "this list is complete").value = "yes"
    told = back(call, book)
    assert "written" in told
    bom = areafit.read(machine.read_bytes(), "qa.yaml")
    assert [use.material for use in bom.parts[0].materials or ()] == ["316L"]
    assert bom.parts[0].materials_complete is False
    row = next(each for each in register().values() if each["key"] == "part.materials")
    assert "seal, follows on 2026-12-24" in row["remark"]


def test_a_table_that_says_only_what_comes_instead_is_kept(call: Call, machine: Path) -> None:
    before = machine.read_bytes()
    book = sent(call)
    _materials(book, ("seal", "not known"))
    back(call, book)
    assert machine.read_bytes() == before
    row = next(each for each in register().values() if each["key"] == "part.materials")
    assert row["why"] == "said instead of an answer"


@pytest.mark.skipif(
    not (shutil.which("soffice") or shutil.which("libreoffice")),
    reason="LibreOffice is not installed",
)
def test_a_book_saved_by_another_spreadsheet_is_read(call: Call, machine: Path) -> None:
    """Opened and saved as .ods by LibreOffice: every cell comes back by its type."""
    book = sent(call)
    fill(
        book["QA-77"], "part.surface_temperature.value", "75 °C", document="DS-1", date="2026-11-12"
    )
    fill(book["QA-77"], "part.surface_temperature.at_ambient", 45)
    _materials(book, ("housing", "316L"), ("seal", "EPDM"))
    book.save("filled.xlsx")
    office = str(shutil.which("soffice") or shutil.which("libreoffice"))
    profile = f"-env:UserInstallation={Path('profile').resolve().as_uri()}"
    subprocess.run(
        [office, profile, "--headless", "--convert-to", "ods", "filled.xlsx"],
        check=True,
        capture_output=True,
        timeout=180,
    )
    told = call("answers", "filled.ods", "--into", "qa.yaml")
    assert "filled.ods, QA-77" in told
    assert "has no unit" in told
    bom = areafit.read(machine.read_bytes(), "qa.yaml")
    assert [use.material for use in bom.parts[0].materials or ()] == ["316L", "EPDM"]
    assert bom.parts[0].equipment.surface is not None
    row = next(
        each for each in register().values() if each["key"] == "part.surface_temperature.value"
    )
    assert (row["answered"], row["document"]) == ("2026-11-12", "DS-1")


@pytest.mark.usefixtures("machine")
def test_our_own_remarks_do_not_come_back_as_theirs(call: Call) -> None:
    """A book that asks again says what came back before; only what they add is kept."""
    key = "part.surface_temperature.value"
    book = sent(call)
    fill(book["QA-77"], key, 75)
    back(call, book, "--return", "again")
    for path in ("again/V-104-again.xlsx", "out2/V-104.xlsx"):
        if path.startswith("out2"):
            sent_again(call)
        book = openpyxl.load_workbook(path)
        assert "has no unit" in str(
            _cell_of(book["QA-77"], row_of(book["QA-77"], key), "remark").value
        )
        fill(book["QA-77"], key, 76)
        back(call, book)
        (entry,) = (each for each in register().values() if each["key"] == key and each["refused"])
        assert (entry["refused"], entry["remark"]) == ("76", "")
    book = openpyxl.load_workbook("out2/V-104.xlsx")
    fill(book["QA-77"], key, 77, remark="at full load")
    back(call, book)
    (entry,) = (each for each in register().values() if each["key"] == key and each["refused"])
    assert entry["remark"] == "at full load"


def test_a_telephone_call_confirms_an_entry_by_a_dated_document(
    call: Call, two: tuple[Path, Path]
) -> None:
    _of_both(call)
    (number,) = (
        one["number"]
        for one in register().values()
        if (one["assembly"], one["key"]) == ("the library", "part.surface_temperature.value")
    )
    before = [path.read_bytes() for path in two]
    said = ("--number", number, "70 °C", "--document", "sheet 9 B", "--date", "2026-01-20")
    told = call("answers", *said, "--into", "m1.yaml")
    assert "into the entry of PN-9" in told
    assert [path.read_bytes() for path in two] == before
    assert "2026-01-20" in Path("shelf.yaml").read_text(encoding="utf-8")
    told = call(
        "answers", "x.xlsx", "--date", "2026-01-20", "--into", "m1.yaml", status=2, both=True
    )
    assert "go with --number" in told


def test_what_the_entry_alone_cannot_hold_stands_on_the_line(
    call: Call, two: tuple[Path, Path]
) -> None:
    """The air of a figure that only the line states, though a dated document says it."""
    _of_both(call)
    numbers = {
        one["key"].rpartition(".")[2]: one["number"]
        for one in register().values()
        if one["key"].startswith("part.surface_temperature")
    }
    call("answers", "--number", numbers["value"], "70 °C", "--into", "m1.yaml")
    dated = ("--document", "sheet 9 B", "--date", "2026-01-20")
    told = call("answers", "--number", numbers["at_ambient"], "45 °C", *dated, "--into", "m1.yaml")
    assert "written" in told
    assert Path("shelf.yaml").read_text(encoding="utf-8") == SHELF
    assert "45 °C" in two[0].read_text(encoding="utf-8")


def test_two_who_sell_the_same_part_and_differ_are_both_judged(
    call: Call, two: tuple[Path, Path]
) -> None:
    """The first stands in the entry, the second beside it on the line of its list."""
    text = two[1].read_text(encoding="utf-8").replace("vendor: V-9", "vendor: V-8")
    two[1].write_text(text, encoding="utf-8")
    call("actions", "m1.yaml", "m2.yaml", "--format", "xlsx", "--output", "out")
    for vendor, said in (("V-9", "70 °C"), ("V-8", "95 °C")):
        book = openpyxl.load_workbook(f"out/{vendor}.xlsx")
        sheet = book["the library"]
        row = row_of(sheet, "part.surface_temperature.value", "PN-9")
        told = {"answer": said, "document": f"sheet of {vendor}", "date": "2026-01-20"}
        for name, each in told.items():
            _cell_of(sheet, row, name).value = each
        book.save("filled.xlsx")
        last = call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml")
    assert "both are judged" in last
    shelf = Path("shelf.yaml").read_text(encoding="utf-8")
    assert "70 °C" in shelf
    assert "95 °C" not in shelf
    assert "95 °C" not in two[0].read_text(encoding="utf-8")
    assert "95 °C" in two[1].read_text(encoding="utf-8")
    assert "answer-agreement" in call("check", "m2.yaml", "--full", status=1)
    answers = {one["party"]: one["answer"] for one in register().values() if one["answer"]}
    assert answers == {"supplier V-9": "70 °C", "supplier V-8": "95 °C"}


def test_an_answer_about_a_bought_part_that_no_list_uses_any_more_is_kept(
    call: Call, two: tuple[Path, Path]
) -> None:
    book, sheet = _of_both(call)
    row = row_of(sheet, "part.surface_temperature.value", "PN-9")
    _cell_of(sheet, row, "answer").value = "70 °C"
    book.save("filled.xlsx")
    for path in two:
        text = path.read_text(encoding="utf-8").replace(
            "number: PN-9", "number: PN-10, kind: mechanical"
        )
        path.write_text(text, encoding="utf-8")
    told = call("answers", "filled.xlsx", "--into", "m1.yaml", "--into", "m2.yaml")
    assert told.count("holds no line PN-9 of this party any more") == 2  # this and the materials
    assert Path("shelf.yaml").read_text(encoding="utf-8") == SHELF
    (entry,) = (one for one in register().values() if one["refused"] == "70 °C")
    assert "kept in the register" in entry["why"]


def test_a_row_that_lost_its_line_answers_no_other_question() -> None:
    """Found by fuzzing: the number of another question took the answer to this one."""
    party = Party(Role.SUPPLIER, "V-1")
    cell = AnswerCell("x.csv", "", "line 2")
    asked = RegisterLine("V1-01", "supplier V-1", assembly="M-1", line="P-2", key="part.materials")
    row = Reply(cell, "V1-01", party, "M-1", "", "part.ambient", "", value="-20..60 °C")
    lost = Reply(cell, "V1-01", party, "M-1", "P-2", "part.materials", "", value="steel")
    taken, refused = checked((row, lost), Register((asked,)))
    assert taken == ()
    assert [each.refused for each in refused] == [
        "V1-01 is another question than this row says",
        "its answer is a table; fill the sheet of its name",
    ]


def test_a_part_that_its_vendor_sees_by_our_number_only_is_told(call: Call, machine: Path) -> None:
    """A book bears no description, so that a vendor may not know what PN-2 is."""
    assert "maker_number: 7720-32" in machine.read_text(encoding="utf-8")
    told = call("actions", "qa.yaml", "--format", "xlsx", "--output", "out")
    (line,) = (each for each in told.splitlines() if "part number only" in each)
    assert "V-9 (1 part)" in line
    assert "V-104" not in line
