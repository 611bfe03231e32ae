"""Streams that are closed or full, pipes and devices in place of files, and an early end."""

import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.hardening.conftest import GOOD

pytestmark = pytest.mark.skipif(os.name != "posix", reason="pipes, devices and signals of POSIX")
Shell = Callable[..., subprocess.CompletedProcess[bytes]]


@pytest.fixture
def shell(command: Path, here: Path) -> Shell:
    """Runs a line of shell in which `$A` is the command."""

    def run(line: str, **environ: str) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(
            ["/bin/bash", "-c", f"set -o pipefail; {line}"],
            capture_output=True,
            check=False,
            timeout=60,
            cwd=here,
            env={**os.environ, "A": str(command), **environ},
        )

    return run


@pytest.mark.parametrize(
    ("line", "status", "says"),
    [
        ("$A check - <&-", 2, b"<stdin>: cannot be read (standard input is closed)"),
        ("$A check good.yaml >&-", 2, b"cannot write standard output: Bad file descriptor"),
        ("$A check good.yaml >/dev/full", 2, b"cannot write standard output: No space left"),
        ("$A check good.yaml --format json >/dev/full", 2, b"No space left"),
        ("$A rule >/dev/full", 2, b"No space left"),
        ("$A --version >/dev/full", 2, b"No space left"),
        ("$A --version >&-", 2, b"Bad file descriptor"),
        ("$A --help >/dev/full", 2, b"No space left"),
        ("$A check good.yaml --output /dev/full", 2, b"cannot write /dev/full: No space left"),
        ("$A check gone.yaml 2>&-", 2, b""),
        ("$A check gone.yaml 2>/dev/full", 2, b""),
        ("$A check 2>/dev/full", 2, b""),
        ("$A check gone.yaml >&- 2>&-", 2, b""),
        ("$A check open.yaml 2>&-", 1, b""),
        ("$A check good.yaml --output r.txt >&-", 0, b""),
        ("$A check good.yaml | true", 0, b""),
        ("$A check open.yaml | true", 1, b""),
        ("$A check open.yaml --format html | head -c1 >/dev/null", 1, b""),
        ("$A check open.yaml 2>&1 | true", 1, b""),
        ("$A --help | true", 0, b""),
        ("$A check good.yaml --output /dev/stdout | grep -q GATE", 0, b""),
        ("$A check /dev/zero", 2, b"a device"),
        ("$A check /dev/null", 2, b"a device"),
        ("mkfifo p.yaml; $A check p.yaml", 2, b"p.yaml:1:1: the file is empty"),
        ("mkfifo p.yaml; $A check .", 1, b""),
        ("mkfifo p.yaml; $A check '*.yaml'", 1, b"left out 1 YAML file that is"),
        ("mkfifo p.yaml; $A check good.yaml --waivers p.yaml", 2, b"p.yaml:1:1: the file is empty"),
        ("mkfifo p.yaml; $A need p.yaml", 2, b"the file is empty"),
        ("mkfifo p.csv; $A import --code IEC p.csv", 2, b"p.csv: there is no row 1"),
        ("mkdir t; mkfifo t/chemicals.csv; $A check good.yaml --tables t", 2, b"chemicals.csv:1"),
        (
            "mkfifo p; cat p >got & $A check good.yaml --output p; wait; grep -q GATE got",
            0,
            b"",
        ),
        ("$A check <(cat good.yaml)", 0, b""),
        ("$A compare <(cat good.yaml) good.yaml", 0, b""),
        ("ln -s b.yaml a.yaml; ln -s a.yaml b.yaml; $A check a.yaml", 2, b"no such file or folder"),
        ("ln -s b.yaml a.yaml; ln -s a.yaml b.yaml; $A check '*.yaml'", 1, b""),
        ("ln -s b a; ln -s a b; $A check good.yaml --output a/r.txt", 2, b"cannot write a/r.txt"),
        (
            "ln -s good.yaml l.yaml; $A check good.yaml --output l.yaml",
            2,
            b"read or written already",
        ),
        ("$A check open.yaml --output good.yaml", 2, b"read or written already"),
        ("$A check ''", 2, b"one of the names is empty"),
        ("$A check \"$(printf 'x%.0s' {1..5000})\"", 2, b"no such file or folder"),
        ("$A check $'a\\xff.yaml'", 2, b"a\\udcff.yaml: there is no such file"),
        ("$A check $'a\\033[31m.yaml'", 2, b"in a\\x1b[31m.yaml"),
        ("$A check good.yaml --tables gone", 2, b"cannot read the tables of gone: No such file"),
        ("$A need .", 2, b". cannot be read: it is a folder"),
        ("mkdir areafit.toml; $A check good.yaml", 0, b""),
        ("ulimit -f 0; $A check good.yaml --output r.txt", 2, b"cannot write r.txt"),
        (
            "cp good.yaml b.yaml; ulimit -f 0; $A check good.yaml b.yaml --output r.txt",
            2,
            b"No usable temporary",
        ),
        ("PYTHONIOENCODING=cp1252 LC_ALL=C $A check good.yaml | grep -q '5..40 °C\\|GATE'", 0, b""),
    ],
)
def test_the_status_is_told_and_nothing_hangs(
    shell: Shell, line: str, status: int, says: bytes
) -> None:
    ran = shell(line)
    assert ran.returncode == status, ran.stderr.decode()
    assert says in ran.stderr
    assert b"Traceback" not in ran.stderr
    assert b"a bug in areafit" not in ran.stderr
    assert (Path.cwd() / "good.yaml").read_text() == GOOD


@pytest.mark.parametrize("option", ["--format json", "--format html", "--format csv"])
def test_a_report_that_cannot_be_finished_leaves_the_old_one(shell: Shell, option: str) -> None:
    Path("r.txt").write_text("old")
    before = sorted(Path.cwd().iterdir())
    ran = shell(f"ulimit -f 1; trap '' XFSZ; $A check open.yaml {option} --output r.txt")
    assert ran.returncode in (2, 3)
    assert ran.returncode == 2, ran.stderr.decode()
    assert Path("r.txt").read_text() == "old"
    assert sorted(Path.cwd().iterdir()) == before


@pytest.mark.parametrize("place", ["gone/r.txt", "good.yaml/r.txt", "/proc/nowhere", "."])
def test_a_place_that_cannot_be_written_leaves_nothing(shell: Shell, place: str) -> None:
    before = sorted(Path.cwd().iterdir())
    ran = shell(f"$A check good.yaml --output {place}")
    assert ran.returncode == 2
    assert b"cannot write" in ran.stderr
    assert sorted(Path.cwd().iterdir()) == before


def long_list(parts: int) -> str:
    lines = (f"  - {{item: '{n}x', location: room, kind: structural}}\n" for n in range(parts))
    return GOOD + "".join(lines)


@pytest.mark.parametrize(("sent", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_an_early_end_is_told_and_leaves_nothing(
    command: Path, here: Path, jobs: str, sent: int, status: int
) -> None:
    scratch = here / "scratch"
    scratch.mkdir()
    for name in "abc":
        (here / f"{name}.yaml").write_text(long_list(60_000))
    before = sorted(here.iterdir())
    with subprocess.Popen(
        [command, "check", "a.yaml", "b.yaml", "c.yaml", "--jobs", jobs, "--output", "r.txt"],
        cwd=here,
        env={**os.environ, "TMPDIR": str(scratch)},
        stderr=subprocess.PIPE,
        start_new_session=True,
    ) as process:
        until = time.monotonic() + 60
        while not any(scratch.iterdir()) and time.monotonic() < until:
            time.sleep(0.01)  # its own folder is there: it is judging
        time.sleep(0.2)
        os.killpg(process.pid, sent) if sent == signal.SIGINT else process.send_signal(sent)
        _, told = process.communicate(timeout=60)
    assert process.returncode == status
    assert told == b""
    assert not any(scratch.iterdir())
    assert sorted(here.iterdir()) == before


def test_a_process_ended_by_the_system_is_told(here: Path) -> None:
    (here / "a.yaml").write_text(long_list(60_000))
    program = (
        "import multiprocessing, os, signal, sys, threading, time\n"
        "from areafit_cli.__main__ import main\n"
        "def end():\n"
        "    while not multiprocessing.active_children(): time.sleep(0.01)\n"
        "    time.sleep(0.5)\n"
        "    os.kill(multiprocessing.active_children()[0].pid, signal.SIGKILL)\n"
        "threading.Thread(target=end, daemon=True).start()\n"
        "sys.argv[1:] = ['check', 'a.yaml', 'good.yaml', '--jobs', '2']\n"
        "main()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, check=False, cwd=here, timeout=60
    )
    assert done.returncode == 2, done.stderr
    assert b"run again with fewer --jobs" in done.stderr


@pytest.mark.usefixtures("here")
def test_no_temporary_folder_is_an_error_of_the_system(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "TemporaryDirectory", _refusing)
    from areafit_cli.__main__ import run

    shutil.copy("good.yaml", "second.yaml")
    assert run(["check", "good.yaml", "second.yaml"]) == 2


def _refusing(**_: object) -> None:
    raise OSError(28, "No space left on device")


def test_no_plugin_that_is_installed_beside_runs(shell: Shell, here: Path) -> None:
    beside = here / "beside" / "other-1.0.dist-info"
    beside.mkdir(parents=True)
    (beside / "METADATA").write_text("Metadata-Version: 2.1\nName: other\nVersion: 1.0\n")
    (beside / "entry_points.txt").write_text("[pydantic]\nother = other_plugin:plugin\n")
    (beside.parent / "other_plugin.py").write_text("raise SystemExit('a plugin ran')\n")
    done = shell("$A check good.yaml", PYTHONPATH=str(beside.parent))
    assert done.returncode == 0
    assert b"plugin" not in done.stdout + done.stderr
