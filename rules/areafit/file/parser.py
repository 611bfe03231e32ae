"""The YAML parser that events come from: the C one, or the pure one where C is not installed."""

from collections.abc import Callable
from typing import Any, Protocol

from ruamel.yaml import YAML

try:
    from _ruamel_yaml import CParser
except ImportError:
    CParser = None


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


FAST = CParser is not None
"""Whether the C parser is used; the pure one gives the same events, some 25 times slower."""


def events(text: str, *, fast: bool = FAST) -> Callable[[], Any]:
    """A function that returns the next event of the text at each call."""
    if fast:
        get_event: Callable[[], Any] = CParser(text).get_event
        return get_event
    following: Callable[[], Any] = iter(YAML(typ="safe", pure=True).parse(text)).__next__
    return following
