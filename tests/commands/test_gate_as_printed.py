"""The gates of the README run as they are printed, with this clone in place of the address.

What pre-commit, GitHub and GitLab take is from memory of their manuals; pre-commit runs here itself
where it is installed. The long form installs from the clone, and so needs a package index.
"""

import os
import re
import shutil
import subprocess
import sys
import venv
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

ROOT = Path(__file__).parents[2]
ADDRESS = "https://example.invalid/areafit"
BESIDE = f"{Path(sys.executable).parent}{os.pathsep}{os.environ.get('PATH', '')}"
BLOCKS = {
    name: YAML(typ="safe").load(text)
    for name, text in re.findall(
        r"```yaml\n# (?:\w+: )?(\S+)\n(.+?)```",
        (ROOT / "README.md").read_text(encoding="utf-8"),
        re.DOTALL,
    )
}
HOOK, GITHUB, GITLAB = ".pre-commit-config.yaml", ".github/workflows/bom.yml", ".gitlab-ci.yml"
GOOD = (
    "areafit: 1\nassembly: {number: G}\ncode: IEC\nlocations: {hall: {area: unclassified, "
    "document: AC, substances: none, chemicals: none, ambient: 5..40 °C}}\n"
    "parts: [{item: '1', location: hall, kind: structural}]\n"
)
BAD = GOOD.replace("document: AC, ", "")


def git(folder: Path, *arguments: str) -> str:
    return subprocess.run(
        ["git", *arguments],  # noqa: S607
        cwd=folder,
        check=True,
        capture_output=True,
        text=True,
    ).stdout


@pytest.fixture(scope="module")
def clone(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A clone whose branch `main` is the commit that is tested."""
    path = tmp_path_factory.mktemp("clone") / "areafit"
    git(ROOT, "clone", "--quiet", "--no-hardlinks", str(ROOT), str(path))
    git(path, "checkout", "--quiet", "-B", "main", git(ROOT, "rev-parse", "HEAD").strip())
    return path.as_uri()


@pytest.fixture
def machines(tmp_path: Path) -> Path:
    """A design repository: a list in `machines`, and YAML that is none."""
    folder = tmp_path / "design"
    (folder / "machines").mkdir(parents=True)
    (folder / "machines" / "filler.yaml").write_text(GOOD, encoding="utf-8")
    (folder / "other.yaml").write_text("a: 1\n", encoding="utf-8")
    git(folder, "init", "--quiet")
    git(folder, "add", ".")
    return folder


def commands(name: str) -> list[str]:
    """What the runner of a block would type."""
    block: Mapping[str, Any] = BLOCKS[name]
    if name == GITLAB:
        return list(block["bom"]["script"])
    return [step["run"] for step in block["jobs"]["bom"]["steps"] if "run" in step]


def run(folder: Path, command: str, path: str, **more: str) -> subprocess.CompletedProcess[str]:
    lock = os.environ.get("PIP_CONSTRAINT")  # of CI; relative to the clone that it stands in
    kept = {"PIP_CONSTRAINT": str(ROOT / lock)} if lock else {}
    return subprocess.run(  # noqa: S602 - as a runner does
        command,
        cwd=folder,
        env={**os.environ, **kept, "PATH": path, **more},
        shell=True,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def test_every_block_names_our_one_address_and_branch() -> None:
    assert set(BLOCKS) == {HOOK, GITHUB, GITLAB}
    (repository,) = BLOCKS[HOOK]["repos"]
    assert (repository["repo"], repository["rev"]) == (ADDRESS, "main")
    assert repository["hooks"] == [{"id": "areafit"}]
    for name in (GITHUB, GITLAB):
        assert commands(name)[0] == f"pip install git+{ADDRESS}@main"


def test_a_workflow_says_when_it_runs() -> None:
    """YAML 1.2 reads `on` as a text, and GitHub refuses a workflow without it."""
    assert set(BLOCKS[GITHUB]) == {"on", "permissions", "jobs"}
    assert set(BLOCKS[GITHUB]["on"]) == {"push", "pull_request"}
    assert {step.get("uses") for step in BLOCKS[GITHUB]["jobs"]["bom"]["steps"]} == {
        "actions/checkout@v4",
        "actions/setup-python@v5",
        None,
    }


@pytest.mark.parametrize("name", [GITHUB, GITLAB])
def test_the_checks_of_a_block_gate_and_write_what_it_names(name: str, machines: Path) -> None:
    (check,) = commands(name)[1:]
    ran = run(machines, check, BESIDE)
    assert ran.returncode == 0, ran.stderr
    (written,) = re.findall(r"--output (\w\S+)", check)
    assert (machines / written).stat().st_size
    if name == GITLAB:
        assert BLOCKS[name]["bom"]["artifacts"]["reports"] == {"codequality": written}
    (machines / "machines" / "filler.yaml").write_text(BAD, encoding="utf-8")
    ran = run(machines, check, BESIDE)
    assert ran.returncode == 1
    assert "area classification" in (machines / written).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def runner(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The search path of a fresh environment, as that of a runner."""
    home = tmp_path_factory.mktemp("runner")
    venv.create(home, with_pip=True)
    inner = home / ("Scripts" if os.name == "nt" else "bin")
    return f"{inner}{os.pathsep}{os.environ['PATH']}"


@pytest.mark.long
@pytest.mark.parametrize("name", [GITHUB, GITLAB])
def test_a_block_runs_as_printed(name: str, clone: str, machines: Path, runner: str) -> None:
    for command in commands(name):
        ran = run(machines, command.replace(ADDRESS, clone), runner)
        assert ran.returncode == 0, ran.stdout + ran.stderr
    (machines / "machines" / "filler.yaml").write_text(BAD, encoding="utf-8")
    assert run(machines, commands(name)[-1], runner).returncode == 1


@pytest.mark.long
def test_the_wheel_of_a_release_serves_in_place_of_the_address(
    clone: str, machines: Path, runner: str, tmp_path: Path
) -> None:
    made = run(tmp_path, f"pip wheel --no-deps --wheel-dir dist git+{clone}@main", runner)
    assert made.returncode == 0, made.stderr
    (wheel,) = (tmp_path / "dist").iterdir()
    for command in (f"pip install --force-reinstall {wheel}", *commands(GITLAB)[1:]):
        ran = run(machines, command, runner)
        assert ran.returncode == 0, ran.stdout + ran.stderr


def _pre_commit() -> Iterator[str]:
    found = shutil.which("pre-commit", path=BESIDE)
    if found is not None:
        yield found


@pytest.mark.long
@pytest.mark.skipif(not list(_pre_commit()), reason="pre-commit is not installed")
def test_the_hook_runs_as_printed(clone: str, machines: Path, tmp_path: Path) -> None:
    """Cloned, built and run by pre-commit; then fixed to a commit by its own command."""
    (call,) = _pre_commit()
    home = {"PRE_COMMIT_HOME": str(tmp_path / "home")}
    (config,) = re.findall(
        rf"```yaml\n# {re.escape(HOOK)}\n(.+?)```",
        (ROOT / "README.md").read_text(encoding="utf-8"),
        re.DOTALL,
    )
    (machines / HOOK).write_text(config.replace(ADDRESS, clone), encoding="utf-8")
    (machines / "--exit-zero.yaml").write_text(GOOD, encoding="utf-8")
    git(machines, "add", ".")
    ran = run(machines, f"{call} run --all-files --verbose", BESIDE, **home)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert "left out" in ran.stdout
    assert run(machines, f"{call} autoupdate", BESIDE, **home).returncode == 0
    fixed = YAML(typ="safe").load(machines / HOOK)["repos"][0]["rev"]
    assert re.fullmatch(r"[0-9a-f]{40}|v\d\S+", fixed)
    (machines / "--exit-zero.yaml").write_text(BAD, encoding="utf-8")
    git(machines, "add", ".")
    ran = run(machines, f"{call} run --all-files", BESIDE, **home)
    assert ran.returncode == 1
    assert "GATE fail" in ran.stdout
