"""Cables, raceways, cords and receptacles by area.

NFPA 70-2023 501.10(A) and 502.10(B) as trade journals list them, 503.10(A) as a catalogue prints it
(read); all else, 501.10(B) to 506.17, 502.145, 503.145 and IEC 60079-14:2013 9.3, from memory.
"""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.facts.fittings import WiringMethod
from areafit.options import Options
from areafit.tables.area import wiring_rows
from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
CABLE = "kind: electrical, description: 'Cable, 4 cores'"
DIV_1, DIV_2 = "Class I, Division 1, Group D", "Class I, Division 2, Group D"
DUST_1, DUST_2 = "Class II, Division 1, Group G", "Class II, Division 2, Group G"
FIBRES = "Class III, Division 1"


def at(area: str, *, access: str = "", law: str = "NEC") -> tuple[str, str]:
    return f"area: '{area}'{access}", law


def run(method: str, more: str = "") -> str:
    return f"{CABLE}, wiring: {{method: {method}{more}}}"


@pytest.mark.parametrize(
    ("method", "area", "expected"),
    [
        ("threaded rigid conduit", DIV_1, P),
        ("MI cable", DIV_1, P),
        ("MC-HL cable", DIV_1, U),  # if only qualified persons have access
        ("ITC-HL cable", DIV_1, U),
        ("listed flexible fitting", DIV_1, U),  # if it must move
        ("MC cable", DIV_1, F),
        ("TC cable", DIV_1, F),
        ("electrical metallic tubing", DIV_1, F),
        ("PVC conduit", DIV_1, F),
        ("sheathed cable", DIV_1, F),
        ("other", DIV_1, F),
        ("MC-HL cable", DIV_2, P),
        ("TC cable", DIV_2, P),
        ("PLTC cable", DIV_2, P),
        ("liquidtight flexible conduit", DIV_2, U),
        ("electrical metallic tubing", DIV_2, F),
        ("MC cable", DUST_1, F),
        ("electrical metallic tubing", DUST_1, F),
        ("electrical metallic tubing", DUST_2, P),
        ("wireway", DUST_2, U),  # dusttight
        ("wireway", DIV_2, U),  # enclosed and gasketed, as an engineers' forum quotes 501.10(B)
        ("wireway", DIV_1, F),
        ("ITC-HL cable", DUST_2, P),  # 502.10(B)(1)(1), as a trade journal tells it
        ("TC-ER-HL cable", DUST_2, P),
        ("electrical metallic tubing", FIBRES, P),
        ("MC cable", DUST_2, P),
        ("PLTC cable", DUST_2, P),
        ("PVC conduit", DUST_2, U),  # schedule 80, if only qualified persons have access
        ("PVC conduit", DUST_1, F),
        ("TC-ER-HL cable", DUST_1, F),
        # 503.10(A)(1), as a maker's catalogue prints it
        ("TC cable", FIBRES, P),
        ("PLTC cable", FIBRES, P),
        ("ITC cable", FIBRES, P),
        ("sheathed cable", FIBRES, F),
        ("MC cable", "Class I, Zone 1, IIB, T3", F),
        ("MC cable", "Class I, Zone 2, IIB, T3", P),
        ("MI cable", "Class I, Zone 0, IIB, T3", F),
        ("MI cable", "unclassified", N),
    ],
)
def test_methods_of_nfpa_70(say: Say, method: str, area: str, expected: Verdict) -> None:
    assert say("wiring-method", run(method), *at(area)) is expected


@pytest.mark.parametrize(
    ("method", "moves", "access", "expected"),
    [
        ("MC-HL cable", "", ", restricted_access: true", P),
        ("MC-HL cable", "", ", restricted_access: false", F),
        ("listed flexible fitting", ", moves: true", "", P),
        ("listed flexible fitting", ", moves: false", "", F),
        ("listed flexible fitting", "", ", restricted_access: true", U),
        ("threaded rigid conduit", "", ", restricted_access: false", P),
    ],
)
def test_conditions_of_a_method(
    say: Say, method: str, moves: str, access: str, expected: Verdict
) -> None:
    assert say("wiring-method", run(method, moves), *at(DIV_1, access=access)) is expected


@pytest.mark.parametrize("area", [DIV_2, DUST_2, FIBRES, "Class I, Zone 2, IIB, T3"])
@pytest.mark.parametrize(
    ("stated", "expected"),
    [("dusttight", P), ("totally enclosed", U), ("general purpose", F), ("open", F)],
)
def test_a_wireway_is_tight(say: Say, area: str, stated: str, expected: Verdict) -> None:
    """501.10(B)(1) as an engineers' forum quotes it, 502.10(B) and 503.10 as guides tell them."""
    part = f"{run('wireway')}, enclosure: {stated}"
    assert say("wiring-method", part, *at(area)) is expected


@pytest.mark.parametrize("law", ["IEC", "ATEX"])
def test_methods_of_iec_60079_14(say: Say, law: str) -> None:
    assert say("wiring-method", run("sheathed cable"), *at("Zone 1, IIB, T3", law=law)) is P
    assert say("wiring-method", run("TC cable"), *at("Zone 1, IIB, T3", law=law)) is F
    assert say("wiring-method", run("sheathed cable"), *at("Zone 0, IIB, T3", law=law)) is F


LADDERS = [
    (DIV_2, DIV_1),
    (DUST_2, DUST_1),
    tuple(f"Class I, Zone {zone}, IIB, T3" for zone in (2, 1, 0)),
    tuple(f"Zone {zone}, IIIB, T120 °C" for zone in (22, 21, 20)),
]


@pytest.mark.parametrize("method", [method.value for method in WiringMethod])
@pytest.mark.parametrize("ladder", LADDERS, ids=lambda areas: areas[-1])
@pytest.mark.parametrize("access", ["", ", restricted_access: true"])
def test_a_worse_place_is_never_better(
    say: Say, method: str, ladder: tuple[str, ...], access: str
) -> None:
    if method == "flexible cord":
        return
    part = run(method, ", moves: true")
    found = [say("wiring-method", part, *at(area, access=access)) is P for area in ladder]
    assert found == sorted(found, reverse=True)


def test_every_method_of_the_table_can_be_stated() -> None:
    areas = ("I/1", "I/2", "II/1", "II/2", "III/1", "III/2", "zone 1", "zone 22")
    stated = {method.value for method in WiringMethod}
    for area in areas:
        assert wiring_rows("NEC", area).keys() <= stated
        assert wiring_rows("NEC", area)
    assert wiring_rows("ATEX", "zone 1") == wiring_rows("IEC", "zone 1") != {}


@pytest.mark.parametrize(
    ("description", "wiring", "level"),
    [
        ("Cable, 4 cores", U, N),
        ("Motor cable 4 x 2.5", U, N),
        ("Cable 24 V", U, N),
        ("Cord, 3 m", U, N),
        ("Pump cord", U, N),
        ("Explosionproof flexible coupling", U, N),
        ("Lamp cord SJT", U, N),
        ("Rubber cord SOOW", U, N),
        ("Cord reel", N, U),  # its slip rings are no cord
        ("Cord with attachment plug", N, U),
        ("Cord and plug set, 3 m", N, U),  # 501.145(A), from memory: plugs are identified
        ("Trailing cable with coupler", N, U),
        ("Câble avec fiche", N, U),
        ("Cable to the plug", U, N),
        ("Hand lamp with cord", N, U),
        ("Conduit 3/4", U, N),
        ("EMT, 3/4 in", U, N),
        ("IMC to the motor", U, N),
        ("LFMC", U, N),
        ("PLTC 2 x 18 AWG", U, N),
        ("TC-ER-HL 4C 12 AWG", U, N),
        ("Flexible fitting at the pump", U, N),
        ("Rigid conduit along the belt", U, N),
        ("Cable past the mill", U, N),
        ("Conduit near the fan", U, N),
        ("Cable-driven conveyor along the wall", N, U),
        ("Fan near the cable", N, U),
        ("Starter on EMT", N, U),
        ("Cable gland", N, U),
        ("Cable tray", N, U),
        ("Heater cable", N, U),
        ("Heating cable", N, U),
        ("Proximity sensor with cable", N, U),
        ("Cable with connector M12", N, U),
        ("Cable pull switch", N, U),
        # what cables end in, in any order of words
        ("Cable box", N, U),
        ("Cable joints", N, U),
        ("Conduit outlet", N, U),
        ("Cable hub, 4 ways", N, U),
        ("Power cord distributor", N, U),
        ("Boîte à câbles", N, U),
        ("Cable winch", N, U),
        ("Cable for sensor", U, N),
        ("Motorkabel 4G2,5", U, N),
        ("Câble moteur", U, N),
        ("Cavo per sensore", U, N),
        ("Kabelverschraubung M20", N, U),
        ("Heizkabel", N, U),
        ("Sensor mit Kabel", N, U),
        ("Motor", N, U),
    ],
)
def test_what_is_a_cable(say: Say, description: str, wiring: Verdict, level: Verdict) -> None:
    """A cable bears no nameplate, so nobody is asked for one; what holds more than wire is."""
    part = f"kind: electrical, description: '{description}'"
    assert say("wiring-method", part, *at(DIV_2)) is wiring
    assert say("protection-level", part, *at(DIV_2)) is level


def test_a_device_or_a_marking_is_judged_as_such(say: Say) -> None:
    assert say("wiring-method", f"{CABLE}, device: junction box", *at(DIV_2)) is N
    marked = f"{CABLE}, marking: Ex eb IIC T4 Gb"
    assert say("protection-level", marked, *at("Zone 0, IIB, T3", law="IEC")) is F


def cord(**facts: str) -> str:
    stated = {
        "usage": "extra-hard",
        "serves": "portable equipment",
        "grounding_conductor": "true",
        **facts,
    }
    said = ", ".join(f"{key}: {value}" for key, value in stated.items() if value)
    return run("flexible cord", f", {said}")


@pytest.mark.parametrize(
    ("facts", "access", "expected"),
    [
        ({}, "", P),
        ({"usage": "hard"}, "", F),
        ({"usage": "light"}, "", F),
        ({"usage": ""}, "", U),
        ({"serves": ""}, "", U),
        ({"grounding_conductor": ""}, "", U),
        ({"grounding_conductor": "false"}, "", F),
        ({"serves": "submersible pump or mixer"}, "", P),
        ({"serves": "fixed equipment"}, "", U),
        ({"serves": "fixed equipment", "moves": "true"}, "", U),
        ({"serves": "fixed equipment", "moves": "true"}, ", restricted_access: true", P),
        ({"serves": "fixed equipment", "moves": "false"}, ", restricted_access: true", F),
        ({"serves": "fixed equipment", "moves": "true"}, ", restricted_access: false", F),
    ],
)
def test_cords_of_nfpa_70(say: Say, facts: dict[str, str], access: str, expected: Verdict) -> None:
    for area in (DIV_1, DIV_2, DUST_1, FIBRES):
        assert say("flexible-cord", cord(**facts), *at(area, access=access)) is expected
    assert say("wiring-method", cord(**facts), *at(DIV_1)) is N  # asked once, by one rule


@pytest.mark.parametrize(
    ("area", "access", "expected"),
    [
        (DIV_1, "", U),
        (DIV_2, ", restricted_access: true", P),
        (DIV_2, ", restricted_access: false", F),
        (DUST_1, "", P),  # 502.140: where flexible connections are permitted
        (FIBRES, "", P),
    ],
)
def test_a_cord_that_follows_what_moves(
    say: Say, area: str, access: str, expected: Verdict
) -> None:
    """501.140(A)(2), from memory: only where qualified persons alone service the installation."""
    found = say("flexible-cord", cord(serves="moving equipment"), *at(area, access=access))
    assert found is expected


@pytest.mark.parametrize("law", ["NEC", "IEC", "ATEX"])
def test_no_cord_in_zone_0(say: Say, law: str) -> None:
    """505.15(A) and IEC 60079-14:2013 16, from memory: intrinsically safe circuits only."""
    assert say("flexible-cord", cord(), *at("Zone 0, IIB, T3", law=law)) is F
    assert say("flexible-cord", cord(), *at("Zone 20, IIIB, T120 °C", law=law)) is P


def test_what_is_no_cord_is_not_asked(say: Say) -> None:
    assert say("flexible-cord", CABLE, *at(DIV_2)) is N
    assert say("flexible-cord", run("TC cable"), *at(DIV_2)) is N
    assert say("flexible-cord", "kind: electrical, description: Motor", *at(DIV_2)) is N
    assert say("flexible-cord", cord(usage="light"), *at("unclassified")) is N


def test_a_finding_tells_what_would_do(tell: Callable[..., str]) -> None:
    assert "intrinsically safe circuits only" in tell(
        "wiring-method", run("MI cable"), *at("Class I, Zone 0, IIB, T3")
    )
    told = tell("wiring-method", run("TC cable"), *at(DIV_1))
    assert "MC-HL cable (restricted access), MI cable" in told
    assert "listed flexible fitting (where it must move)" in told


def test_cords_of_iec_60079_14(say: Say) -> None:
    """An ordinary rubber sheath serves small equipment (9.3.4), if somebody accepts it."""
    zone = at("Zone 1, IIB, T3", law="IEC")
    assert say("flexible-cord", cord(), *zone) is P
    assert say("flexible-cord", cord(usage="hard"), *zone) is U
    assert say("flexible-cord", cord(usage="light"), *zone) is F
    assert say("flexible-cord", cord(serves="fixed equipment"), *zone) is P


SOCKET = "kind: electrical, device: receptacle, marking: none"


@pytest.mark.parametrize(
    ("area", "stated", "expected"),
    [
        (DUST_2, ", enclosure: dusttight, interlocked: true", P),
        (DUST_2, ", enclosure: dusttight, interlocked: false", F),
        (DUST_2, ", enclosure: dusttight", U),
        (DUST_2, ", interlocked: true", U),
        (DUST_2, ", enclosure: open, interlocked: true", F),
        (DUST_1, ", enclosure: dusttight, interlocked: true", F),
        (FIBRES, ", enclosure: dusttight, interlocked: true", P),
        (DIV_2, ", enclosure: dusttight, interlocked: true", F),  # identified for the place only
    ],
)
def test_unmarked_receptacles(say: Say, area: str, stated: str, expected: Verdict) -> None:
    """502.145(B) and 503.145: connected and parted only while no live part is exposed."""
    assert say("protection-level", SOCKET + stated, *at(area)) is expected


@pytest.mark.parametrize(
    ("wiring", "access", "path"),
    [
        ("method: MC-HL cable", "", "parts/0"),  # a question to the area owner
        ("method: MC-HL cable", ", restricted_access: false", "parts/0"),
        ("method: listed flexible fitting", "", "parts/0/wiring"),
        ("method: TC cable", "", "parts/0/wiring"),
        ("usage: hard", "", "parts/0/wiring"),
    ],
)
def test_what_a_finding_is_about(wiring: str, access: str, path: str) -> None:
    text = (
        "areafit: 1\nassembly: {number: W-1}\ncode: NEC\n"
        f"locations:\n  in: {{area: '{DIV_1}'{access}}}\n"
        f"parts:\n  - {{item: '1', location: in, {CABLE}, wiring: {{{wiring}}}}}\n"
    )
    bom = areafit.read(text.encode(), "w.yaml")
    options = Options(as_of=date(2026, 1, 1), only=frozenset({"wiring-method"}))
    [part] = areafit.judge(bom, areafit.Tables.shipped(), options).parts
    assert [finding.path for finding in part.findings()] == [path]
