"""Reports are written whole or not at all, each to its own place."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from areafit_cli import checking, paths
from areafit_cli.errors import CallError


def places(formats: list[str], outputs: list[str]) -> list[tuple[str, str | None]]:
    found = checking.pair(formats, outputs, [Path("bom.yaml")])
    return [(each.format, each.path.name if each.path else None) for each in found]


def test_the_nth_format_goes_with_the_nth_output() -> None:
    assert places([], []) == [("text", None)]
    assert places([], ["a.txt"]) == [("text", "a.txt")]
    assert places(["json", "text"], ["a.json"]) == [("json", "a.json"), ("text", None)]
    assert places(["text", "json"], ["-", "a.json"]) == [("text", None), ("json", "a.json")]


@pytest.mark.parametrize(
    ("formats", "outputs", "why"),
    [
        (["text", "json"], [], "standard output"),
        (["text"], ["a", "b"], "more --output"),
        (["text", "json"], ["a", "a"], "already"),
        (["text"], ["bom.yaml"], "already"),
    ],
)
def test_places_that_clash_are_refused(formats: list[str], outputs: list[str], why: str) -> None:
    with pytest.raises(CallError, match=why):
        places(formats, outputs)


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "report.txt"
    path.write_text("old")
    path.chmod(0o640)
    paths.replace(path, ["new ", "Ω\n"])
    assert path.read_bytes() == "new Ω\n".encode()
    assert path.stat().st_mode & 0o777 == 0o640
    assert list(tmp_path.iterdir()) == [path]


def test_a_new_file_has_the_usual_rights(tmp_path: Path) -> None:
    mask = os.umask(0o027)
    try:
        paths.replace(tmp_path / "report.txt", ["x"])
    finally:
        os.umask(mask)
    assert (tmp_path / "report.txt").stat().st_mode & 0o777 == 0o640


def test_a_failing_report_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    def broken() -> Iterator[str]:
        yield "half"
        raise KeyboardInterrupt

    path = tmp_path / "report.txt"
    path.write_text("old")
    with pytest.raises(KeyboardInterrupt):
        paths.replace(path, broken())
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_linked_report_stays_linked(tmp_path: Path) -> None:
    (tmp_path / "real.txt").write_text("old")
    link = tmp_path / "link.txt"
    link.symlink_to("real.txt")
    paths.replace(link, ["new"])
    assert link.is_symlink()
    assert (tmp_path / "real.txt").read_text() == "new"


def test_a_device_is_written_to(tmp_path: Path) -> None:
    paths.replace(Path(os.devnull), ["x"])
    assert not Path(os.devnull).is_file()
    with pytest.raises(CallError, match="cannot write"):
        paths.replace(tmp_path, ["x"])


def test_a_place_that_cannot_be_written_says_so(tmp_path: Path) -> None:
    with pytest.raises(CallError, match="cannot write"):
        paths.replace(tmp_path / "gone" / "report.txt", ["x"])


def test_half_a_character_is_written_as_an_escape(tmp_path: Path) -> None:
    paths.replace(tmp_path / "r", ["\udc80"])
    assert (tmp_path / "r").read_bytes() == b"\\udc80"


def test_a_file_that_another_program_holds_stays_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As Windows refuses to replace a workbook that a spreadsheet has open (from memory)."""
    path = tmp_path / "list.yaml"
    path.write_bytes(b"old")

    def held(*_: object) -> None:
        raise PermissionError(13, "it is being used by another process")

    monkeypatch.setattr(Path, "replace", held)
    with pytest.raises(CallError, match=r"cannot write .*list.yaml: it is being used"):
        paths.replace_unchanged(path, b"old", ["new"])
    assert [each.read_bytes() for each in tmp_path.iterdir()] == [b"old"]
