"""The installed command in a process of its own, with its time and peak memory."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

GOOD = """\
areafit: 1
assembly: {number: M-1}
code: IEC
locations:
  room: {area: unclassified, document: D-1, substances: none, chemicals: none, ambient: 5..40 °C}
parts:
  - {item: "1", location: room, kind: structural}
"""
OPEN = GOOD.replace("area: unclassified", "area: 'Zone 1, IIB, T3'").replace(
    "al}", "al, bonded: no}"
)

# Starts the command as a child, bounded in memory, and tells what it used: one process a run.
_METER = """
import os, resource, subprocess, sys, time
limit, seconds, *command = sys.argv[1:]
def bound():
    resource.setrlimit(resource.RLIMIT_AS, (int(limit), int(limit)))
began = time.process_time()
done = subprocess.run(command, preexec_fn=bound, timeout=float(seconds))
used = resource.getrusage(resource.RUSAGE_CHILDREN)
with open(os.environ["METER"], "w") as out:
    out.write(f"{done.returncode} {used.ru_utime + used.ru_stime} {used.ru_maxrss * 1024}")
"""


@dataclass(frozen=True, slots=True)
class Ran:
    """What became of a run; a status below 0 is the signal that killed it."""

    status: int
    out: str
    err: str
    seconds: float
    peak: int


Run = Callable[..., Ran]


@pytest.fixture
def command() -> Path:
    return Path(sys.executable).with_name("areafit")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty working directory with one good list and one with open points."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "good.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "open.yaml").write_text(OPEN, encoding="utf-8")
    return tmp_path


@pytest.fixture
def metered(command: Path, here: Path, tmp_path_factory: pytest.TempPathFactory) -> Run:
    """Runs the command in at most 1 GiB of address space; `seconds` is its processor time."""
    if os.name != "posix":
        pytest.skip("limits of a process are set as POSIX does")
    meter = tmp_path_factory.mktemp("meter") / "used"

    def run(*arguments: str, data: bytes = b"", timeout: float = 120) -> Ran:
        done = subprocess.run(
            [sys.executable, "-c", _METER, str(1 << 30), str(timeout), command, *arguments],
            input=data,
            capture_output=True,
            check=False,
            cwd=here,
            env={**os.environ, "METER": str(meter)},
        )
        assert done.returncode == 0, done.stderr.decode()
        status, seconds, peak = meter.read_text().split()
        out, err = done.stdout.decode(), done.stderr.decode()
        return Ran(int(status), out, err, float(seconds), int(peak))

    return run
