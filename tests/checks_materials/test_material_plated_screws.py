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
        ("zinc plated steel", {}, UNPROVEN),  # screws are sold as 8.8, 10.9 and 12.9
        ("zinc plated steel", {"property_class": "tbd"}, UNPROVEN),
        ("zinc plated steel", {"stressed": False}, SILENT),
        ("zinc plated steel 8.8", {}, SILENT),
        ("zinc plated steel", {"component": "screw M8x25 - 8.8"}, SILENT),
        ("zinc plated steel", {"component": "screw M8x25 - 12.9"}, UNPROVEN),
        ("zinc plated steel", {"component": "screw M10x1.25"}, UNPROVEN),  # a pitch is no class
        ("zinc plated steel", {"component": "set screw"}, SILENT),  # ISO 898-5: no tension
        ("zinc plated steel", {"component": "fasteners"}, UNPROVEN),
        ("zinc plated steel", {"component": "Zylinderschraube"}, UNPROVEN),
        ("zinc plated steel", {"component": "bracket"}, SILENT),
        ("zinc plated steel", {"component": "washer"}, SILENT),
        ("zinc plated steel", {"component": "nut"}, SILENT),
        ("zinc flake coated steel", {}, SILENT),
        ("hot-dip galvanised steel", {}, UNPROVEN),
        ("A2-70", {}, SILENT),
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


@pytest.mark.parametrize(
    ("description", "component", "expected"),
    [
        ("Cap screw, ISO 4762 M8x25", None, UNPROVEN),
        ("Cap screw, ISO 4762 M8x25 8.8", None, SILENT),
        ("Hexagon head screw ISO 4017 - M10x40 - 12.9", "body", UNPROVEN),
        ("Hexagon head screw M10x40, 10.9", "body", SILENT),
        ("Bracket", "body", SILENT),
        ("Screw conveyor", "flight", SILENT),
        ("Eye bolt M12", None, SILENT),
    ],
)
def test_a_line_that_is_a_screw_prints_its_class(
    ask: Any, description: str, component: str | None, expected: Verdict
) -> None:
    """ISO 8991, from memory: the designation of a fastener holds its property class."""
    piece = {"material": "zinc plated steel", "exposure": "room"}
    if component is not None:
        piece["component"] = component
    part = {"description": description, "materials": [piece]}
    assert ask("hydrogen-embrittlement", DRY, part).verdict is expected


def test_a_class_that_a_name_denies_counts_as_the_harder(ask: Any) -> None:
    part = _screw("zinc plated steel", property_class="8.8")
    part["description"] = "Cap screw ISO 4762 M8x25 - 12.9"
    answer = ask("hydrogen-embrittlement", DRY, part)
    assert answer.verdict is UNPROVEN
    assert "class 12.9" in answer.text


def test_near_acid_the_class_is_asked_once_and_read_from_the_name(ask: Any) -> None:
    """ISO 4042 and ISO 898-1, from memory: class 8.8 serves near baths."""
    acid = {"name": "hydrochloric acid", "concentration": "10 %", "temperature": "25 °C"}
    for material, expected in (("zinc plated steel", UNPROVEN), ("zinc plated steel 8.8", PASS)):
        screw = _screw(material)
        screw["materials"][0]["exposure"] = "fume"
        answer = ask("hydrogen-embrittlement", {"chemicals": [acid]}, screw)
        assert answer.verdict is expected
        assert answer.text.count("not stated.") == (expected is UNPROVEN)
