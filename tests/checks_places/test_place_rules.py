"""What a place says of itself, against what is present and the air that the values hold for.

Sources, from memory unless said: 29 CFR 1910.307(a)(4) (seen); NFPA 70-2023 500.5(C), 505.7(B);
IEC 60079-14:2013 5.6; IEC 60079-0:2017 1; EN 1127-1:2019 6.3; NFPA 497.
"""

from collections.abc import Callable
from decimal import Decimal

import pytest

from areafit.checks.places.atmosphere import STANDARD_ATMOSPHERE as ATMOSPHERE
from areafit.checks.places.atmosphere import Air, AirFact, OwnHazard
from areafit.checks.places.substances import FLASH_POINT, FlashPoint
from areafit.facts.quantity import Range
from areafit.tables.limits import figure
from areafit.tables.substances import Caution
from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
Listed = Callable[[str, str, str], tuple[Verdict, str]]
Tell = Callable[..., str]
OWN = "source: test report, document: TR-1"
DOC = "document: AC-1"

DECLARED = [
    ("area: 'Zone 1, IIB, T3'", "IEC", U),
    (f"area: 'Zone 1, IIB, T3', {DOC}", "IEC", P),
    (f"area: unclassified, {DOC}", "IEC", P),
    ("area: unclassified", "IEC", U),
    ("", "IEC", N),
    (f"area: somewhere, {DOC}", "IEC", U),
    (f"area: 'Class I, Division 3, Group D', {DOC}", "NEC", F),
    (f"area: 'Class II, Division 2, Group E', {DOC}", "NEC", F),
    (f"area: 'Class I, Division 1, Group D', {DOC}", "IEC", F),
    (f"area: ['Class I, Division 2, Group D', 'Class I, Zone 2, IIA'], {DOC}", "NEC", F),
    (f"area: ['Class II, Division 2, Group G', 'Zone 22, IIIB'], {DOC}", "NEC", F),
    (f"area: ['Class III, Division 2', 'Zone 22, IIIA'], {DOC}", "NEC", F),
    (f"area: ['Class I, Division 2, Group D', 'Zone 22, IIIB'], {DOC}", "NEC", P),
    (f"area: ['Zone 1, IIB, T3', unclassified], {DOC}", "IEC", F),
    # one Division among zones: IEC 60079-10-1 and -10-2, 1999/92/EC Annex I know zones only
    (f"area: ['Class I, Division 2, Group D', 'Zone 22, IIIB'], {DOC}", "IEC", F),
    (f"area: ['Zone 22, IIIB', 'Class I, Division 2, Group D'], {DOC}", "ATEX", F),
    # a hazard that nothing listed forms: IEC 60079-10-1:2020, IEC 60079-14:2013 4.2, from memory
    (f"area: 'Zone 1, IIB, T3', substances: none, {DOC}", "IEC", U),
    (f"area: 'Zone 21, IIIB', substances: none, {DOC}", "IEC", U),
    (f"area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], substances: [ethanol], {DOC}", "IEC", U),
    (f"area: 'Class III, Division 1', substances: none, {DOC}", "NEC", U),
    (f"area: 'Class III, Division 1', substances: [cotton], {DOC}", "NEC", P),
    (f"area: 'Zone 1, IIB, T3', substances: none, chemicals: [ethanol], {DOC}", "IEC", P),
    (f"area: unclassified, substances: none, {DOC}", "IEC", P),
    # groups of what is present, in the system of the declaration
    (f"area: 'Zone 1, IIA, T2', substances: [ethanol], {DOC}", "IEC", F),
    (f"area: 'Zone 1, IIB, T2', substances: [ethanol], {DOC}", "IEC", P),
    (f"area: 'Class I, Division 1, Group D', substances: [ethanol], {DOC}", "NEC", P),
    (f"area: 'Class I, Division 1', substances: [ethanol], {DOC}", "NEC", P),
    (f"area: 'Class II, Division 2', substances: [aluminium dust], {DOC}", "NEC", F),
    (f"area: 'Class II, Division 2, Group G', substances: [wheat flour], {DOC}", "NEC", P),
    (f"area: 'Class II, Division 2, Group G', substances: [aluminium dust], {DOC}", "NEC", F),
    # temperature classes
    (f"area: 'Zone 1, IIB, T1', substances: [ethanol], {DOC}", "IEC", F),
    (f"area: 'Zone 1, IIA, T1', substances: [propane], {DOC}", "IEC", F),
    (f"area: 'Class I, Division 1, Group D, T1', substances: [propane], {DOC}", "NEC", U),
    (
        (
            "area: 'Zone 21, IIIB, T254°C', "
            f"substances: [{{name: dust, group: IIIB, cloud_ignition: 380 °C, {OWN}}}], {DOC}"
        ),
        "IEC",
        F,
    ),
    (
        (
            "area: 'Zone 21, IIIB, T253°C', "
            f"substances: [{{name: dust, group: IIIB, cloud_ignition: 380 °C, {OWN}}}], {DOC}"
        ),
        "IEC",
        P,
    ),
    (
        (
            f"area: 'Class II, Division 1, Group G, T3', substances: [{{name: dust, group: G, "
            f"cloud_ignition: 380 °C, {OWN}}}], {DOC}"
        ),
        "NEC",
        U,
    ),
    # hazards that nobody declared
    (f"area: unclassified, substances: [ethanol], {DOC}", "IEC", F),
    (f"area: 'Zone 1, IIB, T3', substances: [wheat flour], {DOC}", "IEC", F),
    (f"area: 'Zone 21, IIIB', substances: [ethanol], {DOC}", "IEC", F),
    (f"area: unclassified, chemicals: [acetic acid], {DOC}", "IEC", U),
    (f"area: somewhere, substances: [ethanol], {DOC}", "IEC", U),
    (f"area: 'Zone 1, IIB, T3', substances: [blend nobody lists], {DOC}", "IEC", P),
    # flyings are the fibres of Class III
    (
        f"area: 'Class III, Division 1', substances: [{{name: lint, group: IIIA, {OWN}}}], {DOC}",
        "NEC",
        P,
    ),
    (
        f"area: 'Class III, Division 1', substances: [{{name: flour, group: IIIB, {OWN}}}], {DOC}",
        "NEC",
        F,
    ),
]


@pytest.mark.parametrize(("place", "law", "expected"), DECLARED)
def test_declared_areas(say: Say, place: str, law: str, expected: Verdict) -> None:
    assert say("declared-area", place=place, law=law) is expected


def test_declarations_say_what_helps(tell: Tell) -> None:
    both = f"area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], {DOC}"
    assert "hybrid mixture" in tell("declared-area", place=both)
    heavy = f"area: 'Zone 1, IIA, T2', substances: [acetone], {DOC}"
    assert "heavier than air" in tell("declared-area", place=heavy)
    light = f"area: 'Zone 1, IIC, T1', substances: [hydrogen], {DOC}"
    assert "lighter than air" in tell("declared-area", place=light)
    zone = f"area: 'Class I, Zone 1, IIA', {DOC}"
    assert "professional engineer" in tell("declared-area", place=zone, law="NEC")
    metal = f"area: 'Zone 21, IIIC', {DOC}"
    assert "Group E" in tell("declared-area", place=metal, law="NEC")


STATED = "substances: [ethanol], chemicals: none, ambient: 5..40 °C"
PLACES = [
    (f"area: 'Zone 1, IIB, T3', {STATED}", P),
    (f"area: 'Zone 21, IIIB', {STATED}", U),
    (f"area: 'Zone 21, IIIB', layer: none, {STATED}", P),
    (f"area: 'Zone 21, IIIB', layer: 5 mm, {STATED}", P),
    (f"area: nowhere known, {STATED}", U),
    (STATED, U),
    ("area: unclassified, substances: none, chemicals: none, ambient: 5..40 °C", P),
    # whether anything flammable is there decides of an unclassified place too
    ("area: unclassified, chemicals: none, ambient: 5..40 °C", U),
    (f"area: unclassified, {DOC}, chemicals: none, ambient: 5..40 °C", U),
    (f"area: unclassified, {DOC}, substances: [ethanol], chemicals: none, ambient: 5..40 °C", P),
    ("area: nowhere known, chemicals: none, ambient: 5..40 °C", U),
]


@pytest.mark.parametrize(("place", "expected"), PLACES)
def test_places_state_what_is_present(say: Say, place: str, expected: Verdict) -> None:
    assert say("place-stated", place=place) is expected


KNOWN = [
    ("substances: [ethanol]", P),
    ("substances: [blend nobody lists]", U),
    ("substances: [{name: n-hexane, autoignition: 240 °C, source: TR-1}]", U),
    ("substances: [{name: n-hexane, autoignition: 240 °C, source: TR-1, document: TR-1}]", P),
    ("substances: [{name: n-hexane, autoignition: 200 °C, source: TR-1}]", P),
    ("substances: [{name: n-hexane, flash_point: 30 °C, source: TR-1}]", U),
    ("substances: [{name: ethanol, group: IIA, source: TR-1}]", U),
    ("substances: [{name: ethanol, group: IIC, source: TR-1}]", P),
    ("substances: [{name: methane, group: I, source: TR-1}]", P),
    ("substances: [{name: wheat flour, cloud_ignition: 900 °C, source: TR-1}]", U),
    ("substances: [{name: wheat flour, layer_ignition: 900 °C, source: TR-1}]", U),
    ("substances: [{name: wheat flour, carbonises: false, source: TR-1}]", U),
    ("substances: [{name: wheat flour, group: E, source: TR-1}]", U),
]


@pytest.mark.parametrize(("place", "expected"), KNOWN)
def test_substances_have_data(say: Say, place: str, expected: Verdict) -> None:
    assert say("substance-known", place=place) is expected


def test_laxer_values_do_not_govern_without_a_document(say: Say) -> None:
    part = "kind: electrical, marking: Ex db IIC T3 Gb"
    place = "area: Zone 1, substances: [{{name: carbon disulfide, autoignition: 300 °C, {}}}]"
    assert say("temperature-class", part, place.format("source: TR-1")) is U
    assert say("temperature-class", part, place.format(OWN)) is U
    dusty = "kind: electrical, marking: 'Class II, Division 1, Group G T3'"
    flour = "area: 'Class II, Division 1, Group G', substances: [{{name: wheat flour, {}, {}}}]"
    values = "carbonises: false, cloud_ignition: 400 °C, layer_ignition: 300 °C"
    assert say("temperature-class", dusty, flour.format(values, "source: TR-1"), "NEC") is F
    assert say("temperature-class", dusty, flour.format(values, OWN), "NEC") is P


HOT = "area: {}, ambient: 5..25 °C, {}"
FLASH = [
    (HOT.format("'Zone 2, IIB, T3'", "substances: [ethanol]"), P),
    (HOT.format("unclassified", "substances: [{name: ethanol, temperature: 20 °C}]"), F),
    (HOT.format("unclassified", "chemicals: [{name: acetic acid, temperature: 20 °C}]"), U),
    (HOT.format("unclassified", "chemicals: [{name: acetic acid, temperature: 60 °C}]"), F),
    (HOT.format("unclassified", "chemicals: [{name: acetic acid}]"), U),
    (
        HOT.format(
            "unclassified", "chemicals: [{name: acetic acid, temperature: 20 °C, mist: true}]"
        ),
        F,
    ),
    (
        HOT.format(
            "unclassified",
            f"substances: [{{name: oil nobody lists, flash_point: 60 °C, autoignition: 300 °C, "
            f"temperature: 20 °C, {OWN}}}]",
        ),
        P,
    ),
    (
        HOT.format(
            "unclassified",
            "substances: [{name: acetic acid, temperature: 20 °C}], "
            "chemicals: [{name: acetic acid, temperature: 60 °C}]",
        ),
        F,
    ),
    (
        HOT.format(
            "unclassified",
            "substances: [{name: acetic acid, temperature: 60 °C}], "
            "chemicals: [{name: acetic acid, temperature: 20 °C}]",
        ),
        F,
    ),
    (HOT.format("unclassified", "substances: [hydrogen]"), N),
    (HOT.format("unclassified", "substances: [wheat flour]"), N),
    (HOT.format("nowhere known", "substances: [ethanol]"), N),
    ("substances: [ethanol]", N),
    ("area: unclassified, substances: [{name: acetic acid, temperature: 20 °C}]", U),
    ("area: unclassified, substances: [acetic acid]", U),
]


@pytest.mark.parametrize(("place", "expected"), FLASH)
def test_flash_points_object_and_never_relax(say: Say, place: str, expected: Verdict) -> None:
    assert say("flash-point", place=place) is expected


AIR = "area: 'Zone 1, IIB, T3', ambient: {}"
ANILINE = AIR.format("5..40 °C, substances: [aniline]")
BOTH = "area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], ambient: 5..40 °C"
ATMOSPHERES = [
    (AIR.format("5..40 °C"), "IEC", P),
    (AIR.format("-30..40 °C"), "IEC", U),
    (AIR.format("5..70 °C"), "IEC", U),
    ("area: 'Class I, Division 2, Group D', ambient: -25..40 °C", "NEC", P),
    (AIR.format("5..40 °C, pressure: 100 kPa"), "IEC", P),
    (AIR.format("5..40 °C, pressure: 3 bar"), "IEC", U),
    (AIR.format("5..40 °C, pressure: 50 kPa"), "IEC", U),
    (AIR.format("5..40 °C, oxygen: 21 %"), "IEC", P),
    (AIR.format("5..40 °C, oxygen: 25 %"), "IEC", U),
    (AIR.format("5..40 °C, chemicals: [oxygen]"), "IEC", U),
    (AIR.format("5..40 °C, chemicals: [ozone]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [nitrous oxide]"), "IEC", U),
    (AIR.format("5..40 °C, chemicals: [{name: hydrogen peroxide, concentration: 3 %}]"), "IEC", P),
    (AIR.format("5..40 °C, substances: [acetylene]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [acetylene], pressure: 101 kPa"), "IEC", P),
    (AIR.format("5..40 °C, substances: [acetylene], pressure: 2 bar"), "IEC", U),
    ("area: unclassified, ambient: 5..70 °C", "IEC", N),
    ("area: unclassified, ambient: 5..70 °C, substances: [ethanol]", "IEC", U),
    # the ends of what the standards cover
    (AIR.format("-20..60 °C"), "IEC", P),
    (AIR.format("-21..60 °C"), "IEC", U),
    (AIR.format("-20..61 °C"), "ATEX", U),
    (AIR.format("5..40 °C, pressure: 80 kPa"), "IEC", P),
    (AIR.format("5..40 °C, pressure: 79.9 kPa"), "IEC", U),
    (AIR.format("5..40 °C, pressure: 110 kPa"), "IEC", P),
    (AIR.format("5..40 °C, pressure: 110001 Pa"), "IEC", U),
    (AIR.format("5..40 °C, oxygen: 21 % v/v"), "IEC", P),
    (AIR.format("5..40 °C, oxygen: 21.5 % v/v"), "IEC", U),
    (AIR.format("5..40 °C, oxygen: 0.5 % v/v"), "IEC", P),
    ("area: 'Class I, Division 2, Group D', ambient: -25..40 °C", "NEC", P),
    ("area: 'Class I, Division 2, Group D', ambient: -26..40 °C", "NEC", U),
    # hot where it escapes: IEC 60079-0:2017 1 and 5.1.2, from memory
    (AIR.format("5..40 °C, substances: [{name: toluene, temperature: 60 °C}]"), "IEC", P),
    (AIR.format("5..40 °C, substances: [{name: toluene, temperature: 180 °C}]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [{name: toluene, temperature: 20..61 °C}]"), "IEC", U),
    (AIR.format("5..40 °C, chemicals: [{name: acetone, temperature: 120 °C}]"), "IEC", U),
    (AIR.format("5..40 °C, chemicals: [{name: sodium hydroxide, temperature: 80 °C}]"), "IEC", P),
    # hybrid mixtures: IEC 60079-10-2:2015, EN 1127-1:2019, from memory
    (AIR.format("5..40 °C, substances: [ethanol, wheat flour]"), "IEC", U),
    ("area: ['Zone 1, IIB, T3', 'Zone 21, IIIB'], ambient: 5..40 °C", "IEC", U),
    (f"{BOTH}, hybrid_mixtures: false, document: AC-1", "IEC", P),
    (f"{BOTH}, hybrid_mixtures: false", "IEC", U),
    (f"{BOTH}, hybrid_mixtures: true, document: AC-1", "IEC", U),
    ("area: 'Zone 21, IIIB', ambient: 5..40 °C, substances: [wheat flour]", "IEC", P),
    ("area: 'Zone 21, IIIB', ambient: 5..40 °C, substances: [ethanol]", "IEC", U),
    (
        "area: ['Class I, Division 2, Group D', 'Class III, Division 1'], ambient: 5..40 °C",
        "NEC",
        U,
    ),
    # aniline flashes at 70 °C and nitrobenzene at 88 °C: hot or sprayed where vapour is declared
    # (IEC 60079-10-1:2020 5, EN 1127-1:2019 6.3, from memory)
    (ANILINE, "IEC", U),
    (AIR.format("5..40 °C, substances: [nitrobenzene]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [{name: aniline, temperature: 20..60 °C}]"), "IEC", P),
    (AIR.format("5..40 °C, substances: [{name: aniline, temperature: 90 °C}]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [{name: own, flash_point: 61 °C, source: S}]"), "IEC", U),
    (AIR.format("5..40 °C, substances: [{name: own, flash_point: 60 °C, source: S}]"), "IEC", P),
    # what explains the area: a lighter liquid, a gas, a mist, the bath listed beside
    (AIR.format("5..40 °C, substances: [aniline, ethanol]"), "IEC", P),
    (AIR.format("5..40 °C, substances: [aniline, hydrogen]"), "IEC", P),
    (f"{ANILINE}, chemicals: [{{name: aniline, mist: true}}]", "IEC", P),
    (f"{ANILINE}, chemicals: [{{name: aniline, temperature: 50 °C}}]", "IEC", P),
    ("area: unclassified, ambient: 5..40 °C, substances: [aniline]", "IEC", P),
    ("area: 'Class I, Division 2, Group D', ambient: 5..40 °C, substances: [aniline]", "NEC", U),
    # acetic acid is handled below its flash point beside dust: no vapour is declared
    ("area: 'Zone 22, IIIB', ambient: 5..30 °C, chemicals: [acetic acid]", "IEC", P),
]


@pytest.mark.parametrize(("place", "law", "expected"), ATMOSPHERES)
def test_atmospheres(say: Say, place: str, law: str, expected: Verdict) -> None:
    assert say("standard-atmosphere", place=place, law=law) is expected


OUTSIDE = "area: unclassified, ambient: 0..60 °C"
BARRIERS = [
    ("marking: '[Ex ia Ga] IIC', ambient: -20..70 °C", F),
    ("marking: '[Ex ia Ga] IIC'", F),
    ("marking: '[Ex ia Ga] IIC -20 °C ≤ Ta ≤ +60 °C', ambient: -20..70 °C", P),
    ("marking: '[Ex ia Ga] IIC -20 °C ≤ Ta ≤ +60 °C', ambient: -20..50 °C", F),
    (
        (
            "marking: '[Ex ia Ga] IIC', "
            "evidence: [{type: certificate, number: IECEx ABC 21.0001, ambient: -20..70 °C}]"
        ),
        P,
    ),
    # a second code for the same hazard that holds; one for another hazard that does not
    ("marking: ['[Ex ia Ga] IIC', '[Ex ia Ga] IIB -20 °C ≤ Ta ≤ +60 °C']", P),
    ("marking: ['[Ex ia Ga] IIC -20 °C ≤ Ta ≤ +60 °C', '[Ex ia Da] IIIC']", F),
    ("ambient: -20..70 °C", P),
    ("ambient: -20..50 °C", F),
    ("marking: none", N),
]


@pytest.mark.parametrize(("facts", "expected"), BARRIERS)
def test_a_certified_range_counts_outside_too(say: Say, facts: str, expected: Verdict) -> None:
    """IEC 60079-0:2017 5.1.1 (from memory): -20..40 °C holds where no Ta is printed."""
    assert say("ambient-range", f"kind: electrical, {facts}", OUTSIDE) is expected


def test_a_pyrophoric_gas_is_not_judged() -> None:
    normal = Range(Decimal(100000), Decimal(101000))
    question = OwnHazard("silane", Caution.PYROPHORIC, normal)
    assert ATMOSPHERE.judge(question).verdict is U


def test_a_name_that_two_rows_answer_to_is_judged_by_both(say: Say) -> None:
    """`DME` is dimethyl ether (IIB) and dimethoxyethane."""
    part = "kind: electrical, marking: Ex db IIA T4 Gb"
    assert say("gas-group", part, "area: Zone 1, substances: [DME]") is F


def test_ambient_ranges(say: Say) -> None:
    """Defaults from memory: IEC 60079-0:2017 5.1.1; NFPA 70-2023 500.8(C)(5), 505.9."""
    part = "kind: electrical, marking: {}"
    z1 = "area: 'Zone 1, IIB, T3', ambient: {}"
    ex = part.format("Ex db IIB T4 Gb")
    assert say("ambient-range", ex, z1.format("-24..38 °C")) is F
    assert say("ambient-range", ex, z1.format("-20..40 °C")) is P
    assert say("ambient-range", ex, "area: 'Zone 1, IIB, T3'") is N
    aex = part.format("'Class I, Zone 1, AEx db IIB T4 Gb'")
    d2 = "area: 'Class I, Division 2, Group D', ambient: -24..38 °C"
    assert say("ambient-range", aex, d2, "NEC") is F
    div = part.format("'Class I, Division 2, Group D T4'")
    assert say("ambient-range", div, d2, "NEC") is P
    wide = f"{ex}, ambient: -40..60 °C"
    assert say("ambient-range", wide, z1.format("-24..38 °C")) is F
    narrow = f"{ex}, ambient: 0..30 °C"
    assert say("ambient-range", narrow, z1.format("5..40 °C")) is F
    certified = f"{ex}, evidence: [{{type: certificate, number: N-1, ambient: -40..60 °C}}]"
    assert say("ambient-range", certified, z1.format("-24..38 °C")) is P
    marked = part.format("Ex db IIB T4 Gb -20 °C ≤ Ta ≤ +60 °C")
    document = "evidence: [{{type: certificate, number: N-1, ambient: {}}}]"
    both = f"{marked}, {document.format('-20..50 °C')}"
    assert say("ambient-range", both, z1.format("0..55 °C")) is F
    assert say("ambient-range", both, z1.format("0..45 °C")) is P
    apart = f"{marked}, {document.format('70..80 °C')}"
    assert say("ambient-range", apart, z1.format("0..45 °C")) is F
    bare = "kind: mechanical, ambient: 0..30 °C"
    assert say("ambient-range", bare, z1.format("5..40 °C")) is F
    assert say("ambient-range", "kind: mechanical", z1.format("5..40 °C")) is N


def test_barriers_outside(say: Say) -> None:
    part = "kind: electrical, marking: ['[Ex ia Ga] IIC', Ex ec IIC T4 Gc]"
    assert say("protection-level", part, "area: unclassified") is P
    assert say("protection-level", part, "area: nowhere known") is N
    assert say("protection-level", part, "") is N


def test_unmarked_components_and_silence(say: Say) -> None:
    assert say("ex-component", "kind: electrical", "area: 'Zone 1, IIB'") is N
    assert say("special-conditions", "kind: electrical, marking: Ex db IIC T4 Gb") is N


@pytest.mark.parametrize(("document", "expected"), [("AC-1", P), ("to follow", U), ("TBD", U)])
def test_an_area_whose_document_is_to_follow(say: Say, document: str, expected: Verdict) -> None:
    """Common practice, no source."""
    place = f"area: 'Zone 1, IIB, T3', substances: [ethanol], document: {document}"
    assert say("declared-area", place=place) is expected


COLD = "area: 'Zone 1, IIB, T3', substances: [ethanol], ambient: {}"
MARKED = "kind: electrical, marking: Ex db IIC T4 Gb{}"


@pytest.mark.parametrize(
    ("part", "ambient", "expected"),
    [
        (MARKED.format(" -40 °C ≤ Ta ≤ +60 °C"), "-30..40 °C", P),
        (MARKED.format(" -40 °C ≤ Ta ≤ +60 °C"), "-30..65 °C", U),
        (MARKED.format(" -40 °C ≤ Ta ≤ +60 °C"), "-50..40 °C", U),
        (MARKED.format(""), "-30..40 °C", U),
        (
            MARKED.format(
                ", evidence: [{type: certificate, number: IECEx ABC 21.0001, ambient: -40..50 °C}]"
            ),
            "-30..40 °C",
            P,
        ),
        (
            MARKED.format(
                " -40 °C ≤ Ta ≤ +60 °C, evidence: [{type: certificate, number: IECEx ABC 21.0001, "
                "ambient: -20..50 °C}]"
            ),
            "-30..40 °C",
            U,
        ),
        (
            MARKED.format(", evidence: [{type: test report, number: T-12, ambient: -40..50 °C}]"),
            "-30..40 °C",
            U,
        ),
        (
            MARKED.format(
                ", evidence: [{type: certificate, number: IECEx ABC 21.0001, ambient: -40..50 °C, "
                "valid_until: 2020-01-01}]"
            ),
            "-30..40 °C",
            U,
        ),
        ("kind: electrical", "-30..40 °C", U),
        ("kind: structural", "-30..40 °C", U),
    ],
)
def test_parts_certified_for_the_cold(say: Say, part: str, ambient: str, expected: Verdict) -> None:
    """IEC 60079-0:2017 5.1.1, from memory: a printed range extends what the part is tested for."""
    assert say("standard-atmosphere", part, COLD.format(ambient)) is expected


@pytest.mark.parametrize(
    ("name", "near"), [("wheat flower", "wheat-flour"), ("flower", "flour"), ("toluen", "toluene")]
)
def test_a_misspelt_gas_or_dust_gets_the_nearest_known_names(
    tell: Callable[..., str], name: str, near: str
) -> None:
    assert f"Nearest known: {near}" in tell("substance-known", place=f"substances: [{name}]")


def test_a_misspelt_chemical_in_to_gets_the_nearest_of_the_place(tell: Callable[..., str]) -> None:
    part = "kind: structural, materials: [{material: '304', exposure: splash, to: [nitric acit]}]"
    said = tell("chemical-resistance", part, "chemicals: [nitric acid]")
    assert "Nearest known: nitric acid." in said


def test_what_has_no_flash_point_hides_none_that_has(listed: Listed) -> None:
    """Every liquid present is asked (NFPA 30-2024 7.4, from memory), wherever it is listed."""
    assert listed("places", "warm", "flash-point")[0] is F


@pytest.mark.parametrize(("air", "verdict"), [("45", P), ("45.1", U)])
def test_the_margin_below_a_flash_point_is_a_row_that_is_cited(air: str, verdict: Verdict) -> None:
    warmest = Decimal(air)
    question = FlashPoint("white spirit", Decimal(60), (), warmest, warmest, False, False)  # noqa: FBT003 - facts in order
    judgement = FLASH_POINT.judge(question)
    assert judgement.verdict is verdict
    assert [(row.key, row.value) for row in judgement.rows] == [
        ("margin below the flash point", "15 K")
    ]


def test_a_difference_of_temperature_is_stated_in_kelvin() -> None:
    assert figure("margin below the flash point").kelvin == Decimal(15)
    with pytest.raises(ValueError, match="no difference in K"):
        _ = figure("highest temperature of standard air").kelvin


@pytest.mark.parametrize(
    ("law", "least"), [("IEC", "-20 °C"), ("ATEX", "-20 °C"), ("NEC", "-25 °C")]
)
def test_the_range_of_standard_air_is_cited(law: str, least: str) -> None:
    row = figure("lowest temperature of standard air", law)
    question = Air(
        AirFact.AMBIENT,
        Range(Decimal(5), Decimal(40)),
        row,
        figure("highest temperature of standard air"),
    )
    assert [each.value for each in ATMOSPHERE.judge(question).rows] == [least, "60 °C"]


@pytest.mark.parametrize(
    "to_come",
    [
        "to be issued",
        "wird nachgereicht",
        "in Arbeit",
        "liegt nicht vor",
        "à venir",
        "en cours",
        "da emettere",
        "non disponibile",
        "pendiente",
        "por definir",
    ],
)
def test_a_document_to_come_names_none(say: Callable[..., Verdict], to_come: str) -> None:
    """Common practice, no source: what stands in a list where a number is to come."""
    place = "area: 'Zone 1, IIB, T3', document: '{}'"
    assert say("declared-area", place=place.format(to_come)) is U
    assert say("declared-area", place=place.format("AC-7 rev B")) is P


@pytest.mark.parametrize("name", ["hydrogen", "водород", "idrogeno", "hidrógeno", "Wasserstoff"])
def test_no_language_makes_hydrogen_milder(say: Callable[..., Verdict], name: str) -> None:
    """ISO/IEC 80079-20-1: IIC, whatever a list states of it."""
    own = f"{{name: {name}, group: IIA, source: report, document: TR-1}}"
    part = "kind: electrical, marking: Ex db IIA T1 Gb"
    assert say("gas-group", part, f"area: 'Zone 1, T1', substances: [{own}]") is U
