"""What is taken for a certificate and is none: forms of numbers and scopes from memory.

IEC 60079-14:2013 4.4, IECEx 02, 2014/34/EU Annexes III, IV, VII, NFPA 70-2023 500.8(A).
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
IEC = "kind: electrical, marking: Ex db IIC T4 Gb, evidence: [{}]"
ATEX = "kind: electrical, marking: II 2G Ex db IIC T4 Gb, evidence: [{}]"
NEC = "kind: electrical, marking: 'Class I, Division 1, Group D T4', evidence: [{}]"
ZONE, DIVISION = "area: 'Zone 1, IIB, T3'", "area: 'Class I, Division 1, Group D'"
DECLARED = "{type: declaration, number: DC-1}"
NUMBERS = [
    ("IECEx ABC 21.0001", P),
    ("NAT 21.0001", P),  # a national one
    ("IECEx QAR NL/ABC 21.0001", F),
    ("NL/ABC/QAR21.0001/00", F),
    ("IECEx ExTR 21.0001", F),
    ("NL/ABC/ExTR21.0001/00", F),
    ("ISO 9001 cert 123", F),
    ("CE 0123", F),
    ("CE", U),
    ("see folder", U),
    ("yes", U),
    ("x", U),
    ("1", U),
]


@pytest.mark.parametrize(("number", "expected"), NUMBERS)
def test_numbers(say: Say, number: str, expected: Verdict) -> None:
    document = f"{{type: certificate, number: {number!r}}}"
    assert say("evidence", IEC.format(document), ZONE) is expected
    beside = f"{document}, {{type: certificate, number: IECEx ABC 21.0009}}"
    assert say("evidence", IEC.format(beside), ZONE) is P


@pytest.mark.parametrize(
    ("number", "expected"),
    [
        ("ABC 21 ATEX 0001", P),
        ("ABC 21 ATEX 0001 CE", P),  # the certificate is named beside
        ("ABC 21 ATEX Q 0001", F),
        ("ABC 21 ATEX QAN 0001", F),
        ("ISO 9001:2015", F),
        ("MD-42", U),
    ],
)
def test_numbers_in_europe(say: Say, number: str, expected: Verdict) -> None:
    document = f"{{type: certificate, number: '{number}'}}"
    assert say("evidence", ATEX.format(f"{DECLARED}, {document}"), ZONE, "ATEX") is expected


@pytest.mark.parametrize(
    ("standard", "expected"),
    [
        ("UL 508", F),
        ("UL508A", F),
        ("UL 61010-1", F),
        ("UL 508 and UL 61010-1", F),
        ("UL 1203", P),
        ("UL 61010-1; UL 121201", P),
        ("UL 5085", P),  # another standard, which nothing is known of
    ],
)
def test_standards_for_ordinary_locations(say: Say, standard: str, expected: Verdict) -> None:
    document = f"{{type: listing, number: E-1, standard: '{standard}'}}"
    assert say("evidence", NEC.format(document), DIVISION, "NEC") is expected


@pytest.mark.parametrize("standard", ["IEC 61010-1", "EN 60204-1:2018", "IEC 60947-5-1"])
def test_ordinary_standards_of_a_certificate(say: Say, standard: str) -> None:
    document = f"{{type: certificate, number: N-10, standard: '{standard}'}}"
    assert say("evidence", IEC.format(document), ZONE) is F


def test_such_documents_set_no_ambient(say: Say) -> None:
    hot = "area: 'Zone 1, IIB, T3', ambient: 0..60 °C"
    for document in ("number: IECEx QAR 1", "number: N-10, standard: IEC 61010-1"):
        part = IEC.format(f"{{type: certificate, {document}, ambient: 0..70 °C}}")
        assert say("ambient-range", part, hot) is F
