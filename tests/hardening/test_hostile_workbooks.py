"""Workbooks that say more than they hold, or hold more than they should: status 2, at once."""

import io
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest

from areafit.answers.replies import NoBookError, read_replies
from areafit.errors import InputError
from areafit.importing import sheets
from areafit.importing.sheets import read_text_table, read_workbook
from areafit_cli.__main__ import run

SHEET = "xl/worksheets/sheet1.xml"
_NS = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'


def workbook() -> bytes:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Item", "Name", "Qty"])
    sheet.append([1, "Plate", 2])
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def changed(name: str, change: Callable[[bytes], bytes]) -> bytes:
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(workbook())) as old,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for each in old.namelist():
            data = old.read(each)
            new.writestr(each, change(data) if each == name else data)
    return stream.getvalue()


def sheet(rows: str, dimension: str = "A1:C2") -> bytes:
    text = (
        f'<worksheet {_NS}><dimension ref="{dimension}"/><sheetData>{rows}</sheetData></worksheet>'
    )
    return changed(SHEET, lambda _: text.encode())


ROW = '<row r="1"><c r="A1" t="inlineStr"><is><t>Item</t></is></c></row>'
MANY = {
    "a sheet of its own size": sheet(ROW, "A1:XFD20000"),
    "a row far below": sheet(f'{ROW}<row r="1048576"><c r="A1048576"><v>1</v></c></row>'),
    "a cell far to the right": sheet('<row r="1"><c r="XFD1"><v>1</v></c></row>'),
    "a number beyond all bounds": sheet(f'{ROW}<row r="2"><c r="A2"><v>1e999</v></c></row>'),
    "entities": changed(SHEET, lambda data: b'<!DOCTYPE x [<!ENTITY a "b">]>' + data),
    "no sheet": changed("xl/workbook.xml", lambda _: b"<x/>"),
    "half a sheet": changed(SHEET, lambda data: data[: len(data) // 2]),
    "a bomb": changed("xl/styles.xml", lambda _: b" " * (65 * 1024 * 1024)),
    "cut": workbook()[:-40],
    "no archive": b"PK\x03\x04",
    "empty": b"",
}


@pytest.mark.parametrize("name", MANY)
def test_a_workbook_is_refused_or_read_at_once(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "e.xlsx"
    path.write_bytes(MANY[name])
    begun = time.process_time()
    assert run(["import", str(path), "--code", "IEC"]) in (0, 2)
    assert time.process_time() - begun < 10
    assert "please report" not in capsys.readouterr().err


def test_what_a_workbook_says_of_its_size_is_not_asked() -> None:
    assert read_workbook(MANY["a sheet of its own size"]).rows == (("Item",),)
    rows = read_workbook(MANY["a number beyond all bounds"])
    assert (rows.rows[1], len(rows.notes)) == (("",), 1)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("a row far below", "more than 200,000 rows"),
        ("a cell far to the right", "more than 1000 columns"),
        ("a bomb", "unpacks to more than 64 MiB"),
        ("entities", "declares entities"),
    ],
)
def test_limits_are_told(name: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        read_workbook(MANY[name])
    assert words in str(refused.value)


def test_a_text_has_limits_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheets, "_MOST_ROWS", 3)
    with pytest.raises(InputError, match="more than 3 rows"):
        read_text_table(b"a,b\n" * 4)


@pytest.mark.parametrize(
    "encoding", ["punycode", "idna", "undefined", "unicode_escape", "base64", "rot13", "x\0", "hex"]
)
def test_what_is_no_set_of_characters_is_no_encoding(
    encoding: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "e.csv"
    path.write_bytes(b"Item,Name\n1,x-\xc3\xa4\n" * 100)
    assert run(["import", str(path), "--code", "IEC", "--encoding", encoding]) == 2
    assert "there is no encoding" in capsys.readouterr().err


def test_the_encoding_of_a_few_is_read() -> None:
    for encoding in ("latin-1", "utf-8", "cp1252", "mac_roman", "utf-16"):
        text = "Pos;Größe\n1;ä\n".encode(encoding)
        assert read_text_table(text, encoding=encoding).rows[1] == ("1", "ä")


def _behind(text: str) -> bytes:
    return changed(SHEET, lambda data: data.replace(b"</sheetData>", text.encode()))


WHOLE = {
    "merged": '</sheetData><mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>',
    "far": '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>',
    "wide": '<row><c r="XFD9"/></row><row r="9999"><c/></row></sheetData>',
    "linked": '</sheetData><hyperlinks><hyperlink ref="$A$1:$XFD$1048576"/></hyperlinks>',
    "no reference": '</sheetData><hyperlinks><hyperlink ref="A:A"/></hyperlinks>',
    "many": '<row r="7"><c r="A7"/><c r="CV6000"/></row></sheetData>',
}


@pytest.mark.parametrize("text", WHOLE.values(), ids=WHOLE)
def test_a_book_of_answers_is_not_read_whole_before_it_is_measured(text: str) -> None:
    """Cells between those that are used are made too, and each of a range that is named."""
    began = time.process_time()
    with pytest.raises(NoBookError, match="more than 500,000 cells"):
        read_replies(_behind(text), "x.xlsx")
    assert time.process_time() - began < 2


@pytest.mark.parametrize("name", MANY)
def test_a_book_of_answers_that_is_none_is_refused_at_once(name: str) -> None:
    began = time.process_time()
    with pytest.raises(NoBookError):
        read_replies(MANY[name], "x.xlsx")
    assert time.process_time() - began < 10


def test_an_archive_of_another_version_is_refused() -> None:
    """Found by fuzzing."""
    data = (Path(__file__).parents[1] / "fuzz/seeds/sheet/version.xlsx").read_bytes()
    with pytest.raises(NoBookError, match="zip file version"):
        read_replies(data, "x.xlsx")
    with pytest.raises(InputError, match="zip file version"):
        read_workbook(data)


def test_a_workbook_without_a_sheet_says_so() -> None:
    with pytest.raises(InputError, match="it has no sheet"):
        read_workbook(MANY["no sheet"])
