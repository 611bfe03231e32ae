"""What the look-up commands share: text or JSON, and one way to print either."""

import os
import sys
from collections.abc import Iterable
from enum import Enum

from areafit.values import Frozen
from areafit_cli import printing, terminal
from areafit_cli.render.paper import Paper


class AnswerFormat(Enum):
    """The formats of an answer that is no report."""

    TEXT = "text"
    JSON = "json"


class TableFormat(Enum):
    """The formats of a table."""

    TEXT = "text"
    CSV = "csv"
    JSON = "json"


def plain(value: object) -> dict[str, object]:
    """A frozen value as a mapping of its fields, nested ones too."""
    found = _plain(value)
    if not isinstance(found, dict):
        raise TypeError(f"{type(value).__name__} has no fields")
    return found


def _plain(value: object) -> object:
    if isinstance(value, Frozen):
        return {name: _plain(getattr(value, name)) for name in value.__struct_fields__}
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, frozenset):
        return sorted((_plain(one) for one in value), key=str)
    return value.value if isinstance(value, Enum) else value


def paper() -> Paper:
    """The paper for standard output as it is now."""
    return Paper(terminal.width(sys.stdout, os.environ), terminal.colours(sys.stdout, os.environ))


def say_json(value: object) -> None:
    """Print a value as JSON, indented by hand-sized steps."""
    from areafit_cli.render.json_words import pretty  # noqa: PLC0415 - text answers need no json

    printing.write([pretty(value), "\n"])


def say(lines: Iterable[str]) -> None:
    """Print lines that a `Paper` laid out."""
    printing.write(lines)
