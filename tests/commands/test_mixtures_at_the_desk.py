"""Mixtures of liquids: what the desk, the purchase specification and the dossier say of them."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

Call = Callable[..., str]
BATH = """\
areafit: 1
assembly: {number: M-1, title: Rinse cell}
code: IEC
locations:
  rinse:
    area: unclassified
    document: AC-1
    ambient: 5..35 °C
    chemicals: none
    substances:
      - {mixture: {isopropanol: 15 %, water: rest}, temperature: 20..40 °C}
      - {mixture: {toluene: 3 %, water: rest}, temperature: 15 °C}
parts: [{item: "1", location: rinse, kind: structural}]
"""


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ("isopropanol 15 %, water 80 %", "make up only 95 %"),
        ("isopropanol 60 %, water 60 %", "make up 120 %"),
        ("isopropanol rest, water rest", "two components are the rest"),
        ("isopropanol -5 %, water rest", "'-5 %' is less than nothing"),
        ("isopropanol 15 vol %, water", "write 15 % v/v"),
        ("isopropanol 15 wt%, water", "write 15 %"),
        ("isopropanol 15, water rest", "'15' has no unit; write one of % (by mass), % v/v, mol %"),
        ("isopropanol 15 g/L, water", "'15 g/L' is no share of the whole"),
        ("isopropanol 50 ppm, water", "does not say parts of what"),
        ("isopropanol 5,5 %, water", "write 5.5 %"),
        ("isopropanol 15 % v/v, water 85 %", "in different units"),
        ("ethanol 5 %, ethanol 6 %, water", "'ethanol' stands there twice"),
        ("unobtainium 15 %, water", "no substance 'unobtainium' is known"),
        ("isoproponol 15 %, water", "near to it: isopropanol"),
    ],
)
def test_shares_and_names_that_are_refused(call: Call, shares: str, says: str) -> None:
    assert says in call("substance", shares, status=2, both=True)


@pytest.mark.parametrize(
    "shares",
    [
        "ethanol 5..20 %, water",
        "water, ethanol 5 to 20 %",
        "5..20 % ethanol, water",
        "ethanol: 5..20 %; water: rest",
        "5 to 20% ethanol and water",
    ],
)
def test_shares_are_read_however_they_are_written(call: Call, shares: str) -> None:
    assert call("substance", shares).startswith("computed flash point 30.7 °C")


@pytest.mark.parametrize(
    ("shares", "says"),
    [
        ("toluene 10 %, water", "separates into two liquids"),
        ("ethanol 5 %, acetic acid 5 %, water", "acetic acid makes the liquid an electrolyte"),
        ("dichloromethane 5 %, ethanol", "dichloromethane is halogenated"),
        ("propane 5 %, ethanol", "propane is a gas at room temperature"),
        ("white spirit 5 %, ethanol", "of white spirit no groups are known"),
        ("isobutanol 5 % v/v, toluene", "State the shares by mass"),
        ("NaOH 5 %, water", "no flash point: nothing in it burns"),
    ],
)
def test_what_is_not_computed_is_told_with_its_reason(call: Call, shares: str, says: str) -> None:
    assert says in " ".join(call("substance", shares).split())


@pytest.mark.parametrize(
    ("temperature", "says"),
    [
        ("40 °C", "gives off vapour that burns at 40 °C"),
        ("120 °C", "It boils at about"),
        ("-30 °C", "Ice may separate from it"),
    ],
)
def test_it_is_told_what_becomes_of_it(call: Call, temperature: str, says: str) -> None:
    said = call("substance", "ethanol 15 %, water", "--temperature", temperature)
    assert says in " ".join(said.split())


def test_the_purchase_specification_has_a_line_of_each(call: Call, folder: Path) -> None:
    (folder / "bath.yaml").write_text(BATH, encoding="utf-8")
    said = " ".join(call("need", "bath.yaml").split())
    assert "isopropanol 15 %, water: gives off vapour that burns at 40 °C" in said
    assert "toluene 3 %, water: flash point not computed: it separates" in said
    [place] = json.loads(call("need", "bath.yaml", "--format", "json"))["locations"]
    assert [one["liquid"] for one in place["liquids"]] == [
        "isopropanol 15 %, water",
        "toluene 3 %, water",
    ]
    assert place["liquids"][0]["computed_by"].startswith("UNIFAC")
    assert "isopropanol 15 %, water" in call("need", "bath.yaml", "--format", "markdown")


def test_the_dossier_draws_the_flash_point_over_the_composition(call: Call, folder: Path) -> None:
    (folder / "bath.yaml").write_text(BATH, encoding="utf-8")
    page = call("check", "bath.yaml", "--format", "html", status=1)
    assert "Flash point of isopropanol 15 %, water over the share of isopropanol: 24.1 °C" in page
    assert "stated: 15 %, 24.1 °C" in page
    assert "up to 40 °C here" in page
    assert "dotted: less 19 K of error and margin" in page
    assert page.count('<polyline class="sum"') == 1  # none of the two liquids
    assert "<script" not in page
    assert "it separates into two liquids" in page
