"""The quick reading of a call and typer's own agree on every call that both accept."""

import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from areafit.verdict import Basis
from areafit_cli import checking, query
from areafit_cli.__main__ import run
from areafit_cli.app import app
from areafit_cli.errors import Exit

SAMPLE = Path(__file__).parents[2] / "sample_bom" / "capping_carousel.yaml"

_NAMES = [f"--{name.strip('_').replace('_', '-')}" for name in (*query.MANY, *query.ONE)]
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
    handed: list[dict[str, object]] = []

    def answer(**stated: object) -> Exit:
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
        defaults = {"least_basis": "memory", "format_": "text"}
        assert {**dict.fromkeys(query.FLAGS, False), **defaults, **mine} == theirs


def test_the_usual_call_is_read_here() -> None:
    usual = ["Ex db IIC T4 Gb", "--area", "Zone 1", "--area=Zone 21", "--quiet", "--code", "IEC"]
    assert query.read_call(usual) == {
        "marking": ["Ex db IIC T4 Gb"],
        "area": ["Zone 1", "Zone 21"],
        "quiet": True,
        "code": "IEC",
    }


def test_typer_knows_no_option_that_the_quick_reading_lacks() -> None:
    import inspect

    known = {"marking", *query.MANY, *query.ONE, *query.FLAGS}
    assert set(inspect.signature(query.answer).parameters) == known
    from areafit_cli.commands.part import command

    assert set(inspect.signature(command).parameters) == known


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
    assert run(["check", "list.yaml"]) == Exit.FAILED
    (tmp_path / "areafit.toml").write_text("exit-zero = true\n", encoding="utf-8")
    assert run(["check", "list.yaml"]) == Exit.PASSED
    assert run(["check", "list.yaml", "--no-config"]) == Exit.FAILED
    assert capsys.readouterr().err == ""
