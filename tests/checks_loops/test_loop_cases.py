"""Worked loop cases, each with the source that it names, through the reader and the engine."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.findings.report import BomReport
from areafit.verdict import Verdict, worst

Tree = dict[str, Any]
SETS: dict[str, list[Tree]] = json.loads(
    (Path(__file__).parent / "loop_cases.json").read_text(encoding="utf-8")
)
OUTSIDE = {"area": "unclassified", "document": "AC-1"}
SAFE_SIDE = {"Um": "250 V", "supply": "230 V"}  # which the second set leaves out
ENTITY = ("loop-voltage", "loop-current", "loop-power", "loop-capacitance", "loop-inductance")


def judged(tree: Tree) -> BomReport:
    data = json.dumps(tree, ensure_ascii=False).encode()
    bom = areafit.read(data, "case.yaml")
    return areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 1, 1)))


def verdict(report: BomReport, *rules: str) -> Verdict:
    found = (f for loop in report.loops for f in loop.findings())
    return worst(f.verdict for f in found if not rules or f.rule.id in rules)


def first_tree(case: Tree) -> Tree:
    return {
        "areafit": 1,
        "assembly": {"number": case["id"]},
        "code": case["code"],
        "locations": {"case": case["location"], "unclassified": OUTSIDE},
        "parts": case["parts"],
        "loops": [case["loop"]],
    }


def second_tree(case: Tree) -> Tree:
    """The second set gives bare numbers in units that its keys name."""
    equipment, place = case["equipment"], case["location"]
    nec = case["system"] == "NEC-DIV"
    chemical = case["chemicals"][0]
    area = (
        f"Class {place['class']}, Division {place['division']}, Group {chemical['group']}"
        if nec
        else f"Zone {place['zone']}, {chemical['group']}"
    )
    ends = equipment["source"], equipment["field"]
    plates = (
        (
            "Associated apparatus Class I, Division 1, Groups A, B, C, D",
            "IS Class I, Division 1, Groups A, B, C, D",
        )
        if nec
        else (
            f"[Ex {ends[0]['level']}] {ends[0]['group']}",
            f"Ex {ends[1]['level']} {ends[1]['group']} T4",
        )
    )
    parts = [
        {"item": "9", "location": "unclassified", "kind": "electrical", "marking": plates[0]},
        {"item": "1", "location": "case", "kind": "electrical", "marking": plates[1]},
    ]
    run, unit = equipment["cable"], equipment["cable"]["unit"]
    loop = {
        "name": "LS",
        "group": chemical["group"],
        "source": {"item": "9", **SAFE_SIDE, **_quantities(ends[0])},
        "devices": [{"item": "1", **_quantities(ends[1])}],
        "cable": {
            "length": f"{run['length']} {unit}",
            "capacitance": f"{run['c_pF_per_unit']} pF/{unit}",
            "inductance": f"{run['l_uH_per_unit']} µH/{unit}",
        },
    }
    return {
        "areafit": 1,
        "assembly": {"number": case["id"]},
        "code": "NEC" if nec else case["system"],
        "locations": {
            "case": {"area": area, "substances": [chemical["name"]]},
            "unclassified": OUTSIDE,
        },
        "parts": parts,
        "loops": [loop],
    }


def _quantities(end: Tree) -> Tree:
    """`Io_mA: 93` as `Io: 93 mA`; voltages have no unit in their key; null is not stated."""
    found = {}
    for key, value in end.items():
        name, _, unit = key.partition("_")
        if name not in ("level", "group") and value is not None:
            found[name] = f"{value} {unit or 'V'}"
    return found


@pytest.mark.parametrize("case", SETS["first"], ids=lambda case: case["id"])
def test_first_set(case: Tree) -> None:
    assert verdict(judged(first_tree(case)), case["rule"]) is Verdict(case["expect"]), case["why"]


@pytest.mark.parametrize("case", SETS["second"], ids=lambda case: case["id"])
def test_second_set(case: Tree) -> None:
    report = judged(second_tree(case))
    assert verdict(report) is Verdict(case["expected"]), case["why"]
    deciding = ENTITY if case["decides"] == "entity" else ("loop-level",)
    assert verdict(report, *deciding) is Verdict(case["expected"]), case["why"]
