"""From what was asked for to the files to read: names, folders, globs and standard input."""

import contextlib
import glob
import os
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from areafit.file.first import first_key as key_of
from areafit.pattern import pattern
from areafit_cli import reading
from areafit_cli.faults import CallError, Fault

STDIN = reading.STDIN
STDIN_NAME = "<stdin>"
SUFFIXES = (".yaml", ".yml")
OURS = ("areafit", "areafit-areas", "areafit-waivers")
"""The first keys of the files that people write for this program."""
_PEEK = 64 * 1024
_AREAS = pattern(r"^areas:[ \t]{0,64}([^\s#][^\n#]*?)[ \t]*(?:#.*)?\r?$", re.MULTILINE)


@dataclass(slots=True)
class Found:
    """The lists to read, in the order asked for and each once.

    `others` counts the YAML files left out, but for shared files of places that a list names.
    """

    files: list[Path] = field(default_factory=list)
    others: int = 0
    faults: list[Fault] = field(default_factory=list)
    stdin: bool = False


def find(asked: Sequence[str]) -> Found:
    """The files behind the arguments.

    A file that is named is taken whatever it holds; in folders and globs only a file whose first
    key is `areafit`. A name that does not exist is a fault.

    Raises:
        CallError: nothing at all was matched.
    """
    found, seen, shared = Found(), set[Path](), list[Path]()
    for argument in asked:
        for path, named in _candidates(argument, found):
            real = reading.real(path)
            if real in seen:
                continue
            seen.add(real)
            first = None if named else first_key(path)
            if named or first == "areafit":
                found.files.append(path)
            else:
                found.others += 1
                if first == "areafit-areas":
                    shared.append(real)
    if shared:  # seldom: only then the lists are looked into
        used = {real for path in found.files for real in _shared_by(path)}
        found.others -= len(used.intersection(shared))
    if not found.files and not found.faults:
        left = f" ({found.others} other YAML files)" if found.others else ""
        where = ", ".join(asked)
        raise CallError(f"no bill of materials in {where}{left}; one starts with `areafit: 1`")
    return found


def _candidates(argument: str, found: Found) -> Iterator[tuple[Path, bool]]:
    path = Path(argument)
    if not argument.strip():  # an unset variable must not judge whatever lies here
        raise CallError("one of the names is empty; name a list, or . for this folder")
    if argument == STDIN:
        found.stdin = True
        yield path, True
    elif os.path.isdir(argument):  # noqa: PTH112 - unlike pathlib, it bears names of any length
        yield from ((each, False) for each in _in_folder(path))
    elif os.path.exists(argument):  # noqa: PTH110 - as above
        yield path, True
    elif glob.has_magic(argument):
        for name in sorted(glob.glob(argument, recursive=True)):  # noqa: PTH207 - absolute ones too
            if Path(name).is_dir():
                yield from ((each, False) for each in _in_folder(Path(name)))
            elif name.endswith(SUFFIXES):
                yield Path(name), False
    else:
        message = "there is no such file or folder"
        found.faults.append(Fault(shown(path), 0, 0, message, "check the path"))


def _in_folder(folder: Path) -> Iterator[Path]:
    for here, folders, names in os.walk(folder):  # does not follow linked folders
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            path = Path(here, name)
            if name.endswith(SUFFIXES) and not name.startswith(".") and path.is_file():
                yield path


def first_key(path: Path) -> str | None:
    """The first key of a YAML file, or None where there is none to be seen."""
    try:
        if not path.is_file():  # a pipe would be waited for
            return None
        with path.open("rb") as stream:
            return key_of(stream.read(_PEEK))
    except OSError:
        return None


def _shared_by(path: Path) -> Iterator[Path]:
    """The shared files of places that a list seems to name; for a count, so no parser is needed."""
    head = b""
    with contextlib.suppress(OSError):
        if path.is_file():  # a pipe can be read once only
            with path.open("rb") as stream:
                head = stream.read(_PEEK)
    for name in _AREAS.findall(head.decode("utf-8", errors="replace")):
        with contextlib.suppress(OSError, ValueError):  # names that no file can have
            yield reading.real(path.parent / name.strip("\"'"))


def shown(path: Path) -> str:
    """The path as reports write it: relative to the working directory, with `/`."""
    if str(path) == STDIN:
        return STDIN_NAME
    try:
        return Path(os.path.relpath(path)).as_posix()
    except ValueError:  # another drive
        return path.name
