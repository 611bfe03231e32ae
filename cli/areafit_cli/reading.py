"""Files from outside: never more of one than can be used, and nothing that waits for ever."""

import errno
import os
import stat
import sys
from pathlib import Path

from areafit.file.limits import FILE_BYTES

STDIN = "-"


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
        _see(os.fstat(handle).st_mode)
        if hasattr(os, "O_NONBLOCK"):
            os.set_blocking(handle, True)
        with open(handle, "rb", closefd=False) as stream:
            return stream.read(FILE_BYTES + 1)
    finally:
        os.close(handle)


def real(path: Path) -> Path:
    """The path with links followed as far as they lead; links in a circle stay as they are."""
    return Path(os.path.realpath(path))


def _see(mode: int) -> None:
    if stat.S_ISDIR(mode):
        raise IsADirectoryError(errno.EISDIR, "it is a folder")
    if not stat.S_ISREG(mode) and not stat.S_ISFIFO(mode):
        raise OSError(errno.EINVAL, "it is no file, but a device or a socket")
