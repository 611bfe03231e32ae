"""Rows to the text of a list: which cell goes to which key, and what could not be taken over.

The text is valid by construction or by leaving out what the reader refuses.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from areafit.errors import InputError, InputErrors
from areafit.file.facts import facts
from areafit.file.fields import NOT_STATED
from areafit.file.reader import read
from areafit.file.text import refused, scalar
from areafit.importing.columns import Columns
from areafit.importing.sheets import Grid
from areafit.pattern import pattern
from areafit.values import Frozen, replace

# Cells that say nothing; `none` too: whoever filled in an export did not answer our question.
_NOTHING = NOT_STATED | {
    *("—", "keine", "kein", "entfällt", "unbekannt", "offen", "sans", "aucun", "aucune", "inconnu")
}
_PLACED = ("item", "location", "parent")  # not copied as they stand
_COPIED = tuple(
    row.key for row in facts().values() if row.column == row.key and row.key not in _PLACED
)
_NUMBERS = tuple(key for key in _COPIED if facts()[f"part.{key}"].unit == "number")
_LEVEL = pattern(r"\.*(\d{1,2})")
_COMMA = pattern(r"\d+,\d+")
_UNKNOWN_KIND = "[electrical, mechanical]"  # both sets of rules ask, until somebody says which
_OPTIONAL = ("parent", "certificate", "materials")
_ROUNDS = 50
_PLAIN_NUMBER = pattern(r"(?:0|[1-9]\d{0,8})(?:\.\d+)?")


class Line(Frozen):
    """One line: the row it comes from, its item, and texts by key in writing order."""

    row: int
    item: str
    location: str
    texts: dict[str, str]
    materials: tuple[str, ...] = ()
    certificate: str = ""
    parent: str = ""


def lines_of(
    grid: Grid, columns: Columns, *, place: str, decimal_comma: bool, notes: list[str]
) -> list[Line]:
    """The lines of all rows below the names of the columns; what is left out goes to `notes`.

    `place` is the location of lines that state none.

    Raises:
        InputError: there is no line.
    """
    found: list[Line] = []
    items: Counter[str] = Counter()
    above: list[str] = []
    _note_numbers(grid, columns, notes)
    for number, row in enumerate(grid.rows[1:], grid.start + 1):
        cells = _Cells(number, row, columns, notes)
        texts = {key: text for key in _COPIED if (text := cells.text(key))}
        if not texts.keys() & {"part_number", "description"} and not cells.text("item"):
            if any(row):
                notes.append(f"row {number}: nothing names the part; the row is left out")
            continue
        item = _item(cells, len(found) + 1, items, notes)
        if decimal_comma and grid.semicolons:
            texts |= {k: _pointed(v) for k, v in texts.items() if k in _NUMBERS}
        found.append(
            Line(
                row=number,
                item=item,
                location=cells.text("location") or place,
                texts=texts,
                materials=tuple(filter(None, map(str.strip, cells.text("material").split(";")))),
                certificate=cells.text("certificate"),
                parent=cells.text("parent") or _above(cells.text("level"), item, above),
            )
        )
    if not found:
        raise InputError("no row below the names of the columns holds a part")
    return found


def _note_numbers(grid: Grid, columns: Columns, notes: list[str]) -> None:
    for key in ("item", "part_number"):
        count = sum(
            column == columns.places.get(key) and row > grid.start for row, column in grid.numbers
        )
        if count:
            notes.append(f"{key}: {count} were stored as numbers; leading zeros were lost before")


class _Cells(Frozen):
    number: int
    row: Sequence[str]
    columns: Columns
    notes: list[str]

    def text(self, key: str) -> str:
        """The cell of a key, empty where it says nothing; refused characters are left out."""
        cell = self.columns.cell(self.row, key)
        if cell.casefold() in _NOTHING:
            return ""
        if refused(cell) is None:
            return cell
        self.notes.append(f"row {self.number}, {key}: characters that cannot be shown are left out")
        return "".join(sign for sign in cell if refused(sign) is None)


def _item(cells: _Cells, count: int, items: Counter[str], notes: list[str]) -> str:
    """The item as written, numbered on where it was met before."""
    written = cells.text("item")
    item = written or f"line {count}"
    items[item] += 1
    if items[item] > 1:
        item = f"{item} ({items[item]})"
        notes.append(f"row {cells.number}: the item {written!r} is not unique; taken as {item!r}")
        items[item] += 1
    return item


def _above(level: str, item: str, above: list[str]) -> str:
    """The item one level up, by a column of levels (1, 2, ..2); empty at the top."""
    found = _LEVEL.fullmatch(level)
    if found is None:
        return ""
    depth = min(int(found[1]), len(above) + 1)
    del above[max(depth - 1, 0) :]
    parent = above[-1] if above else ""
    above.append(item)
    return parent


def _pointed(text: str) -> str:
    return text.replace(",", ".") if _COMMA.fullmatch(text) else text


class Head(Frozen):
    """What the list says of the machine; `code` is empty where the shared file states it."""

    number: str
    title: str = ""
    revision: str = ""
    code: str = ""
    areas: str = ""


class _Written(Frozen):
    text: str
    at: dict[int, tuple[int, str]]  # number of a text line: which line of the list, and the key


def bom_text(
    head: Head,
    lines: Sequence[Line],
    fetch: Callable[[str], bytes] | None,
    notes: list[str],
) -> str:
    """The text of a list that the reader takes; what it refuses is left out and noted.

    Raises:
        InputError: what is wrong is no single cell that could be left out.
    """
    kept = list(lines)
    for _ in range(_ROUNDS):
        written = _write(head, kept)
        try:
            read(written.text.encode(), "import", fetch)
        except InputErrors as errors:
            _leave_out(kept, written, errors, notes)
        else:
            return written.text
    raise InputError("too many cells cannot be taken over", "look at the columns that are mapped")


def _leave_out(kept: list[Line], written: _Written, errors: InputErrors, notes: list[str]) -> None:
    done: set[tuple[int, str]] = set()
    for error in errors.errors:
        place = written.at.get(error.position.line)
        if place is None or (place[1] not in kept[place[0]].texts and place[1] not in _OPTIONAL):
            raise InputError(error.message, error.remedy)
        if place in done:
            continue
        done.add(place)
        index, key = place
        line = kept[index]
        notes.append(f"row {line.row}, {key}: left out, since {error.message}; {error.remedy}")
        kept[index] = _without(line, key)


def _without(line: Line, key: str) -> Line:
    match key:
        case "parent":
            return replace(line, parent="")
        case "certificate":
            return replace(line, certificate="")
        case "materials":
            return replace(line, materials=())
        case _:
            return replace(line, texts={k: v for k, v in line.texts.items() if k != key})


def _write(head: Head, lines: Sequence[Line]) -> _Written:
    text = list(_head(head, lines))
    at: dict[int, tuple[int, str]] = {}
    for index, line in enumerate(lines):
        for key, written in _line(line):
            text.append(written)
            at[len(text)] = (index, key)
    return _Written("\n".join(text) + "\n", at)


def _head(head: Head, lines: Sequence[Line]) -> Iterator[str]:
    yield "areafit: 1"
    yield "assembly:"
    yield f"  number: {scalar(head.number)}"
    for key, text in (("title", head.title), ("revision", head.revision)):
        if text:
            yield f"  {key}: {scalar(text)}"
    if head.areas:
        yield f"areas: {scalar(head.areas)}"
    if head.code:
        yield f"code: {head.code}"
    if not head.areas:
        yield "locations:  # nothing is stated of them yet: area, document, substances, ambient …"
        yield from (f"  {scalar(place)}: {{}}" for place in _places_of(lines))
    yield "parts:"


def _line(line: Line) -> Iterator[tuple[str, str]]:
    yield "item", f"  - item: {scalar(line.item)}"
    yield "location", f"    location: {scalar(line.location)}"
    if line.parent:
        yield "parent", f"    parent: {scalar(line.parent)}"
    if "kind" not in line.texts:
        yield "unknown kind", f"    kind: {_UNKNOWN_KIND}"
    for key, text in line.texts.items():
        plain = key in _NUMBERS and _PLAIN_NUMBER.fullmatch(text)
        yield key, f"    {key}: {text if plain else scalar(text)}"
    if line.materials:
        names = ", ".join(f"{{material: {scalar(name)}}}" for name in line.materials)
        yield "materials", f"    materials: [{names}]"
    if line.certificate:
        number = scalar(line.certificate)
        yield "certificate", f"    evidence: [{{type: certificate, number: {number}}}]"


def _places_of(lines: Sequence[Line]) -> Iterator[str]:
    """The locations that lines name, each once, in their order."""
    yield from dict.fromkeys(line.location for line in lines)
