"""What each loop rule says where the worked cases are silent."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from areafit.checks.loops.circuit import changed, margin
from areafit.checks.loops.group import groups_of, swapped
from areafit.checks.loops.level import device_letter, source_letter
from areafit.checks.loops.needs import System, permitted, place_gaps, reach
from areafit.checks.loops.reactance import LOOP_CAPACITANCE as CAPACITANCE
from areafit.checks.loops.reactance import length_text, share
from areafit.demands import GroupNeed
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.fittings import Battery, BatteryCare, Device
from areafit.facts.groups import Cover, Group
from areafit.facts.loop import ByGroup
from areafit.facts.part import Generates, Kind
from areafit.facts.protection import Hazard, Law, Level
from areafit.tables.limits import figure
from areafit.values import replace
from areafit.verdict import Reason, Verdict

FLAG, OPEN, PASS = Verdict.FLAG, Verdict.UNPROVEN, Verdict.PASS
C, L = "loop-capacitance", "loop-inductance"
G = Group


# Voltage, current, power


def test_equality_keeps_the_limit(kit: Any) -> None:
    setting = kit.Setting(devices=(kit.device("28 V", "93 mA", "0.65 W"),))
    for rule in ("loop-voltage", "loop-current", "loop-power"):
        judgement = setting.only(rule)
        assert judgement.verdict is PASS
        assert "margin 0.0 %" in judgement.message


def test_a_limit_that_is_exceeded_says_by_how_much(kit: Any) -> None:
    message = kit.Setting(devices=(kit.device("24 V"),)).only("loop-voltage").message
    assert message == "Uo 28 V of item 9 exceeds Ui 24 V of item 1: over by 16.7 %."


def test_north_american_names_where_the_nec_governs(kit: Any) -> None:
    message = kit.Setting(law=Law.NEC, devices=(kit.device("24 V"),)).only("loop-voltage").message
    assert "Uo (Voc) 28 V" in message
    assert "Ui (Vmax) 24 V" in message


def test_every_device_is_compared(kit: Any) -> None:
    setting = kit.Setting(devices=(kit.device(), kit.device(i="50 mA", item="2")))
    assert [j.verdict for _, j in setting.answers("loop-current")] == [PASS, FLAG]


@pytest.mark.parametrize("rule", ["loop-voltage", "loop-current", "loop-power"])
def test_nothing_to_compare_is_unproven(kit: Any, rule: str) -> None:
    assert kit.Setting(devices=()).verdict(rule) is OPEN
    assert "the source" in kit.Setting(sources=()).only(rule).message
    assert kit.Setting(sources=(kit.source(None, None, None),)).verdict(rule) is OPEN
    assert kit.Setting(devices=(kit.device(None, None, None),)).verdict(rule) is OPEN


@pytest.mark.parametrize("rule", ["loop-voltage", "loop-current"])
def test_only_simple_apparatus_has_no_limit(kit: Any, rule: str) -> None:
    bare = replace(kit.device(), voltage=Decimal("Infinity"), current=Decimal("Infinity"))
    simple = kit.equipment(None, Kind.SIMPLE_APPARATUS)
    assert kit.Setting(devices=(bare,)).only(rule).reason is Reason.CONDITION_TO_ACCEPT
    assert kit.Setting(devices=(bare,), sensor=simple).verdict(rule) is PASS
    silent = kit.Setting(devices=(kit.device(None, None),), sensor=simple).only(rule)
    assert silent.verdict is OPEN
    assert ": none`" in silent.message


def test_simple_apparatus_needs_a_power(kit: Any) -> None:
    simple = kit.equipment(None, Kind.SIMPLE_APPARATUS)
    bare = replace(kit.device(), power=Decimal("Infinity"))
    judgement = kit.Setting(devices=(bare,), sensor=simple).only("loop-power")
    assert judgement.verdict is OPEN
    assert "1.3 W" in (judgement.remedy or "")
    assert kit.Setting(devices=(bare,)).verdict("loop-power") is OPEN
    assert kit.Setting(sensor=simple).verdict("loop-power") is PASS


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ({"device": Device.SWITCH}, PASS),
        ({"device": Device.PUSH_BUTTON}, PASS),
        ({"device": Device.JUNCTION_BOX, "heat_producing": False}, PASS),
        ({"device": Device.SWITCH, "heat_producing": True}, OPEN),  # with a lamp in it
        ({"device": Device.RESISTOR}, OPEN),
        ({"heat_producing": False}, OPEN),
    ],
)
def test_a_switch_takes_no_power(kit: Any, stated: dict[str, Any], expected: Verdict) -> None:
    """IEC 60079-11:2011 5.7, from memory: boxes and switches hold nothing that a circuit heats."""
    simple = replace(kit.equipment(None, Kind.SIMPLE_APPARATUS), **stated)
    bare = replace(kit.device(), power=Decimal("Infinity"))
    assert kit.Setting(devices=(bare,), sensor=simple).verdict("loop-power") is expected
    silent = replace(kit.device(), power=None)
    assert kit.Setting(devices=(silent,), sensor=simple).verdict("loop-power") is OPEN


def test_several_sources_are_for_a_specialist(kit: Any) -> None:
    pair = (kit.source("12 V", "10 mA", "30 mW"), kit.source("12 V", "10 mA", "30 mW", item="8"))
    setting = kit.Setting(sources=pair)
    for rule in ("loop-source", "loop-voltage", "loop-current", "loop-power", C, L):
        assert setting.only(rule).reason is Reason.NOT_JUDGED, rule
    strong = kit.Setting(sources=(pair[0], kit.source("36 V", item="8")))
    assert strong.verdict("loop-voltage") is FLAG
    silent = kit.Setting(sources=(pair[0], kit.source(c=None, item="8")))
    assert silent.only(C).reason is Reason.FACT_MISSING


# Source


def test_what_a_comparison_cannot_judge(kit: Any) -> None:
    assert kit.Setting().verdict("loop-source") is PASS
    assert kit.Setting(sources=()).verdict("loop-source") is OPEN
    fed = kit.Setting(devices=(kit.device(active=True),)).only("loop-source")
    assert "active: 1" in fed.found
    both_ways = kit.Setting(devices=(kit.device(item="9"),))
    assert both_ways.verdict("loop-source") is OPEN


# From memory: the values of a certificate hold for the source's own output line; half of Co and Lo
# is reckoned for a straight one, whose matched power is a quarter of Uo times Io (circuit theory).
def test_another_output_line_matters_where_both_reactances_are_lumped(kit: Any) -> None:
    lumped = (kit.device(l="100 µH", c="5 nF"),)
    short = kit.cable("100 m", "100 pF/m", "1 µH/m")

    def judged(*devices: Any, **source: Any) -> Any:
        setting = kit.Setting(sources=(kit.source(**source),), devices=devices, cable=short)
        return setting.only("loop-source")

    alone = judged(kit.device(), linear=False)
    assert alone.verdict is PASS
    assert "its own output line" in alone.message
    assert "non-linear: 9" in alone.found
    assert judged(*lumped, linear=False).reason is Reason.NOT_JUDGED
    assert judged(*lumped).verdict is PASS
    for power in ("0.9 W", "2.6 W"):
        assert judged(kit.device(p="3 W"), p=power).verdict is PASS
        large = kit.device(l="100 µH", p="3 W")
        assert judged(large, p=power).reason is Reason.FACT_MISSING
        assert judged(large, p=power, linear=True).verdict is PASS
        assert judged(large, p=power, linear=False).reason is Reason.NOT_JUDGED
    assert judged(kit.device(l="100 µH"), p="0.66 W").verdict is PASS  # rounded up


# From memory: a pair of a certificate was tested with both at once, so that nothing is halved.
def test_a_pair_of_values_is_not_halved(kit: Any) -> None:
    lumped = (kit.device(l="100 µH", c="5 nF"),)

    def judged(rule: str, **source: Any) -> Any:
        return kit.Setting(sources=(kit.source(**source),), devices=lumped).only(rule)

    halved = judged(C)
    assert halved.verdict is FLAG
    assert "`together: yes`" in halved.remedy
    assert judged(C, together=False).verdict is FLAG
    pair = judged(C, together=True)
    assert pair.verdict is PASS
    assert "a pair that holds for both at once" in pair.message
    assert judged(C, together=True, c="44 nF").verdict is FLAG  # 45 nF by device and cable
    assert "together" not in judged(C, c="44 nF").remedy
    assert judged("loop-source", together=True, linear=False).verdict is PASS
    second = (kit.source(together=True), kit.source(item="8"))
    several = kit.Setting(sources=second, devices=lumped)
    assert several.verdict(C) is FLAG


@pytest.mark.parametrize(
    ("marking", "more", "asked"),
    [
        ("Ex ia IIC T4 Ga", {}, False),
        ("Ex ia IIC T4 Ga", {"battery": Battery(present=False)}, False),
        ("Ex ia IIC T4 Ga", {"description": "Level switch"}, False),
        ("Ex ia IIC T4 Ga", {"battery": Battery(replaced=BatteryCare.OUTSIDE)}, True),
        ("Ex ia IIC T4 Ga", {"description": "Transmitter with backup battery"}, True),
        ("Ex db ia IIC T4 Gb", {}, True),
        ("Ex eb mb [ia Ga] IIC T4 Gb", {}, True),
        ("Ex ia op is IIC T4 Ga", {}, False),
    ],
)
def test_who_is_asked_whether_a_device_is_a_source_too(
    kit: Any, marking: str, more: dict[str, Any], *, asked: bool
) -> None:
    """What is intrinsically safe alone draws all from its circuit; common practice, no source."""
    sensor = replace(kit.equipment(marking), **more)
    found = kit.Setting(sensor=sensor).only("loop-source")
    assert (found.verdict is OPEN) is asked, found
    if asked:
        assert found.reason is Reason.FACT_MISSING
        assert "`active`" in found.remedy
        fed = kit.Setting(sensor=sensor, devices=(kit.device(active=False),))
        assert fed.verdict("loop-source") is PASS
        own = kit.Setting(sensor=sensor, devices=(kit.device(active=True),))
        assert own.only("loop-source").reason is Reason.NOT_JUDGED


def test_where_the_source_stands(kit: Any) -> None:
    rule = "loop-source-place"
    zone = "Zone 2, IIC, T4"
    assert kit.Setting().verdict(rule) is PASS
    assert kit.Setting(outside=zone).verdict(rule) is FLAG
    assert kit.Setting(outside=zone, barrier=kit.equipment(None)).verdict(rule) is OPEN
    housed = kit.equipment("Ex nA [ia Ga] IIC T4 Gc")
    assert kit.Setting(outside=zone, barrier=housed).verdict(rule) is PASS
    assert kit.Setting(outside=None, barrier=None).verdict(rule) is OPEN
    assert kit.Setting(barrier=None).verdict(rule) is OPEN


def test_what_reaches_the_safe_side(kit: Any) -> None:
    def verdict(maximum: str | None, supply: str | None) -> Verdict:
        texts = {"maximum_voltage": maximum, "supply": supply}
        volts = {k: None if v is None else Decimal(v) for k, v in texts.items()}
        found: Verdict = kit.Setting(sources=(kit.source(**volts),)).only("loop-supply").verdict
        return found

    assert verdict("250", "250") is PASS
    assert verdict("250", "251") is FLAG
    assert verdict("250", None) is OPEN
    assert verdict(None, "24") is OPEN
    assert verdict(None, None) is OPEN  # IEC 60079-14:2013 16.2.1, from memory
    assert verdict(None, "0") is PASS  # a battery has no safe side: own reasoning


def test_items_must_be_listed_and_single(kit: Any) -> None:
    assert kit.Setting().verdict("loop-items") is PASS
    assert kit.Setting(sensor=None).verdict("loop-items") is OPEN
    assert "alternates: 2" in kit.Setting(alternates=2).only("loop-items").found


def test_simple_apparatus_generates_next_to_nothing(kit: Any) -> None:
    rule = "loop-simple-apparatus"

    def verdict(generates: Generates | None) -> Verdict:
        part = kit.equipment(None, Kind.SIMPLE_APPARATUS, generates=generates)
        found: Verdict = kit.Setting(sensor=part).verdict(rule)
        return found

    most = Generates(Decimal("1.5"), Decimal("0.1"), Decimal("0.025"))
    assert verdict(most) is PASS
    assert verdict(None) is OPEN
    assert verdict(replace(most, power=None)) is OPEN
    assert verdict(Generates(output=False)) is PASS  # README: `generates: {output: none}`
    assert verdict(Generates(voltage=Decimal(2), output=False)) is FLAG
    for name, value in (("voltage", "1.51"), ("current", "0.101"), ("power", "0.0251")):
        changed: dict[str, Any] = {name: Decimal(value)}
        assert verdict(replace(most, **changed)) is FLAG
    assert kit.Setting().verdict(rule) is Verdict.NOT_APPLICABLE


# Reactances


def test_the_sum_shows_its_shares_and_the_longest_cable(kit: Any) -> None:
    judgement = kit.Setting().only(C)
    assert judgement.required == "at most Co 83 nF for IIC"
    assert judgement.found == (
        "5 nF (item 1) + 40 nF (cable, 200 m of 200 pF/m, the default of 200 pF/m "
        "(iec-60079-25-page))"
    )
    assert "Capacitance 45 nF is within 83 nF: margin 45.7 %." in judgement.message
    assert "Up to 390 m of this cable" in judgement.message
    assert "ignition curves is not checked" in judgement.message
    assert kit.Setting(cable=kit.cable("390 m")).verdict(C) is PASS
    assert kit.Setting(cable=kit.cable("390.1 m")).verdict(C) is FLAG


def test_the_longest_cable_is_given_in_feet_under_the_nec(kit: Any) -> None:
    message = kit.Setting(law=Law.NEC).only(C).message
    assert "396 m (1300 ft)" in message


def test_a_thousand_feet_of_the_default_are_exact(kit: Any) -> None:
    setting = kit.Setting(law=Law.NEC, sources=(kit.source(c="65 nF"),), cable=kit.cable("1000 ft"))
    assert setting.verdict(C) is PASS
    assert "margin 0.0 %" in setting.only(C).message
    assert replace(setting, cable=kit.cable("1000.001 ft")).verdict(C) is FLAG


@pytest.mark.parametrize(
    ("li", "share"), [("0.0419 mH", PASS), ("0.042 mH", OPEN), ("0.0421 mH", FLAG)]
)
def test_the_50_percent_rule_at_its_edge(kit: Any, li: str, share: Verdict) -> None:
    """45 nF is within 83 nF and over its half; exactly 1 % of 4.2 mH is where texts differ."""
    judgement = kit.Setting(devices=(kit.device(l=li),)).only(C)
    assert judgement.verdict is share
    if share is OPEN:
        assert judgement.reason is Reason.NO_MARGIN


def test_at_the_edge_the_half_still_passes(kit: Any) -> None:
    setting = kit.Setting(devices=(kit.device(l="0.042 mH"),), cable=kit.cable("100 m"))
    assert setting.verdict(C) is PASS


@pytest.mark.parametrize(
    ("group", "area", "cap"),
    [
        (G.IIC, "Zone 1, IIC", "600 nF"),
        (G.IIB, "Zone 1, IIB", "1 µF"),
        (G.IIA, "Zone 1, IIA", "1 µF"),
    ],
)
def test_halved_capacitance_is_capped(kit: Any, group: Group, area: str, cap: str) -> None:
    setting = kit.Setting(
        group=group,
        area=area,
        substances=(),
        sources=(kit.source(c="5 µF", l="5 mH"),),
        devices=(kit.device(c="100 nF", l="0.1 mH"),),
    )
    assert setting.only(C).required == f"at most {cap}: half of Co 5 µF for {group.value}, capped"
    assert setting.only(L).required == f"at most 2.5 mH: half of Lo 5 mH for {group.value}"


def test_an_unknown_partner_keeps_the_half(kit: Any) -> None:
    """Ci is 6 % of Co; whether Li is over 1 % too is not known."""
    setting = kit.Setting(devices=(kit.device(l=None),))
    assert setting.only(C).reason is Reason.FACT_MISSING
    assert "Li of every device and Lo of the source" in setting.only(C).message
    assert replace(setting, cable=kit.cable("100 m")).verdict(C) is PASS
    assert setting.only(L).message.startswith("Li of item 1 is not stated")
    no_lo = kit.Setting(sources=(kit.source(l=None),), cable=kit.cable("100 m"))
    assert "of an unknown share" in no_lo.only(C).message


def test_too_much_is_too_much_whatever_is_missing(kit: Any) -> None:
    two = (kit.device(c="90 nF"), kit.device(c=None, item="2"))
    assert kit.Setting(devices=two).verdict(C) is FLAG
    assert kit.Setting(devices=(kit.device(c="90 nF"),), cable=None).verdict(C) is FLAG


def test_zero_counts_only_where_it_is_stated(kit: Any) -> None:
    assert kit.Setting(devices=(kit.device(c="0 F", l="0 H"),)).verdict() is PASS
    assert kit.Setting(devices=(kit.device(c=None),)).verdict(C) is OPEN
    assert kit.Setting(devices=()).verdict(C) is OPEN
    assert kit.Setting(sources=(kit.source(c="0 F"),)).verdict(C) is FLAG


@pytest.mark.parametrize(
    ("law", "default"), [(Law.IEC, "200 pF/m"), (Law.ATEX, "200 pF/m"), (Law.NEC, "60 pF/ft")]
)
def test_without_cable_data_the_default_is_named(kit: Any, law: Law, default: str) -> None:
    for cable in (None, kit.cable(default=False), kit.cable(None, default=False)):
        judgement = kit.Setting(law=law, cable=cable).only(C)
        assert judgement.reason is Reason.FACT_MISSING
        assert default in judgement.message
        assert "With that default up to" in judgement.message
    assert "length" in kit.Setting(law=law, cable=kit.cable(None)).only(C).message


def test_stated_values_go_before_the_default(kit: Any) -> None:
    assert kit.Setting(cable=kit.cable("700 m", "100 pF/m")).verdict(C) is PASS
    assert kit.Setting(cable=kit.cable("390 m", "201 pF/m")).verdict(C) is FLAG
    assert kit.Setting(cable=kit.cable("0 m", default=False)).verdict(C) is PASS


def test_without_a_listed_end_no_default_is_known(kit: Any) -> None:
    setting = kit.Setting(barrier=None, sensor=None, cable=None)
    assert setting.only(C).message == "No cable is stated."
    assert setting.only(L).verdict is OPEN
    ratio = kit.source(inductance_per_resistance=Decimal("55e-6"), l="0.1 mH")
    assert replace(setting, sources=(ratio,), cable=kit.cable("1 km")).verdict(L) is OPEN


def test_no_reactance_of_the_source(kit: Any) -> None:
    assert kit.Setting(sources=(kit.source(c=None),)).only(C).message.startswith("No Co of")
    unnamed = kit.Setting(group=None)
    assert unnamed.only(C).message == "For which group Co holds is not said; IIC is needed."
    assert unnamed.only(C).verdict is OPEN
    mild = kit.Setting(group=G.IIB, sources=(kit.source(c="40 nF"),))
    assert mild.verdict(C) is FLAG
    assert replace(mild, cable=kit.cable("10 m")).verdict(C) is OPEN


def test_figures_by_group(kit: Any) -> None:
    table = ByGroup(groups=((G.IIC, Decimal("83e-9")), (G.IIB, Decimal("650e-9"))))
    lo = ByGroup(groups=((G.IIC, Decimal("4.2e-3")), (G.IIB, Decimal("15e-3"))))
    both = (replace(kit.source(), capacitance=table, inductance=lo),)
    hydrogen = kit.Setting(sources=both, group=None, cable=kit.cable("1 km"))
    assert hydrogen.verdict("loop-group") is OPEN  # a group stated wrongly would be a flag
    assert replace(hydrogen, group=G.IIC).verdict("loop-group") is PASS
    assert hydrogen.verdict(C) is FLAG
    ethylene = replace(hydrogen, area="Zone 1, IIB", substances=("ethylene",))
    assert "Co 650 nF for IIB" in ethylene.only(C).required
    propane = replace(hydrogen, area="Zone 1, IIA", substances=("propane",))
    assert "Co 650 nF for IIB" in propane.only(C).required
    outside = replace(hydrogen, area="unclassified", substances=())
    assert "Co 650 nF for IIB" in outside.only(C).required


def test_an_open_place_leaves_reactances_open(kit: Any) -> None:
    setting = kit.Setting(area="Zone 1", substances=())
    assert setting.only(C).message.startswith("The group to judge for is open")
    assert setting.verdict(L) is OPEN
    assert setting.verdict("loop-group") is OPEN


@pytest.mark.parametrize("area", [None, "over there"])
@pytest.mark.parametrize("field", ["area", "outside"])
def test_an_area_that_is_not_read_is_said_once(kit: Any, field: str, area: str | None) -> None:
    """Own choice: what waits for the area is not asked, and never passes."""
    setting = kit.Setting(**{field: area})
    assert [rule for rule, found in setting.answers() if not found.verdict.passes] == ["loop-group"]
    waiting = {C, L, "loop-level", "loop-source-place"}
    assert not waiting & setting.verdicts().keys()


def test_what_fails_or_is_missing_does_not_wait_for_the_area(kit: Any) -> None:
    far = kit.Setting(area=None, cable=kit.cable("90 km"))
    assert far.verdict(C) is FLAG
    silent = kit.Setting(area=None, cable=None)
    assert silent.verdict(C) is OPEN
    unmarked = kit.Setting(area=None, barrier=kit.equipment(None))
    assert unmarked.verdict("loop-group") is OPEN
    assert all(found.required for _, found in unmarked.answers("loop-group"))


@pytest.mark.parametrize(
    ("rule", "source", "device", "said"),
    [
        ("loop-current", {}, {"i": "100 A"}, "Ii 100 A of item 1 is far above"),
        ("loop-voltage", {}, {"u": "30 kV"}, "Ui 30 kV of item 1 is far above"),
        ("loop-power", {}, {"p": "900 W"}, "Pi 900 W of item 1 is far above"),
        ("loop-current", {"i": "0.93 µA"}, {}, "Io 930 nA of item 9 is far below"),
        (C, {"c": "83 F"}, {}, "Co 83 F is far above"),
        (L, {"l": "30 H"}, {}, "Lo 30 H is far above"),
    ],
)
def test_a_unit_that_must_be_wrong_is_asked_about(
    kit: Any, rule: str, source: dict[str, str], device: dict[str, str], said: str
) -> None:
    """Common practice, no source: the commonest typing error makes any limit pass."""
    found = kit.Setting(sources=(kit.source(**source),), devices=(kit.device(**device),)).only(rule)
    assert found.verdict is OPEN
    assert found.message.startswith(said)
    assert found.message.endswith("check the unit.")


# The ratio of a cable


def long_cable(kit: Any, ratio: str | None = "22 µH/Ω", **more: object) -> Any:
    permitted_ratio = {"inductance_per_resistance": Decimal("55e-6")}
    return kit.Setting(
        sources=(kit.source(l="1 mH", **{**permitted_ratio, **more}),),
        devices=(kit.device(c="0 F", l="5 µH"),),
        cable=kit.cable("5 km", "1 pF/m", "1 µH/m", ratio, default=False),
    )


def test_the_ratio_stands_in_for_the_length(kit: Any) -> None:
    assert long_cable(kit).verdict(L) is PASS
    assert "margin 60.0 %" in long_cable(kit).only(L).message
    assert long_cable(kit, "55 µH/Ω").verdict(L) is PASS
    assert long_cable(kit, "55.1 µH/Ω").verdict(L) is FLAG
    assert long_cable(kit, None).verdict(L) is FLAG
    assert long_cable(kit, inductance_per_resistance=None).verdict(L) is FLAG
    without_length = replace(
        long_cable(kit), cable=kit.cable(None, None, None, "22 µH/Ω", default=False)
    )
    assert without_length.verdict(L) is PASS
    assert replace(without_length, cable=None).verdict(L) is OPEN


def test_the_ratio_by_default_needs_a_small_current(kit: Any) -> None:
    asked = kit.cable("5 km", "1 pF/m", "1 µH/m")
    judgement = replace(long_cable(kit), cable=asked).only(L)
    assert judgement.verdict is PASS
    assert any(row.value == "30 µH/Ω" for row in judgement.rows)
    strong = replace(
        long_cable(kit),
        sources=(kit.source(i="3.1 A", l="1 mH", inductance_per_resistance=Decimal("55e-6")),),
    )
    assert replace(strong, cable=asked).verdict(L) is FLAG
    silent = replace(
        long_cable(kit),
        sources=(kit.source(i=None, l="1 mH", inductance_per_resistance=Decimal("55e-6")),),
    )
    assert replace(silent, cable=asked).verdict(L) is FLAG
    nec = replace(long_cable(kit), law=Law.NEC, cable=asked)
    assert nec.verdict(L) is FLAG


def test_the_ratio_is_closed_where_both_are_lumped(kit: Any) -> None:
    lumped = (kit.device(c="5 nF", l="0.1 mH"),)
    assert replace(long_cable(kit), devices=lumped).verdict(L) is FLAG


def test_lumped_inductance_alone_needs_another_ratio(kit: Any) -> None:
    """The permitted ratio of the certificate is for devices that lump next to nothing."""
    setting = replace(long_cable(kit), devices=(kit.device(c="0 F", l="0.1 mH"),))
    assert setting.only(L).reason is Reason.NOT_JUDGED
    assert replace(setting, devices=(kit.device(c="0 F", l="2 mH"),)).verdict(L) is FLAG


def test_the_ratio_is_for_one_source(kit: Any) -> None:
    one = long_cable(kit).sources[0]
    assert replace(long_cable(kit), sources=(one, replace(one, item="8"))).verdict(L) is FLAG


def test_the_ratio_does_not_pass_an_open_place(kit: Any) -> None:
    assert replace(long_cable(kit), area=None).verdict(L) is not PASS


# Groups


@pytest.mark.parametrize(
    ("stated", "needed", "substance", "cover"),
    [
        (G.IIC, G.IIB_H2, None, Cover.YES),
        (G.IIB, G.IIC, None, Cover.NO),
        (G.IIB_H2, G.IIC, "hydrogen", Cover.YES),
        (G.IIB_H2, G.IIC, "acetylene", Cover.NO),
        (G.IIB_H2, G.IIC, None, Cover.NO),
        (G.IIB_H2, G.IIB, None, Cover.YES),
        (G.II, G.IIA, None, Cover.UNPROVEN),
        (G.IIC, G.II, None, Cover.UNPROVEN),
        (G.A, G.D, None, Cover.YES),
        (G.D, G.C, None, Cover.NO),
        (G.B, G.A, None, Cover.NO),
        (G.IIC, G.D, None, Cover.UNPROVEN),
        (G.IIB, G.IIIC, None, Cover.YES),
        (G.IIA, G.IIIC, None, Cover.NO),
        (G.IIIC, G.IIA, None, Cover.UNPROVEN),
        (G.IIIC, G.IIIA, None, Cover.YES),
        (G.IIIA, G.IIIC, None, Cover.NO),
        (G.IIIB, G.III, None, Cover.UNPROVEN),
        (G.III, G.IIIC, None, Cover.YES),
        (G.C, G.G, None, Cover.YES),
        (G.D, G.E, None, Cover.NO),
        (G.D, G.F, None, Cover.UNPROVEN),
        (G.F, G.G, None, Cover.UNPROVEN),
    ],
)
def test_reach(stated: Group, needed: Group, substance: str | None, cover: Cover) -> None:
    need = GroupNeed(needed, "here", substance)
    assert reach(stated, need, (need,)) is cover


def test_a_declared_iic_may_be_due_to_hydrogen() -> None:
    declared = GroupNeed(G.IIC, "declared area")
    hydrogen = GroupNeed(G.IIC, "hydrogen", "hydrogen")
    assert reach(G.IIB_H2, declared, (declared, hydrogen)) is Cover.UNPROVEN


def test_the_mildest_figure_that_holds_is_taken() -> None:
    figures = ByGroup(Decimal(1), ((G.IIC, Decimal(2)), (G.IIA, Decimal(9))))
    need = (GroupNeed(G.IIC, "here"),)
    assert permitted(figures, G.IIC, need).value == 1
    assert permitted(figures, None, need).value == 2
    assert permitted(ByGroup(Decimal(1)), None, need).bound is None
    assert permitted(None, G.IIC, need).value is None


def test_an_end_without_a_place(kit: Any) -> None:
    case = kit.Setting().case()
    lost = replace(case, devices=(replace(case.devices[0], demands=()),))
    assert [gap.message for gap in place_gaps(lost)] == ["where item 1 stands is not stated"]


def test_groups_of_a_device_leave_its_outputs_out(kit: Any) -> None:
    plate = kit.equipment("[Ex ia Ga] IIC")
    assert groups_of(plate, System.ZONE, source=False) == frozenset()
    assert groups_of(plate, System.ZONE, source=True) == {G.IIC}


def test_an_example_cannot_miss_what_it_changes() -> None:
    with pytest.raises(ValueError, match="0 times"):
        changed("no such words", "")


def test_interchanged_figures_are_flagged(kit: Any) -> None:
    table = ByGroup(groups=((G.IIC, Decimal("650e-9")), (G.IIB, Decimal("83e-9"))))
    assert swapped(table, None) == (G.IIB, G.IIC)
    assert swapped(ByGroup(groups=((G.A, Decimal(1)), (G.E, Decimal(2)))), None) is None
    setting = kit.Setting(sources=(replace(kit.source(), capacitance=table),))
    assert "interchanged" in setting.only("loop-group").message


def test_the_loops_own_group(kit: Any) -> None:
    rule = "loop-group"
    assert kit.Setting(group=G.IIB).verdict(rule) is FLAG
    assert kit.Setting(group=None).verdict(rule) is OPEN
    assert kit.Setting(group=G.II).verdict(rule) is OPEN
    only_iib = ByGroup(groups=((G.IIB, Decimal("650e-9")),))
    setting = kit.Setting(group=None, sources=(replace(kit.source(), capacitance=only_iib),))
    assert "only for a milder group" in setting.only(rule).message
    assert kit.Setting(area="unclassified", substances=()).verdict(rule) is PASS
    assert kit.Setting(group=G.D).verdict(rule) is FLAG
    assert kit.Setting(group=G.A, area="Zone 1, IIC", substances=()).verdict(rule) is OPEN


def test_division_places_and_zone_values(kit: Any) -> None:
    rule = "loop-group"
    area = {"law": Law.NEC, "area": "Class I, Division 1, Group D"}
    assert kit.Setting(**area, substances=()).verdict(rule) is OPEN
    zone = kit.Setting(**area, substances=("propane",))
    assert zone.verdict(rule) is PASS
    plates = {
        "barrier": kit.equipment("Associated apparatus Class I, Division 1, Groups C, D"),
        "sensor": kit.equipment("IS Class I, Division 1, Group D T4"),
    }
    assert kit.Setting(**area, substances=("propane",), group=G.C, **plates).verdict(rule) is PASS
    harder = {**area, "area": "Class I, Division 1, Group C"}
    assert kit.Setting(**harder, substances=(), group=G.C, **plates).verdict(rule) is FLAG


def test_nameplates_are_held_to_every_place(kit: Any) -> None:
    rule = "loop-group"
    assert kit.Setting(barrier=kit.equipment("[Ex ia Ga] IIB")).verdict(rule) is FLAG
    assert kit.Setting(barrier=None).verdict(rule) is OPEN
    assert kit.Setting(sensor=kit.equipment(None)).verdict(rule) is OPEN
    assert (
        kit.Setting(barrier=kit.equipment("[Ex ia Ga] IIB+H2"), area="Zone 1, T1").verdict(rule)
        is PASS
    )
    assert kit.Setting(barrier=kit.equipment("[Ex ia Ga] IIB+H2")).verdict(rule) is OPEN
    simple = kit.equipment(None, Kind.SIMPLE_APPARATUS)
    assert kit.Setting(sensor=simple).verdict(rule) is PASS
    pit = (kit.demands("Zone 1, IIC", name="pit"),)
    mild = kit.equipment("Ex ia IIB T4 Ga")
    ethylene = {"area": "Zone 1, IIB", "substances": ("ethylene",), "sensor": mild}
    assert kit.Setting(**ethylene).verdict(rule) is PASS
    assert kit.Setting(**ethylene, crossed=pit).verdict(rule) is FLAG


def test_either_of_two_systems_on_a_nameplate_will_do(kit: Any) -> None:
    dual = kit.equipment("Class I, Zone 0, AEx ia IIC T4 Ga; IS Class I, Division 1, Group D T4")
    division = {"law": Law.NEC, "area": "Class I, Division 1, Group D", "substances": ()}
    answers = [j for _, j in kit.Setting(**division, group=G.D, sensor=dual).answers("loop-group")]
    assert answers[-1].verdict is PASS


def test_dust(kit: Any) -> None:
    """Whatever the dust, IIB serves for the spark; the nameplate must be for dust all the same."""
    dust = {"area": "Zone 21", "substances": (), "group": G.IIB}
    plates = {
        "barrier": kit.equipment("[Ex ia Da] IIIC"),
        "sensor": kit.equipment("Ex ia IIIC T135 °C Da"),
    }
    assert kit.Setting(**dust, **plates).verdict("loop-group") is PASS
    assert kit.Setting(**dust).verdict("loop-group") is OPEN
    assert kit.Setting(**dust, **plates).verdict("loop-level") is PASS
    assert kit.Setting(**dust).verdict("loop-level") is OPEN
    fibres = {"law": Law.NEC, "area": "Class III, Division 1", "substances": ()}
    assert kit.Setting(**fibres).verdict("loop-group") is PASS
    weaker = {**plates, "barrier": kit.equipment("[Ex ia Da] IIIB")}
    assert kit.Setting(**dust, **weaker).verdict("loop-group") is OPEN


# Level


@pytest.mark.parametrize(
    ("area", "least"),
    [("Zone 0, IIC", "a"), ("Zone 1, IIC", "b"), ("Zone 2, IIC", "c")],
)
def test_level_by_zone(kit: Any, area: str, least: str) -> None:
    for letter in "abc":
        barrier = kit.equipment(f"[Ex i{letter} G{letter}] IIC")
        expected = PASS if letter <= least else FLAG
        assert kit.Setting(area=area, barrier=barrier).verdict("loop-level") is expected


def test_level_by_division(kit: Any) -> None:
    rule = "loop-level"
    one = {"law": Law.NEC, "area": "Class I, Division 1, Group B"}
    two = {"law": Law.NEC, "area": "Class I, Division 2, Group B"}
    weak = kit.equipment("Class I, Zone 1, AEx ib IIC T4 Gb")
    assert kit.Setting(**one).verdict(rule) is PASS
    assert kit.Setting(**one, sensor=weak).verdict(rule) is FLAG
    assert kit.Setting(**two, sensor=weak).verdict(rule) is PASS
    quiet = kit.equipment("Class I, Division 2, Groups A, B, C, D nonincendive")
    assert kit.Setting(**one, sensor=quiet).verdict(rule) is FLAG


def test_the_site_may_ask_for_more(kit: Any) -> None:
    setting = kit.Setting(barrier=kit.equipment("[Ex ib Gb] IIC"))
    case = setting.case()
    place = replace(case.devices[0].demands[0].place, required_levels=(Level.GA,))
    strict = replace(setting, crossed=(replace(case.devices[0].demands[0], place=place),))
    assert setting.verdict("loop-level") is PASS
    assert strict.verdict("loop-level") is FLAG


def test_level_where_nothing_is_asked_or_known(kit: Any) -> None:
    rule = "loop-level"
    outside = {"area": "unclassified", "substances": ()}
    assert kit.Setting(**outside).verdict(rule) is PASS
    assert kit.Setting(area=None).verdict() is OPEN
    assert kit.Setting(outside=None).verdict() is OPEN
    assert kit.Setting(barrier=None).verdict(rule) is OPEN
    assert kit.Setting(sensor=kit.equipment(None, Kind.SIMPLE_APPARATUS)).verdict(rule) is PASS


@pytest.mark.parametrize(
    ("plate", "letter"),
    [
        ("[Ex ia Ga] IIC", "a"),
        ("[Ex ia Gb] IIC", "b"),
        ("[Ex ia] IIC", "a"),
        ("Ex db [ib Gb] IIC T4 Gb", "b"),
        ("Ex ia IIC T4 Ga", "a"),
        ("[Ex op is Ga] IIC", None),
        ("Ex db IIC T4 Gb", None),
        ("Associated apparatus Class I, Division 1, Groups A, B, C, D", "a"),
        ("Associated apparatus Class I, Division 2, Groups A, B, C, D", "c"),
        ("Associated apparatus", None),
        ("Class I, Division 2, Groups A, B, C, D with IS circuits for Class I, Division 1", "a"),
        ("Class I, Division 2, Groups A-D T4; provides IS circuits to Class I, Division 2", "c"),
        ("Associated apparatus; provides IS circuits to Class I, Div 1, Groups A-D", "a"),
        ("Associated apparatus; provides IS circuits to Class I, Groups A-D", None),
    ],
)
def test_level_of_a_source(kit: Any, plate: str, letter: str | None) -> None:
    """NFPA 70-2023 504.2, 500.7(E), from memory: the plate names the places of the circuits."""
    found = source_letter(kit.equipment(plate), Hazard.GAS)
    assert found == letter, kit.decode(plate)


@pytest.mark.parametrize(
    ("plate", "gas", "dust"),
    [
        ("provides IS circuits to Class I, II, III, Div 1, Groups A-G", "a", "a"),
        ("provides IS circuits to Class I, Div 1, Groups A-D", "a", None),
        ("provides IS circuits to Class II, Div 1, Groups E-G", None, "a"),
        (
            "Class I, Division 2, Groups A-D T4; provides IS circuits to Class II, Div 1, Group G",
            None,
            "a",
        ),
        ("Associated apparatus [AEx ia Da] IIIC", None, "a"),
    ],
)
def test_letters_tell_what_circuits_are_for(
    kit: Any, plate: str, gas: str | None, dust: str | None
) -> None:
    """NFPA 70-2023 500.6, from memory: E to G are dusts, wherever the box may stand."""
    found = kit.equipment(plate)
    assert source_letter(found, Hazard.GAS) == gas
    assert source_letter(found, Hazard.DUST) == dust


@pytest.mark.parametrize(
    ("plate", "letter"),
    [
        ("Class I, Division 2, Groups A-D T4; AIS Class I, Division 1, Groups A-D", "a"),
        ("NI Class I, Division 2, Groups A-D T4; AIS Class I, Division 1, Groups A-D", "c"),
        ("Class I, Division 2, Groups A-D T4", "c"),
    ],
)
def test_a_drawing_is_of_the_circuits_that_the_plate_names(
    kit: Any, plate: str, letter: str
) -> None:
    """NFPA 70-2023 504.10, from memory: the place of the box says nothing of its outputs."""
    drawing = (Evidence(EvidenceType.CONTROL_DRAWING, "CD-7"),)
    assert source_letter(kit.equipment(plate, evidence=drawing), Hazard.GAS) == letter


def test_a_control_drawing_shows_that_a_division_device_is_safe(kit: Any) -> None:
    plate = "Class I, Division 1, Groups A, B, C, D T4"
    drawing = (Evidence(EvidenceType.CONTROL_DRAWING, "CD-7"),)
    assert device_letter(kit.equipment(plate), Hazard.GAS) is None
    assert device_letter(kit.equipment(plate, evidence=drawing), Hazard.GAS) == "a"
    assert device_letter(kit.equipment("[Ex ia Ga] IIC"), Hazard.GAS) is None


# Figures


def test_figures() -> None:
    assert margin(Decimal(1), Decimal(3)) == "margin 66.6 %"
    assert margin(Decimal(0), Decimal(0)) == "no margin"
    assert margin(Decimal(1), Decimal(0)) == "over a limit of zero"
    assert margin(Decimal(1), Decimal("Infinity")) == "no limit"
    assert share(Decimal(1), Decimal(0)) == "of a limit of zero"
    assert length_text(Decimal("9.96"), None) == "9.9 m"
    with pytest.raises(LookupError):
        figure("no such row")


def test_every_judgement_says_what_it_compared(kit: Any) -> None:
    for rule, judgement in kit.Setting().answers():
        assert judgement.message.endswith("."), rule
        assert judgement.found, rule


def test_the_rule_text_says_what_is_out_of_scope() -> None:
    assert "ignition curves is not checked" in CAPACITANCE.note


def test_of_several_unknown_places_the_first_end_is_asked_about_first(
    listed: Callable[[str, str, str], tuple[Verdict, str]],
) -> None:
    """One question at a time, in the order of the circuit; which comes first is no clause's."""
    verdict, said = listed("circuits", "L-1", "loop-group")
    assert verdict is OPEN
    assert "The classification of hall is not stated" in said
