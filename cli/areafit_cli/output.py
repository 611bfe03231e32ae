"""Where reports go: standard output, or files replaced whole or left alone."""

import contextlib
import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TextIO

from areafit.values import Frozen
from areafit_cli import paths, reading
from areafit_cli.faults import CallError

STDOUT = "-"


class Target(Frozen):
    """One format and the file it is written to; `path` is None for standard output."""

    format: str
    path: Path | None


def pair(formats: Sequence[str], outputs: Sequence[str], inputs: Iterable[Path]) -> list[Target]:
    """The n-th format with the n-th output; formats without one go to standard output.

    Raises:
        CallError: more outputs than formats, two reports for one place, or an input as output:
            one of this run, or any list, waiver file or shared file of places.
    """
    formats = formats or ("text",)
    if len(outputs) > len(formats):
        raise CallError("there are more --output than --format; give each output its format")
    rest = [STDOUT] * (len(formats) - len(outputs))
    targets = [
        Target(name, None if output == STDOUT else Path(output))
        for name, output in zip(formats, [*outputs, *rest], strict=True)
    ]
    if sum(target.path is None for target in targets) > 1:
        raise CallError(
            "only one format may go to standard output; give the others an --output, in their order"
        )
    taken = {reading.real(path) for path in inputs}
    for target in targets:
        if target.path is not None:
            real = reading.real(target.path)
            if real in taken or paths.first_key(real) in paths.OURS:
                raise CallError(
                    f"{target.path} is read or written already; choose another --output"
                )
            taken.add(real)
    return targets


def replace(path: Path, text: Iterable[str]) -> None:
    """Write a file whole or leave it as it was: a neighbour is written, then put in its place.

    Raises:
        CallError: it cannot be written.
    """
    try:
        with _neighbour(path) as stream:
            stream.writelines(text)
    except OSError as error:
        raise CallError(f"cannot write {path}: {error.strerror or error}") from None


def replace_bytes(path: Path, data: bytes) -> None:
    """As `replace`, for bytes that are to stay as they are.

    Raises:
        CallError: it cannot be written.
    """
    try:
        with _neighbour(path) as stream:
            stream.buffer.write(data)
    except OSError as error:
        raise CallError(f"cannot write {path}: {error.strerror or error}") from None


@contextlib.contextmanager
def _neighbour(path: Path) -> Iterator[TextIO]:
    target = reading.real(path)  # a link keeps pointing at the file that is replaced
    if path.exists() and not path.is_file():  # a device or pipe cannot be replaced
        with path.open("w", encoding="utf-8", errors="backslashreplace", newline="\n") as stream:
            yield stream
        return
    import tempfile  # noqa: PLC0415 - brings much that a report on the terminal does not need

    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    try:
        with open(  # noqa: PTH123 - a descriptor, no path
            handle, "w", encoding="utf-8", errors="backslashreplace", newline="\n"
        ) as stream:
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
