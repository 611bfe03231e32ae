"""An end that is asked for from outside leaves nothing behind."""

import contextlib
import signal
from collections.abc import Iterator
from types import FrameType
from typing import NoReturn


@contextlib.contextmanager
def tidily() -> Iterator[None]:
    """Let a request to end, as a cancelled pipeline sends it, unwind what runs inside."""
    try:
        before = signal.signal(signal.SIGTERM, _end)
    except ValueError:  # not the main thread: whoever runs it has handlers of his own
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _end(number: int, _frame: FrameType | None) -> NoReturn:
    raise SystemExit(128 + number)  # as a shell reports it
