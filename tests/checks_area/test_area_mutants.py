"""What one changed expression of a rule would get past other tests; see that of materials."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from areafit.checks.area.ambient import AmbientQuestion, judge_ambient
from areafit.checks.area.level import offered
from areafit.checks.places.chemicals import CHEMICALS_TOGETHER as TOGETHER
from areafit.checks.places.chemicals import ChemicalPair as Pair
from areafit.documents import read_number
from areafit.facts.evidence import Evidence, EvidenceType
from areafit.facts.protection import MarkingSystem
from areafit.facts.quantity import Range
from areafit.marking import decode
from areafit.verdict import Reason, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
ZONE = "area: 'Zone 1, IIB, T4', ambient: 5..40 °C"
DUST = "area: 'Zone 21, IIIB, T135 °C', ambient: 5..40 °C"


@pytest.mark.parametrize(
    ("rule", "part", "place"),
    [
        ("gas-group", "kind: electrical, marking: Ex tb IIIC T120 °C Db IP66", DUST),
        ("dust-group", "kind: electrical, marking: Ex db IIC T4 Gb", ZONE),
        ("gas-group", "kind: structural", ZONE),
        ("protection-level", "kind: structural", ZONE),
        ("ambient-range", "kind: structural", ZONE),
        ("temperature-class", "kind: structural", ZONE),
    ],
)
def test_a_rule_does_not_ask_what_it_is_not_about(
    say: Say, rule: str, part: str, place: str
) -> None:
    assert say(rule, part, place) is N


def test_a_hottest_surface_is_asked_of_any_part(say: Say) -> None:
    for kind in ("structural", "mechanical", "simple apparatus"):
        part = f"kind: {kind}, surface_temperature: 500 °C"
        assert say("hot-surface", part, ZONE) is F
        assert say("temperature-class", part, ZONE) is N  # one cause is said once
    wired = "kind: electrical, marking: Ex db IIB Gb, surface_temperature: 500 °C"
    assert say("temperature-class", wired, ZONE) is F
    assert say("hot-surface", wired, ZONE) is N


def test_the_marked_range_that_holds_the_place_counts() -> None:
    ranges = tuple(Range(Decimal(-20), Decimal(high)) for high in (40, 60))
    system = MarkingSystem.IEC
    wanted = Range(Decimal(5), Decimal(50))
    assert judge_ambient(AmbientQuestion(wanted, ranges, (), None, system)).verdict is P
    assert judge_ambient(AmbientQuestion(wanted, ranges[:1], (), None, system)).verdict is F


def test_groups_printed_beside_a_purge_still_count(say: Say) -> None:
    place = "area: 'Class I, Division 1, Group C'"
    printed = "kind: electrical, marking: 'Class I, Division 1, Group D, Type X purge, T4'"
    assert say("gas-group", printed, place, "NEC") is F
    bare = "kind: electrical, marking: Type X pressurized enclosure"
    assert say("gas-group", bare, place, "NEC") is P


def test_a_class_without_a_division_offers_nothing() -> None:
    [code] = decode("Class I, Group D, T4").codes
    assert offered(code) is None


@pytest.mark.parametrize(
    ("number", "year"), [("X 90 ATEX 1", 1990), ("X 89 ATEX 1", 2089), ("X 21 ATEX 1", 2021)]
)
def test_the_century_of_a_certificate(number: str, year: int) -> None:
    assert read_number(Evidence(EvidenceType.CERTIFICATE, number)).year == year


def test_a_catalogue_range_counts_where_nothing_is_classified(say: Say) -> None:
    place = "area: unclassified, ambient: 5..40 °C"
    assert say("ambient-range", "kind: electrical, ambient: 0..30 °C", place) is F
    assert say("ambient-range", "kind: electrical, ambient: 0..50 °C", place) is P


def test_a_chemical_without_a_reactivity_group_is_no_blank_in_the_chart() -> None:
    pair = Pair(("a", "b"), (), (), ("b",), ("1", "none"), None)
    judgement = TOGETHER.judge(pair)
    assert (judgement.verdict, judgement.reason) == (U, Reason.NO_DATA)
