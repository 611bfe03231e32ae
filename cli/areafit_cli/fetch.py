"""Shared files that a list names (`areas:`): only regular files below the folder it belongs to."""

import stat
from collections.abc import Callable
from pathlib import Path

from areafit.file.limits import FILE_BYTES as LARGEST
from areafit_cli import reading


class FetchError(OSError):
    """A shared file that cannot or must not be read; the message says why."""


def fetcher(bom: Path) -> Callable[[str], bytes]:
    """What reads the shared files of a list that stands at this path."""
    folder = bom.resolve().parent
    return lambda relative: fetch(folder, relative)


def fetch(folder: Path, relative: str) -> bytes:
    """The bytes of a file named relative to a folder.

    It must stay, with every link followed, below the root of the repository that the folder
    belongs to, or below the folder itself where it belongs to none.

    Raises:
        FetchError: it does not, or is no regular file, too large or unreadable.
    """
    if not relative or Path(relative).is_absolute() or "\x00" in relative or "\\" in relative:
        raise FetchError("must be a path relative to the list, written with /")
    try:
        return _read((folder / relative).resolve(strict=True), _root(folder))
    except FetchError:
        raise
    except FileNotFoundError:
        raise FetchError("does not exist") from None
    except (OSError, RuntimeError) as error:  # RuntimeError: links in a circle, before Python 3.13
        raise FetchError(f"cannot be read: {getattr(error, 'strerror', None) or error}") from None


def _read(path: Path, root: Path) -> bytes:
    if not path.is_relative_to(root):
        raise FetchError("lies outside the repository or folder of the list")
    found = path.stat()
    if not stat.S_ISREG(found.st_mode):
        raise FetchError("is not a regular file")
    if found.st_size > LARGEST:
        raise FetchError("is larger than 64 MiB")
    return reading.read(path)


def _root(folder: Path) -> Path:
    for candidate in (folder, *folder.parents):
        if (candidate / ".git").exists():
            return candidate
    return folder
