"""The library of bought parts at the command line: told, checked, added to, looked up."""

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema  # type: ignore[import-untyped]  # it has no types
import pytest
from ruamel.yaml import YAML

from areafit_cli.errors import Exit

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
