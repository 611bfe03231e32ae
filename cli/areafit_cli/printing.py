"""Standard output, which may be full or closed, or a pipe whose reader leaves early."""

import contextlib
import os
import sys
from collections.abc import Iterable

from areafit_cli.faults import CallError


def write(text: Iterable[str]) -> None:
    """Write to standard output. A reader that has seen enough ends the writing, not the run."""
    try:
        for piece in text:
            sys.stdout.write(piece)
        sys.stdout.flush()
    except BrokenPipeError:
        mute()
    except OSError as error:
        mute()
        raise CallError(f"cannot write standard output: {error.strerror or error}") from None


def mute() -> None:
    """Let later writes to a closed pipe, the one at exit included, go nowhere."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
