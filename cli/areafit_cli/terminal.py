"""The streams that a run writes to: terminals, pipes and logs that may be full, closed or left."""

import contextlib
import io
import os
import sys
import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, TextIO, TypeVar

from areafit_cli.errors import CallError
from areafit_cli.safe_text import clean, obeyed

if TYPE_CHECKING:
    from pathlib import Path

    from areafit_cli.render.paper import Paper

T = TypeVar("T")
_PIPE_WIDTH = 100
_NARROWEST, _WIDEST = 40, 120
_LARGE = 1 << 20  # bytes of one list from which on reading it takes a while
_PAUSE = 0.1  # seconds between two updates of progress


def prepare() -> None:
    """Make both streams UTF-8 with plain line ends, whatever the locale or code page says.

    What cannot be encoded is written as an escape: a report must not die of a character. Where a
    stream is closed, notes go nowhere and a report fails as on a full disk.
    """
    if sys.stdout is None:
        sys.stdout = _open(os.O_RDONLY)
    if sys.stderr is None:
        sys.stderr = _open(os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:  # a test's stream may have none
            reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")


def _open(how: int) -> TextIO:
    return open(os.open(os.devnull, how), "w", encoding="utf-8")  # noqa: PTH123 - a stream


def colours(stream: TextIO, environ: Mapping[str, str]) -> bool:
    """Whether to colour: never under NO_COLOR, always under FORCE_COLOR, else on a terminal."""
    if environ.get("NO_COLOR"):
        return False
    if environ.get("FORCE_COLOR"):
        return environ["FORCE_COLOR"] != "0"
    return stream.isatty() and environ.get("TERM") != "dumb"


def width(stream: TextIO, environ: Mapping[str, str]) -> int:
    """Columns to fill: COLUMNS, else the terminal's own, else a fixed width for pipes."""
    stated = environ.get("COLUMNS", "")
    if stated.isdecimal() and int(stated) > 0:
        return min(max(int(stated), _NARROWEST), _WIDEST)
    try:
        columns = os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError, AttributeError):
        return _PIPE_WIDTH
    return min(max(columns or _PIPE_WIDTH, _NARROWEST), _WIDEST)


def paper() -> "Paper":
    """The paper for standard output as it is now."""
    from areafit_cli.render.paper import Paper  # noqa: PLC0415 - notes need no renderer

    return Paper(width(sys.stdout, os.environ), colours(sys.stdout, os.environ))


def looked_at() -> bool:
    """Whether a person looks at standard output as it is written."""
    return sys.stdout.isatty() and os.environ.get("TERM") != "dumb"


def grid(head: Sequence[str], rows: Iterable[Sequence[str]], *, title: str = "") -> None:
    """A table for a person who looks; what goes through a pipe is written by `write` instead."""
    from rich import box  # noqa: PLC0415 - slow to import
    from rich.console import Console  # noqa: PLC0415 - as above
    from rich.table import Table  # noqa: PLC0415 - as above
    from rich.text import Text  # noqa: PLC0415 - as above

    table = Table(*head, title=title or None, title_justify="left", box=box.SIMPLE_HEAD)
    for row in rows:
        table.add_row(*(Text(clean(cell)) for cell in row))
    sheet = paper()
    lines = io.StringIO()
    Console(
        file=lines,
        width=sheet.width,
        force_terminal=sheet.colour,
        no_color=not sheet.colour,
        highlight=False,
    ).print(table)
    write([lines.getvalue()])


def write(text: Iterable[str]) -> None:
    """Write to standard output. A reader that has seen enough ends the writing, not the run.

    Raises:
        CallError: it cannot be written, as to a full disk.
    """
    try:
        for piece in text:
            sys.stdout.write(piece)
        sys.stdout.flush()
    except BrokenPipeError:
        mute()
    except OSError as error:
        mute()
        raise CallError(f"cannot write standard output: {error.strerror or error}") from None


def write_json(value: object) -> None:
    """Write a value as JSON over several lines, for a person too."""
    from areafit_cli.render.json_text import pretty  # noqa: PLC0415 - text answers need no json

    write([pretty(value), "\n"])


def mute() -> None:
    """Let later writes to a closed pipe, the one at exit included, go nowhere."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def note(text: str) -> None:
    """One line for the person who started the run; never part of a report.

    Where it cannot be written the run goes on: its exit status says the same.
    """
    try:
        shown = clean(text)
        sys.stderr.write(f"areafit: {shown}\n" if obeyed(shown) else f"{shown}\n")
        sys.stderr.flush()
    except (OSError, ValueError):  # full, closed, or a pipe without a reader
        sys.stderr = _open(os.O_WRONLY)


def progress(outcomes: Iterable[T], files: "Sequence[Path]") -> Iterator[T]:
    """The outcomes as they come; who watches a long run is told how many there are of how many.

    Logs and pipes, and terminals that cannot take a line back, never see it.
    """
    watched = sys.stderr.isatty() and os.environ.get("TERM") != "dumb"
    if not watched or not _takes_a_while(files):
        yield from outcomes
        return
    from rich.console import Console  # noqa: PLC0415 - slow to import
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn  # noqa: PLC0415

    name = f"judging {files[0].name}" if len(files) == 1 else f"judging {len(files)} lists"
    console = Console(
        file=sys.stderr,
        width=width(sys.stderr, os.environ),
        force_terminal=True,
        no_color=not colours(sys.stderr, os.environ),
        highlight=False,
    )
    columns = (TextColumn("{task.description}", markup=False), BarColumn(), MofNCompleteColumn())
    # no thread of its own: lists may be judged by processes that are forked
    with Progress(*columns, console=console, transient=True, auto_refresh=False) as bar:
        task = bar.add_task(clean(name), total=len(files))
        bar.refresh()
        shown = time.monotonic()
        for outcome in outcomes:
            bar.advance(task)
            if time.monotonic() - shown > _PAUSE:
                bar.refresh()
                shown = time.monotonic()
            yield outcome


def _takes_a_while(files: "Sequence[Path]") -> bool:
    return len(files) > 1 or any(path.is_file() and path.stat().st_size > _LARGE for path in files)
