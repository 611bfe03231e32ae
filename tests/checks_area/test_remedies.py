"""What would pass answers the reason that is given, not the rule alone."""

from collections.abc import Callable

import pytest

Remedies = Callable[..., list[str]]
ZONE = "area: 'Zone 1, IIB, T3', substances: [toluen], ambient: 5..40 °C"
CLAMP = "kind: [mechanical], electrical_content: none, marking: Ex h IIC Gb"
STATED = "surface_temperature: {value: 60 °C, at_ambient: 40 °C, case: normal}"


@pytest.mark.parametrize(
    ("place", "remedy"),
    [
        ("", "Copy it word for word from the area classification document"),
        ("area: somewhere", "Copy it word for word from the area classification document"),
        ("area: unclassified", "List the gases, vapours and dusts"),
        (
            "area: unclassified, substances: none",
            "List what corrodes here from the process description",
        ),
        (
            "area: unclassified, substances: none, chemicals: none",
            "State the air temperature of the place",
        ),
        ("area: Zone 2, chemicals: none, ambient: 5..40 °C", "List the gases, vapours and dusts"),
        (
            "area: Zone 22, substances: none, chemicals: none, ambient: 5..40 °C",
            "State the depth of dust to be expected",
        ),
    ],
)
def test_each_fact_of_a_place_is_asked_for_by_itself(
    remedies: Remedies, place: str, remedy: str
) -> None:
    assert remedies("place-stated", place=place)[0].startswith(remedy)


def test_an_area_that_says_nothing_points_to_the_finding_on_it(tell: Callable[..., str]) -> None:
    said = tell("place-stated", place="area: 'Zone 5, IIB'")
    assert "`area` could not be read (see the declared area)" in said


@pytest.mark.parametrize("rule", ["gas-group", "temperature-class", "substance-known"])
def test_a_misspelt_substance_is_named_wherever_it_counts(remedies: Remedies, rule: str) -> None:
    said = remedies(rule, "kind: electrical, marking: Ex eb IIC T6 Gb", ZONE)
    assert any(text.startswith("Use a known name, such as toluene") for text in said)


def test_a_misspelt_chemical_is_named_where_it_may_meet_another(remedies: Remedies) -> None:
    said = remedies("chemicals-together", place="chemicals: [caustc soda, acetone]")
    assert said[0].startswith("Use a known name, such as caustic soda")


@pytest.mark.parametrize(
    ("part", "remedy"),
    [
        (
            f"{CLAMP}, {STATED}",
            "State the surface as found in the state `expected malfunction`, with its `case`.",
        ),
        (
            f"{CLAMP}, {STATED.replace('40 °C', '20 °C')}",
            "State the surface as found at 40 °C ambient.",
        ),
        (CLAMP, "State the class as marked, or `surface_temperature`"),
        (
            CLAMP.replace("Gb", "T6 (Ta 0..+20) T5 (Ta 0..+30) Gb"),
            "State the place's `ambient`, or choose a part whose `marking`",
        ),
    ],
)
def test_a_surface_is_asked_for_as_it_counts(remedies: Remedies, part: str, remedy: str) -> None:
    place = ZONE.replace("toluen", "toluene")
    assert remedies("temperature-class", part, place)[0].startswith(remedy)


@pytest.mark.parametrize("rule", ["protection-level", "gas-group"])
@pytest.mark.parametrize(
    ("marking", "remedy"),
    [
        ("", "Copy the nameplate into `marking`"),
        (", marking: what nobody prints", "Compare with the nameplate"),
    ],
)
def test_a_nameplate_that_is_missing_is_asked_for(
    remedies: Remedies, rule: str, marking: str, remedy: str
) -> None:
    said = remedies(rule, f"kind: electrical{marking}", ZONE.replace("toluen", "toluene"))
    assert said[0].startswith(remedy)


def test_an_area_that_nobody_can_read_is_the_writer_s_to_correct(remedies: Remedies) -> None:
    (said,) = remedies("declared-area", place="area: yard, document: AC-1")
    assert "`unclassified`" in said
    assert "Zone 1, IIB, T3" in said
