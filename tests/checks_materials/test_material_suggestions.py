"""What would be better: nearest first, same use, and free of charge where an area asks for it."""

from datetime import date
from typing import Any

import pytest

import areafit
from areafit.corrosion.better import Better, better_than, suits
from areafit.demands import derive
from areafit.demands.meeting import meetings
from areafit.engine import judge
from areafit.facts.part import Exposure, MaterialUse
from areafit.facts.place import Concentration, ConcentrationUnit, Place, PresentChemical
from areafit.facts.protection import Law
from areafit.facts.quantity import Range
from areafit.options import Options
from areafit.tables import Tables
from areafit.tables.materials import Material, is_elastomer
from areafit.verdict import Verdict, worst

TABLES = Tables.shipped()


def demands(*chemicals: PresentChemical) -> Any:
    return derive(Place("case", Law.IEC, chemicals=chemicals), TABLES, date(2026, 1, 1))


def bath(name: str, strength: int) -> PresentChemical:
    from decimal import Decimal

    span = Range(Decimal(strength), Decimal(strength))
    warm = Range(Decimal(25), Decimal(25))
    return PresentChemical(name, Concentration(span, ConcentrationUnit.MASS), warm)


def named(material: str, where: Any, exposure: Exposure = Exposure.IMMERSED) -> Better:
    """What is named instead of a material for the first chemical that it meets."""
    use = MaterialUse(material, exposure=exposure)
    met = meetings(use, where)
    return better_than(use, TABLES.materials(material)[0], met[0], where, lambda _: Verdict.PASS)


def test_the_nearest_come_first_and_all_stand_everything() -> None:
    where = demands(bath("sulfuric acid", 40), bath("nitric acid", 10))
    found = named("316", where)
    assert found.everywhere
    rows = [TABLES.materials(name)[0] for name in found.names]
    assert rows[0].family.endswith("stainless steel")
    assert all("metal" in row.uses for row in rows)
    use = MaterialUse("316", exposure=Exposure.IMMERSED)
    mets = [met for meeting in meetings(use, where) for met in meeting.mets]
    assert len(mets) > 1
    assert all(suits(row, mets, TABLES) for row in rows)


def test_a_seal_is_answered_with_seals() -> None:
    found = named("NBR", demands(bath("acetone", 100)))
    assert "EPDM" in found.names
    assert all(is_elastomer(TABLES.materials(name)[0]) for name in found.names)


def test_beside_an_unknown_chemical_what_stands_the_known_one_is_told_as_that(ask: Any) -> None:
    found = named("316", demands(bath("sulfuric acid", 40), bath("sludge 9", 5)))
    assert found.names
    assert not found.everywhere
    acid = {"name": "sulfuric acid", "concentration": "40 %", "temperature": "25 °C"}
    part = {"materials": [{"material": "316", "exposure": "immersed"}]}
    remedy = ask("chemical-resistance", {"chemicals": [acid, {"name": "sludge 9"}]}, part)
    assert "this chemical, though not all here" in remedy.decisive.remedy


def test_no_light_metal_is_named_where_the_atmosphere_may_explode(ask: Any) -> None:
    alkali = [{"name": "sodium hydroxide", "concentration": "2 %", "temperature": "60 °C"}]
    part = {"materials": [{"material": "aluminium 6061", "exposure": "splash"}]}
    for area, free in (("unclassified", True), ("Zone 1, IIB, T3", False)):
        where = {"area": area, "chemicals": alkali}
        remedy = ask("chemical-resistance", where, part).decisive.remedy
        assert ("Mg-AZ91" in remedy) is free, remedy


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


_TRIED = [
    (name, chemical)
    for name in ("NBR", "EPDM", "FKM", "silicone", "FFKM", "PTFE", "304")
    for chemical in ("chlorine", "ethylene oxide", "bromine", "acetone", "nitric acid")
]


@pytest.mark.parametrize(("name", "chemical"), _TRIED)
def test_what_is_named_resists_and_what_is_not_named_does_not(name: str, chemical: str) -> None:
    """The remedy is true: each material named passes; where none is, none of that use passes."""
    tables = Tables.shipped()

    def judged(material: str) -> tuple[Verdict, str]:
        text = (
            "areafit: 1\nassembly: {number: T-1}\ncode: IEC\nlocations: {a: {chemicals: [{name: "
            f"{chemical}, concentration: 98 %, temperature: 60 °C}}]}}}}\nparts: [{{item: '1', "
            "location: a, kind: structural, materials: [{component: seal, "
            f"material: '{material}', exposure: immersed}}]}}]\n"
        )
        only = frozenset({"chemical-resistance"})
        report = judge(
            areafit.read(text.encode(), "t.yaml"),
            tables,
            Options(as_of=date(2026, 1, 1), only=only),
        )
        found = [each.judgement for block in report.parts[0].blocks for each in block.judged]
        return worst(each.verdict for each in found), " ".join(each.remedy for each in found)

    verdict, remedy = judged(name)
    if verdict is Verdict.PASS:
        return
    if "hold none" in remedy:
        [row] = tables.materials(name)
        same = [
            each
            for each in tables.rows("materials", Material)
            if set(each.uses) & set(row.uses) and each.id != row.id
        ]
        assert all(judged(each.id)[0] is not Verdict.PASS for each in same), remedy
    for named in remedy.partition("resists all chemicals here: ")[2].rstrip(".").split("; "):
        if named:
            assert judged(named.partition(" (")[0])[0] is Verdict.PASS, (name, named)
