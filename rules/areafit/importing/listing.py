"""Lines to the text of a list that the reader takes: what it refuses is left out and noted."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from areafit.errors import InputError, InputErrors
from areafit.file.editor import rendered
from areafit.file.reader import read
from areafit.file.text import scalar
from areafit.importing.lines import ExportLine
from areafit.pattern import pattern
from areafit.values import Frozen

_ROUNDS = 50
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


def bom_text(
    head: Head, lines: Sequence[ExportLine], fetch: Callable[[str], bytes] | None, notes: list[str]
) -> str:
    """The text of a list that the reader takes; what it refuses is left out and noted.

    Raises:
        InputError: what is wrong is no single cell that could be left out.
    """
    return _taken(head, lines, fetch, notes)[0]


def readable(lines: Sequence[ExportLine], notes: list[str]) -> list[ExportLine]:
    """The lines without what the reader refuses, whatever list they come into.

    Raises:
        InputError: what is wrong is no single cell that could be left out.
    """
    return _taken(Head("import", code="IEC"), lines, None, notes)[1]


def _taken(
    head: Head, lines: Sequence[ExportLine], fetch: Callable[[str], bytes] | None, notes: list[str]
) -> tuple[str, list[ExportLine]]:
    kept = list(lines)
    for _ in range(_ROUNDS):
        written = _write(head, kept)
        try:
            read(written.text.encode(), "import", fetch)
        except InputErrors as errors:
            _leave_out(kept, written, errors, notes)
        else:
            return written.text, kept
    raise InputError("too many cells cannot be taken over", "look at the columns that are mapped")


def _leave_out(
    kept: list[ExportLine], written: _Written, errors: InputErrors, notes: list[str]
) -> None:
    done: set[tuple[int, str]] = set()
    for error in errors.errors:
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
