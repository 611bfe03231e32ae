"""The same lists give the same bytes in every format, whatever the hash seed or number of jobs."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from areafit_cli import render

LISTS = Path(__file__).parent / "lists"


@pytest.fixture(scope="module")
def runs(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """The outputs of three runs over the same files: two hash seeds, and two jobs."""
    found = {}
    for name, seed, jobs in (("first", "0", "1"), ("seed", "4711", "1"), ("jobs", "1", "2")):
        folder = tmp_path_factory.mktemp(name)
        for path in LISTS.glob("*.yaml"):
            (folder / path.name).write_bytes(path.read_bytes())
        (folder / "broken.yaml").write_text("areafit: 1\ncolour: red\n", encoding="utf-8")
        command = [sys.executable, "-m", "areafit_cli", "check", "rich.yaml", "plain.yaml"]
        command += ["broken.yaml", "--jobs", jobs, "--as-of", "2026-03-31"]
        for kind in render.NAMES:
            command += ["--format", kind, "--output", f"out.{kind}"]
        environ = {**os.environ, "PYTHONHASHSEED": seed}
        done = subprocess.run(command, cwd=folder, env=environ, capture_output=True, check=False)
        assert done.returncode == 2, done.stderr
        found[name] = {kind: (folder / f"out.{kind}").read_bytes() for kind in render.NAMES}
    return found


@pytest.mark.parametrize("kind", render.NAMES)
@pytest.mark.parametrize("other", ["seed", "jobs"])
def test_the_bytes_are_the_same(runs: dict[str, dict[str, bytes]], kind: str, other: str) -> None:
    assert runs["first"][kind] == runs[other][kind]


@pytest.mark.parametrize("kind", render.NAMES)
def test_the_unreadable_list_is_named_beside_the_readable(
    runs: dict[str, dict[str, bytes]], kind: str
) -> None:
    text = runs["first"][kind].decode()
    said = "could not be read" if kind == "text" else "broken"
    assert said in text
    assert "RF-1" in text or "rich.yaml" in text
    assert "PL-1" in text or "plain.yaml" in text or kind == "gitlab"


@pytest.mark.parametrize("kind", render.NAMES)
def test_the_chosen_date_is_said(runs: dict[str, dict[str, bytes]], kind: str) -> None:
    assert b"2026-03-31" in runs["first"][kind]


@pytest.mark.parametrize("kind", render.NAMES)
def test_no_path_of_the_machine_is_in_a_report(
    runs: dict[str, dict[str, bytes]], kind: str
) -> None:
    assert b"/tmp/" not in runs["first"][kind]
    assert os.fsencode(Path.home()) + b"/" not in runs["first"][kind]
