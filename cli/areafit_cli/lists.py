"""Lists from their paths to reports: what a list rests on, one of them, or many at a time."""

import functools
import gc
import os
import signal
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import areafit
from areafit.values import Frozen
from areafit.verdict import Basis
from areafit_cli import paths, render, words
from areafit_cli.errors import CallError

if TYPE_CHECKING:
    from datetime import date

    from areafit.answers.taking import Shelf, Taken
    from areafit.errors import InputError
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport


# What a list rests on


def read_overlays(folder: str | None) -> dict[str, bytes]:
    """The CSV files of a `--tables` folder by name.

    Raises:
        CallError: there is no such folder, or no table in it.
    """
    if folder is None:
        return {}
    try:
        names = sorted(name for name in os.listdir(folder) if name.endswith(".csv"))  # noqa: PTH208
        found = {name: paths.read(Path(folder, name)) for name in names}
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise CallError(f"cannot read the tables of {folder}: {reason}") from None
    if not found:
        raise CallError(f"{folder} holds no table; a table is a CSV file named as a shipped one")
    return found


def overlay_files(folder: str | None) -> list[Path]:
    """The files that `read_overlays` reads."""
    return [] if folder is None else sorted(Path(folder).glob("*.csv"))


def known_tables(overlays: Mapping[str, bytes], as_of: "date") -> "areafit.Tables":
    """The shipped tables with the company's own rows laid over them, made once a process.

    A laxer row that is approved on a later date than `as_of` is not approved yet.

    Raises:
        CallError: a row of the company's cannot be read.
    """
    return _tables(tuple(sorted(overlays.items())), as_of)


@functools.cache
def _tables(overlays: tuple[tuple[str, bytes], ...], as_of: "date") -> "areafit.Tables":
    if not overlays:
        return areafit.Tables.shipped()
    try:
        return areafit.Tables.overlaid(dict(overlays), as_of)
    except areafit.TableError as error:
        raise CallError(*map(str, error.problems)) from None


def read_waivers(files: Iterable[str]) -> "tuple[Waiver, ...]":
    """The waivers of all files, in their order.

    Raises:
        CallError: a file cannot be read.
        InputErrors: a file is no valid waiver file.
    """
    found: list[Waiver] = []
    for path in map(Path, files):
        data = paths.read_or_refuse(path, f"the waivers of {path}")
        rules = [rule.id for rule in areafit.RULES]
        found += areafit.read_waivers(data, paths.shown(path), rules)
    return tuple(found)


# One list


def read(name: str) -> "areafit.Bom":
    """The facts of a list; `-` is standard input.

    Raises:
        CallError: the file cannot be read.
        InputErrors: it is no valid list.
    """
    path = Path(name)
    data = paths.read_or_refuse(path, name)
    return areafit.read(
        data, paths.shown(path), paths.shared_reader(path), paths.shared_folder(path)
    )


def reader(path: Path) -> "Callable[[bytes], areafit.Bom]":
    """What reads bytes as the list at a path, with the files that it names."""
    shared, folder = paths.shared_reader(path), paths.shared_folder(path)
    return lambda data: areafit.read(data, paths.shown(path), shared, folder)


def shelf(path: Path) -> "Shelf":
    """The library files that the list at a path names, and what reads the list with them changed.

    Raises:
        CallError: a file cannot be read.
        InputErrors: it is no valid list.
    """
    from areafit.answers.taking import Shelf  # noqa: PLC0415 - loads on demand

    names = [file.name for file in read(str(path)).library.files]
    return Shelf({name: paths.read(Path(name)) for name in names}, changed_reader(path))


def write_taken(path: Path, before: bytes, shelf: "Shelf", taken: "Taken") -> None:
    """Put a list, and the files of its library, as they are with the answers in them.

    Raises:
        CallError: one of them has changed since it was read, or cannot be written.
    """
    read = {path: before, **{Path(name): data for name, data in shelf.files.items()}}
    now = {path: taken.data, **{Path(name): data for name, data in taken.library.items()}}
    changed = {file: data for file, data in now.items() if data != read[file]}
    for file in changed:  # all of them before the first is written
        if paths.read(file) != read[file]:
            raise CallError(
                f"{paths.shown(file)} has changed since it was read; nothing was written"
            )
    for file, data in changed.items():
        paths.replace_unchanged(file, read[file], [data])


def changed_reader(path: Path) -> "Callable[[bytes, Mapping[str, bytes]], areafit.Bom]":
    """What reads bytes as the list at a path, with files of its library as they would be."""
    shared, folder = paths.shared_reader(path), paths.shared_folder(path)
    here = path.resolve().parent

    def read_(data: bytes, changed: "Mapping[str, bytes]") -> "areafit.Bom":
        by_file = {paths.real(Path(name)): now for name, now in changed.items()}

        def fetch(name: str) -> bytes:
            now = by_file.get(paths.real(here / name)) if name else None
            return shared(name) if now is None else now

        return areafit.read(data, paths.shown(path), fetch, folder)

    return read_


def report(
    name: str,
    *,
    tables: str | None = None,
    as_of: str | None = None,
    waivers: Iterable[str] = (),
    accept_unproven: Iterable[str] = (),
    least_basis: Basis = Basis.MEMORY,
) -> "BomReport":
    """The report on a list with the waivers that hold laid over it.

    Raises:
        CallError: a file cannot be read, or an option does not serve.
        InputErrors: the list or a waiver file is not valid.
    """
    options = words.options(accept_unproven=accept_unproven, least_basis=least_basis, as_of=as_of)
    known = known_tables(read_overlays(tables), options.as_of)
    return judged(read(name), known, options, read_waivers(waivers))


def judged(
    bom: "areafit.Bom",
    tables: "areafit.Tables",
    options: "areafit.Options",
    waivers: "tuple[Waiver, ...]",
) -> "BomReport":
    """The report on a list that is read, with the waivers that hold laid over it."""
    found = areafit.judge(bom, tables, options)
    return areafit.apply_waivers(found, waivers, options.as_of) if waivers else found


# Many lists
#
# Only small values travel between processes: the body of each format is written to a file of the
# run's own folder, so a long list is neither kept nor sent. A run over one small list has no
# folder and keeps the text.


class Job(Frozen):
    """A list to judge, and the formats to render it in, each with its style."""

    number: int
    path: Path
    options: "areafit.Options"
    overlays: Mapping[str, bytes]
    formats: tuple[tuple[str, render.Style], ...]
    folder: Path | None
    waivers: "tuple[Waiver, ...]" = ()

    def file(self, place: int) -> Path | None:
        """Where the body of the format at this place of `formats` is kept."""
        return self.folder and self.folder / f"{self.number}-{place}"


class JobResult(Frozen):
    """What became of a job: a summary, or the errors that kept it from being read.

    `bodies` are the texts of its formats where the run has no folder for them.
    """

    summary: render.Summary | None
    errors: "tuple[InputError, ...]" = ()
    bodies: tuple[str, ...] = ()


def carry_out(job: Job) -> JobResult:
    """Read, judge and render one list."""
    try:
        data = paths.read(job.path)
    except OSError as error:
        reason = error.strerror or str(error)
        return JobResult(None, (paths.missing(job.path, f"cannot be read ({reason})"),))
    try:
        path = job.path
        bom = areafit.read(
            data, paths.shown(path), paths.shared_reader(path), paths.shared_folder(path)
        )
    except areafit.InputErrors as errors:
        return JobResult(None, errors.errors)
    tables = known_tables(job.overlays, job.options.as_of)
    report = judged(bom, tables, job.options, job.waivers)
    bodies: list[str] = []
    for place, (kind, plain) in enumerate(job.formats):
        style = _with_questions(plain, job) if kind in _NUMBERED else plain
        text = render.find(kind).body(report, style)
        file = job.file(place)
        if file is None:
            bodies.append("".join(text))
            continue
        with file.open("w", encoding="utf-8", errors="backslashreplace", newline="\n") as stream:
            stream.writelines(text)
    return JobResult(render.summarise(report), bodies=tuple(bodies))


_NUMBERED = ("text", "html", "markdown")


def _with_questions(style: render.Style, job: Job) -> render.Style:
    """The style with the numbers of the register beside the list; they decide nothing."""
    path = job.path
    if not path.with_name("questions.csv").is_file():
        return style
    from areafit.values import replace  # noqa: PLC0415 - seldom
    from areafit_cli import registers  # noqa: PLC0415 - as above

    try:
        known = registers.read(registers.path_of(path))
    except CallError:  # `actions` says what is wrong with it
        return style
    return replace(
        style,
        asked=tuple((one.identity, (one.number, one.asked, one.refused)) for one in known.entries),
        on=job.options.as_of,
    )


def body(job: Job, result: JobResult, place: int) -> Iterator[str]:
    """The body of the format at this place of `formats`, in pieces; nothing for an empty one."""
    file = job.file(place)
    if file is None:
        yield result.bodies[place]
        return
    with file.open(encoding="utf-8", newline="\n") as stream:
        yield from iter(lambda: stream.read(1 << 20), "")


def results(work: Sequence[Job], jobs: int) -> Iterator[JobResult]:
    """The results in the order of the work, so many lists at a time.

    Raises:
        CallError: the system ended one of the processes.
    """
    piped = any(str(job.path) == paths.STDIN for job in work)  # another process has no input
    if jobs == 1 or len(work) < 2 or piped:
        yield from map(carry_out, work)
    else:
        yield from _in_processes(work, jobs)


def _in_processes(work: Sequence[Job], jobs: int) -> Iterator[JobResult]:
    """As `results`, each list in a process of its own; an interrupt ends all at once."""
    import multiprocessing  # noqa: PLC0415 - seldom, and slow to import
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 - as above
    from concurrent.futures.process import BrokenProcessPool  # noqa: PLC0415 - as above

    # By a fork, where the system's own threads allow it, as Python did up to 3.13: a child has the
    # tables that are read already, and no server of processes outlives an interrupt.
    how = multiprocessing.get_context("fork" if sys.platform == "linux" else None)
    pool = ProcessPoolExecutor(min(jobs, len(work)), how, initializer=_start)
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)  # what starts now inherits it
    try:
        coming = pool.map(carry_out, work)
    finally:
        signal.signal(signal.SIGINT, before)
    try:
        yield from coming
    except BrokenProcessPool:
        raise CallError(
            "the system ended a process that judged a list, perhaps for lack of memory; "
            "run again with fewer --jobs"
        ) from None
    except BaseException:
        for process in multiprocessing.active_children():
            process.terminate()
        raise
    finally:
        pool.shutdown(cancel_futures=True)


def _start() -> None:
    """Set up a process that only judges: it leaves an interrupt to the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    gc.disable()


def _end_with_parent() -> None:
    """End this process when the one that started it is gone, however that ended."""
    from multiprocessing import connection, parent_process  # noqa: PLC0415 - in a child only

    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)
