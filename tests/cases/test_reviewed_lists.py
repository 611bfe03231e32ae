"""Lists of a reviewer who reads standards: each expectation was written before the run.

`lists.jsonl` holds one list a line, `expectations.csv` what each has to get. Reasons name clause or
handbook, all from memory. `note` says where the reviewer was corrected by the run or a matter is
one of reading, `fault` where the tool still is wrong. `quiet` is nothing open.
"""

import csv
import datetime as dt
import json
from functools import cache
from pathlib import Path

import pytest

import areafit
from areafit.verdict import Verdict

HERE = Path(__file__).parent / "reviewed"
LISTS = {
    json.loads(line)["assembly"]["number"]: line
    for line in (HERE / "lists.jsonl").read_text(encoding="utf-8").splitlines()
}
with (HERE / "expectations.csv").open(encoding="utf-8", newline="") as _file:
    ROWS = list(csv.DictReader(_file))
FULFIL: dict[str, set[Verdict | None]] = {
    "pass": {Verdict.PASS},
    "flag": {Verdict.FLAG},
    "unproven": {Verdict.UNPROVEN},
    "not pass": {Verdict.FLAG, Verdict.UNPROVEN},
    "not flag": {None, Verdict.PASS, Verdict.UNPROVEN},
    "quiet": {None, Verdict.PASS, Verdict.NOT_APPLICABLE},
}
WORST = (Verdict.FLAG, Verdict.UNPROVEN, Verdict.PASS, Verdict.NOT_APPLICABLE)


@cache
def verdicts(number: str) -> dict[tuple[str, str], set[Verdict]]:
    """Of each line, place and loop, by rule; `part` is its verdict as a whole."""
    bom = areafit.read(LISTS[number].encode(), number)
    options = areafit.Options(as_of=dt.date(2026, 11, 30))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    found: dict[tuple[str, str], set[Verdict]] = {}
    for subject in (*report.parts, *report.places, *report.loops):
        found[subject.name, "part"] = {subject.verdict}
        for finding in subject.findings():
            found.setdefault((subject.name, finding.rule.id), set()).add(finding.verdict)
    return found


def _params() -> list[object]:
    return [
        pytest.param(
            row,
            id="-".join((row["list"], row["where"], row["rule"])),
            marks=[pytest.mark.xfail(reason=row["fault"], strict=True)] if row["fault"] else [],
        )
        for row in ROWS
    ]


@pytest.mark.parametrize("row", _params())
def test_gets_what_the_reviewer_expects(row: dict[str, str]) -> None:
    given = verdicts(row["list"]).get((row["where"], row["rule"]), set())
    worst = next((verdict for verdict in WORST if verdict in given), None)
    assert worst in FULFIL[row["expected"]], f"{row['expected']} by {row['reason']}"


def test_every_list_is_judged_and_every_expectation_has_a_reason() -> None:
    """Common practice, no source: an expectation without a reason can be no evidence."""
    assert {row["list"] for row in ROWS} == set(LISTS)
    assert len(LISTS) >= 100
    assert all(row["reason"] and row["basis"] == "memory" for row in ROWS)


FILLED = sorted(HERE.glob("filled_*.yaml"))


@pytest.mark.parametrize("path", FILLED, ids=lambda path: path.stem)
def test_a_list_that_says_all_passes_without_a_question(path: Path) -> None:
    """From memory of the standards: each line is what the trade would buy for such a place."""
    bom = areafit.read(path.read_bytes(), path.name)
    options = areafit.Options(as_of=dt.date(2026, 11, 30))
    report = areafit.judge(bom, areafit.Tables.shipped(), options)
    found = [
        (subject.name, finding.rule.id, finding.component, finding.message)
        for subject in (*report.parts, *report.places, *report.loops)
        for finding in subject.open_findings()
    ]
    assert found == []
    assert 10 <= len(report.parts) <= 25
