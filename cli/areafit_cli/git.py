"""`--changed-since`: the lists that changed since a revision, or that depend on a file that did.

What git cannot say is an error of the call.
"""

import os
import subprocess
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import areafit
from areafit.values import Frozen
from areafit_cli import paths
from areafit_cli.errors import CallError

_TRACKED = "H"  # `git ls-files -v`: known and compared; other letters are not, or not always
_QUIET = ("-c", "core.fsmonitor=false", "-c", "core.untrackedCache=false")


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


def _concerned(path: Path, changes: "Changes") -> bool:
    if changes.any_changed([path]):
        return True
    used: list[Path] = []
    read_shared, list_folder = paths.shared_reader(path), paths.shared_folder(path)

    def recording(relative: str) -> bytes:
        used.append(path.parent / relative)
        return read_shared(relative)

    def listing(relative: str) -> list[str] | None:
        found = list_folder(relative)
        if found is not None:
            used.append(path.parent / relative)
        return found

    try:
        areafit.read(paths.read(path), paths.shown(path), recording, listing)
    except (OSError, areafit.InputErrors):
        return True  # what it depends on cannot be known
    return changes.any_changed(used)


class _State(Frozen):
    """The files of one repository that are the same as in the revision, and those that differ."""

    same: frozenset[Path]
    differ: frozenset[Path]


@dataclass(slots=True)
class Changes:
    """Answers whether a file differs from how it was in a revision.

    Anything not known to be the same counts as changed: files that git does not track or compare,
    and every file behind a link that changed.
    """

    revision: str
    _states: dict[Path, _State] = field(default_factory=dict)

    def any_changed(self, paths: Iterable[Path]) -> bool:
        """Whether one of the files or folders is new, gone or different.

        Raises:
            CallError: git cannot say.
        """
        return any(self._changed(path) for path in paths)

    def _changed(self, path: Path) -> bool:
        real = path.resolve()
        written = path.parent.resolve() / path.name  # the link itself, where it is one
        if real.is_dir():
            gone = any(each.is_relative_to(real) for each in self._state(real).differ)
            return gone or self.any_changed(each for each in real.rglob("*") if each.is_file())
        if not path.exists():
            return written in self._state(written.parent).differ
        return not all(each in self._state(each.parent).same for each in (real, written))

    def _state(self, folder: Path) -> _State:
        root = Path(_line(folder, "rev-parse", "--show-toplevel")).resolve()
        if root not in self._states:
            self._states[root] = _compared(root, self.revision)
        return self._states[root]


def _compared(root: Path, revision: str) -> _State:
    if revision.startswith("-"):
        raise CallError(f"{revision!r} is no revision")
    try:
        commit = _line(root, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    except CallError:
        message = (
            f"git knows no revision {revision!r}; in a shallow clone fetch more of its history"
        )
        raise CallError(message) from None
    listed = _names(root, "ls-files", "-v", "-z")
    known = {name[2:] for name in listed if name.startswith(f"{_TRACKED} ")}
    against = ("--no-ext-diff", "--no-textconv", "--no-renames", "--ignore-submodules=none")
    differ = _names(root, "diff", "--name-only", "-z", *against, commit, "--")
    return _State(
        frozenset(root / name for name in known.difference(differ)),
        frozenset(root / name for name in differ),
    )


def _names(folder: Path, *arguments: str) -> Sequence[str]:
    return [os.fsdecode(name) for name in _run(folder, *arguments).split(b"\0") if name]


def _line(folder: Path, *arguments: str) -> str:
    return os.fsdecode(_run(folder, *arguments).rstrip(b"\r\n"))


def _run(folder: Path, *arguments: str) -> bytes:
    command = ("git", *_QUIET, "-C", str(folder), *arguments)
    environment = {**os.environ, "GIT_OPTIONAL_LOCKS": "0", "LC_ALL": "C"}
    try:
        ran = subprocess.run(  # noqa: S603 - git itself, and arguments that are no options
            command, capture_output=True, check=False, env=environment
        )
    except OSError as error:
        raise CallError(f"git cannot be run: {error.strerror or error}") from None
    if ran.returncode:
        lines = ran.stderr.decode("utf-8", "replace").strip().splitlines()
        raise CallError(f"git failed: {lines[0] if lines else f'status {ran.returncode}'}")
    return ran.stdout
