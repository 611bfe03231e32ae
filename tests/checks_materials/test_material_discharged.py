"""A stated fact that meets a condition of limited use discharges it, and nothing else does.

From memory of the handbooks: stress corrosion needs lasting tension, crevice corrosion a gap.
"""

from datetime import date

import pytest

import areafit
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Basis, Verdict

P, U = Verdict.PASS, Verdict.UNPROVEN


def resist(material: str, chemical: str, more: str, exposure: str = "immersed") -> Verdict:
    text = (
        "areafit: 1\nassembly: {number: D}\ncode: IEC\nlocations:\n  tank: {chemicals: "
        f"[{{{chemical}}}]}}\nparts:\n  - {{item: '1', kind: structural, location: tank, "
        f"materials: [{{material: '{material}', exposure: {exposure}{more}}}]}}\n"
    )
    options = Options(
        as_of=date(2026, 1, 1),
        only=frozenset({"chemical-resistance"}),
        least_basis=Basis.JUDGEMENT,
    )
    report = areafit.judge(areafit.read(text.encode(), "l.yaml"), Tables.shipped(), options)
    return report.parts[0].verdict


SEA = "name: sea water, temperature: 20 °C"
HOT = "name: hot water, temperature: 90 °C"


@pytest.mark.parametrize(
    ("material", "chemical", "more", "exposure", "verdict"),
    [
        ("2205", SEA, ", crevice: false", "immersed", P),
        ("2205", SEA, "", "immersed", U),
        ("2205", SEA, ", crevice: true", "immersed", U),
        ("2205", SEA, ", stressed: false", "immersed", U),  # another condition
        ("2205", SEA, ", crevice: false", "splash", U),  # a drop leaves a deposit, which is a gap
        ("2304", HOT, ", stressed: false", "immersed", P),
        ("2304", HOT, "", "immersed", U),
        ("2304", HOT, ", crevice: false", "immersed", U),
    ],
)
def test_the_fact_that_meets_the_condition(
    material: str, chemical: str, more: str, exposure: str, verdict: Verdict
) -> None:
    assert resist(material, chemical, more, exposure) is verdict


def test_tension_is_never_better_than_silence() -> None:
    stressed = resist("2304", HOT, ", stressed: true")
    assert list(Verdict).index(stressed) <= list(Verdict).index(U)
