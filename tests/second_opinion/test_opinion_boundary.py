"""Equipment in the wall of a vessel: each side is held to its own place.

IEC 60079-26:2014 4.1, 4.3 and IEC 60079-0:2017 29.6, from memory: a marking Ga/Gb is for equipment
that stands in two areas; the better level is that of the side which faces the process.
"""

from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict, worst

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
_GAS = (
    "{area: 'Zone 0, IIB, T3', substances: [ethanol], ambient: %s, chemicals: none}",
    "{area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 0..40 °C, chemicals: none}",
)
_DUST = (
    "{area: 'Zone 20, IIIB, T135 °C', substances: [sugar], layer: none, ambient: %s}",
    "{area: 'Zone 21, IIIB, T135 °C', substances: [sugar], layer: none, ambient: 0..40 °C}",
)
_GLAND = "{type: cable gland, marking: Ex db IIC Gb, thread: M20x1.5, hole: M20, ingress: IP66}"


def _told(
    rule: str,
    marking: str,
    side: str = "process_side: vessel",
    location: str = "[vessel, around]",
    *,
    law: str = "IEC",
    places: tuple[str, str] = _GAS,
    vessel: str = "0..40 °C",
    more: str = "",
) -> dict[str, Verdict]:
    text = (
        f"areafit: 1\nassembly: {{number: T-1}}\ncode: {law}\n"
        f"locations:\n  vessel: {places[0] % vessel}\n  around: {places[1]}\n"
        f"parts:\n  - {{item: '1', location: {location}, kind: electrical, marking: '{marking}', "
        f"entries: [{_GLAND}]{', ' + side if side else ''}{more}}}\n"
    )
    options = Options(as_of=date(2026, 1, 1), only=frozenset({rule}))
    report = judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), options)
    found: dict[str, list[Verdict]] = {}
    for block in report.parts[0].blocks:
        verdicts = [each.judgement.verdict for each in block.judged if each.rule.id == rule]
        found.setdefault(block.place or "", []).extend(verdicts)
    return {place: worst(verdicts) for place, verdicts in found.items()}


@pytest.mark.parametrize(
    ("marking", "law", "places"),
    [
        ("Ex ia/db IIC T6 Ga/Gb", "IEC", _GAS),
        ("II 1/2G Ex ia/db IIC T6 Ga/Gb", "ATEX", _GAS),
        ("Ex db IIC T6 Ga/Gb", "IEC", _GAS),  # parted from the process by a wall
        ("Ex ta/tb IIIC T85°C Da/Db", "IEC", _DUST),
        ("II 1/2D Ex ta/tb IIIC T85°C Da/Db", "ATEX", _DUST),
    ],
)
def test_each_side_is_held_to_its_own_place(
    marking: str, law: str, places: tuple[str, str]
) -> None:
    rule = "protection-level"
    known = _told(rule, marking, law=law, places=places)
    assert known == {"vessel": P, "around": P}
    # the process is where the list says that it is
    wrong = _told(rule, marking, "process_side: around", law=law, places=places)
    assert wrong["vessel"] is F
    # not stated: the worse half counts on both sides
    silent = _told(rule, marking, "", law=law, places=places)
    assert silent == {"vessel": F, "around": P}
    # the place of the process may stand in the key alone; that of the other side never lacks
    alone = _told(rule, marking, location="around", law=law, places=places)
    assert alone == {"vessel": P, "around": P}
    only = _told(rule, marking, location="vessel", law=law, places=places)
    assert only == {"vessel": F}


@pytest.mark.parametrize(
    ("marking", "vessel", "around"),
    [
        ("Ex ia IIC T6 Ga", P, P),  # no pair: one level on both sides
        ("Ex db IIC T6 Gb", F, P),
        ("Ex ia/ec IIC T6 Ga/Gc", P, F),
        ("II 1G Ex ia IIC T6 Ga", P, P),
    ],
)
def test_without_a_pair_the_key_lifts_nothing(
    marking: str, vessel: Verdict, around: Verdict
) -> None:
    assert _told("protection-level", marking) == {"vessel": vessel, "around": around}


@pytest.mark.parametrize(
    ("marking", "side", "vessel", "around"),
    [
        ("II 2G/- Ex h IIB T4 Gb", "process_side: vessel", P, F),
        ("II 2/-G Ex h IIB T4 Gb", "process_side: vessel", P, F),
        ("II -/2G Ex h IIB T4 Gb", "process_side: vessel", F, P),
        ("II -/2G Ex h IIB T4 -/Gb", "process_side: vessel", F, P),
        ("II 2G/3G Ex h IIB T4 Gb/Gc", "process_side: vessel", P, F),
        ("II 2/2G Ex h IIB T4 Gb", "process_side: vessel", P, P),
        ("II 2G/- Ex h IIB T4 Gb", "process_side: around", F, P),  # the sides taken for each other
        ("II 2G/- Ex h IIB T4 Gb", "", F, F),  # not stated: the worse half counts on both sides
        ("II -/2G Ex h IIB T4 Gb", "", U, U),  # what the bare side faces is asked
    ],
)
def test_a_dash_is_a_side_without_protection(
    marking: str, side: str, vessel: Verdict, around: Verdict
) -> None:
    """EN 14986:2017 7 and 1999/92/EC Annex II, from memory: `2G/-` is 2G inside, none outside."""
    zones = (_GAS[1].replace("0..40 °C", "%s"), _GAS[1])
    told = _told("protection-level", marking, side, law="ATEX", places=zones)
    assert told == {"vessel": vessel, "around": around}


def test_a_bare_side_outside_the_area_asks_for_nothing() -> None:
    room = "{area: unclassified, substances: none, ambient: %s, chemicals: none}"
    blower = _told("protection-level", "II -/2G Ex h IIC T4 Gb", law="ATEX", places=(room, _GAS[1]))
    assert blower == {"vessel": N, "around": P}
    here = _told(
        "protection-level", "II -/2G Ex h IIC T4 Gb", "process_side: around", "around", law="ATEX"
    )
    assert here == {"around": F}  # both sides are here, and one is bare


def test_the_entries_are_in_the_half_that_stands_in_the_air() -> None:
    pair = "Ex ia/db IIC T6 Ga/Gb"
    assert _told("cable-entry", pair) == {"vessel": N, "around": P}
    assert _told("cable-entry", pair, "")["vessel"] is F


@pytest.mark.parametrize(
    ("vessel", "document", "verdict"),
    [
        ("0..40 °C", "", P),
        ("0..70 °C", "", F),
        ("0..70 °C", ", process_temperature: -20..80 °C", P),
        ("0..90 °C", ", process_temperature: -20..80 °C", F),
    ],
)
def test_the_process_side_is_held_to_the_process_temperature(
    vessel: str, document: str, verdict: Verdict
) -> None:
    # IEC 60079-0:2017 5.1.2: the process temperature is another limit than the Ta
    evidence = f", evidence: [{{type: certificate, number: IECEx ABC 21.0001{document}}}]"
    told = _told("ambient-range", "Ex ia/db IIC T6 Ga/Gb", vessel=vessel, more=evidence)
    assert told == {"vessel": verdict, "around": P}


def test_a_process_side_that_is_no_place_is_an_error() -> None:
    with pytest.raises(areafit.InputErrors, match="`vesel` is none of the `locations`"):
        _told("protection-level", "Ex ia/db IIC T6 Ga/Gb", "process_side: vesel")


def test_a_certificate_answers_each_side_by_its_own_half() -> None:
    document = ", evidence: [{type: certificate, number: IECEx ABC 21.0001}]"
    lens = ", materials: [{component: window, material: PC, surface_area: 900 cm²}]"
    pair, more = "Ex ia/db IIC T6 Ga/Gb", document + lens
    assert _told("static-surface", pair, more=more) == {"vessel": P, "around": P}
    assert _told("static-surface", pair, "", more=more)["vessel"] is F


def test_what_is_not_electrical_by_its_better_half() -> None:
    # ISO 80079-36:2016 11, from memory: an agitator seal of category 1/2
    text = (
        "areafit: 1\nassembly: {number: T-1}\ncode: IEC\n"
        f"locations:\n  vessel: {_GAS[0] % '0..40 °C'}\n  around: {_GAS[1]}\n"
        "parts:\n  - {item: '1', location: [vessel, around], kind: mechanical, "
        "marking: Ex h IIB T4 Ga/Gb%s}\n"
    )

    def verdict(more: str) -> Verdict:
        options = Options(as_of=date(2026, 1, 1), only=frozenset({"ignition-hazard"}))
        bom = areafit.read((text % more).encode(), "t.yaml")
        return judge(bom, Tables.shipped(), options).parts[0].verdict

    assert verdict(", process_side: vessel") is P
    assert verdict("") is F


def test_the_alloy_of_the_outer_half_is_for_its_certificate() -> None:
    # IEC 60079-0:2017 8.3: the limit of Ga is for the half in Zone 0; the certificate knows which
    document = ", evidence: [{type: certificate, number: IECEx ABC 21.0001}]"
    housing = ", materials: [{component: housing, material: '6082'}]"
    pair = "Ex ia/db IIC T6 Ga/Gb"
    assert _told("light-metal", pair, more=document + housing) == {"vessel": P, "around": P}
    assert _told("light-metal", pair, more=housing)["vessel"] is F
    assert _told("light-metal", pair, "", more=document + housing)["vessel"] is F
    # a part of one level on both sides stands in Zone 0 whole
    whole = _told("light-metal", "Ex ia IIC T6 Ga", "", "vessel", more=document + housing)
    assert whole == {"vessel": F}
