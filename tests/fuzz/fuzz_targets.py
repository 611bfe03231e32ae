"""What is fuzzed: each target takes any bytes, and raises only where the program is wrong."""

import io
import zipfile
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

import areafit
from areafit.answers.questions import questions
from areafit.answers.register import (
    Register,
    RegisterError,
    enrolled,
    read_register,
    written_register,
)
from areafit.answers.replies import NoBookError, read_replies
from areafit.answers.taking import checked, take
from areafit.errors import Collector, InputError, InputErrors
from areafit.facts.quantity import Dimension, QuantityError, parse, parse_range, show_range
from areafit.file.editor import EditError, Put, Remove, edit
from areafit.file.events import load
from areafit.file.library import read_library
from areafit.file.text import decode as decode_bytes
from areafit.file.waivers import read_waivers
from areafit.importing import columns, lines, listing
from areafit.importing.revision import revise
from areafit.importing.sheets import Grid, read_text_table, read_workbook
from areafit.marking import decode, effective_level, read_area
from areafit.marking.canonical import canonical
from areafit_cli import words
from areafit_cli.commands.marking import as_data
from areafit_cli.commands.substance import of_mixture
from areafit_cli.errors import CallError

SEEDS = Path(__file__).parent / "seeds"
RULES = [rule.id for rule in areafit.RULES]


def _said(error: Exception) -> None:
    assert str(error)


def _told(errors: InputErrors) -> None:
    """Every mistake has a position and says what to do."""
    assert errors.errors
    for error in errors.errors:
        assert error.position.line > 0, error
        assert error.position.column > 0, error
        assert error.message, error
        assert error.remedy, error


def fuzz_yaml(data: bytes) -> None:
    """The reader of bytes and YAML, alone."""
    errors = Collector()
    try:
        document = load(decode_bytes(data, "x", errors), "x", errors)
    except InputErrors as found:
        _told(found)
        return
    pending: list[tuple[tuple[str | int, ...], object]] = [((), document.root)]
    while pending:
        path, node = pending.pop()
        position = document.at(path)
        assert position.line > 0
        if isinstance(node, dict):
            pending += [((*path, key), inner) for key, inner in node.items()]
        elif isinstance(node, list):
            pending += [((*path, place), inner) for place, inner in enumerate(node)]


def fuzz_bom(data: bytes) -> None:
    """A whole list: it is judged, or its mistakes are told."""
    try:
        bom = areafit.read(data, "x.yaml")
    except InputErrors as errors:
        _told(errors)
        return
    options = areafit.Options(as_of=date(2026, 1, 1))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    assert report.gate


def fuzz_marking(data: bytes) -> None:
    """A nameplate."""
    text = data.decode("utf-8", "replace")
    marking = decode(text)
    assert marking.codes or any(problem.unread for problem in marking.problems)
    assert as_data(marking)["text"] == text
    for code in marking.codes:
        effective_level(code)
        canonical(code)


def fuzz_area(data: bytes) -> None:
    """The words for an area."""
    reading = read_area(data.decode("utf-8", "replace"))
    assert reading.areas or reading.problems


def fuzz_quantity(data: bytes) -> None:
    """A quantity; the first byte says of what. What is shown of it is read as the same again."""
    if not data:
        return
    dimensions = list(Dimension)
    dimension = dimensions[data[0] % len(dimensions)]
    text = data[1:].decode("utf-8", "replace")
    try:
        parse(text, dimension)
    except QuantityError as error:
        _said(error)
    try:
        span = parse_range(text, dimension)
    except QuantityError:
        return
    assert span.low.is_finite()
    assert span.low <= span.high
    try:
        again = parse_range(show_range(span, dimension), dimension)
    except QuantityError:  # larger or smaller than anybody writes it: `1.1 kF/m`
        return
    rounded = Decimal("0.005") if dimension is Dimension.TEMPERATURE else Decimal(0)
    for before, after in ((span.low, again.low), (span.high, again.high)):
        assert abs(after - before) <= max(rounded, abs(before) / 10_000), (text, span, again)


def fuzz_waivers(data: bytes) -> None:
    """A waiver file."""
    try:
        waivers = read_waivers(data, "x.yaml", RULES)
    except InputErrors as errors:
        _told(errors)
        return
    assert all(waiver.reason and waiver.approved_by for waiver in waivers)


def fuzz_import(data: bytes) -> None:
    """An export: what is written of it can be read as a list."""
    try:
        rows = read_text_table(data)
    except InputError as error:
        _said(error)
        return
    _imported(rows, comma=data[:1] == b"s")


def _imported(rows: Grid, *, comma: bool) -> None:
    notes: list[str] = []
    try:
        rows = rows.from_row(columns.first_row(rows, {}))
        found = columns.match(rows, {})
        taken = lines.lines_of(rows, found, place="p", decimal_comma=comma, notes=notes)
        head = listing.Head("N-1", "", "", "IEC", "")
        text = listing.bom_text(head, taken, _no_file, notes)
    except InputError as error:
        _said(error)
        return
    areafit.read(text.encode(), "made.yaml")


def fuzz_into(data: bytes) -> None:
    """An export laid over a list: it is refused, or what comes of it can be read."""
    notes: list[str] = []
    try:
        rows = read_text_table(data)
        rows = rows.from_row(columns.first_row(rows, {}))
        found = columns.match(rows, {})
        taken = lines.lines_of(rows, found, place="a", decimal_comma=False, notes=notes)
        made = revise(LIST, "x.yaml", taken, _as_list, remove_gone=data[-1:] == b"\n", notes=notes)
    except InputErrors as errors:
        _told(errors)
        return
    except InputError as error:
        _said(error)
        return
    _as_list(made.data)


def _packed(sheet: bytes, book: bytes) -> bytes:
    """A workbook by its sheet, since bytes of an archive itself seldom come to be one."""
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(book)) as old,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as new,
    ):
        for name in old.namelist():
            new.writestr(name, sheet if name.endswith("worksheets/sheet1.xml") else old.read(name))
    return stream.getvalue()


@cache
def _book() -> bytes:
    return (SEEDS / "sheet" / "book.xlsx").read_bytes()


def fuzz_sheet(data: bytes) -> None:
    """A workbook, as an export and as a book of answers; anything not an archive is a sheet."""
    data = data if data.startswith(b"PK") else _packed(data, _book())
    try:
        rows = read_workbook(data, "M-1")
    except InputError as error:
        _said(error)
    else:
        _imported(rows, comma=False)
    fuzz_answers(data)


def fuzz_answers(data: bytes) -> None:
    """Answers that came back: each is taken or refused, and the list can be read then."""
    try:
        replies = read_replies(data, "x.csv")
    except NoBookError as error:
        _said(error)
        return
    assert all(reply.refused or reply.source for reply in replies)
    good, bad = checked(replies, _asked())
    assert all(reply.refused for reply in bad)
    taken = take(LIST, "x.yaml", good, _as_list, date(2026, 1, 1))
    _as_list(taken.data)


@cache
def _asked() -> Register:
    options = areafit.Options(as_of=date(2026, 1, 1))
    report = areafit.judge(_as_list(LIST), areafit.Tables.shipped(), options)
    return enrolled(Register(), questions(report), date(2026, 1, 1))[0]


def fuzz_register(data: bytes) -> None:
    """The register: what is read and written is read as the same again."""
    try:
        register = read_register(data, "questions.csv")
    except RegisterError as error:
        _said(error)
        return
    again = read_register(written_register(register), "questions.csv")
    assert again.entries == register.entries, (again.entries, register.entries)


LIST = b"""areafit: 1
assembly: {number: M-1, assessment: A-1}
code: IEC
locations:
  a: {area: "Zone 1, IIB, T3", document: D, substances: [ethanol], chemicals: none, ambient: 5..40 C}
library: bought.yaml
parts:
  - {item: "1", part_number: P-1, description: Frame, location: a, kind: structural}
  - {item: "2", part_number: P-2, description: Sensor, vendor: V-1, parent: "1", kind: electrical}
  - {item: "3", part_number: P-3, description: Hose, parent: "1", kind: mechanical, marking: CE}
"""  # noqa: E501 - one place


def _as_list(data: bytes, library: bytes = b"areafit-parts: 1\nparts: {}\n") -> areafit.Bom:
    return areafit.read(data, "x.yaml", lambda _: library)


def fuzz_library(data: bytes) -> None:
    """A library, by itself and below a list whose lines bear numbers of it."""
    try:
        numbers = [entry.number for entry in read_library([("x.yaml", data)]).all()]
    except InputErrors as errors:
        _told(errors)
        numbers = []
    options = areafit.Options(as_of=date(2026, 1, 1))
    text = LIST.decode()
    try:
        listed = (
            b"" if not numbers else edit(LIST, "x", Put(("parts", 1, "part_number"), numbers[0]))
        )
        bom = _as_list(listed or text.encode(), data)
    except EditError as error:  # a number that holds what no text of a list may
        _said(error)
    except InputErrors as errors:
        _told(errors)
    else:
        assert areafit.judge(bom, areafit.Tables.shipped(), options).gate


def fuzz_notes(data: bytes) -> None:
    """What the notes of a list say; anything may follow them."""
    fuzz_bom(LIST.replace(b"library: bought.yaml\n", b"unless_stated:\n" + data + b"\n"))


def fuzz_tables(data: bytes) -> None:
    """A company's own table; the first line names it."""
    name, _, rows = data.partition(b"\n")
    files = {f"{name.decode('utf-8', 'replace')}.csv": rows}
    files.setdefault(
        "sources.csv",
        b"id,title,edition,publisher,kind,read_on,note\ns,S,,P,supplier,2026-01-01,\n",
    )
    try:
        tables = areafit.Tables.overlaid(files, date(2026, 1, 1))
        for kind in ("materials", "chemicals", "substances", "dusts"):
            tables.ids(kind)
        assert tables.substances("ethanol")
        report = areafit.judge(_as_list(LIST), tables, areafit.Options(as_of=date(2026, 1, 1)))
    except areafit.TableError as error:
        _said(error)
        return
    assert report.gate


def fuzz_mixture(data: bytes) -> None:
    """A mixture as `areafit substance` takes it; a temperature may stand behind `@`."""
    text, _, heat = data.decode("utf-8", "replace").partition("@")
    try:
        mixed = words.mixture(text)
        if mixed is not None:
            assert of_mixture(mixed, heat or None, areafit.Tables.shipped())["answer"]
    except CallError as error:
        _said(error)


def fuzz_edit(data: bytes) -> None:
    """The editor: a change is made, or refused; nothing else of the list becomes another."""
    errors = Collector()
    try:
        root = load(decode_bytes(data, "x", errors), "x", errors).root
    except InputErrors:
        return
    paths: list[tuple[str | int, ...]] = [("new",)]
    if isinstance(root, dict):
        for key, value in list(root.items())[:5]:
            paths.append((key,))
            if isinstance(value, dict):
                paths += [(key, inner) for inner in [*list(value)[:2], "new"]]
            if isinstance(value, list):
                paths += [(key, 0), (key, len(value))]
    for path in paths:
        for change in (Put(path, "a: b"), Put(path, {"x": ["1", True]}, block=True), Remove(path)):
            try:
                edit(data, "x", change)
            except InputErrors as refused:
                _told(refused)
            except EditError as refused:
                _said(refused)


def _no_file(name: str) -> bytes:
    raise OSError(name)


TARGETS: Mapping[str, Callable[[bytes], None]] = {
    "yaml": fuzz_yaml,
    "bom": fuzz_bom,
    "marking": fuzz_marking,
    "area": fuzz_area,
    "quantity": fuzz_quantity,
    "waivers": fuzz_waivers,
    "import": fuzz_import,
    "into": fuzz_into,
    "sheet": fuzz_sheet,
    "answers": fuzz_answers,
    "register": fuzz_register,
    "library": fuzz_library,
    "notes": fuzz_notes,
    "tables": fuzz_tables,
    "mixture": fuzz_mixture,
    "edit": fuzz_edit,
}
