"""A list reads shared files of its own repository or folder, and nothing else."""

import os
from pathlib import Path

import pytest

from areafit.file.text import FILE_BYTES
from areafit_cli import paths


@pytest.fixture
def lists(tmp_path: Path) -> Path:
    """A repository `repo` with the folder `repo/lists`, beside a secret outside of it."""
    folder = tmp_path / "repo" / "lists"
    folder.mkdir(parents=True)
    (tmp_path / "repo" / ".git").mkdir()
    (tmp_path / "repo" / "site.yaml").write_bytes(b"site")
    (folder / "own.yaml").write_bytes(b"own")
    (tmp_path / "secret.yaml").write_bytes(b"secret")
    return folder


def test_files_of_the_repository_are_read(lists: Path) -> None:
    read = paths.shared_reader(lists / "bom.yaml")
    assert read("own.yaml") == b"own"
    assert read("../site.yaml") == b"site"


def test_without_a_repository_the_folder_is_the_limit(lists: Path) -> None:
    (lists.parent / ".git").rmdir()
    assert paths.read_shared(lists, "own.yaml") == b"own"
    with pytest.raises(paths.SharedFileError, match="outside"):
        paths.read_shared(lists, "../site.yaml")


@pytest.mark.parametrize("name", ["../../secret.yaml", "link.yaml", "folder/secret.yaml"])
def test_nothing_outside_is_read_by_any_way(lists: Path, name: str) -> None:
    outside = lists.parent.parent
    (lists / "link.yaml").symlink_to(outside / "secret.yaml")
    (lists / "folder").symlink_to(outside)
    with pytest.raises(paths.SharedFileError, match="outside"):
        paths.read_shared(lists, name)


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("", "relative"),
        ("/etc/hostname", "relative"),
        ("..\\site.yaml", "relative"),
        ("a\x00b", "relative"),
        ("gone.yaml", "does not exist"),
        (".", "regular"),
        ("pipe", "regular"),
        ("circle", "cannot be read"),
        ("own.yaml/below", "cannot be read"),
    ],
)
def test_a_name_that_does_not_serve_says_why(lists: Path, name: str, why: str) -> None:
    os.mkfifo(lists / "pipe")
    (lists / "circle").symlink_to(lists / "circle")
    with pytest.raises(paths.SharedFileError, match=why):
        paths.read_shared(lists, name)


def test_a_huge_file_is_refused(lists: Path) -> None:
    with (lists / "huge.yaml").open("wb") as stream:
        stream.truncate(FILE_BYTES + 1)
    with pytest.raises(paths.SharedFileError, match="64 MiB"):
        paths.read_shared(lists, "huge.yaml")
