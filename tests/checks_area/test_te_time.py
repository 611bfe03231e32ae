"""Motors of type e: tE, the overload device, and how they are started.

IEC 60079-14:2013 11.3 (what a maker's manual says of it was read: the blocked motor is switched off
within tE by the curve at IA/IN), IEC 60079-7:2015 5.2.4 (at least 5 s) and NFPA 70-2023 505.22, the
two from memory.
"""

from collections.abc import Callable
from itertools import product

import pytest

from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
ZONE = "area: 'Zone 1, IIB, T3'"
MOTOR = "kind: electrical, description: Motor 1.5 kW, marking: Ex eb IIC T3 Gb"
SENSORS = (
    "evidence: [{type: certificate, number: IECEx ABC 21.0001X, conditions: [{text: 'PTC in the "
    "winding, tripping unit', met_by: relay, document: CD-5}]}]"
)


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ("te_time: 10 s, overload_trip: 10 s, starting: direct-on-line", P),
        ("te_time: 10 s, overload_trip: 10.1 s, starting: direct-on-line", F),
        ("te_time: 10 s, overload_trip: 11 s", F),
        ("te_time: 5 s, overload_trip: 4 s, starting: direct-on-line", P),
        ("te_time: 4.9 s, overload_trip: 3 s, starting: direct-on-line", F),
        ("te_time: 4900 ms", F),
        ("te_time: 10 s, overload_trip: 8 s", U),
        ("te_time: 10 s, starting: direct-on-line", U),
        ("overload_trip: 8 s, starting: direct-on-line", U),
        ("te_time: 10 s, overload_trip: 8 s, starting: heavy or frequent", U),
        ("te_time: 10 s, overload_trip: 8 s, starting: soft starter", U),
        (f"te_time: 10 s, starting: heavy or frequent, {SENSORS}", P),
        (SENSORS, P),
        (f"te_time: 10 s, overload_trip: 12 s, {SENSORS}", F),
        (SENSORS.replace(", document: CD-5", ""), U),
        ("inverter_fed: true", N),  # `inverter-duty` judges
        ("inverter_fed: false", U),
    ],
)
def test_times(say: Say, stated: str, expected: Verdict) -> None:
    assert say("te-time", f"{MOTOR}, {stated}", ZONE) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: electrical, description: Motor, marking: II 2G Ex e II T3", U),
        ("kind: electrical, description: Motor, marking: EEx e II T3", U),
        ("kind: electrical, device: squirrel-cage motor, marking: Ex eb IIC T3 Gb", U),
        ("kind: electrical, description: Gear motor, marking: Ex eb IIC T3 Gb", U),
        ("kind: electrical, description: Motor pump 2 kW, marking: Ex eb IIC T3 Gb", U),
        ("kind: electrical, description: Elettroventilatore, marking: Ex eb IIC T3 Gb", U),
        ("kind: electrical, description: Asynchronmaschine, marking: Ex eb IIC T3 Gb", U),
        ("kind: electrical, description: Motorised valve, marking: Ex eb IIC T3 Gb", N),
        ("kind: electrical, description: Motor, marking: Ex db eb IIC T4 Gb", N),  # eb: its box
        ("kind: electrical, description: Motor, marking: Ex de IIC T4", N),
        ("kind: electrical, description: Motor, marking: Ex db IIC T4 Gb", N),
        ("kind: electrical, description: Motor, marking: Ex ec IIC T3 Gc", N),
        ("kind: electrical, description: Motor, marking: none", N),
        ("kind: electrical, description: Terminal box, marking: Ex eb IIC T6 Gb", N),
        ("kind: electrical, description: Terminal box for motor, marking: Ex eb IIC T6 Gb", N),
        ("kind: mechanical, description: Motor bracket", N),
    ],
)
def test_who_is_asked(say: Say, part: str, expected: Verdict) -> None:
    assert say("te-time", part, ZONE) is expected


def test_dust_asks_no_te(say: Say) -> None:
    part = f"{MOTOR[: -len('Ex eb IIC T3 Gb')]}[Ex eb IIC T3 Gb, Ex tb IIIC T120 °C Db]"
    assert say("te-time", part, "area: 'Zone 21, IIIB, T120 °C'") is N
    assert say("te-time", part, "area: ['Zone 1, IIB, T3', 'Zone 21, IIIB, T120 °C']") is U


def test_a_north_american_zone_is_asked_too(say: Say) -> None:
    part = "kind: electrical, description: Motor, marking: 'Class I, Zone 1, AEx eb IIC T3 Gb'"
    assert say("te-time", part, "area: 'Class I, Zone 1, IIB, T3'", "NEC") is U


STATED = ("te_time: 12 s", "overload_trip: 8 s", "starting: direct-on-line")


@pytest.mark.parametrize("kept", [k for k in product((True, False), repeat=3) if not all(k)])
def test_a_fact_less_never_passes(say: Say, kept: tuple[bool, ...]) -> None:
    facts = ", ".join(fact for fact, keep in zip(STATED, kept, strict=True) if keep)
    assert say("te-time", f"{MOTOR}, {facts}" if facts else MOTOR, ZONE) is U


def test_a_shorter_te_or_a_slower_device_is_never_better(say: Say) -> None:
    start = "starting: direct-on-line"
    shorter = [
        say("te-time", f"{MOTOR}, te_time: {t} s, overload_trip: 7 s, {start}", ZONE) is P
        for t in (30, 12, 7, 6, 5, 4, 1)
    ]
    slower = [
        say("te-time", f"{MOTOR}, te_time: 9 s, overload_trip: {t} s, {start}", ZONE) is P
        for t in (1, 5, 9, 10, 60)
    ]
    for passes in (shorter, slower):
        assert passes == sorted(passes, reverse=True)
        assert passes[0]
        assert not passes[-1]
