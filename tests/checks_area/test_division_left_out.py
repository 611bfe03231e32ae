"""Listed equipment without a division on its plate: NFPA 70-2023 500.8(C)(2), from memory."""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
LISTED = "evidence: [{type: listing, number: E-1}]"
CASES = [
    ("'Class I, Groups C, D T4'", LISTED, "Class I, Division 1, Group D", P),
    ("'Class I, Groups C, D T4'", LISTED, "Class I, Division 2, Group D", P),
    ("'Class I, Groups C, D T4'", "evidence: none", "Class I, Division 1, Group D", U),
    (
        "'Class I, Groups C, D T4'",
        "evidence: [{type: control drawing, number: CD-1}]",
        "Class I, Division 1, Group D",
        U,
    ),
    ("'Class II, Groups F, G T4'", LISTED, "Class I, Division 1, Group D", F),
    ("'Class I, Division 2, Groups C, D T4'", LISTED, "Class I, Division 1, Group D", F),
]


@pytest.mark.parametrize(("marking", "more", "area", "expected"), CASES)
def test_a_division_left_out(
    say: Callable[..., Verdict], marking: str, more: str, area: str, expected: Verdict
) -> None:
    part = f"kind: electrical, marking: {marking}, {more}"
    assert say("protection-level", part, f"area: '{area}'", "NEC") is expected
