"""What a second reading of the rules on materials found; the source stands at each test."""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
Say = Callable[..., Verdict]
ACID = (
    "substances: none, ambient: 5..40 °C, "
    "chemicals: [{name: hydrochloric acid, concentration: 30 %, temperature: 40 °C}]"
)


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: structural, exposure: immersed", UNPROVEN),
        ("kind: structural, exposure: room", UNPROVEN),
        ("kind: mechanical, exposure: room", UNPROVEN),
        ("kind: electrical, exposure: splash", UNPROVEN),
        ("kind: electrical, exposure: washdown", UNPROVEN),
        ("kind: electrical", UNPROVEN),
        ("kind: electrical, exposure: enclosed", SILENT),
        ("kind: loose item, exposure: room", SILENT),
    ],
)
def test_a_part_has_a_material(part: str, expected: Verdict, say: Say) -> None:
    # common practice, no source
    said = f"{part}, materials: none, materials_complete: true, contacts: none"
    assert say("materials-listed", said, ACID) is expected
