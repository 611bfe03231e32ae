"""What a finding says closes it does: carried out in the list, the finding is gone.

Every open finding of the samples, of the lists that golden reports are made of and of the reviewed
lists is tried, of half of these and of the longest lists in the long run. The project's own rule,
no source: a remedy that does not close is worse than none, and a question whose answer changes
nothing is not to be asked. Where nothing that a list can state closes a finding, its reason says
so, its remedy speaks of acceptance, and a waiver closes it.
"""

import json
import random
import re
from collections import Counter
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from properties_closing import (  # made importable by conftest
    carried_out,
    flat,
    narrowed,
    read_tree,
    rules_before,
    steps_of,
)
from properties_world import Tree

import areafit
from areafit.facts.bom import Position
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.findings.report import BomReport, Finding, SubjectReport
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Reason, Verdict

TESTS = Path(__file__).parents[1]
SAMPLES = (
    *sorted((TESTS.parent / "sample_bom").glob("*.yaml")),
    *sorted((TESTS / "render" / "lists").glob("*.yaml")),
    TESTS / "small_list.yaml",
    *sorted((TESTS / "digests" / "lists").glob("*.yaml")),
)
_DAY = date(2026, 1, 1)
_TRIES = 60
_NEXT_TRIES = 8  # of a question that only the answer to another brings up
_DEPTH = 3
_TO_ACCEPT = frozenset(
    {Reason.CONDITION_TO_ACCEPT, Reason.NOT_JUDGED, Reason.NO_DATA, Reason.NO_MARGIN}
)


def _own() -> Iterator[tuple[str, Tree]]:
    for path in SAMPLES:
        tree = read_tree(path)
        if "areafit" in tree and "parts" in tree:
            yield path.stem, flat(path)


def _reviewed() -> Iterator[tuple[str, Tree]]:
    for line in (TESTS / "cases" / "reviewed" / "lists.jsonl").read_text("utf-8").splitlines():
        tree = json.loads(line)
        yield tree["assembly"]["number"], tree


REVIEWED = dict(_reviewed())
FIRST = {name: tree for name, tree in REVIEWED.items() if name.startswith("R")}  # of one reviewer
TREES = {**dict(_own()), **FIRST}
LONG = {
    **{path.stem: read_tree(path) for path in sorted((TESTS / "lists43").glob("*.yaml"))},
    # Lists of many lines of one sort ask alike, and each remedy judges the whole list anew.
    **{n: tree for n, tree in REVIEWED.items() if n not in FIRST and len(tree["parts"]) <= 60},
}


def _report(tree: Tree, *rules: str) -> BomReport:
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "l.yaml")
    return areafit.judge(bom, Tables.shipped(), Options(as_of=_DAY, only=frozenset(rules)))


def _open(report: BomReport) -> Iterator[tuple[SubjectReport, Finding]]:
    for subject in report.subjects():
        for finding in subject.open_findings():
            yield subject, finding


def _where(finding: Finding) -> tuple[object, ...]:
    """The subject of a finding: what it is about, at which place, by which rule."""
    own = (finding.subject, finding.rule.id, finding.path)
    return (*own, finding.component, finding.location)


def _what(finding: Finding) -> tuple[object, ...]:
    return (finding.subject, finding.rule.id, finding.component, finding.location, finding.message)


def _flags(report: BomReport) -> set[tuple[str, str, str | None]]:
    return {
        (finding.subject, finding.rule.id, finding.component)
        for _, finding in _open(report)
        if finding.verdict is Verdict.FLAG
    }


def beyond_the_list(finding: Finding) -> bool:
    """Whether a finding is for somebody to test, judge or accept, and no waiver is barred."""
    return finding.reason in _TO_ACCEPT and not finding.rule.always


class Carried:
    """A list with one of its findings, and what came of its remedy."""

    def __init__(self, tree: Tree, report: BomReport, finding: Finding, depth: int = 0) -> None:
        self._tree, self._report, self._finding, self._depth = tree, report, finding, depth
        self._steps = steps_of(finding, report)

    def fault(self) -> str:
        """Why the remedy is no good; empty where it closes the finding."""
        finding = self._finding
        if not self._steps:
            return self._waived() if beyond_the_list(finding) else "it names nothing to state"
        fault = "it does not close"
        for number in range(_NEXT_TRIES if self._depth else _TRIES):
            chance = random.Random(f"{_where(finding)}{number}")  # noqa: S311 - repeatable
            done = self._done(number, chance)
            try:
                after = [f for _, f in _open(_report(done, finding.rule.id))]
            except areafit.InputErrors:
                continue
            if not self._gone(done, after):
                continue
            fault = self._brought(done)
            if not fault:
                break
        return fault

    def _done(self, number: int, chance: random.Random) -> Tree:
        some = number % 2 == 1
        done = carried_out(self._tree, self._steps, self._finding, chance, some=some)
        for rule in rules_before(self._finding):
            for _, other in _open(self._report):
                if other.rule.id == rule and other.subject == self._finding.location:
                    steps = [s for s in steps_of(other, self._report) if s.key != "place.area"]
                    done = carried_out(done, steps, other, chance, some=some)
        return done

    def _gone(self, done: Tree, after: list[Finding]) -> bool:
        """Whether it is; what its answer brings up at the same spot is gone in its turn.

        A flag never follows; what somebody has to accept may.
        """
        own = self._finding
        if any(_what(finding) == _what(own) for finding in after):
            return False
        following = [finding for finding in after if _where(finding) == _where(own)]
        before = [finding for _, finding in _open(self._report) if _where(finding) == _where(own)]
        if len(following) < len(before):
            return True
        if self._depth == _DEPTH or any(f.verdict is Verdict.FLAG for f in following):
            return False
        whole = _report(done)
        return all(
            beyond_the_list(finding) or not Carried(done, whole, finding, self._depth + 1).fault()
            for finding in following
        )

    def _brought(self, done: Tree) -> str:
        """The flags that the remedy brings, but for those that it cannot be held to.

        A place that is classified otherwise, or a part that stands elsewhere, meets other demands.
        An answer may show what was wrong all along, by the very rule that asked.
        """
        finding, keys = self._finding, {step.key for step in self._steps}
        if keys & {"place.area", "place.substances", "part.location"}:
            return ""
        new = _flags(_report(done)) - _flags(self._report)
        if finding.reason is Reason.FACT_MISSING:
            new -= {(finding.subject, finding.rule.id, finding.component)}
        return f"it brings {sorted(map(str, new))}" if new else ""

    def _waived(self) -> str:
        """Whether the remedy speaks of acceptance, and a waiver with a document closes it."""
        finding, report = self._finding, self._report
        if not _SPEAKS.search(finding.remedy):
            return "nothing in the list closes it, which it does not say"
        kind = {"parts": WaivedSubject.ITEM, "locations": WaivedSubject.PLACE}
        subject = kind.get(finding.path.split("/")[0], WaivedSubject.LOOP)
        waiver = Waiver(
            subject,
            finding.subject,
            finding.rule.id,
            finding.fingerprint,
            "assessed",
            "designer",
            date(2027, 1, 1),
            Position("w.yaml", 1, 1),
            document="TR-1",
        )
        laid = areafit.apply_waivers(report, (waiver,), _DAY)
        left = any(_what(f) == _what(finding) for _, f in _open(laid))
        return "a waiver does not close it" if left else ""


_SPEAKS = re.compile(r"\b(accept(ed)?|waiver|test|confirmed)\b")


def _faults(tree: Tree) -> list[tuple[str, ...]]:
    """Every finding whose remedy is no good, with why."""
    whole = _report(tree)
    lines: dict[tuple[str, str], list[Finding]] = {}
    for _, finding in _open(whole):
        lines.setdefault((finding.path.split("/")[0], finding.subject), []).append(finding)
    faults: list[tuple[str, ...]] = []
    for (kind, name), findings in lines.items():
        small, report = tree, whole
        if kind == "parts":
            alone = narrowed(tree, name)
            judged = _report(alone)
            same = [f for _, f in _open(judged) if f.subject == name and f.path.startswith(kind)]
            if Counter(map(_what, same)) == Counter(map(_what, findings)):
                small, report, findings = alone, judged, same  # noqa: PLW2901 - the same findings
        for finding in findings:
            fault = Carried(small, report, finding).fault()
            if fault:
                faults.append((name, finding.rule.id, finding.message, finding.remedy, fault))
    return faults


@pytest.mark.parametrize("name", TREES)
def test_each_remedy_closes_its_finding(name: str) -> None:
    assert _faults(TREES[name]) == []


@pytest.mark.long
@pytest.mark.parametrize("name", LONG)
def test_each_remedy_of_a_long_list_closes_its_finding(name: str) -> None:
    assert _faults(LONG[name]) == []


@pytest.mark.parametrize("path", sorted((TESTS.parent / "sample_bom").glob("*.yaml")))
def test_a_list_with_its_library_written_into_its_lines_has_the_same_findings(path: Path) -> None:
    """So that each remedy of a sample is carried out in what is judged of it."""
    if path.stem not in TREES:
        pytest.skip("no list by itself")
    read = areafit.read(
        path.read_bytes(), path.name, lambda name: (path.parent / name).read_bytes(), _no_folder
    )
    report = areafit.judge(read, Tables.shipped(), Options(as_of=_DAY))
    own = Counter(_what(finding) for _, finding in _open(report))
    assert own == Counter(_what(finding) for _, finding in _open(_report(TREES[path.stem])))


def _no_folder(_: str) -> None:
    return None


_INSTEAD = re.compile(
    r"a `?material`? (?:of another sort )?that resists (all|this)[^:]*: ([^.]+)\."
)


def _swapped(tree: Tree, path: str, material: str) -> Tree:
    """The list with another material in the place of the one that a finding is about."""
    copy: Tree = json.loads(json.dumps(tree))
    steps = path.split("/")
    node: Any = copy
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


def _suffering(tree: Tree) -> list[tuple[str, str | None, str, str]]:
    """Of each material that does not resist: item, place, path and remedy."""
    return [
        (finding.subject, finding.location, finding.path, finding.remedy)
        for _, finding in _open(_report(tree, "chemical-resistance"))
        if "/materials/" in finding.path and "alternates" not in finding.path
    ]
