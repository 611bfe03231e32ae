"""`--changed-since`: a list counts if it, or anything that it depends on, changed."""

import json
import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from areafit_cli.errors import CallError
from areafit_cli.git import Changes

Call = Callable[..., str]
LOCAL = "areafit: 1\nassembly: {number: L}\ncode: IEC\nlocations: {hall: {area: unclassified}}\n"


def git(folder: Path, *arguments: str) -> None:
    identity = ("-c", "user.name=a", "-c", "user.email=a@b.example", "-c", "commit.gpgsign=false")
    subprocess.run(
        ["git", *identity, *arguments],  # noqa: S607 - whichever git the path has
        cwd=folder,
        check=True,
        capture_output=True,
        env={**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull},
    )


@pytest.fixture
def repository(folder: Path) -> Path:
    parts = "parts: [{item: '1', location: hall, kind: structural}]\n"
    (folder / "local.yaml").write_text(LOCAL + parts, encoding="utf-8")
    (folder / "own").mkdir()
    header = "id,title,edition,publisher,kind,read_on,note\n"
    (folder / "own" / "sources.csv").write_text(f"{header}house,House,1,,practice,2026-01-31,\n")
    git(folder, "init", "-q")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "first")
    return folder


def judged(call: Call, *more: str) -> list[str]:
    text = call("check", ".", "--changed-since", "HEAD", "--exit-zero", "--format", "json", *more)
    report = json.loads(text)
    assert all(bom["scope"] == "partial" for bom in report["boms"])
    return [bom["path"] for bom in report["boms"]]


def test_nothing_changed_holds_no_gate(call: Call, repository: Path) -> None:
    assert judged(call) == []
    assert repository.exists()
    told = call("check", ".", "--changed-since", "HEAD", "--format", "json")
    assert json.loads(told)["gate"] == "pass (partial)"
    told = call("check", "old.yaml", "--changed-since", "HEAD", both=True)
    assert "left out 1 list unchanged since HEAD" in told


def test_a_list_or_its_places_changed(call: Call, repository: Path) -> None:
    (repository / "local.yaml").write_text(
        LOCAL + "parts: [{item: '2', location: hall, kind: structural}]\n"
    )
    assert judged(call) == ["local.yaml"]
    with (repository / "site" / "areas.yaml").open("a") as stream:
        stream.write("# changed\n")
    assert judged(call) == ["local.yaml", "new.yaml", "old.yaml"]
    (repository / "site" / "areas.yaml").unlink()
    told = call("check", "old.yaml", "--changed-since", "HEAD", status=2, both=True)
    assert "cannot be used" in told


def test_a_new_list_counts_even_where_git_ignores_it(call: Call, repository: Path) -> None:
    (repository / ".git" / "info" / "exclude").write_text("fresh.yaml\n")
    text = (repository / "local.yaml").read_text(encoding="utf-8")
    (repository / "fresh.yaml").write_text(text, encoding="utf-8")
    assert judged(call) == ["fresh.yaml"]
    git(repository, "update-index", "--assume-unchanged", "local.yaml")
    assert judged(call) == ["fresh.yaml"]
    (repository / "local.yaml").write_text(text + "# changed\n", encoding="utf-8")
    assert judged(call) == ["fresh.yaml", "local.yaml"]


def test_nothing_of_the_repository_runs(call: Call, repository: Path) -> None:
    """A filter, a hook, a monitor or a fetch of a hostile checkout; the index stays as it was."""
    ran = repository / "ran"
    touch = f"sh -c 'touch {ran}; cat'"
    (repository / ".gitattributes").write_text("*.yaml filter=evil diff=evil\n")
    for key in ("filter.evil.clean", "filter.evil.smudge", "filter.evil.process"):
        git(repository, "config", key, touch)
    git(repository, "config", "core.fsmonitor", touch)
    git(repository, "config", "diff.evil.textconv", touch)
    git(repository, "config", "diff.external", touch)
    git(repository, "config", "core.sshCommand", touch)
    index = (repository / ".git" / "index").read_bytes()
    ran.unlink(missing_ok=True)
    (repository / "local.yaml").touch()
    assert judged(call) == []
    assert not ran.exists()
    assert (repository / ".git" / "index").read_bytes() == index


@pytest.mark.parametrize("what", ["waivers", "tables", "table gone", "config", "config gone"])
def test_what_every_list_depends_on(call: Call, repository: Path, what: str) -> None:
    every = ["local.yaml", "new.yaml", "old.yaml"]
    match what:
        case "waivers":
            (repository / "w.yaml").write_text("areafit-waivers: 1\nwaivers: none\n")
            assert judged(call, "--waivers", "w.yaml") == every
        case "tables":
            with (repository / "own" / "sources.csv").open("a") as stream:
                stream.write("more,More,1,,practice,2026-01-31,\n")
            assert judged(call, "--tables", "own") == every
            assert judged(call) == []
        case "table gone":
            copy = repository / "own" / "copy.csv"
            copy.write_text("x")
            git(repository, "add", "own/copy.csv")
            git(repository, "commit", "-q", "-m", "more")
            copy.unlink()
            assert judged(call, "--tables", "own") == every
        case "config":
            (repository / "areafit.toml").write_text('skip = "kind"\n')
            assert judged(call) == every
            assert judged(call, "--no-config") == []
        case _:
            (repository / "areafit.toml").write_text('skip = "kind"\n')
            git(repository, "add", "areafit.toml")
            git(repository, "commit", "-q", "-m", "more")
            assert judged(call) == []
            (repository / "areafit.toml").unlink()
            assert judged(call) == every


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("old.yaml", "--changed-since", "nowhere"), "no revision 'nowhere'"),
        (("old.yaml", "--changed-since=--all"), "is no revision"),
        (("-", "--changed-since", "HEAD"), "standard input is none"),
    ],
)
def test_what_git_cannot_say(
    call: Call, repository: Path, arguments: tuple[str, ...], words: str
) -> None:
    assert repository.exists()
    assert words in call("check", *arguments, status=2, both=True)


def test_without_git_or_repository(
    call: Call, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = call("check", "old.yaml", "--changed-since", "HEAD", status=2, both=True)
    assert "git failed" in told
    monkeypatch.setenv("PATH", str(folder))
    told = call("check", "old.yaml", "--changed-since", "HEAD", status=2, both=True)
    assert "git cannot be run" in told


def test_a_link_counts_by_itself_and_by_what_it_leads_to(repository: Path) -> None:
    (repository / "link.yaml").symlink_to("local.yaml")
    git(repository, "add", "link.yaml")
    git(repository, "commit", "-q", "-m", "link")
    link = repository / "link.yaml"
    assert not Changes("HEAD").any_changed([link])
    (repository / "local.yaml").write_text(LOCAL)
    assert Changes("HEAD").any_changed([link])
    git(repository, "checkout", "local.yaml")
    link.unlink()
    link.symlink_to("old.yaml")
    assert Changes("HEAD").any_changed([link])
    with pytest.raises(CallError):
        Changes("HEAD~9").any_changed([link])


ENTRY = """\
areafit-parts: 1
parts:
  P-1:
    kind: structural
    confirmed: {on: 2026-01-01, document: DS 1, role: supplier}
"""


@pytest.mark.parametrize("named", ["parts/", "parts/a.yaml"])
def test_a_changed_library_is_a_change_of_every_list_that_names_it(
    call: Call, repository: Path, named: str
) -> None:
    (repository / "parts").mkdir()
    (repository / "parts" / "a.yaml").write_text(ENTRY, encoding="utf-8")
    line = "parts: [{item: '1', location: hall, part_number: P-1}]\n"
    (repository / "bought.yaml").write_text(f"{LOCAL}library: {named}\n{line}", encoding="utf-8")
    git(repository, "add", ".")
    git(repository, "commit", "-q", "-m", "second")
    assert judged(call) == []
    (repository / "parts" / "a.yaml").write_text(f"{ENTRY}# read again\n", encoding="utf-8")
    assert judged(call) == ["bought.yaml"]
    git(repository, "checkout", "-q", "parts")
    assert judged(call) == []
    (repository / "parts" / "b.yaml").write_text(ENTRY.replace("P-1", "P-2"), encoding="utf-8")
    assert judged(call) == (["bought.yaml"] if named == "parts/" else [])
