"""YAML to plain data with positions, by a loop over a parser's events.

Every scalar keeps its source text: part number 007, material 1.4301 and a value 1E5 would be
damaged by any resolver. Only what is left empty, `null` and `~` become None, and so does quoted
blank text, which states nothing either.
"""

from array import array
from collections.abc import Callable
from typing import Any

from ruamel.yaml.error import YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from areafit.file.limits import DEPTH, NODES
from areafit.file.parser import FAST, events
from areafit.file.positions import COLUMN_BITS, Document, Items, Map
from areafit.file.refusals import Refusals, decorated

_STARTS = (MappingStartEvent, SequenceStartEvent)
_ENDS = (MappingEndEvent, SequenceEndEvent)
_NULLS = ("", "~", "null", "Null", "NULL")


def load(text: str, refusals: Refusals, *, fast: bool = FAST) -> Document:
    """Read one document; what is refused is noted, and reading goes on where it can.

    `fast` asks for the C parser; the pure one gives the same document.

    Raises:
        InputErrors: the text is no YAML, nested too deep, or holds too much or nothing.
    """
    spots = array("q")
    try:
        root, start = _read(events(text, fast=fast), refusals, spots, decorated=decorated(text))
    except YAMLError as error:
        refusals.syntax(error)
    return Document(refusals.name, root, spots, start)


def _read(  # noqa: C901, PLR0912, PLR0915 - one flat loop: a call per event would cost too much
    next_event: Callable[[], Any],
    refusals: Refusals,
    all_spots: "array[int]",
    *,
    decorated: bool,
) -> tuple[Any, int]:
    values: dict[str, str | None] = dict.fromkeys(_NULLS)
    known_value = values.get
    names: dict[str, str] = {}
    outermost: list[Any] = []
    current: Any = outermost
    spots: list[int] = []
    stack: list[tuple[Any, list[int], bool]] = []
    in_map = wants_key = False
    key, key_spot = "", 0
    while True:
        event = next_event()
        kind = type(event)
        if kind is ScalarEvent:
            text: str = event.value
            mark = event.start_mark
            spot = mark.line << COLUMN_BITS | mark.column
            if decorated and (event.tag is not None or event.anchor is not None):
                refusals.decorated(event)
            if wants_key:
                if text not in names and refusals.good_key(event):
                    names[text] = text
                if text in current:
                    refusals.repeated_key(event, spots[2 * list(current).index(text)])
                elif text in names:
                    key, key_spot, wants_key = names[text], spot, False
                    continue
                _skip(next_event, next_event(), len(stack), refusals)
                continue
            if event.style:
                value = refusals.good_text(event)
            else:
                value = known_value(text, text)
                if value is text:  # not met before
                    values[text] = value = refusals.good_text(event)
                elif not text and in_map:
                    spot = key_spot
            if in_map:
                current[key] = value
                spots += key_spot, spot
                wants_key = True
            else:
                current.append(value)
                spots.append(spot)
        elif kind in _STARTS:
            mark = event.start_mark
            if event.tag is not None or event.anchor is not None:
                refusals.decorated(event)
            if len(stack) >= DEPTH:
                refusals.too_deep(mark)
            if wants_key:
                refusals.complex_key(mark)
                _skip(next_event, event, len(stack), refusals)
                _skip(next_event, next_event(), len(stack), refusals)
                continue
            spot = mark.line << COLUMN_BITS | mark.column
            child: Any = Map() if kind is MappingStartEvent else Items()
            if in_map:
                current[key] = child
                spots += key_spot, spot
            else:
                current.append(child)
                spots.append(spot)
            stack.append((current, spots, in_map))
            current, spots = child, []
            in_map = wants_key = kind is MappingStartEvent
        elif kind in _ENDS:
            current.first = len(all_spots)
            all_spots.extend(spots)
            if len(all_spots) > NODES:
                refusals.too_many(event.start_mark)
            current, spots, in_map = stack.pop()
            wants_key = in_map
        elif kind is AliasEvent:
            mark = event.start_mark
            spot = mark.line << COLUMN_BITS | mark.column
            refusals.alias(mark)
            if wants_key:
                _skip(next_event, next_event(), len(stack), refusals)
            elif in_map:
                current[key] = None
                spots += key_spot, spot
                wants_key = True
            else:
                current.append(None)
                spots.append(spot)
        elif kind is DocumentStartEvent:
            if outermost:
                refusals.second_document(event.start_mark)
                break
            refusals.version(event)
        elif kind is StreamEndEvent:
            break
    if not outermost:
        refusals.nothing()
    return outermost[0], spots[0]


def _skip(next_event: Callable[[], Any], event: Any, depth: int, refusals: Refusals) -> None:  # noqa: ANN401
    """Pass over the node that starts with `event`."""
    inner = 0
    while True:
        if type(event) in _STARTS:
            inner += 1
            if depth + inner > DEPTH:
                refusals.too_deep(event.start_mark)
        elif type(event) in _ENDS:
            inner -= 1
        if not inner:
            return
        event = next_event()
