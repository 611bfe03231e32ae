"""The event loop: data, positions and the two parsers against each other."""

import importlib
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from io import StringIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ruamel.yaml import YAML

import areafit.file.events
from areafit.errors import Collector, InputErrors
from areafit.file.events import load
from areafit.file.positions import Document, Items, Locator, Map

SAFE = st.characters(exclude_categories=["Cc", "Cf", "Cs", "Cn", "Zl", "Zp"])
TEXTS = st.text(st.one_of(SAFE, st.sampled_from("'\":{}[],&*#?|-<>=!%@`\\ \n~")), max_size=12)
KEYS = TEXTS.filter(lambda text: text.strip() != "" and text != "<<")
TREES = st.recursive(
    st.none() | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=25,
).filter(lambda tree: tree is not None)


def parse(text: str, *, fast: bool = True) -> tuple[Document, Collector]:
    errors = Collector()
    return load(text, "x", errors, fast=fast), errors


def stated(tree: Any) -> Any:
    """The tree as reading must give it: blank text states nothing."""
    if isinstance(tree, dict):
        return {key: stated(value) for key, value in tree.items()}
    if isinstance(tree, list):
        return [stated(value) for value in tree]
    return tree if tree and not tree.isspace() else None


def paths(
    tree: Any, above: tuple[str | int, ...] = ()
) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    yield above, tree
    entries: Any = tree.items() if isinstance(tree, dict) else ()
    for key, value in enumerate(tree) if isinstance(tree, list) else entries:
        yield from paths(value, (*above, key))


def as_block(tree: Any) -> str:
    stream = StringIO()
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style = False
    yaml.allow_unicode = True
    yaml.dump(tree, stream)
    return stream.getvalue()


@given(TREES, st.sampled_from([None, 0, 2]), st.booleans())
def test_any_tree_keeps_its_values_and_every_path_a_position(
    tree: Any,
    indent: int | None,
    fast: bool,  # noqa: FBT001
) -> None:
    text = json.dumps(tree, ensure_ascii=False, indent=indent)
    document, errors = parse(text, fast=fast)
    assert not errors
    assert document.root == stated(tree)
    lines = text.split("\n")
    for path, value in paths(tree):
        at = document.at(path)
        written = lines[at.line - 1][at.column - 1 :]
        if value is None:
            assert written.startswith("null")
        else:
            assert written[0] == ("{" if isinstance(value, dict) else '"['[isinstance(value, list)])
        if path and isinstance(path[-1], str):
            key = document.key_at(path)
            assert lines[key.line - 1][key.column - 1] == '"'
            assert (key.line, key.column) < (at.line, at.column)


@given(TREES)
def test_both_parsers_read_the_same(tree: Any) -> None:
    text = as_block(tree)
    fast, slow = parse(text), parse(text, fast=False)
    assert not fast[1]
    assert not slow[1]
    assert fast[0].root == slow[0].root == stated(tree)
    for path, _ in paths(tree):
        at = fast[0].at(path)
        assert at == slow[0].at(path)
        assert fast[0].key_at(path) == slow[0].key_at(path)
        assert 1 <= at.line <= text.count("\n") + 1
        assert 1 <= at.column <= len(text.split("\n")[at.line - 1]) + 1


@pytest.mark.parametrize(
    "text",
    [
        "a: &x 1\nb: *x\n",
        "a: {b: 1}\nc:\n  <<: {d: 1}\n",
        "a: !!str 1\nb: ! 2\n",
        "a: 1\na: [2]\n",
        "[1, 2]: x\n",
        "~: x\n",
        "a: 1\n---\nb: 2\n",
        'a: "\\e"\n',
        "a: [" + "[" * 40,
        "# nothing\n",
    ],
)
def test_both_parsers_refuse_the_same(text: str) -> None:
    said = []
    for fast in (True, False):
        errors = Collector()
        with suppress(InputErrors):
            load(text, "x", errors, fast=fast)
        assert errors
        said.append(str(errors.all()))
    assert said[0] == said[1]


def test_without_the_c_parser_the_pure_one_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    try:
        with monkeypatch.context() as patch:
            patch.setitem(sys.modules, "_ruamel_yaml", None)
            slow = importlib.reload(areafit.file.events)
            assert not slow.FAST
            assert type(slow.events("a: 1")()).__name__ == "StreamStartEvent"
    finally:
        assert importlib.reload(areafit.file.events).FAST


def test_an_error_without_a_mark_is_said_at_the_start() -> None:
    errors = Collector()
    with pytest.raises(InputErrors) as caught:
        load("a: \x00", "x", errors)
    assert str(caught.value).startswith("x:1:1: no valid YAML: ")


def test_values_that_are_not_written_stand_at_their_key() -> None:
    document, _ = parse("a:\nb: ~\nc: ''\nd:\n  - \n")
    spots = [document.at([key]) for key in "abcd"]
    assert [(at.line, at.column) for at in spots] == [(1, 1), (2, 4), (3, 4), (5, 3)]
    assert document.root == {"a": None, "b": None, "c": None, "d": [None]}


def locator(text: str, **more: Any) -> Callable[[str], tuple[int, int]]:
    find = Locator(parse(text)[0], **more)
    return lambda path: (find(path).line, find(path).column)


def test_paths_find_values_or_their_nearest_written_ancestor() -> None:
    at = locator("a: {b: [x, {c: y}]}\n'd/e':\n  f: g\n")
    assert at("") == (1, 1)
    assert at("a") == (1, 4)
    assert at("a/b/1/c") == (1, 16)
    assert at("a/b/1/missing/deeper") == (1, 12)
    assert at("a/b/7") == (1, 8)
    assert at("a/b/x") == (1, 8)
    assert at("a/b/0/deeper") == (1, 9)
    assert at("d/e/f") == (3, 6)
    assert at("nowhere") == (1, 1)


def test_paths_may_speak_of_facts_or_of_another_file() -> None:
    other, _ = parse("locations:\n  x: {area: y}\n")
    at = locator("s: {Voc: 1}\n", shared={"locations": other}, spellings={"voltage": ("Uo", "Voc")})
    assert at("s/voltage") == (1, 10)
    assert at("s/current") == (1, 4)
    assert at("locations/x/area") == (2, 13)


def test_documents_ignore_steps_that_do_not_fit() -> None:
    document, _ = parse("a: [b]\n")
    assert document.at(("a", "b")) == document.at(("a", 5)) == document.at(("a",))
    assert isinstance(document.root, Map)
    assert isinstance(document.root["a"], Items)
