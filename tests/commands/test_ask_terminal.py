"""`areafit ask` in a real terminal: written at once, undone, interrupted, narrow, without colour.

Own design, no source.
"""

import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pexpect = pytest.importorskip("pexpect")
if os.name == "nt":
    pytest.skip("there is no pseudo-terminal", allow_module_level=True)

LIST = """\
areafit: 1
assembly: {number: ASK-1, title: Filler, revision: A, assessment: IHA-1}
code: ATEX
locations:
  head:
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: IP65
    chemicals: none
parts:
  - item: "10"
    part_number: PN-1
    description: Lever
    location: head
    kind: mechanical
    proposed: kind
    electrical_content: none
    drive: manual
  - {item: "20", part_number: PN-2, description: Thing, location: head, kind: unknown}
"""
SIZES = [(80, ""), (40, ""), (80, "1"), (40, "1")]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    found = tmp_path / "ask.yaml"
    found.write_text(LIST, encoding="utf-8")
    return found


def begun(path: Path, *more: str, columns: int = 80, no_color: str = "") -> Any:
    env = {**os.environ, "TERM": "xterm", "COLUMNS": str(columns), "LANG": "C.UTF-8"}
    env.pop("FORCE_COLOR", None)
    if no_color:
        env["NO_COLOR"] = no_color
    return pexpect.spawn(
        sys.executable,
        ["-m", "areafit_cli", "ask", path.name, *more],
        cwd=str(path.parent),
        env=env,
        encoding="utf-8",
        dimensions=(60, columns),
        timeout=60,
    )


@pytest.fixture
def ends() -> Iterator[list[Any]]:
    started: list[Any] = []
    yield started
    for each in started:
        each.close(force=True)


@pytest.mark.parametrize(("columns", "no_color"), SIZES)
def test_kinds_first_each_by_itself_and_written_at_once(
    path: Path, ends: list[Any], columns: int, no_color: str
) -> None:
    child = begun(path, columns=columns, no_color=no_color)
    ends.append(child)
    child.expect("Where the sub-assemblies stand")
    child.expect("PN-1: Lever")
    child.expect("proposed: mechanical")
    child.expect("stop")
    assert path.read_text(encoding="utf-8") == LIST
    child.sendline("confirm")
    child.expect("PN-2: Thing")
    text = path.read_text(encoding="utf-8")
    assert "proposed" not in text
    assert "kind: unknown" in text
    child.expect("stop")
    child.sendline("no such kind")
    child.expect("none of these")
    child.expect("stop")
    child.sendline("?")
    child.expect("decides what is asked")
    child.expect("stop")
    child.sendline("3")
    child.expect("the place asks")
    assert "kind: structural" in path.read_text(encoding="utf-8")
    shown = child.before
    assert all(len(_plain(line)) <= columns for line in shown.splitlines())
    child.expect("stop")
    child.sendline("q")
    child.expect("All answers given so far")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def _plain(line: str) -> str:
    import re

    return re.sub(r"\x1b\[[0-9;?]*[A-Za-z]", "", line).rstrip("\r")


def test_the_last_answer_is_undone(path: Path, ends: list[Any]) -> None:
    child = begun(path)
    ends.append(child)
    child.expect("proposed: mechanical")
    child.expect("stop")
    child.sendline("confirm")
    child.expect("PN-2: Thing")
    child.expect("stop")
    child.sendline("u")
    child.expect("undone")
    child.expect("PN-1: Lever")
    assert path.read_text(encoding="utf-8") == LIST
    child.expect("stop")
    child.sendline("u")
    child.expect("nothing to undo")


def test_an_interrupt_loses_nothing(path: Path, ends: list[Any]) -> None:
    child = begun(path)
    ends.append(child)
    child.expect("stop")
    child.sendline("confirm")
    child.expect("PN-2: Thing")
    child.expect("stop")
    child.sendintr()
    child.expect("All answers given so far")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 130
    assert "proposed" not in path.read_text(encoding="utf-8")


def test_a_list_changed_meanwhile_is_not_written_over(path: Path, ends: list[Any]) -> None:
    child = begun(path)
    ends.append(child)
    child.expect("stop")
    child.sendline("confirm")
    child.expect("PN-2: Thing")
    child.expect("stop")
    path.write_text(LIST + "# a colleague\n", encoding="utf-8")
    child.sendline("u")
    child.expect("has changed since")
    assert path.read_text(encoding="utf-8").endswith("# a colleague\n")


def test_without_a_terminal_it_refuses(path: Path) -> None:
    import subprocess

    done = subprocess.run(
        [sys.executable, "-m", "areafit_cli", "ask", str(path)],
        input="1\n",
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "needs a terminal" in done.stderr
    assert path.read_text(encoding="utf-8") == LIST
