"""Stainless steel in stainless steel, and what is left along its welds.

Common practice with stainless fasteners and pickling, from memory, unless a source stands there.
"""

from typing import Any

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
DRY = {"chemicals": "none", "ambient": "5..40 °C"}


def runs(ask: Any, *uses: dict[str, Any]) -> Any:
    return ask("galling", DRY, {"materials": list(uses), "contacts": "none"})


def one(component: str, material: str, **more: str) -> dict[str, Any]:
    return {"component": component, "material": material, **more}


@pytest.mark.parametrize(
    ("outer", "inner"),
    [
        ("screw", "nut"),
        ("cap screws", "lock nuts"),
        ("stud", "threaded insert"),
        ("spindle", "threaded bush"),
        ("pin", "bush"),
        ("hinge pin", "sleeve"),
        ("shaft", "bushing"),
        ("slide", "rail"),
        ("carriage", "guide"),
    ],
)
def test_stainless_in_stainless_is_told_with_its_ways_out(ask: Any, outer: str, inner: str) -> None:
    for own, other in (("304", "316L"), ("A4", "A2"), ("2205", "304"), ("17-4PH", "316")):
        found = runs(ask, one(outer, own), one(inner, other))
        assert found.verdict is UNPROVEN, found.text
    assert len(runs(ask, one(outer, "304"), one(inner, "304")).judgements) == 1


@pytest.mark.parametrize("other", ["tin bronze", "PTFE", "zinc-plated steel", "POM-C", "brass"])
def test_another_metal_or_a_plastic_does_not_gall(ask: Any, other: str) -> None:
    assert runs(ask, one("screw", "316L"), one("nut", other)).verdict is SILENT
    assert runs(ask, one("pin", other), one("bush", "316L")).verdict is SILENT


def test_a_counterface_is_taken_before_the_rest_of_the_part(ask: Any) -> None:
    assert runs(ask, one("shaft", "316", counterface="304")).verdict is UNPROVEN
    assert runs(ask, one("shaft", "316", counterface="tin bronze")).verdict is SILENT
    assert runs(ask, one("shaft", "316", counterface="none")).verdict is SILENT
    in_bronze = one("screw", "304", counterface="tin bronze")
    assert runs(ask, in_bronze, one("nut", "304")).verdict is SILENT


@pytest.mark.parametrize(
    ("own", "other", "expected"),
    [
        ("180 HB", "300 HB", PASS),
        ("180 HB", "230 HB", PASS),
        ("180 HB", "229 HB", UNPROVEN),
        ("300 HB", "180 HB", PASS),
        ("160..200 HB", "240 HB", UNPROVEN),
        ("180 HB", "30 HRC", UNPROVEN),
        ("180 HB", None, UNPROVEN),
        ("180 HV", "300 HV", PASS),
    ],
)
def test_two_of_different_hardness(
    ask: Any, own: str, other: str | None, expected: Verdict
) -> None:
    mate = {} if other is None else {"hardness": other}
    found = runs(ask, one("screw", "304", hardness=own), one("nut", "420", **mate))
    assert found.verdict is expected, found.text


def test_what_does_not_run_in_each_other_is_not_asked(ask: Any) -> None:
    assert runs(ask, one("body", "303"), one("spring", "302")).verdict is SILENT
    assert runs(ask, one("screw", "304")).verdict is SILENT
    assert runs(ask, one("screw", "304"), one("bush", "304")).verdict is SILENT
    assert runs(ask, one("screw", "304"), one("housing", "316L")).verdict is SILENT


def test_of_two_lines_that_touch(ask: Any) -> None:
    def lines(own: dict[str, Any], other: dict[str, Any]) -> Any:
        first = {"materials": [own], "contacts": [{"with": "2"}]}
        return ask("galling-of-lines", DRY, first, {"materials": [other], "contacts": "none"})

    assert lines(one("screw", "304"), one("nut", "316")).verdict is UNPROVEN
    assert lines(one("plate", "304"), one("bolt", "316")).verdict is UNPROVEN
    assert lines(one("screw", "304"), one("bush", "316")).verdict is SILENT
    assert lines(one("plate", "304"), one("cover", "316")).verdict is SILENT
    assert lines(one("screw", "304"), one("nut", "brass")).verdict is SILENT
    hard = one("nut", "420", hardness="300 HB")
    assert lines(one("screw", "304", hardness="180 HB"), hard).verdict is PASS


# Finish: heat tint is poor in chromium below and pits first; pickling takes it off (SSINA page on
# descaling). That it counts as a crevice is own reasoning.


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({"welded": True, "finish": "as welded"}, UNPROVEN),
        ({"welded": True}, UNPROVEN),
        ({"welded": True, "finish": "pickled"}, PASS),
        ({"welded": True, "finish": "electropolished"}, PASS),
        ({"finish": "as welded"}, UNPROVEN),
        ({"welded": False}, PASS),
        ({"welded": False, "finish": "pickled"}, PASS),
    ],
)
@pytest.mark.parametrize("steel", ["304", "316L"])
def test_heat_tint_pits_first(
    ask: Any, steel: str, more: dict[str, Any], expected: Verdict
) -> None:
    use = {"material": steel, "exposure": "immersed", "crevice": False, **more}
    met = {"name": "tap water", "chloride": "150 mg/L", "temperature": "20 °C"}
    found = ask("pitting", {"chemicals": [met]}, {"materials": [use]})
    assert found.verdict is expected, found.text


def test_finish_is_asked_only_where_it_decides(ask: Any) -> None:
    use = {"exposure": "immersed", "crevice": False, "welded": True}

    def at(steel: str, chloride: str) -> Verdict:
        met = {"name": "tap water", "chloride": chloride, "temperature": "20 °C"}
        part = {"materials": [{**use, "material": steel}]}
        found: Verdict = ask("pitting", {"chemicals": [met]}, part).verdict
        return found

    assert at("304", "15 mg/L") is PASS
    assert at("316L", "90 mg/L") is PASS
    assert at("316L", "110 mg/L") is UNPROVEN
    assert at("304", "1500 mg/L") is FLAG


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ({"welded": True, "finish": "pickled"}, PASS),
        ({"welded": False}, PASS),
        ({"welded": True, "finish": "as welded"}, UNPROVEN),
        ({"welded": True}, UNPROVEN),
    ],
)
def test_heat_tint_rusts_in_salt_air(ask: Any, more: dict[str, Any], expected: Verdict) -> None:
    use = {"material": "316L", "exposure": "immersed", "crevice": False, **more}
    place = {"chemicals": ["marine air"], "ambient": "0..35 °C"}
    found = ask("salt-air", place, {"materials": [use]})
    assert found.verdict is expected, found.text
