"""YAML to plain data with positions, by a loop over a parser's events.

Every scalar keeps its source text: part number 007, material 1.4301 and a value 1E5 would be
damaged by any resolver. Only what is left empty, `null` and `~` become None, and so does quoted
blank text, which states nothing either. What a list may not use of YAML is noted, each construct
with its position, and reading goes on where it can.
"""

from array import array
from collections.abc import Callable
from typing import Any, NoReturn, Protocol

from ruamel.yaml import YAML
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

from areafit.errors import Collector, brief
from areafit.facts.bom import Position
from areafit.file.positions import COLUMN_BITS, Document, Items, Map, unpack
from areafit.file.slips import slip
from areafit.file.text import refused, shown
from areafit.pattern import pattern
from areafit.values import Frozen

try:
    from _ruamel_yaml import CParser
except ImportError:
    CParser = None

FAST = CParser is not None
"""Whether the C parser is used; the pure one gives the same events, some 25 times slower."""
SCALAR_CHARACTERS = 64 * 1024
DEPTH = 32
NODES = 12_000_000
"""Entries of all lists and mappings together; a list of 200,000 parts needs about half."""
KEYS = 100_000
"""Keys of one mapping: far above any library of parts."""
_STARTS = (MappingStartEvent, SequenceStartEvent)
_ENDS = (MappingEndEvent, SequenceEndEvent)
_NULLS = ("", "~", "null", "Null", "NULL")
_WITH_COLON = pattern(r"(?<![^\s{\[,:])([^\s{}\[\],'\":]+:[^\s{}\[\],'\"]+)")
_DECORATION = pattern(r"[&!](?<![^\s\[{,:][&!])")


def load(text: str, name: str, errors: Collector, *, fast: bool = FAST) -> Document:
    """Read one document; what is refused is noted, and reading goes on where it can.

    `fast` asks for the C parser; the pure one gives the same document.

    Raises:
        InputErrors: the text is no YAML, nested too deep, or holds too much or nothing.
    """
    refusals = _Refusals(name, errors)
    spots = array("q")
    try:
        root, start = _read(events(text, fast=fast), refusals, spots, decorated=_decorated(text))
    except YAMLError as error:
        refusals.syntax(error, text)
    return Document(name, root, spots, start)


def events(text: str, *, fast: bool = FAST) -> Callable[[], Any]:
    """A function that returns the next event of the text at each call."""
    if fast:
        get_event: Callable[[], Any] = CParser(text).get_event
        return get_event
    following: Callable[[], Any] = iter(YAML(typ="safe", pure=True).parse(text)).__next__
    return following


def _read(  # noqa: C901, PLR0912, PLR0915 - one flat loop: a call per event would cost too much
    next_event: Callable[[], Any],
    refusals: "_Refusals",
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
            if in_map and len(current) > KEYS:
                refusals.too_many_keys(event.start_mark)
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


def _skip(next_event: Callable[[], Any], event: Any, depth: int, refusals: "_Refusals") -> None:  # noqa: ANN401
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


class Mark(Protocol):
    """A point of the text, counted from 0."""

    line: int
    column: int


class Event(Protocol):
    """What the events share that are asked about when something is refused."""

    start_mark: Mark
    value: str
    style: str | None
    tag: str | None
    anchor: str | None
    version: tuple[int, int] | None


def _decorated(text: str) -> bool:
    """Whether anything in the text may be an anchor or a tag: looking at each scalar is dear."""
    return ("&" in text or "!" in text) and _DECORATION.search(text) is not None


class _Refusals(Frozen):
    """Notes each refused construct with its position; `NoReturn` where reading cannot go on."""

    name: str
    errors: Collector

    def decorated(self, event: Event) -> None:
        """An anchor or an explicit tag."""
        if event.tag is not None:
            self._note(
                event.start_mark,
                "explicit tags such as `!!str` are not read",
                "delete the tag; values are taken as they are written",
            )
        else:
            self._note(
                event.start_mark,
                f"the anchor `&{brief(str(event.anchor))}` is not read",
                "delete it and write the value where it is needed",
            )

    def alias(self, mark: Mark) -> None:
        """A reference to an anchor."""
        self._note(mark, "references with `*` are not read", "write the value out here")

    def good_text(self, event: Event) -> str | None:
        """The text of a value; None where it is blank, or noted as one that cannot be taken."""
        text = event.value
        if len(text) > SCALAR_CHARACTERS:
            limit = SCALAR_CHARACTERS // 1024
            self._note(event.start_mark, f"a text longer than {limit} Ki characters", "shorten it")
            return None
        hidden = event.style == '"' and not text.isprintable() and refused(text)
        if hidden:
            message = f"the escaped character {shown(hidden)} is not allowed"
            self._note(event.start_mark, message, "delete the escape")
            return None
        return text if text and not text.isspace() else None

    def good_key(self, event: Event) -> str | None:
        """The text of a key; None where it is noted as one that cannot be taken."""
        key = event.value
        if not key.strip() or (not event.style and key in _NULLS):
            self._note(event.start_mark, "this key is empty", "write its name before the colon")
            return None
        if key == "<<":
            self._note(event.start_mark, "merge keys `<<` are not read", "write the keys out here")
            return None
        return self.good_text(event)

    def repeated_key(self, event: Event, first: int) -> None:
        """A key that its mapping holds already, `first` being where."""
        line = unpack(self.name, first).line
        message = f"the key `{brief(event.value)}` is written twice, first on line {line}"
        self._note(event.start_mark, message, "keep one of the two")

    def complex_key(self, mark: Mark) -> None:
        """A list or mapping as a key."""
        self._note(mark, "a key cannot be a list or a mapping", "write a plain text as the key")

    def version(self, event: Event) -> None:
        """A directive that asks for another YAML version than 1.2."""
        if event.version is not None and tuple(event.version) != (1, 2):
            self._note(
                event.start_mark,
                "the file asks for another YAML version than 1.2",
                "delete the `%YAML` line",
            )

    def second_document(self, mark: Mark) -> None:
        """A further document in the same file."""
        self._note(mark, "a second document starts here", "keep one list a file")

    def too_deep(self, mark: Mark) -> NoReturn:
        """Nesting beyond the limit."""
        self._fatal(mark, f"nested more than {DEPTH} levels deep", "close the brackets before")

    def too_many(self, mark: Mark) -> NoReturn:
        """More entries than any real list has."""
        self._fatal(mark, f"more than {NODES} entries", "split the file into several lists")

    def too_many_keys(self, mark: Mark) -> NoReturn:
        """A mapping with more keys than any real one has."""
        self._fatal(mark, f"a mapping of more than {KEYS} keys ends here", "split it")

    def nothing(self) -> NoReturn:
        """A file of comments only."""
        self.errors.fatal(
            Position(self.name, 1, 1),
            "the file holds nothing but comments",
            "write a list that starts with `areafit: 1`",
        )

    def syntax(self, error: YAMLError, text: str) -> NoReturn:
        """Text that is no YAML."""
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        problem = getattr(error, "problem", None) or "it cannot be parsed"
        message = f"no valid YAML: {brief(str(problem))}"
        remedy = (
            "look at the indentation (spaces, no tabs), colons, brackets and quotes here and on "
            "the line before, and quote text that starts with a sign"
        )
        value = None
        if mark is not None and "':'" in str(problem):
            line = text.split("\n")[mark.line] if mark.line < text.count("\n") + 1 else ""
            value = _WITH_COLON.search(line, max(mark.column - 1, 0))
            if value is not None:
                said = value.group(1)
                message = f"a value with a colon stands in brackets without quotes: {brief(said)}"
                remedy = f"quote it: '{brief(said)}'"
        if mark is not None:
            meant = slip(text, mark.line, block=value is None)
            if meant is not None:
                position = Position(self.name, meant.row + 1, meant.column + 1)
                self.errors.fatal(position, meant.message, meant.remedy)
        if mark is None:
            self.errors.fatal(Position(self.name, 1, 1), message, remedy)
        self._fatal(mark, message, remedy)

    def _note(self, mark: Mark, message: str, remedy: str) -> None:
        self.errors.refuse(self._position(mark), message, remedy)

    def _fatal(self, mark: Mark, message: str, remedy: str) -> NoReturn:
        self.errors.fatal(self._position(mark), message, remedy)

    def _position(self, mark: Mark) -> Position:
        return Position(self.name, mark.line + 1, mark.column + 1)
