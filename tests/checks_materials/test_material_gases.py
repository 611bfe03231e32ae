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


LIGHT = ("methane", "ethane", "propane", "hydrogen", "ethylene", "nitrogen", "CO2")


@pytest.mark.parametrize("gas", [*LIGHT, "carbon monoxide", "propylene", "natural gas"])
@pytest.mark.parametrize(
    "material", ["LDPE", "UHMWPE", "HDPE", "PP", "PTFE", "PEEK", "304", "316L"]
)
def test_light_gases_are_no_question_of_polyolefins_and_stainless(
    ask: Any, gas: str, material: str
) -> None:
    """From memory: a gas at atmospheric pressure is hardly taken up, and carbonic acid is weak."""
    place = {"chemicals": [{"name": gas, "temperature": "40 °C"}], "substances": "none"}
    part = {"materials": [use(material)]}
    assert ask("chemical-resistance", place, part).verdict is PASS
    place["chemicals"] = [{"name": gas, "temperature": "95 °C"}]
    assert ask("chemical-resistance", place, part).verdict is not PASS  # hotter than the rows


@pytest.mark.parametrize(
    ("material", "gas", "expected"),
    [
        # "Hydrogen may be somewhat incompatible with natural rubber and silicone": laboratory notes
        ("NR", "hydrogen", UNPROVEN),
        ("VMQ", "hydrogen", UNPROVEN),
        ("silicone", "hydrogen", UNPROVEN),
        ("EPDM", "hydrogen", PASS),
        ("NBR", "hydrogen", PASS),
        # from memory: it swells in hydrocarbons, more in those that are nearly liquid
        ("NR", "methane", UNPROVEN),
        # seal practice, from memory: nitrile and FKM in gas lines, neither EPDM nor silicone
        ("EPDM", "natural gas", UNPROVEN),
        ("EPDM", "methane", UNPROVEN),
        ("VMQ", "natural gas", UNPROVEN),
        ("NBR", "natural gas", PASS),
        ("FKM", "methane", PASS),
        ("NR", "propane", UNPROVEN),
        ("NR", "LPG", UNPROVEN),
        ("NR", "butane", Verdict.FLAG),
        ("NR", "isobutane", Verdict.FLAG),
        ("NR", "CO2", UNPROVEN),
        ("NR", "nitrogen", PASS),
        ("VMQ", "propane", UNPROVEN),
        ("VMQ", "ethane", UNPROVEN),
        ("VMQ", "CO2", UNPROVEN),
        ("silicone", "argon", PASS),
        ("silicone", "carbon monoxide", UNPROVEN),
        ("LDPE", "butane", UNPROVEN),
        ("UHMWPE", "butane", PASS),
        ("HDPE", "isobutane", PASS),
        ("NBR", "propylene", UNPROVEN),
        ("FKM", "propylene", PASS),
        # what wet carbon dioxide does is not known here
        ("carbon steel", "CO2", UNPROVEN),
        ("brass", "CO2", UNPROVEN),
        ("ABS", "CO2", UNPROVEN),
        ("PC", "CO2", PASS),
        # nickel: its carbonyl (from memory)
        ("nickel", "carbon monoxide", UNPROVEN),
        ("LDPE", "oxygen", UNPROVEN),
        ("304", "oxygen", UNPROVEN),
    ],
)
def test_what_a_light_gas_does_to_rubbers_and_others(
    resist: Any, material: str, gas: str, expected: Verdict
) -> None:
    assert resist(material, gas, "100 %", "23 °C").verdict is expected


@pytest.mark.parametrize("material", ["LDPE", "304", "brass", "zinc-plated steel", "NR", "PC"])
@pytest.mark.parametrize("gas", ["nitrogen", "argon", "helium", "N2", "Stickstoff"])
def test_an_inert_gas_does_no_more_than_air(resist: Any, material: str, gas: str) -> None:
    """Laboratory notes: compatible with just about everything; to the row of compressed air."""
    assert resist(material, gas, "100 %", "23 °C").verdict is PASS
    hot = resist(material, gas, "100 %", "90 °C").verdict
    assert hot is UNPROVEN or hot is resist(material, "compressed air", "100 %", "90 °C").verdict


@pytest.mark.parametrize("gas", ["methane", "natural gas", "propane", "LPG", "butane"])
@pytest.mark.parametrize("rubber", ["EPDM", "VMQ"])
@pytest.mark.parametrize(
    ("area", "exposure", "thin"),
    [
        ("Zone 2", "room", True),
        ("Zone 1", "enclosed", True),
        ("Zone 0", "room", False),
        ("Zone 2", "immersed", False),
    ],
)
def test_a_leak_of_gas_swells_no_gasket_and_a_line_full_of_it_does(
    say: Any, gas: str, rubber: str, area: str, exposure: str, *, thin: bool
) -> None:
    # Henry's law; methane burns to 17 % in air and the others to less (IEC 60079-20-1, from memory)
    part = f"kind: structural, materials: [{{material: {rubber}, exposure: {exposure}}}]"
    place = f"area: '{area}, IIA, T1', chemicals: none, substances: [{gas}], ambient: 5..30 °C"
    assert (say("chemical-resistance", part, place) is PASS) is thin
