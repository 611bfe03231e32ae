"""The file `questions.csv` beside a list: read anew before each change, and replaced whole.

One run at a time changes it.
"""

import contextlib
import os
import time
from collections.abc import Iterator
from pathlib import Path

from areafit.answers.register import FILE, Register, RegisterError, read_register, written_register
from areafit_cli import paths
from areafit_cli.errors import CallError

_WAIT = 20.0  # seconds; another run holds it for far less


def path_of(bom: Path) -> Path:
    """Where the register of a list stands."""
    return bom.parent / FILE


def read(path: Path) -> Register:
    """The register at a path; an empty one where there is none yet.

    Raises:
        CallError: the file cannot be read, or is no register.
    """
    if not path.exists():
        return Register()
    try:
        return read_register(paths.read_or_refuse(path, paths.shown(path)), paths.shown(path))
    except RegisterError as error:
        raise CallError(str(error)) from None


def write(path: Path, register: Register) -> None:
    """Put the register in place of the file, if it says anything else."""
    data = written_register(register)
    if not path.exists() or paths.read(path) != data:
        paths.replace(path, [data])


@contextlib.contextmanager
def held(path: Path) -> Iterator[None]:
    """Keep other runs from the register while it is read, changed and written.

    Raises:
        CallError: another run does not let go of it.
    """
    lock = path.with_name(f".{path.name}.lock")
    until = time.monotonic() + _WAIT
    while True:
        try:
            handle = os.open(lock, os.O_CREAT | os.O_EXCL | os.O_WRONLY)
            break
        except FileExistsError:
            with contextlib.suppress(OSError):  # left behind by a run that was killed
                if time.time() - lock.stat().st_mtime > 3 * _WAIT:
                    lock.unlink()
                    continue
            if time.monotonic() > until:
                raise CallError(
                    f"another run holds {paths.shown(path)}; if there is none, delete "
                    f"{paths.shown(lock)}"
                ) from None
            time.sleep(0.02)
        except OSError as error:
            raise CallError(f"cannot write {path}: {error.strerror or error}") from None
    try:
        os.close(handle)
        yield
    finally:
        with contextlib.suppress(OSError):
            lock.unlink()
