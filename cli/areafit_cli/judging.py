"""One list from its path to rendered text: the piece of a run that may go to another process.

Only small values travel: the body of each format is written to a file of the run's own folder, so
a long list is neither kept nor sent. A run over one small list has no folder and keeps the text.
"""

import functools
import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import areafit
from areafit.values import Frozen
from areafit_cli import fetch, paths, reading, render
from areafit_cli.faults import CallError, Fault, from_errors
from areafit_cli.render.run import Summary, summarise

if TYPE_CHECKING:
    from datetime import date

    from areafit import Options, Tables
    from areafit.facts.bom import Bom
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport
    from areafit_cli.render.look import Look


class Job(Frozen):
    """A list to judge, and the looks of the formats to render it in."""

    number: int
    path: Path
    options: "Options"
    overlays: Mapping[str, bytes]
    formats: "tuple[tuple[str, Look], ...]"
    folder: Path | None
    waivers: "tuple[Waiver, ...]" = ()


class Outcome(Frozen):
    """What became of a job: a summary, or the mistakes that kept it from being read.

    `bodies` are the texts of its formats where the run has no folder for them.
    """

    summary: Summary | None
    faults: tuple[Fault, ...] = ()
    bodies: tuple[str, ...] = ()


def carry_out(job: Job) -> Outcome:
    """Read, judge and render one list."""
    name = paths.shown(job.path)
    try:
        data = reading.read(job.path)
    except OSError as error:
        reason = error.strerror or str(error)
        return Outcome(None, (Fault(name, 0, 0, f"cannot be read ({reason})", "check the path"),))
    try:
        bom = areafit.read(data, name, fetch.fetcher(job.path))
    except areafit.InputErrors as errors:
        return Outcome(None, from_errors(errors))
    report = judged(bom, tables(job.overlays, job.options.as_of), job.options, job.waivers)
    texts = (render.find(kind).body(report, look) for kind, look in job.formats)
    if job.folder is None:
        return Outcome(summarise(report), bodies=tuple(map("".join, texts)))
    for place, text in enumerate(texts):
        _keep(job.folder / _name(job, place), text)
    return Outcome(summarise(report))


def body(job: Job, outcome: Outcome, place: int) -> Iterator[str]:
    """The body of the format at this place of `formats`, in pieces; nothing for an empty one."""
    if job.folder is None:
        yield outcome.bodies[place]
        return
    with (job.folder / _name(job, place)).open(encoding="utf-8", newline="\n") as stream:
        yield from iter(lambda: stream.read(1 << 20), "")


def judged(
    bom: "Bom", known: "Tables", options: "Options", waivers: "tuple[Waiver, ...]"
) -> "BomReport":
    """The report on a list, with the waivers that hold laid over it."""
    report = areafit.judge(bom, known, options)
    if not waivers:
        return report
    from areafit.findings.waivers import apply  # noqa: PLC0415 - digests load on demand

    return apply(report, waivers, options.as_of)


def _name(job: Job, place: int) -> str:
    return f"{job.number}-{place}"


def _keep(path: Path, text: Iterable[str]) -> None:
    with path.open("w", encoding="utf-8", errors="backslashreplace", newline="\n") as stream:
        stream.writelines(text)


def tables(overlays: Mapping[str, bytes], as_of: "date") -> "Tables":
    """The shipped tables with the company's own rows laid over them, made once a process.

    A laxer row that is approved on a later date than `as_of` is not approved yet.

    Raises:
        CallError: a row of the company's cannot be read.
    """
    return _tables(tuple(sorted(overlays.items())), as_of)


@functools.cache
def _tables(overlays: tuple[tuple[str, bytes], ...], as_of: "date") -> "Tables":
    from areafit.tables.cited import TableError  # noqa: PLC0415 - tables load when first asked

    if not overlays:
        return areafit.Tables.shipped()
    try:
        return areafit.Tables.overlaid(dict(overlays), as_of)
    except TableError as error:
        raise CallError(*map(str, error.problems)) from None


def read_overlays(folder: str | None) -> dict[str, bytes]:
    """The CSV files of a `--tables` folder by name.

    Raises:
        CallError: there is no such folder, or no table in it.
    """
    if folder is None:
        return {}
    try:
        names = sorted(name for name in os.listdir(folder) if name.endswith(".csv"))  # noqa: PTH208
        found = {name: reading.read(Path(folder, name)) for name in names}
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise CallError(f"cannot read the tables of {folder}: {reason}") from None
    if not found:
        raise CallError(f"{folder} holds no table; a table is a CSV file named as a shipped one")
    return found
