"""Lists made worse at random: no fact left out opens the gate, but for those in one list.

Source of the property: the project's own principles (a word discharges nothing, saying less passes
no more); no standard states it.
"""

import json
import random
import re
from pathlib import Path
from typing import Any

import pytest
from properties_admitted import KEYS, LIST, admitted, fact  # made importable by conftest
from properties_called import CALLED
from properties_filled import FILLED
from properties_lifted import ASKED, WITNESSES, Asked, Witness
from properties_lists import Lines
from properties_whole import (
    WHOLE,
    Files,
    closed_whole,
    facts_of,
    opens_whole,
    without_fact,
    worsened_whole,
)
from properties_world import Tree, at, leaves, opens, replaced, without
from properties_worlds import WORLDS

import areafit

_KEPT = {"areafit", "assembly", "number", "code", "locations", "parts", "item", "location", "kind"}
_DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def worsened(seed: int, worlds: dict[str, Tree] = WORLDS) -> tuple[Tree, list[str]]:
    """A world that passed, with one to three facts of any kind stated anew or otherwise.

    One in six is unclassified; it passes too.
    """
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    tree: Tree = json.loads(json.dumps(worlds[chance.choice(sorted(worlds))]))
    if chance.random() < 1 / 6:
        tree["locations"]["spot"] |= {"area": "unclassified", "substances": "none"}
    changed = []
    for _ in range(chance.choice((1, 1, 2, 3))):
        path, value = _change(tree, Lines(chance), chance)
        tree = replaced(tree, path, value)
        changed.append(f"{path}: {value}")
    return tree, changed


def _change(tree: Tree, lines: Lines, chance: random.Random) -> tuple[tuple[Any, ...], Any]:
    """One fact that a list may state, and where."""
    part = ("parts", chance.randrange(len(tree["parts"])))
    nested = {
        (*part, "materials", 0): lines.use,
        (*part, "evidence", 0): lines.document,
        ("locations", "spot"): lines.place,
    }
    where = chance.choice([part, part, *nested])
    if where == part or not _is_there(tree, where):
        key = chance.choice(sorted(lines.line))
        return (*part, key), lines.line[key]()
    stated = nested[where]()
    key = chance.choice(sorted(stated))
    return (*where, key), stated[key]


def _is_there(tree: Tree, path: tuple[Any, ...]) -> bool:
    try:
        return isinstance(at(tree, path), dict)
    except (KeyError, IndexError, TypeError):
        return False


def _closed(tree: Tree) -> bool:
    """Whether it is a list, and does not pass."""
    try:
        areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "world.yaml")
    except areafit.InputErrors:
        return False
    return not opens(tree)


def _told_by_less(seed: int, worlds: dict[str, Tree] = WORLDS) -> list[str]:
    """The facts of a worsened list without which it passes, but for those named."""
    tree, changed = worsened(seed, worlds)
    if not _closed(tree):
        return []
    facts = [path for path in leaves(tree) if path[-1] not in _KEPT and not admitted(tree, path)]
    return [f"{path} of {changed}" for path in facts if opens(without(tree, path))]


@pytest.mark.parametrize("ten", range(12))
def test_no_fact_left_out_opens_the_gate(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        assert _told_by_less(seed) == []


@pytest.mark.parametrize("world", [*FILLED.values(), *CALLED.values()], ids=[*FILLED, *CALLED])
def test_each_small_list_passes(world: Tree) -> None:
    """Else nothing could be told by leaving a fact of it out."""
    assert opens(world)


@pytest.mark.parametrize("ten", range(8))
def test_no_fact_left_out_of_what_is_bought_opens_the_gate(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        assert _told_by_less(seed, FILLED) == []


@pytest.mark.parametrize("ten", range(8))
def test_no_fact_left_out_of_what_is_called_something_opens_the_gate(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        assert _told_by_less(seed, CALLED) == []


def _told_by_less_of_whole(seed: int) -> list[str]:
    """The same of a whole list: of what was changed, and of a few other facts."""
    files, changed = worsened_whole(seed)
    if not closed_whole(files):
        return []
    opening = (
        path for path in facts_of(files, changed, 5) if opens_whole(without_fact(files, path))
    )
    return [f"{path} of {changed}" for path in opening]


@pytest.mark.parametrize("files", WHOLE.values(), ids=WHOLE)
def test_each_whole_list_passes(files: Files) -> None:
    assert opens_whole(files)


@pytest.mark.parametrize("ten", range(3))
def test_no_fact_left_out_of_a_whole_list_opens_the_gate(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        assert _told_by_less_of_whole(seed) == []


@pytest.mark.long
@pytest.mark.parametrize("hundred", range(20))
def test_no_fact_left_out_of_many_whole_lists_opens_the_gate(hundred: int) -> None:
    for seed in range(1000 + hundred * 100, 1100 + hundred * 100):
        assert _told_by_less_of_whole(seed) == []


@pytest.mark.long
@pytest.mark.parametrize("hundred", range(30))
def test_no_fact_left_out_of_thousands_of_lists_opens_the_gate(hundred: int) -> None:
    for seed in range(1000 + hundred * 100, 1100 + hundred * 100):
        assert _told_by_less(seed) == []
        assert _told_by_less(seed, FILLED) == []
        assert _told_by_less(seed, CALLED) == []


@pytest.mark.parametrize("seed", [1391, 3120, 3758])
def test_what_a_long_search_found_stays_mended(seed: int) -> None:
    """Wrenches said to be immersed were asked what they touch, and not so without that word."""
    assert _told_by_less(seed) == []
    assert _told_by_less(seed, FILLED) == []


def test_lists_are_made_worse() -> None:
    """Else nothing is tried above."""
    assert sum(_closed(worsened(seed)[0]) for seed in range(60)) > 15


@pytest.mark.parametrize("witness", WITNESSES, ids=lambda witness: witness.key)
def test_each_named_fact_takes_its_own_objection_away(witness: Witness) -> None:
    """One that no longer does is struck from the list."""
    assert fact(witness.path) == witness.key
    assert opens(witness.passing)
    worse = replaced(witness.passing, witness.path, witness.value)
    assert _closed(worse)
    assert admitted(worse, witness.path)
    assert opens(without(worse, witness.path))


def test_each_key_has_a_witness() -> None:
    assert {witness.key for witness in WITNESSES} == KEYS


@pytest.mark.parametrize("asked", ASKED, ids=lambda asked: f"{fact(asked.path)} of {asked.world}")
def test_a_named_fact_is_asked_for_where_it_can_decide(asked: Asked) -> None:
    """Nobody can be asked for it elsewhere only; here the gate stays shut without it."""
    tree = asked.passing
    assert at(tree, asked.path) is not None
    assert opens(tree)
    assert not admitted(tree, asked.path)
    assert not opens(without(tree, asked.path))


def test_the_developers_guide_names_the_same_facts() -> None:
    """Reason by reason; those that are asked for nowhere stand apart."""
    text = _DEVELOPERS.read_text(encoding="utf-8")
    asked = {fact(each.path) for each in ASKED}
    for reason in LIST:
        row = next(line for line in text.splitlines() if line.startswith(f"| {reason.why} |"))
        elsewhere, nowhere = (set(re.findall(r"`([^`]+)`", cell)) for cell in row.split("|")[2:4])
        assert elsewhere == set(reason.where) & asked
        assert nowhere == set(reason.where) - asked
