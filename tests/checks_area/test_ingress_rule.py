"""Enclosure ratings, their text, and openings of enclosures.

Sources, from memory: IEC 60529:1989+A1:1999+A2:2013 5 and 6; NEMA 250-2018 annex;
IEC 60079-31:2013 Table 1; IEC 60079-7:2015 4.10; IEC 60079-14:2013 10; NFPA 70-2023 501.15(A).
"""

from collections.abc import Callable

import pytest

from areafit.checks.area.ingress import IngressRating, Ip, read_rating
from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Tell = Callable[..., str]

TEXTS = [
    ("IP66", IngressRating((Ip(6, 6),))),
    ("ip 65", IngressRating((Ip(6, 5),))),
    ("IP66/IP67", IngressRating((Ip(6, 6), Ip(6, 7)))),
    ("IP66/67", IngressRating((Ip(6, 6), Ip(6, 7)))),
    ("IPX5/IPX7", IngressRating((Ip(None, 5), Ip(None, 7)))),
    ("IP69K", IngressRating((Ip(6, 9),))),
    ("IP2X", IngressRating((Ip(2, None),))),
    ("IP54W", IngressRating((Ip(5, 4),))),
    ("Type 4X", IngressRating((), ("4X",))),
    ("NEMA 3R", IngressRating((), ("3R",))),
    ("UL Type 4X, 12 and IP66", IngressRating((Ip(6, 6),), ("4X", "12"))),
    ("Type 7", IngressRating((), (), "Type 7")),
    # NEMA 250, from memory: 7 to 10 are for explosion, dust and mines, with a rating beside
    ("NEMA 4X/7/9", IngressRating((), ("4X",))),
    ("Type 4X, 7, 9", IngressRating((), ("4X",))),
    ("Type 4X, 14", IngressRating((), ("4X",), "Type 14")),
    ("waterproof", IngressRating((), (), "waterproof")),
    ("IP65 (front)", IngressRating((Ip(6, 5),), (), "(front)")),
]


@pytest.mark.parametrize(("text", "expected"), TEXTS)
def test_ratings_are_read(text: str, expected: IngressRating) -> None:
    assert read_rating(text) == expected


def test_a_rating_is_told_in_one_spelling() -> None:
    assert read_rating("nema 4x; ip 65").text == "IP65, Type 4X"
    assert read_rating("none").text == "no rating"


OPEN = "kind: electrical, marking: Ex ia IIC T4 Ga, ingress: IP66, entries: {}"


@pytest.mark.parametrize(
    ("entries", "place", "expected"),
    [
        ("[{type: open hole, thread: M20}]", "area: 'Zone 1, IIB, T3', ingress: IP65", F),
        ("[{type: plug, thread: M20}]", "area: 'Zone 1, IIB, T3', ingress: IP65", P),
        ("[{type: open hole, thread: M20}]", "area: unclassified, ingress: IP54", F),
        ("[{type: open hole, thread: M20}]", "area: 'Zone 1, IIB, T3'", Verdict.NOT_APPLICABLE),
    ],
)
def test_an_open_hole_undoes_the_rating(
    say: Say, entries: str, place: str, expected: Verdict
) -> None:
    """IEC 60529: a rating is that of the closed enclosure; from memory."""
    assert say("ingress", OPEN.format(entries), place) is expected


PAIRS = [
    # each digit by itself
    ("IP65", "IP65", P),
    ("IP65", "IP56", F),
    ("IP65", "IP66", P),
    ("IP54", "IP66", P),
    ("IP66", "IP65", F),
    # immersion does not include jets; both may be marked
    ("IP65", "IP67", F),
    ("IP66", "IP68", F),
    ("IP66", "IP66/IP67", P),
    ("IP67", "IP66", F),
    ("IP67", "IP68", P),
    ("IP67", "IP66/IP68", P),
    ("IP68", "IP67", F),
    ("IP54", "IP67", P),
    ("IP65", "IP69", F),
    ("IP69", "IP66", F),
    ("IP69", "IP69K", P),
    ("IP65", "IPX5", U),
    ("IP65", "IP6X", U),
    ("IP6X", "IP65", P),
    ("IPX5", "IPX6", P),
    # Types: to IP at least, never the reverse
    ("Type 4X", "IP66", U),
    ("Type 4X", "Type 4X", P),
    ("Type 4", "Type 4X", P),
    ("Type 4X", "Type 4", F),
    ("Type 12", "Type 13", P),
    ("IP65", "Type 4X", P),
    ("IP66", "Type 4", P),
    ("IP65", "Type 12", U),
    ("IP54", "Type 12", P),
    ("IP55", "Type 3R", U),
    ("IP65, Type 4X", "Type 4X", P),
    ("IP65, Type 4X", "IP66", U),
    # not read, not stated
    ("IP65", "Type 7", U),
    ("IP65", "IP66 (front)", U),
    ("IP65", "waterproof", U),
    ("washable", "IP66", U),
]


@pytest.mark.parametrize(("needed", "offered", "expected"), PAIRS)
def test_what_the_place_asks_for(say: Say, needed: str, offered: str, expected: Verdict) -> None:
    place = f"area: unclassified, ingress: '{needed}'"
    assert say("ingress", f"kind: electrical, ingress: '{offered}'", place) is expected


def test_silence_about_the_rating(say: Say) -> None:
    place = "area: 'Zone 1, IIB', ingress: IP65"
    assert say("ingress", "kind: electrical", place) is U
    assert say("ingress", "kind: structural", place) is Verdict.NOT_APPLICABLE
    assert say("ingress", "kind: electrical, marking: Ex db IIC T4 Gb IP66", place) is P


def test_plate_and_list_must_both_hold(say: Say) -> None:
    """Where they differ the lower governs; a Type beside an IP code says something else."""
    place = "area: 'Zone 21, IIIB', ingress: {}"
    part = "kind: electrical, marking: Ex tb IIIC T95°C Db {}, ingress: {}"
    assert say("ingress", part.format("IP66", "IP20"), place.format("IP65")) is F
    assert say("ingress", part.format("IP66", "IP20"), "area: 'Zone 21, IIIB'") is F
    assert say("ingress", part.format("IP66", "IP67"), place.format("IP66")) is F
    assert say("ingress", part.format("IP66", "IP66/IP67"), place.format("IP66")) is P
    assert say("ingress", part.format("IP66", "Type 4X"), place.format("'IP65, Type 4X'")) is P
    assert say("ingress", part.format("IP66", "Type 12"), place.format("IP65")) is P
    assert say("ingress", part.format("IP66", "Type 12"), "area: 'Zone 21, IIIB'") is P
    assert say("ingress", part.format("", "Type 12"), "area: 'Zone 21, IIIB'") is U


MINIMA = [
    ("Ex ta IIIC T85°C Da", "IP6X", "area: 'Zone 20, IIIC'", P),
    ("Ex ta IIIA T85°C Da", "IP54", "area: 'Zone 20, IIIA'", F),
    ("Ex tb IIIC T85°C Db", "IP65", "area: 'Zone 21, IIIC'", P),
    ("Ex tb IIIB T85°C Db", "IP54", "area: 'Zone 21, IIIB'", F),
    ("Ex tb IIIA T85°C Db", "IP54", "area: 'Zone 21, IIIA'", P),
    ("Ex tc IIIC T85°C Dc", "IP54", "area: 'Zone 22, IIIC'", F),
    ("Ex tc IIIC T85°C Dc", "IP54", "area: 'Zone 22, IIIB'", F),
    ("Ex tc IIIB T85°C Dc", "IP54", "area: 'Zone 22, IIIB'", P),
    ("Ex tb IIIC T85°C Db", "IPX5", "area: 'Zone 21, IIIC'", U),
    ("Ex tb IIIC T85°C Db", "Type 12", "area: 'Zone 21, IIIC'", U),
    ("Ex tb IIIC T85°C Db", "Type 4X", "area: 'Zone 21, IIIC'", P),
    ("Ex tb IIIC T85°C Db", "IP65 (front)", "area: 'Zone 21, IIIC'", U),
    ("Ex tb IIIC T85°C Db", "sealed", "area: 'Zone 21, IIIC'", U),
    ("Ex eb IIC T4 Gb", "IP54", "area: 'Zone 1, IIC'", P),
    ("Ex eb IIC T4 Gb", "IP53", "area: 'Zone 1, IIC'", F),
    ("Ex db eb IIC T4 Gb", "IP20", "area: 'Zone 1, IIC'", F),
    ("Ex pxb IIC T4 Gb", "IP40", "area: 'Zone 1, IIC'", P),
    ("Ex tD A21 T85°C", "IP65", "area: 'Zone 21'", P),
    ("Ex tD A22 T85°C", "IP54", "area: 'Zone 22, IIIB'", P),
    ("Ex tD A22 T85°C", "IP54", "area: 'Zone 22, IIIC'", F),
    ("Ex tD A22 T85°C", "IP54", "area: 'Zone 22'", F),
]


@pytest.mark.parametrize(("marking", "rating", "place", "expected"), MINIMA)
def test_what_the_type_rests_on(
    say: Say, marking: str, rating: str, place: str, expected: Verdict
) -> None:
    part = f"kind: electrical, marking: '{marking}', ingress: '{rating}'"
    assert say("ingress", part, place) is expected


def test_a_type_that_rests_on_no_rating_asks_none(say: Say) -> None:
    part = "kind: electrical, marking: {}"
    for marking in ("Ex db IIC T4 Gb", "Ex ia IIC T4 Ga"):
        found = say("ingress", part.format(marking), "area: 'Zone 1, IIC'")
        assert found is Verdict.NOT_APPLICABLE
    assert say("ingress", "kind: electrical, marking: Ex eb IIC T4 Gb", "area: 'Zone 1, IIC'") is U
    gearbox = "kind: [electrical, mechanical], marking: [Ex db IIC T4 Gb, Ex h IIC T4 Gb]"
    assert say("ingress", gearbox, "area: 'Zone 1, IIC'") is Verdict.NOT_APPLICABLE


FILLED = "{type: adapter, marking: II 2G Ex db IIC Gb, thread: M20, hole: M20}"
GLAND = "type: cable gland, marking: Ex db IIC Gb, thread: M20x1.5, hole: M20, ingress: IP66"
DB = "Ex db IIB T4 Gb"
Z1 = "area: 'Zone 1, IIB, T3'"
ENTRIES = [
    (DB, f"[{{{GLAND}}}]", Z1, "IEC", P),
    (DB, "none", Z1, "IEC", P),
    (DB, None, Z1, "IEC", U),
    ("Ex ia IIB T4 Ga", None, Z1, "IEC", Verdict.NOT_APPLICABLE),
    (DB, "[{type: open hole}]", Z1, "IEC", F),
    (DB, f"[{{{GLAND}}}, {{type: plug}}]", Z1, "IEC", U),
    (DB, "[{type: plug, marking: none, thread: M20, hole: M20}]", Z1, "IEC", F),
    (DB, "[{type: plug, marking: odd words, thread: M20, hole: M20}]", Z1, "IEC", U),
    (DB, "[{type: plug, marking: Ex tb IIIC Db, thread: M20, hole: M20}]", Z1, "IEC", F),
    (DB, "[{type: plug, marking: Ex eb IIC Gb, thread: M20, hole: M20}]", Z1, "IEC", F),
    (DB, "[{type: plug, marking: Ex db IIA Gb, thread: M20, hole: M20}]", Z1, "IEC", F),
    (DB, "[{type: plug, marking: Ex db IIC Gb U, thread: M20, hole: M20}]", Z1, "IEC", U),
    (DB, "[{type: plug, marking: Ex db IIC Gb, thread: M20}]", Z1, "IEC", U),
    (DB, "[{type: plug, marking: Ex db IIC Gb, thread: M20, hole: M25}]", Z1, "IEC", F),
    (DB, "[{type: plug, marking: Ex db IIC Gb, thread: M20 × 1.5, hole: M20}]", Z1, "IEC", P),
    (DB, "[{type: plug, marking: Ex db IIC Gb, thread: NPT 1/2, hole: 1/2 NPT}]", Z1, "IEC", P),
    (DB, f"[{{{GLAND}}}]", f"{Z1}, ingress: IP66", "IEC", P),
    (DB, f"[{{{GLAND}}}]", f"{Z1}, ingress: IP68", "IEC", F),
    (
        DB,
        "[{type: plug, marking: Ex db IIC Gb, thread: M20, hole: M20}]",
        f"{Z1}, ingress: IP66",
        "IEC",
        U,
    ),
    (
        "Ex eb IIC T4 Gb",
        "[{type: cable gland, marking: Ex eb IIC Gb, thread: M20, hole: M20}]",
        Z1,
        "IEC",
        U,
    ),
    (
        "Ex eb IIC T4 Gb",
        "[{type: cable gland, marking: Ex eb IIC Gb, thread: M20, hole: M20, ingress: IP54}]",
        Z1,
        "IEC",
        P,
    ),
    ("II 2G Ex db IIB T4 Gb", f"[{{{GLAND}}}]", Z1, "ATEX", F),
    (
        "II 2G Ex db IIB T4 Gb",
        f"[{FILLED}, {FILLED.replace('adapter', 'plug')}]",
        Z1,
        "ATEX",
        P,
    ),
]
BOX = "'Class I, Division 1, Groups C, D T4'"
D1 = "area: 'Class I, Division 1, Group D'"
SEAL = f"type: conduit seal, marking: {BOX}, thread: 1/2 NPT, hole: 1/2 NPT"
ENTRIES += [
    (BOX, f"[{{{SEAL}, within: 18 in}}]", D1, "NEC", P),
    (BOX, f"[{{{SEAL}, within: 20 in}}]", D1, "NEC", F),
    (BOX, f"[{{{SEAL}}}]", D1, "NEC", U),
    (BOX, None, D1, "NEC", U),
    # 500.8(C)(2), from memory: a plate without a division is one for Division 1.
    ("'Class I, Groups C, D T4'", None, D1, "NEC", U),
    ("'Class I, Groups C, D T4'", f"[{{{SEAL}, within: 20 in}}]", D1, "NEC", F),
    (
        "'Class I, Division 2, Groups C, D T4'",
        None,
        "area: 'Class I, Division 2, Group D'",
        "NEC",
        Verdict.NOT_APPLICABLE,
    ),
    (
        "'Intrinsically safe, Class I, Division 1, Groups A, B, C, D, T4'",
        None,
        D1,
        "NEC",
        Verdict.NOT_APPLICABLE,
    ),
]


@pytest.mark.parametrize(("marking", "entries", "place", "law", "expected"), ENTRIES)
def test_openings(  # noqa: PLR0917 - the columns of a case
    say: Say, marking: str, entries: str | None, place: str, law: str, expected: Verdict
) -> None:
    part = f"kind: electrical, marking: {marking}"
    part += f", entries: {entries}" if entries is not None else ""
    assert say("cable-entry", part, place, law) is expected


CONDUIT = "[{type: conduit, trade_size: SIZE}]"
HALF, TWO = CONDUIT.replace("SIZE", "1/2"), CONDUIT.replace("SIZE", "2")
NPT = "[{type: conduit, thread: 1/2 NPT, hole: 1/2 NPT, ingress: IP66}]"
NEAR = f"type: conduit seal, marking: {BOX}, within: 9 in"
TERMINALS = f"marking: {BOX}, device: junction box"
XP = f"marking: {BOX}, arcing: true"
FACTORY = "marking: 'Class I, Division 1, Groups C, D T6; factory sealed', heat_producing: false"
NO_SEAL = FACTORY.replace("factory sealed", "seal not required")
DB_SEALED = "marking: 'Zone 1, AEx db IIB T4 Gb, seal not required'"
PURGED = "marking: 'Class I, Division 1, Groups A, B, C, D, Type X purge, T4'"
DIP = "marking: 'Dust-ignitionproof, Class II, Division 1, Group G T4'"


@pytest.mark.parametrize(
    ("part", "place", "expected"),
    [
        # NFPA 70-2023 501.15(A)(1), from memory; its trade size as a forum quotes it
        (f"{XP}, entries: {HALF}", D1, F),
        (f"{TERMINALS}, entries: {HALF}", D1, P),
        (f"{TERMINALS}, entries: {TWO}", D1, F),
        (f"{TERMINALS}, entries: [{{type: conduit}}]", D1, U),
        # NFPA 70-2008 501.15(A)(2), read: unless the conduit is pressurized too
        (f"{PURGED}, entries: {HALF}", D1, U),
        (f"{PURGED}, entries: [{{{SEAL}, within: 18 in}}]", D1, P),
        (f"{PURGED}, entries: [{{{SEAL}, within: 20 in}}]", D1, F),
        # NFPA 70-2023 502.10(A)(1), 502.15, from memory: no flame path, no distance
        (f"{DIP}, entries: {HALF}", "area: 'Class II, Division 1, Group G'", U),
        (f"{DIP}, entries: {NPT}", "area: 'Class II, Division 1, Group G'", P),
        # NFPA 70-2023 505.16(B)(1), from memory
        (f"marking: 'Zone 1, AEx db IIB T4 Gb', entries: {HALF}", "area: 'Zone 1, IIB, T3'", F),
        (f"marking: 'Zone 1, AEx eb IIB T4 Gb', entries: {NPT}", "area: 'Zone 1, IIB, T3'", U),
        # 501.15(A)(1), exception, as a trade journal prints it of 2020: sealed at the factory
        (f"{FACTORY}, arcing: true, entries: {HALF}", D1, P),
        (f"{FACTORY}, arcing: true, entries: {TWO}", D1, F),  # terminals and splices by size
        (f"{NO_SEAL}, arcing: true, entries: {HALF}", D1, P),
        (f"{DB_SEALED}, entries: {NPT}", "area: 'Zone 1, IIB, T3'", P),
        # what one word says of all seals can object, and shows no marking of theirs
        (f"{XP}, conduit_seals: {{within: 18 in, all_runs: true}}", D1, U),
        (f"{XP}, conduit_seals: {{within: 20 in, all_runs: true}}", D1, F),
        (f"{XP}, conduit_seals: {{within: 18 in, all_runs: false}}", D1, F),
        (f"{XP}, entries: none, conduit_seals: {{within: 24 in, all_runs: true}}", D1, F),
        (f"{XP}, entries: none, conduit_seals: {{within: 18 in, all_runs: true}}", D1, U),
        (f"{XP}, entries: none", D1, P),
        (f"{TERMINALS}, conduit_seals: {{within: 20 in, all_runs: false}}", D1, U),
        # 500.8(E), from memory: conduit of a trade size is NPT
        (f"{XP}, entries: [{{{NEAR}, trade_size: 3/4}}]", D1, P),
        (f"{XP}, entries: [{{{NEAR}}}]", D1, U),
    ],
)
def test_conduits(say: Say, part: str, place: str, expected: Verdict) -> None:
    assert say("cable-entry", f"kind: electrical, {part}", place, "NEC") is expected


def test_the_needs_of_a_purge_are_told(tell: Tell) -> None:
    """NFPA 70-2008 501.15(A)(2), read: it is pressurized, not explosionproof."""
    told = tell("cable-entry", f"kind: electrical, {PURGED}", D1, "NEC")
    assert "a pressurized enclosure" in told


def test_mechanical_parts_have_no_cable_entries(say: Say) -> None:
    part = "kind: mechanical, marking: Ex h IIB T4 Gb"
    assert say("cable-entry", part, Z1) is Verdict.NOT_APPLICABLE
    both = "kind: [electrical, mechanical], marking: Ex h IIB T4 Gb"
    assert say("cable-entry", both, Z1) is Verdict.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("part", "place"),
    [
        ("marking: Ex ia IIC T4 Ga, intrinsic_safety: own cell", "area: 'Zone 1, IIB, T3'"),
        ("marking: Ex mb IIC T4 Gb", "area: 'Zone 1, IIB, T3'"),
        ("marking: none", "area: unclassified"),
    ],
)
def test_the_lowest_entry_counts(say: Say, part: str, place: str) -> None:
    """IEC 60079-14:2013 10.2: an entry keeps the rating of the enclosure; from memory."""
    for entries, expected in (
        (("IP66",), Verdict.PASS),
        (("IP20",), Verdict.FLAG),
        (("IP66", "IP20"), Verdict.FLAG),
        (("IP68 IP66", "IP66"), Verdict.PASS),
        (("Type 4",), Verdict.PASS),  # shows IP66
        (("tight",), Verdict.UNPROVEN),
    ):
        fittings = ", ".join(f"{{type: cable gland, ingress: {text}}}" for text in entries)
        text = f"kind: electrical, {part}, ingress: IP66, entries: [{fittings}]"
        assert say("ingress", text, f"{place}, ingress: IP66") is expected, entries


def test_a_listing_beside_a_rating(say: Say) -> None:
    """NEMA 250, from memory: Type 7 is for explosions and says nothing of the weather."""
    part = "kind: electrical, marking: 'NEMA 7, Class I, Groups C, D T6'"
    place = "area: 'Class I, Division 1, Group D', ingress: Type 4X"
    assert say("ingress", f"{part}, ingress: Type 4X", place, "NEC") is P
    assert say("ingress", f"{part}, ingress: Type 4", place, "NEC") is F
    assert say("ingress", part, place, "NEC") is U
