"""The working liquid of a part against its own seals and other pieces.

Kinds by ISO 6743-4 and ISO 12922, which seals suit them by ISO 7745 and seal makers' tables of the
ISO/TR 7620 kind, all from memory unless a row says otherwise.
"""

from collections.abc import Callable
from typing import Any

import pytest

from areafit.facts.mechanics import Fluid
from areafit.tables import Tables
from areafit.tables.chemicals import working_fluid
from areafit.tables.words import Reach, reach_of
from areafit.verdict import Verdict

Say = Callable[..., Verdict]

DRY = "area: unclassified, chemicals: none, ambient: 5..35 °C"
P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
RULE = "chemical-resistance"


def part(liquid: str, material: str, component: str = "seal") -> str:
    return (
        f"kind: mechanical, liquid: {{{liquid}}}, "
        f"materials: [{{component: {component}, material: {material}, exposure: room}}]"
    )


@pytest.mark.parametrize(
    ("kind", "material", "expected"),
    [
        ("mineral oil", "NBR", P),
        ("mineral oil", "HNBR", P),
        ("mineral oil", "FKM", P),
        ("mineral oil", "EPDM", F),
        ("mineral oil", "natural rubber", F),
        ("HFA", "NBR", P),
        ("HFA", "EPDM", F),  # HFAE holds mineral oil
        ("HFB", "NBR", P),
        ("HFB", "EPDM", F),
        ("HFB", "TPU-ester", F),
        ("HFC", "NBR", P),
        ("HFC", "EPDM", P),
        ("HFC", "TPU-ester", F),
        ("HFC", "zinc plated steel", F),
        ("HFC", "carbon steel", P),
        ("HFC", "6082", U),  # aluminium is used anodised
        ("HFC", "anodised aluminium", P),
        ("HFDR", "NBR", F),
        ("HFDR", "HNBR", F),
        ("HFDR", "EPDM", P),
        ("HFDR", "FKM", P),  # reported; alkyl esters of aircraft are no HFDR
        ("HFDR", "PU", F),
        ("HFDU", "FKM", P),
        ("HFDU", "EPDM", F),
        ("HFDU", "NBR", U),  # to 60 °C; how hot it becomes is not stated
        ("water", "EPDM", P),
        ("water", "TPU-ester", U),
        ("water", "carbon steel", N),  # a circuit is closed and treated
        ("water", "EN-GJL-250", N),
        ("other", "NBR", U),
    ],
)
def test_each_kind_by_its_rows(say: Say, kind: str, material: str, expected: Verdict) -> None:
    assert say(RULE, part(f"kind: {kind}", material), DRY) is expected


def test_phosphate_esters_of_aircraft_stay_what_they_were(say: Say) -> None:
    """Seal makers' tables, from memory: alkyl esters swell FKM, which the general name covers."""
    chemical = "chemicals: [{name: phosphate ester, temperature: 60 °C}]"
    named = "chemicals: [{name: HFDR, temperature: 60 °C}]"
    seal = "kind: structural, materials: [{material: FKM, exposure: immersed}]"
    assert say(RULE, seal, chemical) is F
    assert say(RULE, seal, named) is P


@pytest.mark.parametrize(
    ("liquid", "material", "expected"),
    [
        ("kind: mineral oil, hottest: 95 °C", "NBR", P),
        ("kind: mineral oil, hottest: 110 °C", "NBR", U),  # hotter than its row
        ("kind: mineral oil, hottest: 110 °C", "FKM", P),
        ("kind: HFDU, hottest: 55 °C", "NBR", P),
        ("kind: HFDU, hottest: 75 °C", "NBR", U),
        ("kind: HFDR, hottest: 20 °C", "NBR", F),  # at any temperature
        ("flash_point: 210 °C, hottest: 60 °C", "NBR", U),  # which kind it is decides
        ("flash_point: 210 °C, hottest: 60 °C", "carbon steel", N),
        ("kind: other", "316L", N),
    ],
)
def test_heat_and_kind_decide(say: Say, liquid: str, material: str, expected: Verdict) -> None:
    assert say(RULE, part(liquid, material), DRY) is expected


def test_a_hotter_liquid_is_never_better(say: Say) -> None:
    rank = {N: 0, P: 0, U: 1, F: 2}
    for kind in Fluid:
        for material in ("NBR", "FKM", "EPDM", "PU", "POM-C", "PTFE", "316L", "brass"):
            found = [
                say(RULE, part(f"kind: {kind.value}, hottest: {heat} °C", material), DRY)
                for heat in (20, 50, 70, 90, 110, 160)
            ]
            ranks = [rank[one] for one in found]
            assert ranks == sorted(ranks), (kind, material)
            unsaid = say(RULE, part(f"kind: {kind.value}", material), DRY)
            assert rank[unsaid] >= ranks[0]


@pytest.mark.parametrize(
    ("component", "expected"),
    [
        ("seal", F),
        ("rod seal", F),
        ("gasket of the cover", F),
        ("body", F),  # may be wetted
        ("tank lining", F),
        ("label", N),
        ("cable jacket", N),
        ("handle", N),
        ("Typenschild", N),
        ("fan cover", N),
        ("screw seal", F),
    ],
)
def test_what_stands_outside_is_not_asked(say: Say, component: str, expected: Verdict) -> None:
    """Common practice, no source: a label and a handle are outside of the liquid."""
    assert say(RULE, part("kind: HFDR", "NBR", component), DRY) is expected


def test_paint_and_grease_are_outside(say: Say) -> None:
    for material in ("polyester powder coat", "epoxy coating", "lithium grease"):
        assert say(RULE, part("kind: HFDR", material, "outside"), DRY) is N
    assert say(RULE, part("kind: HFDR", "polyester powder coat", "tank lining"), DRY) is F


def test_it_counts_beside_the_chemicals_of_the_place(say: Say) -> None:
    wet = "chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 25 °C}]"
    assert say(RULE, part("kind: HFC", "EPDM"), wet) is P
    assert say(RULE, part("kind: mineral oil", "EPDM"), wet) is F


def test_every_kind_but_the_unnamed_one_is_a_known_chemical() -> None:
    """ISO 6743-4 names the kinds; each row leads to a chemical with rows for NBR and FKM."""
    tables = Tables.shipped()
    for kind in Fluid:
        row = working_fluid(kind)
        assert (row is None) is (kind is Fluid.OTHER)
        if row is not None:
            assert tables.chemical(row.chemical) is not None
            assert tables.resistance("NBR", row.chemical)
            assert tables.resistance("FKM", row.chemical)


def test_words_for_seals_come_first() -> None:
    assert reach_of("tie rod screw") is Reach.DRY
    assert reach_of("Dichtung der Schraube") is Reach.WET
    assert reach_of("piston") is None


@pytest.mark.parametrize(
    ("description", "expected"),
    [
        ("O-ring 20x2", F),
        ("Seal kit", F),
        ("Dichtsatz", F),
        ("Rod wiper", F),
        ("Label", N),
        ("Foot", N),
        ("Bumper", N),
    ],
)
def test_a_seal_on_a_line_of_its_own_meets_the_liquid_of_its_assembly(
    ask: Callable[..., Any], description: str, expected: Verdict
) -> None:
    """Common practice, no source: seals stand as lines of their own below what they seal."""
    dry = {"chemicals": "none", "ambient": "5..35 °C"}
    pack = {"item": "1", "kind": "mechanical", "materials": "none", "liquid": {"kind": "HFDR"}}
    body = {"item": "2", "kind": "mechanical", "materials": "none", "parent": "1"}
    piece = {"item": "3", "description": description, "parent": "2", "kind": "structural"}
    piece["materials"] = [{"material": "NBR", "exposure": "room"}]  # type: ignore[assignment]
    assert ask("chemical-resistance", dry, pack, body, piece).verdict is expected
    del pack["liquid"]
    assert ask("chemical-resistance", dry, pack, body, piece).verdict is N
