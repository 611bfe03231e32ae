"""What the README shows is what the tool prints."""

import doctest
import re
import runpy
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, TypeGuard, get_args

import pytest

import areafit
from areafit.file import model as bom_models
from areafit.file.fields import OneOf, Reads
from areafit.file.mappings import Model, models_in
from areafit_cli import render

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def report_of(*call: str) -> str:
    done = subprocess.run(
        [sys.executable, "-m", "areafit_cli", "check", *call],
        cwd=ROOT,
        env={"PATH": "", "COLUMNS": "100"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    return done.stdout


def test_the_excerpts_stand_in_the_reports() -> None:
    found = re.findall(r"<!-- excerpt: (.+?) -->\n```text\n(.+?)```", README, re.DOTALL)
    assert len(found) == 2
    for call, excerpt in found:
        assert len(excerpt.splitlines()) > 4
        assert excerpt in report_of(*call.split())


def test_the_example_is_a_list_that_can_be_read() -> None:
    found = re.search(r"```yaml\n(areafit: 1\n.+?)```", README, re.DOTALL)
    assert found is not None
    bom = areafit.read(found[1].encode(), "README.md")
    assert bom.parts[0].item == "10"


def test_own_rows_can_be_copied() -> None:
    shown = [text.encode() for text in re.findall(r"```csv\n(.+?)```", README, re.DOTALL)]
    names = re.findall(r"`own/(\w+\.csv)`", README)
    own = areafit.Tables.overlaid(dict(zip(names, shown, strict=True)))
    (row,) = own.resistance("HNBR", "peracetic-acid")
    assert own.source(row.source_id).kind.value == "supplier"
    assert own.laxer == ()


def test_python_prints_what_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    found = re.search(r"```pycon\n(.+?)```", README, re.DOTALL)
    assert found is not None
    monkeypatch.chdir(ROOT)
    shown = doctest.DocTestParser().get_doctest(found[1], {}, "README", "README.md", None)
    told: list[str] = []
    doctest.DocTestRunner(verbose=False).run(shown, out=told.append)
    assert shown.examples
    assert told == []


def test_every_key_of_a_list_is_named() -> None:
    known = {name: model for name, model in vars(bom_models).items() if _is_model(model)}
    found = {each for model in known.values() for each in _within(model)}
    assert len(found) > 20
    lacking = {
        (model.__name__, keys)
        for model in found
        for keys in model.keys().values()
        if not any(re.search(rf"\b{re.escape(key)}\b", README) for key in keys)
    }
    assert not lacking, f"run python tests/cli/readme_facts.py: {sorted(lacking)}"


def _is_model(thing: object) -> TypeGuard[type[Model]]:
    return isinstance(thing, type) and issubclass(thing, Model) and thing is not Model


def _within(model: type[Model]) -> Iterator[type[Model]]:
    yield model
    for field in model.model_fields.values():
        for inner in models_in(field.annotation):
            yield from _within(inner)


def test_the_table_of_facts_is_the_one_of_the_reader() -> None:
    script = runpy.run_path(str(Path(__file__).parent / "readme_facts.py"))
    assert script["made"](README) == README, "run python tests/cli/readme_facts.py"


def test_every_word_of_a_list_is_named() -> None:
    told: dict[str, set[str]] = {}
    for path, takes in re.findall(r"^\| `([^`]+)`[^|]*\|[^|]+\|([^|]+)\|", README, re.MULTILINE):
        key = ".".join(path.split(".")[-2:])
        told.setdefault(key, set()).update(re.findall(r"`([^`]+)`", takes))
    asked = dict(_asked(bom_models.BomModel, ""))
    assert len(asked) > 20
    assert asked.pop("areafit") == {"1"}
    assert {key: told.get(key, told.get(key.rpartition(".")[2])) for key in asked} == asked


def _asked(model: type[Model], holder: str) -> Iterator[tuple[str, set[str]]]:
    """Every key of a list that takes words, with the key that holds it, and the words."""
    for name, field in model.model_fields.items():
        key = model.keys()[name][0]
        for words in _words(field.annotation, field.metadata):
            yield f"{holder}{key}", words
        for inner in models_in(field.annotation):
            yield from _asked(inner, f"{key}.")


def _words(annotation: Any, metadata: Sequence[object] = ()) -> Iterator[set[str]]:
    for one in (*metadata, *getattr(annotation, "__metadata__", ())):
        if isinstance(one, Reads) and "enum" in one.schema:
            yield set(map(str, one.schema["enum"]))
        elif isinstance(one, OneOf):
            yield {member.value for member in getattr(annotation, "__origin__", annotation)}
    for inner in get_args(annotation):
        yield from _words(inner)


def test_every_format_is_named() -> None:
    found = re.search(r"^Formats: (.+?)\.", README, re.DOTALL | re.MULTILINE)
    assert found is not None
    unnamed = set(render.NAMES) - set(re.findall(r"[a-z]+", found[1]))
    assert not unnamed, f"Name in the line `Formats:` of README.md: {sorted(unnamed)}"


def test_every_command_of_the_readme_exists() -> None:
    from areafit_cli.app import COMMANDS

    named = set(re.findall(r"`areafit ([a-z]+)", README))
    assert named <= set(COMMANDS), named - set(COMMANDS)
    assert set(COMMANDS) <= named, set(COMMANDS) - named
