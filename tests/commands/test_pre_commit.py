"""The hook that we publish, run by pre-commit itself over a repository of lists."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from ruamel.yaml import YAML

HOOKS = Path(__file__).parents[2] / ".pre-commit-hooks.yaml"
RUNS = shutil.which(
    "pre-commit", path=f"{Path(sys.executable).parent}{os.pathsep}{os.environ.get('PATH', '')}"
)
GOOD = (
    "areafit: 1\nassembly: {number: G}\ncode: IEC\nlocations: {hall: {area: unclassified, "
    "document: AC, substances: none, chemicals: none, ambient: 5..40 °C}}\n"
    "parts: [{item: '1', location: hall, kind: structural}]\n"
)


def git(folder: Path, *arguments: str) -> None:
    subprocess.run(["git", *arguments], cwd=folder, check=True, capture_output=True)  # noqa: S607


def test_the_manifest_names_a_command_that_we_have() -> None:
    (hook,) = YAML(typ="safe").load(HOOKS)
    assert hook["entry"] == "areafit check --only-lists --"
    assert "files" not in hook
    assert hook["language"] == "python"
    assert hook["require_serial"] is True


@pytest.mark.skipif(RUNS is None, reason="pre-commit is not installed")
def test_only_lists_are_handed_over_and_a_failed_gate_stops_the_commit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The hook as published, but run from this environment: nothing is installed."""
    (hook,) = YAML(typ="safe").load(HOOKS)
    script = Path(sys.executable).with_name("areafit")
    hook |= {"language": "unsupported", "entry": f"{script} check --quiet --only-lists --"}
    yaml = YAML()
    yaml.dump({"repos": [{"repo": "local", "hooks": [hook]}]}, tmp_path / ".pre-commit-config.yaml")
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tmp_path / "home"))
    git(tmp_path, "init", "-q")
    (tmp_path / "filler.bom.yaml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "other.yaml").write_text("a: 1\n")
    git(tmp_path, "add", "filler.bom.yaml", "other.yaml", ".pre-commit-config.yaml")
    call = [str(RUNS), "run", "--all-files"]
    ran = subprocess.run(call, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout
    (tmp_path / "filler.bom.yaml").write_text(GOOD.replace("document: AC, ", ""), encoding="utf-8")
    git(tmp_path, "add", "filler.bom.yaml")
    ran = subprocess.run(call, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert "GATE fail" in ran.stdout
