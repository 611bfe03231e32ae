"""Documents: what each law asks, and what contradicts.

Sources, from memory unless said: NFPA 70-2023 500.8(A), 504.10, 505.9; 29 CFR 1910.307(c) (seen);
2014/34/EU Art. 13, 14; IEC 60079-14:2013 4.4; IEC 60079-19; certificate numbering of the schemes.
"""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from areafit.checks.proof.conditions import SPECIAL_CONDITIONS, SpecialConditions
from areafit.documents import CertificateScheme, Number, read_number
from areafit.facts.evidence import Condition, Evidence, EvidenceType
from areafit.verdict import Reason, Role, Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
Tell = Callable[..., str]
D2 = "area: 'Class I, Division 2, Group D'"
Z1 = "area: 'Zone 1, IIB, T3'"
LISTED = "{type: listing, number: E-1}"
DRAWING = "{type: control drawing, number: CD-1}"
DECLARED = "{type: declaration, number: DC-1}"
ATEX = "{type: certificate, number: ABC 21 ATEX 0001}"
IECEX = "{type: certificate, number: IECEx ABC 21.0001}"
UK = "{type: certificate, number: ABC 21 UKEX 0001}"
FOLLOWS = "{type: declaration, number: To follow}"
NATIONAL = "{type: certificate, number: N-1}"
DIV = "marking: 'Class I, Division 1, Groups C, D T4'"
SAFE = "marking: 'Intrinsically safe, Class I, Division 1, Groups A, B, C, D, T4'"

CASES = [
    # North America: a listing for the marking, a control drawing for intrinsic safety
    (DIV, LISTED, D2, "NEC", P),
    (DIV, "{type: listing}", D2, "NEC", U),
    (DIV, DRAWING, D2, "NEC", U),
    (DIV, DECLARED, D2, "NEC", F),
    (DIV, IECEX, D2, "NEC", F),
    (DIV, f"{IECEX}, {LISTED}", D2, "NEC", P),
    (DIV, "{type: listing, number: IECEx ABC 21.0001}", D2, "NEC", F),
    (SAFE, LISTED, D2, "NEC", U),
    (SAFE, f"{LISTED}, {DRAWING}", D2, "NEC", P),
    (SAFE, f"{LISTED}, {{type: control drawing}}", D2, "NEC", U),
    ("marking: 'Class I, Zone 0, AEx ia IIC T4 Ga'", LISTED, D2, "NEC", U),
    # 504.10(A), from memory: apparatus is installed by the drawing; what has its own cell is not
    (f"{SAFE}, intrinsic_safety: own cell", LISTED, D2, "NEC", P),
    (f"{SAFE}, intrinsic_safety: inside only", LISTED, D2, "NEC", U),
    (
        "marking: 'Class I, Zone 1, AEx ib [ia Ga] IIC T4 Gb', intrinsic_safety: own cell",
        LISTED,
        D2,
        "NEC",
        U,
    ),
    # a plate that holds for what is installed by a drawing asks for that drawing, from memory
    (f"{DIV[:-1]} when installed per drawing 7'", LISTED, D2, "NEC", U),
    (f"{DIV[:-1]} when installed per drawing 7'", f"{LISTED}, {DRAWING}", D2, "NEC", P),
    # a laboratory's page, read: a recognized component is judged in what it is built into
    (DIV, "{type: listing, number: E12345 recognized component}", D2, "NEC", F),
    (DIV, "{type: listing, number: E12345 component recognition}", D2, "NEC", F),
    # international: an IECEx or national certificate
    ("marking: Ex db IIB T4 Gb", IECEX, Z1, "IEC", P),
    ("marking: Ex db IIB T4 Gb", NATIONAL, Z1, "IEC", P),
    ("marking: Ex db IIB T4 Gb", LISTED, Z1, "IEC", P),
    ("marking: Ex db IIB T4 Gb", DECLARED, Z1, "IEC", U),
    ("marking: Ex db IIB T4 Gb", ATEX, Z1, "IEC", F),
    ("marking: II 2G Ex db IIB T4 Gb", ATEX, Z1, "IEC", P),
    # Europe: the declaration, and a certificate for category 1 and electrical category 2
    ("marking: II 2G Ex db IIB T4 Gb", f"{DECLARED}, {ATEX}", Z1, "ATEX", P),
    ("marking: II 2G Ex db IIB T4 Gb", DECLARED, Z1, "ATEX", U),
    ("marking: II 2G Ex db IIB T4 Gb", ATEX, Z1, "ATEX", U),
    ("marking: II 2G Ex db IIB T4 Gb", f"{DECLARED}, {IECEX}", Z1, "ATEX", U),
    ("marking: II 2G Ex db IIB T4 Gb", IECEX, Z1, "ATEX", F),
    ("marking: II 2G Ex db IIB T4 Gb", LISTED, Z1, "ATEX", F),
    ("marking: II 2G Ex db IIB T4 Gb", "{type: test report, number: T-1}", Z1, "ATEX", U),
    ("marking: II 3G Ex ec IIB T4 Gc", DECLARED, "area: 'Zone 2, IIB, T3'", "ATEX", P),
    ("marking: 'II (1)G [Ex ia Ga] IIC'", DECLARED, "area: unclassified", "ATEX", U),
    ("marking: 'II (3)G [Ex ic Gc] IIC'", DECLARED, "area: unclassified", "ATEX", P),
    ("marking: Ex db IIB T4 Gb", DECLARED, Z1, "ATEX", U),
    # documents of the United Kingdom are another system's; under IEC they are national ones
    ("marking: II 2G Ex db IIB T4 Gb", f"{DECLARED}, {UK}", Z1, "ATEX", U),
    ("marking: II 2G Ex db IIB T4 Gb", UK, Z1, "ATEX", F),
    (
        "marking: II 3G Ex ec IIB T4 Gc",
        "{type: declaration, number: UKCA DoC 7}",
        "area: 'Zone 2, IIB, T3'",
        "ATEX",
        F,
    ),
    ("marking: II 2G Ex db IIB T4 Gb", UK, Z1, "IEC", P),
    ("marking: 'UKCA 2503 II 2G Ex db IIB T4 Gb ABC 21UKEX1234'", UK, Z1, "ATEX", F),
    ("marking: 'UKCA 2503 II 2G Ex db IIB T4 Gb'", f"{DECLARED}, {UK}", Z1, "ATEX", U),
    ("marking: 'UKCA 2503 II 2G Ex db IIB T4 Gb'", f"{DECLARED}, {UK}, {ATEX}", Z1, "ATEX", P),
    ("marking: 'UKCA 2503 II 2G Ex db IIB T4 Gb'", f"{DECLARED}, {ATEX}", Z1, "IEC", P),
    # its marking has a category as the European one's (SI 2016/1107, from memory)
    ("marking: Ex db IIB T4 Gb", UK, Z1, "IEC", F),
    ("marking: Ex db IIB T4 Gb", f"{UK}, {IECEX}", Z1, "IEC", P),
    ("marking: Ex db IIB T4 Gb", f"{UK}, {ATEX}", Z1, "IEC", F),
    (DIV, "{type: listing, number: ABC 21 UKEX 0001}", D2, "NEC", F),
    # words in the place of a number
    ("marking: II 3G Ex ec IIB T4 Gc", "{type: declaration}", Z1, "ATEX", U),
    ("marking: II 2G Ex db IIB T4 Gb", f"{ATEX}, {FOLLOWS}", Z1, "ATEX", U),
    ("marking: Ex db IIB T4 Gb", "{type: certificate, number: IECEx pending}", Z1, "IEC", U),
    (DIV, "{type: listing, number: '-'}", D2, "NEC", U),
    # a pre-category code
    ("marking: EEx d IIB T4, placed_on_market: 2025-01-01", f"{DECLARED}, {ATEX}", Z1, "ATEX", F),
    (
        "marking: EEx d IIB T4, placed_on_market: 2001-01-01",
        f"{DECLARED}, {NATIONAL}",
        Z1,
        "ATEX",
        P,
    ),
    (
        "marking: II 2G EEx d IIB T4, placed_on_market: 2004-01-01",
        f"{DECLARED}, {ATEX}",
        Z1,
        "ATEX",
        P,
    ),
    # numbers and the calendar
    ("marking: Ex db IIB T4 Gb", "{type: certificate, number: IECEx ABC 31.0001}", Z1, "IEC", F),
    (
        "marking: II 2G Ex db IIB T4 Gb",
        f"{DECLARED}, {{type: certificate, number: ABC 93 ATEX 0001}}",
        Z1,
        "ATEX",
        F,
    ),
    # a document that shows a weaker level than the plate
    (
        "marking: Ex db IIB T4 Gb",
        "{type: certificate, number: IECEx ABC 21.0001, level: Gc}",
        Z1,
        "IEC",
        F,
    ),
    (
        "marking: Ex db IIB T4 Gb",
        "{type: certificate, number: IECEx ABC 21.0001, level: Gb}",
        Z1,
        "IEC",
        P,
    ),
    # repairs
    ("marking: Ex db IIB T4 Gb", f"{IECEX}, {{type: repair record}}", Z1, "IEC", U),
    ("marking: Ex db IIB T4 Gb", f"{IECEX}, {{type: repair record, number: R-1}}", Z1, "IEC", U),
    (
        "marking: Ex db IIB T4 Gb",
        f"{IECEX}, {{type: repair record, number: R-1, standard: IEC 60079-19}}",
        Z1,
        "IEC",
        P,
    ),
    # dates
    (
        "marking: Ex db IIB T4 Gb",
        "{type: certificate, number: IECEx ABC 21.0001, valid_until: 2025-12-31}",
        Z1,
        "IEC",
        U,
    ),
    (
        "marking: Ex db IIB T4 Gb",
        "{type: certificate, number: IECEx ABC 21.0001, valid_until: 2026-01-01}",
        Z1,
        "IEC",
        P,
    ),
    (
        "marking: Ex db IIB T4 Gb, placed_on_market: 2025-06-01",
        "{type: certificate, number: IECEx ABC 21.0001, valid_until: 2025-12-31}",
        Z1,
        "IEC",
        P,
    ),
    (
        "marking: Ex db IIB T4 Gb, placed_on_market: 2026-01-01",
        "{type: certificate, number: IECEx ABC 21.0001, valid_until: 2025-12-31}",
        Z1,
        "IEC",
        U,
    ),
]


@pytest.mark.parametrize(("part", "documents", "place", "law", "expected"), CASES)
def test_electrical_documents(  # noqa: PLR0917 - the columns of a case
    say: Say, part: str, documents: str, place: str, law: str, expected: Verdict
) -> None:
    text = f"kind: electrical, {part}, evidence: [{documents}]"
    assert say("evidence", text, place, law) is expected


@pytest.mark.parametrize("law", ["NEC", "IEC"])
def test_mechanical_documents(say: Say, law: str) -> None:
    part = "kind: mechanical, marking: Ex h IIB T4 Gb, evidence: [{}]"
    assert say("evidence", part.format("{type: assessment, number: A-1}"), Z1, law) is P
    assert say("evidence", part.format("{type: test report, number: A-1}"), Z1, law) is U


def test_european_mechanical_documents(say: Say) -> None:
    """2014/34/EU Art. 13: category 2 mechanical needs no certificate, category 1 does."""
    two = f"kind: mechanical, marking: II 2G Ex h IIB T4 Gb, evidence: [{DECLARED}]"
    assert say("evidence", two, Z1, "ATEX") is P
    assert say("evidence", two.replace("2G", "1G").replace("Gb", "Ga"), Z1, "ATEX") is U


def test_a_certificate_of_no_notified_body_is_told_by_what_it_is(tell: Tell) -> None:
    """2014/34/EU Art. 13, 17: an EU-type examination, not an IECEx or a national one."""
    part = "kind: electrical, marking: II 2G Ex db IIB T4 Gb, evidence: [{}, {}]"
    for stated, said in (
        (IECEX, "the one stated is of another system"),
        (UK, "the one stated is of another system"),
        (NATIONAL, "the one stated has no number of that form"),
        (DRAWING, "none is stated"),
    ):
        assert f"a notified body; {said}." in tell(
            "evidence", part.format(DECLARED, stated), Z1, "ATEX"
        )


def test_unmarked_parts_have_nothing_to_show_a_document_for(say: Say) -> None:
    assert say("evidence", "kind: electrical", Z1) is Verdict.NOT_APPLICABLE
    part = "kind: electrical, marking: Ex db IIB T4 Gb"
    assert say("evidence", part, "area: unclassified") is Verdict.NOT_APPLICABLE
    assert say("evidence", f"{part}, evidence: none", Z1) is U


def test_a_document_that_ran_out_is_told_beside_one_that_is_missing(
    tell: Tell, remedies: Callable[..., list[str]]
) -> None:
    part = (
        "kind: electrical, marking: II 2G Ex db IIB T4 Gb, evidence: [{type: certificate, number: "
        "ABC 22 ATEX 0001, valid_until: 2024-12-31}]"
    )
    said = tell("evidence", part, Z1, "ATEX")
    assert "EU declaration of conformity is not. EU-type certificate ABC 22 ATEX 0001 ran" in said
    assert "ran out on 2024-12-31. That does no harm to a part placed on the market before" in said
    assert "valid until 2024-12-31 (past)" in said
    assert "`placed_on_market`" in remedies("evidence", part, Z1, "ATEX")[0]
    later = tell("evidence", part + ", placed_on_market: 2025-02-01", Z1, "ATEX")
    assert "this one was on 2025-02-01, after that." in later


def test_the_deciding_date_is_that_of_the_run(say: Say, tell: Tell) -> None:
    part = (
        "kind: electrical, marking: Ex db IIB T4 Gb, evidence: [{type: certificate, number: "
        "IECEx ABC 21.0001, valid_until: 2025-12-31}]"
    )
    assert say("evidence", part, Z1, as_of=date(2025, 12, 31)) is P
    assert "2026-01-01" in tell("evidence", part, Z1)
    assert "IECEx certificate IECEx ABC 21.0001" in tell("evidence", part, Z1)


NUMBERS = [
    ("ABC 21 ATEX 0123 X", Number(CertificateScheme.ATEX, 2021)),
    ("ABC21ATEX0123X", Number(CertificateScheme.ATEX, 2021)),
    ("ABC 99 ATEX 0123", Number(CertificateScheme.ATEX, 1999)),
    ("ATEX 0123", Number(CertificateScheme.ATEX, None)),
    ("IECEx ABC 09.0123X", Number(CertificateScheme.IECEX, 2009)),
    ("IECEx number pending", Number(CertificateScheme.IECEX, None)),
    ("ABC 22UKEX0123X", Number(CertificateScheme.UK, 2022)),
    ("UKCA 0123", Number(CertificateScheme.UK, None)),
    ("E-0123", Number(CertificateScheme.OTHER)),
    (None, Number(CertificateScheme.OTHER)),
]


@pytest.mark.parametrize(("text", "expected"), NUMBERS)
def test_certificate_numbers(text: str | None, expected: Number) -> None:
    assert read_number(Evidence(EvidenceType.CERTIFICATE, number=text)) == expected


FORMS = [
    ("II 3G Ex nA IIC T4 Gc", "placed_on_market: 2025-01-01", U),
    ("II 3G Ex nA IIC T4 Gc", "placed_on_market: 2016-01-01", P),
    ("II 3G Ex nA IIC T4 Gc", "in_service: true", P),
    ("II 3G Ex nA IIC T4 Gc", "in_service: true, placed_on_market: 2025-01-01", U),
    ("II 2G EEx ia IIC T4", "in_service: false", U),
    ("II 2G EEx ia IIC T4", "placed_on_market: 2005-01-01", P),
    ("II 2D Ex tD A21 IP65 T80°C", "placed_on_market: 2020-01-01", U),
    ("II 2G Ex eb IIC T4 Gb", "in_service: false", Verdict.NOT_APPLICABLE),
]


@pytest.mark.parametrize(("marking", "since", "expected"), FORMS)
def test_old_forms_on_new_parts(say: Say, marking: str, since: str, expected: Verdict) -> None:
    """2014/34/EU Art. 12: presumption by the harmonised standards; years from memory."""
    part = f"kind: electrical, marking: '{marking}', {since}"
    assert say("superseded-marking", part, "area: 'Zone 2, IIB, T3'", "ATEX") is expected
    assert say("superseded-marking", part, "area: 'Zone 2, IIB, T3'") is Verdict.NOT_APPLICABLE


def test_an_old_mechanical_marking_on_a_new_part(say: Say) -> None:
    part = "kind: mechanical, marking: II 2G c IIB T4"
    assert say("superseded-marking", f"{part}, placed_on_market: 2025-01-01", Z1, "ATEX") is U
    assert say("superseded-marking", f"{part}, placed_on_market: 2015-01-01", Z1, "ATEX") is P


def test_an_old_form_is_pointed_at_where_it_stands(judged: Callable[..., Any]) -> None:
    text = (
        "areafit: 1\nassembly: {{number: T}}\ncode: ATEX\n"
        "locations: {{a: {{area: 'Zone 2, IIB, T3'}}}}\n"
        "parts:\n  - {{item: '1', location: a, kind: electrical, marking: {}}}\n"
    )
    for marking, path in (
        ("'II 2G EEx ia IIC T4'", "parts/0/marking"),
        ("['II 2G Ex ia IIC T4 Gb', 'II 2G EEx ia IIC T4']", "parts/0/marking/1"),
    ):
        (part,) = judged(text.format(marking), only=frozenset({"superseded-marking"})).parts
        (finding,) = part.findings()
        assert finding.path == path
        assert finding.reason is Reason.FACT_MISSING


DOCUMENTS = [
    ("kind: mechanical, evidence: [{type: assessment, number: IHA-1}]", P),
    ("kind: mechanical, evidence: [{type: assessment}]", U),
    ("kind: mechanical, evidence: [{type: assessment, number: TBD}]", U),
    ("kind: mechanical, evidence: [{type: assessment}, {type: assessment, number: A-1}]", P),
    ("kind: structural, evidence: [{type: test report, number: to be confirmed}]", U),
    ("kind: electrical, marking: Ex db IIB T4 Gb, evidence: [{type: test report}]", U),
    (
        "kind: electrical, marking: Ex db IIB T4 Gb, evidence: [{type: certificate}]",
        Verdict.NOT_APPLICABLE,
    ),
    ("kind: mechanical", Verdict.NOT_APPLICABLE),
]


@pytest.mark.parametrize(("part", "expected"), DOCUMENTS)
def test_documents_have_a_number(say: Say, part: str, expected: Verdict) -> None:
    """Common practice, no source; what stands behind a marking is left to `evidence`."""
    assert say("document-number", part, Z1) is expected
    assert say("document-number", part, "area: unclassified") is Verdict.NOT_APPLICABLE


CONDITIONS = [
    (
        "marking: Ex mb IIC T4 Gb X",
        (
            "{type: certificate, number: IECEx ABC 21.0001X, conditions: "
            "[{text: a, met_by: b, document: to follow}]}"
        ),
        U,
    ),
    ("marking: Ex mb IIC T4 Gb X", "{type: certificate, number: IECEx ABC 21.0001X}", U),
    (
        "marking: Ex mb IIC T4 Gb X",
        "{type: certificate, number: IECEx ABC 21.0001, conditions: none}",
        U,
    ),
    (
        "marking: Ex mb IIC T4 Gb",
        "{type: certificate, number: IECEx ABC 21.0001, conditions: [{text: a, met_by: b}]}",
        U,
    ),
    (
        "marking: Ex mb IIC T4 Gb",
        (
            "{type: certificate, number: IECEx ABC 21.0001, conditions: "
            "[{text: a, met_by: b, document: c}, {text: d, met: false}]}"
        ),
        F,
    ),
]


@pytest.mark.parametrize(("part", "documents", "expected"), CONDITIONS)
def test_conditions(say: Say, part: str, documents: str, expected: Verdict) -> None:
    text = f"kind: electrical, {part}, evidence: [{documents}]"
    assert say("special-conditions", text, Z1) is expected


def test_who_sells_the_part_is_asked_for_its_conditions_and_its_designer_how_they_are_met() -> None:
    """IEC 60079-0:2017 29.3 e), from memory: they stand in the certificate, not on the plate."""
    open_one = Condition("a fuse of 1 A")
    judged = SPECIAL_CONDITIONS.judge
    assert judged(SpecialConditions(None)).answer_by is Role.SUPPLIER
    assert judged(SpecialConditions((open_one,))).answer_by in (None, Role.DESIGNER)
    assert SPECIAL_CONDITIONS.answer_by is Role.DESIGNER


def test_a_marking_that_cannot_be_read_is_unproven_once(say: Say) -> None:
    assert say("marking-consistency", "kind: electrical, marking: T4") in (U, F)
    assert say("marking-consistency", "kind: electrical, marking: quasi") is U
    two = "kind: electrical, marking: [Ex db IIC T4 Gb, Ex db IIC T7 Gb]"
    assert say("marking-consistency", two) is F


KINDS = [
    ("kind: [electrical, mechanical], marking: Ex h IIB T4 Gb", P),
    ("kind: electrical, marking: Ex h IIB T4 Gb", F),
    ("kind: simple apparatus", P),
    ("kind: mechanical, electrical_content: limit switch", P),
    ("kind: mechanical, marking: Ex h IIB T4 Gb", U),
    ("kind: structural", P),
    ("kind: loose item", U),
]


@pytest.mark.parametrize(("part", "expected"), KINDS)
def test_kinds(say: Say, part: str, expected: Verdict) -> None:
    assert say("kind", part, Z1) is expected
    assert say("kind", part, "area: unclassified") is Verdict.NOT_APPLICABLE


@pytest.mark.parametrize(
    ("marking", "level", "expected"),
    [
        ("[Ex db IIB T4 Gb, Ex h IIB T4 Gc]", "Gc", P),  # each half by its own plate
        ("[Ex db IIB T4 Gb, Ex h IIB T4 Gb]", "Gc", F),
        ("Ex db h IIB T4 Gb", "Gc", F),
        ("Ex h IIB T4 Gc", "Gb", P),
    ],
)
def test_an_assessment_is_held_to_the_plate_of_what_moves(
    say: Say, marking: str, level: str, expected: Verdict
) -> None:
    """ISO 80079-36:2016 5, from memory: it is of the ignition sources of what is not electrical."""
    papers = (
        "[{type: certificate, number: IECEx ABC 21.0001}, "
        f"{{type: assessment, number: IHA-1, level: {level}}}]"
    )
    part = f"kind: [electrical, mechanical], marking: {marking}, evidence: {papers}"
    assert say("evidence", part, "area: 'Zone 2, IIB, T3'") is expected
