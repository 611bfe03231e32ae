"""Hard steel that went through a plating bath breaks by the hydrogen of it.

ISO 4042:2018, 4.4, as a page prints it: above 390 HV baking is required, from 360 to 390 HV not.
ISO 10684:2004, scope: bolts up to class 10.9 are hot-dip galvanised.
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
SILENT = Verdict.NOT_APPLICABLE
DRY = {"chemicals": "none", "ambient": "5..35 °C"}


def _screw(material: str, **more: Any) -> dict[str, Any]:
    screw = {"material": material, "component": "screw", "exposure": "room", **more}
    return {"materials": [screw]}


@pytest.mark.parametrize(
    ("material", "more", "expected"),
    [
        ("zinc plated steel", {"property_class": "12.9"}, UNPROVEN),
        ("zinc plated steel", {"property_class": "10.9"}, SILENT),
        ("zinc plated steel", {"property_class": "8.8"}, SILENT),
        ("zinc plated steel", {}, SILENT),
        ("zinc plated steel", {"hardness": "400..430 HV"}, UNPROVEN),
        ("zinc plated steel", {"hardness": "390 HV"}, SILENT),
        ("zinc plated steel", {"hardness": "42 HRC"}, UNPROVEN),
        ("zinc plated steel", {"property_class": "12.9", "stressed": False}, SILENT),
        ("ZnNi", {"property_class": "12.9"}, UNPROVEN),
        ("hard chrome", {"hardness": "60 HRC"}, UNPROVEN),
        ("hot-dip galvanised steel", {"property_class": "12.9"}, FLAG),
        ("hot-dip galvanised steel", {"property_class": "10.9"}, SILENT),
        ("8.8 zinc flake", {"property_class": "12.9"}, SILENT),  # ISO 10683: no pickling before
        ("Geomet", {"property_class": "12.9"}, SILENT),
        ("316", {"property_class": "12.9"}, SILENT),
        ("alloy steel", {"property_class": "12.9"}, SILENT),  # black, not plated
    ],
)
def test_what_is_harder_than_a_plating_bath_allows(
    ask: Any, material: str, more: dict[str, Any], expected: Verdict
) -> None:
    answer = ask("hydrogen-embrittlement", DRY, _screw(material, **more))
    assert answer.verdict is expected, answer.text


def test_a_class_in_the_name_counts(ask: Any) -> None:
    answer = ask("hydrogen-embrittlement", DRY, _screw("zinc plated steel 12.9"))
    assert answer.verdict is UNPROVEN
    assert "class 12.9" in answer.text


def test_near_acid_it_is_still_a_flag(ask: Any) -> None:
    acid = {"name": "hydrochloric acid", "concentration": "10 %", "temperature": "25 °C"}
    screw = _screw("zinc plated steel", property_class="12.9")
    screw["materials"][0]["exposure"] = "fume"
    assert ask("hydrogen-embrittlement", {"chemicals": [acid]}, screw).verdict is FLAG
