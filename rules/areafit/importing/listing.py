"""Lines to the text of a list that the reader takes: what it refuses is left out and noted."""

from collections.abc import Iterator, Sequence
from typing import Any

from areafit.errors import InputError, InputErrors
from areafit.facts.bom import Bom, StatedAt
from areafit.file.editor import rendered
from areafit.file.library import same_number
from areafit.file.reader import Fetch, Folder, read
from areafit.file.text import scalar
from areafit.importing.lines import ExportLine
from areafit.pattern import pattern
from areafit.tables.table_set import Tables
from areafit.values import Frozen

_ROUNDS = 50
_NAME = "import"  # what positions call the list that is written
_INNER_KEY = pattern(r"[{ ]([a-z_]+): ")


class Head(Frozen):
    """What the list says of the machine; `code` is empty where the shared file states it."""

    number: str
    title: str = ""
    revision: str = ""
    code: str = ""
    areas: str = ""


class _Written(Frozen):
    text: str
    at: dict[int, tuple[int, str, str]]  # number of a text line: line of the list, key, and text


class _Taken(Frozen, eq=False):
    text: str
    lines: list[ExportLine]
    bom: Bom


def bom_text(
    head: Head,
    lines: Sequence[ExportLine],
    fetch: Fetch | None,
    notes: list[str],
    folder: Folder | None = None,
) -> str:
    """The text of a list that the reader takes; what it refuses is left out and noted.

    So is the material of a part whose entry in the library of `areas` states its materials.

    Raises:
        InputError: what is wrong is no single cell that could be left out.
    """
    taken = _taken(head, lines, fetch, notes, folder)
    bare = {i: line.without("materials") for i, line in doubled(taken.bom, taken.lines).items()}
    if not bare:
        return taken.text
    without = [bare.get(i, line) for i, line in enumerate(taken.lines)]
    lent = _taken(head, without, fetch, notes, folder)
    spoken = {i: names for i in bare if (names := lent_materials(lent.bom, i)) is not None}
    notes += told_of_lent([(taken.lines[i], names) for i, names in spoken.items()])
    kept = [bare[i] if i in spoken else line for i, line in enumerate(taken.lines)]
    return _write(head, kept).text


def readable(lines: Sequence[ExportLine], notes: list[str]) -> list[ExportLine]:
    """The lines without what the reader refuses, whatever list they come into.

    Raises:
        InputError: what is wrong is no single cell that could be left out.
    """
    return _taken(Head("import", code="IEC"), lines, None, notes, None).lines


def doubled(bom: Bom, lines: Sequence[ExportLine], first: int = 0) -> dict[int, ExportLine]:
    """Lines that state materials and whose part number has an entry, by their place in a list.

    `first` is the place of the first of them.
    """
    known = {number for entry in bom.library.used for number in entry.numbers}
    return {
        index: line
        for index, line in enumerate(lines, first)
        if "materials" in line.stated
        and "materials" not in line.proposed
        and same_number(line.part_number or "") in known
    }


def lent_materials(bom: Bom, index: int) -> tuple[str, ...] | None:
    """The materials that a line takes of its entry in the library; None where it takes none."""
    said = bom.statements.get(f"parts/{index}", ())
    if not any(one.path == "materials" and one.level is StatedAt.LIBRARY for one in said):
        return None
    return tuple(use.material for use in bom.parts[index].materials or ())


def told_of_lent(lines: Sequence[tuple[ExportLine, tuple[str, ...]]]) -> Iterator[str]:
    """That entries of the library speak for materials, and where an export has one that none has.

    Each line comes with the materials that its entry states.
    """
    if not lines:
        return
    items = ", ".join(line.item for line, _ in lines)
    yield (
        f"the library states the materials of item {items}; those of the export are not taken over"
    )
    differ: dict[str, None] = {}
    for line, names in lines:
        for use in line.stated["materials"]:
            if not any(_is_same_material(use["material"], name) for name in names):
                stated = ", ".join(names) or "none"
                differ[
                    f"{line.part_number}: material {use['material']} in the export, {stated} in "
                    "the library; correct the one that is wrong"
                ] = None
    yield from differ


def _is_same_material(one: str, other: str) -> bool:
    read = Tables.shipped().reading
    same = set(read("materials", one).ids) & set(read("materials", other).ids)
    return bool(same) or one.casefold() == other.casefold()


def _taken(
    head: Head,
    lines: Sequence[ExportLine],
    fetch: Fetch | None,
    notes: list[str],
    folder: Folder | None,
) -> _Taken:
    kept = list(lines)
    for _ in range(_ROUNDS):
        written = _write(head, kept)
        try:
            bom = read(written.text.encode(), _NAME, fetch, folder)
        except InputErrors as errors:
            _leave_out(kept, written, errors, notes)
        else:
            return _Taken(written.text, kept, bom)
    raise InputError("too many cells cannot be taken over", "look at the columns that are mapped")


def _leave_out(
    kept: list[ExportLine], written: _Written, errors: InputErrors, notes: list[str]
) -> None:
    done: set[tuple[int, str]] = set()
    for error in errors.errors:
        if error.position.file != _NAME:
            raise InputError(f"{error.position}: {error.message}", error.remedy)
        index, key, text = written.at.get(error.position.line, (0, "", ""))
        line = kept[index]
        if (index, key) in done:
            continue
        optional = key in line.stated or (key == "parent" and line.parent is not None)
        if not optional:
            raise InputError(error.message, error.remedy)
        done.add((index, key))
        inner = _inner(line.stated.get(key), text, error.position.column)
        told = f"{key}.{inner}" if inner else key
        notes.append(f"row {line.row}, {told}: left out, since {error.message}; {error.remedy}")
        kept[index] = line.without(key, inner)


def _inner(value: Any, text: str, column: int) -> str:  # noqa: ANN401 - as the editor writes values
    """The key inside a mapping that a column of a text line stands at, if others remain."""
    entries = value if isinstance(value, list) else [value]
    keys = {key for each in entries if isinstance(each, dict) for key in each}
    before = [found[1] for found in _INNER_KEY.finditer(text[: column - 1])]
    inner = before[-1] if before else ""
    return inner if inner in keys - {"material", "type", "number"} and len(keys) > 1 else ""


def _write(head: Head, lines: Sequence[ExportLine]) -> _Written:
    text = list(_head(head, lines))
    at: dict[int, tuple[int, str, str]] = {}
    for index, line in enumerate(lines):
        for key, value in line.facts().items():
            lead = "  - " if key == "item" else "    "
            text.append(f"{lead}{key}: {rendered(value)}")
            at[len(text)] = (index, key, text[-1])
    return _Written("\n".join(text) + "\n", at)


def _head(head: Head, lines: Sequence[ExportLine]) -> Iterator[str]:
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


def _places_of(lines: Sequence[ExportLine]) -> Iterator[str]:
    """The locations that lines name, each once, in their order."""
    yield from dict.fromkeys(place for line in lines for place in line.location)
