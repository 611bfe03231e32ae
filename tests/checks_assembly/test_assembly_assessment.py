"""What the assembled machine needs of its own: ISO 80079-36:2016 5.2, IEC TS 60079-46:2017."""

from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict

LIST = """areafit: 1
assembly: {number: CASE-1%s}
code: IEC
locations: {case: %s}
parts: [{item: '1', location: case, kind: structural}]
"""


@pytest.mark.parametrize(
    ("assessment", "place", "expected"),
    [
        ("", "{}", Verdict.UNPROVEN),  # an area that is not stated may be classified
        ("", "{area: somewhere dangerous}", Verdict.UNPROVEN),
        ("", "{area: 'Zone 2, IIB, T3'}", Verdict.UNPROVEN),
        (", assessment: n/a", "{area: 'Zone 2, IIB, T3'}", Verdict.UNPROVEN),
        (", assessment: to follow", "{area: 'Zone 2, IIB, T3'}", Verdict.UNPROVEN),
        (", assessment: IHA-10", "{area: 'Zone 2, IIB, T3'}", Verdict.PASS),
        ("", "{area: unclassified}", None),
    ],
)
def test_assembly_assessment(assessment: str, place: str, expected: Verdict | None) -> None:
    # ISO 80079-36:2016 5.2; IEC TS 60079-46:2017, from memory
    bom = areafit.read((LIST % (assessment, place)).encode(), "case.yaml")
    options = Options(as_of=date(2026, 1, 1), only=frozenset({"assembly-assessment"}))
    judged = [
        each for block in judge(bom, Tables.shipped(), options).own.blocks for each in block.judged
    ]
    assert [each.judgement.verdict for each in judged] == ([expected] if expected else [])
