"""Non-electrical codes under NFPA 70, which is for electrical equipment: 90.2(A), from memory."""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("kind", "marking", "area", "expected"),
    [
        ("mechanical", "Ex h IIC T4 Gb", "Class I, Division 1, Group D", P),
        ("mechanical", "Ex h IIC T4 Gc", "Class I, Division 1, Group D", F),
        ("mechanical", "Ex h IIC T4 Gc", "Class I, Division 2, Group D", P),
        ("mechanical", "Ex h IIC T4 Gb", "Class I, Zone 1, Group IIB", P),
        ("mechanical", "Ex h IIC T4 Gb", "Class I, Zone 0, Group IIB", F),
        ("mechanical", "Ex h IIC T4", "Class I, Division 2, Group D", U),
        ("electrical", "Ex h IIC T4 Gb", "Class I, Division 1, Group D", F),  # not for its wiring
        ("mechanical", "Ex db IIC T4 Gb", "Class I, Division 1, Group D", F),
    ],
)
def test_a_code_that_is_not_electrical_needs_no_listing(
    say: Callable[..., Verdict], kind: str, marking: str, area: str, expected: Verdict
) -> None:
    part = f"kind: {kind}, marking: {marking}"
    assert say("protection-level", part, f"area: '{area}'", "NEC") is expected


def test_the_electrical_half_is_still_asked(say: Callable[..., Verdict]) -> None:
    place = "area: 'Class I, Zone 1, Group IIB'"
    part = "kind: [electrical, mechanical], marking: [{}, Ex h IIC T4 Gb]"
    own = part.format("'Class I, Zone 1, AEx mb IIC T4 Gb'")
    assert say("protection-level", own, place, "NEC") is P
    assert say("protection-level", part.format("Ex mb IIC T4 Gb"), place, "NEC") is F


def test_a_division_is_not_told_of_the_clause_on_zones() -> None:
    """NFPA 70-2023 500.8 for Divisions, 505.9 and 506.9 for zones; from memory."""
    for area, clause in (
        ("Class I, Division 1, Group D", "NFPA 70-2023 500.8"),
        ("Class I, Zone 0, Group IIB", "NFPA 70-2023 505.9"),
        ("Zone 20", "NFPA 70-2023 506.9"),
    ):
        text = (
            "areafit: 1\nassembly: {number: M-1}\ncode: NEC\n"
            f"locations: {{a: {{area: '{area}'}}}}\n"
            "parts: [{item: '1', location: a, kind: electrical, marking: none}]\n"
        )
        options = areafit.Options(as_of=date(2026, 1, 1), only=frozenset({"protection-level"}))
        report = areafit.judge(areafit.read(text.encode(), "t"), areafit.Tables.shipped(), options)
        assert {finding.clause for finding in report.parts[0].findings()} == {clause}
