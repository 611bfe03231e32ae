"""What would be better: nearest first, same use, and free of charge where an area asks for it."""

from datetime import date
from typing import Any

import pytest

from areafit.answers.better_material import better_materials
from areafit.demands import derive
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import Concentration, ConcentrationUnit, Place, PresentChemical
from areafit.facts.protection import Law
from areafit.facts.quantity import Range
from areafit.suggest import keeps_charge, suits
from areafit.tables import Tables
from areafit.verdict import Verdict

TABLES = Tables.shipped()


def demands(*chemicals: PresentChemical) -> Any:
    return derive(Place("case", Law.IEC, chemicals=chemicals), TABLES, date(2026, 1, 1))


def bath(name: str, strength: int) -> PresentChemical:
    from decimal import Decimal

    span = Range(Decimal(strength), Decimal(strength))
    warm = Range(Decimal(25), Decimal(25))
    return PresentChemical(name, Concentration(span, ConcentrationUnit.MASS), warm)


def test_the_nearest_come_first_and_all_stand_everything() -> None:
    where = demands(bath("sulfuric acid", 40), bath("nitric acid", 10))
    use = MaterialUse("316", exposure=Exposure.IMMERSED)
    (found,) = better_materials(use, where)
    assert found.suits
    assert found.suits[0].family.endswith("stainless steel")
    assert all("metal" in one.uses for one in found.suits)


def test_a_seal_is_answered_with_seals() -> None:
    use = MaterialUse("NBR", exposure=Exposure.IMMERSED)
    (found,) = better_materials(use, demands(bath("acetone", 100)))
    assert "EPDM" in [one.id for one in found.suits]
    assert all("seal" in one.uses for one in found.suits)
    assert not any(keeps_charge(one) for one in found.carries_charge_away)


def test_names_that_mean_several_and_names_unknown() -> None:
    where = demands(bath("sodium hydroxide", 5))
    assert len(better_materials(MaterialUse("POM", exposure=Exposure.IMMERSED), where)) == 2
    assert better_materials(MaterialUse("wood", exposure=Exposure.IMMERSED), where) == ()


def test_an_unknown_chemical_keeps_every_suggestion_back() -> None:
    where = demands(bath("sludge 9", 5))
    (found,) = better_materials(MaterialUse("316", exposure=Exposure.IMMERSED), where)
    assert (found.suits, found.carries_charge_away) == ((), ())


def test_coatings_and_judged_ratings_are_never_suggested() -> None:
    coating = TABLES.materials("epoxy coating")[0]
    assert not suits(coating, (), TABLES)


def test_a_classified_place_is_told_of_charge_and_of_a_cure_for_both(ask: Any) -> None:
    where = {
        "area": "Zone 1, IIB, T3",
        "chemicals": [{"name": "sodium hydroxide", "concentration": "5 %", "temperature": "25 °C"}],
    }
    part = {"materials": [{"material": "polycarbonate", "exposure": "immersed"}]}
    answer = ask("chemical-resistance", where, part)
    assert answer.verdict is Verdict.FLAG
    assert "may keep a charge" in answer.decisive.remedy


REMOVALS = [
    ({"rinsed": True}, {}),
    ({"mist": True}, {}),
    ({}, {"stressed": True}),
    ({}, {"component": "spring"}),
]
PAIRS = [
    ("316", "sulfuric acid", "2 %", "splash"),
    ("316", "sulfuric acid", "2 %", "fume"),
    ("polycarbonate", "acetic acid", "20 %", "immersed"),
    ("304", "hot water", "100 %", "immersed"),
    ("FKM", "acetone", "100 %", "fume"),
]


@pytest.mark.parametrize("pair", PAIRS)
@pytest.mark.parametrize(("of_chemical", "of_material"), REMOVALS)
def test_silence_never_makes_a_pass(
    ask: Any,
    of_chemical: dict[str, Any],
    of_material: dict[str, Any],
    pair: tuple[str, str, str, str],
) -> None:
    """Whatever single fact is left out, what did not pass still does not."""
    rule = "chemical-resistance"
    material, chemical, strength, exposure = pair
    met = {"name": chemical, "concentration": strength, "temperature": "80 °C", **of_chemical}
    use = {"material": material, "exposure": exposure, **of_material}
    full = ask(rule, {"chemicals": [met]}, {"materials": [use]})
    if full.verdict is Verdict.PASS:
        return
    for key in [*met, *use]:
        if key in ("name", "material"):
            continue
        where = {k: v for k, v in met.items() if k != key}
        what = {k: v for k, v in use.items() if k != key}
        answer = ask(rule, {"chemicals": [where]}, {"materials": [what]})
        assert answer.verdict in (Verdict.FLAG, Verdict.UNPROVEN), (key, answer.text)
