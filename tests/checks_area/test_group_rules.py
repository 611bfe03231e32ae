"""Groups: cover within a system, named gases, seals, and where no group is printed.

Sources, from memory unless the table row says `seen`: NFPA 70-2023 500.6, 500.8(B), 506.6;
IEC 60079-0:2017 4.3, 4.4, 29.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Listed = Callable[[str, str, str], tuple[Verdict, str]]
Tell = Callable[..., str]

C = "'Class I, Division 1, Groups C, D T4'"
BD = "area: 'Class I, Division 1', substances: [1,3-butadiene]"
BUTADIENE = "area: 'Class I, Division 1, Group B', substances: ['1,3-butadiene']"
SEALED = "conduit_seals: {within: 18 in, all_runs: true}"
NEAR = "{type: conduit seal, within: 12 in}"

GAS = [
    ("Ex db IIC T4 Gb", "area: Zone 1, substances: [acetylene]", "IEC", P),
    ("Ex db IIB+H2 T4 Gb", "area: Zone 1, substances: [carbon disulfide]", "IEC", F),
    ("Ex db IIB+H2 T4 Gb", "area: 'Zone 1, IIC', substances: [hydrogen]", "IEC", U),
    ("Ex db IIB+H2 T4 Gb", "area: 'Zone 1, IIB+H2'", "IEC", P),
    ("Ex db IIC T4 Gb", "area: 'Zone 1, IIB+H2'", "IEC", P),
    ("Ex db IIB T4 Gb", "area: 'Zone 1, IIB+H2'", "IEC", F),
    ("Ex eb II T3 Gb", "area: 'Zone 1, IIC'", "IEC", P),
    ("Ex db II T3 Gb", "area: 'Zone 1, IIC'", "IEC", U),
    ("Ex db IIB T4 Gb", "area: Zone 1", "IEC", U),
    ("Ex db IIB T4 Gb", "area: Zone 1, substances: [blend nobody lists]", "IEC", U),
    ("Ex db II (hydrogen) T1 Gb", "area: Zone 1, substances: [hydrogen]", "IEC", P),
    ("Ex db II (hydrogen) T1 Gb", "area: 'Zone 1, IIC', substances: [hydrogen]", "IEC", P),
    ("Ex db IIA (hydrogen) T1 Gb", "area: Zone 1, substances: [hydrogen, propane]", "IEC", P),
    ("Ex db II (hydrogen) T1 Gb", "area: 'Zone 1, IIC'", "IEC", U),
    # Division letters: only those printed
    ("'Class I, Division 1, Groups C, D T4'", "area: 'Class I, Division 1, Group D'", "NEC", P),
    ("'Class I, Division 1, Group B T4'", "area: 'Class I, Division 1, Group D'", "NEC", U),
    ("'Class I, Division 1, Group D T4'", "area: 'Class I, Division 1, Group C'", "NEC", F),
    # across systems only by the substance's own row
    ("'Class I, Zone 1, AEx db IIB T4 Gb'", "area: 'Class I, Division 2, Group D'", "NEC", U),
    # what corrodes and burns is no list of what can form the atmosphere
    (
        "'Class I, Zone 1, AEx db IIB T4 Gb'",
        "area: 'Class I, Division 2, Group D', chemicals: [ethanol]",
        "NEC",
        U,
    ),
    (
        "'Class I, Zone 1, AEx db IIB T4 Gb'",
        "area: 'Class I, Division 2, Group D', substances: [propane]",
        "NEC",
        P,
    ),
    (
        "'Class I, Zone 1, AEx db IIB T4 Gb'",
        "area: 'Class I, Division 2, Group C', substances: [propane]",
        "NEC",
        U,
    ),
    (
        "'Class I, Zone 2, AEx ec IIA T3 Gc'",
        "area: 'Class I, Division 2, Group D', substances: [acrylonitrile]",
        "NEC",
        F,
    ),
    (
        "'Class I, Division 1, Groups C, D T4'",
        "area: 'Class I, Zone 1, IIA', substances: [acetaldehyde]",
        "NEC",
        P,
    ),
    (
        "'Class I, Division 1, Group D T4'",
        "area: 'Class I, Zone 1, IIA', substances: [acetaldehyde]",
        "NEC",
        F,
    ),
    ("quasi proof", "area: 'Zone 1, IIB'", "IEC", U),
    ("'Type X pressurization'", "area: 'Class I, Division 1, Group D'", "NEC", P),
]


@pytest.mark.parametrize(("marking", "place", "law", "expected"), GAS)
def test_gas_groups(say: Say, marking: str, place: str, law: str, expected: Verdict) -> None:
    assert say("gas-group", f"kind: electrical, marking: {marking}", place, law) is expected


@pytest.mark.parametrize("marking", ["none", "Ex tb IIIC T85°C Db", "'[Ex ia Ga] IIC'"])
def test_what_bears_nothing_for_the_hazard_is_flagged_once(say: Say, marking: str) -> None:
    """Common practice, no source: one fault of a plate is one finding, that of its level."""
    part, place = f"kind: electrical, marking: {marking}", "area: 'Zone 1, IIB', ambient: 0..30 °C"
    assert say("protection-level", part, place) is F
    assert say("gas-group", part, place) is Verdict.NOT_APPLICABLE


SEALS = [
    (C, "", U),
    (C, SEALED, P),
    (C, "conduit_seals: {within: 450 mm, all_runs: true}", P),
    (C, "conduit_seals: {within: 500 mm, all_runs: true}", F),
    (C, "conduit_seals: {within: 18 in, all_runs: false}", F),
    (C, "conduit_seals: {within: 18 in}", U),
    (C, "conduit_seals: {all_runs: true}", U),
    (C, f"entries: [{NEAR}]", P),
    (C, f"entries: [{NEAR}, {NEAR}, {{type: plug}}]", P),
    (C, f"entries: [{NEAR}, {{type: conduit seal, within: 20 in}}]", F),
    (C, f"entries: [{NEAR}, {{type: conduit seal}}]", U),
    (C, f"entries: [{NEAR}, {{type: conduit}}]", U),
    (C, f"entries: [{NEAR}, {{type: cable gland}}]", U),
    (C, f"entries: [{NEAR}, {{type: open hole}}]", U),
    (C, "entries: [{type: plug}]", U),
    (C, "entries: none", U),
    (C, f"entries: [{NEAR}], conduit_seals: {{within: 18 in, all_runs: false}}", F),
    ("'Class I, Division 1, Group C T4'", SEALED, F),  # butadiene is D with seals
    ("'Class I, Division 1, Groups B, C, D T4'", "", P),
    # the exception is for explosionproof equipment
    ("'Intrinsically safe, Class I, Division 1, Groups C, D T4'", SEALED, F),
]


@pytest.mark.parametrize(("marking", "seals", "expected"), SEALS)
def test_butadiene_with_conduit_seals(
    say: Say, marking: str, seals: str, expected: Verdict
) -> None:
    """NFPA 70-2008 500.6(A)(2) exception 1, seen."""
    part = f"kind: electrical, marking: {marking}" + (f", {seals}" if seals else "")
    assert say("gas-group", part, BUTADIENE, "NEC") is expected


def test_seals_do_not_help_where_hydrogen_is_too(say: Say, tell: Tell) -> None:
    place = "area: 'Class I, Division 1, Group B', substances: ['1,3-butadiene', hydrogen]"
    assert say("gas-group", f"kind: electrical, marking: {C}, {SEALED}", place, "NEC") is F
    words = tell("gas-group", f"kind: electrical, marking: {C}", BUTADIENE, "NEC")
    assert "conduit_seals" in words


@pytest.mark.parametrize("seals", ["", f", {SEALED}"])
@pytest.mark.parametrize(("groups", "expected"), [("B, C, D", P), ("C, D", F), ("D", F)])
def test_the_seal_itself_is_asked_for_its_group(
    say: Say, tell: Tell, groups: str, expected: Verdict, seals: str
) -> None:
    """The exceptions of NFPA 70-2008 500.6(A)(2), seen, are of what seals isolate, not of seals."""
    fitting = f"type: conduit seal, marking: 'Class I, Division 1, Groups {groups}'"
    size = "thread: 1/2 NPT, hole: 1/2 NPT, trade_size: 1/2, within: 17 in"
    part = f"kind: electrical, marking: {C}, entries: [{{{fitting}, {size}}}]{seals}"
    place = "area: 'Class I, Division 1, Group B', substances: [ethylene oxide]"
    assert say("cable-entry", part, place, "NEC") is expected
    assert "conduit_seals" not in tell("cable-entry", part, place, "NEC")


def test_a_gas_printed_beside_the_group_is_served(say: Say, tell: Tell) -> None:
    part = "kind: electrical, marking: Ex db IIB+CS2 T6 Gb"
    assert say("gas-group", part, "area: Zone 1, substances: [carbon disulfide]") is P
    assert say("gas-group", part, "area: Zone 1, substances: [hydrogen]") is F
    assert "carbon-disulfide too" in tell("gas-group", part, "area: 'Zone 1, IIB'")


DUST = [
    ("Ex tb IIIC T120°C Db", "area: 'Zone 21, IIIB'", "IEC", P),
    ("Ex tb IIIB T120°C Db", "area: 'Zone 21, IIIC'", "IEC", F),
    ("Ex tb IIIA T120°C Db", "area: Zone 21, substances: [sugar]", "IEC", F),
    ("'Class II, Division 1, Group F T4'", "area: 'Class II, Division 1, Group G'", "NEC", F),
    (
        "'Class II, Division 1, Groups E, F, G T4'",
        "area: 'Class II, Division 1, Group F'",
        "NEC",
        P,
    ),
    ("'Zone 21 AEx tb IIIC T120°C Db'", "area: 'Class II, Division 2, Group G'", "NEC", U),
    (
        "'Zone 21 AEx tb IIIC T120°C Db'",
        "area: 'Class II, Division 2, Group G', substances: [wheat flour]",
        "NEC",
        P,
    ),
    # a form without groups: practice A with IP6X, IEC 61241-1:2004 and 61241-14, from memory
    ("II 2D Ex tD A21 IP65 T80°C", "area: 'Zone 21, IIIB'", "ATEX", P),
    ("II 2D Ex tD A21 IP65 T80°C", "area: 'Zone 21, IIIC'", "ATEX", U),
    ("II 2D Ex tD A21 IP54 T80°C", "area: 'Zone 21, IIIB'", "ATEX", U),
    ("II 2D Ex tD A21 T80°C", "area: 'Zone 21, IIIB'", "ATEX", U),
    # for Zone 22 IP5X kept out what does not conduct, IEC 61241-14:2004, from memory
    ("II 3D Ex tD A22 IP54 T80°C", "area: 'Zone 22, IIIB'", "ATEX", P),
    ("II 3D Ex tD A22 IP65 T80°C", "area: 'Zone 22, IIIB'", "ATEX", P),
    ("II 3D Ex tD A22 IP54 T80°C", "area: 'Zone 22, IIIC'", "ATEX", U),
    ("II 3D Ex tD A22 IP44 T80°C", "area: 'Zone 22, IIIB'", "ATEX", U),
    ("II 3D Ex tD B22 IP54 T80°C", "area: 'Zone 22, IIIB'", "ATEX", U),
    ("II 2D Ex tD B21 IP65 T80°C", "area: 'Zone 21, IIIB'", "ATEX", U),
]


@pytest.mark.parametrize(("marking", "place", "law", "expected"), DUST)
def test_dust_groups(say: Say, marking: str, place: str, law: str, expected: Verdict) -> None:
    assert say("dust-group", f"kind: electrical, marking: {marking}", place, law) is expected


@pytest.mark.parametrize(
    ("marking", "gas", "dust"),
    [
        ("II 2GD c k T4 / T120°C", P, P),
        ("II 2GD b T4 / T120°C", P, P),
        ("II 2G c IIB T4", F, Verdict.NOT_APPLICABLE),  # what is printed holds; none is for dust
        ("II 2GD Ex h T4 / T120°C Gb/Db", U, U),  # ISO 80079-36 always prints it
        ("II 2GD c d T4 / T120°C", U, U),  # a flameproof enclosure is divided
    ],
)
def test_letters_of_en_13463_without_a_group_stand_for_all(
    say: Say, marking: str, gas: Verdict, dust: Verdict
) -> None:
    # GOST 31441.1-2011, which adopts EN 13463-1:2001, as printed by a certifier: IIA, IIB and IIC
    # are used where the type of protection is divided, else II; dust has none. From memory.
    part = f"kind: mechanical, marking: {marking}"
    place = "area: ['Zone 1, IIC', 'Zone 21, IIIC']"
    assert say("gas-group", part, place, "ATEX") is gas
    assert say("dust-group", part, place, "ATEX") is dust


def test_fibres_know_no_groups(say: Say) -> None:
    part = "kind: electrical, marking: 'Class III, Division 1 T4'"
    assert say("dust-group", part, "area: 'Class III, Division 1'", "NEC") is Verdict.NOT_APPLICABLE


def test_an_unmarked_device_is_not_limited_to_groups(say: Say) -> None:
    part = "kind: electrical, marking: none, device: relay"
    assert say("gas-group", part, "area: 'Class I, Division 2, Group D'", "NEC") is P


def test_hydrogen_that_may_gather_leaves_a_milder_group_open(tell: Tell, say: Say) -> None:
    """A weak acid on a zinc plate: IIA may fall short, and the owner must say whether it does."""
    part = (
        "kind: electrical, marking: Ex db IIA T4 Gb, "
        "materials: [{material: zinc-plated steel, exposure: splash}]"
    )
    place = (
        "area: 'Zone 1, IIA', substances: [propane], "
        "chemicals: [{name: acetic acid, concentration: 20 %, temperature: 25 °C}]"
    )
    assert say("gas-group", part, place) is U
    assert "if it gathers" in tell("gas-group", part, place)


def test_of_a_name_of_two_gases_the_more_onerous_asks(listed: Listed) -> None:
    """A `ketone` is acetone (IIA) or butanone (IIB): IEC 60079-20-1, from memory, as in its row."""
    assert listed("places", "1", "gas-group")[0] is F
    assert listed("places", "2", "gas-group")[0] is P
