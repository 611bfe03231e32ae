"""What the command may assume of the terminal or pipe that it writes to."""

import os
import sys
from collections.abc import Mapping
from typing import TextIO

from areafit_cli.safe_text import clean

_PIPE_WIDTH = 100
_NARROWEST, _WIDEST = 40, 120


def prepare() -> None:
    """Make both streams UTF-8 with plain line ends, whatever the locale or code page says.

    What cannot be encoded is written as an escape: a report must not die of a character. Where a
    stream is closed, notes go nowhere and a report fails as on a full disk.
    """
    if sys.stdout is None:
        sys.stdout = _open(os.O_RDONLY)
    if sys.stderr is None:
        sys.stderr = _open(os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:  # a test's stream may have none
            reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")


def _open(how: int) -> TextIO:
    return open(os.open(os.devnull, how), "w", encoding="utf-8")  # noqa: PTH123 - a stream


def colours(stream: TextIO, environ: Mapping[str, str]) -> bool:
    """Whether to colour: never under NO_COLOR, always under FORCE_COLOR, else on a terminal."""
    if environ.get("NO_COLOR"):
        return False
    if environ.get("FORCE_COLOR"):
        return environ["FORCE_COLOR"] != "0"
    return stream.isatty() and environ.get("TERM") != "dumb"


def width(stream: TextIO, environ: Mapping[str, str]) -> int:
    """Columns to fill: COLUMNS, else the terminal's own, else a fixed width for pipes."""
    stated = environ.get("COLUMNS", "")
    if stated.isdecimal() and int(stated) > 0:
        return min(max(int(stated), _NARROWEST), _WIDEST)
    try:
        columns = os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError, AttributeError):
        return _PIPE_WIDTH
    return min(max(columns or _PIPE_WIDTH, _NARROWEST), _WIDEST)


def note(text: str) -> None:
    """One line for the person who started the run; never part of a report.

    Where it cannot be written the run goes on: its exit status says the same.
    """
    try:
        sys.stderr.write(f"{clean(text)}\n")
        sys.stderr.flush()
    except (OSError, ValueError):  # full, closed, or a pipe without a reader
        sys.stderr = _open(os.O_WRONLY)
