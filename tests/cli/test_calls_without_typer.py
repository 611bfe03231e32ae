"""The quick reading of a call and typer's own agree on every call that both accept."""

import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from areafit.verdict import Basis
from areafit_cli import checking, query
from areafit_cli.__main__ import run
from areafit_cli.app import app
from areafit_cli.errors import Exit
from areafit_cli.one_part import Stated

SAMPLE = Path(__file__).parents[2] / "sample_bom" / "capping_carousel.yaml"

_NAMES = [name for name, option in query.options().items() if option.metavar]
_VALUES = ["Zone 1", "-20..40 °C", "json", "seen", "", "--area", "a=b", "none"]
_TOKENS = st.one_of(
    st.sampled_from(["Ex db IIC T4 Gb", "--quiet", "--exit-zero", "--no-contacts", "--quiet=1"]),
    st.sampled_from(["--help", "--nonsense", "-x", "-", "--", "--materials-complete"]),
    st.sampled_from(_NAMES),
    st.sampled_from(_VALUES),
    st.builds("{}={}".format, st.sampled_from(_NAMES), st.sampled_from(_VALUES)),
)


def by_typer(arguments: list[str], patch: pytest.MonkeyPatch) -> Mapping[str, object] | None:
    """What typer hands to the query, without what is left out; None where it refuses."""
    handed: list[Mapping[str, object]] = []

    def answer(stated: Stated) -> Exit:
        handed.append(stated)
        return Exit.PASSED

    patch.setattr(query, "answer", answer)
    with pytest.raises(SystemExit):
        app(["part", *arguments], prog_name="areafit")
    return handed[0] if handed else None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(arguments=st.lists(_TOKENS, max_size=6))
def test_both_read_alike(arguments: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    mine = query.read_call(arguments)
    if mine is not None:
        theirs = by_typer(arguments, monkeypatch)
        assert theirs is not None
        assert {"least_basis": ("memory",), "format": ("text",), **mine} == theirs


def test_the_usual_call_is_read_here() -> None:
    usual = ["Ex db IIC T4 Gb", "--area", "Zone 1", "--area=Zone 21", "--quiet", "--code", "IEC"]
    assert query.read_call(usual) == {
        "marking": ("Ex db IIC T4 Gb",),
        "area": ("Zone 1", "Zone 21"),
        "quiet": (),
        "code": ("IEC",),
    }


def test_typer_knows_no_option_that_the_quick_reading_lacks() -> None:
    import inspect

    from areafit_cli.commands.part import command

    known = {option.parameter for option in query.options().values()}
    assert set(inspect.signature(command).parameters) == known
    assert len(known) > 25


class _Asked(dict[str, tuple[str, ...]]):
    """A call that keeps which options are looked at."""

    def __init__(self, given: Stated) -> None:
        super().__init__(given)
        self.asked: set[str] = set()

    def __contains__(self, option: object) -> bool:
        self.asked.add(str(option))
        return super().__contains__(option)

    def get(self, option: str, default: Any = None) -> Any:
        self.asked.add(option)
        return super().get(option, default)


def test_every_option_is_looked_at_and_no_other(capsys: pytest.CaptureFixture[str]) -> None:
    call = _Asked({"marking": ("Ex db IIC T4 Gb",), "quiet": (), "exit_zero": (), "whole": ()})
    assert query.answer(call) == Exit.PASSED
    assert "GATE fail" in capsys.readouterr().out
    assert call.asked == {option.parameter for option in query.options().values()}


_IMPORTED = """
import sys
from areafit_cli.__main__ import run
status = run(["part", "Ex db IIC T4 Gb", "--area", "Zone 1, IIB, T3", "--quiet", "--exit-zero"])
print(status, [name for name in ("typer", "rich", "pydantic", "ruamel") if name in sys.modules])
"""


def test_neither_typer_nor_rich_is_imported_to_answer() -> None:
    """Nor the models of the reader: importing them takes longer than judging one part."""
    done = subprocess.run(
        [sys.executable, "-c", _IMPORTED], capture_output=True, text=True, check=False
    )
    assert done.stdout.splitlines()[-1] == "0 []"


_CHECK_TOKENS = st.one_of(
    st.sampled_from(["a.yaml", "b.yaml", "lists/", "", "-", "--", "--help", "-x", "--jobs"]),
    st.sampled_from(["--format", "-f", "text", "json", "sarif", "--format=json", "-f=json"]),
    st.sampled_from(["--quiet", "-q", "--exit-zero", "--no-config", "--quiet=1", "-qf", "-fjson"]),
)


def check_by_typer(arguments: list[str], patch: pytest.MonkeyPatch) -> Mapping[str, object] | None:
    """What typer hands to the work of `check`; None where it refuses."""
    handed: list[dict[str, object]] = []

    def check(path: list[str], **stated: object) -> Exit:
        handed.append({"path": path, **stated})
        return Exit.PASSED

    patch.setattr(checking, "check", check)
    with pytest.raises(SystemExit):
        app(["check", *arguments], prog_name="areafit")
    return handed[0] if handed else None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(arguments=st.lists(_CHECK_TOKENS, max_size=6))
def test_both_read_a_check_alike(arguments: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    mine = checking.read_call(arguments)
    if mine is not None:
        theirs = check_by_typer(arguments, monkeypatch)
        assert theirs is not None
        given = {name: value for name, value in theirs.items() if value not in (None, False)}
        assert {"jobs": 1, "least_basis": Basis.MEMORY, **mine} == given


def test_a_configuration_is_for_typer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / ".git").mkdir()
    monkeypatch.chdir(tmp_path)
    shutil.copy(SAMPLE, tmp_path / "list.yaml")
    shutil.copy(SAMPLE.with_name("bought_parts.yaml"), tmp_path)
    assert run(["check", "list.yaml"]) == Exit.FAILED
    (tmp_path / "areafit.toml").write_text("exit-zero = true\n", encoding="utf-8")
    assert run(["check", "list.yaml"]) == Exit.PASSED
    assert run(["check", "list.yaml", "--no-config"]) == Exit.FAILED
    assert capsys.readouterr().err == ""
