"""Findings cite the clauses of the law that governs the list: common practice, no source."""

import pytest

from areafit.facts.protection import Law
from areafit.findings.clauses import clause_of
from areafit.registry import RULES

LEVEL = "NFPA 70-2023 500.8, 505.9; IEC 60079-14:2013 5.3; 1999/92/EC Annex II B"
EDITION = "NFPA 70-2023; IEC 60079-14:2013; EN 60079-14:2014; 2014/34/EU"
FLASH = "NFPA 30-2024 7.4; NFPA 497-2021 5.3; IEC 60079-10-1:2020 5; EN 1127-1:2019 6.3"
CASES = [
    (LEVEL, Law.NEC, "NFPA 70-2023 500.8, 505.9"),
    (LEVEL, Law.IEC, "IEC 60079-14:2013 5.3"),
    (LEVEL, Law.ATEX, "IEC 60079-14:2013 5.3; 1999/92/EC Annex II B"),
    ("NFPA 70-2023 500.6(A)", Law.IEC, "NFPA 70-2023 500.6(A)"),
    ("IEC 60079-0:2017 29; NFPA 496-2021 3", Law.IEC, "IEC 60079-0:2017 29; NFPA 496-2021 3"),
    ("X 1 (belts; NFPA 70 hoses)", Law.IEC, "X 1 (belts; NFPA 70 hoses)"),
    ("", Law.NEC, ""),
    (EDITION, Law.NEC, "NFPA 70-2023"),
    (EDITION, Law.IEC, "IEC 60079-14:2013"),
    (FLASH, Law.IEC, "IEC 60079-10-1:2020 5; EN 1127-1:2019 6.3"),
    (FLASH, Law.NEC, "NFPA 30-2024 7.4; NFPA 497-2021 5.3; EN 1127-1:2019 6.3"),
    ("IEC 60529:1989 5; NEMA 250-2018", Law.IEC, "IEC 60529:1989 5"),
]


@pytest.mark.parametrize(("clauses", "law", "expected"), CASES)
def test_clauses_of_other_laws_are_left_out(clauses: str, law: Law, expected: str) -> None:
    assert clause_of(clauses, law) == expected


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_cites_something_under_every_law(rule: object) -> None:
    assert all(clause_of(getattr(rule, "clause"), law) for law in Law)  # noqa: B009 - any rule
