"""Waiver files from their paths."""

from collections.abc import Iterable
from pathlib import Path

import areafit
from areafit.facts.waiver import Waiver
from areafit_cli import paths, reading
from areafit_cli.faults import CallError


def read(files: Iterable[str]) -> tuple[Waiver, ...]:
    """The waivers of all files, in their order.

    Raises:
        CallError: a file cannot be read.
        InputErrors: a file is no valid waiver file.
    """
    return tuple(waiver for name in files for waiver in _read(Path(name)))


def _read(path: Path) -> tuple[Waiver, ...]:
    try:
        data = reading.read(path)
    except OSError as error:
        reason = error.strerror or error
        raise CallError(f"the waivers of {path} cannot be read: {reason}") from None
    return parse(data, path)


def parse(data: bytes, path: Path) -> tuple[Waiver, ...]:
    """The waivers in the bytes of a file.

    Raises:
        InputErrors: they are no valid waiver file.
    """
    from areafit.file.waivers import read_waivers  # noqa: PLC0415 - the reader loads on demand

    return read_waivers(data, paths.shown(path), [rule.id for rule in areafit.RULES])
