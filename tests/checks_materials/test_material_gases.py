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


@pytest.mark.parametrize("gas", ["methane", "propane", "n-butane"])
@pytest.mark.parametrize("material", ["bronze", "zinc diecast", "titanium", "soda-lime glass"])
def test_a_saturated_gas_does_no_more_than_the_liquids_of_its_class(
    resist: Any, gas: str, material: str
) -> None:
    """From memory: neutral and dry, it finds nothing to attack; rubber swells in it."""
    assert resist(material, gas, "100 %").verdict is PASS
    assert resist("NR", gas, "100 %").verdict is not PASS


def test_a_gas_that_is_a_mixture_or_burns_otherwise_has_no_such_row(resist: Any) -> None:
    """Own reasoning: what a natural gas holds beside methane is not known; ethyne eats copper."""
    assert resist("bronze", "natural gas", "100 %").verdict is not PASS
    assert resist("bronze", "acetylene", "100 %").verdict is not PASS
