"""Help: an example for each command that can be typed as it stands, short options, names."""

import shlex
from collections.abc import Callable
from datetime import date
from importlib import import_module
from pathlib import Path

import pytest

from areafit_cli import words
from areafit_cli.app import COMMANDS

Call = Callable[..., str]
EXAMPLES = {
    {"waiver": "waiver add", "library": "library used"}.get(name, name): import_module(home).EXAMPLE
    for name, home in COMMANDS.items()
}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_example_of_a_command_calls_it(name: str) -> None:
    assert shlex.split(EXAMPLES[name])[: len(name.split()) + 1] == ["areafit", *name.split()]


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_example_stands_in_the_help(call: Call, name: str) -> None:
    told = " ".join(call(*name.split(), "--help").split())
    assert f"Example: {' '.join(EXAMPLES[name].split())}" in told


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_example_can_be_typed_as_it_stands(
    call: Call, folder: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(words, "today", lambda: date(2026, 1, 31))
    areas = folder / "site" / "areas.yaml"
    shared = areas.read_text(encoding="utf-8").replace("head:", "filling-head:")
    areas.write_text(shared, encoding="utf-8")
    old = (folder / "old.yaml").read_text(encoding="utf-8")
    text = old.replace("location: head", "location: filling-head")
    (folder / "machines").mkdir()
    for file in ("old.yaml", "new.yaml"):
        (folder / file).write_text(text, encoding="utf-8")
    if name not in ("new", "import"):
        (folder / "bom.yaml").write_text(text, encoding="utf-8")
    (folder / "machines" / "a.yaml").write_text(
        text.replace("site/areas.yaml", "../site/areas.yaml"), encoding="utf-8"
    )
    (folder / ".git").mkdir()
    (folder / "bom.csv").write_text("Item,Part Number\n10,PN-1\n", encoding="utf-8")
    if name == "answers":
        marked = text.replace("evidence:", "evidences:").replace("    evidences: [", "    # [")
        (folder / "bom.yaml").write_text(marked, encoding="utf-8")
        call("actions", "bom.yaml", "--format", "xlsx", "--output", "books")
    arguments = shlex.split(EXAMPLES[name])
    assert arguments[0] == "areafit"
    status = 1 if name in ("check", "compare") else 0
    status = 2 if name == "ask" else status  # no terminal here
    call(*arguments[1:], status=status)


def test_short_options_are_known(call: Call, folder: Path) -> None:
    assert "Usage: areafit check" in call("check", "-h")
    assert "Without one, text." in call("check", "-h")
    assert "Usage: areafit " in call("-h")
    call("check", "old.yaml", "-f", "json", "-o", "r.json", "-q", status=1)
    assert (folder / "r.json").read_text(encoding="utf-8").startswith("{")


def test_help_is_a_word_as_well(call: Call) -> None:
    assert call("help") == call("--help")
    assert call("help", "check") == call("check", "--help")
    assert "no command 'chek'" in call("help", "chek", status=2, both=True)


def test_a_rule_is_known_however_it_is_written(call: Call) -> None:
    assert call("rule", "Gas-Group") == call("rule", "gas-group")


@pytest.mark.parametrize("columns", ["60", "80"])
@pytest.mark.parametrize("name", COMMANDS)
def test_choices_are_not_broken_in_mid_word(
    call: Call, monkeypatch: pytest.MonkeyPatch, name: str, columns: str
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    told = call(name, "--help")
    assert not [line for line in told.splitlines() if line.rstrip(" │").endswith("|")]
    usage = told.strip().splitlines()[0].removesuffix("COMMAND [ARGS]...")
    names = usage.removeprefix("Usage: areafit ").removeprefix(name)
    assert names == names.upper()
