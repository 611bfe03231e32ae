"""What is fuzzed: each target takes any bytes, and raises only where the program is wrong."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

import areafit
from areafit.errors import Collector, InputError, InputErrors
from areafit.facts.quantity import Dimension, QuantityError, parse, parse_range, show_range
from areafit.file.events import load
from areafit.file.text import decode as decode_bytes
from areafit.file.waivers import read_waivers
from areafit.importing import columns, lines, listing
from areafit.importing.sheets import read_text_table
from areafit.marking import decode, effective_level, read_area
from areafit.marking.canonical import canonical
from areafit_cli.commands.marking import as_data

SEEDS = Path(__file__).parent / "seeds"
RULES = [rule.id for rule in areafit.RULES]


def _said(error: ValueError) -> None:
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
    for before, after in ((span.low, again.low), (span.high, again.high)):
        assert abs(after - before) <= abs(before) / 10_000, (text, span, again)


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
    notes: list[str] = []
    try:
        rows = read_text_table(data)
        rows = rows.from_row(rows.start)
        found = columns.match(rows, {})
        taken = lines.lines_of(rows, found, place="p", decimal_comma=data[:1] == b"s", notes=notes)
        head = listing.Head("N-1", "", "", "IEC", "")
        text = listing.bom_text(head, taken, _no_file, notes)
    except InputError as error:
        _said(error)
        return
    areafit.read(text.encode(), "made.yaml")


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
}
