"""What may stand where: every cell of the cross-acceptance between the systems.

Source of the expectations, from memory unless the table row says `seen`: NFPA 70-2023 501.5,
502.5, 502.6, 503.5, 503.6, 505.20, 506.20; IEC 60079-14:2013 Table 1; 1999/92/EC Annex II B.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]

GAS_MARKS = {
    "explosionproof": "Class I, Division 1, Groups A, B, C, D T4",
    "IS division": "Intrinsically safe, Class I, Division 1, Groups A, B, C, D, T4",
    "division 2": "Class I, Division 2, Groups A, B, C, D T4",
    "AEx Ga": "Class I, Zone 0, AEx ia IIC T4 Ga",
    "AEx Gb": "Class I, Zone 1, AEx db IIC T4 Gb",
    "AEx Gc": "Class I, Zone 2, AEx ec IIC T4 Gc",
    "Ex Ga": "Ex ia IIC T4 Ga",
    "Ex Gb": "Ex db IIC T4 Gb",
    "Ex Gc": "Ex ec IIC T4 Gc",
    "1G": "II 1G Ex ia IIC T4 Ga",
    "2G": "II 2G Ex db IIC T4 Gb",
    "3G": "II 3G Ex ec IIC T4 Gc",
    "class II": "Class II, Division 1, Groups E, F, G T4",
    "dust": "Ex tb IIIC T120°C Db",
}
GAS = {
    ("NEC", "Class I, Division 1, Group D"): ("explosionproof", "IS division", "AEx Ga"),
    ("NEC", "Class I, Division 2, Group D"): (
        "explosionproof",
        "IS division",
        "division 2",
        "AEx Ga",
        "AEx Gb",
        "AEx Gc",
    ),
    ("NEC", "Class I, Zone 0, IIA"): ("IS division", "AEx Ga"),
    ("NEC", "Class I, Zone 1, IIA"): ("explosionproof", "IS division", "AEx Ga", "AEx Gb"),
    ("NEC", "Class I, Zone 2, IIA"): (
        "explosionproof",
        "IS division",
        "division 2",
        "AEx Ga",
        "AEx Gb",
        "AEx Gc",
    ),
    ("IEC", "Zone 0, IIA"): ("Ex Ga", "1G"),
    ("IEC", "Zone 1, IIA"): ("Ex Ga", "Ex Gb", "1G", "2G"),
    ("IEC", "Zone 2, IIA"): ("Ex Ga", "Ex Gb", "Ex Gc", "1G", "2G", "3G"),
    ("ATEX", "Zone 0, IIA"): ("1G",),
    ("ATEX", "Zone 1, IIA"): ("1G", "2G"),
    ("ATEX", "Zone 2, IIA"): ("1G", "2G", "3G"),
}
DUST_MARKS = {
    "division 1": "Class II, Division 1, Groups E, F, G T4",
    "division 2": "Class II, Division 2, Groups F, G T4",
    "AEx Da": "Zone 20 AEx ta IIIC T120°C Da",
    "AEx Db": "Zone 21 AEx tb IIIC T120°C Db",
    "AEx Dc": "Zone 22 AEx tc IIIC T120°C Dc",
    "Ex Da": "Ex ta IIIC T120°C Da",
    "Ex Db": "Ex tb IIIC T120°C Db",
    "Ex Dc": "Ex tc IIIC T120°C Dc",
    "1D": "II 1D Ex ta IIIC T120°C Da",
    "2D": "II 2D Ex tb IIIC T120°C Db",
    "3D": "II 3D Ex tc IIIC T120°C Dc",
    "class I": "Class I, Division 1, Groups A, B, C, D T4",
    "gas": "Ex db IIC T4 Gb",
    "class III 1": "Class III, Division 1 T4",
    "class III 2": "Class III, Division 2 T4",
}
DUST: dict[tuple[str, str], tuple[str, ...]] = {
    ("NEC", "Class II, Division 1, Group G"): ("division 1", "AEx Da"),
    ("NEC", "Class II, Division 2, Group G"): (
        "division 1",
        "division 2",
        "AEx Da",
        "AEx Db",
        "AEx Dc",
    ),
    ("NEC", "Zone 21, IIIB"): ("division 1", "AEx Da", "AEx Db"),
    ("NEC", "Zone 22, IIIB"): ("division 1", "division 2", "AEx Da", "AEx Db", "AEx Dc"),
    ("IEC", "Zone 20, IIIB"): ("Ex Da", "1D"),
    ("IEC", "Zone 21, IIIB"): ("Ex Da", "Ex Db", "1D", "2D"),
    ("IEC", "Zone 22, IIIB"): ("Ex Da", "Ex Db", "Ex Dc", "1D", "2D", "3D"),
    ("ATEX", "Zone 20, IIIB"): ("1D",),
    ("ATEX", "Zone 21, IIIB"): ("1D", "2D"),
    ("ATEX", "Zone 22, IIIB"): ("1D", "2D", "3D"),
}
FIBRES: dict[tuple[str, str], tuple[str, ...]] = {
    ("NEC", "Class III, Division 1"): ("class III 1", "AEx Da"),
    ("NEC", "Class III, Division 2"): (
        "class III 1",
        "class III 2",
        "AEx Da",
        "AEx Db",
        "AEx Dc",
    ),
}


def cells(table: dict[tuple[str, str], tuple[str, ...]], marks: dict[str, str]) -> list[object]:
    return [
        pytest.param(law, area, marks[name], name in accepted, id=f"{law} {area}: {name}")
        for (law, area), accepted in table.items()
        for name in marks
    ]


@pytest.mark.parametrize(
    ("law", "area", "marking", "accepted"),
    [*cells(GAS, GAS_MARKS), *cells(DUST, DUST_MARKS), *cells(FIBRES, DUST_MARKS)],
)
def test_a_marking_is_accepted_or_refused(
    say: Say,
    law: str,
    area: str,
    marking: str,
    accepted: bool,  # noqa: FBT001 - a column
) -> None:
    found = say(
        "protection-level", f"kind: electrical, marking: '{marking}'", f"area: '{area}'", law
    )
    assert found is (P if accepted else F)


def test_class_ii_division_1_in_zone_20_depends_on_the_edition(say: Say) -> None:
    part = f"kind: electrical, marking: '{DUST_MARKS['division 1']}'"
    assert say("protection-level", part, "area: 'Zone 20, IIIB'", "NEC") is U


OTHERS = [
    # a site may ask for more than its zone does (IEC 60079-14:2013 4.4)
    ("marking: Ex ec IIC T4 Gc", "area: 'Zone 2, IIA', required_epl: Gb", "IEC", F),
    ("marking: Ex db IIC T4 Gb", "area: 'Zone 2, IIA', required_epl: Gb", "IEC", P),
    # a Division code has no such level
    (
        "marking: 'Class I, Division 1, Group D T4'",
        "area: 'Zone 1, IIA', required_epl: Gb",
        "NEC",
        U,
    ),
    # a site's level never relaxes the zone
    ("marking: Ex ec IIC T4 Gc", "area: 'Zone 1, IIA', required_epl: Gc", "IEC", F),
    # a level of the other hazard does not bind this one
    ("marking: Ex db IIC T4 Gb", "area: 'Zone 1, IIA', required_epl: Da", "IEC", P),
    # nothing shows a level
    ("marking: Ex h IIB T4", "area: 'Zone 1, IIA'", "IEC", U),
    # words that no reader knows
    ("marking: quasi proof", "area: 'Zone 1, IIA'", "IEC", U),
    # no class, no division
    ("marking: Groups C and D T4", "area: 'Class I, Division 1, Group D'", "NEC", U),
    # nothing on the plate, said so
    ("marking: none", "area: 'Zone 1, IIA'", "IEC", F),
    ("marking: none", "area: 'Class I, Division 1, Group D'", "NEC", U),
    # mines equipment is for mines
    ("marking: I M2 Ex db I Mb", "area: 'Zone 1, IIA'", "ATEX", F),
    # before the categories: 1999/92/EC Annex II A lets equipment in use stay by assessment
    ("marking: EEx d IIB T4, in_service: true", "area: 'Zone 1, IIA'", "ATEX", U),
    ("marking: EEx d IIB T4, placed_on_market: 2001-05-01", "area: 'Zone 1, IIA'", "ATEX", U),
    ("marking: EEx d IIB T4, placed_on_market: 2004-05-01", "area: 'Zone 1, IIA'", "ATEX", F),
    # the last day under the older law: 94/9/EC Art. 14, 1999/92/EC Art. 9, from memory
    ("marking: EEx d IIB T4, placed_on_market: 2003-06-30", "area: 'Zone 1, IIA'", "ATEX", U),
    ("marking: EEx d IIB T4, placed_on_market: 2003-07-01", "area: 'Zone 1, IIA'", "ATEX", F),
    # what was in use by then may stay (1999/92/EC Annex II A, from memory): since when is asked
    ("marking: EEx d IIB T4", "area: 'Zone 1, IIA'", "ATEX", U),
    ("marking: EEx d IIB T4, in_service: false", "area: 'Zone 1, IIA'", "ATEX", F),
    ("marking: Ex db IIB T4 Gb", "area: 'Zone 1, IIA'", "ATEX", F),
    # only what leaves the box is protected
    ("marking: '[Ex ia Ga] IIC'", "area: 'Zone 2, IIA'", "IEC", F),
    ("marking: 'II 3(1)G Ex ec [ia Ga] IIC T4 Gc'", "area: 'Zone 2, IIA'", "ATEX", P),
    ("marking: 'II 3(1)G Ex ec [ia Ga] IIC T4 Gc'", "area: 'Zone 1, IIA'", "ATEX", F),
    ("marking: 'Ex db IIC T4 Gb'", "area: unclassified", "IEC", Verdict.NOT_APPLICABLE),
    # both sides of a wall: the outer half counts
    ("marking: 'II 1/2G Ex ia/db IIC T6 Ga/Gb'", "area: 'Zone 1, IIA'", "ATEX", P),
    ("marking: 'II 1/2G Ex ia/db IIC T6 Ga/Gb'", "area: 'Zone 0, IIA'", "ATEX", F),
    # two independent types (IEC 60079-26)
    ("marking: 'Ex db+ib IIC T4 Ga'", "area: 'Zone 0, IIA'", "IEC", P),
]


@pytest.mark.parametrize(("part", "place", "law", "expected"), OTHERS)
def test_levels_with_conditions(
    say: Say, part: str, place: str, law: str, expected: Verdict
) -> None:
    assert say("protection-level", f"kind: electrical, {part}", place, law) is expected


def test_every_place_must_accept(say: Say) -> None:
    part = "kind: electrical, marking: ['Ex db IIC T4 Gb', 'Ex tc IIIC T120°C Dc']"
    assert say("protection-level", part, "area: ['Zone 1, IIA', 'Zone 22, IIIB']") is P
    assert say("protection-level", part, "area: ['Zone 1, IIA', 'Zone 21, IIIB']") is F


@pytest.mark.parametrize(
    ("marking", "expected"),
    [
        ("IS/I/1/ABCD/T4", Verdict.PASS),
        ("XP-IS/I/1/ABCD/T4", Verdict.FLAG),
        ("Explosionproof, intrinsically safe, Class I, Division 1, Groups C, D T4", Verdict.FLAG),
        ("PX-IS/I/1/ABCD/T4", Verdict.FLAG),
    ],
)
def test_intrinsic_safety_beside_an_enclosure(
    say: Callable[..., Verdict], marking: str, expected: Verdict
) -> None:
    """505.20(A), from memory: Zone 0 takes what is intrinsically safe, and by that alone.

    Types joined by a dash are several of one piece: a laboratory's list of its marks, read.
    """
    part = f"kind: electrical, marking: '{marking}'"
    assert say("protection-level", part, "area: 'Class I, Zone 0, IIA, T3'", "NEC") is expected
