"""Findings cite the clauses of the law that governs the list: common practice, no source."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit.facts.protection import Law
from areafit.findings.report import Finding
from areafit.registry import RULES
from areafit.tables import load
from areafit.tables.catalogue import CATALOGUE
from areafit.tables.limits import Clause, binding
from areafit.tables.load import rows
from areafit.verdict import Basis, Verdict

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
    assert "; ".join(binding(clauses, law)) == expected


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_cites_something_under_every_law(rule: object) -> None:
    assert all(binding(getattr(rule, "clause"), law) for law in Law)  # noqa: B009 - any rule


SAMPLES = Path(__file__).parents[2] / "sample_bom"


def _findings() -> Iterator[Finding]:
    """Those of every rule's examples and of the samples."""
    texts = [example.as_list.encode() for rule in RULES for example in rule.examples]
    texts += [
        path.read_bytes()
        for path in sorted(SAMPLES.glob("*.yaml"))
        if b"\nareafit: 1" in path.read_bytes()
    ]
    for text in texts:
        bom = areafit.read(text, "case.yaml", lambda name: (SAMPLES / name).read_bytes())
        options = areafit.Options(as_of=date(2026, 1, 1))
        report = areafit.judge(bom, areafit.Tables.shipped(), options)
        for subject in report.subjects():
            yield from subject.findings()


def test_every_finding_cites_a_clause_of_the_table_and_every_pass_has_a_basis() -> None:
    known = {row.citation for row in rows("clauses", Clause)}
    cited: set[str] = set()
    for finding in _findings():
        assert finding.clause, finding.rule.id
        cited |= set(binding(finding.clause, Law.NEC)) | set(binding(finding.clause, Law.ATEX))
        assert finding.basis is not None or finding.verdict is not Verdict.PASS, finding.rule.id
    assert len(cited) > 100
    missing = sorted(cited - known)
    assert not missing, "Add to clauses.csv, with a basis each:\n" + "\n".join(missing)


def test_every_citation_of_a_rule_or_a_row_is_in_the_table() -> None:
    known = {row.citation for row in rows("clauses", Clause)}
    cited = {rule.clause for rule in RULES}
    for spec in CATALOGUE.values():
        if "document" not in spec.row_type.__struct_fields__:  # the clause alone stands beside it
            each = load.rows(spec.name, spec.row_type)
            cited |= {str(getattr(row, "clause", "")) for row in each}
    parts = {part for text in cited - {""} for law in Law for part in binding(text, law)}
    missing = sorted(parts - known)
    assert not missing, (
        "Cited, and no row of rules/areafit/tables/data/clauses.csv. Add one each, with its basis, "
        "or cite as a row does:\n" + "\n".join(missing)
    )


def test_a_pass_that_rests_on_a_clause_alone_is_held_to_the_least_basis() -> None:
    """`--least-basis seen` may not pass what rests on a clause that nobody read: the design."""
    text = next(
        example.as_list
        for rule in RULES
        if rule.id == "ambient-range"
        for example in rule.examples
        if example.verdict is Verdict.PASS
    )
    bom = areafit.read(text.encode(), "case.yaml")
    only = frozenset({"ambient-range"})
    for least, verdict in ((Basis.MEMORY, Verdict.PASS), (Basis.SEEN, Verdict.UNPROVEN)):
        options = areafit.Options(as_of=date(2026, 1, 1), only=only, least_basis=least)
        report = areafit.judge(bom, areafit.Tables.shipped(), options)
        assert report.parts[0].verdict is verdict
        assert report.counts.by_basis[Basis.REPORTED] == (least is Basis.MEMORY)
