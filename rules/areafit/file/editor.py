"""The one editor of our files: a value put, replaced or removed, every other byte as it was.

A change names a value by its path (`("parts", 3, "bonded")`). The text is cut at the places that
the parser's own events give, in block and in flow style; comments, order, line ends and encoding
stay. What was made is read again and must hold the old values but for the change.
"""

import codecs
import json
import re
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Any, TypeAlias

from ruamel.yaml.events import (
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    StreamStartEvent,
)

from areafit.errors import Collector, InputErrors
from areafit.file.events import events, load
from areafit.file.text import decode, encoding_of, scalar
from areafit.values import Frozen

Path: TypeAlias = tuple[str | int, ...]
Value: TypeAlias = "str | bool | int | date | Sequence[Value] | Mapping[str, Value]"
_WORDS = frozenset({"none", "unknown"})
_ENDS = re.compile("\r\n|\r|\n")
_COLON = re.compile(r"(?:\s|#[^\r\n]*)*:")
_AROUND = (StreamStartEvent, DocumentStartEvent)


class EditError(ValueError):
    """A change that cannot be made without touching more than it should; the message says why."""


class Put(Frozen, eq=False):
    """A value at a path, in place of what is there; an index behind the last one adds an entry.

    `block`: a mapping added to a block has a line for each key, and for each mapping of a list.
    """

    path: Path
    value: Any
    block: bool = False


class Remove(Frozen, eq=False):
    """The key or the entry at the end of a path, with its value."""

    path: Path


Change: TypeAlias = Put | Remove


def edit(data: bytes, name: str, *changes: Change) -> bytes:
    """The file with the changes made one after the other.

    Args:
        data: the file as it is.
        name: what positions call it.
        changes: each with the path that its value has when its turn comes.

    Raises:
        InputErrors: the file cannot be read, or uses what our files may not (anchors, tags).
        EditError: a path leads nowhere, or the result would not be read as it should.
    """
    for change in changes:
        data = _edited(data, name, [change])
    return data


def edit_at_once(data: bytes, name: str, changes: Sequence[Change]) -> bytes:
    """The file with all changes made, each with the path that its value has in it as it is.

    Values are put first, in order, then what is removed. As `edit`, but the file is read once for
    all, so that a thousand changes take no longer than a few; changes that touch one another are
    made one after the other.
    """
    puts = [each for each in changes if isinstance(each, Put)]
    removes = sorted((each for each in changes if isinstance(each, Remove)), key=_from_the_end)
    ordered: list[Change] = [*puts, *removes]
    try:
        return _edited(data, name, ordered) if ordered else data
    except _TouchError:
        return edit(data, name, *ordered)


class _TouchError(EditError):
    """Two changes touch the same text."""


def _from_the_end(change: Remove) -> list[tuple[int, str]]:
    """Entries behind others first: their places move when those are removed."""
    return [(-step, "") if isinstance(step, int) else (0, step) for step in change.path]


def _edited(data: bytes, name: str, changes: Sequence[Change]) -> bytes:
    if not all(change.path for change in changes):
        raise EditError("the whole file is not replaced by an edit")
    text, expected = _read(data, name)
    for change in changes:
        expected = _changed(expected, change.path, change)
    places = _Text(text)
    cuts = [
        places.put(change.path, change.value, block=change.block)
        if isinstance(change, Put)
        else places.remove(change.path)
        for change in changes
    ]
    encoded = _encoded(data, _with_cuts(text, cuts))
    try:
        _, found = _read(encoded, name)
    except InputErrors as errors:
        raise EditError(f"the change would not be read: {errors.errors[0].message}") from None
    if found != expected:
        raise EditError("the change would alter more than it should")
    return encoded


_Cut = tuple[int, int, str]  # from where to where, and what stands there then


def _with_cuts(text: str, cuts: Sequence[_Cut]) -> str:
    """The text with all cuts; what is added at one place keeps its order."""
    pieces: list[str] = []
    end = 0
    for start, stop, new in sorted(cuts, key=lambda cut: cut[:2]):
        if start < end:
            raise _TouchError("two changes touch the same text")
        pieces += (text[end:start], new)
        end = stop
    return "".join((*pieces, text[end:]))


def _read(data: bytes, name: str) -> tuple[str, Any]:
    errors = Collector()
    text = decode(data, name, errors)
    root = load(text, name, errors).root
    if errors:
        raise errors.all()
    return text, _plain(root)


def _encoded(data: bytes, text: str) -> bytes:
    if encoding_of(data) == "utf-16":
        little = data.startswith(codecs.BOM_UTF16_LE)
        bom, codec = data[:2], "utf-16-le" if little else "utf-16-be"
        return bom + text.encode(codec)
    bom = codecs.BOM_UTF8 if data.startswith(codecs.BOM_UTF8) else b""
    return bom + text.encode()


# What the values should be


def _plain(value: Any) -> Any:  # noqa: ANN401 - any value of a file
    """A value as our reader has it: texts, lists and mappings."""
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, date):
        return value.isoformat()
    if value is None or isinstance(value, str):
        return value
    return str(value)


def _changed(node: Any, path: Path, change: Change) -> Any:  # noqa: ANN401 - any value
    """The values of a file with the change in them."""
    step, rest = path[0], path[1:]
    copy: Any
    if isinstance(node, dict) and isinstance(step, str):
        known, copy = step in node, dict(node)
    elif isinstance(node, list) and isinstance(step, int) and 0 <= step <= len(node):
        known, copy = step < len(node), list(node)
    else:
        raise EditError(f"{step!r} leads nowhere")
    if rest:
        if not known:
            raise EditError(f"there is no {step!r} to edit below")
        copy[step] = _changed(node[step], rest, change)
    elif isinstance(change, Remove):
        if not known:
            raise EditError(f"there is no {step!r} to remove")
        del copy[step]
    elif known or isinstance(copy, dict):
        copy[step] = _plain(change.value)
    else:
        copy.append(_plain(change.value))
    return copy


# Where they stand


class _Node:
    """A value of the text from `start` up to `end`; children are (key, value) or (None, value).

    `name` is the text of a scalar, `written` says that there is any.
    """

    __slots__ = ("children", "end", "flow", "mapping", "name", "start")

    def __init__(self, start: int, end: int, name: str | None = None) -> None:
        self.start = start
        self.end = end
        self.name = name
        self.mapping = False
        self.flow = False
        self.children: list[tuple[_Node | None, _Node]] = []

    @property
    def written(self) -> bool:
        return self.end > self.start


class _Text:
    """A text and the places of all values in it."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._starts = [0, *(found.end() for found in _ENDS.finditer(text))]
        first = _ENDS.search(text)
        self._break = first[0] if first else "\n"
        self._next: Callable[[], Any] = events(text)
        event = self._next()
        while isinstance(event, _AROUND):
            event = self._next()
        self._root = self._node(event)

    # Reading places

    def _node(self, event: Any) -> _Node:  # noqa: ANN401 - of the parser
        start, end = self._index(event.start_mark), self._index(event.end_mark)
        if isinstance(event, ScalarEvent):
            if event.style in ("|", ">"):
                end = start + len(self._text[start:end].rstrip())
            return _Node(start, end, event.value)
        node = _Node(start, end)
        node.flow = bool(event.flow_style)
        node.mapping = isinstance(event, MappingStartEvent)
        while not isinstance(event := self._next(), MappingEndEvent | SequenceEndEvent):
            key = self._node(event) if node.mapping else None
            value = self._node(self._next() if node.mapping else event)
            if not value.written and key is not None:
                value.start = value.end = self._behind_colon(key)
            node.children.append((key, value))
        if node.flow:
            node.end = self._index(event.end_mark)
        elif node.children:  # the parser ends a block behind the comments that follow it
            node.end = node.children[-1][1].end
        return node

    def _index(self, mark: Any) -> int:  # noqa: ANN401 - of the parser
        if mark.line >= len(self._starts):  # the parser counts a line behind the last one
            return len(self._text)
        at: int = self._starts[mark.line] + mark.column
        return min(at, len(self._text))

    def _behind_colon(self, key: _Node) -> int:
        """Where the value of a key would begin that has none; a key without a colon ends there."""
        colon = _COLON.match(self._text, key.end)
        return key.end if colon is None else colon.end()

    def _find(self, path: Path) -> tuple[_Node, int]:
        """The mapping or list that holds the last step of a path, and the place of it there.

        The place is the number of children where there is none yet.
        """
        *above, last = path
        node = self._root
        for step in above:
            node = node.children[self._place(node, step)][1]
        return node, self._place(node, last)

    @staticmethod
    def _place(node: _Node, step: str | int) -> int:
        if isinstance(step, int):
            return step
        names = [key.name for key, _ in node.children if key is not None]
        return names.index(step) if step in names else len(names)

    # Changing

    def put(self, path: Path, value: Value, *, block: bool = False) -> _Cut:
        node, place = self._find(path)
        if place < len(node.children):
            return self._replaced(*node.children[place], value)
        key = path[-1] if isinstance(path[-1], str) else None
        if node.flow:
            return self._flow_added(node, key, value)
        if block and key is not None and isinstance(value, Mapping):
            return self._lines_added(node, block_lines(key, value))
        return self._added(node, key, value)

    def remove(self, path: Path) -> _Cut:
        node, place = self._find(path)
        if len(node.children) == 1:
            raise EditError("the only entry is not removed; remove what holds it")
        first, last = self._start(node, place), node.children[place][1]
        following = self._start(node, place + 1) if place + 1 < len(node.children) else None
        if node.flow:
            if following is not None:
                return self._cut(first, following)
            return self._cut(node.children[place - 1][1].end, last.end)
        line, end = self._line_start(first), self._line_end(last.end)
        if not self._text[line:first].strip():
            return self._cut(line, end)
        # The first key behind a dash: the next one takes its place.
        if following is None or self._text[end : self._line_start(following)].strip():
            raise EditError("a comment stands between this key and the next")
        return self._cut(first, following)

    def _replaced(self, key: _Node | None, old: _Node, value: Value) -> _Cut:
        said = rendered(value)
        if not old.written:
            return self._cut(old.start, old.start, f" {said}")
        if old.flow or not old.children or key is None:
            return self._cut(old.start, old.end, said)
        colon = self._behind_colon(key)
        below = self._line_end(colon)
        if old.start < below:
            return self._cut(colon, old.end, f" {said}")
        rest = self._text[colon:below]  # of the line of the key: its comment, its end
        kept = rest if rest.strip() or self._line_end(old.end) > old.end else ""
        return self._cut(colon, self._line_end(old.end), f" {said}{kept}")

    def _flow_added(self, node: _Node, key: str | None, value: Value) -> _Cut:
        said = rendered(value) if key is None else f"{scalar(key)}: {rendered(value)}"
        if not node.children:
            return self._cut(node.start + 1, node.end - 1, said)
        last = node.children[-1][1]
        return self._cut(last.end, last.end, f", {said}")

    def _added(self, node: _Node, key: str | None, value: Value) -> _Cut:
        lines = _entry_lines(value) if key is None else [f"{scalar(key)}: {rendered(value)}"]
        return self._lines_added(node, lines)

    def _lines_added(self, node: _Node, lines: Sequence[str]) -> _Cut:
        first = self._start(node, 0)
        indent = " " * (first - self._line_start(first))
        at = self._line_end(node.children[-1][1].end)
        ended = self._text[at - 1] in "\r\n"
        body = self._break.join(indent + line for line in lines)
        return self._cut(at, at, body + self._break if ended else self._break + body)

    def _start(self, node: _Node, place: int) -> int:
        """Where an entry begins: its key, or the dash of an entry in a block."""
        key, value = node.children[place]
        if key is not None:
            return key.start
        return value.start if node.flow else self._text.rindex("-", 0, value.start)

    def _line_start(self, at: int) -> int:
        return self._starts[bisect_right(self._starts, at) - 1]

    def _line_end(self, at: int) -> int:
        """The start of the next line, or the end of the text."""
        place = bisect_right(self._starts, at)
        return self._starts[place] if place < len(self._starts) else len(self._text)

    @staticmethod
    def _cut(start: int, end: int, new: str = "") -> _Cut:
        return start, end, new


def rendered(value: Value) -> str:
    """A value in one line, as it may stand in block and in flow style."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        pairs = (f"{scalar(key)}: {rendered(each)}" for key, each in value.items())
        return "{" + ", ".join(pairs) + "}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(rendered(each) for each in value) + "]"
    if isinstance(value, str):
        if value in _WORDS:
            return value
        return scalar(value) if value else json.dumps(value)
    return str(value)


def _entry_lines(value: Value) -> list[str]:
    """An entry of a list in block style, a mapping with a key a line."""
    if not isinstance(value, Mapping) or not value:
        return [f"- {rendered(value)}"]
    pairs = [f"{scalar(key)}: {rendered(each)}" for key, each in value.items()]
    return [f"- {pairs[0]}", *(f"  {pair}" for pair in pairs[1:])]


def block_lines(name: str, value: Mapping[str, Value]) -> list[str]:
    """A mapping in block style: a line for each key, and for each mapping of a list."""
    lines = [f"{scalar(name)}:"]
    for key, each in value.items():
        if isinstance(each, list | tuple) and any(isinstance(one, Mapping) for one in each):
            lines += [f"  {scalar(key)}:", *(f"    - {rendered(one)}" for one in each)]
        else:
            lines.append(f"  {scalar(key)}: {rendered(each)}")
    return lines
