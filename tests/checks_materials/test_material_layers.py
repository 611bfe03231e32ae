"""Plastics lose nothing by the year, and what a solid metal may lose is more than a plating.

Sources stand at each test; `from memory`: textbook knowledge, not read again.
"""

from typing import Any

import pytest

from areafit.corrosion.rating import condition
from areafit.corrosion.relief import suffers
from areafit.tables import Tables
from areafit.tables.materials import PLATED, is_polymer
from areafit.tables.resistance import Mechanism, Rating, ResistanceRow
from areafit.verdict import Basis, Verdict

PASS, FLAG, UNPROVEN = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
TABLES = Tables.shipped()
ROWS = TABLES.rows("resistance", ResistanceRow)


def test_no_row_of_a_polymer_is_one_of_a_metal() -> None:
    # polymers swell, craze and embrittle: ISO/TR 10358 and ISO/TR 7620, from memory
    for row in ROWS:
        material = TABLES.materials(row.material)[0]
        if is_polymer(material):
            assert not row.mechanism.value.startswith("uniform"), (row.material, row.chemical)
            assert "a year" not in condition(suffers(row, material))


@pytest.mark.parametrize(
    ("material", "chemical", "strength", "heat"),
    [
        ("PVC-U", "hydrofluoric acid", "45 %", "20 °C"),
        ("HDPE", "acetic acid", "80 %", "50 °C"),
        ("NBR", "hydrochloric acid", "5 %", "20 °C"),
        ("PEEK", "nitric acid", "50 %", "20 °C"),
        ("GRP vinylester", "nitric acid", "30 %", "20 °C"),
        ("epoxy coating", "phosphoric acid", "50 %", "20 °C"),
        ("PVC cable jacket", "nitric acid", "10 %", "20 °C"),
        ("TPU-ether", "acetic acid", "3 %", "20 °C"),
    ],
)
def test_a_polymer_is_said_to_soften_swell_or_embrittle(
    resist: Any, material: str, chemical: str, strength: str, heat: str
) -> None:
    use = {"substrate": "304"} if "coating" in material else {}
    answer = resist(material, chemical, strength, heat, of_material=use)
    assert answer.verdict is UNPROVEN, answer.text
    assert "softening, swelling or embrittlement must be acceptable" in answer.text
    assert "a year" not in answer.text


@pytest.mark.parametrize(
    ("material", "chemical"),
    [("PC", "hydrofluoric acid"), ("VMQ", "sulfuric acid"), ("PMMA", "nitric acid")],
)
def test_one_that_fails_does_not_corrode(resist: Any, material: str, chemical: str) -> None:
    answer = resist(material, chemical, "50 %")
    assert answer.verdict is FLAG
    assert "softens, swells or turns brittle" in answer.text


def test_a_metal_still_loses_a_thickness(resist: Any) -> None:
    answer = resist("6061", "acetic acid", "5 %")
    assert answer.verdict is UNPROVEN
    assert "A loss of 0.1 to 1 mm a year must be acceptable" in answer.text


# A layer of 25 µm that loses 0.1 mm a year is gone in three months: arithmetic


@pytest.mark.parametrize(
    ("metals", "chemical"),
    [
        (("zinc-plated steel", "zinc die casting"), ("tap water", None)),
        (("hard anodised aluminium", "6061"), ("acetic acid", "5 %")),
        (("hard anodised aluminium", "6061"), ("hot water", None)),
        (("hard chrome", None), ("sodium hydroxide", "20 %")),
        (("electroless nickel", None), ("hydrochloric acid", "3 %")),
        (("electroless nickel", None), ("phosphoric acid", "10 %")),
        (("zinc-plated steel", None), ("sodium carbonate", "5 %")),
    ],
)
@pytest.mark.parametrize("exposure", ["immersed", "splash"])
def test_a_layer_that_a_solid_metal_could_spare_is_gone(
    resist: Any, metals: tuple[str, str | None], chemical: tuple[str, str | None], exposure: str
) -> None:
    layer, solid = metals
    answer = resist(layer, *chemical, exposure=exposure)
    assert answer.verdict is FLAG, answer.text
    assert "loses its layer" in answer.text
    assert "25 µm" in {row.value for row in answer.decisive.rows}
    if solid is not None:
        spared = resist(solid, *chemical, exposure=exposure, least=Basis.JUDGEMENT)
        assert spared.verdict is UNPROVEN, spared.text


def test_every_row_of_a_plating_that_is_limited_by_loss_fails_immersed(resist: Any) -> None:
    found = 0
    for row in ROWS:
        material = TABLES.materials(row.material)[0]
        loses = row.mechanism.value.startswith("uniform") and row.rating is Rating.LIMITED
        if material.family not in PLATED or not loses:
            continue
        strength = f"{row.conc_max_pct} %"
        heat = f"{20 if row.temp_max_c is None else min(row.temp_max_c, 20)} °C"
        assert resist(row.material, row.chemical, strength, heat).verdict is FLAG
        found += 1
    assert found > 20


@pytest.mark.parametrize(
    ("chemical", "strength", "expected"),
    [
        ("cooling lubricant", "5 %", UNPROVEN),
        ("ammonia water", "10 %", FLAG),
        ("nitric acid", "10 %", FLAG),
    ],
)
def test_a_plated_brass_is_no_worse_than_the_brass_that_shows_through(
    resist: Any, chemical: str, strength: str, expected: Verdict
) -> None:
    # common practice, no source: glands of nickel-plated brass are used where brass ones are
    plated = resist("nickel-plated brass", chemical, strength, "25 °C")
    bare = resist("brass C360", chemical, strength, "25 °C")
    assert plated.verdict is expected
    assert bare.verdict is expected
    assert "layer" not in " ".join(one.message for one in plated.judgements)


@pytest.mark.parametrize("chemical", ["marine air", "sea water"])
def test_hot_dip_zinc_wears_by_micrometres_and_is_no_flag(resist: Any, chemical: str) -> None:
    # ISO 14713-1, from memory: 4 to 8 µm a year in the air of a coast, of 45 to 85 µm
    answer = resist("hot-dip galvanised steel", chemical, None, "20 °C")
    assert answer.verdict is UNPROVEN
    assert "The layer lasts some years only" in answer.text


def test_a_plating_that_pits_stays_of_limited_use(resist: Any) -> None:
    # electroless nickel in sea water rusts through its pores: corrosion textbooks, from memory
    assert resist("electroless nickel", "sea water", None, "20 °C").verdict is UNPROVEN


def test_no_mechanism_is_left_without_a_condition() -> None:
    limited = {row.mechanism for row in ROWS if row.rating is Rating.LIMITED}
    general = condition(Mechanism.NONE)
    assert not [one for one in limited if condition(one) == general and one is not Mechanism.NONE]


# A film of 15 to 500 µm has pinholes, a lining of sheet is tested to have none: from memory; what
# is thicker than 500 µm is tested by high voltage (NACE SP0188, as pages on holiday tests tell it)


def _layer(thickness: str | None, substrate: str = "carbon steel") -> dict[str, str]:
    layer = {"component": "layer", "substrate": substrate}
    return layer if thickness is None else {**layer, "layer_thickness": thickness}


@pytest.mark.parametrize(
    ("material", "thickness", "expected"),
    [
        ("PTFE", "0.05 mm", FLAG),
        ("PVDF", "0.5 mm", FLAG),
        ("PTFE", None, UNPROVEN),
        ("PVDF", "1 mm", PASS),
        ("PP", "5 mm", PASS),
        ("NR", "4 mm", PASS),
        ("NR", None, UNPROVEN),
    ],
)
def test_a_film_over_steel_shows_it_to_the_acid_and_a_lining_does_not(
    resist: Any, material: str, thickness: str | None, expected: Verdict
) -> None:
    acid = ("hydrochloric acid", "20 %", "25 °C")
    answer = resist(material, *acid, of_material=_layer(thickness))
    assert answer.verdict is expected, answer.text
    assert resist(material, *acid).verdict is PASS  # solid
    splashed = resist(material, *acid, exposure="fume", of_material=_layer(thickness))
    assert splashed.verdict is resist(material, *acid, exposure="fume").verdict


def test_a_film_over_what_resists_is_no_question(resist: Any) -> None:
    answer = resist("PTFE", "nitric acid", "10 %", of_material=_layer(None, "316L"))
    assert answer.verdict is PASS


def test_a_film_over_an_unknown_metal_is_open(resist: Any) -> None:
    answer = resist("PTFE", "nitric acid", "10 %", of_material=_layer("25 µm", "wonder"))
    assert answer.verdict is UNPROVEN


def test_a_paint_has_pores_at_any_thickness(resist: Any) -> None:
    answer = resist("epoxy coating", "hydrochloric acid", "5 %", of_material=_layer("2 mm"))
    assert answer.verdict is FLAG, answer.text


@pytest.mark.parametrize(
    ("thickness", "found"), [("0.05 mm", {UNPROVEN}), (None, {UNPROVEN}), ("3 mm", set())]
)
def test_a_lining_keeps_the_acid_from_making_hydrogen(
    ask: Any, thickness: str | None, found: set[Verdict]
) -> None:
    use = {"material": "PP", "exposure": "immersed", **_layer(thickness)}
    acid = {"name": "hydrochloric acid", "concentration": "20 %", "temperature": "25 °C"}
    answer = ask("hydrogen-evolution", {"chemicals": [acid]}, {"materials": [use]})
    assert {one.verdict for one in answer.judgements} & {UNPROVEN, FLAG} == found
