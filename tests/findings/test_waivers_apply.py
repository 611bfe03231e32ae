"""A waiver holds for the facts it was granted for, until its date, and never silently."""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.facts.bom import Position
from areafit.facts.waiver import WaivedSubject, Waiver
from areafit.findings.report import BomReport, Finding
from areafit.findings.waivers import WaiverState, apply
from areafit.values import replace
from areafit.verdict import Verdict
from areafit_cli.lists import judged

Judged = Callable[..., BomReport]
DAY = date(2026, 1, 1)


def finding(report: BomReport, name: str, rule: str, component: str | None = None) -> Finding:
    subjects = (*report.parts, *report.places, *report.loops)
    (subject,) = (each for each in subjects if each.name == name)
    return next(
        each
        for each in subject.findings()
        if each.rule.id == rule and not each.verdict.passes and component in (None, each.component)
    )


def waiver_for(found: Finding, name: str, kind: WaivedSubject, **more: Any) -> Waiver:
    given = {
        "subject": kind,
        "name": name,
        "rule": found.rule.id,
        "fingerprint": found.fingerprint,
        "reason": "held off by a cover",
        "approved_by": "area owner",
        "until": date(2026, 6, 30),
        "position": Position("w.yaml", 3, 5),
        "document": "D-1",
    }
    return Waiver(**{**given, **more})


@pytest.fixture
def group(judged: Judged) -> tuple[BomReport, Waiver]:
    report = judged()
    return report, waiver_for(finding(report, "10", "gas-group"), "10", WaivedSubject.ITEM)


def verdict_of(report: BomReport, rule: str) -> set[Verdict]:
    return {each.verdict for each in report.parts[0].findings() if each.rule.id == rule}


def state(report: BomReport, waiver: Waiver, day: date = DAY) -> WaiverState:
    (outcome,) = apply(report, [waiver], day).waiver_outcomes
    return outcome.state


def test_a_waived_finding_shows_as_such_and_is_counted(group: tuple[BomReport, Waiver]) -> None:
    report, waiver = group
    laid = apply(report, [waiver], DAY)
    assert verdict_of(report, "gas-group") == {Verdict.FLAG}
    assert verdict_of(laid, "gas-group") == {Verdict.WAIVED}
    assert laid.waivers.used == 1
    assert laid.decided_by_date
    (shown,) = (each for each in laid.parts[0].findings() if each.waiver is not None)
    assert shown.waiver == waiver
    assert shown.fingerprint == waiver.fingerprint
    assert [each.verdict for each in laid.parts[1:]] == [each.verdict for each in report.parts[1:]]


@pytest.mark.parametrize(
    ("changes", "day", "expected"),
    [
        ({}, date(2026, 6, 30), WaiverState.USED),
        ({}, date(2026, 7, 1), WaiverState.EXPIRED),
        ({"fingerprint": "0" * 24}, DAY, WaiverState.STALE),
        ({"document": None}, DAY, WaiverState.INCOMPLETE),
        ({"rule": "kind"}, DAY, WaiverState.UNMATCHED),
        ({"name": "99"}, DAY, WaiverState.USED),  # the line was renumbered since
        ({"name": "99", "fingerprint": "2:" + "0" * 24}, DAY, WaiverState.UNMATCHED),
        ({"component": "housing"}, DAY, WaiverState.UNMATCHED),
        ({"subject": WaivedSubject.LOOP}, DAY, WaiverState.UNMATCHED),
    ],
)
def test_what_becomes_of_a_waiver(
    group: tuple[BomReport, Waiver], changes: dict[str, Any], day: date, expected: WaiverState
) -> None:
    report, waiver = group
    changed = replace(waiver, **changes)
    laid = apply(report, [changed], day)
    (outcome,) = laid.waiver_outcomes
    assert outcome.state is expected
    holds = expected is WaiverState.USED
    assert verdict_of(laid, "gas-group") == {Verdict.WAIVED if holds else Verdict.FLAG}
    assert bool(outcome.message) is not holds
    counted = laid.waivers
    assert counted.used + counted.expired + counted.stale + counted.unmatched == 1


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("Zone 1, IIB, T3", "Zone 1, IIC, T3"),
        ("substances: ethanol", "substances: [ethanol, diethyl ether]"),
    ],
)
def test_a_changed_fact_voids_it(
    judged: Judged, group: tuple[BomReport, Waiver], small: str, old: str, new: str
) -> None:
    _, waiver = group
    changed = judged(small.replace(old, new))
    assert state(changed, waiver) is WaiverState.STALE


def test_wording_and_lines_do_not(
    judged: Judged, group: tuple[BomReport, Waiver], small: str
) -> None:
    _, waiver = group
    moved = "# moved\n" + small.replace("Sensor", "Another name").replace(
        "quantity: 2", "quantity: 3"
    )
    assert state(judged(moved), waiver) is WaiverState.USED


def test_places_and_loops_can_be_waived(judged: Judged, small: str) -> None:
    report = judged(small.replace("    document: AC-1\n", "", 1))
    place = waiver_for(finding(report, "head", "declared-area"), "head", WaivedSubject.PLACE)
    found = finding(report, "L-1", "loop-voltage")
    loop = waiver_for(found, "L-1", WaivedSubject.LOOP)
    laid = apply(report, [place, loop], DAY)
    assert [outcome.state for outcome in laid.waiver_outcomes] == [WaiverState.USED] * 2
    rules = {"declared-area", "loop-voltage"}
    waived = {
        each.rule.id
        for subject in (*laid.places, *laid.loops)
        for each in subject.findings()
        if each.verdict is Verdict.WAIVED
    }
    assert waived == rules


def test_a_material_needs_no_document_and_names_its_component(judged: Judged) -> None:
    report = judged()
    found = finding(report, "10", "chemical-resistance", "housing")
    waiver = waiver_for(found, "10", WaivedSubject.ITEM, component="housing", document=None)
    assert state(report, waiver) is WaiverState.USED
    assert state(report, replace(waiver, component=None)) is WaiverState.USED
    assert state(report, replace(waiver, component="seal")) is WaiverState.UNMATCHED


def test_of_two_that_hold_the_longer_one_shows(group: tuple[BomReport, Waiver]) -> None:
    report, waiver = group
    renewed = replace(waiver, until=date(2027, 6, 30), position=Position("w.yaml", 9, 5))
    laid = apply(report, [waiver, renewed], DAY)
    assert laid.waivers.used == 2
    assert [e.waiver for e in laid.parts[0].findings() if e.waiver] == [renewed]
    later = apply(report, [waiver, renewed], date(2027, 1, 1))
    assert (later.waivers.used, later.waivers.expired) == (1, 1)
    assert verdict_of(later, "gas-group") == {Verdict.WAIVED}


def test_a_waiver_for_another_list_says_nothing_here(group: tuple[BomReport, Waiver]) -> None:
    report, waiver = group
    assert apply(report, [replace(waiver, assembly="T-2")], DAY) is report
    assert apply(report, [], DAY) is report
    assert state(report, replace(waiver, assembly="T-1")) is WaiverState.USED


def test_the_gate_passes_with_waivers_only_if_nothing_else_is_open(
    judged: Judged, small: str
) -> None:
    alone = small[: small.index("parts:")] + 'parts:\n  - {item: "30", location: office, kind: x}\n'
    report = judged(alone.replace("kind: x", "kind: structural"), only=frozenset({"place-stated"}))
    assert report.gate == "pass (partial)"
    report = judged(alone.replace("kind: x", "kind: structural").replace("T-1", "T-9"))
    waivers: list[Waiver] = []
    for subject, kind in (
        *((part, WaivedSubject.ITEM) for part in report.parts),
        *((place, WaivedSubject.PLACE) for place in report.places),
    ):
        waivers += (
            waiver_for(found, subject.name, kind)
            for found in subject.findings()
            if not found.verdict.passes
        )
    laid = apply(report, waivers, DAY)
    assert laid.waivers.used == len(waivers)
    assert laid.gate == ("pass with waivers" if waivers else "pass")


def test_of_lines_alike_the_one_with_the_waivers_item_is_meant(judged: Judged) -> None:
    """Two lines of one part number at one place have one fingerprint: the design."""
    report = judged()
    twin = replace(report.parts[0], name="11")
    both = replace(report, parts=(*report.parts, twin), again=None)  # no list holds the twin
    waiver = waiver_for(finding(report, "10", "gas-group"), "10", WaivedSubject.ITEM)
    laid = apply(both, [waiver], DAY)
    assert verdict_of(laid, "gas-group") == {Verdict.WAIVED}
    open_ = {each.rule.id for each in laid.parts[-1].open_findings()}
    assert "gas-group" in open_


def test_a_fingerprint_from_before_the_scheme_is_void_and_says_so(
    group: tuple[BomReport, Waiver],
) -> None:
    report, waiver = group
    old = replace(waiver, fingerprint=waiver.fingerprint.removeprefix("2:"))
    (outcome,) = apply(report, [old], DAY).waiver_outcomes
    assert outcome.state is WaiverState.STALE
    assert "from before 0.2" in outcome.message
    assert "waiver renew" in outcome.message


KEPT = """\
areafit: 1
assembly: {number: W-9}
code: ATEX
locations:
  hall: {area: 'Zone 1, IIB, T3', substances: [ethanol], chemicals: none, ambient: 5..35 °C,
         document: AC-1}
parts:
  - {item: '1', part_number: M-1, location: hall, kind: electrical, marking: II 3G Ex ec IIC T4 Gc,
     bonded: true, materials: [{component: housing, material: aluminium}]}
"""


def test_a_flagged_plate_that_a_waiver_keeps_leaves_no_question_unasked() -> None:
    """The project's own rule, no source: what waits for another part is asked of one that stays."""
    bom, tables, day = areafit.read(KEPT.encode(), "k.yaml"), areafit.Tables.shipped(), DAY

    def rules(report: areafit.BomReport) -> set[str]:
        return {finding.rule.id for finding in report.parts[0].open_findings()}

    plain = areafit.judge(bom, tables, areafit.Options(as_of=day))
    assert "protection-level" in rules(plain)
    assert not {"light-metal", "static-surface"} & rules(plain)
    flag = next(f for f in plain.parts[0].open_findings() if f.rule.id == "protection-level")
    waiver = waiver_for(flag, "1", WaivedSubject.ITEM)
    whole = areafit.apply_waivers(plain, (waiver,), day)
    assert "light-metal" in rules(whole)
    assert "protection-level" not in rules(whole)
    assert rules(judged(bom, tables, areafit.Options(as_of=day), (waiver,))) == rules(whole)


_AREA = (
    "areafit: 1\nassembly: {number: W-9, assessment: IHA-1}\ncode: IEC\nedition: 2017\nlocations:\n"
    "  hall: {area: 'Zone 21, IIIB', document: AC-1, substances: [sugar], layer: none,\n"
    "         atmosphere: controlled, ambient: 0..40 °C, chemicals: none}\nparts:\n"
)
_PAPERS = "evidence: [{type: certificate, number: IECEx QQQ 21.0001}]"
_SENSOR = "kind: electrical, ambient: -20..40 °C, ingress: IP66, contacts: none"
_WIRED = f"{_SENSOR}, bonded: yes, entries: none"
_PLATE = "marking: Ex tb IIIC T85 °C Db"
WAITING = [  # what waits, and the rule of what plate and papers lack
    (f"{_WIRED}, {_PLATE}", "evidence"),
    (f"{_WIRED}, {_PAPERS}", "protection-level"),
    (f"{_WIRED}, {_PLATE}, {_PAPERS.replace('0001', '0001U')}", "ex-component"),
    (f"{_WIRED.replace('-20..40', '0..30')}, {_PLATE}, {_PAPERS}", "ambient-range"),
]


@pytest.mark.parametrize(("facts", "rule"), WAITING)
def test_what_waits_for_papers_is_asked_where_somebody_answers_for_them(
    facts: str, rule: str
) -> None:
    """The project's own rule, no source: what nobody was asked is no pass, however a gate opens."""
    line = f"  - {{item: '1', part_number: M-1, location: hall, {facts}}}\n"
    bom, tables = areafit.read(f"{_AREA}{line}".encode(), "k.yaml"), areafit.Tables.shipped()

    def rules(report: areafit.BomReport) -> set[str]:
        return {finding.rule.id for finding in report.parts[0].open_findings()}

    def report(**options: Any) -> areafit.BomReport:
        return areafit.judge(bom, tables, areafit.Options(as_of=DAY, **options))

    plain = report()
    assert rule in rules(plain)
    assert "light-metal" not in rules(plain)
    own = [f for f in plain.parts[0].open_findings() if f.rule.id == rule]
    waivers = tuple(waiver_for(each, "1", WaivedSubject.ITEM) for each in own)
    laid = areafit.apply_waivers(plain, waivers, DAY)
    assert rule not in rules(laid)
    assert "light-metal" in rules(laid)
    assert "light-metal" in rules(report(skip=frozenset({rule})))
    if any(each.verdict is Verdict.UNPROVEN for each in own):
        assert "light-metal" in rules(report(accept_unproven=frozenset({rule})))


def test_openings_of_a_part_that_a_waiver_keeps_are_asked() -> None:
    line = (
        f"  - {{item: '1', part_number: M-1, location: hall, {_SENSOR}, bonded: yes, {_PAPERS}, "
        "marking: Ex tc IIIB T85 °C Dc, materials: [{material: '316'}]}\n"
    )
    bom, tables = areafit.read(f"{_AREA}{line}".encode(), "k.yaml"), areafit.Tables.shipped()
    plain = areafit.judge(bom, tables, areafit.Options(as_of=DAY))

    def rules(report: areafit.BomReport) -> set[str]:
        return {finding.rule.id for finding in report.parts[0].open_findings()}

    assert "cable-entry" not in rules(plain)
    flag = next(f for f in plain.parts[0].open_findings() if f.rule.id == "protection-level")
    waiver = waiver_for(flag, "1", WaivedSubject.ITEM)
    assert "cable-entry" in rules(areafit.apply_waivers(plain, (waiver,), DAY))
