"""Worked checks of materials, couples and pairs of chemicals: tests/cases/material_checks.json.

They were written by the author of the resistance table: agreement shows that table and rules are
consistent, not that an independent source confirms them. Each case names its source.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from areafit.verdict import Basis, Reason, Verdict

CASES = json.loads(
    (Path(__file__).parents[1] / "cases" / "material_checks.json").read_text("utf-8")
)
RATINGS = {"suitable": Verdict.PASS, "limited": Verdict.UNPROVEN, "unsuitable": Verdict.FLAG}


def least(case: dict[str, Any]) -> Basis:
    """Cases that rest on judgement are compared where judgement may pass."""
    return Basis.JUDGEMENT if "judgement" in case["basis"] else Basis.MEMORY


def named(case: dict[str, Any]) -> str:
    return "-".join(str(value) for value in list(case.values())[:5])


@pytest.mark.parametrize("case", CASES["material_checks"], ids=named)
def test_materials(resist: Any, case: dict[str, Any]) -> None:
    strength = None if case["conc_pct"] is None else f"{case['conc_pct']} %"
    answer = resist(
        case["material"],
        case["chemical"],
        strength,
        f"{case['temp_c']} °C",
        case["exposure"],
        least=least(case),
    )
    assert answer.verdict is RATINGS[case["expected"]], answer.text
    if case["expected"] == "limited":
        assert answer.decisive.reason is Reason.CONDITION_TO_ACCEPT


@pytest.mark.parametrize("case", CASES["galvanic_checks"], ids=named)
def test_couples(ask: Any, case: dict[str, Any]) -> None:
    answer = ask(
        "galvanic-couple",
        {"atmosphere": case["environment"], "chemicals": "none"},
        {"materials": [{"material": case["material_a"]}], "contacts": [{"with": "2", "wet": True}]},
        {"materials": [{"material": case["material_b"]}], "contacts": "none"},
        least=least(case),
    )
    expected = Verdict.PASS if case["expected"] == "acceptable" else Verdict.FLAG
    assert answer.verdict is expected, answer.text
    assert f"{round(case['delta_v'] * 1000)} mV" in answer.text
    if expected is Verdict.FLAG:
        assert answer.text.startswith(f"{case['expected_anode']} corrodes")


@pytest.mark.parametrize("case", CASES["chemical_pair_checks"], ids=named)
def test_pairs_of_chemicals(ask: Any, case: dict[str, Any]) -> None:
    answer = ask("chemicals-together", {"chemicals": [case["chemical_a"], case["chemical_b"]]})
    must_not = case["expected"] == "must not share"
    assert answer.verdict is (Verdict.FLAG if must_not else Verdict.PASS), answer.text
    blank = case["expected"] == "no incompatibility listed"
    assert ("No incompatibility listed" in answer.text) is blank


@pytest.mark.parametrize(
    ("material", "bath", "expected"),
    [
        # a hose maker's table: 304 and 316 good at 20 °C, bad at the boil only
        ("304", ("acetic acid", "50 %", "25 °C"), Verdict.PASS),
        ("304", ("acetic acid", "50 %", "60 °C"), Verdict.FLAG),
        ("316", ("acetic acid", "80 %", "25 °C"), Verdict.PASS),
        ("316", ("acetic acid", "80 %", "95 °C"), Verdict.UNPROVEN),
        # a steel maker's tables: good at 20 °C, 0.1 to 1 mm a year at 80 and 100 °C
        ("304L", ("formic acid", "5 %", "25 °C"), Verdict.PASS),
        ("304L", ("formic acid", "5 %", "60 °C"), Verdict.FLAG),
        # the same, titanium: 0.1 to 1 mm a year in 15 % at 22 °C and in 30 % at 27 °C
        ("titanium grade 2", ("hydrogen peroxide", "10 %", "20 °C"), Verdict.PASS),
        ("titanium grade 2", ("hydrogen peroxide", "30 %", "20 °C"), Verdict.UNPROVEN),
        ("titanium grade 2", ("hydrogen peroxide", "30 %", "25 °C"), Verdict.UNPROVEN),
    ],
)
def test_between_printed_heats_the_bad_one_begins_above_room_temperature(
    resist: Any, material: str, bath: tuple[str, str, str], expected: Verdict
) -> None:
    assert resist(material, *bath).verdict is expected


@pytest.mark.parametrize("exposure", ["immersed", "splash", "fume", "room"])
def test_silver_tarnishes_beside_bleach_and_titanium_does_not(resist: Any, exposure: str) -> None:
    # chlorine makes silver chloride, from memory; the print counts the loss of metal alone
    assert resist("silver", "sodium hypochlorite", "12 %", "25 °C", exposure).verdict.name != "PASS"
    titanium = resist("titanium grade 2", "sodium hypochlorite", "12 %", "25 °C", exposure)
    assert titanium.verdict is Verdict.PASS
