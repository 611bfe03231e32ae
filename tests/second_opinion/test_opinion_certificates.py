"""What the papers of a part answer of its housing, and what they never do.

Sources, all from memory unless said: IEC 60079-0:2017 7.4 (charged surfaces), 8 (light metals), 13
(components), 29.3 (X and U) are examined with the equipment that is certified; ISO 80079-36:2016
6.4, 6.7 the same for what is not electrical; 29 CFR 1910.7, 1910.307(c): in a Division a listing.
"""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Ask = Callable[..., Judgement]
_ZONE_1 = "area: 'Zone 1, IIC, T3', ambient: 5..40 °C, substances: [hydrogen]"
_DUST = "area: 'Zone 21, IIIC, T120 °C', ambient: 5..40 °C, layer: none, substances: [sugar]"
_BOTH = (
    "area: ['Zone 1, IIC, T3', 'Zone 21, IIIC, T120 °C'], ambient: 5..40 °C, layer: none, "
    "substances: [hydrogen, sugar]"
)
_DIVISION = (
    "area: 'Class I, Division 1, Group D', required_epl: Gb, ambient: 5..40 °C, "
    "substances: [acetone]"
)
_IECEX = "{type: certificate, number: IECEx ABC 21.0001%s}"
_LENS = "{component: lens, material: PC, surface_area: 900 cm²}"


def _part(
    marking: str = "Ex eb IIC T4 Gb",
    documents: str = _IECEX % "",
    material: str = _LENS,
    more: str = "",
) -> str:
    evidence = f", evidence: [{documents}]" if documents else ""
    return (
        f"kind: electrical, marking: {marking}{evidence}, materials: [{material}], "
        f"bonded: true{more}"
    )


def _x(condition: str) -> str:
    return f"{{type: certificate, number: IECEx ABC 21.0001X{condition}}}"


_MET = "{text: avoid static charge, met_by: sign at the part, document: DN-1, role: designer}"


@pytest.mark.parametrize(
    ("part", "verdict"),
    [
        # a luminaire with a cover of polycarbonate, a box of GRP, a coil: of the equipment itself
        (_part(more=", device: luminaire", material=_LENS.replace("lens", "cover")), P),
        (_part(more=", description: LED luminaire", material=_LENS.replace("lens", "cover")), P),
        (_part(more=", description: Terminal box", material=_LENS.replace("lens", "cover")), F),
        (_part(material="{component: box, material: GRP, surface_area: 1200 cm²}"), P),
        (_part(material="{component: coil, material: epoxy, surface_area: 60 cm²}"), P),
        (_part(material="{component: lamp cover, material: PC, surface_area: 900 cm²}"), P),
        # what is added later, or may be, is held to its own figures
        (_part(material=_LENS.replace("lens", "cover")), F),
        (_part(material=_LENS.replace("lens", "label")), F),
        (_part(material=_LENS.replace("lens", "cable jacket")), F),
        (_part(material=_LENS.replace("lens", "paint in the customer's colour")), F),
        (_part(material=_LENS.replace("lens", "PC cover"), more=", device: luminaire"), P),
        (_part(material=_LENS.replace("lens", "rain cover"), more=", device: luminaire"), F),
        (_part(material="{component: label, material: PC, surface_area: 15 cm²}"), P),
        (_part(material=_LENS.replace("component: lens, ", "")), F),
        # where charging is intense
        (_part(material="{component: drive belt, material: PU, surface_area: 900 cm²}"), F),
        (_part(material="{component: hose, material: PC, surface_area: 900 cm²}"), F),
        # an X by its conditions met, each of them
        (_part("Ex eb IIC T4 Gb X", _x(f", conditions: [{_MET}]")), P),
        (_part("Ex eb IIC T4 Gb X", _x("")), F),
        (_part("Ex eb IIC T4 Gb", _x("")), F),
        (_part("Ex eb IIC T4 Gb X", _IECEX % ""), F),
        (_part("Ex eb IIC T4 Gb X", _x(", conditions: [{text: avoid static charge}]")), F),
        (_part("Ex eb IIC T4 Gb X", _x(", conditions: [{text: trocken nicht reiben}]")), F),
        (
            _part("Ex eb IIC T4 Gb X", _x(", conditions: [{text: no impact, met: false}]")),
            F,
        ),
        # a document that shows nothing
        (_part(documents=""), F),
        (_part(documents="{type: certificate}"), F),
        (_part(documents="{type: certificate, number: to follow}"), F),
        (_part(documents="{type: test report, number: TR-1}"), F),
        (_part(documents=_IECEX % "U"), F),
        (_part("Ex eb IIC Gb U"), F),
        (_part(documents=_IECEX.replace("}", ", valid_until: 2020-01-01}") % ""), F),
        (
            _part(
                documents=_IECEX.replace("}", ", valid_until: 2020-01-01}") % "",
                more=", placed_on_market: 2019-05-01",
            ),
            P,
        ),
        (_part(documents=_IECEX.replace("}", ", covers: PN-9}") % "", more=", part_number: A"), F),
        (_part(documents=f"{_IECEX % ''}, {{type: repair record}}"), F),
        (
            _part(
                documents=f"{_IECEX % ''}, {{type: repair record, number: R-1, "
                "standard: IEC 60079-19}"
            ),
            P,
        ),
        # level, group and ambient must hold here
        (_part("Ex ec IIC T4 Gc"), F),
        (_part(documents=_IECEX.replace("}", ", level: Gc}") % ""), F),
        (_part("Ex db IIB T4 Gb"), F),
        (_part("Ex eb IIC T4 Gb -20°C ≤ Ta ≤ +35°C"), F),
        (_part("Ex eb IIC T4 Gb quasi"), F),  # a nameplate that was not read whole
    ],
)
def test_a_certificate_answers_charged_surfaces_of_the_housing(
    ask: Ask, part: str, verdict: Verdict
) -> None:
    said = ask("static-surface", part, _ZONE_1)
    assert said.verdict is verdict, said.message


@pytest.mark.parametrize(
    ("marking", "place", "verdict"),
    [
        ("Ex tb IIIC T95 °C Db", _DUST, P),
        ("Ex eb IIC T4 Gb", _DUST, F),  # a code for gas answers nothing of dust
        ("Ex eb IIC T4 Gb", _BOTH, F),
        ("['Ex eb IIC T4 Gb', Ex tb IIIC T95 °C Db]", _BOTH, P),
        ("['Ex eb IIC T4 Gb', Ex tc IIIC T95 °C Dc]", _BOTH, F),
    ],
)
def test_each_hazard_needs_a_code_of_its_own(
    ask: Ask, marking: str, place: str, verdict: Verdict
) -> None:
    assert ask("static-surface", _part(marking), place).verdict is verdict


_LISTING = "{type: listing, number: E-1}"


@pytest.mark.parametrize(
    ("marking", "documents", "verdict"),
    [
        ("'Class I, Division 1, Group D T4'", _LISTING, P),
        ("'Class I, Division 1, Group D T4'", "{type: listing}", F),
        ("'Class I, Division 1, Group D T4'", "{type: listing, number: applied for}", F),
        ("'Class I, Division 1, Group D T4'", "", F),
        ("'Class I, Division 1, Group D T4'", _IECEX % "", F),
        ("'Class I, Division 2, Group D T4'", _LISTING, F),
        ("'Class II, Division 1, Group G T4'", _LISTING, F),
        ("'Class I, Zone 0, AEx ia IIC T4 Ga'", _LISTING, P),
        ("Ex db IIC T4 Gb", _IECEX % "", F),
    ],
)
def test_in_a_division_a_listing_answers(
    ask: Ask, marking: str, documents: str, verdict: Verdict
) -> None:
    said = ask("static-surface", _part(marking, documents), _DIVISION, "NEC")
    assert said.verdict is verdict, said.message


_EU = "{type: certificate, number: ABC 21 ATEX 0001}"
_DOC = "{type: declaration, number: DC-1}"


@pytest.mark.parametrize(
    ("marking", "documents", "area", "verdict"),
    [
        ("II 2G Ex eb IIC T4 Gb", _EU, "Zone 1, IIC, T3", P),
        ("II 2G Ex eb IIC T4 Gb", f"{_EU}, {_DOC}", "Zone 1, IIC, T3", P),
        ("II 2G Ex eb IIC T4 Gb", _DOC, "Zone 1, IIC, T3", F),
        ("II 2G Ex eb IIC T4 Gb", _IECEX % "", "Zone 1, IIC, T3", F),
        ("II 3G Ex ec IIC T4 Gc", _DOC, "Zone 2, IIC, T3", P),
        ("II 3G Ex ec IIC T4 Gc", "{type: declaration}", "Zone 2, IIC, T3", F),
    ],
)
def test_under_european_law_what_certifies_the_category(
    ask: Ask, marking: str, documents: str, area: str, verdict: Verdict
) -> None:
    # 2014/34/EU Art. 13: category 3 by the maker's own declaration
    place = f"area: '{area}', ambient: 5..40 °C, substances: [hydrogen]"
    assert ask("static-surface", _part(marking, documents), place, "ATEX").verdict is verdict


def test_without_a_list_of_materials_the_housing_is_answered_too(ask: Ask) -> None:
    bare = "kind: electrical, marking: Ex eb IIC T4 Gb, evidence: [%s]"
    for rule in ("static-surface", "light-metal"):
        assert ask(rule, bare % (_IECEX % ""), _ZONE_1).verdict is P
        # what the papers lack is asked for by another rule, and then they answer
        assert ask(rule, bare % (_IECEX % "U"), _ZONE_1).verdict is N
        assert ask(rule, "kind: electrical, marking: Ex eb IIC T4 Gb", _ZONE_1).verdict is N
    assert ask("ex-component", bare % (_IECEX % "U"), _ZONE_1).verdict is F
    assert ask("evidence", "kind: electrical, marking: Ex eb IIC T4 Gb", _ZONE_1).verdict is U


_ZONE_0 = "area: 'Zone 0, IIC, T3', ambient: 5..40 °C, substances: [hydrogen]"
_ALLOY = "{component: box, material: %s}"
_SPARKS = ", conditions: [{text: protect from impact and friction, met_by: guard, document: DN-1}]"


@pytest.mark.parametrize(
    ("marking", "documents", "material", "verdict"),
    [
        # an alloy that nobody names is the maker's, whose certificate speaks of it
        ("Ex ia IIC T4 Ga", _IECEX % "", _ALLOY % "light alloy X", P),
        ("Ex ia IIC T4 Ga", "", _ALLOY % "light alloy X", U),
        ("Ex ia IIC T4 Ga", _IECEX % "U", _ALLOY % "light alloy X", U),
        ("Ex ia IIC T4 Ga", _IECEX % "", "{component: guard, material: light alloy X}", U),
        # what is over the limit for sure is certified under a condition only (8.3)
        ("Ex ia IIC T4 Ga", _IECEX % "", _ALLOY % "'6082'", F),
        ("Ex ia IIC T4 Ga X", _x(_SPARKS), _ALLOY % "'6082'", P),
        ("Ex ia IIC T4 Ga X", _x(_SPARKS), "{component: label, material: '6082'}", F),
        ("Ex ia IIC T4 Ga X", _x(f", conditions: [{_MET}]"), _ALLOY % "'6082'", F),
        ("Ex ib IIC T4 Gb X", _x(_SPARKS), _ALLOY % "'6082'", F),
    ],
)
def test_a_certificate_answers_light_metals_of_the_housing(
    ask: Ask, marking: str, documents: str, material: str, verdict: Verdict
) -> None:
    said = ask("light-metal", _part(marking, documents, material), _ZONE_0)
    assert said.verdict is verdict, said.message


def test_what_rubs_on_rust_is_not_examined_with_the_housing(ask: Ask) -> None:
    # EN 1127-1:2019: aluminium on rust lights at any energy
    wheel = "{component: wheel, material: '6082', counterface: rusty steel}"
    assert ask("light-metal", _part(material=wheel), _ZONE_1).verdict is F


def test_bonding_and_corrosion_stay_asked(ask: Ask) -> None:
    frame = "{component: box, material: '304', exposure: splash}"
    part = _part(material=frame).replace("bonded: true", "quantity: 1")
    place = (
        f"{_ZONE_1}, chemicals: [{{name: hydrochloric acid, concentration: 10 %, "
        "temperature: 25 °C}]"
    )
    assert ask("bonding", part, place).verdict is U
    assert ask("chemical-resistance", part, place).verdict is F


_GEAR = (
    "kind: %s, marking: %s, evidence: [%s], "
    "materials: [{component: hood, material: PC, surface_area: 900 cm²}]"
)


@pytest.mark.parametrize(
    ("kind", "marking", "documents", "verdict"),
    [
        ("mechanical", "Ex h IIC T4 Gb", "{type: declaration, number: DC-1}", P),
        ("mechanical", "Ex h IIC T4 Gb", "{type: assessment, number: IHA-1}", P),
        ("mechanical", "Ex h IIC T4 Gb", "{type: test report, number: TR-1}", F),
        ("mechanical", "Ex h IIC T4 Gc", "{type: declaration, number: DC-1}", F),
        ("mechanical", "none", "{type: declaration, number: DC-1}", F),
        # a certificate of the motor says nothing of the fan that it drives
        ("[electrical, mechanical]", "Ex eb IIC T4 Gb", _IECEX % "", F),
        (
            "[electrical, mechanical]",
            "Ex eb IIC T4 Gb",
            f"{_IECEX % ''}, {{type: assessment, number: IHA-1}}",
            P,
        ),
        ("[electrical, mechanical]", "[Ex eb IIC T4 Gb, Ex h IIC T4 Gb]", _IECEX % "", P),
    ],
)
def test_parts_that_move(
    ask: Ask, kind: str, marking: str, documents: str, verdict: Verdict
) -> None:
    said = ask("static-surface", _GEAR % (kind, marking, documents), _ZONE_1)
    assert said.verdict is verdict, said.message


@pytest.mark.parametrize("rule", ["static-surface", "light-metal"])
def test_one_paper_less_never_helps(ask: Ask, rule: str) -> None:
    """Whatever is taken from a part that its papers answer for, the verdict does not improve."""
    order = [F, U, P]
    full = {
        "marking": "Ex ia IIC T4 Ga X",
        "evidence": f"[{_x(_SPARKS)}]",
        "materials": "[{component: lens, material: PC, surface_area: 900 cm²}, "
        "{component: box, material: '6082'}]",
    }

    def told(**changed: str) -> int:
        stated = {**full, **changed}
        text = ", ".join(f"{key}: {value}" for key, value in stated.items() if value)
        return order.index(ask(rule, f"kind: electrical, {text}", _ZONE_0).verdict)

    best = told()
    assert order[best] is P
    for less in (
        {"marking": ""},
        {"marking": "none"},
        {"evidence": ""},
        {"evidence": "[{type: certificate, number: IECEx ABC 21.0001X}]"},
        {"evidence": f"[{_x(_SPARKS).replace('number: IECEx ABC 21.0001X, ', '')}]"},
        {"evidence": f"[{_x(_SPARKS.replace(', document: DN-1', ''))}]"},
        {"evidence": f"[{_x(_SPARKS.replace('met_by: guard, ', ''))}]"},
        {"materials": "[{material: PC, surface_area: 900 cm²}, {material: '6082'}]"},
    ):
        assert told(**less) < best, less


_LEVEL_A = "{type: assessment, number: IHA-1, level: Ga}"


@pytest.mark.parametrize(
    ("document", "verdict"),
    [
        ("{type: certificate, number: ABC 21 ATEX 0001}", P),
        ("{type: certificate, number: ABC 21 ATEX 0001, level: Ga}", P),
        ("{type: certificate, number: ABC 21 ATEX 0001, level: Gb}", U),
        ("{type: certificate, number: ABC 21 ATEX 0001, level: Da}", U),
        ("{type: certificate, number: IECEx ABC 21.0001}", U),
        ("{type: certificate, number: ABC 21 UKEX 0001}", U),
        ("{type: certificate, number: Z-1}", U),
        ("{type: certificate}", U),
        ("{type: certificate, number: ABC 21 ATEX 0001 U}", U),
        ("{type: certificate, number: ABC 21 ATEX 0001, valid_until: 2025-01-01}", U),
        ("{type: certificate, number: ABC 21 ATEX 0001, covers: PN-9}", U),
        ("{type: listing, number: E-1}", U),
    ],
)
def test_category_1_asks_for_an_eu_type_examination(
    ask: Ask, document: str, verdict: Verdict
) -> None:
    # 2014/34/EU Art. 13(1)(a): modules of category 1, whatever drives the part
    part = f"kind: mechanical, part_number: PN-1, evidence: [{_LEVEL_A}, {document}]"
    assert ask("ignition-hazard", part, _ZONE_0, "ATEX").verdict is verdict
    # where the site asks for level a in a Zone 1, it asks for category 1
    site = f"{_ZONE_1}, required_epl: Ga"
    assert ask("ignition-hazard", part, site, "ATEX").verdict is verdict
    assert ask("ignition-hazard", part, _ZONE_1, "ATEX").verdict is P
    assert ask("ignition-hazard", part, _ZONE_0, "IEC").verdict is P


@pytest.mark.parametrize(
    ("document", "verdict"),
    [
        ("{type: assessment, number: IHA-1}", P),
        ("{type: assessment}", U),
        ("{type: assessment, number: tbd}", U),
        ("{type: assessment, number: to follow, level: Gc}", U),
        ("{type: assessment}, {type: assessment, number: IHA-2}", P),
    ],
)
def test_an_assessment_without_a_number_shows_nothing(
    ask: Ask, document: str, verdict: Verdict
) -> None:
    # common practice: what cannot be found proves nothing
    part = f"kind: mechanical, rubbing_speed: 6 m/s, evidence: [{document}]"
    assert ask("ignition-hazard", part, _ZONE_1).verdict is verdict
    assert (ask("rubbing-speed", part, _ZONE_1).verdict is P) is (verdict is P)


@pytest.mark.parametrize(
    ("day", "verdict"), [("2003-06-29", U), ("2003-06-30", U), ("2003-07-01", F), ("2010-01-01", F)]
)
def test_the_last_day_without_a_category_is_told_as_it_is_judged(
    ask: Ask, day: str, verdict: Verdict
) -> None:
    # 94/9/EC Art. 15(4): the period that ends on 30 June 2003, from memory
    part = f"kind: electrical, marking: EEx d IIC T4, placed_on_market: {day}"
    said = ask("protection-level", part, _ZONE_1, "ATEX")
    assert said.verdict is verdict
    assert verdict is F or "in use by 30 June 2003" in said.message
