"""One part at one place, from words of the command line: the same facts as from a list."""

import pytest

import areafit
from areafit.facts.protection import Law
from areafit_cli import one_part
from areafit_cli.commands import loop as loops

AREAS = [
    (("unclassified",), Law.IEC),
    (("Zone 1, IIB, T3",), Law.IEC),
    (("C1D1, Group D",), Law.NEC),
    (("Cl. I, Div. 1, Gp. D",), Law.NEC),
    (("Class I, Zone 1, IIB",), Law.NEC),
    (("Zone 1, IIB", "Class II, Division 2, Group G"), Law.NEC),
    (
        ("Class I, Division 3, Group D",),
        Law.NEC,
    ),  # no such division
    ((), Law.IEC),
]


@pytest.mark.parametrize(("area", "law"), AREAS)
def test_the_area_says_which_rules_govern(area: tuple[str, ...], law: Law) -> None:
    part = one_part.build(one_part.stated(area=area, kind="structural"))
    loop = loops.build(loops.LoopOptions(("Uo 28 V",), ("Ui 30 V",), area=area))
    assert (part.law, loop.law) == (law, law)


@pytest.mark.parametrize(
    "area",
    [
        ("unclassified", "Zone 1, IIB, T3"),
        ("Zone 1, IIB", "Zone 21, IIIB"),
        ("Zone 1, IIB", "Zone 1, IIB"),
        ("Zone 9",),
    ],
)
def test_areas_are_read_as_in_a_list(area: tuple[str, ...]) -> None:
    listed = areafit.read(
        (
            "areafit: 1\nassembly: {number: A}\ncode: IEC\n"
            f"locations: {{here: {{area: {list(area)}}}}}\n"
            "parts: [{item: '1', location: here, kind: structural}]\n"
        ).encode(),
        "list.yaml",
    )
    called = one_part.build(one_part.stated(area=area, kind="structural"))
    assert called.places["here"].area == listed.places["here"].area
