"""Lists that may state anything, with loops, notes and a library: what never moves a verdict does
not, and what makes a list worse or tells less of it never turns a flag into a pass.

Source of the properties: the project's own principles (monotone, order and names change nothing);
no standard states them.
"""

import json
import random
from collections import Counter
from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest
from properties_lists import lists, looped  # made importable by conftest
from properties_stated import Lifted
from properties_world import Tree

import areafit
from areafit.findings.report import BomReport, SubjectReport
from areafit.verdict import Verdict

_OPTIONS = areafit.Options(as_of=date(2026, 11, 30))
Files = Mapping[str, Any]


def a_list(seed: int) -> tuple[Tree, Files]:
    """A list of a few lines, and the same with facts in notes and a library."""
    chance = random.Random(seed)  # noqa: S311 - repeatable, nothing secret
    tree = lists(seed, chance.randint(2, 5))
    if chance.random() < 0.5:
        tree = looped(tree, chance)
    return tree, Lifted(tree, chance).files()


def report(files: Files) -> BomReport:
    def fetch(name: str) -> bytes:
        return json.dumps(files[name], ensure_ascii=False).encode()

    bom = areafit.read(fetch("list.yaml"), "list.yaml", fetch)
    return areafit.judge(bom, areafit.Tables.shipped(), _OPTIONS)


def answers(subject: SubjectReport) -> Counter[tuple[Any, ...]]:
    """What was answered about a subject, without the place of its line in the list."""
    return Counter(
        (
            judged.rule.id,
            judged.judgement.verdict,
            block.place,
            judged.ask.component,
            "".join(sorted(judged.judgement.message)),  # items stand in the order of the list
            judged.judgement.required,
            judged.judgement.found,
        )
        for block in subject.blocks
        for judged in block.judged
    )


def shuffled(tree: Tree, chance: random.Random) -> Tree:
    """The same list with lines, loops, places and keys in another order."""
    lists: Tree = {
        key: chance.sample(tree[key], len(tree[key])) for key in ("parts", "loops") if key in tree
    }
    places: Tree = dict(reversed(tree["locations"].items()))
    parts: list[Tree] = [dict(reversed(line.items())) for line in lists["parts"]]
    whole: Tree = {**tree, **lists, "parts": parts, "locations": places}
    return {"areafit": 1, **dict(reversed(whole.items()))}


def moved(before: BomReport, after: BomReport) -> dict[str, Any]:
    """The subjects of which something else is found now, and what was and is."""
    old = {subject.name: answers(subject) for subject in before.subjects()}
    new = {subject.name: answers(subject) for subject in after.subjects()}
    nothing: Counter[tuple[Any, ...]] = Counter()
    return {
        name: (old.get(name, nothing) - told, told - old.get(name, nothing))
        for name, told in {**dict.fromkeys(old, nothing), **new}.items()
        if old.get(name) != told
    }


def lifting_moves(before: BomReport, after: BomReport) -> dict[str, Any]:
    """The same, but for the two ways that the format allows (`test_stated_once`)."""
    return {
        name: pair
        for name, pair in moved(before, after).items()
        if {key[0] for each in pair for key in each} - {"noted-contacts", "materials-listed"}
        or any(key[0] == "materials-listed" and key[1] is not Verdict.PASS for key in pair[1])
    }


_AREAS = {
    "Zone 1, IIB, T4": ("Zone 0, IIB, T4", "Zone 1, IIC, T4", "Zone 1, IIB, T6"),
    "Zone 0, IIA, T3": ("Zone 0, IIC, T3", "Zone 0, IIA, T6"),
    "Zone 21, IIIB": ("Zone 20, IIIB", "Zone 21, IIIC"),
    "Class I, Division 1, Group D": ("Class I, Division 1, Group A",),
    "Class I, Division 2, Group D": (
        "Class I, Division 1, Group D",
        "Class I, Division 2, Group B",
    ),
    "Class II, Division 2, Group G": ("Class II, Division 1, Group G",),
}


def worse_place(tree: Tree, chance: random.Random) -> Tree | None:
    """The list with one place worse than it was, or nothing where the place says too little."""
    name = chance.choice(sorted(tree["locations"]))
    place = tree["locations"][name]
    worse: list[Tree] = [{**place, "area": area} for area in _AREAS.get(place.get("area", ""), ())]
    if "ambient" in place:
        worse.append({**place, "ambient": "-40..90 °C"})
    if "substances" in place:
        more = [] if place["substances"] == "none" else place["substances"]
        worse.append({**place, "substances": [*more, "carbon disulfide"]})
    if "chemicals" in place:
        more = [] if place["chemicals"] == "none" else place["chemicals"]
        bath = {"name": "hydrofluoric acid", "concentration": "20 %", "temperature": "40 °C"}
        worse.append({**place, "chemicals": [*more, bath]})
    if not worse:
        return None
    return {**tree, "locations": {**tree["locations"], name: chance.choice(worse)}}


# A place that is declared anew takes back what was wrong with its declaration; the code of a plate
# is chosen anew for another area, and then another rule of the family flags it.
_DECLARED = {"declared-area", "hydrogen-evolution"}
_BY_AREA = {rule.id for rule in areafit.RULES if rule.family.value == "area"} - _DECLARED


def cleared(before: BomReport, after: BomReport) -> list[tuple[Any, ...]]:
    """What was flagged and passes in a worse place: by rule, of the area by part and place."""
    new = {subject.name: answers(subject) for subject in after.subjects()}
    found = []
    for subject in before.subjects():
        for rule, verdict, place, component, *_ in answers(subject):
            if verdict is not Verdict.FLAG or rule in _DECLARED:
                continue
            alike = [
                key[1]
                for key in new[subject.name]
                if key[2] == place
                and (
                    (rule == key[0] and component == key[3])
                    or (rule in _BY_AREA and key[0] in _BY_AREA)
                )
            ]
            refused = any(
                key[1] is Verdict.FLAG and key[2] == place and key[0] in _BY_AREA
                for key in new[subject.name]
            )
            if not alike and refused:  # what the plate that takes its place will answer is not told
                continue
            if all(each.passes for each in alike):
                found.append((subject.name, rule, place, component))
    return found


def wrong(seed: int) -> list[Any]:
    """What does not hold of one list."""
    chance = random.Random(~seed)  # noqa: S311 - repeatable, nothing secret
    tree, files = a_list(seed)
    before = report({"list.yaml": tree})
    found: list[Any] = []
    if change := moved(before, report({"list.yaml": shuffled(tree, chance)})):
        found.append(("order", change))
    if change := lifting_moves(before, report(files)):
        found.append(("lifted", change))
    worse = worse_place(tree, chance)
    if worse is not None and (passing := cleared(before, report({"list.yaml": worse}))):
        found.append(("worse", worse["locations"], passing))
    return found


@pytest.mark.parametrize("ten", range(6))
def test_it_holds_of_lists(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        assert wrong(seed) == [], seed


@pytest.mark.long
@pytest.mark.parametrize("thousand", range(100))
def test_it_holds_of_a_hundred_thousand_lists(thousand: int) -> None:
    for seed in range(thousand * 1000 + 1000, thousand * 1000 + 2000):
        assert wrong(seed) == [], seed


def test_what_a_long_search_found_is_no_flag_that_is_lost() -> None:
    """A plate that is flagged in the worse place is replaced; its part waits, and does not pass."""
    assert wrong(10920) == []


def test_the_lists_say_enough() -> None:
    """Else nothing is tried above."""
    trees = [a_list(seed) for seed in range(50)]
    assert sum("loops" in tree for tree, _ in trees) > 10
    assert sum("parts.yaml" in files for _, files in trees) > 10
    assert sum("unless_stated" in json.dumps(files) for _, files in trees) > 10
