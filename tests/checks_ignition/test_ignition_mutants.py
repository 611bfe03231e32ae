"""What one changed expression of a rule would get past other tests; see that of materials."""

from collections.abc import Callable
from typing import Any

import areafit
from areafit.checks.ignition.assessment import Motion, motion
from areafit.facts.part import Part
from areafit.verdict import Verdict

Judging = Callable[..., Any]
GAS = {"area": "Zone 1, IIB, T3", "ambient": "5..40 °C"}


def part(**more: str) -> Part:
    stated = "".join(f", {key}: {value}" for key, value in more.items())
    text = (
        "areafit: 1\nassembly: {number: M-1}\ncode: IEC\nlocations: {a: {}}\n"
        f"parts: [{{item: '1', location: a{stated}}}]\n"
    )
    return areafit.read(text.encode(), "x").parts[0]


def test_a_drive_moves_what_is_not_electrical_only() -> None:
    assert motion(part(kind="electrical", drive="electric").body) is None
    assert motion(part(kind="structural", drive="electric").body) is Motion.MOVING
    assert motion(part(kind="loose item", drive="electric").body) is Motion.MOVING
    assert motion(part(kind="loose item", drive="manual").body) is Motion.LOOSE


def test_a_class_marked_for_dust_says_nothing_of_gas(judging: Judging) -> None:
    both = ["II 2G Ex h IIB Gb", "II 2D Ex h IIIC T120 °C Db"]
    [judgement] = judging("hot-surface", {"kind": "mechanical", "marking": both}, GAS)
    assert judgement.verdict is Verdict.UNPROVEN
    classed = {"kind": "mechanical", "marking": "II 2G Ex h IIB T4 Gb"}
    assert judging("hot-surface", classed, GAS) == []
