"""The work of `areafit check`: the lists behind the paths, judged and reported."""

import contextlib
import hashlib
import signal
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from types import FrameType, MappingProxyType
from typing import TYPE_CHECKING, NoReturn

from areafit.values import Frozen, replace
from areafit.verdict import Basis
from areafit.version import __version__
from areafit_cli import config, lists, paths, render, terminal, words
from areafit_cli.errors import CallError, Exit, unknown
from areafit_cli.render import Overlay, Run, Style
from areafit_cli.render.wording import counted

if TYPE_CHECKING:
    from areafit import Options
    from areafit.errors import InputError
    from areafit.facts.waiver import Waiver
    from areafit.findings.report import BomReport

Strings = Sequence[str] | None
_SMALL = 256 * 1024  # bytes of a list whose report may be held in memory
_QUICK = MappingProxyType(
    {
        "--format": "formats",
        "-f": "formats",
        "--quiet": "quiet",
        "-q": "quiet",
        "--full": "full",
        "--only-lists": "only_lists",
        "--exit-zero": "exit_zero",
        "--no-config": "no_config",
    }
)


def read_call(arguments: Sequence[str]) -> Mapping[str, object] | None:
    """What a usual call states, as arguments of `check`; None where typer must look at it.

    Importing typer takes longer than judging a part. What is not understood here, help and every
    mistake included, is left to typer, and so is a configuration; tests hold that both read the
    same call alike.
    """
    stated: dict[str, object] = {}
    asked: list[str] = []
    formats: list[str] = []
    rest = iter(arguments)
    for argument in rest:
        option, equals, value = argument.partition("=")
        name = _QUICK.get(option)
        if not argument.startswith("-"):
            asked.append(argument)
        elif name == "formats" and not (equals and option == "-f"):
            text = value if equals else next(rest, "")
            if text not in render.NAMES:
                return None
            formats.append(text)
        elif name is None or equals or name == "formats":
            return None
        else:
            stated[name] = True
    if not asked or (not stated.get("no_config") and config.find(Path.cwd()) is not None):
        return None
    return {"path": asked, **({"formats": formats} if formats else {}), **stated}


def check(
    path: Sequence[str],
    *,
    formats: Strings = None,
    outputs: Strings = None,
    quiet: bool = False,
    full: bool = False,
    only_lists: bool = False,
    only: Strings = None,
    skip: Strings = None,
    tables: str | None = None,
    changed_since: str | None = None,
    since: str | None = None,
    as_of: str | None = None,
    waivers: Strings = None,
    no_waivers: bool = False,
    accept_unproven: Strings = None,
    least_basis: Basis = Basis.MEMORY,
    exit_zero: bool = False,
    library_age: str | None = None,
    jobs: int = 1,
    no_config: bool = False,
    config_: str | None = None,
) -> Exit:
    """Judge the lists, write the reports and return the status of the gate.

    Raises:
        CallError: the call asks for what cannot be.
    """
    found = paths.find(path, only_lists=only_lists)
    waived = () if no_waivers else tuple(waivers or ())
    settings = () if no_config else config.used(config_)
    old = () if since is None else (Path(since),)
    read = [*found.files, *old, *map(Path, waived), *lists.overlay_files(tables), *settings]
    targets = pair(formats or (), outputs or (), read)
    options = words.options(
        only=only or (),
        skip=skip or (),
        accept_unproven=accept_unproven or (),
        least_basis=least_basis,
        as_of=as_of,
        partial=changed_since is not None,
    )
    stale = None if library_age is None else words.age(library_age, options.as_of)
    overlays = lists.read_overlays(tables)
    accepted = lists.read_waivers(waived)
    if found.others:
        which = "that is" if found.others == 1 else "that are"
        others = f"{counted(found.others, 'YAML file')} {which} no bill of materials"
        terminal.note(f"areafit: left out {others}")
    if only_lists and _nothing_left(found):
        return Exit.PASSED
    files = found.files
    before = _before(since, files, options, overlays, accepted)
    if changed_since is not None:
        from areafit_cli import git  # noqa: PLC0415 - only gates ask what changed

        files = git.select(files, changed_since, (*waived, tables, *settings))
    unchanged = len(found.files) - len(files)
    if unchanged:
        left_out = counted(unchanged, "list")
        terminal.note(f"areafit: left out {left_out} unchanged since {changed_since}")
    with _unwinding(), _folder(files) as folder:
        several = len(files) > 1
        formats_ = tuple(
            (
                target.format,
                replace(target.style(quiet=quiet), full=full, several=several, since=before),
            )
            for target in targets
        )
        work = [
            lists.Job(number, file, options, overlays, formats_, folder, accepted)
            for number, file in enumerate(files)
        ]
        results = list(terminal.progress(lists.results(work, jobs), files))
        errors = (*found.errors, *(error for each in results for error in each.errors))
        run = _run(results, options, overlays, errors, unchanged)
        run = replace(
            run, stale=stale, opened=_opened(None if no_config else config_, exit_zero, no_config)
        )
        for error in errors:
            terminal.note(str(error))
        done = [pair for pair in zip(work, results, strict=True) if pair[1].summary]
        for place, target in enumerate(targets):
            text = _assemble(run, done, place, *formats_[place])
            if target.path is None:
                terminal.write(text)
            else:
                paths.replace(target.path, text)
    if run.errors:
        return Exit.WRONG_INPUT
    return Exit.PASSED if exit_zero or run.passes else Exit.FAILED


def _before(
    since: str | None,
    files: Sequence[Path],
    options: "Options",
    overlays: Mapping[str, bytes],
    waivers: "tuple[Waiver, ...]",
) -> "BomReport | None":
    """The list as it was, judged by what is known today; None where nobody asks.

    Raises:
        CallError: several lists are judged, and only one can have been another one.
    """
    if since is None:
        return None
    if len(files) != 1:
        raise CallError("--since tells of one list what it was before; name one list")
    return lists.judged(
        lists.read(since), lists.known_tables(overlays, options.as_of), options, waivers
    )


def _nothing_left(found: paths.Found) -> bool:
    """Whether no list is among the files of a hook; what it cannot judge is told."""
    if found.shared:
        terminal.note(
            "areafit: lists that use a changed file of places or library are not judged here; "
            "`areafit check --changed-since` finds them"
        )
    if found.files or found.errors:
        return False
    terminal.note("areafit: nothing to judge")
    return True


def _opened(named: str | None, exit_zero: bool, no_config: bool) -> tuple[str, ...]:
    """What lets a failed gate pass in this run, in words."""
    options = () if no_config else config.opens(named)
    own = exit_zero and "exit-zero" not in dict(options)
    return (*(["`--exit-zero`"] if own else ()), *(said for _, said in options))


class Target(Frozen):
    """One format and the file it is written to; `path` is None for standard output."""

    format: str
    path: Path | None

    def style(self, *, quiet: bool) -> Style:
        """How the report is to look there."""
        if self.path is not None:
            return Style(quiet=quiet)
        paper = terminal.paper()
        return Style(paper.width, paper.colour, quiet)


_SUFFIXES = {
    ".htm": "html",
    ".html": "html",
    ".json": "json",
    ".sarif": "sarif",
    ".xml": "junit",
    ".md": "markdown",
    ".csv": "csv",
}


def _by_suffix(output: str) -> str:
    """The format that a file's name asks for, where none is named."""
    suffix = Path(output).suffix.lower()
    if suffix in _OFFICE:
        raise CallError(f"no format writes {suffix}; write {_OFFICE[suffix]}")
    return _SUFFIXES.get(suffix, "text")


_OFFICE = {
    ".pdf": "the dossier as .html and print it to PDF",
    ".docx": "the dossier as .html",
    ".xlsx": ".csv, or the questions by `areafit actions --format xlsx`",
    ".ods": ".csv, or the questions by `areafit actions --format xlsx`",
}


def pair(formats: Sequence[str], outputs: Sequence[str], inputs: Iterable[Path]) -> list[Target]:
    """The n-th format with the n-th output; formats without one go to standard output.

    Raises:
        CallError: a format that is none, more outputs than formats, two reports for one place, or
            an input as output: what this run reads, or any list, waiver file, library or file of
            places.
    """
    formats = formats or [_by_suffix(output) for output in outputs] or ["text"]
    for name in formats:
        if name not in render.NAMES:
            raise unknown("format", name, render.NAMES)
    if len(outputs) > len(formats):
        raise CallError("there are more --output than --format; give each output its format")
    rest = [paths.STDOUT] * (len(formats) - len(outputs))
    targets = [
        Target(name, None if output == paths.STDOUT else Path(output))
        for name, output in zip(formats, [*outputs, *rest], strict=True)
    ]
    if sum(target.path is None for target in targets) > 1:
        raise CallError(
            "only one format may go to standard output; give the others an --output, in their order"
        )
    taken = {paths.real(path) for path in inputs}
    for target in targets:
        if target.path is not None:
            real = paths.real(target.path)
            if real in taken or paths.first_key(real) in paths.OURS:
                raise CallError(
                    f"{target.path} is read or written already; choose another --output"
                )
            taken.add(real)
    return targets


@contextlib.contextmanager
def _unwinding() -> Iterator[None]:
    """Let a request to end, as a cancelled pipeline sends it, leave nothing behind."""
    try:
        before = signal.signal(signal.SIGTERM, _end)
    except ValueError:  # not the main thread: whoever runs it has handlers of his own
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _end(number: int, _frame: FrameType | None) -> NoReturn:
    raise SystemExit(128 + number)  # as a shell reports it


@contextlib.contextmanager
def _folder(files: Sequence[Path]) -> Iterator[Path | None]:
    """Where bodies are kept until all lists are judged; None where one small list needs none."""
    if len(files) == 1 and files[0].is_file() and files[0].stat().st_size <= _SMALL:
        yield None
        return
    import tempfile  # noqa: PLC0415 - brings much that a small list does not need

    with tempfile.TemporaryDirectory(prefix="areafit-") as folder:
        yield Path(folder)


def _run(
    results: Sequence[lists.JobResult],
    options: "Options",
    overlays: Mapping[str, bytes],
    errors: "tuple[InputError, ...]",
    unchanged: int,
) -> Run:
    known = lists.known_tables(overlays, options.as_of)
    summaries = tuple(result.summary for result in results if result.summary)
    dated = options.as_of_chosen or any(bom.decided_by_date for bom in summaries)
    return Run(
        version=__version__,
        tables=known.digest,
        boms=summaries,
        errors=errors,
        overlays=tuple(
            Overlay(name, hashlib.sha256(data).hexdigest()) for name, data in overlays.items()
        ),
        as_of=options.as_of if dated else None,
        unchanged=unchanged,
        laxer=known.laxer if overlays else (),
    )


def _assemble(
    run: Run,
    done: Sequence[tuple[lists.Job, lists.JobResult]],
    place: int,
    kind: str,
    style: Style,
) -> Iterator[str]:
    """The report of one format: its head, the kept bodies in the order asked for, its tail."""
    shape = render.find(kind)
    yield from shape.head(run, style)
    filled = False
    for job, result in done:
        body = lists.body(job, result, place)
        first = next(body, "")
        if first:
            if filled:
                yield shape.between
            filled = True
            yield first
            yield from body
    yield from shape.tail(run, style)
