"""What an open question names as missing does close it: the keys, given some value, change it.

The project's own rule: a question whose answer changes nothing is not to be asked.
"""

import json
import random
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from properties_lists import Lines  # made importable by conftest
from ruamel.yaml import YAML

import areafit
from areafit.answers.asks import asks_of
from areafit.findings.report import Finding
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Reason, Verdict

TESTS = Path(__file__).parents[1]
LISTS = (
    *sorted((TESTS.parent / "sample_bom").glob("[!w]*.yaml")),
    TESTS / "render" / "lists" / "rich.yaml",
    *sorted((TESTS / "digests" / "lists").glob("*.yaml")),
)
_OPTIONS = Options(as_of=date(2026, 1, 1))
_TRIES = 80


def _trees() -> Iterator[tuple[str, dict[str, Any]]]:
    yaml = YAML(typ="safe", pure=True)
    yaml.version = (1, 2)
    for path in LISTS:
        tree = json.loads(json.dumps(yaml.load(path.read_text(encoding="utf-8")), default=str))
        if "areafit" in tree and "areas" not in tree and "library" not in tree:
            yield path.stem, tree
    for line in (TESTS / "cases" / "reviewed" / "lists.jsonl").read_text("utf-8").splitlines():
        tree = json.loads(line)
        yield tree["assembly"]["number"], tree


TREES = dict(_trees())


def _open(tree: dict[str, Any], item: str) -> list[Finding]:
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "l.yaml")
    report = areafit.judge(bom, Tables.shipped(), _OPTIONS)
    return [
        finding
        for part in report.parts
        if part.name == item
        for finding in part.open_findings()
        if finding.reason is Reason.FACT_MISSING and "alternates" not in finding.path
    ]


def _alone(tree: dict[str, Any], item: str) -> dict[str, Any]:
    """The list with one line of it, and those that it is mounted in or touches."""
    lines = {str(line["item"]): line for line in tree["parts"]}
    wanted, waiting = set[str](), [item]
    while waiting:
        name = waiting.pop()
        if name not in wanted and name in lines:
            wanted.add(name)
            line = lines[name]
            waiting += [str(line[key]) for key in ("parent", "inside") if key in line]
            contacts = line.get("contacts")
            waiting += [str(c["with"]) for c in contacts] if isinstance(contacts, list) else []
    parts = [line for name, line in lines.items() if name in wanted]
    loops = tree.get("loops")
    kept = {**tree, "parts": parts}
    if isinstance(loops, list):
        kept.pop("loops")
    return kept


def _with(
    tree: dict[str, Any], item: str, finding: Finding, lines: Lines, chance: random.Random
) -> dict[str, Any]:
    """The list with some value for each key that the finding asks for."""
    copy: dict[str, Any] = json.loads(json.dumps(tree))
    line = next(each for each in copy["parts"] if str(each["item"]) == item)
    for asked in asks_of(finding):
        key, *inner = asked.row.key.split(".")
        if key == "materials" and inner:
            use = {**lines.use(), **({"component": finding.component} if finding.component else {})}
            steps = finding.path.split("/")
            uses = line.get("materials")
            value = use.get(inner[0])
            if value is None:
                continue
            if isinstance(uses, list) and len(steps) > 3 and steps[3].isdecimal():
                number = int(steps[3])
                own = uses[number] if isinstance(uses[number], dict) else {"material": uses[number]}
                uses[number] = {**own, inner[0]: value}
        elif key == "kind":
            line[key] = chance.choice(("electrical", "structural", ["electrical", "mechanical"]))
        elif key in lines.line:
            line[key] = lines.line[key]()
    return copy


@pytest.mark.parametrize("name", TREES)
def test_what_is_asked_for_closes_the_question(name: str) -> None:
    chance = random.Random(name)  # noqa: S311 - repeatable, nothing secret
    lines = Lines(chance)
    stubborn = []
    for entry in TREES[name]["parts"]:
        item = str(entry["item"])
        tree = _alone(TREES[name], item)
        for finding in _open(tree, item):
            asked = asks_of(finding)
            if not asked or any(each.row.subject != "part" for each in asked):
                continue
            if finding.rule.id == "ex-component":  # what is missing stands on another line
                continue
            for _ in range(_TRIES):
                try:
                    found = _open(_with(tree, item, finding, lines, chance), item)
                except areafit.InputErrors:
                    continue
                if not any(
                    (each.rule.id, each.component, each.message)
                    == (finding.rule.id, finding.component, finding.message)
                    for each in found
                ):
                    break
            else:
                keys = [each.row.key for each in asked]
                stubborn.append((item, finding.rule.id, finding.message, keys))
    assert stubborn == []


_INSTEAD = re.compile(r"a material (?:of another sort )?that resists (all|this)[^:]*: ([^.]+)\.")


def _swapped(tree: dict[str, Any], path: str, material: str) -> dict[str, Any]:
    """The list with another material in the place of the one that a finding is about."""
    copy: dict[str, Any] = json.loads(json.dumps(tree))
    node: Any = copy
    steps = path.split("/")
    for step in steps[: steps.index("materials")]:
        node = node[int(step) if step.isdecimal() else step]
    uses, number = node["materials"], int(steps[steps.index("materials") + 1])
    uses[number] = {**uses[number], "material": material, "welded": False, "stressed": False}
    return copy


@pytest.mark.parametrize("name", TREES)
def test_each_material_that_is_named_instead_resists_there(name: str) -> None:
    """What is named for one chemical need not stand the others, which it says."""
    tree, untrue = TREES[name], []
    for item, place, path, remedy in _suffering(tree):
        for scope, names in _INSTEAD.findall(remedy):
            for word in names.split(";"):
                better = word.partition(" (")[0].strip()
                left = [
                    finding
                    for other, where, at, finding in _suffering(_swapped(tree, path, better))
                    if (other, where, at) == (item, place, path)
                ]
                if scope == "all" and left:
                    untrue.append((item, place, better, left[0]))
    assert untrue == []


def _suffering(tree: dict[str, Any]) -> list[tuple[str, str | None, str, str]]:
    """Of each material that does not resist: item, place, path and remedy."""
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "l.yaml")
    report = areafit.judge(bom, Tables.shipped(), replace_only("chemical-resistance"))
    return [
        (part.name, finding.location, finding.path, finding.remedy)
        for part in report.parts
        for finding in part.open_findings()
        if "/materials/" in finding.path and "alternates" not in finding.path
    ]


def replace_only(rule: str) -> Options:
    """The options of a run that judges one rule."""
    return Options(as_of=date(2026, 1, 1), only=frozenset({rule}))


_BEST = {
    "IEC": ["Ex ia IIC T6 Ga", "Ex ia IIIC T60°C Da"],
    "ATEX": ["II 1G Ex ia IIC T6 Ga", "II 1D Ex ia IIIC T60°C Da"],
    "NEC": [
        "Class I, Zone 0, AEx ia IIC T6 Ga",
        "Zone 20, AEx ia IIIC T60°C Da",
        "Ex ia Class I, II, III, Division 1, Groups A, B, C, D, E, F, G T6",
    ],
}
_OF_THE_PLATE = frozenset({"protection-level", "gas-group", "dust-group", "temperature-class"})


def _flags(tree: dict[str, Any]) -> list[tuple[str, str, str]]:
    """What of the nameplates of a list is to change: item, rule and message."""
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "l.yaml")
    options = Options(as_of=date(2026, 1, 1), only=_OF_THE_PLATE)
    return [
        (part.name, finding.rule.id, finding.message)
        for part in areafit.judge(bom, Tables.shipped(), options).parts
        for finding in part.open_findings()
        if finding.verdict is Verdict.FLAG and "alternates" not in finding.path
    ]


def test_a_flag_of_a_nameplate_closes_by_a_part_that_is_marked_for_the_place() -> None:
    """Each remedy says to choose one: a part of the highest level, group and class is one."""
    closed = 0
    for tree in TREES.values():
        flagged = {item for item, _, _ in _flags(tree)}
        copy: dict[str, Any] = json.loads(json.dumps(tree))
        for line in copy["parts"]:
            if str(line["item"]) in flagged:
                line |= {"marking": _BEST[tree["code"]], "kind": "electrical"}
                for key in ("alternates", "surface_temperature", "electrical_content"):
                    line.pop(key, None)
        if flagged:
            assert [found for found in _flags(copy) if found[0] in flagged] == []
            closed += len(flagged)
    assert closed > 40
