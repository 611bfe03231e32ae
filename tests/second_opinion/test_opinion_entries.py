"""Glands by the compartment that they enter; conduit seals by Class, contents and trade size.

IEC 60079-14:2013 10.6, Table 10 (glands by the enclosure's type), NFPA 70-2023 501.15(A)(1) with
its exceptions, 502.15, 505.16, 501.5, 502.6, 503.6, all from memory.
"""

from collections.abc import Callable
from decimal import Decimal

import pytest

import areafit
from areafit.file.fields import _trade_size
from areafit.rule import Judgement
from areafit.verdict import Reason, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Ask = Callable[..., Judgement]
_ZONE_1 = "area: 'Zone 1, IIB, T3', ambient: 5..40 °C"
_GLAND = "{type: %s, marking: %s, thread: M20x1.5, hole: M20, ingress: IP66%s}"


def _with(marking: str, gland: str, into: str = "", what: str = "cable gland") -> str:
    more = f", into: {into}" if into else ""
    return f"kind: electrical, marking: {marking}, entries: [{_GLAND % (what, gland, more)}]"


@pytest.mark.parametrize("box", ["Ex db eb IIC T4 Gb", "Ex de IIC T4 Gb", "Ex db eb ib IIC T4 Gb"])
@pytest.mark.parametrize(
    ("gland", "into", "verdict"),
    [
        ("Ex eb IIC Gb", "e", P),
        ("Ex eb IIC Gb", "d", F),
        ("Ex eb IIC Gb", "", U),
        ("Ex db IIC Gb", "", P),
        ("Ex db IIC Gb", "d", P),
        ("Ex db IIC Gb", "e", P),
        ("Ex db eb IIC Gb", "", P),
        ("Ex tb IIIC Db", "e", F),  # for another hazard
        ("Ex ec IIC Gc", "e", F),  # for a lower level
        ("Ex eb IIA Gb", "e", F),  # for a milder group
        ("none", "e", F),
    ],
)
def test_a_gland_of_type_e_enters_the_compartment_of_type_e(
    ask: Ask, box: str, gland: str, into: str, verdict: Verdict
) -> None:
    said = ask("cable-entry", _with(box, gland, into), _ZONE_1)
    assert said.verdict is verdict, said.message
    if gland == "Ex eb IIC Gb" and not into:
        assert said.reason is Reason.FACT_MISSING
        assert "into: e" in said.remedy


@pytest.mark.parametrize("into", ["", "d", "e"])
def test_a_box_that_is_flameproof_only_has_no_other_compartment(ask: Ask, into: str) -> None:
    assert ask("cable-entry", _with("Ex db IIC T4 Gb", "Ex eb IIC Gb", into), _ZONE_1).verdict is F
    for what in ("plug", "adapter"):
        part = _with("Ex db IIC T4 Gb", "Ex eb IIC Gb", into, what)
        assert ask("cable-entry", part, _ZONE_1).verdict is F
    assert ask("cable-entry", _with("Ex eb IIC T4 Gb", "Ex eb IIC Gb", into), _ZONE_1).verdict is P


_DIVISION = "area: 'Class I, Division 1, Group D', substances: [acetone], ambient: 5..40 °C"
_SEAL = "{type: conduit seal, marking: '%s', thread: NPT 3/4, hole: NPT 3/4, ingress: IP66%s}"


def _box(more: str, seal: str, clas: str = "Class I, Division 1, Group D T6") -> str:
    fitting = clas.removesuffix(" T6")
    return f"kind: electrical, marking: '{clas}', {more}, entries: [{_SEAL % (fitting, seal)}]"


_SPLICES = "device: junction box"
_LOAD = "device: relay, arcing: true, contact_protection: none"


@pytest.mark.parametrize(
    ("more", "seal", "verdict"),
    [
        # what may ignite asks for the seal whatever the size
        (_LOAD, ", within: 18 in", P),
        (_LOAD, ", within: 19 in", F),
        (_LOAD, ", within: 19 in, trade_size: 3/4", F),
        (_LOAD, "", U),
        (_LOAD, ", trade_size: 3/4", U),
        ("device: relay", ", within: 1 m, trade_size: 3/4", F),  # not said that nothing arcs
        # a box with splices from trade size 2 on
        (_SPLICES, ", within: 1 m, trade_size: 3/4", P),
        (_SPLICES, ", within: 1 m, trade_size: 1-1/2", P),
        (_SPLICES, ", trade_size: 1 1/2 in", P),
        (_SPLICES, ", within: 1 m, trade_size: 2", F),
        (_SPLICES, ", trade_size: 2-1/2", U),
        (_SPLICES, ", within: 18 in, trade_size: 4", P),
        (_SPLICES, ", within: 1 m", U),
        (_SPLICES, "", U),
        (_SPLICES, ", within: 10 in", P),
        (f"{_SPLICES}, arcing: true", ", within: 1 m, trade_size: 3/4", F),
        (f"{_SPLICES}, heat_producing: true", ", within: 1 m, trade_size: 3/4", P),  # T6, acetone
        # contacts that cannot ignite (exception 1)
        (
            "device: relay, arcing: true, contact_protection: hermetically sealed",
            ", within: 1 m, trade_size: 3/4",
            P,
        ),
        (
            "device: relay, arcing: true, contact_protection: sealed chamber",
            ", within: 1 m, trade_size: 3/4",
            F,
        ),
        ("device: instrument, arcing: false", ", within: 1 m, trade_size: 3/4", P),
        ("device: instrument, arcing: false", ", within: 1 m, trade_size: 2", F),
    ],
)
def test_the_distance_of_a_conduit_seal(ask: Ask, more: str, seal: str, verdict: Verdict) -> None:
    said = ask("cable-entry", _box(more, seal), _DIVISION, "NEC")
    assert said.verdict is verdict, said.message


def test_what_is_hot_inside_asks_for_the_seal(ask: Ask) -> None:
    # 80 % of 465 °C (acetone) is 372 °C: T1 is hotter, T2 is not; unknown is no pass
    quiet, far = "device: instrument, arcing: false", ", within: 1 m, trade_size: 3/4"
    for mark, verdict in (("T2", P), ("T1", F)):
        part = _box(quiet, far, f"Class I, Division 1, Group D {mark} T6").replace(" T6", "")
        assert ask("cable-entry", part, _DIVISION, "NEC").verdict is verdict, mark
    silent = "area: 'Class I, Division 1, Group D', ambient: 5..40 °C"
    assert ask("cable-entry", _box(quiet, far), silent, "NEC").verdict is F
    cold = f"{quiet}, heat_producing: false"
    assert ask("cable-entry", _box(cold, far), silent, "NEC").verdict is P


@pytest.mark.parametrize("seal", ["", ", within: 1 m", ", within: 1 m, trade_size: 4"])
def test_class_ii_knows_no_distance(ask: Ask, seal: str) -> None:
    # 502.15: where a dust-ignitionproof enclosure joins another one, by length or filling
    place = "area: 'Class II, Division 1, Group G', substances: [sugar], layer: none"
    part = _box("device: relay, arcing: true", seal, "Class II, Division 1, Group G T6")
    assert ask("cable-entry", part, place, "NEC").verdict is P


@pytest.mark.parametrize(
    ("fitting", "area", "verdict"),
    [
        ("conduit seal, marking: 'Class I, Division 1, Groups C, D'", "II, Division 1, Group G", P),
        ("conduit seal, marking: 'Class I, Groups C, D'", "II, Division 1, Group G", P),
        ("conduit seal, marking: 'Class I, Division 1, Groups C, D'", "III, Division 1", P),
        ("conduit seal, marking: 'Class I, Division 2, Groups C, D'", "II, Division 1, Group G", F),
        ("conduit seal, marking: none", "II, Division 1, Group G", F),
        ("conduit seal", "II, Division 1, Group G", U),
        ("cable gland, marking: 'Class I, Division 1, Groups C, D'", "II, Division 1, Group G", F),
        ("plug, marking: 'Class I, Division 1, Groups C, D'", "II, Division 1, Group G", F),
    ],
)
def test_a_seal_for_gas_keeps_dust_out_as_conduit_does(
    ask: Ask, fitting: str, area: str, verdict: Verdict
) -> None:
    # 502.15, as a forum's engineer explains it: in dust a seal need not be explosionproof
    part = (
        "kind: electrical, marking: 'Class II, Class III, Division 1, Group G T4', entries: "
        f"[{{type: {fitting}, thread: 3/4 NPT, hole: 3/4 NPT, trade_size: 3/4}}]"
    )
    place = f"area: 'Class {area}', layer: none"
    assert ask("cable-entry", part, place, "NEC").verdict is verdict


def test_the_seal_of_a_milder_box_is_for_the_place(ask: Ask) -> None:
    # 500.6(A), exceptions, 501.15(C)(1): the box may be milder where it is sealed, its seal not
    place = "area: 'Class I, Division 1', substances: ['1,3-butadiene']"
    part = (
        "kind: electrical, marking: 'Class I, Division 1, Group D T4', conduit_seals: {within: "
        "12 in, all_runs: true}, entries: [{type: conduit seal, marking: 'Class I, Division 1, "
        "Group %s', trade_size: 3/4, within: 12 in}]"
    )
    assert ask("cable-entry", part % "B", place, "NEC").verdict is P
    assert ask("cable-entry", part % "D", place, "NEC").verdict is F


def test_the_milder_group_still_rests_on_seals_near_by(ask: Ask) -> None:
    # 500.6(A), exceptions: butadiene is Group B, D with every run sealed within 450 mm
    place = "area: 'Class I, Division 1', substances: ['1,3-butadiene']"
    part = "kind: electrical, marking: 'Class I, Division 1, Group D T4', device: junction box%s"
    sealed = ", conduit_seals: {within: %s, all_runs: true}"
    assert ask("gas-group", part % (sealed % "18 in"), place, "NEC").verdict is P
    assert ask("gas-group", part % (sealed % "20 in"), place, "NEC").verdict is not P
    assert ask("gas-group", part % "", place, "NEC").verdict is not P


@pytest.mark.parametrize(
    ("area", "marking", "clause"),
    [
        ("Class I, Division 1, Group D", "Class I, Zone 1, AEx db IIB T4 Gb", "501.5"),
        ("Class II, Division 1, Group G", "Zone 21 AEx tb IIIC T95 °C Db", "502.6"),
        ("Class III, Division 1", "Zone 22 AEx tc IIIC T95 °C Dc", "503.6"),
        ("Class I, Division 1, Group D", "Class I, Division 2, Group D T4", "500.8"),
        ("Class I, Zone 0, IIB", "Class I, Zone 1, AEx db IIB T4 Gb", "505.9"),
    ],
)
def test_zone_equipment_in_a_division_is_refused_by_its_own_clause(
    ask: Ask, area: str, marking: str, clause: str
) -> None:
    part = f"kind: electrical, marking: '{marking}', evidence: [{{type: listing, number: E-1}}]"
    said = ask("protection-level", part, f"area: '{area}'", "NEC")
    assert (said.verdict, said.clause) == (F, f"NFPA 70-2023 {clause}")


@pytest.mark.parametrize(
    ("written", "inches"),
    [("3/4", "0.75"), ("2", "2"), ('1-1/2"', "1.5"), ("1 1/4 in", "1.25"), ("0.5", "0.5")],
)
def test_trade_sizes_as_they_are_written(written: str, inches: str) -> None:
    assert _trade_size(written) == Decimal(inches)


@pytest.mark.parametrize("written", ["53", "M20", "1/0", "-1", "0", "half"])
def test_what_is_no_trade_size(written: str) -> None:
    text = (
        "areafit: 1\nassembly: {number: T-1}\ncode: NEC\nlocations: {a: {}}\nparts:\n"
        "  - {item: '1', location: a, kind: electrical, entries: [{type: conduit seal, "
        f"trade_size: '{written}'}}]}}\n"
    )
    with pytest.raises(areafit.InputErrors, match="no trade size"):
        areafit.read(text.encode(), "t.yaml")


@pytest.mark.parametrize(
    ("fitting", "cured"),
    [
        # the remedy of each finding, applied, closes it
        (", within: 1 m", ", within: 18 in"),
        ("", ", within: 18 in"),
    ],
)
def test_the_remedy_speaks_of_this_finding(ask: Ask, fitting: str, cured: str) -> None:
    said = ask("cable-entry", _box(_LOAD, fitting), _DIVISION, "NEC")
    assert "within" in said.remedy
    assert "glands" not in said.remedy
    assert ask("cable-entry", _box(_LOAD, cured), _DIVISION, "NEC").verdict is P


@pytest.mark.parametrize(
    ("entry", "word"),
    [
        ("{type: cable gland, marking: Ex db IIC Gb, ingress: IP66}", "`thread`"),
        ("{type: cable gland, thread: M20, hole: M20, ingress: IP66}", "`marking`"),
        ("{type: open hole}", "Close the hole"),
        (
            "{type: cable gland, marking: Ex db IIC Gb, thread: M25, hole: M20}",
            "thread of the hole",
        ),
        ("{type: cable gland, marking: Ex db IIC Gb X, thread: M20, hole: M20}", "`conditions`"),
        ("{type: cable gland, marking: Ex eb IIC Gb, thread: M20, hole: M20}", "type d"),
        ("{type: cable gland, marking: Ex db IIA Gb, thread: M20, hole: M20}", "marked"),
    ],
)
def test_each_defect_of_an_entry_has_a_cure_of_its_own(ask: Ask, entry: str, word: str) -> None:
    part = f"kind: electrical, marking: Ex db IIC T4 Gb, entries: [{entry}]"
    assert word in ask("cable-entry", part, _ZONE_1).remedy
