"""What the README shows is what the tool prints."""

import doctest
import re
import subprocess
import sys
from pathlib import Path

import pytest

import areafit

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def report_of(path: str) -> str:
    done = subprocess.run(
        [sys.executable, "-m", "areafit_cli", "check", path],
        cwd=ROOT,
        env={"PATH": "", "COLUMNS": "100"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    return done.stdout


def test_the_excerpt_stands_in_the_report() -> None:
    found = re.search(r"<!-- excerpt: (\S+) .*?-->\n```text\n(.+?)```", README, re.DOTALL)
    assert found is not None
    path, excerpt = found.groups()
    assert len(excerpt.splitlines()) > 8
    assert excerpt in report_of(path)


def test_the_example_is_a_list_that_can_be_read() -> None:
    found = re.search(r"```yaml\n(areafit: 1\n.+?)```", README, re.DOTALL)
    assert found is not None
    bom = areafit.read(found[1].encode(), "README.md")
    assert bom.parts[0].item == "10"


def test_python_prints_what_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    found = re.search(r"```pycon\n(.+?)```", README, re.DOTALL)
    assert found is not None
    monkeypatch.chdir(ROOT)
    shown = doctest.DocTestParser().get_doctest(found[1], {}, "README", "README.md", None)
    told: list[str] = []
    doctest.DocTestRunner(verbose=False).run(shown, out=told.append)
    assert shown.examples
    assert told == []


def test_every_command_of_the_readme_exists() -> None:
    from areafit_cli.app import COMMANDS

    named = set(re.findall(r"`areafit ([a-z]+)", README))
    assert named <= set(COMMANDS), named - set(COMMANDS)
    assert set(COMMANDS) <= named, set(COMMANDS) - named
