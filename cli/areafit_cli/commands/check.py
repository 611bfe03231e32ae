"""`areafit check`: the lists behind the paths, judged and reported."""

import hashlib
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from areafit.verdict import Basis
from areafit.version import __version__
from areafit_cli import choices, judging, output, paths, render, terminal
from areafit_cli.exits import Exit
from areafit_cli.faults import Fault, unknown
from areafit_cli.render.look import FILE, Look
from areafit_cli.render.run import Overlay, Run

if TYPE_CHECKING:
    from areafit import Options

_REPORT, _SCOPE, _GATE = "Report", "What is judged", "Gate"
Strings = list[str] | None


def command(
    path: Annotated[
        list[str], typer.Argument(metavar="PATH...", help="Lists, folders, globs, or - for input.")
    ],
    *,
    formats: Annotated[
        Strings,
        typer.Option(
            "--format",
            metavar="|".join(render.NAMES),
            help="May be repeated.",
            rich_help_panel=_REPORT,
        ),
    ] = None,
    outputs: Annotated[
        Strings,
        typer.Option(
            "--output",
            metavar="FILE",
            help="The n-th output takes the n-th format; - is standard output.",
            rich_help_panel=_REPORT,
        ),
    ] = None,
    quiet: Annotated[
        bool, typer.Option("--quiet", help="Open points only.", rich_help_panel=_REPORT)
    ] = False,
    only: Annotated[
        Strings, typer.Option(metavar="RULE", help="These rules only.", rich_help_panel=_SCOPE)
    ] = None,
    skip: Annotated[
        Strings, typer.Option(metavar="RULE", help="Not these rules.", rich_help_panel=_SCOPE)
    ] = None,
    tables: Annotated[
        str | None,
        typer.Option(
            metavar="DIR", help="Your own table rows, laid over ours.", rich_help_panel=_SCOPE
        ),
    ] = None,
    as_of: Annotated[
        str | None,
        typer.Option(
            metavar="DATE", help="The date for certificates; today.", rich_help_panel=_SCOPE
        ),
    ] = None,
    accept_unproven: Annotated[
        Strings,
        typer.Option(
            metavar="RULE", help="Let what this rule cannot prove pass.", rich_help_panel=_GATE
        ),
    ] = None,
    least_basis: Annotated[
        Basis, typer.Option(help="The weakest basis of a pass.", rich_help_panel=_GATE)
    ] = Basis.MEMORY,
    exit_zero: Annotated[
        bool,
        typer.Option("--exit-zero", help="Status 0 for a failed gate too.", rich_help_panel=_GATE),
    ] = False,
    jobs: Annotated[int, typer.Option(min=1, metavar="N", help="Lists judged at a time.")] = 1,
) -> None:
    """Judge bills of materials, and report what fits, what does not and what is unproven."""
    for name in formats or ():
        if name not in render.NAMES:
            raise unknown("format", name, render.NAMES)
    found = paths.find(path)
    targets = output.pair(formats or (), outputs or (), found.files)
    options = choices.options(
        only=only or (),
        skip=skip or (),
        accept_unproven=accept_unproven or (),
        least_basis=least_basis,
        as_of=as_of,
    )
    overlays = judging.read_overlays(tables)
    if found.others:
        terminal.note(f"areafit: left out {found.others} YAML files that are no bill of materials")
    with tempfile.TemporaryDirectory(prefix="areafit-") as folder:
        looks = tuple((target.format, _look(target, quiet=quiet)) for target in targets)
        work = [
            judging.Job(number, file, options, overlays, looks, Path(folder))
            for number, file in enumerate(found.files)
        ]
        outcomes = _outcomes(work, jobs)
        faults = (*found.faults, *(fault for each in outcomes for fault in each.faults))
        run = _run(outcomes, options, overlays, faults)
        for fault in faults:
            terminal.note(str(fault))
        read = [job for job, outcome in zip(work, outcomes, strict=True) if outcome.summary]
        for place, target in enumerate(targets):
            text = _assemble(run, read, looks, place)
            if target.path is None:
                output.write(text)
            else:
                output.replace(target.path, text)
    raise typer.Exit(_status(run, exit_zero=exit_zero))


def _look(target: output.Target, *, quiet: bool) -> Look:
    if target.path is not None:
        return Look(FILE.width, FILE.colour, quiet)
    width = terminal.width(sys.stdout, os.environ)
    return Look(width, terminal.colours(sys.stdout, os.environ), quiet)


def _outcomes(work: Sequence[judging.Job], jobs: int) -> list[judging.Outcome]:
    if jobs == 1 or len(work) < 2:
        return [judging.carry_out(job) for job in work]
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 - seldom, and slow to import

    pool = ProcessPoolExecutor(min(jobs, len(work)), initializer=judging.start_process)
    try:
        return list(pool.map(judging.carry_out, work))
    finally:
        pool.shutdown(cancel_futures=True)


def _run(
    outcomes: Sequence[judging.Outcome],
    options: "Options",
    overlays: dict[str, bytes],
    faults: tuple[Fault, ...],
) -> Run:
    summaries = tuple(outcome.summary for outcome in outcomes if outcome.summary)
    dated = options.as_of_chosen or any(bom.decided_by_date for bom in summaries)
    return Run(
        version=__version__,
        tables=judging.tables(overlays).digest,
        boms=summaries,
        faults=faults,
        overlays=tuple(
            Overlay(name, hashlib.sha256(data).hexdigest()) for name, data in overlays.items()
        ),
        as_of=options.as_of if dated else None,
    )


def _assemble(
    run: Run, read: Sequence[judging.Job], looks: Sequence[tuple[str, Look]], place: int
) -> Iterator[str]:
    """The report of one format: its head, the kept bodies in the order asked for, its tail."""
    kind, look = looks[place]
    shape = render.find(kind)
    yield from shape.head(run, look)
    filled = [job for job in read if job.body(place).stat().st_size]
    for number, job in enumerate(filled):
        if number:
            yield shape.between
        with job.body(place).open(encoding="utf-8", newline="\n") as stream:
            yield from iter(lambda: stream.read(1 << 20), "")
    yield from shape.tail(run, look)


def _status(run: Run, *, exit_zero: bool) -> Exit:
    if run.faults:
        return Exit.WRONG_INPUT
    return Exit.PASSED if exit_zero or run.gate != "fail" else Exit.FAILED
