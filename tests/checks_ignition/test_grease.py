"""Grease is listed as a component, and judged only where it can do harm.

Common practice, no source: a film of grease is no body that keeps a charge, no metal, and nothing
that rubs or strikes. Whether a chemical dissolves it no row says, so that it stays open.
"""

from datetime import date

import pytest

import areafit
from areafit.verdict import Verdict, worst

GREASES = ["lithium grease", "PFPE grease", "food grade grease", "Silikonfett"]
LIST = """\
areafit: 1
assembly: {number: T-9}
code: IEC
locations:
  head: {area: 'Zone 1, IIC, T4', ambient: 5..40 °C, atmosphere: normal, chemicals: CHEMICALS}
parts:
  - {item: "1", location: head, kind: mechanical, bonded: true, exposure: splash,
     materials: [{component: race, material: "316L"}, {component: filling, material: GREASE}],
     contacts: none, materials_complete: true}
"""
BATH = "[{name: ethanol, concentration: 100 %, temperature: 20 °C}]"


def _of(grease: str, rule: str, chemicals: str = "none", more: str = "") -> Verdict:
    text = LIST.replace("CHEMICALS", chemicals).replace("GREASE", grease + more)
    report = areafit.judge(
        areafit.read(text.encode(), "t"),
        areafit.Tables.shipped(),
        areafit.Options(as_of=date(2026, 1, 1)),
    )
    found = [f for f in report.parts[0].findings() if f.rule.id == rule]
    own = [f.verdict for f in found if f.component in ("filling", None)]
    return worst(own) if own else Verdict.NOT_APPLICABLE


@pytest.mark.parametrize("grease", GREASES)
@pytest.mark.parametrize("rule", ["static-surface", "light-metal", "galvanic-couple"])
def test_grease_asks_nothing_of_charge_metal_or_rubbing(grease: str, rule: str) -> None:
    assert _of(grease, rule) in (Verdict.PASS, Verdict.NOT_APPLICABLE)


@pytest.mark.parametrize("grease", GREASES)
def test_what_a_chemical_does_to_grease_is_open(grease: str) -> None:
    assert _of(grease, "chemical-resistance", BATH) is Verdict.UNPROVEN


def test_an_unknown_grease_is_no_grease() -> None:
    assert _of("special grease 7", "static-surface") is Verdict.UNPROVEN


def test_a_grease_that_is_said_to_insulate_as_a_body_is_judged_as_one() -> None:
    stated = _of("lithium grease", "static-surface", more=", surface_resistance: 1e12 ohm")
    assert stated is not Verdict.PASS
