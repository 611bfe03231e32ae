"""Workbooks of questions: one for a party, a sheet a machine, and small tables where one is asked.

Nothing is locked and nothing hidden but what a row is known by, so that a sheet may be sorted. The
same questions give the same bytes.
"""

import csv
import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from areafit.answers.questions import BARRED, TABLES, Party, Question
from areafit.answers.register import inert
from areafit.file.facts import FactRow, facts
from areafit.pattern import pattern
from areafit.values import Frozen
from areafit.verdict import Role

HEAD = (
    "number",
    "part number",
    "maker's number",
    "about",
    "the place asks",
    "question",
    "why",
    "answer",
    "words or unit",
    "document",
    "date",
    "remark",
)
OWN = ("item", "description")
"""What only books of one's own house hold."""
KNOWN_BY = ("assembly", "line", "key", "of")
INSTEAD = ("not known", "not available", "follows on", "we offer instead")
"""What may be said instead of an answer; the last two with a date or a number behind it."""
FORMAT = "areafit-questions/1"
BOOK, WORDS = "book", "words"
SHEETS = {
    "part.materials": "materials",
    "part.evidence": "documents",
    "part.entries": "openings",
    "part.contacts": "contacts",
}
_COMPLETE = "this list is complete"
_BLANK = 4
_WIDTHS = {
    "number": 11,
    "part number": 16,
    "maker's number": 16,
    "about": 16,
    "the place asks": 30,
    "question": 42,
    "why": 40,
    "answer": 28,
    "words or unit": 26,
    "document": 20,
    "date": 12,
    "remark": 28,
    "item": 8,
    "description": 28,
}
_TITLE = pattern(r"[\[\]:*?/\\']")
_STAMP = re.compile(rb"<dcterms:(created|modified)[^>]*>[^<]*</dcterms:(created|modified)>")
_YES_NO = ("yes", "no")
_RANGES = " range"


class QuestionRow(Frozen):
    """A question with its number; `filled` are entries that a table begins with."""

    number: str
    question: Question
    filled: tuple[tuple[tuple[str, str], ...], ...] = ()
    before: str = ""


def words_of(row: FactRow | None) -> tuple[str, ...]:
    """The words that an answer takes; yes and no, never true and false."""
    if row is None:
        return ()
    return _YES_NO if row.unit == "yes|no" or set(row.words) == set(_YES_NO) else row.choices


def unit_of(row: FactRow | None) -> str:
    """What an answer is measured in, as a person is told."""
    if row is None or row.unit in {"", "yes|no"}:
        return ""
    if row.unit.endswith("by group"):
        return f"{row.unit}, with units, `IIC: …, IIB: …`"
    if row.unit == "date":
        return "a date, 2026-11-30"
    return (
        f"{row.unit} with its unit{', such as 5..40 °C' if row.unit == 'temperature range' else ''}"
    )


def book(party: Party, rows: Sequence[QuestionRow], asked: str) -> bytes:
    """The workbook of a party.

    Args:
        party: who is asked; nothing of others is written.
        rows: the questions with their numbers, of any number of machines.
        asked: the day, as the register has it.
    """
    import openpyxl  # noqa: PLC0415 - slow to import, and seldom needed

    made = openpyxl.Workbook()
    made.remove(made.active)
    lists = _Words()
    for assembly in dict.fromkeys(row.question.assembly for row in rows):
        sheet = made.create_sheet(_title(assembly, made.sheetnames))
        _machine(sheet, party, [row for row in rows if row.question.assembly == assembly], lists)
    for key, name in SHEETS.items():
        own = [row for row in rows if row.question.key == key]
        if own:
            _table(made.create_sheet(name), key, own, lists)
    hidden = made.create_sheet(WORDS)
    for column, words in enumerate(lists.lists, 1):
        for line, word in enumerate(words, 1):
            _text(hidden.cell(line, column), word)
    hidden.sheet_state = "hidden"
    about = made.create_sheet(BOOK)
    said = (("format", FORMAT), ("role", party.role.value), ("vendor", party.vendor or ""))
    for line, (name, text) in enumerate((*said, ("asked", asked)), 1):
        _text(about.cell(line, 1), name)
        _text(about.cell(line, 2), text)
    about.sheet_state = "hidden"
    stream = io.BytesIO()
    made.save(stream)
    return _timeless(stream.getvalue())


def _timeless(data: bytes) -> bytes:
    """The archive without the time at which it was made."""
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(data)) as old,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in sorted(old.namelist(), key=lambda each: (each != "[Content_Types].xml", each)):
            content = (
                _STAMP.sub(b"", old.read(name)) if name == "docProps/core.xml" else (old.read(name))
            )
            info = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(info, content)
    return stream.getvalue()


class _Words:
    """Lists of allowed words on the hidden sheet, each once: a list in the cell may be too long."""

    def __init__(self) -> None:
        self.lists: list[tuple[str, ...]] = []

    def reference(self, words: tuple[str, ...]) -> str:
        from openpyxl.utils import get_column_letter  # noqa: PLC0415 - as openpyxl

        if words not in self.lists:
            self.lists.append(words)
        column = get_column_letter(self.lists.index(words) + 1)
        return f"{WORDS}!${column}$1:${column}${len(words)}"


def _title(assembly: str, taken: Iterable[str]) -> str:
    """A name that a sheet may have: of another machine, of a table, too long or odd ones change."""
    plain = _TITLE.sub("-", assembly).strip()[:28] or "machine"
    used = {each.casefold() for each in (*taken, *SHEETS.values(), BOOK, WORDS)}
    title, number = plain, 1
    while title.casefold() in used:
        number += 1
        title = f"{plain[:25]} {number}"
    return title


def columns_of(party: Party) -> tuple[str, ...]:
    """The columns of a machine's sheet, those that a row is known by last."""
    inner = HEAD if party.role is Role.SUPPLIER else (HEAD[0], *OWN, *HEAD[1:])
    return (*inner, *KNOWN_BY)


def _cells(party: Party, row: QuestionRow) -> Mapping[str, str]:
    one = row.question
    words, unit = words_of(one.row), unit_of(one.row)
    part = one.part_number
    if party.role is Role.SUPPLIER and not part and not one.maker_number:
        part = one.description or f"item {', '.join(one.items)}"
    told = f"on the sheet {SHEETS[one.key]}" if one.table else " | ".join(words) or unit
    if one.key in BARRED:
        told = "stated in the list itself"
    return {
        "number": row.number,
        "part number": part,
        "maker's number": one.maker_number,
        "about": one.about,
        "the place asks": one.demand,
        "question": one.text,
        "why": one.why,
        "answer": "",
        "words or unit": told,
        "document": "",
        "date": "",
        "remark": row.before,
        "item": ", ".join(one.items),
        "description": one.description,
        "assembly": one.assembly,
        "line": one.line,
        "key": one.key,
        "of": one.about,
    }


def _machine(sheet: Any, party: Party, rows: Sequence[QuestionRow], lists: _Words) -> None:  # noqa: ANN401
    from openpyxl.worksheet.datavalidation import DataValidation  # noqa: PLC0415 - as openpyxl

    columns = columns_of(party)
    _head(sheet, columns)
    for line, row in enumerate(rows, 2):
        cells = _cells(party, row)
        for place, column in enumerate(columns, 1):
            cell = sheet.cell(line, place)
            _text(cell, cells[column])
            _styled(cell, to_fill=column in {"answer", "document", "date", "remark"})
        words = words_of(row.question.row)
        if words and not row.question.table:
            offered = (*words, *INSTEAD[:2])
            check = DataValidation(type="list", formula1=lists.reference(offered), allow_blank=True)
            check.errorStyle = "warning"  # a date or a number may stand behind some of them
            check.showErrorMessage = True
            check.error = "None of the listed words. Keep it only if it says when, or what instead."
            sheet.add_data_validation(check)
            check.add(sheet.cell(line, columns.index("answer") + 1).coordinate)
    _shape(sheet, columns)


def table_columns(key: str) -> tuple[str, ...]:
    """The columns of a small table."""
    last = (_COMPLETE,) if key == "part.materials" else ()
    names = tuple(heading(column) for column in TABLES[key])
    return ("number", "part number", *names, "document", "date", *last, "remark", *KNOWN_BY)


def heading(column: str) -> str:
    """A key as the heading of a column."""
    said = {"material": "material or grade", "finish": "treatment", "with": "touches item"}
    said |= {"number": "document number"}
    return said.get(column, column.replace("_", " "))


def _known(row: QuestionRow) -> dict[str, str]:
    """What a row of a small table is known by, whatever it is written in."""
    one = row.question
    return {
        "number": row.number,
        "part number": one.part_number or one.description,
        "assembly": one.assembly,
        "line": one.line,
        "key": one.key,
        "of": one.about,
    }


def _table(sheet: Any, key: str, rows: Sequence[QuestionRow], lists: _Words) -> None:  # noqa: ANN401
    from openpyxl.worksheet.datavalidation import DataValidation  # noqa: PLC0415 - as openpyxl

    columns = table_columns(key)
    _head(sheet, columns)
    line = 1
    for row in rows:
        known = _known(row)
        for filled in (*map(dict, row.filled), *([{}] * _BLANK)):
            line += 1
            for place, column in enumerate(columns, 1):
                cell = sheet.cell(line, place)
                _text(cell, known.get(column) or filled.get(column, ""))
                _styled(cell, to_fill=place > 2 and column not in KNOWN_BY)
    for place, column in enumerate(columns, 1):
        inner = next((each for each in TABLES[key] if heading(each) == column), None)
        words = words_of(facts().get(f"{key}.{inner}")) if inner else ()
        if column == _COMPLETE:
            words = _YES_NO
        if words and line > 1:
            check = DataValidation(type="list", formula1=lists.reference(words), allow_blank=True)
            check.errorStyle = "warning"
            check.showErrorMessage = True
            sheet.add_data_validation(check)
            letter = sheet.cell(1, place).column_letter
            check.add(f"{letter}2:{letter}{line}")
    _shape(sheet, columns)


def _head(sheet: Any, columns: Sequence[str]) -> None:  # noqa: ANN401
    from openpyxl.styles import Alignment, Font, PatternFill  # noqa: PLC0415 - as openpyxl

    for place, column in enumerate(columns, 1):
        cell = sheet.cell(1, place)
        _text(cell, column)
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor="DDDDDD")
        cell.alignment = Alignment(wrap_text=True, vertical="top")


def _shape(sheet: Any, columns: Sequence[str]) -> None:  # noqa: ANN401
    from openpyxl.utils import get_column_letter  # noqa: PLC0415 - as openpyxl

    for place, column in enumerate(columns, 1):
        dimension = sheet.column_dimensions[get_column_letter(place)]
        dimension.width = _WIDTHS.get(column, 18)
        dimension.hidden = column in KNOWN_BY
    sheet.freeze_panes = "B2"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = "1:1"


def _text(cell: Any, text: str) -> None:  # noqa: ANN401
    """A cell of text, whatever it begins with, that stays text when somebody types into it."""
    cell.number_format = "@"
    if text:
        cell.value = _printable(text)
        cell.data_type = "s"


def _printable(text: str) -> str:
    return "".join(each for each in text if each >= " " or each in "\n\t")


def _styled(cell: Any, *, to_fill: bool) -> None:  # noqa: ANN401
    from openpyxl.styles import Alignment, PatternFill  # noqa: PLC0415 - as openpyxl

    cell.alignment = Alignment(wrap_text=True, vertical="top")
    if to_fill:
        cell.fill = PatternFill("solid", fgColor="FFF6D6")


def sheets_as_csv(
    party: Party, rows: Sequence[QuestionRow], asked: str
) -> Iterator[tuple[str, bytes]]:
    """The same as `book` in CSV: the machines in one file, each small table in one of its own.

    Yields the ending of a name, `` or `materials`, and the file.
    """
    columns = columns_of(party)
    head = (*columns, "role", "vendor", "format", "asked")
    of_book = (party.role.value, party.vendor or "", FORMAT, asked)
    lines = []
    for row in rows:
        cells = _cells(party, row)
        lines.append((*(cells[column] for column in columns), *of_book))
    yield "", _csv(head, lines)
    for key, name in SHEETS.items():
        own = [row for row in rows if row.question.key == key]
        if own:
            inner = table_columns(key)
            told = []
            for row in own:
                known = _known(row)
                told += [
                    (*(known.get(c) or filled.get(c, "") for c in inner), *of_book)
                    for filled in (*map(dict, row.filled), *([{}] * _BLANK))
                ]
            yield name, _csv((*inner, "role", "vendor", "format", "asked"), told)


def _csv(head: Sequence[str], lines: Iterable[Sequence[str]]) -> bytes:
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(head)
    for line in lines:
        writer.writerow(map(inert, line))
    return b"\xef\xbb\xbf" + stream.getvalue().encode()
