"""Checks a machine's bill of materials against the place where the machine will stand.

The library knows no terminal, clock, network or file but its own tables: callers hand it bytes
and a date, and get back frozen results. Everything is imported on first use.
"""

from typing import TYPE_CHECKING

from areafit.version import __version__

if TYPE_CHECKING:
    from areafit.engine import judge
    from areafit.errors import InputError, InputErrors
    from areafit.file import read
    from areafit.marking import decode
    from areafit.options import Options
    from areafit.registry import RULES
    from areafit.tables import Tables

__all__ = [
    "RULES",
    "InputError",
    "InputErrors",
    "Options",
    "Tables",
    "__version__",
    "decode",
    "judge",
    "read",
]

_HOMES = {
    "RULES": "areafit.registry",
    "InputError": "areafit.errors",
    "InputErrors": "areafit.errors",
    "Options": "areafit.options",
    "Tables": "areafit.tables",
    "decode": "areafit.marking",
    "judge": "areafit.engine",
    "read": "areafit.file",
}


def __getattr__(name: str) -> object:
    """Import a public name when it is first used (PEP 562)."""
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module  # noqa: PLC0415 - only when a name is first used

    return getattr(import_module(home), name)
