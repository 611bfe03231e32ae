"""Non-electrical codes under NFPA 70, which is for electrical equipment: 90.2(A), from memory."""

from collections.abc import Callable

import pytest

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
