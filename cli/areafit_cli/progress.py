"""How far a long run has come, for a person who watches; logs and pipes never see it."""

import os
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

from areafit_cli.safe_text import clean

if TYPE_CHECKING:
    from pathlib import Path

T = TypeVar("T")
_LARGE = 1 << 20  # bytes of one list from which on reading it takes a while
_PAUSE = 0.1  # seconds between two updates
_CLEAR = "\r\x1b[K"


def watched() -> bool:
    """Whether standard error is a terminal that can take a line back."""
    return sys.stderr.isatty() and os.environ.get("TERM") != "dumb"


def counted(outcomes: Iterable[T], files: "Sequence[Path]") -> Iterator[T]:
    """The outcomes as they come, with a line on how many there are of how many files."""
    if not watched() or not _long(files):
        yield from outcomes
        return
    shown = 0.0
    try:
        for done, outcome in enumerate(_telling(outcomes, files)):
            now = time.monotonic()
            if now - shown > _PAUSE:
                _say(f"judged {done + 1} of {len(files)} lists")
                shown = now
            yield outcome
    finally:
        sys.stderr.write(_CLEAR)
        sys.stderr.flush()


def _telling(outcomes: Iterable[T], files: "Sequence[Path]") -> Iterable[T]:
    _say(f"judging {files[0].name}" if len(files) == 1 else f"judging {len(files)} lists")
    return outcomes


def _long(files: "Sequence[Path]") -> bool:
    return len(files) > 1 or any(path.is_file() and path.stat().st_size > _LARGE for path in files)


def _say(text: str) -> None:
    sys.stderr.write(f"{_CLEAR}areafit: {clean(text)}")
    sys.stderr.flush()
