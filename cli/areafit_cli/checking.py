"""The work of `areafit check`: the lists behind the paths, judged and reported."""

import contextlib
import hashlib
import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from areafit.verdict import Basis
from areafit.version import __version__
from areafit_cli import (
    choices,
    config,
    ending,
    judging,
    output,
    paths,
    printing,
    progress,
    render,
    terminal,
    waiving,
)
from areafit_cli.exits import Exit
from areafit_cli.faults import Fault, unknown
from areafit_cli.render.look import FILE, Look
from areafit_cli.render.remarks import counted
from areafit_cli.render.run import Overlay, Run

if TYPE_CHECKING:
    from areafit import Options

Strings = Sequence[str] | None
_SMALL = 256 * 1024  # bytes of a list whose report may be held in memory


def check(
    path: Sequence[str],
    *,
    formats: Strings = None,
    outputs: Strings = None,
    quiet: bool = False,
    only: Strings = None,
    skip: Strings = None,
    tables: str | None = None,
    changed_since: str | None = None,
    as_of: str | None = None,
    waivers: Strings = None,
    no_waivers: bool = False,
    accept_unproven: Strings = None,
    least_basis: Basis = Basis.MEMORY,
    exit_zero: bool = False,
    jobs: int = 1,
    no_config: bool = False,
    config_: str | None = None,
) -> Exit:
    """Judge the lists, write the reports and return the status of the gate.

    Raises:
        CallError: the call asks for what cannot be.
    """
    for name in formats or ():
        if name not in render.NAMES:
            raise unknown("format", name, render.NAMES)
    found = paths.find(path)
    waived = () if no_waivers else tuple(waivers or ())
    inputs = [*found.files, *map(Path, waived)]
    targets = output.pair(formats or (), outputs or (), inputs)
    options = choices.options(
        only=only or (),
        skip=skip or (),
        accept_unproven=accept_unproven or (),
        least_basis=least_basis,
        as_of=as_of,
        partial=changed_since is not None,
    )
    overlays = judging.read_overlays(tables)
    accepted = waiving.read(waived)
    if found.others:
        which = "that is" if found.others == 1 else "that are"
        others = f"{counted(found.others, 'YAML file')} {which} no bill of materials"
        terminal.note(f"areafit: left out {others}")
    files = found.files
    if changed_since is not None:
        from areafit_cli import changed  # noqa: PLC0415 - only gates ask what changed

        settings = () if no_config else config.used(config_)
        files = changed.select(files, changed_since, (*waived, tables, *settings))
    left_out = len(found.files) - len(files)
    if left_out:
        lists = counted(left_out, "list")
        terminal.note(f"areafit: left out {lists} unchanged since {changed_since}")
    with ending.tidily(), _folder(files) as folder:
        looks = tuple((target.format, _look(target, quiet=quiet)) for target in targets)
        work = [
            judging.Job(number, file, options, overlays, looks, folder, accepted)
            for number, file in enumerate(files)
        ]
        outcomes = list(progress.counted(_outcomes(work, jobs), files))
        faults = (*found.faults, *(fault for each in outcomes for fault in each.faults))
        run = _run(outcomes, options, overlays, faults, left_out)
        for fault in faults:
            terminal.note(str(fault))
        done = [pair for pair in zip(work, outcomes, strict=True) if pair[1].summary]
        for place, target in enumerate(targets):
            text = _assemble(run, done, looks, place)
            if target.path is None:
                printing.write(text)
            else:
                output.replace(target.path, text)
    return _status(run, exit_zero=exit_zero)


@contextlib.contextmanager
def _folder(files: Sequence[Path]) -> Iterator[Path | None]:
    """Where bodies are kept until all lists are judged; None where one small list needs none."""
    if len(files) == 1 and files[0].is_file() and files[0].stat().st_size <= _SMALL:
        yield None
        return
    import tempfile  # noqa: PLC0415 - brings much that a small list does not need

    with tempfile.TemporaryDirectory(prefix="areafit-") as folder:
        yield Path(folder)


def _look(target: output.Target, *, quiet: bool) -> Look:
    if target.path is not None:
        return Look(FILE.width, FILE.colour, quiet)
    width = terminal.width(sys.stdout, os.environ)
    return Look(width, terminal.colours(sys.stdout, os.environ), quiet)


def _outcomes(work: Sequence[judging.Job], jobs: int) -> Iterator[judging.Outcome]:
    piped = any(str(job.path) == paths.STDIN for job in work)  # another process has no input
    if jobs == 1 or len(work) < 2 or piped:
        yield from map(judging.carry_out, work)
        return
    from areafit_cli import parallel  # noqa: PLC0415 - seldom, and slow to import

    yield from parallel.outcomes(work, jobs)


def _run(
    outcomes: Sequence[judging.Outcome],
    options: "Options",
    overlays: dict[str, bytes],
    faults: tuple[Fault, ...],
    unchanged: int,
) -> Run:
    summaries = tuple(outcome.summary for outcome in outcomes if outcome.summary)
    dated = options.as_of_chosen or any(bom.decided_by_date for bom in summaries)
    return Run(
        version=__version__,
        tables=judging.tables(overlays, options.as_of).digest,
        boms=summaries,
        faults=faults,
        overlays=tuple(
            Overlay(name, hashlib.sha256(data).hexdigest()) for name, data in overlays.items()
        ),
        as_of=options.as_of if dated else None,
        unchanged=unchanged,
        laxer=judging.tables(overlays, options.as_of).laxer if overlays else (),
    )


def _assemble(
    run: Run,
    done: Sequence[tuple[judging.Job, judging.Outcome]],
    looks: Sequence[tuple[str, Look]],
    place: int,
) -> Iterator[str]:
    """The report of one format: its head, the kept bodies in the order asked for, its tail."""
    kind, look = looks[place]
    shape = render.find(kind)
    yield from shape.head(run, look)
    bodies = (judging.body(job, outcome, place) for job, outcome in done)
    filled = 0
    for body in bodies:
        first = next(body, "")
        if first:
            if filled:
                yield shape.between
            filled += 1
            yield first
            yield from body
    yield from shape.tail(run, look)


def _status(run: Run, *, exit_zero: bool) -> Exit:
    if run.faults:
        return Exit.WRONG_INPUT
    return Exit.PASSED if exit_zero or run.passes else Exit.FAILED
