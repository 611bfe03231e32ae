"""A plate that says two things of one kind promises the lesser, and says that it is at odds.

What an element means: IEC 60079-0:2017 29.4 and NFPA 70-2023 500.8(C), from memory. No clause says
which of two counts; only the lesser is safe under either reading.
"""

from collections.abc import Callable

import pytest

from areafit.facts.marking import Marking
from areafit.marking import decode
from areafit.verdict import Verdict

Listed = Callable[[str, str, str], tuple[Verdict, str]]

AT_ODDS = [
    ("Ex db IIA IIC T4 Gb", "IEC; gas; db; IIA; T4 135; Gb => Gb"),
    ("Ex db IIC IIB IIA T4 Gb", "IEC; gas; db; IIA; T4 135; Gb => Gb"),
    ("Ex tb IIIC IIIB T120°C Db", "IEC; dust; tb; IIIB; max 120; Db => Db"),
    ("Ex db II IIC T4 Gb", "IEC; gas; db; II; T4 135; Gb => Gb"),  # `II` alone covers nothing
]


@pytest.mark.parametrize(("text", "expected"), AT_ODDS)
def test_the_lesser_counts(text: str, expected: str, summary: Callable[[Marking], str]) -> None:
    marking = decode(text)
    assert summary(marking) == expected
    assert marking.problems


def test_two_groups_never_pass_by_the_better(listed: Listed) -> None:
    assert listed("nameplates", "1", "gas-group")[0] is Verdict.FLAG


def test_equipment_for_one_gas_serves_it_by_its_formula(listed: Listed) -> None:
    """IEC 60079-0:2017 29.4, from memory: equipment for one gas bears its name or formula."""
    assert listed("nameplates", "2", "gas-group")[0] is Verdict.PASS
