"""Brakes, clutches, working liquids and batteries: what a machine's own use makes of a part.

ISO 80079-37:2016 5.4, 5.8.5, 5.9, 5.11, 7: clauses and titles read in published contents, what they
ask from memory. ISO 12922: its scope read (HFA to HFDR resist fire, most HFDU burn less easily).
IEC 60079-14:2013 5.14 and EN 1127-1:2019 6.3 from memory.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
ZONE = "area: 'Zone 1, IIB, T3'"
BRAKE = "kind: mechanical, description: Disc brake"


@pytest.mark.parametrize(
    ("brake", "expected"),
    [
        ("use: service, energy: 5 kJ, rated_energy: 5 kJ", P),
        ("use: service, energy: 5.1 kJ, rated_energy: 5 kJ", F),
        ("use: emergency stop, energy: 900 J, rated_energy: 1 kJ", P),
        ("energy: 6 kJ, rated_energy: 5 kJ", F),
        ("use: service, energy: 5 kJ", U),
        ("use: service, rated_energy: 5 kJ", U),
        ("energy: 1 kJ, rated_energy: 5 kJ", U),
        ("use: parking, interlocked: true", P),
        ("use: parking, interlocked: false", F),
        ("use: parking", U),
        ("use: parking, energy: 1 kJ, rated_energy: 5 kJ", U),
        ("use: service, interlocked: true", U),
    ],
)
def test_brakes(say: Say, brake: str, expected: Verdict) -> None:
    assert say("brake-energy", f"{BRAKE}, brake: {{{brake}}}", ZONE) is expected
    assert say("brake-energy", f"{BRAKE}, brake: {{{brake}}}", "area: unclassified") is N


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: mechanical, description: Disc brake", U),
        ("kind: electrical, description: Brake motor 0.55 kW", U),
        ("kind: electrical, description: Gear motor with brake", U),
        ("kind: mechanical, description: Castor with brake", N),
        ("kind: mechanical, description: Turntable with brake, drive: manual", N),
        ("kind: electrical, description: Brake resistor", N),
        ("kind: mechanical, description: Scheibenbremse", U),
        ("kind: electrical, description: Getriebemotor mit Bremse", U),
        ("kind: mechanical, description: Freno a disco", U),
        ("kind: mechanical, description: Halter für Bremse", N),
        ("kind: mechanical, description: Bracket for brake", N),
        ("kind: structural, description: Brake guard", N),
        ("kind: mechanical, description: Gearbox", N),
        ("kind: mechanical, description: Gearbox, brake: {use: parking, interlocked: false}", F),
    ],
)
def test_who_is_asked_of_brakes(say: Say, part: str, expected: Verdict) -> None:
    assert say("brake-energy", part, ZONE) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("description: Torque limiter, slip: prevented", P),
        ("description: Torque limiter, slip: monitored", P),
        ("description: Torque limiter, slip: possible", F),
        ("description: Slip clutch", U),
        ("description: Fluid coupling", U),
        ("description: Magnetic coupling", U),
        ("description: Jaw coupling", N),
        ("description: Quick coupling", N),
        ("description: Clutch housing", N),
        ("description: Gearbox with clutch", U),
        ("description: Gearbox, slip: possible", F),
    ],
)
def test_clutches(say: Say, part: str, expected: Verdict) -> None:
    assert say("clutch-slip", f"kind: mechanical, {part}", ZONE) is expected


HYDRAULIC = "kind: mechanical, drive: hydraulic"
LIQUIDS = [
    ("", U),
    ("kind: HFC", P),
    ("kind: HFA", P),
    ("kind: HFDR", P),
    ("kind: water", P),
    ("kind: HFDU", U),
    ("kind: mineral oil", U),
    ("kind: other, flash_point: 215 °C", U),
    ("flash_point: 215 °C, hottest: 70 °C", P),
    ("kind: HFDU, flash_point: 260 °C, hottest: 70 °C", P),
    ("flash_point: 85 °C, hottest: 70 °C, autoignition: 300 °C", P),
    ("flash_point: 84 °C, hottest: 70 °C, autoignition: 300 °C", F),
    ("flash_point: 90 °C, hottest: 70 °C", U),  # which surface lights it is not known
    ("flash_point: 120 °C, hottest: 70 °C", P),
    ("flash_point: 215 °C, hottest: 190 °C, autoignition: 240 °C", P),
    ("flash_point: 215 °C, hottest: 190 °C, autoignition: 239 °C", F),
    ("flash_point: 215 °C, hottest: 250 °C", F),
]


@pytest.mark.parametrize(("liquid", "expected"), LIQUIDS)
def test_liquids(say: Say, liquid: str, expected: Verdict) -> None:
    part = f"{HYDRAULIC}, liquid: {{{liquid}}}" if liquid else HYDRAULIC
    assert say("working-liquid", part, ZONE) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: mechanical, description: Hydraulic power pack", U),
        ("kind: mechanical, description: Hydraulic cylinder", U),
        ("kind: mechanical, description: Hydraulikzylinder", U),
        ("kind: mechanical, description: Vérin hydraulique", U),
        ("kind: mechanical, description: Hydraulic hose", N),
        ("kind: mechanical, description: Cylinder, drive: pneumatic", N),
        ("kind: structural, description: Hydraulic bracket", N),
        ("kind: mechanical, description: Gearbox, marking: II 2G c k IIB T4", U),
        ("kind: mechanical, description: Gearbox, marking: II 2G c IIB T4", N),
        ("kind: mechanical, description: Gearbox, liquid: {flash_point: 60 °C, hottest: 80 °C}", F),
    ],
)
def test_who_is_asked_of_liquids(say: Say, part: str, expected: Verdict) -> None:
    assert say("working-liquid", part, ZONE) is expected


def test_a_hotter_or_thinner_liquid_is_never_better(say: Say) -> None:
    def passes(stated: str) -> bool:
        return say("working-liquid", f"{HYDRAULIC}, liquid: {{{stated}}}", ZONE) is P

    hotter = [passes(f"flash_point: 180 °C, hottest: {t} °C") for t in range(20, 260, 10)]
    thinner = [passes(f"flash_point: {t} °C, hottest: 60 °C") for t in range(260, 20, -10)]
    for found in (hotter, thinner):
        assert found == sorted(found, reverse=True)
        assert found[0]
        assert not found[-1]


TORCH = "kind: [electrical, loose item], description: Torch"
ALLOWED = (
    "evidence: [{type: certificate, number: IECEx ABC 21.0001X, conditions: [{text: the battery "
    "may be replaced in the area, met_by: instruction, document: MAN-3}]}]"
)


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ("battery: {charged: outside the area, replaced: outside the area}", P),
        ("battery: {charged: never, replaced: outside the area}", P),
        ("battery: {charged: inside the area, replaced: outside the area}", F),
        ("battery: {charged: outside the area, replaced: inside the area}", F),
        (f"battery: {{charged: never, replaced: inside the area}}, {ALLOWED}", P),
        (f"battery: {{charged: inside the area, replaced: inside the area}}, {ALLOWED}", F),
        ("battery: {charged: outside the area}", U),
        ("battery: {replaced: never}", U),
        ("battery: none", P),
        ("bonded: true", U),
    ],
)
def test_batteries(say: Say, stated: str, expected: Verdict) -> None:
    assert say("battery-service", f"{TORCH}, {stated}", ZONE) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        ("kind: [electrical, loose item], description: Gas meter", U),
        ("kind: electrical, description: Battery charger", U),
        ("kind: electrical, description: Cordless key", U),
        ("kind: electrical, description: Ladegerät", U),
        ("kind: electrical, description: Caricabatterie", U),
        ("kind: electrical, intrinsic_safety: own cell", U),
        ("kind: electrical, description: Sensor", N),
        ("kind: electrical, description: Tablet press control", N),
        ("kind: electrical, description: Battery holder", N),
        ("kind: electrical, description: Battery room fan switch", N),
        ("kind: electrical, description: 'Battery charger, battery room'", U),
        ("kind: electrical, description: Battery box", U),
        ("kind: structural, description: Battery box", N),
        ("kind: loose item, description: Spanner", N),
        ("kind: electrical, description: Control box, battery: {charged: inside the area}", F),
    ],
)
def test_who_is_asked_of_batteries(say: Say, part: str, expected: Verdict) -> None:
    assert say("battery-service", part, ZONE) is expected


def test_a_denied_permission_is_none(say: Say) -> None:
    denied = ALLOWED.replace("may be replaced", "must not be replaced")
    part = f"{TORCH}, battery: {{charged: never, replaced: inside the area}}, {denied}"
    assert say("battery-service", part, ZONE) is F
