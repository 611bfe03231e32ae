"""The gate never opens because a place got worse, a marking weaker, or a fact was left out.

Source of the property: the project's own principles (fail closed, monotone); no standard states it.
"""

import copy
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from properties_world import Tree, at, leaves, opens, replaced, run, without
from properties_worlds import WORLDS

Change = Callable[[Tree], Tree]
_KEPT = {"areafit", "assembly", "number", "code", "locations", "parts", "item", "location", "kind"}
_PLACE = ("locations", "spot")
_PART = ("parts", 0)


def _set(path: tuple[Any, ...], value: Any) -> Change:
    return lambda tree: replaced(tree, path, value)


def _drop(path: tuple[Any, ...]) -> Change:
    return lambda tree: without(tree, path)


def _add(path: tuple[Any, ...], value: Any) -> Change:
    def change(tree: Tree) -> Tree:
        listed = at(tree, path)
        return replaced(tree, path, [*(listed if isinstance(listed, list) else []), value])

    return change


def _weaker(tree: Tree) -> Tree:
    """The marking one level down, in its own system."""
    marking = at(tree, (*_PART, "marking"))
    for better, worse in (
        ("Division 1", "Division 2"),
        ("II 2G Ex db IIB T4 Gb", "II 3G Ex ec IIB T4 Gc"),
        ("Zone 1, AEx db IIB T4 Gb", "Zone 2, AEx ec IIB T4 Gc"),
        ("Ex db IIB T4 Gb", "Ex ec IIB T4 Gc"),
        ("Ex tb IIIC T95 °C Db", "Ex tc IIIC T95 °C Dc"),
    ):
        if better in marking:
            return replaced(tree, (*_PART, "marking"), marking.replace(better, worse))
    raise AssertionError(marking)


def _severer(tree: Tree) -> Tree:
    """The area one step up, in its own system; Division 1 takes a worse group instead."""
    area = at(tree, (*_PLACE, "area"))
    for milder, worse in (
        ("Division 1, Group D", "Division 1, Group B"),
        ("Zone 1,", "Zone 0,"),
        ("Zone 21,", "Zone 20,"),
    ):
        if milder in area:
            return replaced(tree, (*_PLACE, "area"), area.replace(milder, worse))
    raise AssertionError(area)


def _hotter_class(tree: Tree) -> Tree:
    marking = at(tree, (*_PART, "marking"))
    hotter = marking.replace("T4", "T1").replace("T95 °C", "T300 °C")
    return replaced(tree, (*_PART, "marking"), hotter)


def _unassessed(tree: Tree) -> Tree:
    """Rubbing at 60 m/s, and neither marking nor assessment that covers it."""
    fast = replaced(tree, ("parts", 1, "rubbing_speed"), "60 m/s")
    for key in ("marking", "evidence"):
        if key in at(fast, ("parts", 1)):
            fast = without(fast, ("parts", 1, key))
    return fast


_EVIL = {
    "weaker marking": _weaker,
    "severer area": _severer,
    "hotter class": _hotter_class,
    "no marking": _drop((*_PART, "marking")),
    "unreadable marking": _set((*_PART, "marking"), "as on the plate"),
    "no evidence": _drop((*_PART, "evidence")),
    "empty evidence": _set((*_PART, "evidence"), "none"),
    "hot place": _set((*_PLACE, "ambient"), "0..75 °C"),
    "no ambient": _drop((*_PLACE, "ambient")),
    "no document": _drop((*_PLACE, "document")),
    "no substances": _drop((*_PLACE, "substances")),
    "no chemicals": _drop((*_PLACE, "chemicals")),
    "no area": _drop((*_PLACE, "area")),
    "unreadable area": _set((*_PLACE, "area"), "the usual"),
    "one unknown substance more": _add((*_PLACE, "substances"), "blend nobody lists"),
    "carbon disulfide too": _add((*_PLACE, "substances"), "carbon disulfide"),
    "a chemical": _set(
        (*_PLACE, "chemicals"),
        [{"name": "hydrochloric acid", "concentration": "20 %", "temperature": "25 °C"}],
    ),
    "an unknown chemical": _set(
        (*_PLACE, "chemicals"),
        [{"name": "cleaner nobody lists", "concentration": "2 %", "temperature": "25 °C"}],
    ),
    "a large plastic cover": _add(
        ("parts", 2, "materials"),
        {"component": "cover", "material": "PTFE", "exposure": "room", "surface_area": "9000 cm²"},
    ),
    "an unknown material": _add(
        ("parts", 2, "materials"),
        {"component": "cover", "material": "unobtainium", "exposure": "room"},
    ),
    "not bonded": _set(("parts", 2, "bonded"), value=False),
    "bonding not said": _drop(("parts", 2, "bonded")),
    "fast rubbing, unassessed": _unassessed,
    "electrical content not said": _drop(("parts", 1, "electrical_content")),
    "an unmarked coil inside": _set(("parts", 1, "electrical_content"), "coil"),
    "poor enclosure": _set((*_PART, "ingress"), "IP20"),
    "an open hole": _set((*_PART, "entries"), [{"type": "open hole", "thread": "M20"}]),
    "no assembly assessment": _drop(("assembly", "assessment")),
    "a component certificate": _set(
        (*_PART, "evidence"), [{"type": "certificate", "number": "QQQ 21 ATEX 0001 U"}]
    ),
}
_CASES = [(world, name) for world in WORLDS for name in _EVIL]


@pytest.mark.parametrize("world", WORLDS)
def test_a_world_with_every_fact_passes(world: str) -> None:
    report = run(WORLDS[world])
    held = [
        f"{subject.name} {found.rule.id}: {found.message}"
        for subject in report.subjects()
        for found in subject.open_findings()
    ]
    assert report.gate == "pass", "Answer in properties_worlds.py:\n" + "\n".join(held)


@pytest.mark.parametrize(("world", "evil"), _CASES)
def test_each_defect_closes_the_gate(world: str, evil: str) -> None:
    assert not opens(_EVIL[evil](WORLDS[world]))


@st.composite
def worse_trees(draw: st.DrawFn) -> Tree:
    """A world with one to three defects."""
    tree = WORLDS[draw(st.sampled_from(sorted(WORLDS)))]
    for name in draw(st.lists(st.sampled_from(sorted(_EVIL)), min_size=1, max_size=3)):
        try:
            tree = _EVIL[name](tree)
        except (KeyError, AssertionError, AttributeError):
            continue  # an earlier defect took away what this one changes
    return tree


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.data())
def test_leaving_out_a_key_never_opens_the_gate(data: st.DataObject) -> None:
    tree = data.draw(worse_trees())
    if opens(tree):
        return
    keys = [path for path in leaves(tree) if path[-1] not in _KEPT]
    path = data.draw(st.sampled_from(keys))
    assert not opens(without(tree, path)), path


@settings(max_examples=80, deadline=None, derandomize=True)
@given(worse_trees(), st.lists(st.sampled_from(sorted(_EVIL)), min_size=1, max_size=2))
def test_one_more_defect_never_opens_the_gate(tree: Tree, more: list[str]) -> None:
    if opens(tree):
        return
    for name in more:
        try:
            tree = _EVIL[name](tree)
        except (KeyError, AssertionError, AttributeError):
            continue
    assert not opens(tree)


@pytest.mark.parametrize("world", WORLDS)
def test_removing_any_one_key_of_the_area_facts_is_never_silent(world: str) -> None:
    """Facts that a requirement rests on: without them the gate closes."""
    place = {"area", "document", "ambient", "substances", "chemicals"}
    needed = {(*_PLACE, key) for key in place} | {(*_PART, key) for key in ("marking", "evidence")}
    for path in leaves(WORLDS[world]):
        if path in needed:
            assert not opens(without(WORLDS[world], path)), path


def test_a_changed_copy_leaves_the_world_alone() -> None:
    before = copy.deepcopy(WORLDS)
    for evil in _EVIL.values():
        for world in WORLDS.values():
            evil(world)
    assert before == WORLDS
