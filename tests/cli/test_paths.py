"""Which files a call means."""

from pathlib import Path

import pytest

from areafit_cli import paths
from areafit_cli.errors import CallError

LIST, SITE = "areafit: 1\n", "areafit-areas: 1\n"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name, text in {
        "b.yaml": LIST,
        "a.yml": f"# our list\n---\n{LIST}",
        "site.yaml": SITE,
        "deep/c.yaml": LIST,
        ".hidden/d.yaml": LIST,
        "readme.txt": LIST,
    }.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


def found(*asked: str) -> list[str]:
    return [paths.shown(path) for path in paths.find(asked).files]


@pytest.mark.usefixtures("folder")
def test_a_folder_gives_its_lists_sorted_and_counts_the_rest() -> None:
    assert found(".") == ["a.yml", "b.yaml", "deep/c.yaml"]
    assert paths.find(["."]).others == 1


def test_a_shared_file_that_a_list_names_is_not_left_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "site").mkdir()
    for name in ("used", "quoted", "unused"):
        (tmp_path / "site" / f"{name}.yaml").write_text("areafit-areas: 1\n", encoding="utf-8")
    (tmp_path / "a.yaml").write_text("areafit: 1\nareas: site/used.yaml  # ours\n", "utf-8")
    (tmp_path / "b.yaml").write_text('areafit: 1\nareas: "site/quoted.yaml"\n', "utf-8")
    assert paths.find(["."]).others == 1
    assert paths.find(["site", "a.yaml"]).others == 2


@pytest.mark.usefixtures("folder")
def test_a_glob_is_expanded_here_and_takes_lists_only() -> None:
    assert found("*.yaml") == ["b.yaml"]
    assert found("**/*.yaml") == ["b.yaml", "deep/c.yaml"]
    assert found("dee*") == ["deep/c.yaml"]


@pytest.mark.usefixtures("folder")
def test_a_named_file_is_a_list_whatever_it_holds() -> None:
    assert found("site.yaml", "readme.txt") == ["site.yaml", "readme.txt"]


@pytest.mark.usefixtures("folder")
def test_each_list_is_judged_once() -> None:
    assert found("b.yaml", ".", "./b.yaml") == ["b.yaml", "a.yml", "deep/c.yaml"]


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize("asked", ["*.toml", "site*.yaml"])
def test_nothing_matched_is_an_error(asked: str) -> None:
    with pytest.raises(CallError, match="no bill of materials in"):
        paths.find([asked])


@pytest.mark.usefixtures("folder")
def test_a_missing_file_is_a_fault_that_stops_no_other() -> None:
    result = paths.find(["gone.yaml", "b.yaml"])
    assert [str(error) for error in result.errors] == [
        "gone.yaml: there is no such file or folder; check the path"
    ]
    assert [path.name for path in result.files] == ["b.yaml"]


def test_standard_input_has_a_name_of_its_own() -> None:
    result = paths.find(["-"])
    assert result.files == [Path(paths.STDIN)]
    assert paths.shown(result.files[0]) == "<stdin>"


def test_a_linked_folder_is_not_followed(folder: Path) -> None:
    (folder / "deep" / "round").symlink_to(folder)
    assert found("deep") == ["deep/c.yaml"]


@pytest.mark.parametrize(
    ("data", "key"),
    [
        (b"areafit: 1", "areafit"),
        (b"\xef\xbb\xbf# note\n\n%YAML 1.2\n---\n'areafit': 1\n", "areafit"),
        (b"{areafit: 1, parts: []}", "areafit"),
        ("areafit: 1\n".encode("utf-16"), "areafit"),
        (b"areafit-waivers: 1\n", "areafit-waivers"),
        (b"# areafit: 1\nother: 1\n", "other"),
        (b"areafit:1\n", None),
        (b"- areafit: 1\n", None),
        (b"", None),
        (b"\x00\xff", None),
    ],
)
def test_the_first_key_decides(tmp_path: Path, data: bytes, key: str | None) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes(data)
    assert paths.first_key(path) == key
    assert paths.first_key(tmp_path / "gone.yaml") is None
