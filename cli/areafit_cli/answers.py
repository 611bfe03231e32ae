"""What the look-up commands share: text or JSON, and one way to print either."""

import os
import sys
from collections.abc import Iterable
from enum import Enum

from areafit_cli import output, terminal
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


def paper() -> Paper:
    """The paper for standard output as it is now."""
    return Paper(terminal.width(sys.stdout, os.environ), terminal.colours(sys.stdout, os.environ))


def say_json(value: object) -> None:
    """Print a value as JSON, indented by hand-sized steps."""
    from areafit_cli.render.as_json import pretty  # noqa: PLC0415 - text answers need no json

    output.write([pretty(value), "\n"])


def say(lines: Iterable[str]) -> None:
    """Print lines that a `Paper` laid out."""
    output.write(lines)
