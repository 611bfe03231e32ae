"""What a second reading of the rules on materials found; the source stands at each test."""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

PASS, FLAG, UNPROVEN, SILENT = (
    Verdict.PASS,
    Verdict.FLAG,
    Verdict.UNPROVEN,
    Verdict.NOT_APPLICABLE,
)
Say = Callable[..., Verdict]
ACID = (
    "substances: none, ambient: 5..40 °C, "
    "chemicals: [{name: hydrochloric acid, concentration: 30 %, temperature: 40 °C}]"
)


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: structural, exposure: immersed", UNPROVEN),
        ("kind: structural, exposure: room", UNPROVEN),
        ("kind: mechanical, exposure: room", UNPROVEN),
        ("kind: electrical, exposure: splash", UNPROVEN),
        ("kind: electrical, exposure: washdown", UNPROVEN),
        ("kind: electrical", UNPROVEN),
        ("kind: electrical, exposure: enclosed", SILENT),
        ("kind: loose item, exposure: room", SILENT),
    ],
)
def test_a_part_has_a_material(part: str, expected: Verdict, say: Say) -> None:
    # common practice, no source
    said = f"{part}, materials: none, materials_complete: true, contacts: none"
    assert say("materials-listed", said, ACID) is expected


WARM = "substances: [{{name: toluene, temperature: {}}}], ambient: 0..20 °C, chemicals: {}"


@pytest.mark.parametrize("exposure", ["immersed", "splash"])
def test_a_liquid_that_burns_brings_its_own_temperature(exposure: str, say: Say) -> None:
    # the list: each substance counts as a chemical too; common practice, no source
    part = f"kind: structural, materials: [{{material: FKM, exposure: {exposure}}}]"
    assert say("chemical-resistance", part, WARM.format("20 °C", "none")) is PASS
    assert say("chemical-resistance", part, WARM.format("59 °C", "none")) is UNPROVEN


def test_the_hotter_of_two_temperatures_of_one_liquid_counts(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{material: FKM, exposure: immersed}]"
    cool = "[{name: toluene, concentration: 100 %, temperature: 20 °C}]"
    assert say("chemical-resistance", part, WARM.format("20 °C", cool)) is PASS
    assert say("chemical-resistance", part, WARM.format("59 °C", cool)) is UNPROVEN


def test_vapour_has_the_temperature_of_the_air(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{material: FKM, exposure: fume}]"
    assert say("chemical-resistance", part, WARM.format("59 °C", "none")) is PASS


def test_a_hot_substance_is_held_against_the_service_temperature(say: Say) -> None:
    # common practice, no source
    part = "kind: structural, materials: [{{material: PVC-U, exposure: {}}}]"
    place = WARM.format("90 °C", "none")
    assert say("material-temperature", part.format("immersed"), place) is FLAG
    assert say("material-temperature", part.format("room"), place) is PASS
