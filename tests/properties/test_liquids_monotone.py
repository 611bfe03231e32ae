"""What a liquid gives off: hotter, more of what burns, less air, one fact less opens nothing.

Source of the property: the project's own principles (fail closed, monotone); no standard states it.
"""

import contextlib
import random
from collections.abc import Callable
from typing import Any

import pytest
from properties_world import Tree, at, leaves, opens, replaced, run, without  # by conftest
from properties_worlds import RINSE, VENTED

from areafit.demands.mixtures import Computed, flash_point
from areafit.facts.place import Mixture
from areafit.facts.quantity import Dimension, Range, parse
from areafit.notation import mixture
from areafit.tables import Tables
from areafit.verdict import Verdict

T = Tables.shipped()
_SPOT = ("locations", "spot")
_LIQUID = (*_SPOT, "substances", 0)
_SHARES = (*_LIQUID, "mixture")
_MISCIBLE = ("ethanol", "methanol", "isopropanol", "n-propanol", "acetone", "tetrahydrofuran")
_BESIDE = ("ethanol", "acetone", "toluene", "n-butanol", "ethyl acetate", "2-butanone", "glycol")
_FINE = (Verdict.PASS, Verdict.NOT_APPLICABLE)


def _verdicts(tree: Tree, *rules: str) -> list[Verdict]:
    return [
        finding.verdict
        for subject in run(tree).subjects()
        for finding in subject.findings()
        if finding.rule.id in rules
    ]


def _fine(tree: Tree, *rules: str) -> bool:
    found = _verdicts(tree, *rules)
    assert found, rules
    return all(verdict in _FINE for verdict in found)


# Mixtures


def _mixed(chance: random.Random) -> Tree:
    """An unclassified place with a mixture of some liquids at some temperature."""
    names = [chance.choice(_MISCIBLE), *chance.sample(_BESIDE, chance.choice((0, 0, 1, 2)))]
    shares = {name: f"{chance.choice((0.5, 1, 2, 5, 10, 20))} %" for name in names}
    tree = replaced(RINSE, _SHARES, {**shares, "water": "rest"})
    tree = replaced(tree, (*_LIQUID, "temperature"), f"{chance.choice((5, 20, 35, 60))} °C")
    return replaced(tree, (*_SPOT, "ambient"), f"0..{chance.choice((20, 35))} °C")


def _warmer(tree: Tree, chance: random.Random) -> Tree:
    path = chance.choice([(*_LIQUID, "temperature"), (*_SPOT, "ambient")])
    top = parse(at(tree, path).split("..")[-1], Dimension.TEMPERATURE)
    return replaced(tree, path, f"0..{top + chance.choice((1, 10, 40, 90))} °C")


def _more(tree: Tree, chance: random.Random) -> Tree:
    """More of what burns in place of the water; as a range whose lower end is what it was."""
    shares = dict(at(tree, _SHARES))
    name = chance.choice([name for name in shares if name != "water"])
    low = shares[name].removesuffix(" %").split("..")[0]
    shares[name] = f"{low}..{float(low) + chance.choice((1, 5, 20))} %"
    return replaced(tree, _SHARES, shares)


def _less_said(tree: Tree, chance: random.Random) -> Tree:
    return without(tree, chance.choice([(*_LIQUID, "temperature"), (*_SPOT, "ambient")]))


def _another_too(tree: Tree, chance: random.Random) -> Tree:
    listed = [*at(tree, (*_SPOT, "substances")), chance.choice(("ethanol", "unobtainium"))]
    return replaced(tree, (*_SPOT, "substances"), listed)


_WORSE = (_warmer, _more, _less_said, _another_too)


def test_the_liquid_that_is_made_worse_is_no_objection_and_no_proof() -> None:
    """A computed flash point never opens an unclassified place."""
    assert _fine(RINSE, "flash-point")
    assert not opens(RINSE)


@pytest.mark.parametrize("seed", range(60))
def test_a_worse_liquid_never_opens_what_was_closed(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    tree = _mixed(chance)
    was_fine = _fine(tree, "flash-point")
    for change in chance.sample(_WORSE, 2):
        try:
            tree = change(tree, chance)
        except KeyError:  # the key was taken away before
            continue
        fine = _fine(tree, "flash-point")
        assert was_fine or not fine, (change.__name__, tree)
        assert not opens(tree), (change.__name__, tree)
        was_fine = fine


def test_liquids_are_made_worse() -> None:
    """Else nothing is tried above."""
    trees = [_mixed(random.Random(seed)) for seed in range(60)]  # noqa: S311 - repeatable
    assert 5 < sum(_fine(tree, "flash-point") for tree in trees) < 55


@pytest.mark.parametrize("heat", [5, 20, 40, 60, 80, 120])
def test_a_hotter_bath_stays_flagged(heat: int) -> None:
    """Flagged is never milder again, above the boiling point either."""
    tree = replaced(RINSE, _SHARES, {"isopropanol": "15 %", "water": "rest"})
    tree = replaced(tree, (*_LIQUID, "temperature"), f"{heat} °C")
    assert _verdicts(tree, "flash-point") == [Verdict.FLAG]


def _mixture(name: str, share: float) -> Mixture:
    return mixture({name: f"{share} %", "water": "rest"})


@pytest.mark.parametrize("name", _MISCIBLE)
def test_the_flash_point_falls_as_there_is_more_of_what_burns(name: str) -> None:
    """One liquid in water: its activity rises with its share wherever it stays one liquid."""
    last = None
    for share in (0.5, 1, 2, 3, 5, 8, 12, 20, 30, 45, 60, 75, 90, 99):
        found = flash_point(
            _mixture(name, share), Range.of(parse("20 °C", Dimension.TEMPERATURE)), T
        )
        assert isinstance(found, Computed)
        assert last is None or found.celsius <= last
        last = found.celsius


# Hydrogen

_HYDROGEN = ("hydrogen-evolution", "gas-group", "static-surface")
_ACID = (*_SPOT, "chemicals", 0)
_AIR = (*_SPOT, "ventilation")
_STEEL = ("parts", 0, "materials", 0)


def _hotter(tree: Tree) -> Tree:
    return replaced(tree, (*_ACID, "temperature"), "60 °C")


def _stronger(tree: Tree) -> Tree:
    return replaced(tree, (*_ACID, "concentration"), "9 %")


def _larger(tree: Tree) -> Tree:
    return replaced(tree, (*_STEEL, "surface_area"), "900 m²")


def _more_lines(tree: Tree) -> Tree:
    return replaced(tree, ("parts", 0, "quantity"), 40_000)


def _less_air(tree: Tree) -> Tree:
    return replaced(tree, (*_AIR, "rate"), "0.2 m³/h")


def _poorer(key: str, value: str) -> Callable[[Tree], Tree]:
    return lambda tree: replaced(tree, (*_AIR, key), value)


_GASSING: dict[str, Callable[[Tree], Tree]] = {
    "hotter": _hotter,
    "stronger": _stronger,
    "larger": _larger,
    "more lines": _more_lines,
    "less air": _less_air,
    "air fairly reliable": _poorer("availability", "fair"),
    "dead spaces": _poorer("dead_spaces", "some"),
    "chargers too": _poorer("other_hydrogen", "some"),
    "no document of the air": _poorer("document", "tbd"),
}


def test_the_air_that_suffices_is_no_objection() -> None:
    assert _fine(VENTED, *_HYDROGEN)


@pytest.mark.parametrize("name", _GASSING)
def test_more_hydrogen_or_poorer_air_objects(name: str) -> None:
    assert not _fine(_GASSING[name](VENTED), *_HYDROGEN)


_OF_HYDROGEN = [
    path
    for path in leaves(VENTED)
    if path[:3] in {_AIR, _ACID[:3]}
    or path in {("parts", 0, "quantity"), (*_STEEL, "surface_area")}
]
# Without them there is no chemical, or no list.
_NO_FACT = {(*_SPOT, "chemicals"), (*_ACID, "name")}


@pytest.mark.parametrize("path", [path for path in _OF_HYDROGEN if path not in _NO_FACT], ids=str)
def test_each_fact_of_it_left_out_objects(path: tuple[Any, ...]) -> None:
    assert not _fine(without(VENTED, path), *_HYDROGEN)


@pytest.mark.parametrize("seed", range(40))
def test_worse_or_less_said_never_opens_again(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    tree, closed = VENTED, False
    for _ in range(4):
        if chance.random() < 0.5:
            name = chance.choice(sorted(_GASSING))
            with contextlib.suppress(KeyError):  # what it changes was taken away before
                tree = _GASSING[name](tree)
        else:
            there = [path for path in leaves(tree) if path in _OF_HYDROGEN and path not in _NO_FACT]
            tree = without(tree, chance.choice(there)) if there else tree
        fine = _fine(tree, *_HYDROGEN)
        assert not (closed and fine), tree
        closed = closed or not fine
