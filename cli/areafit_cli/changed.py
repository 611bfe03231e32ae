"""`--changed-since`: the lists that changed, or that depend on a file that did."""

from collections.abc import Iterable, Sequence
from pathlib import Path

import areafit
from areafit_cli import fetch, paths, reading
from areafit_cli.faults import CallError
from areafit_cli.git import Changes


def select(files: Sequence[Path], revision: str, shared: Iterable[Path | str | None]) -> list[Path]:
    """The lists to judge, in their order.

    `shared` are files and folders that all lists depend on: waivers, tables, configuration.

    Raises:
        CallError: git cannot say what changed, or a list comes from standard input.
    """
    if any(str(path) == paths.STDIN for path in files):
        raise CallError("--changed-since compares files; standard input is none")
    changes = Changes(revision)
    if changes.any_changed(Path(each) for each in shared if each is not None):
        return list(files)
    return [path for path in files if _concerned(path, changes)]


def _concerned(path: Path, changes: Changes) -> bool:
    if changes.any_changed([path]):
        return True
    used: list[Path] = []
    fetched = fetch.fetcher(path)

    def recording(relative: str) -> bytes:
        used.append(path.parent / relative)
        return fetched(relative)

    try:
        areafit.read(reading.read(path), paths.shown(path), recording)
    except (OSError, areafit.InputErrors):
        return True  # what it depends on cannot be known
    return changes.any_changed(used)
