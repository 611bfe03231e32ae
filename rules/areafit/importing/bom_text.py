"""Lines as the text of a list, valid by construction or by leaving out what the reader refuses."""

from collections.abc import Callable, Iterator, Sequence

from areafit.errors import InputErrors
from areafit.file.reader import read
from areafit.file.scalar import scalar
from areafit.importing.grid import GridError
from areafit.importing.lines import NUMBERS, Line, places_of
from areafit.pattern import pattern
from areafit.values import Frozen, replace

_UNKNOWN_KIND = "[electrical, mechanical]"  # both sets of rules ask, until somebody says which
_OPTIONAL = ("parent", "certificate", "materials")
_ROUNDS = 50
_PLAIN_NUMBER = pattern(r"(?:0|[1-9]\d{0,8})(?:\.\d+)?")


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
        GridError: what is wrong is no single cell that could be left out.
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
    raise GridError("too many cells cannot be taken over; look at the columns that are mapped")


def _leave_out(kept: list[Line], written: _Written, errors: InputErrors, notes: list[str]) -> None:
    done: set[tuple[int, str]] = set()
    for error in errors.errors:
        place = written.at.get(error.position.line)
        if place is None or (place[1] not in kept[place[0]].texts and place[1] not in _OPTIONAL):
            raise GridError(f"{error.message}; {error.remedy}")
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
        yield from (f"  {scalar(place)}: {{}}" for place in places_of(lines))
    yield "parts:"


def _line(line: Line) -> Iterator[tuple[str, str]]:
    yield "item", f"  - item: {scalar(line.item)}"
    yield "location", f"    location: {scalar(line.location)}"
    if line.parent:
        yield "parent", f"    parent: {scalar(line.parent)}"
    if "kind" not in line.texts:
        yield "unknown kind", f"    kind: {_UNKNOWN_KIND}"
    for key, text in line.texts.items():
        plain = key in NUMBERS and _PLAIN_NUMBER.fullmatch(text)
        yield key, f"    {key}: {text if plain else scalar(text)}"
    if line.materials:
        names = ", ".join(f"{{material: {scalar(name)}}}" for name in line.materials)
        yield "materials", f"    materials: [{names}]"
    if line.certificate:
        number = scalar(line.certificate)
        yield "certificate", f"    evidence: [{{type: certificate, number: {number}}}]"
