"""`--changed-since`: the lists that changed since a revision, or that depend on a file that did.

What git cannot say is an error of the call.
"""

import hashlib
import os
import subprocess
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType

import areafit
from areafit.values import Frozen
from areafit_cli import paths
from areafit_cli.errors import CallError

_QUIET = (
    "-c",
    "core.fsmonitor=false",
    "-c",
    "core.untrackedCache=false",
    "-c",
    "protocol.allow=never",
)
_NOTHING_RUNS = MappingProxyType(
    {
        "GIT_OPTIONAL_LOCKS": "0",
        "GIT_NO_LAZY_FETCH": "1",
        "GIT_TERMINAL_PROMPT": "0",
        "LC_ALL": "C",
    }
)
_SHA256 = 64  # letters of a name in a repository that uses it


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


class _Tree(Frozen):
    """The files of one repository as they were in a revision: path to name of their content."""

    blobs: Mapping[Path, str]


@dataclass(slots=True)
class Changes:
    """Answers whether a file differs from how it was in a revision.

    Contents are compared by their names, worked out here: git is only asked for what the revision
    held, so that no filter, hook or fetch of the repository runs and its index stays as it was.
    Anything not known to be the same counts as changed: files that the revision does not hold, such
    as are stored there in another form, and every file behind a link that changed.
    """

    revision: str
    _trees: dict[Path, _Tree] = field(default_factory=dict)

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
            held = self._tree(real).blobs
            gone = any(each.is_relative_to(real) and not each.exists() for each in held)
            return gone or self.any_changed(each for each in real.rglob("*") if each.is_file())
        if not path.exists():
            return written in self._tree(written.parent).blobs
        return not all(self._same(each) for each in (real, written))

    def _same(self, path: Path) -> bool:
        name = self._tree(path.parent).blobs.get(path)
        if name is None:
            return False
        held = os.fsencode(path.readlink()) if path.is_symlink() else path.read_bytes()
        digest = hashlib.new("sha256" if len(name) == _SHA256 else "sha1", usedforsecurity=False)
        digest.update(b"blob %d\0" % len(held) + held)
        return bool(digest.hexdigest() == name)

    def _tree(self, folder: Path) -> _Tree:
        root = Path(_line(folder, "rev-parse", "--show-toplevel")).resolve()
        if root not in self._trees:
            self._trees[root] = _held(root, self.revision)
        return self._trees[root]


def _held(root: Path, revision: str) -> _Tree:
    if revision.startswith("-"):
        raise CallError(f"{revision!r} is no revision")
    try:
        commit = _line(root, "rev-parse", "--verify", "--quiet", f"{revision}^{{commit}}")
    except CallError:
        message = (
            f"git knows no revision {revision!r}; in a shallow clone fetch more of its history"
        )
        raise CallError(message) from None
    blobs = {}
    for entry in _names(root, "ls-tree", "-r", "-z", "--full-tree", commit):
        said, _, name = entry.partition("\t")
        blobs[root / name] = said.split(" ")[2]
    return _Tree(blobs)


def _names(folder: Path, *arguments: str) -> Sequence[str]:
    return [os.fsdecode(name) for name in _run(folder, *arguments).split(b"\0") if name]


def _line(folder: Path, *arguments: str) -> str:
    return os.fsdecode(_run(folder, *arguments).rstrip(b"\r\n"))


def _run(folder: Path, *arguments: str) -> bytes:
    command = ("git", *_QUIET, "-C", str(folder), *arguments)
    environment = {**os.environ, **_NOTHING_RUNS}
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
