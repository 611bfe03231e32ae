"""Options kept in a file: `areafit.toml`, or `[tool.areafit]` of a `pyproject.toml`.

Its keys are the options of `check` without the dashes. What the command line says comes first;
paths are relative to the file.
"""

import os
from collections.abc import Mapping
from datetime import date
from enum import Enum
from pathlib import Path
from types import MappingProxyType
from typing import Any

from areafit_cli.errors import CallError, unknown

OWN, SHARED = "areafit.toml", "pyproject.toml"


class ValueType(Enum):
    """What a key holds; said in messages."""

    TEXT = "a text"
    DATE = "a date"
    NUMBER = "a whole number"
    FLAG = "true or false"
    LIST = "a text or a list of texts"
    FILES = "a path or a list of paths"
    FOLDER = "a path"


KEYS = MappingProxyType(
    {
        "format": ValueType.LIST,
        "output": ValueType.FILES,
        "quiet": ValueType.FLAG,
        "full": ValueType.FLAG,
        "only-lists": ValueType.FLAG,
        "only": ValueType.LIST,
        "skip": ValueType.LIST,
        "tables": ValueType.FOLDER,
        "waivers": ValueType.FILES,
        "no-waivers": ValueType.FLAG,
        "changed-since": ValueType.TEXT,
        "since": ValueType.TEXT,
        "as-of": ValueType.DATE,
        "library-age": ValueType.TEXT,
        "accept-unproven": ValueType.LIST,
        "least-basis": ValueType.TEXT,
        "exit-zero": ValueType.FLAG,
        "jobs": ValueType.NUMBER,
    }
)


def find(start: Path) -> Path | None:
    """The nearest configuration from a folder upwards, as far as `candidates` goes."""
    for path in candidates(start):
        if path.is_file() and _table(path) is not None:
            return path
    return None


def used(named: str | None) -> list[Path]:
    """The files whose change may change a run: the one named, or all that could be found."""
    return [Path(named)] if named is not None else candidates(Path.cwd())


def opens(named: str | None) -> tuple[tuple[str, str], ...]:
    """The options of the configuration that holds which let a failed gate pass, and in words."""
    path = Path(named) if named is not None else find(Path.cwd())
    if path is None:
        return ()
    stated = load(path)
    shown = _shown(path)
    return tuple(
        (key, f"`{key}` in {shown}") for key in ("exit-zero", "accept-unproven") if stated.get(key)
    )


def candidates(start: Path) -> list[Path]:
    """Where a configuration may stand, nearest first, up to the root of the repository.

    Outside of a repository only the folder itself counts.
    """
    folder = start.resolve()
    above = (folder, *folder.parents)
    roots = [place for place, each in enumerate(above) if (each / ".git").exists()]
    folders = above[: roots[0] + 1] if roots else above[:1]
    return [each / name for each in folders for name in (OWN, SHARED)]


def load(path: Path, *, found: bool = False) -> dict[str, Any]:
    """The options of a configuration by key, paths made relative to the working directory.

    One that was `found`, not named, may have come with a checkout: it writes below its own folder
    only.

    Raises:
        CallError: it cannot be read, or a key or value is none.
    """
    stated = {key: _value(path, key, value) for key, value in (_table(path) or {}).items()}
    home = path.resolve().parent
    outputs: Any = stated.get("output", ()) if found else ()
    for output in outputs:
        if output != "-" and not Path(output).resolve().is_relative_to(home):
            raise CallError(
                f"{_shown(path)}: `output` {output} lies outside its folder; name the file with "
                "--config, or the output with --output"
            )
    return stated


def _table(path: Path) -> Mapping[str, Any] | None:
    """The keys of a file; None for a project file that has none of ours."""
    import tomllib  # noqa: PLC0415 - most runs find no file to read

    from areafit_cli import paths  # noqa: PLC0415 - as above

    try:
        whole = tomllib.loads(paths.read_or_refuse(path, path.name).decode("utf-8-sig"))
    except ValueError as error:  # no UTF-8, or no TOML
        raise CallError(f"{_shown(path)} is no valid TOML: {error}") from None
    if path.name != SHARED:
        return whole
    tools = whole.get("tool")
    own = tools.get("areafit") if isinstance(tools, dict) else None
    return own if isinstance(own, dict) else None


def _value(path: Path, key: str, value: object) -> object:
    kind = KEYS.get(key)
    if kind is None:
        raise CallError(f"{_shown(path)}: {unknown('option', key, KEYS)}")
    taken = _taken(path.parent, kind, value)
    if taken is None:
        raise CallError(f"{_shown(path)}: `{key}` must be {kind.value}")
    return taken


def _taken(folder: Path, kind: ValueType, value: object) -> object:
    """The value as the option takes it, None where it is of another type."""
    match kind, value:
        case (ValueType.FLAG, bool()) | (ValueType.TEXT | ValueType.DATE, str()):
            return value
        case (ValueType.NUMBER, int()) if not isinstance(value, bool):
            return value
        case (ValueType.DATE, date()):
            return value.isoformat()[:10]
        case (ValueType.FOLDER, str()):
            return _relative(folder, value)
        case (ValueType.LIST | ValueType.FILES, str() | list()):
            texts = [value] if isinstance(value, str) else value
            if all(isinstance(text, str) for text in texts):
                return [_relative(folder, t) for t in texts] if kind is ValueType.FILES else texts
    return None


def _relative(folder: Path, path: str) -> str:
    return path if path == "-" else os.path.relpath(folder / path)


def _shown(path: Path) -> str:
    return os.path.relpath(path)
