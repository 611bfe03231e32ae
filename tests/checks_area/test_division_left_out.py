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


SWITCH = "kind: electrical, marking: 'XP Class I, Div 1, Groups A-D T6', arcing: true"
FITTINGS = [  # as most seals and plugs are marked; an entry has no papers to state
    ("CL I GR A,B,C,D", "Class I, Division 1, Group D", P),
    ("Class I Groups A, B, C, D; Class II Groups E, F, G", "Class I, Division 1, Group D", P),
    ("CL I GR C,D", "Class I, Division 1, Group B", F),
    ("CL I DIV 2 GR A,B,C,D", "Class I, Division 1, Group D", F),
    ("CL II GR E,F,G", "Class I, Division 1, Group D", F),
    ("Class I", "Class I, Division 1, Group D", U),
]


@pytest.mark.parametrize(("marking", "area", "expected"), FITTINGS)
def test_a_division_left_out_of_a_fitting(
    say: Callable[..., Verdict], marking: str, area: str, expected: Verdict
) -> None:
    entry = f"{{type: conduit seal, marking: '{marking}', thread: 1/2 NPT, hole: 1/2 NPT, "
    entry += "trade_size: 1/2, within: 10 in}"
    part = f"{SWITCH}, {LISTED}, entries: [{entry}]"
    assert say("cable-entry", part, f"area: '{area}'", "NEC") is expected
