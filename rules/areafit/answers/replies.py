"""What came back in a workbook or in CSV: each cell read by its type, or refused with the reason.

Nothing is guessed. A number where a unit is asked, a formula, a date that a spreadsheet made, a
merged cell or a row that has lost what it is known by is told by sheet and cell.
"""

import csv
import io
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from areafit.answers.questions import SHORT, TABLES, Party
from areafit.answers.register import bare
from areafit.answers.workbook import (
    BOOK,
    FORMAT,
    KNOWN_BY,
    SHEETS,
    WORDS,
    heading,
    words_of,
)
from areafit.errors import InputError
from areafit.file.facts import FactRow, facts
from areafit.file.packed import looked_into
from areafit.file.text import yes_or_no
from areafit.pattern import pattern
from areafit.tables.words import is_placeholder
from areafit.values import Frozen
from areafit.verdict import Role

_COMPLETE = "this list is complete"
_HEAD_ROWS = 20
_HEADED_BY = frozenset({"number", "question", "answer", "document", "remark", *KNOWN_BY})
_HEADLESS = "the row with the names of the columns is gone; copy the answers into the book as sent"
_UNITLESS = frozenset({"number", "trade size"})
_LARGEST = 64 * 1024 * 1024
_INSTEAD = pattern(r"(not known|not available|follows on .+|we offer instead .+)")
_ISO = pattern(r"\d{4}-\d{2}-\d{2}")
_OF_TABLE = {name: key for key, name in SHEETS.items()}


class NoBookError(ValueError):
    """The file is none that was made for questions; the message says what to do."""


class AnswerCell(Frozen):
    """Where an answer was written: file, sheet and cell."""

    file: str
    sheet: str
    cell: str

    def __str__(self) -> str:
        return ", ".join(filter(None, (self.file, self.sheet, self.cell)))


class Reply(Frozen, eq=False):
    """An answer as it was written, for one question.

    `value` is a text, yes or no as a bool, or for a table a list of mappings. `instead` holds what
    was said instead of an answer. `refused` says why nothing can be taken; `text` is what was
    written then. `confirmed` says on which day, by which document and role the entry of a bought
    part was confirmed anew, where a person said so.
    """

    source: AnswerCell
    number: str
    party: Party
    assembly: str
    line: str
    key: str
    about: str
    value: Any = None
    text: str = ""
    document: str = ""
    on: str = ""
    remark: str = ""
    instead: str = ""
    refused: str = ""
    complete: bool | None = None
    confirmed: Mapping[str, str] | None = None

    @property
    def identity(self) -> tuple[str, str, str, str, str]:
        """As that of its question."""
        return (self.party.name, self.assembly, self.line, self.key, self.about)


class CellError(ValueError):
    """A cell that cannot be read as an answer; the message says why and what to write."""


class _Cell(Frozen, eq=False):
    """A cell by its type: text, number, bool, date; `bad` says what makes it unreadable."""

    value: Any
    name: str
    bad: str = ""

    @property
    def shown(self) -> str:
        if self.value is None:
            return ""
        if isinstance(self.value, datetime):
            return self.value.date().isoformat()
        return str(self.value).strip()


_Line = Mapping[str, _Cell]


def read_replies(data: bytes, name: str) -> tuple[Reply, ...]:
    """Every answer of a file that `areafit actions` made and somebody filled.

    Raises:
        NoBookError: the file is none of ours, or of a kind that is not read.
    """
    if len(data) > _LARGEST:
        raise NoBookError(f"{name} is larger than 64 MiB; it is no file of questions")
    if data.startswith(b"PK"):
        return tuple(_of_book(data, name))
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise NoBookError(f"{name} is an .xls; open it in a spreadsheet and save it as .xlsx")
    if data.startswith(b"%PDF"):
        raise NoBookError(
            f"{name} is a PDF; write its answers into the workbook, or give each by --number"
        )
    return tuple(_of_csv(data, name))


# Workbooks


def _opened(data: bytes, name: str) -> Any:  # noqa: ANN401 - of openpyxl
    import openpyxl  # noqa: PLC0415 - slow to import, and seldom needed

    try:
        names = looked_into(data, whole=True).names
    except InputError as error:
        raise NoBookError(f"{name} cannot be read as a workbook: {error}") from None
    if "mimetype" in names:
        raise NoBookError(f"{name} is an .ods; save it as .xlsx")
    try:
        return openpyxl.load_workbook(io.BytesIO(data))
    except Exception as error:  # noqa: BLE001 - whatever a broken archive makes openpyxl raise
        raise NoBookError(f"{name} cannot be read as a workbook: {error}") from None


def _of_book(data: bytes, name: str) -> Iterator[Reply]:
    book = _opened(data, name)
    party = _party(book, name)
    sheets = [sheet for sheet in book.worksheets if sheet.title not in {BOOK, WORDS}]
    tables: list[tuple[str, str, list[_Line]]] = []
    for sheet in sheets:
        if not hasattr(sheet, "iter_rows"):
            continue
        lines = list(_lines_of(sheet))
        if not lines and any(cell.value is not None for row in sheet.iter_rows() for cell in row):
            if sheet.max_row > 1:
                known = ("", party, "", "", "", "")
                yield Reply(AnswerCell(name, sheet.title, "A1"), *known, refused=_HEADLESS)
            continue
        key = _OF_TABLE.get(sheet.title)
        if lines and key is None and "answer" not in lines[0]:
            key = next((each for each in TABLES if heading(TABLES[each][0]) in lines[0]), None)
        if key is not None:
            tables.append((key, sheet.title, lines))
            continue
        for line in lines:
            yield from _answered(line, party, name, sheet.title)
    for key, title, lines in tables:
        yield from _tabled(key, lines, party, name, title)


def _party(book: Any, name: str) -> Party:  # noqa: ANN401 - of openpyxl
    if BOOK not in book.sheetnames:
        raise NoBookError(
            f"{name} has lost its sheet `{BOOK}`, which says whom it was made for; copy the "
            "answers into the workbook as it was sent"
        )
    said = {
        str(row[0].value): str(row[1].value or "")
        for row in book[BOOK].iter_rows(min_row=1, max_row=20, min_col=1, max_col=2)
        if row[0].value
    }
    return _party_of(said, name)


def _party_of(said: Mapping[str, str], name: str) -> Party:
    roles = {role.value: role for role in Role}
    if said.get("format") != FORMAT or said.get("role") not in roles:
        raise NoBookError(f"{name} was not made by `areafit actions`")
    return Party(roles[said["role"]], said.get("vendor") or None)


def _lines_of(sheet: Any) -> Iterator[_Line]:  # noqa: ANN401 - of openpyxl
    """The rows below the one with the names of the columns, wherever that stands."""
    merged = {
        (row, column)
        for each in sheet.merged_cells.ranges
        for row in range(each.min_row, each.max_row + 1)
        for column in range(each.min_col, each.max_col + 1)
        if each.size["rows"] > 1 or each.size["columns"] > 1
    }
    head: dict[int, str] = {}
    for row in sheet.iter_rows():
        if not head:
            names = {
                cell.column: str(cell.value).strip().casefold()
                for cell in row
                if isinstance(cell.value, str)
            }
            if len(_HEADED_BY.intersection(names.values())) > 1:
                head = names
            elif row[0].row > _HEAD_ROWS:
                return
            continue
        line = {head[cell.column]: _cell(cell, merged) for cell in row if cell.column in head}
        if any(cell.value not in {None, ""} or cell.bad for cell in line.values()):
            yield line


def _cell(cell: Any, merged: set[tuple[int, int]]) -> _Cell:  # noqa: ANN401 - of openpyxl
    if (cell.row, cell.column) in merged:
        bad = "the cell is merged with others; write the answer into each row"
        return _Cell(cell.value, cell.coordinate, bad)
    if cell.data_type == "f":
        return _Cell(str(cell.value), cell.coordinate, "the cell holds a formula; write the answer")
    if cell.data_type == "e":
        return _Cell(str(cell.value), cell.coordinate, "the cell holds an error of the spreadsheet")
    value = cell.value
    if isinstance(value, str) and value.startswith("'"):
        value = value[1:]
    return _Cell(value, cell.coordinate)


# CSV


def _of_csv(data: bytes, name: str) -> Iterator[Reply]:
    text = _decoded(data, name)
    first = text.splitlines()[0] if text.strip() else ""
    parted = max(",;\t", key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=parted))
    except csv.Error as error:
        raise NoBookError(f"{name} cannot be read as CSV: {error}") from None
    head = [cell.strip().casefold() for cell in rows[0]] if rows else []
    if "number" not in head or "format" not in head:
        raise NoBookError(f"{name} was not made by `areafit actions`; it has no column `number`")
    lines = []
    for place, cells in enumerate(rows[1:], 2):
        line = {
            column: _Cell(bare(cell.strip()).strip(), f"line {place}")
            for column, cell in zip(head, cells, strict=False)
        }
        if any(cell.value for cell in line.values()):
            lines.append(line)
    if not lines:
        return
    said = {each: _shown(lines[0], each) for each in ("format", "role", "vendor")}
    party = _party_of(said, name)
    key = next((each for each in TABLES if heading(TABLES[each][0]) in head), None)
    if "answer" not in head and key is not None:
        yield from _tabled(key, lines, party, name, "")
        return
    for line in lines:
        yield from _answered(line, party, name, "")


def _decoded(data: bytes, name: str) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", "replace")
    if b"\x00" in data[:4096]:
        raise NoBookError(f"{name} is neither a workbook nor CSV")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


# Rows


def _shown(line: _Line, column: str) -> str:
    return line[column].shown if column in line else ""


def _known(line: _Line, party: Party, source: AnswerCell) -> dict[str, Any]:
    """What a row says of its question, for `Reply`."""
    return {
        "source": source,
        "number": _shown(line, "number").upper(),
        "party": party,
        "assembly": _shown(line, "assembly"),
        "line": _shown(line, "line"),
        "key": _shown(line, "key"),
        "about": _shown(line, "of"),
    }


def _answered(line: _Line, party: Party, name: str, sheet: str) -> Iterator[Reply]:
    """The answer in a row of a machine's sheet; nothing where it is empty."""
    own = line.get("answer")
    remark = _shown(line, "remark")
    where = own.name if own is not None else next(iter(line.values())).name
    known = _known(line, party, AnswerCell(name, sheet, where))
    document, bad_document = _document(line)
    on, bad_on = _day(line.get("date"))
    if own is None:
        if known["number"] or known["key"]:
            yield Reply(
                **known, remark=remark, document=document, refused="the column `answer` is gone"
            )
        return
    text = own.shown
    if not text and not own.bad:
        return
    if not any(known[each] for each in ("number", "line", "key")):
        why = "the row has lost its number and its hidden cells; copy it from the book as sent"
        yield Reply(**known, text=text, refused=why)
        return
    told: dict[str, Any] = {"text": text, "document": document, "on": on, "remark": remark}
    if own.bad:
        yield Reply(**known, **told, refused=own.bad)
        return
    words = text.casefold()
    if _INSTEAD.fullmatch(words):
        yield Reply(**known, **told, instead=text)
        return
    refused = bad_document or bad_on
    value: Any = None
    if not refused:
        try:
            value = value_of(known["key"], own.value)
        except CellError as error:
            refused = str(error)
    yield Reply(**known, **told, value=value, refused=refused)


def _document(line: _Line) -> tuple[str, str]:
    cell = line.get("document")
    if cell is None or not cell.shown:
        return "", ""
    if cell.bad:
        return "", f"document: {cell.bad}"
    if not isinstance(cell.value, str):
        return "", f"document: {cell.name} holds no text; write the number as text"
    if is_placeholder(cell.shown):
        return "", f"document: {_NO_NUMBER.format(cell.shown)}"
    return cell.shown, ""


_NO_NUMBER = "'{}' names no document; write its number, or `follows on DATE` as the answer"


def _day(cell: _Cell | None) -> tuple[str, str]:
    if cell is None or not cell.shown:
        return "", ""
    if cell.bad:
        return "", f"date: {cell.bad}"
    try:
        return _a_date(cell.value), ""
    except CellError as error:
        return "", f"date: {error}"


def _a_date(value: Any) -> str:  # noqa: ANN401 - of any type
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, str) and _ISO.fullmatch(value.strip()):
        try:
            return date.fromisoformat(value.strip()).isoformat()
        except ValueError:
            pass
    raise CellError(f"{value} is no date; write 2026-11-30")


def value_of(key: str, value: Any) -> Any:  # noqa: ANN401, C901, PLR0911, PLR0912 - by its type
    """A cell as the value of a key: a text, a word of those listed, or yes and no as a bool.

    Raises:
        CellError: it is not of the type that the key asks for; the message says what to write.
    """
    if key.startswith("rule.") or key == "offer":
        return str(value)
    if key in TABLES and str(value).strip() != "none":
        raise CellError(f"the answer is a table; fill the sheet `{SHEETS[key]}`, or write `none`")
    row = _row(key)
    if row is None:
        raise CellError("the row no longer says which question it is; copy it from the book")
    words = words_of(row)
    if isinstance(value, bool):
        if set(words) == {"yes", "no"}:
            return value
        raise CellError(f"{value} stands for yes or no, and {_asked(row)} is asked")
    if row.unit == "date":
        return _a_date(value)
    if isinstance(value, datetime | date):
        raise CellError(
            f"the spreadsheet made a date of it; format the cell as text: {_asked(row)}"
        )
    if isinstance(value, int | float | Decimal):
        if row.unit in _UNITLESS:
            return str(value)
        if row.unit and row.unit != "yes|no":
            raise CellError(f"{value} has no unit; write the {row.unit} with its unit")
        raise CellError(
            f"the cell holds the number {value}, which may have lost zeros; format it as text"
        )
    text = str(value).strip()
    if text.startswith(("=", "+", "@")):
        raise CellError("the text begins as a formula does; write the answer itself")
    folded = text.casefold()
    if set(words) == {"yes", "no"}:
        answered = yes_or_no(text)
        if answered is not None:
            return answered
        raise CellError(f"{text!r} is neither yes nor no")
    if words:
        found = next((word for word in words if word.casefold() == folded), None)
        if found is not None:
            return found
        open_ = row.unit or row.words == ("none",)  # a quantity or any text, or none
        if not open_:
            raise CellError(f"{text!r} is none of: {', '.join(words)}")
    if row.unit not in _UNITLESS and row.unit and _BARE.fullmatch(text):
        raise CellError(f"{text} has no unit; write the {row.unit} with its unit")
    if key == "part.evidence.number" and is_placeholder(text):
        raise CellError(_NO_NUMBER.format(text))
    if row.unit.endswith("by group") and ":" in text:
        return _by_group(text)
    return text


def _by_group(text: str) -> dict[str, str]:
    """A figure for each group: `IIC: 83 nF, IIB: 0.65 µF`."""
    pairs = [each.partition(":") for each in text.replace(";", ",").split(",") if each.strip()]
    return {group.strip(): figure.strip() for group, _, figure in pairs}


def _row(key: str) -> FactRow | None:
    row = facts().get(key)
    last = key.rpartition(".")[2]
    return facts().get(f"{key}.{SHORT[last]}", row) if last in {"generates", "battery"} else row


def _asked(row: FactRow) -> str:
    words = words_of(row)
    return " or ".join(words) if words else row.unit or "a text"


# Tables


def _tabled(
    key: str, lines: Iterable[_Line], party: Party, name: str, sheet: str
) -> Iterator[Reply]:
    """The answers of a small table: its rows by question, each a list of entries."""
    gathered: dict[tuple[str, ...], list[_Line]] = {}
    for line in lines:
        if not any(_shown(line, each) for each in ("number", "line", *KNOWN_BY)):
            first = next(iter(line.values()))
            text = ", ".join(cell.shown for cell in line.values() if cell.shown)
            yield Reply(
                AnswerCell(name, sheet, first.name),
                *("", party, "", "", key, ""),
                text=text,
                refused="the row has lost its number and its hidden cells",
            )
            continue
        asked = (_shown(line, "number").upper(), _shown(line, "assembly"), _shown(line, "line"))
        gathered.setdefault(asked, []).append(line)
    for own in gathered.values():
        yield from _one_table(key, own, party, name, sheet)


_BARE = pattern(r"[-+]?\d+(?:[.,]\d+)?")
_NEEDED = {"part.materials": "material", "part.evidence": "number", "part.entries": "type"}


def _one_table(
    key: str, lines: list[_Line], party: Party, name: str, sheet: str
) -> Iterator[Reply]:
    needed = _NEEDED.get(key, TABLES[key][0])
    entries: list[dict[str, Any]] = []
    documents: dict[str, None] = {}
    days: dict[str, None] = {}
    refused, first, texts, complete, instead = "", "", [], None, ""
    known: dict[str, Any] = {}
    for line in lines:
        filled = {c: line[heading(c)] for c in TABLES[key] if heading(c) in line}
        where = next(iter(filled.values())).name if filled else next(iter(line.values())).name
        known = known or _known(line, party, AnswerCell(name, sheet, where))
        if needed not in filled:
            refused = refused or f"the column `{heading(needed)}` is gone"
            continue
        complete, bad = _completed(line, complete)
        main = filled[needed]
        if not main.shown and not main.bad:
            more = next((c for k, c in filled.items() if k != "component" and c.shown), None)
            if more is not None:
                bad = bad or f"{more.name}: `{heading(needed)}` beside it is empty"
                texts.append(more.shown)
            refused = refused or bad
            continue
        first = first or main.name
        texts.append(", ".join(cell.shown for cell in filled.values() if cell.shown))
        document, bad_document = _document(line)
        day, bad_day = _day(line.get("date"))
        documents |= {document: None} if document else {}
        days |= {day: None} if day else {}
        refused = refused or bad or bad_document or bad_day
        if _INSTEAD.fullmatch(main.shown.casefold()):
            instead = instead or texts[-1]
            continue
        entry, bad = _entry(key, filled)
        refused = refused or bad
        entries.append(entry)
    if instead and complete:  # of what is not known nobody can say that it is all
        complete = False
    if instead and not entries:
        known["source"] = AnswerCell(name, sheet, first)
        yield Reply(**known, text=instead, document=", ".join(documents), instead=instead)
        return
    if not entries and complete is None and not refused:
        return
    known["source"] = AnswerCell(name, sheet, first or known["source"].cell)
    remarks = [*(_shown(one, "remark") for one in lines), instead]
    remark = "; ".join(dict.fromkeys(filter(None, remarks)))
    yield Reply(
        **known,
        value=entries or None,
        text="; ".join(texts),
        document=", ".join(documents),
        on=max(days, default=""),
        remark=remark,
        refused=refused,
        complete=complete,
    )


def _completed(line: _Line, before: bool | None) -> tuple[bool | None, str]:  # noqa: FBT001
    """Whether a table is said to be complete, in any of its rows; or why that cannot be read."""
    cell = line.get(_COMPLETE)
    if cell is None or (not cell.shown and not cell.bad):
        return before, ""
    said = yes_or_no(cell.shown)
    if cell.bad or said is None:
        return before, f"{cell.name}: {cell.bad or f'{cell.shown!r} is neither yes nor no'}"
    return said and before is not False, ""


def _entry(key: str, filled: Mapping[str, _Cell]) -> tuple[dict[str, Any], str]:
    """One row of a table as the list takes it, or why a cell of it cannot be read."""
    entry: dict[str, Any] = {}
    refused = ""
    for column, cell in filled.items():
        if not cell.shown and not cell.bad:
            continue
        refused = refused or (cell.bad and f"{cell.name}: {cell.bad}")
        try:
            entry[column] = value_of(f"{key}.{column}", cell.value)
        except CellError as error:
            refused = refused or f"{cell.name}: {error}"
    return entry, refused
