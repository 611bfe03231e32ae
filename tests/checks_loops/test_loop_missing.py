"""Intrinsically safe parts in no circuit: IEC 60079-14:2013 16.2.4 and 4.2, from memory.

What counts as a description of a circuit, and who may do without, is the project's own reading.
"""

from datetime import date

import pytest

import areafit
from areafit.verdict import Verdict, worst

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
LOOP = "loops: [{name: L, source: {item: '9'}, devices: [{item: '1'}]}]"
DRAWING = "evidence: [{{type: control drawing{}}}]"


def verdict(
    part: str, area: str = "'Zone 1, IIC, T4'", law: str = "IEC", more: str = ""
) -> Verdict:
    text = f"""
areafit: 1
assembly: {{number: T}}
code: {law}
locations: {{spot: {{area: {area}}}, safe: {{area: unclassified}}}}
parts:
  - {{item: '1', part_number: PN-1, location: spot, {part}}}
  - {{item: '9', location: safe, kind: structural}}
{more}
"""
    options = areafit.Options(as_of=date(2026, 1, 1), only=frozenset({"loop-missing"}))
    report = areafit.judge(areafit.read(text.encode(), "t"), areafit.Tables.shipped(), options)
    return worst(finding.verdict for finding in report.parts[0].findings())


IA = "kind: electrical, marking: Ex ia IIC T4 Ga"
COMBINED = "kind: electrical, marking: Ex db ia IIC T4 Gb"
CASES = [
    (IA, U),
    ("kind: electrical, marking: Ex ic IIC T4 Gc", U),
    ("kind: electrical, marking: Ex ia IIIC T110 °C Da", U),
    ("kind: electrical, marking: Ex ia op is IIC T4 Ga, intrinsic_safety: inside only", F),
    ("kind: electrical, marking: Ex db IIC T4 Gb", N),
    ("kind: electrical", N),  # protection-level asks for the marking
    ("kind: simple apparatus, generates: none", U),
    (f"kind: simple apparatus, {DRAWING.format(', number: CD-1')}", P),
    (f"{IA}, {DRAWING.format(', number: CD-1')}", P),
    (f"{IA}, {DRAWING.format('')}", U),
    (f"{IA}, {DRAWING.format(', number: to follow, covers: PN-2')}", U),
    (f"{IA}, {DRAWING.format(', number: CD-1, valid_until: 2025-12-31')}", U),
    (f"{IA}, {DRAWING.format(', number: CD-1, valid_until: 2026-01-01')}", P),
    (f"{IA}, evidence: [{{type: certificate, number: IECEx ABC 21.0001}}]", U),
    (f"{IA}, intrinsic_safety: own cell", P),
    (f"{IA}, intrinsic_safety: inside only", F),
    (COMBINED, U),
    (f"{COMBINED}, intrinsic_safety: inside only", P),
    # a choice of codes: one of them is intrinsic safety and nothing else
    (
        (
            "kind: electrical, marking: [Ex ia IIC T4 Ga, Ex db IIC T6 Gb], "
            "intrinsic_safety: inside only"
        ),
        F,
    ),
    ("kind: electrical, marking: 'Ex db [ia Ga] IIC T6 Gb'", U),
    ("kind: electrical, marking: 'Ex db [ia Ga] IIC T6 Gb', intrinsic_safety: inside only", F),
    ("kind: electrical, marking: 'Ex eb [op is Ga] IIC T4 Gb'", N),
]


@pytest.mark.parametrize(("part", "expected"), CASES)
def test_parts_in_no_loop(part: str, expected: Verdict) -> None:
    assert verdict(part) is expected


def test_a_loop_names_its_parts() -> None:
    assert verdict(IA, more=LOOP) is P
    assert verdict("kind: simple apparatus", more=LOOP) is P
    assert verdict(IA, more=LOOP.replace("'1'", "'9'")) is U
    assert verdict(f"{IA}, intrinsic_safety: own cell", more=LOOP) is F


def test_outside_of_the_area_only_what_feeds_a_circuit_counts() -> None:
    outside = "unclassified"
    barrier = "kind: electrical, marking: '[Ex ia Ga] IIC'"
    assert verdict(IA, outside) is N
    assert verdict("kind: simple apparatus", outside) is N
    assert verdict(barrier, outside) is U
    assert verdict(f"{barrier}, {DRAWING.format(', number: SYS-1')}", outside) is P
    assert verdict(f"{barrier}, intrinsic_safety: own cell", outside) is F
    assert verdict(barrier, outside, more=LOOP.replace("'9'", "'1'")) is P


def test_north_american_words() -> None:
    safe = "kind: electrical, marking: 'IS Class I, Division 1, Groups A, B, C, D T4'"
    proof = "kind: electrical, marking: 'Explosionproof Class I, Division 1, Groups C, D T4'"
    division = "'Class I, Division 1, Group D'"
    assert verdict(safe, division, "NEC") is U
    assert verdict(f"{safe}, {DRAWING.format(', number: CD-1')}", division, "NEC") is P
    assert verdict(f"{safe}, {DRAWING.format(', number: TBD')}", division, "NEC") is U
    assert verdict(proof, division, "NEC") is N
