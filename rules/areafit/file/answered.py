"""Answers that came in for facts which are stated already: the line as each of them has it.

Nothing is overwritten. The line is judged as it stands and as every answer that differs has it, and
where there are several, as all of them have it.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from areafit.errors import Collector, brief
from areafit.facts.part import Answered, Part
from areafit.file.part_model import PartModel
from areafit.file.source import SourceFile
from areafit.values import replace

Make = Callable[[SourceFile, int, PartModel, frozenset[str]], Part | None]
"""What makes a line of its model, as the reader does with those that are written."""

BARRED = frozenset(
    {
        *("item", "line_id", "part_number", "kind", "location", "parent", "alternates", "proposed"),
        *("answered", "note", "vendor", "maker", "maker_number"),
    }
)
"""Keys that no answer states: the line would be another one."""


def see_answers(bom: SourceFile, line: PartModel, index: int) -> None:
    """Note answers for keys that no answer may state."""
    for number, one in enumerate(line.answered or ()):
        first = _steps(one.key)[0]
        if first in BARRED or first not in _KEYS:
            message = f"`{brief(one.key)}` is no fact that an answer states"
            remedy = "name a key of the line, such as `marking` or `materials/0/material`"
            bom.note(("parts", index, "answered", number, "key"), message, remedy)


_KEYS = frozenset(key for keys in PartModel.keys().values() for key in keys)


def with_answers(  # noqa: PLR0913, PLR0917 - a line, and how lines are made
    bom: SourceFile,
    part: Part,
    line: PartModel | None,
    index: int,
    make: Make,
    strip: Callable[[Any], tuple[Any, frozenset[str]]],
) -> Part:
    """The part with the answers that came in for it, and itself as those have it that differ."""
    if line is None or not line.answered:
        return part
    written = bom.document.root["parts"][index]
    answers: list[Answered] = []
    others: list[Part] = []
    every: Any = written
    for number, one in enumerate(line.answered):
        value = written["answered"]
        value = value[number]["value"] if isinstance(value, list) else value["value"]
        steps = _steps(one.key)
        changed = _put(written, steps, value)
        every = _put(every, steps, value) if changed is not None else every
        other = None if changed is None else _made(bom, changed, index, make, strip)
        agrees = other is not None and other == part
        answers.append(
            Answered(
                "/".join(map(str, steps)),
                brief(_flat(_at(written, steps))),
                brief(_flat(value)),
                one.document,
                str(one.role),
                one.on,
                agrees,
            )
        )
        if other is not None and not agrees:
            others.append(other)
    if len(others) > 1:
        together = _made(bom, every, index, make, strip)
        if together is not None and together not in others:
            others.append(together)
    return replace(part, answered=tuple(answers), otherwise=tuple(others))


def _made(
    bom: SourceFile,
    written: Any,  # noqa: ANN401 - as written
    index: int,
    make: Make,
    strip: Callable[[Any], tuple[Any, frozenset[str]]],
) -> Part | None:
    """The line as an answer has it; None where that cannot be read, so that it stays open."""
    aside = replace(bom, errors=Collector())
    bare = {key: value for key, value in written.items() if key != "answered"}
    stated, unknown = strip(
        type(written)(bare) if type(written) is dict else _as_map(written, bare)
    )
    model = aside.check(PartModel, stated, "parts", index)
    if model is None or aside.errors:
        return None
    part = make(aside, index, model, unknown)
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
