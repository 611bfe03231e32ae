"""Answers that came in for facts which are stated already: the line as each of them has it.

They stand on the line, or in the library's entry of its part number. Nothing is overwritten. The
line is judged as it stands and as every answer that differs has it, and where there are several, as
all of them have it.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from areafit.errors import Collector, brief
from areafit.facts.part import Answered, Part
from areafit.file.library import Library, LibraryEntry, barred, entry_of
from areafit.file.notes import without_unknown
from areafit.file.part_model import AnsweredModel, PartModel
from areafit.file.source import Path, SourceFile
from areafit.values import Frozen, replace

Make = Callable[[SourceFile, int, PartModel, frozenset[str], Library], Part | None]
"""What makes a line of its model and a library, as the reader does with those that are written."""

BARRED = frozenset(
    {
        *("item", "line_id", "part_number", "kind", "location", "parent", "alternates", "proposed"),
        *("answered", "note", "vendor", "maker", "maker_number"),
    }
)
"""Keys that no answer states: the line would be another one."""


def see_answers(bom: SourceFile, line: PartModel, index: int) -> None:
    """Note answers of a line for keys that no answer may state."""
    if line.answered:
        _see(bom, line.answered, ("parts", index), "the line", BARRED)


def see_entry_answers(library: Library) -> None:
    """Note answers of the entries in use, for keys that no answer or no entry may state."""
    for entry in library.read:
        if entry.answers:
            of_place = {key for key in _KEYS if barred(f"part.{key}")}
            source = replace(entry.source, errors=library.errors)
            _see(source, entry.answers, entry.path, "the entry", BARRED | of_place)


def _see(
    source: SourceFile,
    answers: Sequence[AnsweredModel],
    path: Path,
    holder: str,
    refused: frozenset[str],
) -> None:
    for number, one in enumerate(answers):
        first = _steps(one.key)[0]
        if first in refused or first not in _KEYS:
            message = f"`{brief(one.key)}` is no fact that an answer states"
            remedy = f"name a key of {holder}, such as `marking` or `materials/0/material`"
            source.note((*path, "answered", number, "key"), message, remedy)


_KEYS = frozenset(key for keys in PartModel.keys().values() for key in keys)


class _Sheet(Frozen, eq=False):
    """The line or an entry as it is written, with the answers that stand there."""

    written: Any
    answers: Sequence[AnsweredModel]
    entry: LibraryEntry | None = None

    def values(self) -> Iterator[tuple[AnsweredModel, Any]]:
        """Each answer with its value as written."""
        listed = self.written["answered"]
        for number, one in enumerate(self.answers):
            yield one, (listed[number] if isinstance(listed, list) else listed)["value"]


def with_answers(  # noqa: PLR0913, PLR0917 - a line, and how lines are made
    bom: SourceFile,
    part: Part,
    line: PartModel | None,
    index: int,
    library: Library,
    make: Make,
) -> Part:
    """The part with the answers that came in for it, and itself as those have it that differ.

    What an entry's answer changes nothing of is left to the lines that take it.
    """
    sheets = tuple(_sheets(bom, library, line, index))
    if not any(sheet.answers for sheet in sheets):
        return part
    stated = [sheet.written for sheet in sheets]
    every = list(stated)
    answers: list[Answered] = []
    others: list[Part] = []

    def made(written: Sequence[Any]) -> Part | None:
        having = _having(library, sheets[1:], written[1:])
        return None if having is None else _made(bom, written[0], index, having, make)

    for i, sheet in enumerate(sheets):
        for one, value in sheet.values() if sheet.answers else ():
            steps = _steps(one.key)
            changed = _put(stated[i], steps, value)
            if changed is not None:
                every[i] = _put(every[i], steps, value)
            other = None if changed is None else made([*stated[:i], changed, *stated[i + 1 :]])
            if other == part and sheet.entry is not None:
                continue
            answers.append(
                Answered(
                    "/".join(map(str, steps)),
                    brief(_flat(_at(stated[i], steps))),
                    brief(_flat(value)),
                    one.document,
                    str(one.role),
                    one.on,
                    other == part,
                )
            )
            if other is not None and other != part:
                others.append(other)
    if len(others) > 1:
        together = made(every)
        if together is not None and together not in others:
            others.append(together)
    return replace(part, answered=tuple(answers), otherwise=tuple(others))


def _sheets(
    bom: SourceFile, library: Library, line: PartModel | None, index: int
) -> Iterator[_Sheet]:
    """The line, then the entries of it and of its alternates in which answers stand."""
    if line is None or not (line.answered or library):  # as most lines of most lists
        return
    yield _Sheet(bom.document.root["parts"][index], line.answered or ())
    asked = (line.part_number, *(one.part_number for one in line.alternates or ()))
    for number in dict.fromkeys(asked):
        entry = None if number is None else library.find(number)
        if entry is not None and entry.answers:
            yield _Sheet(entry.source.document.root["parts"][entry.number], entry.answers, entry)


def _having(library: Library, sheets: Sequence[_Sheet], written: Sequence[Any]) -> Library | None:
    """The library with entries as answers have them; None where one cannot be read."""
    for sheet, stated in zip(sheets, written, strict=True):
        if sheet.entry is not None and stated is not sheet.written:
            aside = replace(sheet.entry.source, errors=Collector())
            other = entry_of(aside, sheet.entry.number, stated)
            if other is None or aside.errors:
                return None
            library = library.having(other)
    return library


def _made(
    bom: SourceFile,
    written: Any,  # noqa: ANN401 - as written
    index: int,
    library: Library,
    make: Make,
) -> Part | None:
    """The line as an answer has it; None where that cannot be read, so that it stays open."""
    aside = replace(bom, errors=Collector())
    bare = {key: value for key, value in written.items() if key != "answered"}
    stated, unknown = without_unknown(
        type(written)(bare) if type(written) is dict else _as_map(written, bare)
    )
    model = aside.check(PartModel, stated, "parts", index)
    if model is None or aside.errors:
        return None
    part = make(aside, index, model, unknown, library)
    return None if aside.errors else part


def _as_map(like: Any, values: dict[str, Any]) -> Any:  # noqa: ANN401 - as written
    made = type(like)(values)
    made.first = getattr(like, "first", 0)
    return made


def _steps(key: str) -> tuple[str | int, ...]:
    """The steps of a key as it is written, `materials/0/material`, dots as good as strokes."""
    return tuple(
        int(step) if step.isdecimal() else step for step in key.replace(".", "/").split("/")
    )


def _at(node: Any, steps: Sequence[str | int]) -> Any:  # noqa: ANN401 - as written
    for step in steps:
        try:
            node = node[step]
        except (KeyError, IndexError, TypeError):
            return None
    return node


def _put(node: Any, steps: Sequence[str | int], value: Any) -> Any:  # noqa: ANN401 - as written
    """A copy of what is written with a value put at a path; None where the path leads nowhere."""
    step, rest = steps[0], steps[1:]
    if isinstance(node, dict) and isinstance(step, str):
        inner = _put(node.get(step, {}), rest, value) if rest else value
        return None if inner is None else _as_map(node, {**node, step: inner})
    if isinstance(node, list) and isinstance(step, int) and step < len(node):
        inner = _put(node[step], rest, value) if rest else value
        if inner is None:
            return None
        made = type(node)(inner if i == step else each for i, each in enumerate(node))
        if hasattr(node, "first"):
            made.first = node.first  # type: ignore[attr-defined]  # positions of the whole
        return made
    return None


def _flat(value: object) -> str:
    return ", ".join(_words(value)) or "not stated on the line"


def _words(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for key, each in value.items():
            yield f"{key} {', '.join(_words(each))}"
    elif isinstance(value, list):
        for each in value:
            yield from _words(each)
    elif value is not None:
        yield str(value)
