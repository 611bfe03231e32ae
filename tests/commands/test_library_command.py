"""The library of bought parts at the command line: told, checked, added to, looked up."""

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema  # type: ignore[import-untyped]  # it has no types
import pytest
from ruamel.yaml import YAML

from areafit_cli import paths
from areafit_cli.errors import CallError, Exit

Call = Callable[..., str]
LIBRARY = """\
areafit-parts: 1
parts:
  CY-1:   # the short one
    also: [CY-2]
    description: Pneumatic cylinder
    kind: mechanical
    materials:
      - {component: barrel, material: "316"}
    materials_complete: true
    confirmed: {on: 2024-02-29, document: data sheet 7, role: supplier}
  CY-9:
    kind: mechanical
    confirmed: {on: 2026-11-01, document: data sheet 8, role: supplier}
"""
LIST = """\
areafit: 1
assembly: {number: M-1}
code: IEC
library: parts.yaml
locations:
  hall: {area: unclassified, document: AC-1, substances: none, chemicals: none, ambient: 5..40 °C}
parts:
  - {item: 10, part_number: CY-1, location: hall}
  - {item: 20, part_number: CY-2, location: hall, alternates: [{part_number: CY-1}]}
"""


@pytest.fixture
def machine(folder: Path) -> Path:
    (folder / "parts.yaml").write_text(LIBRARY, encoding="utf-8")
    (folder / "list.yaml").write_text(LIST, encoding="utf-8")
    return folder


def test_json_names_each_file_and_the_entries_used(call: Call, machine: Path) -> None:
    assert machine.exists()
    text = call("check", "list.yaml", "--format", "json", "--exit-zero")
    library = json.loads(text)["boms"][0]["library"]
    (file,) = library["files"]
    assert (file["path"], file["entries"], len(file["sha256"])) == ("parts.yaml", 2, 64)
    (used,) = library["used"]
    assert (used["part_number"], used["confirmed"], used["line"]) == ("CY-1", "2024-02-29", 3)


def test_unused_entries_are_counted_once_a_run(call: Call, machine: Path) -> None:
    (machine / "other.yaml").write_text(LIST.replace("M-1", "M-2"), encoding="utf-8")
    told = call("check", "list.yaml", "other.yaml", "--exit-zero")
    assert told.count("The library has 2 entries, 1 of them used here.") == 1
    (machine / "other.yaml").write_text(LIST.replace("CY-2", "CY-9"), encoding="utf-8")
    assert "The library has" not in call("check", "list.yaml", "other.yaml", "--exit-zero")


@pytest.mark.parametrize(
    ("age", "told"),
    [
        ("24 months", True),
        ("2 years", True),
        ("25 months", False),
        ("3 years", False),
        ("30 days", True),
        ("9999 years", False),
    ],
)
def test_entries_confirmed_long_ago_are_told(
    call: Call, machine: Path, age: str, *, told: bool
) -> None:
    assert machine.exists()
    text = call("check", "list.yaml", "--exit-zero", "--as-of", "2026-03-01", "--library-age", age)
    assert (f"was confirmed on 2024-02-29, more than {age} ago" in text) is told
    assert "CY-9" not in text
    assert "confirmed on" not in call("check", "list.yaml", "--exit-zero", "--as-of", "2026-03-01")


@pytest.mark.parametrize("age", ["24", "soon", "0 months", "-1 years", "1e9 days"])
def test_an_age_that_is_none_is_refused(call: Call, machine: Path, age: str) -> None:
    assert machine.exists()
    told = call("check", "list.yaml", "--library-age", age, status=Exit.WRONG_INPUT, both=True)
    assert "write it as 24 months" in told


def test_the_schema_of_a_library_takes_what_is_read_and_describes_each_key(call: Call) -> None:
    schema = json.loads(call("schema", "library"))
    jsonschema.Draft202012Validator.check_schema(schema)
    written = YAML(typ="safe").load(LIBRARY)
    written["parts"]["CY-1"]["confirmed"]["on"] = "2024-02-29"
    written["parts"]["CY-9"]["confirmed"]["on"] = "2026-11-01"
    validator = jsonschema.Draft202012Validator(schema)
    assert list(validator.iter_errors(written)) == []
    for key in ("item", "quantity", "location", "contacts", "bonded", "exposure", "proposed"):
        wrong = {**written, "parts": {"A": {**written["parts"]["CY-9"], key: "x"}}}
        assert list(validator.iter_errors(wrong)), key
    for name, model in {"": schema, **schema["$defs"]}.items():
        for key, described in model.get("properties", {}).items():
            assert described.get("description"), f"{name}.{key}"


# areafit library


def test_check_tells_of_each_entry_what_a_line_says(call: Call, machine: Path) -> None:
    (machine / "more").mkdir()
    (machine / "more" / "b.yaml").write_text(LIBRARY.replace("CY-", "B-"), encoding="utf-8")
    (machine / "more" / "list.yaml").write_text(LIST, encoding="utf-8")
    told = call("library", "check", "parts.yaml", "more")
    assert "CY-1, CY-2  parts.yaml:3:3  confirmed 2024-02-29, data sheet 7 (supplier)" in told
    assert "a line says: item, location, exposure" in told
    assert "B-9" in told


def test_check_with_a_list_tells_what_is_open_at_its_places(call: Call, machine: Path) -> None:
    wet = LIST.replace("chemicals: none", "chemicals: [tap water]").replace(
        "area: unclassified", "area: 'Zone 1, IIB, T3'"
    )
    (machine / "list.yaml").write_text(wet, encoding="utf-8")
    told = call("library", "check", "parts.yaml", "--list", "list.yaml")
    first = told[told.index("CY-1") : told.index("CY-9")]
    (said,) = (line for line in first.splitlines() if "at hall" in line)
    for key in ("exposure", "electrical_content", "bonded", "drive"):
        assert key in said, said
    line, _, entry = said.partition("; the entry could say: ")
    assert {"exposure", "bonded"} <= set(line.partition(": ")[2].split(", "))
    assert {"electrical_content", "drive"} <= set(entry.split(", "))
    assert not {"kind", "materials"} & set(entry.split(", "))


def test_a_library_is_no_list(call: Call, machine: Path) -> None:
    assert machine.exists()
    told = call("check", "parts.yaml", status=Exit.WRONG_INPUT, both=True)
    assert "this is a library of bought parts, no bill of materials" in told
    assert "left out" not in call("check", ".", "--exit-zero", both=True)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("kind: mechanical\n    confirmed", "colour: red\n    confirmed", "parts.yaml:12:5"),
        ("CY-9", "CY-2", "an entry already"),
        ("areafit-parts: 1", "areafit: 1", "no library file"),
    ],
)
def test_check_refuses_what_no_line_has_asked_for_yet(
    call: Call, machine: Path, old: str, new: str, says: str
) -> None:
    (machine / "parts.yaml").write_text(LIBRARY.replace(old, new), encoding="utf-8")
    told = call("library", "check", "parts.yaml", status=Exit.WRONG_INPUT, both=True)
    assert says in told


ADD = ("library", "add", "old.yaml", "--item", "10", "--document", "DS 1", "--role", "supplier")


def test_add_lifts_a_line_into_a_new_file(call: Call, folder: Path) -> None:
    before = (folder / "old.yaml").read_bytes()
    old = call("check", "old.yaml", "--format", "json", "--exit-zero")
    told = call(*ADD, "--to", "parts.yaml")
    assert "name it in the list: library: parts.yaml" in told
    assert (folder / "old.yaml").read_bytes() == before
    assert (folder / "parts.yaml").read_text(encoding="utf-8") == (
        "areafit-parts: 1\nparts:\n  PN-1:\n    description: Sensor\n    kind: electrical\n"
        '    marking: Ex ia IIA T4 Gb\n    ingress: IP67\n    unit_cost: "84.5"\n'
        "    evidence:\n      - {type: certificate, number: E-1, covers: PN-1}\n"
        "    materials:\n      - {component: housing, material: AL-5083}\n"
        "    materials_complete: true\n"
        '    confirmed: {"on": 2026-01-31, document: DS 1, role: supplier}\n'
    )
    text = before.decode().replace("parts:\n", "library: parts.yaml\nparts:\n", 1)
    (folder / "old.yaml").write_text(text, encoding="utf-8")
    new = call("check", "old.yaml", "--format", "json", "--exit-zero")
    verdicts = [
        [(f["rule"], f["verdict"]) for f in json.loads(each)["boms"][0]["parts"][0]["findings"]]
        for each in (old, new)
    ]
    assert verdicts[0] == verdicts[1]


def test_add_writes_behind_the_entries_of_a_file_and_touches_no_other_byte(
    call: Call, machine: Path
) -> None:
    (machine / "parts.yaml").write_bytes(LIBRARY.replace("\n", "\r\n").encode())
    call(*ADD, "--to", "parts.yaml", "--on", "2025-12-24")
    made = (machine / "parts.yaml").read_bytes()
    assert made.startswith(LIBRARY.replace("\n", "\r\n").encode())
    assert b"  PN-1:\r\n    description: Sensor\r\n" in made
    assert made.endswith(b'{"on": 2025-12-24, document: DS 1, role: supplier}\r\n')
    again = call(*ADD, "--to", "parts.yaml", status=Exit.WRONG_INPUT, both=True)
    assert "PN-1 has an entry in parts.yaml already" in again
    assert (machine / "parts.yaml").read_bytes() == made


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--item", "10", "--to", "p.yaml"), "--document, --role"),
        ((*ADD[3:], "--item", "11", "--to", "p.yaml"), "no item '11'"),
        ((*ADD[3:], "--to", "old.yaml"), "no library file"),
        ((*ADD[3:], "--to", "p.yaml", "--on", "soon"), "is no date"),
    ],
)
def test_add_refuses_and_writes_nothing(
    call: Call, folder: Path, arguments: tuple[str, ...], says: str
) -> None:
    before = {path: path.read_bytes() for path in folder.glob("*.yaml")}
    told = call("library", "add", "old.yaml", *arguments, status=Exit.WRONG_INPUT, both=True)
    assert says in told
    assert {path: path.read_bytes() for path in folder.glob("*.yaml")} == before


def test_add_leaves_a_file_alone_that_changed_since_it_was_read(folder: Path) -> None:
    path = folder / "parts.yaml"
    path.write_text(LIBRARY, encoding="utf-8")
    for before in (b"other", None):
        with pytest.raises(CallError, match="has changed since it was read"):
            paths.replace_unchanged(path, before, ["new"])
    assert path.read_text(encoding="utf-8") == LIBRARY
    paths.replace_unchanged(path, LIBRARY.encode(), ["new"])
    assert path.read_text(encoding="utf-8") == "new"


def test_a_line_that_takes_of_an_entry_is_changed_there(call: Call, machine: Path) -> None:
    assert machine.exists()
    add = ("library", "add", "list.yaml", "--item", "10", "--document", "D", "--role", "r")
    told = call(*add, "--to", "x.yaml", status=Exit.WRONG_INPUT, both=True)
    assert "CY-1 has an entry at parts.yaml:3:3" in told


def test_used_names_every_line_by_each_number(call: Call, machine: Path) -> None:
    (machine / "other.yaml").write_text(LIST.replace("CY-1", "CY-9"), encoding="utf-8")
    for number in ("CY-1", "CY-2"):
        told = call("library", "used", number, "list.yaml", "other.yaml").splitlines()
        assert told == [
            "list.yaml:8:5  item 10  Pneumatic cylinder",
            "list.yaml:9:5  item 20 as CY-2  Pneumatic cylinder",
            "list.yaml:9:64  item 20, alternate  Pneumatic cylinder",
            "other.yaml:9:5  item 20 as CY-2  Pneumatic cylinder",
        ]
    assert "no line of list.yaml takes anything of X" in call("library", "used", "X", "list.yaml")


def test_hostile_files_of_a_library_are_refused_with_their_place(call: Call, machine: Path) -> None:
    (machine / "loop.yaml").symlink_to("loop.yaml")
    (machine / "parts").mkdir()
    (machine / "parts" / "folder.yaml").mkdir()
    (machine / "empty").mkdir()
    (machine / "empty" / ".hidden.yaml").write_text(LIBRARY, encoding="utf-8")
    (machine / "link.yaml").symlink_to("/etc/hostname")
    for named, says in (
        ("loop.yaml", "cannot be used"),
        ("parts/", "is not a regular file"),
        ("empty/", "holds no YAML file"),
        ("link.yaml", "lies outside"),
        ("../parts.yaml", "cannot be used"),
        ("/parts.yaml", "must be a path relative"),
        ("list.yaml", "no library file"),
        ("nowhere/", "does not exist"),
    ):
        text = LIST.replace("library: parts.yaml", f"library: [parts.yaml, {named}]")
        (machine / "list.yaml").write_text(text, encoding="utf-8")
        told = call("check", "list.yaml", status=Exit.WRONG_INPUT, both=True)
        assert says in told, (named, told)
        assert "list.yaml:4:" in told or "list.yaml:1:" in told


def test_json_tells_what_is_told(call: Call, machine: Path) -> None:
    note = (
        "unless_stated: [{document: ES-1, role: designer, where: {items: 99}, "
        "facts: {bonded: true}}]\n"
    )
    (machine / "list.yaml").write_text(LIST.replace("parts:\n", note + "parts:\n", 1))
    report = json.loads(call("check", "list.yaml", "--format", "json", "--exit-zero"))
    (told,) = report["boms"][0]["remarks"]
    assert "no line takes anything from the note ES-1" in told
