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


@pytest.mark.parametrize(
    ("marking", "expected"),
    [
        ("Class I, Div 1, Groups C, D; T4", U),
        ("Class I, Zone 1, AEx eb IIC T4 Gb", Verdict.NOT_APPLICABLE),  # 501.5: the part goes
    ],
)
def test_openings_of_a_part_that_goes_are_not_asked_for(
    say: Callable[..., Verdict], marking: str, expected: Verdict
) -> None:
    """What its plate shows first; common practice, no source."""
    part = f"kind: electrical, marking: '{marking}', {LISTED}, arcing: true"
    assert say("cable-entry", part, "area: 'Class I, Division 1, Group D'", "NEC") is expected
    bad = f"{part}, entries: [{{type: open hole}}]"
    assert say("cable-entry", bad, "area: 'Class I, Division 1, Group D'", "NEC") is F
