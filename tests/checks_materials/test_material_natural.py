"""Wood, cork, hide and fibre: known by name, and nothing passes by it.

From memory: they take up what wets them, rot and burn; strong nitric acid, peroxide and perchloric
acid may set them on fire, strong sulfuric acid dissolves them, caustic dissolves wool and hide.
"""

from collections.abc import Callable
from typing import Any

import pytest

from areafit.tables import Tables
from areafit.tables.materials import is_natural
from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
T = Tables.shipped()
Say = Callable[..., Verdict]
NATURAL = ("wood", "plywood", "cork", "leather", "wool felt", "cotton", "paper", "hemp")
NAMES = {
    "wood": "timber oak Holz Eiche bois chêne legno rovere madera roble",
    "plywood": "MDF OSB Sperrholz Spanplatte contreplaqué compensato contrachapado",
    "cork": "cork Kork Presskork liège sughero corcho",
    "leather": "leather Leder Rindleder cuir cuoio cuero",
    "wool-felt": "wool Wollfilz Wolle laine lana",
    "cotton": "cotton Baumwolle coton cotone algodón",
    "paper": "cardboard Pappe Karton carton cartone cartón Vulkanfiber Pressspan cellulose",
    "hemp": "hemp jute sisal Hanf chanvre canapa cáñamo lino",
}


@pytest.mark.parametrize(
    ("identity", "name"), [(k, n) for k, v in NAMES.items() for n in v.split()]
)
def test_names_in_five_languages(identity: str, name: str) -> None:
    """Common practice, no source."""
    assert [one.id for one in T.materials(name)] == [identity]


@pytest.mark.parametrize(
    ("name", "natural"),
    [
        ("felt", True),
        ("Filz", True),
        ("feutre", True),
        ("feltro", True),
        ("fieltro", True),
        ("cork rubber", True),
        ("Gewebe", True),
        ("rope", True),
        ("PET felt", False),  # unknown, or the plastic
        ("phenolic cotton laminate", False),
        ("Hartpapier", False),
        ("leatherette", False),
    ],
)
def test_a_name_that_may_mean_a_fibre_is_judged_as_one(name: str, *, natural: bool) -> None:
    """Common practice, no source."""
    assert any(map(is_natural, T.materials(name))) is natural


@pytest.mark.parametrize("material", [*NATURAL, "felt", "rope"])
@pytest.mark.parametrize("exposure", ["immersed", "splash", "fume", "room"])
@pytest.mark.parametrize(
    "chemical",
    [
        ("sulfuric acid", "5 %", "25 °C"),
        ("sodium hydroxide", "2 %", "25 °C"),
        ("tap water", "100 %", "20 °C"),
        ("acetone", "100 %", "20 °C"),
        ("hydrochloric acid", "10 %", "20 °C"),
        ("mineral oil", "100 %", "20 °C"),
        ("hydrogen", "100 %", "20 °C"),
        ("oxygen", "100 %", "20 °C"),
    ],
)
def test_no_liquid_and_no_vapour_passes(
    resist: Any, material: str, exposure: str, chemical: tuple[str, str, str]
) -> None:
    assert resist(material, *chemical, exposure).verdict is not PASS


@pytest.mark.parametrize(
    ("material", "chemical", "expected"),
    [
        ("wood", ("nitric acid", "65 %", "20 °C"), FLAG),
        ("cotton", ("nitric acid", "60 %", "20 °C"), FLAG),
        ("leather", ("fuming nitric acid", "95 %", "20 °C"), FLAG),
        ("wood", ("nitric acid", "10 %", "20 °C"), UNPROVEN),
        ("paper", ("hydrogen peroxide", "50 %", "20 °C"), FLAG),
        ("paper", ("hydrogen peroxide", "3 %", "20 °C"), UNPROVEN),
        ("hemp", ("perchloric acid", "70 %", "20 °C"), FLAG),
        ("cork", ("sulfuric acid", "90 %", "20 °C"), FLAG),
        ("cork", ("sulfuric acid", "20 %", "20 °C"), UNPROVEN),
        ("wool felt", ("sodium hydroxide", "20 %", "20 °C"), FLAG),
        ("leather", ("sodium hypochlorite", "10 %", "20 °C"), FLAG),
        ("cotton", ("sodium hydroxide", "20 %", "20 °C"), UNPROVEN),  # mercerised, not dissolved
        ("felt", ("sodium hydroxide", "20 %", "20 °C"), UNPROVEN),  # of wool, or of a plastic
    ],
)
def test_what_dissolves_or_ignites_it_is_flagged(
    resist: Any, material: str, chemical: tuple[str, str, str], expected: Verdict
) -> None:
    answer = resist(material, *chemical, "immersed")
    if material == "felt":
        assert answer.verdict is not PASS
    else:
        assert answer.verdict is expected, answer.text


@pytest.mark.parametrize("material", [*NATURAL, "felt"])
def test_the_finding_says_why_there_is_no_data(resist: Any, material: str) -> None:
    text = resist(material, "sulfuric acid", "5 %", "25 °C").text
    assert "it takes up what wets it, and burns; no table rates it" in text


@pytest.mark.parametrize("material", [*NATURAL, "felt", "rope"])
def test_moisture_decides_how_it_carries_charge_away(say: Say, material: str) -> None:
    """From memory: paper, wood and cotton dissipate in damp air and insulate in dry air."""
    part = f"kind: structural, materials: [{{material: {material}, surface_area: 5000 cm²}}]"
    assert say("static-surface", part, "area: 'Zone 1, IIB, T3'") is not PASS
    told = f"kind: structural, materials: [{{material: {material}, surface_resistance: 100 MΩ}}]"
    assert say("static-surface", told, "area: 'Zone 1, IIB, T3'") is PASS


@pytest.mark.parametrize(
    ("material", "warm", "expected"),
    [
        ("wood", "45 °C", PASS),
        ("wood", "90 °C", FLAG),
        ("leather", "80 °C", FLAG),
        ("cotton", "120 °C", FLAG),
        ("felt", "90 °C", FLAG),
    ],
)
def test_it_chars_where_it_is_hot(say: Say, material: str, warm: str, expected: Verdict) -> None:
    """From memory: what is warm for long dries out and chars far below its ignition."""
    part = f"kind: structural, materials: [{{material: {material}, temperature: {warm}}}]"
    place = "area: unclassified, ambient: 5..40 °C, chemicals: none"
    assert say("material-temperature", part, place) is expected
