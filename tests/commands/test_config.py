"""Options kept in a file: found upwards, checked by form, and outdone by the command line."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from areafit_cli import config
from areafit_cli.app import app
from areafit_cli.errors import CallError

Call = Callable[..., str]


def write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def test_the_keys_are_the_options_of_check() -> None:
    import typer

    group = typer.main.get_command(app)
    check = group.get_command(None, "check")  # type: ignore[attr-defined]  # a group
    options = {max(p.opts, key=len).removeprefix("--") for p in check.params if p.opts[0] != "path"}
    assert set(config.KEYS) == options - {"config", "no-config", "help"}


def test_options_come_from_the_file_and_the_command_line_outdoes_it(
    call: Call, folder: Path
) -> None:
    write(folder / "areafit.toml", 'only = "kind"\nas-of = 2026-01-31\nformat = ["json"]\n')
    report = json.loads(call("check", "old.yaml"))
    assert report["gate"] == "pass (partial)"
    assert "GATE fail" in call(
        "check", "old.yaml", "--only", "gas-group", "--format", "text", status=1
    )
    assert "GATE fail" in call("check", "old.yaml", "--no-config", status=1)


def test_a_project_file_serves_too_and_paths_are_relative_to_it(
    call: Call, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(folder / "pyproject.toml", '[tool.areafit]\nwaivers = "w.yaml"\n[tool.other]\n')
    add = ("--item", "10", "--rule", "gas-group", "--reason", "r", "--approved-by", "a")
    rest = ("--until", "2026-12-31", "--document", "D", "--file", "w.yaml")
    call("waiver", "add", "old.yaml", *add, *rest)
    (folder / ".git").mkdir()
    monkeypatch.chdir(folder / "site")
    assert "WAIVED" in call("check", "../old.yaml", status=1)
    assert "WAIVED" not in call("check", "../old.yaml", "--no-waivers", status=1)
    assert "is needed (" not in call("actions", "../old.yaml")
    assert "is needed (" in call("actions", "../old.yaml", "--no-config")


def test_the_nearest_file_serves_not_beyond_the_repository(folder: Path) -> None:
    write(folder / "areafit.toml", "quiet = true\n")
    inner = folder / "machine" / "lists"
    inner.mkdir(parents=True)
    assert config.find(inner) is None  # no repository: only the folder itself
    (folder / ".git").mkdir()
    assert config.find(inner) == folder / "areafit.toml"
    write(folder / "machine" / "pyproject.toml", "[project]\nname = 'x'\n")
    assert config.find(inner) == folder / "areafit.toml"
    (folder / "machine" / ".git").mkdir()
    assert config.find(inner) is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("onyl = 1", "there is no option 'onyl'; near to it: only"),
        ("only = 1", "`only` must be a text or a list of texts"),
        ("only = [1]", "`only` must be"),
        ("quiet = 'yes'", "`quiet` must be true or false"),
        ("jobs = true", "`jobs` must be a whole number"),
        ("tables = ['a']", "`tables` must be a path"),
        ("as-of = 1", "`as-of` must be a date"),
        ("a = ", "no valid TOML"),
    ],
)
def test_mistakes_name_the_file(call: Call, folder: Path, text: str, words: str) -> None:
    write(folder / "areafit.toml", text + "\n")
    told = call("check", "old.yaml", status=2, both=True)
    assert "areafit.toml" in told
    assert words in told


def test_a_file_of_ones_own_choice(call: Call, folder: Path) -> None:
    write(folder / "strict.toml", 'skip = ["gas-group"]\njobs = 1\noutput = ["-"]\n')
    told = call("check", "old.yaml", "--config", "strict.toml", status=1)
    assert "gas-group" not in told.replace("--skip gas-group", "")
    for pair in (("--config", "strict.toml", "--no-config"), ("--no-config", "--config", "x")):
        assert "contradict" in call("check", "old.yaml", *pair, status=2, both=True)
    assert "cannot be read" in call("check", "old.yaml", "--config", "no.toml", status=2, both=True)
    assert config.used("strict.toml") == [Path("strict.toml")]
    with pytest.raises(CallError):
        config.load(folder / "gone.toml")
