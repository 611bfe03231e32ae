"""Where a person looks there are tables and progress; through a pipe there is plain text.

A real pseudo-terminal stands for the person. What a terminal obeys is ECMA-48; that `NO_COLOR`
leaves colours out is common practice, no source.
"""

import os
import re
import select
import subprocess
import sys
import time
from pathlib import Path

import pytest

pty = pytest.importorskip("pty", reason="there are no pseudo-terminals here")
ROOT = Path(__file__).parents[2]
_ESCAPE = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")
_CALL = "import sys; from areafit_cli.__main__ import main; sys.exit(main())"


def seen(*words: str, **environ: str) -> str:
    """What a person sees on a terminal of 100 columns, with all that the terminal obeys."""
    ours, theirs = pty.openpty()
    own = {key: each for key, each in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR")}
    run = subprocess.Popen(
        [sys.executable, "-c", _CALL, *words],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        cwd=ROOT,
        env={**own, "TERM": "xterm-256color", "COLUMNS": "100", **environ},
    )
    os.close(theirs)
    told, end = b"", time.monotonic() + 60
    while time.monotonic() < end:
        ready, _, _ = select.select([ours], [], [], 1)
        if not ready:
            continue
        try:
            piece = os.read(ours, 1 << 16)
        except OSError:  # Linux says so when the other end is closed
            break
        if not piece:
            break
        told += piece
    run.wait(timeout=60)
    os.close(ours)
    return told.decode("utf-8").replace("\r\n", "\n")


def piped(*words: str) -> str:
    own = {key: each for key, each in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR")}
    done = subprocess.run(
        [sys.executable, "-c", _CALL, *words],
        capture_output=True,
        cwd=ROOT,
        env={**own, "TERM": "xterm-256color", "COLUMNS": "100"},
        timeout=60,
        check=False,
    )
    return (done.stdout + done.stderr).decode()


def test_a_list_of_tables_is_a_grid_where_a_person_looks() -> None:
    told = seen("table")
    assert "─" in told
    assert re.search(r"resistance +[\d,]+", told)
    plain = piped("table")
    assert "─" not in plain
    assert "\x1b" not in plain
    assert re.search(r"resistance +\d+ rows", plain)


def test_a_report_says_the_same_on_a_terminal_and_through_a_pipe() -> None:
    """The bar of progress is taken back before the report; colours are the only difference."""
    lists = ("check", "sample_bom/sugar_bagging.yaml", "sample_bom/solvent_skid.yaml")
    told = seen(*lists)
    assert "judging 2 lists" in told
    assert "0/2" in told
    assert "\x1b[2K" in told
    report = _ESCAPE.sub("", told.rpartition("\x1b[2K")[2])
    assert report.strip() == piped(*lists).strip()


def test_no_color_and_a_dumb_terminal_are_kept() -> None:
    list_ = ("check", "sample_bom/solvent_skid.yaml")
    assert "\x1b[31;1m" in seen(*list_)
    assert "\x1b[" not in seen(*list_, NO_COLOR="1")
    dumb = seen("table", TERM="dumb")
    assert "\x1b" not in dumb
    assert "─" not in dumb
