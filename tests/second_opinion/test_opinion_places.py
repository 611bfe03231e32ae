"""Places and substances as a second reader sees them; sources from memory unless said."""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Ask = Callable[..., Judgement]

_OWN = (
    "area: Zone 21, layer: 5 mm, substances: [{{name: blend, group: IIIB, cloud_ignition: 480 °C, "
    "layer_ignition: 330 °C, source: test report{}}}]"
)


@pytest.mark.parametrize(
    ("more", "verdict"), [("", P), (", conductive: false", P), (", conductive: true", F)]
)
def test_a_dust_said_to_be_conductive_is_iiic(ask: Ask, more: str, verdict: Verdict) -> None:
    # IEC 60079-0:2017 4.4: IIIC is conductive dust
    part = "kind: electrical, marking: Ex tb IIIB T80°C Db"
    assert ask("dust-group", part, _OWN.format(more)).verdict is verdict


@pytest.mark.parametrize(("letters", "verdict"), [("A, B, C, D", U), ("C, D", U), ("D", F)])
def test_no_division_verdict_rests_on_carbon_disulfide(
    ask: Ask, letters: str, verdict: Verdict
) -> None:
    # Common practice: lists print C or no letter; IEC has IIC. Nobody should pass on that.
    part = f"kind: electrical, marking: 'Class I, Division 1, Groups {letters} T6'"
    place = "area: 'Class I, Division 1', substances: [carbon disulfide]"
    assert ask("gas-group", part, place, "NEC").verdict is verdict


@pytest.mark.parametrize(
    "name",
    ["ozone gas", "fluorine gas", "nitrous oxide gas", "hydrogen peroxide vapour", "oxygen gas"],
)
def test_oxidising_gases_by_whatever_word(ask: Ask, name: str) -> None:
    # IEC 60079-14:2013 1 and IEC 60079-0:2017 1: air only
    place = f"area: Zone 1, substances: [propane], chemicals: [{name}]"
    assert ask("standard-atmosphere", place=place).verdict is U


def test_magnesium_by_its_short_name(ask: Ask) -> None:
    # IEC 60079-0:2017 8.3: 7.5 % Mg+Ti+Zr at Gb; EN 1753 MgAl9Zn1
    part = "kind: mechanical, materials: [{component: housing, material: AZ91, counterface: none}]"
    assert ask("light-metal", part, "area: 'Zone 1, IIB, T3'").verdict is F


@pytest.mark.parametrize(
    ("material", "verdict"), [("C260", F), ("cupronickel", F), ("C360", P), ("CW614N", P)]
)
def test_copper_in_acetylene_by_common_short_names(
    ask: Ask, material: str, verdict: Verdict
) -> None:
    # 46 CFR 56.50-103 (seen): copper alloys of less than 65 % copper only
    part = f"kind: structural, materials: [{{material: {material}, exposure: immersed}}]"
    place = "area: Zone 1, substances: [acetylene], chemicals: none"
    assert ask("copper-alloy", part, place).verdict is verdict
