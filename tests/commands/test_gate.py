"""A gate that cannot be off without a word: which files are judged, and what opens it.

What a hook must not pass over is the project's own rule.
"""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from areafit_cli import render

Call = Callable[..., str]
LIST = (
    "assembly: {number: G}\ncode: IEC\nlocations: {hall: {area: unclassified, document: AC, "
    "substances: none, chemicals: none, ambient: 5..40 °C}}\n"
    "parts: [{item: '1', location: hall, kind: structural}]\n"
)
GOOD = f"areafit: 1\n{LIST}"
BAD = GOOD.replace("document: AC, ", "")


def write(path: Path, text: str) -> str:
    path.write_text(text, encoding="utf-8")
    return path.name


@pytest.fixture
def lists(folder: Path) -> Path:
    for path in folder.glob("*.yaml"):
        path.unlink()
    return folder


def test_a_hook_judges_lists_of_any_name_and_counts_the_rest(call: Call, lists: Path) -> None:
    names = [write(lists / "frame.yml", GOOD), write(lists / "ci.yaml", "jobs: {a: 1}\n")]
    told = call("check", "--only-lists", "--", *names, both=True)
    assert "left out 1 YAML file" in told
    assert "GATE pass" in told
    write(lists / "frame.yml", BAD)
    assert "GATE fail" in call("check", "--only-lists", "--", *names, status=1)


def test_nothing_to_judge_is_told_in_one_line(call: Call, lists: Path) -> None:
    name = write(lists / "ci.yaml", "jobs: {a: 1}\n")
    assert call("check", "--only-lists", "--", name, both=True).endswith(
        "areafit: nothing to judge\n"
    )
    call("check", name, status=2)
    call("check", ".", status=2)


def test_a_changed_library_is_told_to_be_judged_elsewhere(call: Call, lists: Path) -> None:
    name = write(lists / "parts.yaml", "areafit-parts: 1\nparts: {}\n")
    told = call("check", "--only-lists", "--", name, both=True)
    assert "--changed-since" in told


@pytest.mark.parametrize(
    "text",
    [
        LIST,
        f"# a comment\nname: x\n{LIST}areafit: 1\n",
        "{parts: [], assembly: {number: 1}}\n",
        f"\ufeff{LIST}",
        '"parts": []\n"locations": {}\n',
    ],
)
@pytest.mark.parametrize("how", [("--only-lists", "--", "a.yaml"), (".",), ("*.yaml",)])
def test_a_list_that_does_not_say_so_is_never_passed_over(
    call: Call, lists: Path, text: str, how: tuple[str, ...]
) -> None:
    write(lists / "a.yaml", text)
    told = call("check", *how, status=2, both=True)
    assert "looks like a bill of materials" in told


@pytest.mark.parametrize(
    "text", ["parts: [1]\n", "locations: {}\nassembly: 1\n", "x: {parts: 1, assembly: 2}\n"]
)
def test_other_files_are_no_lists(call: Call, lists: Path, text: str) -> None:
    write(lists / "good.yaml", GOOD)
    write(lists / "a.yaml", text)
    assert "GATE pass" in call("check", ".")


@pytest.mark.parametrize("name", ["--exit-zero", "--config=open.toml", "-q", "--skip", "--help"])
def test_a_file_whose_name_looks_like_an_option_is_judged(
    call: Call, lists: Path, name: str
) -> None:
    write(lists / name, BAD)
    write(lists / "open.toml", "exit-zero = true\n")
    assert "GATE fail" in call("check", "--only-lists", "--", name, status=1)


def test_before_the_names_it_is_an_option(call: Call, lists: Path) -> None:
    name = write(lists / "a.yaml", BAD)
    write(lists / "open.toml", "exit-zero = true\n")
    call("check", "--only-lists", "--config=open.toml", "--", name, status=0)
    call("check", "--only-lists", "--", name, status=1)


def test_a_found_configuration_writes_below_its_own_folder_only(call: Call, lists: Path) -> None:
    (lists / ".git").mkdir(exist_ok=True)
    name = write(lists / "a.yaml", GOOD)
    write(lists / "areafit.toml", 'format = "json"\noutput = "../out.json"\n')
    assert "lies outside its folder" in call("check", name, status=2, both=True)
    write(lists / "areafit.toml", f'format = "json"\noutput = "{lists.parent}/out.json"\n')
    assert "lies outside its folder" in call("check", name, status=2, both=True)
    (lists / "out").symlink_to("..")
    write(lists / "areafit.toml", 'format = "json"\noutput = "out/out.json"\n')
    assert "lies outside its folder" in call("check", name, status=2, both=True)
    assert not (lists.parent / "out.json").exists()
    (lists / "sub").mkdir()
    for inside in ("out.json", "sub/out.json"):
        write(lists / "areafit.toml", f'format = "json"\noutput = "{inside}"\n')
        call("check", name)
        assert (lists / inside).exists()


def test_a_named_configuration_writes_where_it_says(call: Call, lists: Path) -> None:
    name = write(lists / "a.yaml", GOOD)
    write(lists / "mine.toml", 'format = "json"\noutput = "../mine.json"\n')
    call("check", name, "--config", "mine.toml")
    assert (lists.parent / "mine.json").exists()


def test_what_opens_the_gate_is_told(call: Call, lists: Path) -> None:
    name = write(lists / "a.yaml", BAD)
    write(lists / "areafit.toml", "exit-zero = true\n")
    for more in ((), ("--full",)):
        assert "The gate is opened by `exit-zero` in areafit.toml" in call("check", name, *more)
    assert "opened by `--exit-zero`" in call("check", name, "--no-config", "--exit-zero")
    for kind in render.NAMES:
        assert "exit-zero" in call("check", name, "-f", kind, status=None), kind
    write(lists / "areafit.toml", 'accept-unproven = "place-stated"\n')
    assert "opened by `accept-unproven`" in call("check", name, status=None)


@pytest.mark.parametrize("read", ["own/sources.csv", "areafit.toml", "w.yaml", "a.yaml"])
def test_what_a_run_reads_is_never_written(call: Call, lists: Path, read: str) -> None:
    write(lists / "a.yaml", GOOD)
    write(lists / "w.yaml", "areafit-waivers: 1\nwaivers: none\n")
    (lists / "own").mkdir()
    header = "id,title,edition,publisher,kind,read_on,note\n"
    write(lists / "own" / "sources.csv", f"{header}house,House,1,,practice,2026-01-31,\n")
    write(lists / "areafit.toml", 'tables = "own"\nwaivers = "w.yaml"\n')
    before = (lists / read).read_bytes()
    told = call("check", "a.yaml", "-f", "json", "-o", read, status=2, both=True)
    assert "is read or written already" in told
    assert (lists / read).read_bytes() == before


@pytest.mark.parametrize("command", ["::error::x", "##vso[task.complete]x", "  ::stop-commands::t"])
def test_no_line_is_a_command_of_a_build_service(call: Call, lists: Path, command: str) -> None:
    part = f"{{item: '1', location: hall, kind: mechanical, description: '{command} {command}'}}"
    zone = BAD.replace("area: unclassified", "area: 'Zone 1, IIB, T4'")
    text = zone.partition("parts:")[0] + f"parts: [{part}]\n"
    name = write(lists / "a.yaml", text)
    write(lists / "b.yaml", f"areafit: 1\n'{command}': 1\n")
    for how in ((name,), (name, "--full"), ("b.yaml",)):
        told = call("check", *how, status=None, both=True)
        for line in told.splitlines():
            assert not line.lstrip().startswith(("::", "##")), line


def test_links_in_a_circle_end(call: Call, lists: Path) -> None:
    write(lists / "a.yaml", GOOD)
    for name in ("one", "two"):
        (lists / name).symlink_to(".")
    assert "GATE pass" in call("check", "**/*.yaml")
    assert "GATE pass" in call("check", str(lists / "**"))
    deep = lists / "d" / "e"
    deep.mkdir(parents=True)
    (deep / "up").symlink_to("../..")
    assert "GATE pass" in call("check", "**/*.yaml")
    assert "GATE pass" in call("check", ".")


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="looks into /proc")
def test_workers_end_with_their_parent(lists: Path) -> None:
    lines = "".join(
        f"  - {{item: '{i}', location: hall, kind: structural}}\n" for i in range(20_000)
    )
    text = GOOD.partition("parts:")[0] + "parts:\n" + lines
    names = [write(lists / f"{i}.yaml", text) for i in range(4)]
    call = [sys.executable, "-m", "areafit_cli", "check", "--jobs", "2", *names]
    with subprocess.Popen(call, cwd=lists, stdout=subprocess.DEVNULL) as parent:
        workers: list[int] = []

        def begun() -> bool:
            workers.extend(_children(parent.pid))
            return bool(workers)

        _wait(begun)
        assert workers
        parent.send_signal(signal.SIGKILL)
        parent.wait()
    assert _wait(lambda: not any(_lives(each) for each in workers))


def _children(parent: int) -> list[int]:
    found = []
    for entry in Path("/proc").iterdir():
        if entry.name.isdecimal():
            try:
                said = (entry / "stat").read_text(encoding="utf-8").rpartition(")")[2].split()
            except OSError:
                continue
            if int(said[1]) == parent:
                found.append(int(entry.name))
    return found if len(found) > 1 else []


def _lives(pid: int) -> bool:
    try:
        state = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state not in {"Z", "X"} and os.path.exists(f"/proc/{pid}")  # noqa: PTH110 - as it is


def _wait(found: Callable[[], object], seconds: float = 20) -> object:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if result := found():
            return result
        time.sleep(0.05)
    return found()
