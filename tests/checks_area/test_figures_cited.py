"""The figures that the area's rules compare with are rows, which their answers cite.

Source of the figures: the rows themselves; that they are cited is the project's own design.
"""

from datetime import date

import pytest

import areafit
from areafit.findings.report import Finding
from areafit.rule import Example
from areafit.verdict import Verdict

OWN_RANGE = (
    "{kind: electrical, marking: Ex db IIB T4 Gb, evidence: [{type: certificate, number: IECEx ABC "
    "21.0001, ambient: 0..50 °C}]}"
)
SEALED = (
    "{kind: electrical, marking: 'Class I, Division 1, Groups C, D T4', conduit_seals: {within: "
    "450 mm, all_runs: true}}"
)
FAR_SEAL = (
    "{kind: electrical, marking: 'Class I, Division 1, Groups C, D T4', entries: [{type: conduit "
    "seal, marking: 'Class I, Division 1, Groups C, D', thread: NPT 1/2, hole: 1/2 NPT, within: "
    "1 m}]}"
)
ZONE_1 = "{area: 'Zone 1, IIB, T3', ambient: 5..40 °C}"
ENDS = ("lowest ambient where none is printed", "highest ambient where none is printed")
CASES = [
    (
        "ambient-range",
        "{kind: electrical, marking: Ex db IIB T4 Gb}",
        ZONE_1,
        "IEC",
        {f"{end}, IEC" for end in ENDS},
    ),
    ("ambient-range", OWN_RANGE, ZONE_1, "IEC", set()),
    (
        "hot-surface",
        "{kind: mechanical, electrical_content: none, surface_temperature: 150 °C}",
        "{area: Zone 0, substances: [n-hexane], ambient: 5..40 °C}",
        "ATEX",
        {"share of the ignition temperature for level a"},
    ),
    (
        "gas-group",
        SEALED,
        "{area: 'Class I, Division 1', substances: ['1,3-butadiene']}",
        "NEC",
        {"distance of a conduit seal, milder group"},
    ),
    (
        "cable-entry",
        FAR_SEAL,
        "{area: 'Class I, Division 1, Group D'}",
        "NEC",
        {"distance of a conduit seal, Division 1"},
    ),
    (
        "protection-level",
        "{kind: electrical, marking: EEx d IIB T4, placed_on_market: 2003-06-30}",
        "{area: 'Zone 1, IIA'}",
        "ATEX",
        {"last day of use without an equipment category"},
    ),
]


def found(rules: frozenset[str], part: str, place: str, law: str) -> list[Finding]:
    text = Example("", Verdict.PASS, part, place, law).as_list
    bom = areafit.read(text.encode(), "case.yaml")
    options = areafit.Options(as_of=date(2026, 1, 1), only=rules)
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    return [each for each in report.parts[0].findings() if each.rule.id in rules]


@pytest.mark.parametrize(("rule", "part", "place", "law", "keys"), CASES)
def test_an_answer_cites_the_figures_that_it_compares_with(
    rule: str, part: str, place: str, law: str, keys: set[str]
) -> None:
    rows = [row for each in found(frozenset({rule}), part, place, law) for row in each.rows]
    assert {row.key for row in rows if row.table == "figures"} == keys


def test_every_rule_reads_the_one_code_that_is_chosen() -> None:
    """Whichever rules are asked: a code is chosen by all that is required of it."""
    part = "{kind: electrical, marking: [Ex db IIC T1 Gb, Ex ec IIB T4 Gc]}"
    rules = ("protection-level", "gas-group", "temperature-class")
    for asked in (frozenset(rules), *(frozenset({rule}) for rule in rules)):
        answers = found(asked, part, "{area: 'Zone 2, IIB, T4', ambient: 5..40 °C}", "IEC")
        assert {each.path for each in answers} == {"parts/0/marking/1"}
