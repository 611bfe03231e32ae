"""What is certified stands in the certificate, listing or on the plate of this equipment.

IEC 60079-0:2017 5.1.1, 29.3 and NFPA 70-2023 500.8(C)(5), from memory, as are the cases.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]

HOT = "area: 'Zone 1, IIB, T3', ambient: 0..60 °C"
PART = "kind: electrical, part_number: A, marking: {}, ambient: -20..70 °C, evidence: [{}]"
EX = "Ex db IIC T4 Gb"
OWN = "{type: certificate, number: IECEx ABC 21.0001}"
WIDE = "ambient: -40..70 °C"
NO_PROOF = [
    "{type: certificate, number: IECEx ABC 22.0009, covers: ZZ, ambient: -40..70 °C}",
    "{type: certificate, number: to follow, ambient: -40..70 °C}",
    "{type: certificate, ambient: -40..70 °C}",
    "{type: certificate, number: IECEx A 1, valid_until: 2020-01-01, ambient: -40..70 °C}",
    "{type: test report, number: TR-1, ambient: -40..70 °C}",
    "{type: assessment, number: IHA-1, ambient: -40..70 °C}",
    "{type: declaration, number: DC-1, ambient: -40..70 °C}",
    "{type: material certificate, number: '3.1', ambient: -40..70 °C}",
    "{type: control drawing, number: CD-1, ambient: -40..70 °C}",
]


@pytest.mark.parametrize("document", NO_PROOF)
def test_what_certifies_nothing_widens_no_range(say: Say, document: str) -> None:
    assert say("ambient-range", PART.format(EX, f"{OWN}, {document}"), HOT) is F
    process = document.replace("ambient:", "process_temperature:")
    probe = f"{PART.format(EX, f'{OWN}, {process}')}, materials: [{{material: '316', "
    probe += "exposure: immersed}]"
    warm = "area: 'Zone 1, IIA, T3', substances: [{name: toluene, temperature: 55 °C}]"
    assert say("process-temperature", probe, warm) is U
    narrow = document.replace("-40..70 °C", "0..40 °C")
    certified = "{type: certificate, number: IECEx ABC 21.0001, ambient: -40..70 °C}"
    assert say("ambient-range", PART.format(EX, certified), HOT) is P
    assert say("ambient-range", PART.format(EX, f"{certified}, {narrow}"), HOT) is F


def test_what_certifies_does(say: Say) -> None:
    listed = "{{type: listing, number: E-1, {}ambient: -40..70 °C}}"
    nec = "area: 'Class I, Division 1, Group D', ambient: 0..60 °C"
    division = "'Class I, Division 1, Group D T4'"
    assert say("ambient-range", PART.format(division, listed.format("")), nec, "NEC") is P
    assert (
        say("ambient-range", PART.format(division, listed.format("covers: ZZ, ")), nec, "NEC") is F
    )
    foreign = f"{{type: certificate, number: IECEx ABC 21.0001, {WIDE}}}"
    assert say("ambient-range", PART.format(division, foreign), nec, "NEC") is F

    declared = f"{{type: declaration, number: DC-1, {WIDE}}}"
    zone_2 = "area: 'Zone 2, IIB, T3', ambient: 0..60 °C"
    for marking, verdict in (
        ("II 3G Ex ec IIC T4 Gc", P),
        ("II 2G Ex db IIC T4 Gb", F),  # a notified body certified it (2014/34/EU Art. 13)
    ):
        assert say("ambient-range", PART.format(marking, declared), zone_2, "ATEX") is verdict
    assert say("ambient-range", PART.format("II 2G Ex db IIC T4 Gb", foreign), zone_2, "ATEX") is F
    pump = f"kind: mechanical, marking: II 2G Ex h IIC T4 Gb, evidence: [{declared}]"
    assert say("ambient-range", pump, zone_2, "ATEX") is P  # only its maker declares it


def test_placed_on_the_market_while_it_was_valid(say: Say) -> None:
    old = f"{{type: certificate, number: IECEx A 1, valid_until: 2020-01-01, {WIDE}}}"
    placed = f"{PART.format(EX, old)}, placed_on_market: 2019-01-01"
    assert say("ambient-range", placed, HOT) is P


def test_an_unmarked_part_is_not_proven_by_a_test_report(say: Say) -> None:
    part = "kind: electrical, marking: none, evidence: [{type: test report, number: T-1, ambient: "
    assert say("ambient-range", f"{part}-40..70 °C}}]", HOT) is U
    assert say("ambient-range", f"{part}0..40 °C}}]", HOT) is F


def test_a_document_that_certifies_nothing_asks_no_range_of_a_fixed_part(say: Say) -> None:
    """It counts against the part only; nobody certifies a bracket for a range."""
    part = "kind: structural, evidence: [{type: control drawing, number: CD-1, ambient: "
    assert say("ambient-range", f"{part}-40..70 °C}}]", HOT) is Verdict.NOT_APPLICABLE
    assert say("ambient-range", f"{part}0..40 °C}}]", HOT) is F
