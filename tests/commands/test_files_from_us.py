"""`new` and `schema`: what we hand out is valid, and what we print is what the schema says."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]  # it has no types
import pytest
from ruamel.yaml import YAML

Call = Callable[..., str]


def schema(call: Call, name: str) -> Any:
    found = json.loads(call("schema", name))
    jsonschema.Draft202012Validator.check_schema(found)
    return found


def errors(described: Any, value: Any) -> list[str]:
    found = jsonschema.Draft202012Validator(described).iter_errors(value)
    return [error.message for error in found]


def test_a_new_list_is_read_and_proves_nothing(call: Call, folder: Path) -> None:
    call("new", "fresh.yaml")
    report = json.loads(call("check", "fresh.yaml", "--format", "json", status=1))
    assert report["errors"] == []
    assert report["gate"] == "fail"
    written = (folder / "fresh.yaml").read_text(encoding="utf-8")
    assert "exists" in call("new", "fresh.yaml", status=2, both=True)
    assert (folder / "fresh.yaml").read_text(encoding="utf-8") == written
    assert call("new", "-") == written
    assert "cannot write" in call("new", "no/such/folder.yaml", status=2, both=True)
    assert errors(schema(call, "bom"), YAML(typ="safe").load(written)) == []


def test_every_example_of_a_new_list_is_read_once_it_is_uncommented(
    call: Call, folder: Path
) -> None:
    lines = call("new", "-").splitlines()
    body = [line for line in lines if not line.startswith("# A ") and not line.startswith("# as ")]
    text = "\n".join(_uncommented(line) for line in body)
    text = text.replace('item: "2"', 'item: "1"')
    (folder / "full.yaml").write_text(text, encoding="utf-8")
    (folder / "bought_parts.yaml").write_text("areafit-parts: 1\nparts: {}\n", encoding="utf-8")
    call("check", "full.yaml", status=1)


def test_a_new_list_names_what_is_usually_asked(call: Call) -> None:
    text = call("new", "-")
    for key in ("bonded", "device", "entries", "drive", "atmosphere", "contacts", "loose_parts"):
        assert f"# {key}: " in text, key
    assert "its own screws too" in text


def test_the_first_key_is_told_as_it_is_written(call: Call, folder: Path) -> None:
    (folder / "bare.yaml").write_text("assembly: {number: X}\n", encoding="utf-8")
    told = call("check", "bare.yaml", status=2, both=True)
    assert "without `areafit`; add `areafit: 1` as its first line" in told


def _uncommented(line: str) -> str:
    bare = line.lstrip()
    if bare.startswith("# ") and (":" in bare or bare.startswith("#   - ")):
        return line.replace("# ", "", 1)
    return line


def test_files_are_valid_by_their_schemas(call: Call, folder: Path) -> None:
    yaml = YAML(typ="safe")
    areas = yaml.load(folder / "site" / "areas.yaml")
    assert errors(schema(call, "areas"), areas) == []
    assert errors(schema(call, "areas"), {"locations": {}}) != []
    add = ("--item", "10", "--rule", "gas-group", "--reason", "r", "--approved-by", "a")
    rest = ("--until", "2026-12-31", "--document", "D", "--file", "w.yaml")
    call("waiver", "add", "old.yaml", *add, *rest)
    waivers = yaml.load(folder / "w.yaml")
    assert errors(schema(call, "waivers"), waivers) == []
    del waivers["waivers"][0]["reason"]
    assert errors(schema(call, "waivers"), waivers) != []


@pytest.mark.parametrize(
    "arguments",
    [
        ("old.yaml",),
        ("old.yaml", "new.yaml", "broken.yaml"),
        ("new.yaml", "--only", "kind"),
        ("old.yaml", "--waivers", "w.yaml", "--as-of", "2031-01-01"),
        ("old.yaml", "--waivers", "w.yaml"),
    ],
)
def test_reports_are_valid_and_every_key_is_described(
    call: Call, folder: Path, arguments: tuple[str, ...]
) -> None:
    (folder / "broken.yaml").write_text("areafit: 1\n")
    add = ("--item", "10", "--rule", "gas-group", "--reason", "r", "--approved-by", "a")
    rest = ("--until", "2026-12-31", "--document", "D", "--file", "w.yaml")
    call("waiver", "add", "old.yaml", *add, *rest)
    status = 2 if "broken.yaml" in arguments else 0 if "--only" in arguments else 1
    report = json.loads(call("check", *arguments, "--format", "json", status=status))
    described = schema(call, "report")
    assert errors(described, report) == []
    for each in objects(described):
        each["additionalProperties"] = False
    assert errors(described, report) == []
    report["boms"][0]["gate"] = "passed"
    assert errors(described, report) != []


def objects(described: Any) -> Iterator[dict[str, Any]]:
    if isinstance(described, dict):
        if isinstance(described.get("properties"), dict):
            yield described
        for value in described.values():
            yield from objects(value)
    elif isinstance(described, list):
        for value in described:
            yield from objects(value)
