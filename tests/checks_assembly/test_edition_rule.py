"""Which editions of the installation rules pass; what was when is from memory."""

import pytest

import areafit
from areafit.checks.assembly.machine import EDITION as RULE
from areafit.registry import RULES
from areafit.tables.area import EditionStanding, editions
from areafit.verdict import Verdict, worst

P, U, N = Verdict.PASS, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE


def verdict(law: str, edition: str) -> Verdict:
    text = f"""
areafit: 1
assembly: {{number: T}}
code: {law}
{edition}
locations: {{spot: {{area: unclassified}}}}
parts: [{{item: "1", location: spot, kind: structural}}]
"""
    asked = RULE.ask(areafit.read(text.encode(), "t"), None)
    return worst(RULE.judge(ask.question).verdict for ask in asked)


@pytest.mark.parametrize(
    ("law", "edition", "expected"),
    [
        ("NEC", "2023", P),
        ("NEC", "NFPA 70-2020", P),
        ("NEC", "'1984'", U),  # AEx came with Article 505 in 1996
        ("NEC", "'1999'", U),
        ("NEC", "2014", U),
        ("NEC", "2026", U),
        ("NEC", "2022", U),
        ("NEC", "the adopted one", U),
        ("IEC", "60079-14:2013", P),
        ("IEC", "60079-14:1996", U),
        ("IEC", "2024", U),
        ("IEC", "2023", U),
        ("ATEX", "'1999/92/EC, EN 60079-14:2014'", P),
        ("ATEX", "2014/34/EU", P),
        ("ATEX", "94/9/EC", U),
    ],
)
def test_editions(law: str, edition: str, expected: Verdict) -> None:
    assert verdict(law, f"edition: {edition}") is expected


def test_none_stated_is_not_asked() -> None:
    assert verdict("NEC", "") is N


@pytest.mark.parametrize("law", ["NEC", "IEC", "ATEX"])
def test_what_is_applied_is_what_the_clauses_cite(law: str) -> None:
    applied = [row for row in editions(law) if row.standing is EditionStanding.APPLIED]
    cited = " ".join(rule.clause for rule in RULES)
    assert any(row.text in cited or row.text.split(" and ")[0] in cited for row in applied)
