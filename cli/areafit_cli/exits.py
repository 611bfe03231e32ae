"""The exit statuses, which a pipeline relies on; of several lists the highest wins."""

from enum import IntEnum


class Exit(IntEnum):
    """How a run ended."""

    PASSED = 0
    FAILED = 1
    WRONG_INPUT = 2
    BUG = 3
    INTERRUPTED = 130
