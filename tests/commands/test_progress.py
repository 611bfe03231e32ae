"""A person who watches is told how far a long run is; nobody else is."""

import io
import sys
from pathlib import Path

import pytest

from areafit_cli import terminal


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def shown(monkeypatch: pytest.MonkeyPatch, files: list[Path], stream: io.StringIO) -> str:
    monkeypatch.setattr(sys, "stderr", stream)
    assert list(terminal.progress(range(len(files)), files)) == list(range(len(files)))
    return stream.getvalue()


def test_a_terminal_is_told_and_left_clean(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal, "_PAUSE", -1)
    monkeypatch.setenv("TERM", "xterm")
    files = [Path("a.yaml"), Path("b.yaml")]
    text = shown(monkeypatch, files, Terminal())
    assert "judging 2 lists" in text
    assert "0/2" in text
    assert "2/2" in text
    assert text.endswith("\x1b[2K")  # the line is taken back
    monkeypatch.setattr(terminal, "_PAUSE", 100)
    assert "1/2" not in shown(monkeypatch, files, Terminal())


def test_one_small_list_is_no_long_run(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    monkeypatch.setenv("TERM", "xterm")
    assert shown(monkeypatch, [folder / "old.yaml"], Terminal()) == ""
    large = folder / "large.yaml"
    large.write_bytes(b"#" * (1 << 20) + b"\n")
    assert "judging large.yaml" in shown(monkeypatch, [large], Terminal())


def test_logs_and_dumb_terminals_see_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    files = [Path("a.yaml"), Path("b.yaml")]
    assert shown(monkeypatch, files, io.StringIO()) == ""
    monkeypatch.setenv("TERM", "dumb")
    assert shown(monkeypatch, files, Terminal()) == ""
