"""The text report where people read it: window, colour, pipe, code page."""

import contextlib
import functools
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

RICH = Path(__file__).parent / "lists" / "rich.yaml"
ESCAPE = re.compile("\x1b\\[[0-9;]*m")


@functools.cache
def check(*arguments: str, **environ: str) -> subprocess.CompletedProcess[bytes]:
    unset = ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "TERM", "PYTHONIOENCODING", "PYTHONUTF8")
    inherited = {name: value for name, value in os.environ.items() if name not in unset}
    return subprocess.run(
        [sys.executable, "-m", "areafit_cli", "check", RICH.name, *arguments],
        cwd=RICH.parent,
        env={**inherited, **environ},
        capture_output=True,
        check=False,
    )


@pytest.mark.parametrize(("columns", "width"), [("40", 40), ("80", 80), ("200", 120)])
def test_lines_keep_to_the_window(columns: str, width: int) -> None:
    lines = check(COLUMNS=columns).stdout.decode().splitlines()
    long = [line for line in lines if len(line) > width]
    assert all(" " not in line.strip().removeprefix("- ") for line in long), long
    assert max(map(len, lines)) > width * 3 // 4


def test_a_narrow_window_loses_no_word() -> None:
    narrow, wide = (
        check("--full", COLUMNS=columns).stdout.decode().split() for columns in ("40", "200")
    )
    assert narrow == wide


def test_a_narrow_window_loses_no_cause() -> None:
    told = [check(COLUMNS=columns).stdout.decode() for columns in ("40", "200")]
    narrow, wide = ({w for w in text.split() if w[1:].isdigit()} for text in told)
    assert {"C1", "C2"} <= narrow
    assert narrow == wide


@pytest.mark.parametrize(
    ("environ", "coloured"),
    [
        ({}, False),
        ({"FORCE_COLOR": "1"}, True),
        ({"FORCE_COLOR": "1", "NO_COLOR": "1"}, False),
    ],
)
def test_colour_in_a_pipe(environ: dict[str, str], coloured: object) -> None:
    text = check(**environ).stdout.decode()
    assert bool(ESCAPE.search(text)) is coloured
    assert ESCAPE.sub("", text) == check().stdout.decode()


@pytest.mark.parametrize("kind", ["json", "markdown", "github"])
def test_what_machines_read_is_never_coloured(kind: str) -> None:
    done = check("--format", kind, FORCE_COLOR="1", COLUMNS="40")
    assert b"\x1b" not in done.stdout
    assert done.stdout == check("--format", kind).stdout


def test_a_report_in_a_file_is_neither_coloured_nor_narrow(tmp_path: Path) -> None:
    path = tmp_path / "report.txt"
    check("--output", str(path), FORCE_COLOR="1", COLUMNS="40")
    assert path.read_text(encoding="utf-8") == check().stdout.decode()


@pytest.mark.parametrize("encoding", ["cp1252", "ascii"])
@pytest.mark.parametrize("kind", ["text", "csv"])
def test_old_code_pages_stop_no_report(encoding: str, kind: str) -> None:
    done = check("--format", kind, PYTHONIOENCODING=encoding, LC_ALL="C")
    assert done.returncode == 1
    assert done.stderr == b""
    assert done.stdout == check("--format", kind).stdout


def test_a_reader_that_has_seen_enough_is_no_error() -> None:
    command = [sys.executable, "-m", "areafit_cli", "check", RICH.name, "--format", "sarif"]
    with subprocess.Popen(
        command, cwd=RICH.parent, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout
        assert process.stderr
        process.stdout.read(10)
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 1


@pytest.mark.skipif(sys.platform == "win32", reason="there is no pseudo-terminal to open")
@pytest.mark.parametrize("environ", [{}, {"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_on_a_terminal(environ: dict[str, str]) -> None:
    import pty

    ours, theirs = pty.openpty()
    set_ = {"TERM": "xterm", "COLUMNS": "80", **environ}
    process = subprocess.Popen(
        [sys.executable, "-m", "areafit_cli", "check", RICH.name],
        cwd=RICH.parent,
        stdin=theirs,
        stdout=theirs,
        stderr=subprocess.PIPE,
        env={**os.environ, **set_},
    )
    os.close(theirs)
    text = b"".join(_all(ours)).decode().replace("\r\n", "\n")
    _, errors = process.communicate()
    assert (process.returncode, errors) == (1, b"")
    assert bool(ESCAPE.search(text)) is (not environ)
    plain = check(COLUMNS="80").stdout.decode()
    assert ESCAPE.sub("", text) == plain


def _all(descriptor: int) -> Iterator[bytes]:
    with contextlib.suppress(OSError):  # Linux ends a closed pseudo-terminal so
        while piece := os.read(descriptor, 65536):
            yield piece
    os.close(descriptor)
