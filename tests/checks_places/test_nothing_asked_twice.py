"""Questions that a document, another question or nobody could answer are not asked.

Sources, from memory: IEC 60079-0:2017 7.5, 9, 26.4.3 (portable equipment is dropped, its fasteners
and what its metal stores are examined) and 29 (IIB+H2); IEC 60079-1:2014 15 (IIC is tested with
hydrogen and acetylene); NFPA 499 and the trade's tables for coal. The rest is common practice.
"""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.rule import Row, of_a_pass
from areafit.tables import Tables
from areafit.verdict import Basis, Verdict, worst

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
Z1 = "area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C"


# A rubber gasket has no metal


@pytest.mark.parametrize(
    ("materials", "expected"),
    [
        ("{component: gasket, material: EPDM}", N),
        ("{component: gasket, material: FKM}", N),
        ("{component: gasket, material: EPDM, surface_resistance: 1e3 ohm}", U),
        ("{component: window, material: borosilicate glass}", N),
        ("{component: gasket, material: EPDM}, {component: ring, material: '304'}", U),
        ("{component: gasket, material: house rubber 7}", U),
        ("{component: gasket, material: EPDM, backing: metal}", U),
    ],
)
def test_rubber_is_not_asked_for_the_earth_of_its_metal(
    say: Say, materials: str, expected: Verdict
) -> None:
    part = f"kind: structural, materials: [{materials}]"
    assert say("bonding", part, Z1) is expected
    assert say("static-surface", "kind: structural, materials: [{material: EPDM}]", Z1) is U
    assert say("bonding", "kind: mechanical, materials: [{material: EPDM}]", Z1) is U


# A certified portable instrument is no hand tool

TYPED = "[{type: certificate, number: ABC 21 ATEX 0001}, {type: declaration, number: D-1}]"
CERTIFIED = f"evidence: {TYPED}"
HANDHELD = "kind: [electrical, loose item], marking: II 2G Ex ia IIC T4 Gb, {}"
HAND_TOOL = ("ignition-hazard", "impact", "bonding", "loose-parts", "tool-release", "hand-tools")


@pytest.mark.parametrize("rule", HAND_TOOL)
def test_a_certified_instrument_in_the_hand(say: Say, rule: str) -> None:
    assert say(rule, HANDHELD.format(CERTIFIED), Z1, "ATEX") in (P, N)
    if rule != "hand-tools":
        assert say(rule, f"kind: loose item, {CERTIFIED}", Z1, "ATEX") is U
        assert say(rule, "kind: [electrical, loose item]", Z1, "ATEX") is U


@pytest.mark.parametrize("rule", HAND_TOOL)
def test_what_its_papers_lack_holds_an_instrument_in_the_hand(say: Say, rule: str) -> None:
    zone0 = Z1.replace("Zone 1", "Zone 0")
    assert say("evidence", HANDHELD.format("evidence: none"), Z1, "ATEX") in (U, F)
    assert say(rule, HANDHELD.format("evidence: none"), Z1, "ATEX") is N
    assert say("protection-level", HANDHELD.format(CERTIFIED), zone0, "ATEX") is F
    assert say(rule, HANDHELD.format(CERTIFIED), zone0, "ATEX") is N


def test_what_is_stated_of_it_counts_all_the_same(say: Say) -> None:
    part = f"{HANDHELD.format(CERTIFIED)}, loose_parts: free, protects: true, release: hand"
    assert say("loose-parts", part, Z1, "ATEX") is F
    assert say("tool-release", part, Z1, "ATEX") is F
    assert say("bonding", f"{HANDHELD.format(CERTIFIED)}, bonded: false", Z1, "ATEX") is F


# Hydrogen is the reason for IIC where the document's list says so


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen], document: AC-1", P),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen, ethanol], document: AC-1", P),
        ("area: 'Zone 1, IIC, T1', substances: [H2], document: AC-1", P),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen]", U),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen], document: tbd", U),
        ("area: 'Zone 1, IIC, T1', substances: [ethanol], document: AC-1", F),
        ("area: 'Zone 1, IIC, T1', document: AC-1", F),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen, acetylene], document: AC-1", F),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen, solvent 9], document: AC-1", U),
    ],
)
def test_iib_with_hydrogen(say: Say, place: str, expected: Verdict) -> None:
    assert say("gas-group", "kind: electrical, marking: Ex db IIB+H2 T1 Gb", place) is expected


# An assembly is made of the lines mounted in it

ASSEMBLY = """areafit: 1
assembly: {{number: T-1}}
code: IEC
locations:
  bay: {{area: unclassified, chemicals: [{{name: sodium hydroxide, concentration: 2 %}}]}}
parts:
  - {{item: '1', location: bay, kind: structural, description: Tilting unit{}}}
{}"""
PLATE = """  - {item: '1.1', parent: '1', kind: structural, description: Plate, contacts: none,
     materials: [{material: 316L, exposure: splash}], materials_complete: true}
"""


@pytest.mark.parametrize(
    ("more", "lines", "expected"),
    [
        (", materials: none", PLATE, P),
        (", materials: none", "", U),
        ("", PLATE, U),
        (", materials: none, materials_complete: false", PLATE, U),
    ],
)
def test_an_assembly_may_be_made_of_its_lines(more: str, lines: str, expected: Verdict) -> None:
    bom = areafit.read(ASSEMBLY.format(more, lines).encode(), "t.yaml")
    only = frozenset({"materials-listed"})
    part = judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1), only=only)).parts[0]
    found = [j.judgement for block in part.blocks for j in block.judged]
    assert worst(each.verdict for each in found) is expected
    if expected is U and lines and not more:
        assert any("`materials: none`" in each.remedy for each in found)


# A stated fact that meets a condition discharges it


@pytest.mark.parametrize(
    ("grade", "chemical", "expected"),
    [
        ("316L", "concentration: 30 %, temperature: 75 °C", P),
        ("316L", "concentration: 68 %, temperature: 20 °C", P),
        ("316", "concentration: 30 %, temperature: 75 °C", U),
        ("316L", "concentration: 60 %, temperature: 75 °C", U),  # it loses too much there
        ("316L", "concentration: 90 %, temperature: 20 °C", U),
    ],
)
def test_a_low_carbon_grade_is_not_asked_for_low_carbon(
    say: Say, tell: Callable[..., str], grade: str, chemical: str, expected: Verdict
) -> None:
    """Corrosion tables of makers of stainless steel, nitric acid (from memory)."""
    use = f"{{material: {grade}, exposure: immersed, welded: false}}"
    part = f"kind: structural, materials: [{use}]"
    place = f"chemicals: [{{name: nitric acid, {chemical}}}]"
    assert say("chemical-resistance", part, place) is expected
    asks = "low in carbon" in tell("chemical-resistance", part, place)
    assert asks is (grade == "316")


# What a certificate states closes the question of the air

PLACE = """areafit: 1
assembly: {{number: T-1}}
code: ATEX
locations:
  cell: {{area: 'Zone 1, IIC, T2', substances: [{}], ambient: {}}}
parts:
  - {{item: '1', location: cell, kind: electrical, marking: '{}', evidence: {}}}
"""


@pytest.mark.parametrize(
    ("substance", "ambient", "marking", "evidence", "expected"),
    [
        ("acetylene", "-20..40 °C", "II 2G Ex db IIC T2 Gb", TYPED, P),
        ("acetylene", "-20..40 °C", "II 2G Ex db IIB T2 Gb", TYPED, U),
        ("acetylene", "-20..40 °C", "II 2G Ex db IIB+H2 T2 Gb", TYPED, U),
        ("acetylene", "-20..40 °C", "II 2G Ex db IIC T2 Gb", "none", U),
        ("ethanol", "-30..40 °C", "II 2G Ex db IIC T2 Gb -40°C≤Ta≤+60°C", TYPED, P),
        ("ethanol", "-30..40 °C", "II 2G Ex db IIC T2 Gb", TYPED, U),
        ("ethanol", "-50..40 °C", "II 2G Ex db IIC T2 Gb -40°C≤Ta≤+60°C", TYPED, U),
    ],
)
def test_a_certificate_answers_for_the_air(
    substance: str, ambient: str, marking: str, evidence: str, expected: Verdict
) -> None:
    text = PLACE.format(substance, ambient, marking, evidence)
    only = frozenset({"standard-atmosphere"})
    bom = areafit.read(text.encode(), "t.yaml")
    report = judge(bom, Tables.shipped(), Options(as_of=date(2026, 1, 1), only=only))
    assert report.places[0].verdict is expected


# Of several figures for one quantity the best founded weighs in a pass

COAL = "area: 'Zone 21, IIIB', substances: [{}], layer: 5 mm, ambient: 5..40 °C"


def test_coal_dust_passes_by_its_better_rows(say: Say) -> None:
    part = "kind: electrical, marking: II 2D Ex tb IIIC T{}°C Db"
    assert say("temperature-class", part.format(85), COAL.format("coal dust")) is P
    assert say("temperature-class", part.format(105), COAL.format("coal dust")) is P
    assert say("temperature-class", part.format(110), COAL.format("coal dust")) is U  # 12.7 mm
    assert say("temperature-class", part.format(260), COAL.format("coal dust")) is F
    class_ii = "area: 'Class II, Division 1, Group F', substances: [coal dust], ambient: 5..40 °C"
    plate = "kind: electrical, marking: 'Class II, Division 1, Group F {}'"
    assert say("temperature-class", plate.format("T6"), class_ii, "NEC") is P
    assert say("temperature-class", plate.format("T3"), class_ii, "NEC") is F


def test_a_quantity_known_by_judgement_alone_weighs() -> None:
    """A pass rests on the weakest of its quantities, each by the best of its rows."""

    def row(key: str, basis: Basis) -> Row:
        return Row("dusts", key, "s", "p", basis)

    cloud = [row("x cloud ignition (IEC)", Basis.JUDGEMENT), row("x cloud ignition", Basis.SEEN)]
    layer = row("x layer ignition", Basis.JUDGEMENT)
    weighing = [each for each in of_a_pass([*cloud, layer]) if each.governs]
    assert weighing == [cloud[1], layer]


# A name of one's own that contains a listed one is one vapour


@pytest.mark.parametrize(
    ("substances", "expected"),
    [("[my toluene]", N), ("[my toluene, quux]", U)],
)
def test_an_own_name_is_not_asked_whether_it_may_meet_itself(
    substances: str, expected: Verdict
) -> None:
    text = f"""areafit: 1
assembly: {{number: A, assessment: I}}
code: NEC
edition: 2023
locations:
  a: {{area: 'Class I, Division 2, Group D', substances: {substances}, chemicals: none}}
parts:
  - {{item: '1', kind: structural, location: a, materials: [{{material: '304'}}], contacts: none}}
"""
    report = judge(
        areafit.read(text.encode(), "x"), Tables.shipped(), Options(as_of=date(2026, 1, 1))
    )
    (place,) = report.places
    found = [f.verdict for f in place.findings() if f.rule.id == "chemicals-together"]
    assert worst(found) is expected
