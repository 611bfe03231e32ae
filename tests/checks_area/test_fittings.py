"""Cable glands, plugs, adapters and conduit seals that are lines of their own.

Sources, from memory: IEC 60079-0:2017 3.17 and Annex A (glands make no heat and bear no
temperature class); NFPA 70-2023 500.8(C)(4) exception 1, which names conduit and fittings.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
PLACE = "area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: 5..40 °C, ingress: IP65"
DUSTY = "area: 'Zone 21, IIIB, T135 °C', substances: [wheat flour], layer: 5 mm, ambient: 5..40 °C"
DIVISION = "area: 'Class I, Division 1, Group D', substances: [ethanol], ambient: 5..40 °C"
GLAND = "kind: electrical, device: cable gland, marking: {}"


@pytest.mark.parametrize(
    "device", ["cable gland", "stopping plug", "thread adapter", "conduit seal"]
)
@pytest.mark.parametrize("marking", ["Ex db IIC Gb", "Ex e IIC Gb", "Ex db eb IIC Gb"])
def test_a_fitting_needs_no_class_and_no_entries(say: Say, device: str, marking: str) -> None:
    part = f"kind: electrical, device: {device}, marking: {marking}"
    assert say("temperature-class", part, PLACE) is P
    assert say("cable-entry", part, PLACE) is N


@pytest.mark.parametrize(
    ("part", "place", "law"),
    [
        (GLAND.format("II 2D Ex tb IIIC Db"), DUSTY, "ATEX"),
        (GLAND.format("'Class I, Zone 1, AEx eb IIC Gb'"), DIVISION.replace("1,", "2,"), "NEC"),
        (GLAND.format("'Class I, Division 1, Groups C, D'"), DIVISION, "NEC"),
    ],
)
def test_fittings_in_other_systems(say: Say, part: str, place: str, law: str) -> None:
    assert say("temperature-class", part, place, law) is P
    assert say("cable-entry", part, place, law) is N


@pytest.mark.parametrize(
    "part",
    [
        "kind: electrical, marking: Ex eb IIC Gb",  # not said to be a fitting
        "kind: electrical, device: junction box, marking: Ex eb IIC Gb",
        GLAND.format("Ex pxb IIC Gb"),  # no type that a gland has
        GLAND.format("Ex db mb IIC Gb"),
        GLAND.format("Ex ia IIC Ga"),
        GLAND.format("'Ex db [ia Ga] IIC Gb'"),
        GLAND.format("Ex IIC Gb"),
        GLAND.format("Ex eb IIC Gb") + ", heat_producing: true",
        GLAND.format("Ex eb IIC Gb") + ", arcing: true",
        GLAND.format("Ex eb IIC Gb") + ", electrical_content: a terminal",
        GLAND.format("Ex eb IIC Gb").replace("electrical,", "[electrical, mechanical],"),
    ],
)
def test_what_is_no_fitting_needs_its_class(say: Say, part: str) -> None:
    assert say("temperature-class", part, PLACE) is U


def test_what_is_no_fitting_needs_its_entries(say: Say) -> None:
    assert say("cable-entry", GLAND.format("Ex pxb IIC Gb"), PLACE) is U
    holed = GLAND.format("Ex eb IIC Gb") + ", entries: [{type: open hole}]"
    assert say("cable-entry", holed, PLACE) is F


def test_a_printed_class_and_a_stated_surface_count(say: Say) -> None:
    assert say("temperature-class", GLAND.format("Ex eb IIC T1 Gb"), PLACE) is F
    hot = GLAND.format("Ex eb IIC Gb") + ", surface_temperature: 250 °C"
    assert say("temperature-class", hot, PLACE) is F


def test_a_fitting_is_as_hot_as_its_place(say: Say) -> None:
    hot = PLACE.replace("5..40", "5..210")
    assert say("temperature-class", GLAND.format("Ex eb IIC Gb"), hot) is F
    silent = PLACE.replace("ambient: 5..40 °C, ", "")
    assert say("temperature-class", GLAND.format("Ex eb IIC Gb"), silent) is U


@pytest.mark.parametrize(
    ("rule", "part", "verdict"),
    [
        ("gas-group", GLAND.format("Ex eb IIA Gb"), F),
        ("protection-level", GLAND.format("Ex ec IIC Gc"), F),
        ("protection-level", GLAND.format("none"), F),
        ("protection-level", "kind: electrical, device: cable gland", U),
        ("ingress", GLAND.format("Ex eb IIC Gb"), U),
        ("ingress", GLAND.format("Ex eb IIC Gb") + ", ingress: IP54", F),
        ("ambient-range", GLAND.format("Ex eb IIC Gb -20 °C ≤ Ta ≤ +30 °C"), F),
        ("ex-component", GLAND.format("Ex eb IIC Gb U"), F),
    ],
)
def test_all_else_counts_for_fittings(say: Say, rule: str, part: str, verdict: Verdict) -> None:
    assert say(rule, part, PLACE) is verdict


def test_an_unmarked_fitting_is_for_the_enclosure_that_it_closes(say: Say) -> None:
    place = DIVISION.replace("Division 1", "Division 2")
    assert say("protection-level", GLAND.format("none"), place, "NEC") is U


def test_a_structural_line_with_a_gland_s_nameplate_is_told_what_to_say(
    remedies: Callable[..., list[str]],
) -> None:
    said = remedies("kind", "kind: structural, marking: Ex eb IIC Gb", PLACE)
    assert "`device`" in said[0]


@pytest.mark.parametrize("device", ["cable gland", "stopping plug"])
def test_a_fitting_without_a_marking_is_not_asked_for_a_class(say: Say, device: str) -> None:
    part = f"kind: electrical, device: {device}, marking: none"
    place = DIVISION.replace("Division 1", "Division 2")
    assert say("temperature-class", part, place, "NEC") is P
    assert say("protection-level", part, place, "NEC") is U
    assert say("protection-level", part, PLACE) is F
    assert say("temperature-class", f"{part}, heat_producing: true", place, "NEC") is U
    assert say("temperature-class", f"kind: electrical, device: {device}", place, "NEC") is U


def test_only_remedies_that_are_left_are_named(remedies: Callable[..., list[str]]) -> None:
    place = DIVISION.replace("Division 1", "Division 2")
    box = "kind: electrical, device: relay, marking: none"
    (said,) = remedies("temperature-class", box, place, "NEC")
    assert "`heat_producing: false` where nothing inside makes heat" in said
    assert "gland" not in said
    (said,) = remedies("temperature-class", "kind: electrical, marking: none", place, "NEC")
    assert "A cable gland or plug" in said
    (said,) = remedies("temperature-class", box.replace("none", "Ex eb IIC Gb"), PLACE)
    assert "heat_producing" not in said


@pytest.mark.parametrize(
    ("part", "times"),
    [
        ("kind: electrical, marking: Ex eb IIC Gb", 1),
        ("kind: electrical, marking: Ex eb IIC Gb, description: Entry M20", 1),
        ("kind: electrical, marking: Ex eb IIC Gb, description: Heater", 0),
        ("kind: electrical, marking: Ex eb IIC Gb, entries: [{type: open hole}]", 0),
        ("kind: electrical, marking: Ex mb IIC Gb", 0),
        ("kind: mechanical, marking: Ex h IIC Gb", 0),
    ],
)
def test_only_what_may_be_a_fitting_is_asked_whether_it_is(
    remedies: Callable[..., list[str]], part: str, times: int
) -> None:
    """Common practice, no source: nobody can say of a gearbox which gland it is."""
    said = remedies("temperature-class", part, PLACE)
    assert said
    assert sum("states its `device`" in text for text in said) == times


@pytest.mark.parametrize("rule", ["temperature-class", "ingress"])
def test_a_component_is_asked_for_nothing_that_it_cannot_bear(say: Say, rule: str) -> None:
    """IEC 60079-0:2017 13, from memory: no class, and its certificate asks for the enclosure."""
    part = "kind: electrical, marking: Ex eb IIC {}Gb U"
    place = PLACE.replace(", ingress: IP65", "")
    assert say(rule, part.format(""), place) is N
    assert say("ex-component", part.format(""), place) is F
    assert say("temperature-class", part.format("T1 "), "area: 'Zone 1, IIB, T3'") is F
    # nor has it the range of equipment that prints none, but service temperatures of its own
    warm = "area: 'Zone 1, IIB, T3', ambient: 0..55 °C"
    assert say("ambient-range", part.format(""), warm) is N
    assert say("ambient-range", part.format("").replace(" U", ""), warm) is F


@pytest.mark.parametrize("rule", ["temperature-class", "ambient-range"])
def test_a_plate_for_the_other_hazard_asks_nothing_of_its_heat(say: Say, rule: str) -> None:
    """Common practice, no source: the plate is flagged, and another part has another class."""
    for marking in ("Ex tb IIIC T85°C Db", "none"):
        part = f"kind: electrical, marking: {marking}"
        assert say("protection-level", part, PLACE) is F
        assert say(rule, part, PLACE) is N
        stated = f"{part}, ambient: 10..30 °C, surface_temperature: 210 °C"
        assert say(rule, stated, PLACE) is F  # what is stated counts all the same
    assert say(rule, "kind: electrical", PLACE) is U  # nothing said of a plate: it is asked for
