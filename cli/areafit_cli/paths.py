"""Files: the lists behind what was asked for, read with bounds, and written whole or left alone."""

import contextlib
import errno
import glob
import os
import re
import stat
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import BinaryIO

from areafit.errors import InputError
from areafit.facts.bom import Position
from areafit.file.text import FILE_BYTES, outermost_keys
from areafit.file.text import first_key as key_of
from areafit.pattern import pattern
from areafit_cli.errors import CallError

STDIN = STDOUT = "-"
STDIN_NAME = "<stdin>"
SUFFIXES = (".yaml", ".yml")
_LIBRARY_FILES = 1000
OURS = ("areafit", "areafit-areas", "areafit-waivers", "areafit-parts")
"""The first keys of the files that people write for this program."""
_PEEK = 64 * 1024
_AREAS = pattern(r"^areas:[ \t]{0,64}([^\s#][^\n#]*?)[ \t]*(?:#.*)?\r?$", re.MULTILINE)


# Finding


@dataclass(slots=True)
class Found:
    """The lists to read, in the order asked for and each once.

    `others` counts the YAML files left out, but for shared files of places that a list names;
    `shared` those among them that hold places or bought parts.
    """

    files: list[Path] = field(default_factory=list)
    others: int = 0
    shared: int = 0
    errors: list[InputError] = field(default_factory=list)


def find(asked: Sequence[str], *, only_lists: bool = False) -> Found:
    """The files behind the arguments.

    A file that is named is taken whatever it holds, unless `only_lists`; in folders and globs only
    a file whose first key is `areafit`. A name that does not exist is an error in the input, and so
    is a file that looks like a list and does not say so: it must not slip past a gate.

    Raises:
        CallError: nothing at all was matched, and not `only_lists`.
    """
    found, seen, shared = Found(), set[Path](), list[Path]()
    for argument in asked:
        for path, named in _candidates(argument, found):
            target = real(path)
            if target in seen:
                continue
            seen.add(target)
            taken = named and not only_lists
            first = None if taken else first_key(path)
            if taken or first == "areafit" or str(path) == STDIN:
                found.files.append(path)
            elif first not in OURS and _looks_like_a_list(path):
                message = "this looks like a bill of materials and does not start with `areafit: 1`"
                position = Position(shown(path), 1, 1)
                found.errors.append(InputError(message, "add that as its first line", position))
            else:
                found.others += first != "areafit-parts"  # a library belongs to its lists
                found.shared += first in ("areafit-areas", "areafit-parts")
                if first == "areafit-areas":
                    shared.append(target)
    if shared:  # seldom: only then the lists are looked into
        used = {target for path in found.files for target in _shared_by(path)}
        found.others -= len(used.intersection(shared))
    if not found.files and not found.errors and not only_lists:
        left = f" ({found.others} other YAML files)" if found.others else ""
        where = ", ".join(asked)
        raise CallError(f"no bill of materials in {where}{left}; one starts with `areafit: 1`")
    return found


def _looks_like_a_list(path: Path) -> bool:
    """Whether a file has the outermost keys of a list."""
    try:
        if not path.is_file():
            return False
        with path.open("rb") as stream:
            head = stream.read(_PEEK)
    except OSError:
        return False
    keys = outermost_keys(head)
    return "parts" in keys and not keys.isdisjoint({"locations", "assembly"})


def _candidates(argument: str, found: Found) -> Iterator[tuple[Path, bool]]:
    """The files behind one argument, each with whether it was named itself."""
    path = Path(argument)
    if not argument.strip():  # an unset variable must not judge whatever lies here
        raise CallError("one of the names is empty; name a list, or . for this folder")
    if argument == STDIN:
        yield path, True
    elif os.path.isdir(argument):  # noqa: PTH112 - unlike pathlib, it bears names of any length
        yield from ((each, False) for each in _in_folder(path))
    elif os.path.exists(argument):  # noqa: PTH110 - as above
        yield path, True
    elif glob.has_magic(argument):
        for each in sorted(_matching(argument)):
            if each.is_dir():
                yield from ((inner, False) for inner in _in_folder(each))
            elif each.name.endswith(SUFFIXES):
                yield each, False
    else:
        found.errors.append(missing(path, "there is no such file or folder"))


def _matching(pattern_: str) -> Iterator[Path]:
    """What a glob names, hidden files left out; `**` follows no links, which may go in circles."""
    whole = Path(pattern_)
    base = Path(whole.anchor) if whole.anchor else Path()
    wanted = whole.relative_to(base) if whole.anchor else whole
    hidden = any(step.startswith(".") for step in wanted.parts)
    for path in base.glob(str(wanted)):
        inner = path.relative_to(base).parts
        if hidden or not any(step.startswith(".") for step in inner):
            yield path


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
            yield real(path.parent / name.strip("\"'"))


def shown(path: Path) -> str:
    """The path as reports write it: relative to the working directory, with `/`."""
    if str(path) == STDIN:
        return STDIN_NAME
    try:
        return Path(os.path.relpath(path)).as_posix()
    except ValueError:  # another drive
        return path.name


def real(path: Path) -> Path:
    """The path with links followed as far as they lead; links in a circle stay as they are."""
    return Path(os.path.realpath(path))


def missing(path: Path, message: str) -> InputError:
    """The error for a list that is not there, or cannot be read."""
    return InputError(message, "check the path", Position(shown(path), 0, 0))


# Reading


def read(path: Path) -> bytes:
    """The bytes of a file, or of standard input for `-`, cut one byte above the largest allowed.

    Who reads them refuses what is too large, with a position. A pipe that nobody writes to is
    empty; one that is open for writing is waited for, as standard input is.

    Raises:
        OSError: it cannot be read, or is a folder, a device or a socket.
    """
    if str(path) == STDIN:
        if sys.stdin is None:
            raise OSError(errno.EBADF, "standard input is closed")
        return sys.stdin.buffer.read(FILE_BYTES + 1)
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags)
    try:
        mode = os.fstat(handle).st_mode
        if stat.S_ISDIR(mode):
            raise IsADirectoryError(errno.EISDIR, "it is a folder")
        if not stat.S_ISREG(mode) and not stat.S_ISFIFO(mode):
            raise OSError(errno.EINVAL, "it is no file, but a device or a socket")
        if hasattr(os, "O_NONBLOCK"):
            os.set_blocking(handle, True)
        with open(handle, "rb", closefd=False) as stream:
            return stream.read(FILE_BYTES + 1)
    finally:
        os.close(handle)


def read_or_refuse(path: Path, name: str) -> bytes:
    """As `read`, for a file without which the call cannot be answered.

    Raises:
        CallError: it cannot be read; the message calls it by the name.
    """
    try:
        return read(path)
    except OSError as error:
        raise CallError(f"{name} cannot be read: {error.strerror or error}") from None


class SharedFileError(OSError):
    """A shared file that cannot or must not be read; the message says why."""


def shared_reader(bom: Path) -> Callable[[str], bytes]:
    """What reads the shared files (`areas:`) of a list that stands at this path."""
    folder = bom.resolve().parent
    return lambda relative: read_shared(folder, relative)


def shared_folder(bom: Path) -> Callable[[str], list[str] | None]:
    """What lists the files of the folders that a list at this path names (`library:`)."""
    folder = bom.resolve().parent
    return lambda relative: folder_of(folder, relative)


def folder_of(folder: Path, relative: str) -> list[str] | None:
    """The YAML files of a folder named relative to another, by name; None where it is none.

    Raises:
        SharedFileError: it lies outside the repository, or holds too many.
    """
    if not relative or Path(relative).is_absolute() or "\x00" in relative or "\\" in relative:
        return None  # `read_shared` says what is wrong with it
    try:
        path = (folder / relative).resolve()
        if not path.is_dir() or not path.is_relative_to(_root(folder)):
            return None
        names = sorted(each.name for each in path.iterdir())
    except (OSError, RuntimeError):  # links in a circle, before Python 3.13; `read_shared` says so
        return None
    found = [name for name in names if name.endswith(SUFFIXES) and not name.startswith(".")]
    if len(found) > _LIBRARY_FILES:
        raise SharedFileError(f"is a folder of more than {_LIBRARY_FILES} files")
    return found


def read_shared(folder: Path, relative: str) -> bytes:
    """The bytes of a file named relative to a folder.

    It must stay, with every link followed, below the root of the repository that the folder
    belongs to, or below the folder itself where it belongs to none.

    Raises:
        SharedFileError: it does not, or is no regular file, too large or unreadable.
    """
    if not relative or Path(relative).is_absolute() or "\x00" in relative or "\\" in relative:
        raise SharedFileError("must be a path relative to the list, written with /")
    try:
        return _read_below(_root(folder), (folder / relative).resolve(strict=True))
    except SharedFileError:
        raise
    except FileNotFoundError:
        raise SharedFileError("does not exist") from None
    except (OSError, RuntimeError) as error:  # RuntimeError: links in a circle, before Python 3.13
        reason = getattr(error, "strerror", None) or error
        raise SharedFileError(f"cannot be read: {reason}") from None


def _read_below(root: Path, path: Path) -> bytes:
    if not path.is_relative_to(root):
        raise SharedFileError("lies outside the repository or folder of the list")
    found = path.stat()
    if not stat.S_ISREG(found.st_mode):
        raise SharedFileError("is not a regular file")
    if found.st_size > FILE_BYTES:
        raise SharedFileError("is larger than 64 MiB")
    return read(path)


def _root(folder: Path) -> Path:
    for candidate in (folder, *folder.parents):
        if (candidate / ".git").exists():
            return candidate
    return folder


# Writing


def replace(path: Path, pieces: Iterable[str | bytes]) -> None:
    """Write a file whole or leave it as it was: a neighbour is written, then put in its place.

    Raises:
        CallError: it cannot be written.
    """
    try:
        with _neighbour(path) as stream:
            stream.writelines(
                each if isinstance(each, bytes) else each.encode("utf-8", "backslashreplace")
                for each in pieces
            )
    except OSError as error:
        raise CallError(f"cannot write {path}: {error.strerror or error}") from None


def replace_unchanged(path: Path, before: bytes | None, pieces: Iterable[str | bytes]) -> None:
    """As `replace`, for a file that was read (`before`), or was not there (None).

    Raises:
        CallError: it cannot be written, or is not any more as it was read.
    """
    try:
        now = read(path) if path.exists() else None
    except OSError as error:
        raise CallError(f"cannot read {path} again: {error.strerror or error}") from None
    if now != before:
        raise CallError(f"{shown(path)} has changed since it was read; nothing was written")
    replace(path, pieces)


@contextlib.contextmanager
def _neighbour(path: Path) -> Iterator[BinaryIO]:
    target = real(path)  # a link keeps pointing at the file that is replaced
    if path.exists() and not path.is_file():  # a device or pipe cannot be replaced
        with path.open("wb") as stream:
            yield stream
        return
    import tempfile  # noqa: PLC0415 - brings much that a report on the terminal does not need

    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with open(handle, "wb") as stream:  # noqa: PTH123 - a descriptor, no path
            yield stream
        Path(name).chmod(target.stat().st_mode & 0o777 if target.exists() else 0o666 & ~_umask())
        Path(name).replace(target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
