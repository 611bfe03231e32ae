"""Area rules as a second reader of the codes sees them; each case names its source.

Sources from memory unless a case says otherwise.
"""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Reason, Role, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Ask = Callable[..., Judgement]

# IEC 60079-0:2017 29 (IIB+H2 is IIB and hydrogen), 4.3
H2 = "kind: electrical, marking: Ex db IIB+H2 T4 Gb"


def test_hydrogen_alone_may_explain_a_declared_iic(ask: Ask) -> None:
    said = ask("gas-group", H2, "area: 'Zone 1, IIC, T1', substances: [hydrogen]")
    assert (said.verdict, said.reason) == (U, Reason.FACT_MISSING)
    assert "covers the hydrogen listed here" in said.message
    assert "only reason" in said.remedy
    assert said.answer_by is Role.AREA_OWNER


@pytest.mark.parametrize(
    ("place", "verdict"),
    [
        ("area: 'Zone 1, IIB+H2, T1', substances: [hydrogen]", P),
        ("area: 'Zone 1, IIC, T1', substances: [hydrogen, acetylene]", F),
        ("area: 'Zone 1, IIC, T1'", F),
    ],
)
def test_other_reasons_for_iic_are_not_covered(ask: Ask, place: str, verdict: Verdict) -> None:
    assert ask("gas-group", H2, place).verdict is verdict


def test_an_area_declared_for_hydrogen_beside_iib_accounts_for_it(ask: Ask) -> None:
    place = "area: 'Zone 1, IIB+H2, T1', document: AC-1, substances: [{}]"
    assert ask("declared-area", place=place.format("hydrogen")).verdict is P
    assert ask("declared-area", place=place.format("acetylene")).verdict is F


def test_a_place_without_groups_is_for_its_owner_to_answer(ask: Ask) -> None:
    part = "kind: electrical, marking: Ex db IIB T4 Gb"
    for rule in ("gas-group", "temperature-class"):
        said = ask(rule, part, "area: Zone 1")
        assert (said.verdict, said.answer_by) == (U, Role.AREA_OWNER)
        assert "List the `substances` of the place" in said.remedy
        unknown = ask(rule, part, "area: Zone 1, substances: [nobody knows]")
        assert (unknown.verdict, unknown.answer_by) == (U, Role.AREA_OWNER)
        assert "own values" in unknown.remedy


def test_a_milder_division_letter_is_for_the_maker_and_seals_for_the_installer(ask: Ask) -> None:
    # NFPA 70-2023 500.6(A) and its exceptions
    part = "kind: electrical, marking: 'Class I, Division 1, Group {} T4'"
    place = "area: 'Class I, Division 1', substances: [{}]"
    said = ask("gas-group", part.format("C"), place.format("propane"), "NEC")
    assert (said.verdict, said.answer_by) == (U, None)  # the rule's own: the supplier
    assert "listing" in said.remedy
    said = ask("gas-group", part.format("D"), place.format("'1,3-butadiene'"), "NEC")
    assert (said.verdict, said.answer_by) == (U, Role.INSTALLER)
    assert "conduit_seals" in said.remedy


@pytest.mark.parametrize("rule", ["gas-group", "temperature-class", "dust-group"])
def test_a_box_that_protects_outgoing_circuits_only_fails_once(ask: Ask, rule: str) -> None:
    # IEC 60079-0:2017 29.4: square brackets say nothing of the housing
    part, place = "kind: electrical, marking: '[Ex ia Ga] IIC'", "area: 'Zone 1, IIB, T3'"
    assert ask("protection-level", part, place).verdict is F
    assert ask(rule, part, place).verdict is N
    hot = f"{part}, surface_temperature: 250 °C"
    assert ask("temperature-class", hot, place).verdict is F


_BARRIER = (
    "kind: electrical, marking: 'Associated apparatus, {}; provides intrinsically safe circuits "
    "to Class I, Division 1, Groups A, B, C, D'"
)


@pytest.mark.parametrize(
    ("own", "place", "rule", "verdict"),
    [
        ("non-hazardous or Class I, Division 2", 2, "protection-level", P),
        ("non-hazardous or Class I, Division 2", 2, "gas-group", U),
        ("non-hazardous or Class I, Division 2", 1, "protection-level", F),
        ("Class I, Division 2, Groups A, B, C, D T4", 2, "gas-group", P),
        ("Class I, Division 2, Groups A, B, C, D T4", 2, "temperature-class", P),
        ("non-hazardous", 2, "protection-level", F),
        ("Class I, Division 1, Groups A, B, C, D", 1, "protection-level", F),
    ],
)
def test_associated_apparatus_with_a_division_of_its_own(
    ask: Ask, own: str, place: int, rule: str, verdict: Verdict
) -> None:
    # NFPA 70-2023 504.10(A): associated apparatus in a hazardous location if it is listed for that
    area = f"area: 'Class I, Division {place}, Group D', substances: [propane]"
    assert ask(rule, _BARRIER.format(own), area, "NEC").verdict is verdict


def test_a_barrier_listed_for_division_2_may_feed_a_loop_from_there(ask: Ask) -> None:
    loop = (
        "  - {item: '2', kind: electrical, location: case, marking: 'Intrinsically safe, Class I, "
        "Division 1, Groups A, B, C, D T4'}\n"
        "loops:\n  - {name: L, group: D, source: {item: '1'}, devices: [{item: '2'}]}\n"
    )
    area = "area: 'Class I, Division 2, Group D'"
    part = _BARRIER.format("Class I, Division 2, Groups A, B, C, D T4")
    assert ask("loop-source-place", part, area, "NEC", loop).verdict is P


@pytest.mark.parametrize(
    ("marking", "area", "verdict"),
    [
        ("Class II, Division 1, Group G; Class III T3B", "Class III, Division 1", P),
        ("Class III T3B", "Class III, Division 2", P),
        ("Class I, Groups C, D T4", "Class I, Division 2, Group D", U),
        ("Class II, Group G T4", "Class II, Division 1, Group G", U),
    ],
)
def test_a_class_without_a_division(ask: Ask, marking: str, area: str, verdict: Verdict) -> None:
    # NFPA 70-2023 500.8(C)(2): Division 1 equipment may omit the division; Class III equipment is
    # one kind (503). For gas and dust the omission is not told from an incomplete copy.
    part = f"kind: electrical, marking: '{marking}'"
    said = ask("protection-level", part, f"area: '{area}'", "NEC")
    assert said.verdict is verdict
    assert verdict is P or "500.8(C)(2)" in said.clause


def test_no_level_says_what_to_write(ask: Ask) -> None:
    part = "kind: mechanical, marking: Ex h IIB T4"
    said = ask("protection-level", part, "area: 'Zone 1, IIB, T3'")
    assert said.verdict is U
    assert "EPL" in said.remedy


_MOTOR = "device: squirrel-cage motor, arcing: false, inverter_fed: false, space_heater: false"


@pytest.mark.parametrize(
    ("device", "verdict"),
    [
        ("device: relay, arcing: true, enclosure: dusttight", P),  # NFPA 70-2023 502.115(B)
        ("device: relay, arcing: true, enclosure: general purpose", F),
        ("device: relay, arcing: true", U),
        ("device: solenoid, arcing: false, enclosure: dusttight", P),  # 502.120(B)
        ("device: junction box, arcing: false, enclosure: dusttight", P),  # 502.10(B)(4)
        (f"{_MOTOR}, enclosure: totally enclosed", P),  # 502.125(B)
        ("device: resistor, arcing: false, enclosure: dusttight", F),
    ],
)
def test_unmarked_devices_in_class_ii_division_2(ask: Ask, device: str, verdict: Verdict) -> None:
    part = f"kind: electrical, marking: none, {device}"
    area = "area: 'Class II, Division 2, Group G'"
    assert ask("protection-level", part, area, "NEC").verdict is verdict
    worse = "area: 'Class II, Division 1, Group G'"
    assert ask("protection-level", part, worse, "NEC").verdict is F


_SEAL = (
    "kind: electrical, marking: '{}', entries: [{{type: conduit seal, marking: '{}', "
    "thread: NPT 1/2, hole: 1/2 in NPT, within: {}}}]"
)
_AEX = "Class I, Zone 1, AEx db IIB T4 Gb"
_DIV = "Class I, Division 1, Groups A, B, C, D"


@pytest.mark.parametrize(
    ("box", "seal", "within", "verdict"),
    [
        (_AEX, _DIV, "50 mm", P),
        (_AEX, _DIV, "2 in", P),
        (_AEX, _DIV, "100 mm", U),  # NFPA 70-2023 505.16(B)(1): 50 mm, with exceptions
        (_AEX, _DIV, "1 m", F),
        (_AEX, "Class I, Division 2, Groups A, B, C, D", "50 mm", F),
        (_AEX, "Class I, Division 1, Group D", "50 mm", F),  # ethanol is IIB: D is not enough
        (f"{_DIV} T4", _DIV, "18 in", P),  # 501.15(A)(1)
        (f"{_DIV} T4", _DIV, "19 in", F),
    ],
)
def test_conduit_seals(ask: Ask, box: str, seal: str, within: str, verdict: Verdict) -> None:
    area = "'Class I, Zone 1, IIB'" if box == _AEX else "'Class I, Division 1, Group C'"
    place = f"area: {area}, substances: [ethylene]"
    said = ask("cable-entry", _SEAL.format(box, seal, within), place, "NEC")
    assert said.verdict is verdict, said.message


def test_a_division_seal_says_nothing_under_iec(ask: Ask) -> None:
    part = _SEAL.format("Ex db IIB T4 Gb", _DIV, "50 mm")
    assert ask("cable-entry", part, "area: 'Zone 1, IIB'").verdict is F
