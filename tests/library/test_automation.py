"""What a merge and a release run is the same for everybody: pinned, and on every Python we name."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
WORKFLOWS = sorted((ROOT / ".github" / "workflows").glob("*.yml"))


@pytest.mark.parametrize("path", WORKFLOWS, ids=lambda path: path.name)
def test_actions_are_pinned_by_hash_and_rights_are_few(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    used = re.findall(r"uses: (\S+)", text)
    assert used
    assert all(re.fullmatch(r"[\w/-]+@[0-9a-f]{40}", each) for each in used), used
    assert re.search(r"^permissions:\n  contents: read$", text, re.MULTILINE)


def test_ci_runs_on_every_python_from_the_least_on() -> None:
    text = (ROOT / ".github" / "workflows" / "ci.yml").read_text(encoding="utf-8")
    assert re.findall(r"3\.\d+", text) == ["3.11", "3.12", "3.13", "3.14"]
    assert 'requires-python = ">=3.11"' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")


def test_a_release_is_named_in_the_changes() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    _, _, changes = readme.partition("## Changes")
    releases = re.findall(r"^\*\*(\d+\.\d+\.\d+)\*\*", changes, re.MULTILINE)
    assert releases == sorted(releases, reverse=True)
    assert "0.1.0" in releases
