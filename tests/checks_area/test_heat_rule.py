"""Hottest surfaces: classes by ambient, stated surfaces, heaters, fibres, dust.

Sources, from memory: NFPA 70-2023 500.8(C), 500.8(D), 501.125(B), 503.5; IEC 60079-0:2017 5.3;
IEC 60079-14:2013 5.6; EN 1127-1:2019 6.4.2.
"""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.demands import derive
from areafit.tables import Tables
from areafit.verdict import Basis, Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Tell = Callable[..., str]
Listed = Callable[[str, str, str], tuple[Verdict, str]]
OWN = "source: test report, document: TR-1"
HEXANE = f"substances: [{{name: n-hexane, autoignition: 225 °C, {OWN}}}]"
FIBRES = "area: 'Class III, Division 1'"
D2 = f"area: 'Class I, Division 2, Group D', ambient: 0..40 °C, {HEXANE}"
BY_AMBIENT = "marking: 'Ex db IIC T6 (Ta -20..+40) T5 (Ta -20..+55) T4 (Ta -20..+70) Gb'"


def at(value: int, case: str = "") -> str:
    """A surface found at 40 °C ambient, in a named state."""
    state = f", case: {case}" if case else ""
    return f"surface_temperature: {{value: {value} °C, at_ambient: 40 °C{state}}}"


CASES = [
    # classes by ambient: the coolest whose range holds the whole site range
    (BY_AMBIENT, "area: 'Zone 1, IIA, T6', ambient: 0..40 °C", "IEC", P),
    (BY_AMBIENT, "area: 'Zone 1, IIA, T6', ambient: 0..50 °C", "IEC", F),
    (BY_AMBIENT, "area: 'Zone 1, IIA, T5', ambient: 0..50 °C", "IEC", P),
    (BY_AMBIENT, "area: 'Zone 1, IIA, T4', ambient: 0..80 °C", "IEC", U),
    (BY_AMBIENT, "area: 'Zone 1, IIA, T4'", "IEC", U),
    # a stated surface hotter than the class decides
    ("marking: Ex db IIC T4 Gb, surface_temperature: 150 °C", "area: 'Zone 1, IIA, T4'", "IEC", F),
    ("marking: Ex db IIC T4 Gb, surface_temperature: 90 °C", "area: 'Zone 1, IIA, T4'", "IEC", P),
    # the class limit against what ignites: equality fails, or leaves no margin under NFPA 70
    ("marking: Ex db IIA T1 Gb", "area: Zone 1, substances: [propane]", "IEC", F),
    (
        "marking: 'Class I, Division 1, Group D T1'",
        "area: 'Class I, Division 1, Group D', substances: [propane]",
        "NEC",
        U,
    ),
    # surfaces found elsewhere or in a better state
    (
        "marking: Ex db IIA Gb, surface_temperature: {value: 90 °C, at_ambient: 25 °C}",
        "area: 'Zone 1, IIA, T4', ambient: 0..40 °C",
        "IEC",
        U,
    ),
    (
        f"marking: Ex db IIA Gb, {at(90, 'expected malfunction')}",
        "area: 'Zone 1, IIA, T4', ambient: 0..40 °C",
        "IEC",
        P,
    ),
    (
        f"marking: Ex h IIA Gb, {at(90, 'normal')}",
        "area: 'Zone 1, IIA, T4', ambient: 0..40 °C",
        "IEC",
        U,
    ),
    (
        f"marking: Ex h IIA Gb, {at(90, 'expected malfunction')}",
        "area: 'Zone 1, IIA, T4', ambient: 0..40 °C",
        "IEC",
        P,
    ),
    # a figure of which less is said is no better: of no named state or ambient
    (f"marking: Ex db IIA Gb, {at(90)}", "area: 'Zone 1, IIA, T4', ambient: 0..40 °C", "IEC", U),
    (f"marking: Ex ec IIA Gc, {at(90)}", "area: 'Zone 2, IIA, T4', ambient: 0..40 °C", "IEC", P),
    (
        "marking: Ex ec IIA Gc, surface_temperature: 90 °C",
        "area: 'Zone 2, IIA, T4', ambient: 0..40 °C",
        "IEC",
        U,
    ),
    (
        "marking: Ex db IIA Gb, surface_temperature: {value: 90 °C, case: rare malfunction}",
        "area: 'Zone 1, IIA, T4', ambient: 0..40 °C",
        "IEC",
        U,
    ),
    ("marking: Ex db IIA Gb, surface_temperature: 140 °C", "area: 'Zone 1, IIA, T4'", "IEC", F),
    # nothing stated
    ("marking: Ex db IIA Gb", "area: 'Zone 1, IIA, T4'", "IEC", U),
    ("marking: Ex db IIA T7 Gb", "area: 'Zone 1, IIA, T4'", "IEC", U),
    ("marking: Ex db IIA T4 Gb", "area: 'Zone 1, IIA'", "IEC", U),
    ("marking: Ex db IIA T4 Gb", "area: 'Zone 1, IIA', substances: [blend nobody lists]", "IEC", U),
    (
        "marking: Ex db IIA T4 Gb",
        f"area: 'Zone 1, IIA', substances: [{{name: blend, group: IIA, {OWN}}}]",
        "IEC",
        U,
    ),
    # equipment that makes no heat is as hot as its place, and only NFPA 70 says so
    ("marking: 'Class I, Division 1, Group D', heat_producing: false", D2, "NEC", P),
    ("marking: 'Class I, Division 1, Group D', heat_producing: true", D2, "NEC", U),
    ("marking: 'Class I, Division 1, Group D'", D2, "NEC", U),
    (
        "marking: 'Class I, Division 1, Group D', heat_producing: false",
        f"area: 'Class I, Division 2, Group D', {HEXANE}",
        "NEC",
        U,
    ),
    # 500.8(C)(4), from memory: junction boxes are named as what makes no heat
    ("marking: 'Class I, Division 1, Group D', device: junction box", D2, "NEC", P),
    (
        "marking: 'Class I, Division 1, Group D', device: junction box, heat_producing: true",
        D2,
        "NEC",
        U,
    ),
    ("marking: 'Class I, Division 1, Group D', device: instrument", D2, "NEC", U),
    # 503.5, read: 120 °C is of equipment such as motors or power transformers
    ("marking: 'Class III, Division 1, T4', device: switch", FIBRES, "NEC", P),
    ("marking: 'Class III, Division 1, T4', device: switch, overloadable: true", FIBRES, "NEC", F),
    ("marking: 'Class III, Division 1, T4', device: transformer", FIBRES, "NEC", U),
    ("marking: 'Class III, Division 1, T4'", FIBRES, "NEC", U),
    ("marking: Ex eb IIA Gb, heat_producing: false", "area: 'Zone 1, IIA, T4'", "IEC", U),
    ("marking: 'Class I, Zone 1, AEx eb IIA Gb', heat_producing: false", D2, "NEC", U),
    # 80 % of the autoignition temperature in °C: 180 of 225
    (
        f"marking: none, device: heater, {at(180)}",
        D2,
        "NEC",
        P,
    ),
    ("marking: none, device: heater, surface_temperature: 181 °C", D2, "NEC", F),
    (
        f"marking: none, device: transformer, {at(200)}",
        D2,
        "NEC",
        P,
    ),
    ("marking: none, device: transformer, surface_temperature: 225 °C", D2, "NEC", U),
    ("marking: none, device: transformer", D2, "NEC", U),
    (
        "marking: none, device: squirrel-cage motor, space_heater: true, "  # noqa: ISC004
        f"{at(190)}",
        D2,
        "NEC",
        F,
    ),
    (
        (f"marking: none, device: squirrel-cage motor, space_heater: false, {at(190)}"),
        D2,
        "NEC",
        P,
    ),
    (f"marking: none, {at(190)}", D2, "NEC", P),
    # Class III: 165 °C, or 120 °C for what may be overloaded
    (
        f"marking: none, {at(150)}, overloadable: true",
        "area: 'Class III, Division 1'",
        "NEC",
        F,
    ),
    (
        f"marking: none, {at(150)}, overloadable: false",
        "area: 'Class III, Division 1'",
        "NEC",
        P,
    ),
    (
        f"marking: none, {at(150)}",
        "area: 'Class III, Division 1'",
        "NEC",
        U,
    ),
    (
        "marking: none, surface_temperature: 170 °C, overloadable: false",
        "area: 'Class III, Division 1'",
        "NEC",
        F,
    ),
    ("marking: 'Class III, Division 1 T4'", "area: 'Class III, Division 1'", "NEC", U),
    ("marking: 'Class III, Division 1 T4A'", "area: 'Class III, Division 1'", "NEC", P),
    ("marking: 'Zone 20 AEx ta IIIC T110°C Da'", "area: 'Class III, Division 1'", "NEC", P),
]


@pytest.mark.parametrize(("part", "place", "law", "expected"), CASES)
def test_electrical_surfaces(say: Say, part: str, place: str, law: str, expected: Verdict) -> None:
    assert say("temperature-class", f"kind: electrical, {part}", place, law) is expected


def test_mechanical_surfaces_in_zone_0_stay_at_80_percent(say: Say) -> None:
    """EN 1127-1:2019 6.4.2, category 1: 80 % of 225 °C is 180 °C."""
    place = f"area: Zone 0, {HEXANE}, ambient: 5..40 °C"
    assert (
        say(
            "hot-surface",
            "kind: mechanical, surface_temperature: {value: 180 °C, at_ambient: 40 °C, "
            "case: rare malfunction}",
            place,
        )
        is P
    )
    assert say("hot-surface", "kind: mechanical, surface_temperature: 181 °C", place) is F
    zone1 = f"area: Zone 1, {HEXANE}, ambient: 5..40 °C"
    assert (
        say(
            "hot-surface",
            "kind: mechanical, surface_temperature: {value: 181 °C, at_ambient: 40 °C, "
            "case: expected malfunction}",
            zone1,
        )
        is P
    )
    assert say("temperature-class", "kind: mechanical", place) is Verdict.NOT_APPLICABLE


def dust(**own: str) -> str:
    values = ", ".join(f"{key}: {value}" for key, value in own.items())
    return f"substances: [{{name: test dust, group: IIIB, {values}, {OWN}}}]"


FLOUR = dust(cloud_ignition="380 °C", layer_ignition="350 °C")
DUST = [
    # 2/3 of 380 is 253, 350 less 75 is 275
    ("T253°C", f"area: Zone 21, layer: 5 mm, {FLOUR}", "IEC", P),
    ("T254°C", f"area: Zone 21, layer: 5 mm, {FLOUR}", "IEC", F),
    ("T250°C", f"area: Zone 21, layer: 10 mm, {FLOUR}", "IEC", U),
    ("T250°C", f"area: Zone 21, {FLOUR}", "IEC", P),
    ("T250°C", "area: Zone 21, layer: none, " + dust(cloud_ignition="380 °C"), "IEC", P),
    ("T250°C", "area: Zone 21, layer: 5 mm, " + dust(cloud_ignition="380 °C"), "IEC", U),
    ("T250°C", "area: Zone 21, layer: 5 mm, " + dust(layer_ignition="350 °C"), "IEC", U),
    (
        "T250°C",
        "area: Zone 21, layer: 5 mm, " + dust(cloud_ignition="380 °C", layer_melts="true"),
        "IEC",
        U,
    ),
    ("T250°C", "area: Zone 21, layer: 5 mm, substances: [dust nobody lists]", "IEC", U),
    ("T250°C", "area: Zone 21", "IEC", U),
]


@pytest.mark.parametrize(("mark", "place", "law", "expected"), DUST)
def test_dust_surfaces(say: Say, mark: str, place: str, law: str, expected: Verdict) -> None:
    part = f"kind: electrical, marking: Ex tb IIIC {mark} Db"
    assert say("temperature-class", part, place, law) is expected


NEC_DUST = [
    ("T3B", dust(cloud_ignition="430 °C", layer_ignition="230 °C", carbonises="true"), P),
    ("T3", dust(cloud_ignition="430 °C", layer_ignition="230 °C", carbonises="true"), F),
    ("T3", dust(cloud_ignition="430 °C", layer_ignition="230 °C", carbonises="false"), P),
    ("T3", dust(cloud_ignition="430 °C", layer_ignition="230 °C"), U),
    ("T3", dust(cloud_ignition="430 °C", layer_ignition="200 °C", carbonises="false"), U),
    ("T3", dust(cloud_ignition="430 °C", carbonises="false"), U),
    ("T3", dust(conductive="true", layer_melts="true", carbonises="false"), U),
]


@pytest.mark.parametrize(("mark", "substances", "expected"), NEC_DUST)
def test_division_dust_surfaces(say: Say, mark: str, substances: str, expected: Verdict) -> None:
    part = f"kind: electrical, marking: 'Class II, Division 1, Group G {mark}'"
    place = f"area: 'Class II, Division 1, Group G', {substances}"
    assert say("temperature-class", part, place, "NEC") is expected


def test_without_a_layer_the_cloud_alone_decides(say: Say) -> None:
    part = "kind: electrical, marking: 'Class II, Division 1, Group G T3'"
    place = "area: 'Class II, Division 1, Group G', layer: none, " + dust(
        cloud_ignition="430 °C", carbonises="false"
    )
    assert say("temperature-class", part, place, "NEC") is P


@pytest.mark.parametrize(
    ("marking", "area", "law"),
    [
        ("Ex tb IIIB T120 °C Db", "Zone 21, IIIB", "IEC"),
        ("'Class II, Division 1, Group G T4'", "Class II, Division 1, Group G", "NEC"),
    ],
)
def test_a_layer_that_melts_has_no_ignition_temperature(
    say: Say, tell: Tell, marking: str, area: str, law: str
) -> None:
    """Adipic acid melts: NFPA 70 handbook, commentary table 500.2, as in its row."""
    place = f"area: '{area}', substances: [adipic acid], layer: {{}}"
    part = f"kind: electrical, marking: {marking}"
    deep = place.format("5 mm")
    assert say("temperature-class", part, deep, law) is U
    assert "adipic acid melts before it ignites" in tell("temperature-class", part, deep, law)
    assert say("temperature-class", part, place.format("none"), law) is P


def test_of_a_name_of_two_dusts_the_more_onerous_asks(listed: Listed) -> None:
    """Flake ignites in a layer of 12.7 mm at 320 °C (NEC handbook 500.2), fines higher.

    75 K below it is for a layer of 5 mm (IEC 60079-14:2013 5.6.3.3, from memory), so that what is
    hotter is not shown to fail. Of fines no figure is known.
    """
    assert listed("places", "3", "temperature-class")[0] is U
    assert listed("places", "4", "temperature-class")[0] is U


@pytest.mark.parametrize(
    ("place", "law", "figures", "basis"),
    [
        (
            "{area: 'Class III, Division 1'}",
            "NEC",
            {"165 °C": "NFPA 70-2023 503.5", "120 °C": "NFPA 70-2023 503.5"},
            Basis.SEEN,  # a copy of 503.5 in the wording of 2017 to 2020
        ),
        (
            "{area: 'Class II, Division 1, Group G', substances: [wheat flour]}",
            "NEC",
            {"165 °C": "NFPA 70-2023 500.8(D)(2), 506.9(D)"},
            Basis.SEEN,  # a copy of 500.8(D)(2) of 2008
        ),
        (
            "{area: Zone 21, substances: [wheat flour]}",
            "IEC",
            dict.fromkeys(("2/3", "75 K", "5 mm"), "IEC 60079-14:2013 5.6.3"),
            Basis.REPORTED,  # pages and manuals of makers print them
        ),
    ],
)
def test_what_a_dust_or_fibre_allows_rests_on_figures(
    place: str, law: str, figures: dict[str, str], basis: Basis
) -> None:
    """Figures of the clauses named; a pass within them is no better founded than they are."""
    text = (
        f"areafit: 1\nassembly: {{number: M-1}}\ncode: {law}\nlocations: {{case: {place}}}\n"
        "parts: [{item: '1', location: case, kind: structural}]\n"
    )
    bom = areafit.read(text.encode(), "x")
    demands = derive(bom.places["case"], Tables.shipped(), date(2026, 1, 1))
    limits = [limit for hazard in demands.hazards for limit in hazard.limits]
    assert all(limit.rows for limit in limits)
    cited = {(row.value, limit.clause): row.basis for limit in limits for row in limit.rows}
    assert {key: cited[key] for key in figures.items()} == dict.fromkeys(figures.items(), basis)


_LAYERS = "area: 'Zone 21, IIIB', ambient: 5..40 °C, layer: %s, substances: [%s]"


@pytest.mark.parametrize(
    ("dust", "layer", "degrees", "verdict"),
    [
        # rice: 220 °C at 12.7 mm (NFPA 499), cloud 440 °C, no figure at 5 mm
        ("rice", "5 mm", 145, P),
        ("rice", "5 mm", 146, U),
        ("rice", "5 mm", 219, U),
        ("rice", "10 mm", 146, F),  # deeper than the rule: no milder than before
        ("rice", "none", 146, P),
        # a test of one's own at 5 mm decides where it is more onerous, or has its document
        (
            "{name: rice, layer_ignition: 210 °C, source: TR-1}",
            "5 mm",
            136,
            F,
        ),
        (
            "{name: rice, layer_ignition: 300 °C, source: TR-1}",
            "5 mm",
            180,
            U,
        ),
        (
            "{name: rice, layer_ignition: 300 °C, source: TR-1}",
            "5 mm",
            226,
            F,
        ),
    ],
)
def test_the_margin_is_for_the_layer_that_the_rule_was_made_for(
    say: Callable[..., Verdict], dust: str, layer: str, degrees: int, verdict: Verdict
) -> None:
    # IEC 60079-14:2013 5.6.3.3, from memory: 75 K below the ignition of a layer of 5 mm
    part = f"kind: electrical, marking: Ex tb IIIC T{degrees}°C Db"
    assert say("temperature-class", part, _LAYERS % (layer, dust)) is verdict


def test_what_would_settle_a_thicker_layer(remedies: Callable[..., list[str]]) -> None:
    part = "kind: electrical, marking: Ex tb IIIC T146°C Db"
    [remedy] = remedies("temperature-class", part, _LAYERS % ("5 mm", "rice"))
    assert "`layer_ignition`" in remedy
    assert "5 mm" in remedy
