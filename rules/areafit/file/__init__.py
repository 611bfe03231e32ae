"""Bytes to facts: the only part of the library that knows the file format.

Everything is imported on first use: looking at a file's first key needs no parser.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from areafit.file.model import bom_schema
    from areafit.file.reader import read
    from areafit.file.text import first_key

__all__ = ["bom_schema", "first_key", "read"]

_HOMES = {
    "bom_schema": "areafit.file.model",
    "first_key": "areafit.file.text",
    "read": "areafit.file.reader",
}


def __getattr__(name: str) -> object:
    """Import a public name when it is first used (PEP 562)."""
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - only when a name is first used

    return getattr(import_module(home), name)
