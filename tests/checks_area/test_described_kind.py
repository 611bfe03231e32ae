"""A description that contradicts the kind: common practice, no source."""

from collections.abc import Callable

import pytest

from areafit.tables.described import Says, described
from areafit.verdict import Verdict

P, U = Verdict.PASS, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Z1 = "area: 'Zone 1, IIB, T3'"

SAID = [
    ("Gear motor 0.37 kW", Says.ELECTRICAL),
    ("Solenoid valve 5/2", Says.ELECTRICAL),
    ("Proximity switches", Says.ELECTRICAL),
    ("LED strip", Says.ELECTRICAL),
    ("MOTOR, GEARED", Says.ELECTRICAL),
    ("Frame with drive motor", Says.ELECTRICAL),
    ("Motor and bracket", Says.ELECTRICAL),
    ("Wireless tag, lithium cell", Says.ELECTRICAL),
    ("Roller with ball bearings and V-belt pulley", Says.MOVING),
    ("Air motor", Says.MOVING),
    ("Ball valve, DN25", Says.MOVING),
    ("Motor bracket", Says.FIXED),
    ("Bracket for the motor", Says.FIXED),
    ("Screws of motor and fan", Says.FIXED),
    ("Bracket, motor", Says.FIXED),
    ("Valve block for the parts under test", Says.FIXED),
    ("Cover without sensor", Says.FIXED),
    ("Cable tie", Says.FIXED),
    ("Carousel, complete", None),
    ("Bottle star wheel", None),
    ("Motorway sign", Says.FIXED),
    ("O-rings of the pump", Says.SEAL),
    ("Seal cover", Says.FIXED),
]


@pytest.mark.parametrize(("text", "says"), SAID)
def test_the_head_word_tells(text: str, says: Says | None) -> None:
    row = described(text)
    assert (row.says if row is not None else None) is says


KINDS = [
    ("kind: structural, description: Gear motor 0.37 kW", U),
    ("kind: structural, description: Roller with bearings", U),
    ("kind: structural, description: Motor bracket", P),
    ("kind: structural, description: Gear motor, electrical_content: motor", P),
    ("kind: mechanical, description: Solenoid valve 5/2, electrical_content: none", U),
    ("kind: mechanical, description: Ball valve, electrical_content: none", P),
    ("kind: mechanical, description: Air motor, electrical_content: none", P),
    ("kind: loose item, description: Torch, electrical_content: none", U),
    ("kind: [structural, electrical], description: Motor", P),
    ("kind: simple apparatus, description: Limit switch", P),
]


@pytest.mark.parametrize(("part", "expected"), KINDS)
def test_kind_and_description(say: Say, part: str, expected: Verdict) -> None:
    assert say("kind", part, Z1) is expected
    assert say("kind", part, "area: unclassified") is Verdict.NOT_APPLICABLE


def test_a_description_never_makes_a_pass(say: Say) -> None:
    for kind in ("structural", "mechanical", "loose item"):
        bare = say("kind", f"kind: {kind}", Z1)
        for text, _ in SAID:
            told = say("kind", f"kind: {kind}, description: '{text}'", Z1)
            assert told is bare or (bare is P and told is U)
