"""Mixtures of gases that act on materials as the gas that they mostly are.

All from memory: dry, sweet pipeline gas attacks what methane attacks, liquefied petroleum gas what
propane and butane do; sulphur is what natural gas does to copper (NFPA 54).
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, UNPROVEN = Verdict.PASS, Verdict.UNPROVEN


def _place(gas: str) -> dict[str, Any]:
    return {"substances": [gas], "chemicals": "none", "ambient": "-20..40 °C"}


def use(material: str, exposure: str = "immersed") -> dict[str, str]:
    return {"material": material, "exposure": exposure}


@pytest.mark.parametrize(
    ("gas", "material", "expected"),
    [
        ("natural gas", "316L", PASS),
        ("natural gas", "NBR", PASS),
        ("mains gas", "carbon steel", PASS),
        ("natural gas", "copper", UNPROVEN),
        ("natural gas", "nickel-plated brass", UNPROVEN),
        ("natural gas", "NR", UNPROVEN),
        ("LPG", "316L", PASS),
        ("biogas", "copper", UNPROVEN),
        ("biogas", "carbon steel", UNPROVEN),
        ("biogas", "316L", UNPROVEN),  # an analogy, which is judgement
        ("methane", "nickel-plated brass", PASS),
        ("propane", "CW617N", PASS),
        ("LNG", "316L", UNPROVEN),  # its cold decides
    ],
)
def test_a_mixture_of_gases(ask: Any, gas: str, material: str, expected: Verdict) -> None:
    part = {"materials": [use(material, "room")]}
    assert ask("chemical-resistance", _place(gas), part).verdict is expected


def test_natural_gas_may_hold_sulphur_that_copper_does_not_stand(ask: Any) -> None:
    answer = ask("chemical-resistance", _place("natural gas"), {"materials": [use("CW614N")]})
    assert "Tarnish must be acceptable, or the sulphur shown to stay low" in answer.text
    assert "NFPA 54" in str(answer.decisive.rows)


@pytest.mark.parametrize("grade", ["304", "304L", "316", "316L"])
def test_a_low_carbon_grade_stands_weak_caustic_soda_as_its_parent_does(
    resist: Any, grade: str
) -> None:
    assert resist(grade, "sodium hydroxide", "2 %", "60 °C").verdict is PASS
