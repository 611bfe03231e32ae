"""What the file says of a loop beyond the worked cases."""

from datetime import date

import pytest

import areafit
from areafit.findings.report import SubjectReport
from areafit.verdict import Verdict, worst

LIST = """areafit: 1
assembly: {number: CASE-1}
code: IEC
locations:
  case: {area: 'Zone 1, IIB, T4', substances: [ethylene]}
  pit: {area: 'Zone 0, IIC, T4', substances: [hydrogen]}
  safe: {area: unclassified}
parts:
  - {item: '1', location: case, kind: electrical, marking: Ex ib IIB T4 Gb}
  - {item: '9', location: safe, kind: electrical, marking: '[Ex ia Ga] IIC'}
loops:
  - name: LS-1
    group: IIB
    source: {item: '9', Uo: 28 V, Io: 93 mA, Po: 0.65 W, Co: 0.65 µF, Lo: 15 mH}
    devices: [{item: '1', Ui: none, Ii: 100 mA, Pi: 1 W, Ci: 5 nF, Li: 50 µH}]
    cable: {length: 120 m, values: default}
"""


def loop(text: str) -> SubjectReport:
    bom = areafit.read(text.encode(), "case.yaml")
    options = areafit.Options(as_of=date(2026, 1, 1))
    (report,) = areafit.judge(bom, areafit.Tables.shipped(), options).loops
    return report


def verdict(text: str, rule: str) -> Verdict:
    return worst(f.verdict for f in loop(text).findings() if f.rule.id == rule)


@pytest.mark.parametrize("rule", ["loop-group", "loop-level"])
def test_a_place_that_only_the_cable_enters_counts(rule: str) -> None:
    assert verdict(LIST, rule) is Verdict.PASS
    assert verdict(LIST + "    location: pit\n", rule) is Verdict.FLAG
    assert verdict(LIST + "    location: [case, pit]\n", rule) is Verdict.FLAG


def test_an_unknown_place_is_an_error() -> None:
    with pytest.raises(areafit.InputErrors, match="`pitt` is none of the `locations`"):
        loop(LIST + "    location: pitt\n")


def test_no_limit_is_read_as_such() -> None:
    assert verdict(LIST, "loop-voltage") is Verdict.UNPROVEN
    assert verdict(LIST.replace("Ui: none", "Ui: 30 V"), "loop-voltage") is Verdict.PASS
    with pytest.raises(areafit.InputErrors):
        loop(LIST.replace("Ci: 5 nF", "Ci: none"))


def test_findings_stand_where_they_are_written() -> None:
    (voltage,) = [f for f in loop(LIST).findings() if f.rule.id == "loop-voltage"]
    assert voltage.path == "loops/0/devices/0"
    assert voltage.position.line == LIST[: LIST.index("devices")].count("\n") + 1


def test_a_waiver_of_a_sum_outlives_other_values() -> None:
    """The fingerprint of the capacitance rests on reactances, places and the table, not on Ui."""

    def print_of(text: str) -> str:
        return next(f.fingerprint for f in loop(text).findings() if f.rule.id == "loop-capacitance")

    assert print_of(LIST) == print_of(LIST.replace("Ui: none", "Ui: 30 V"))
    assert print_of(LIST) != print_of(LIST.replace("Ci: 5 nF", "Ci: 6 nF"))
