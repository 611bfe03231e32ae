"""Documents as a second reader sees them."""

from collections.abc import Callable

import pytest

from areafit.rule import Judgement
from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Ask = Callable[..., Judgement]

_MET = "conditions: [{text: guard, met_by: cover, document: DN-1, role: designer}]"
_LISTED = f"{{type: certificate, number: IECEx ABC 21.0001X, {_MET}}}"
_BROKEN = _LISTED.replace("met_by: cover", "met: false")
_OTHER_X = "{type: certificate, number: ABC 21 ATEX 0002 X}"
_PLAIN = "{type: certificate, number: ABC 21 ATEX 0002}"


@pytest.mark.parametrize(
    ("documents", "verdict"),
    [
        (_LISTED, P),
        (f"{_LISTED}, {_OTHER_X}", U),
        (f"{_LISTED}, {_PLAIN}", P),
        (f"{_BROKEN}, {_OTHER_X}", F),
    ],
)
def test_every_x_certificate_lists_its_own_conditions(
    ask: Ask, documents: str, verdict: Verdict
) -> None:
    # IEC 60079-0:2017 29.3 e), from memory: the X refers to the conditions of that certificate
    part = f"kind: electrical, marking: Ex mb IIC T4 Gb, evidence: [{documents}]"
    assert ask("special-conditions", part, "area: 'Zone 1, IIB, T3'").verdict is verdict


@pytest.mark.parametrize(
    ("marking", "documents", "verdict"),
    [
        ("Ex mb IIC T4 Gb", "{type: certificate, number: IECEx ABC 21.0001, conditions: none}", N),
        ("Ex mb IIC T4 Gb X", "{type: certificate, number: C-1, conditions: none}", U),
    ],
)
def test_conditions_said_to_be_none(
    ask: Ask, marking: str, documents: str, verdict: Verdict
) -> None:
    # IEC 60079-0:2017 29.3 e): without an X there is nothing to meet
    part = f"kind: electrical, marking: {marking}, evidence: [{documents}]"
    assert ask("special-conditions", part, "area: 'Zone 1, IIB, T3'").verdict is verdict


_PART = "kind: {}, part_number: PN-100, marking: {}, evidence: [{{type: {}, number: N-1{}}}]"


@pytest.mark.parametrize(
    ("covers", "verdict"),
    [
        ("", P),
        (", covers: PN-100", P),
        (", covers: 'PN-099, pn-100 and PN-101'", P),
        (", covers: PN-1001", U),
        (", covers: PN-10", U),
    ],
)
def test_a_document_for_other_part_numbers_shows_nothing(
    ask: Ask, covers: str, verdict: Verdict
) -> None:
    # 29 CFR 1910.307(c): the listing is that of the equipment, and names it (common practice)
    place = "area: 'Class I, Division 1, Group D'"
    part = _PART.format("electrical", "'Class I, Division 1, Group D T4'", "listing", covers)
    said = ask("evidence", part, place, "NEC")
    assert said.verdict is verdict, said.message
    assert verdict is P or covers.removeprefix(", covers: ") in said.message
    part = _PART.format("mechanical", "none", "assessment", covers)
    assert ask("ignition-hazard", part, place, "NEC").verdict is verdict


def test_a_line_without_a_number_is_named_by_no_document(ask: Ask) -> None:
    """Common practice, no source: else the number is left out where the document is another's."""
    part = _PART.format("electrical", "Ex db IIB T4 Gb", "certificate", ", covers: PN-100")
    place = "area: 'Zone 1, IIB, T3'"
    assert ask("evidence", part, place).verdict is P
    unnamed = part.replace("part_number: PN-100, ", "")
    assert ask("evidence", unnamed, place).verdict is U
    assert ask("evidence", unnamed.replace(", covers: PN-100", ""), place).verdict is P


def test_an_alternate_needs_a_document_that_names_it(ask: Ask) -> None:
    part = _PART.format("electrical", "Ex db IIB T4 Gb", "certificate", ", covers: PN-100")
    place = "area: 'Zone 1, IIB, T3'"
    assert ask("evidence", part, place).verdict is P
    assert ask("evidence", f"{part}, alternates: [{{part_number: PN-200}}]", place).verdict is U
    both = part.replace("covers: PN-100", "covers: PN-100 / PN-200")
    assert ask("evidence", f"{both}, alternates: [{{part_number: PN-200}}]", place).verdict is P


@pytest.mark.parametrize(
    ("alternate", "verdict"),
    [
        ("part_number: B", U),
        ("description: Instrument of another maker", U),
        ("part_number: B, marking: Ex db IIB T4 Gb", U),
        ("part_number: B, evidence: [{type: certificate, number: IECEx ABC 22.0002}]", P),
        ("part_number: PN-1", P),  # the same part
        ("ingress: IP66", P),
    ],
)
def test_another_part_is_not_proven_by_the_line(ask: Ask, alternate: str, verdict: Verdict) -> None:
    """A certificate is for the equipment that it names: IEC 60079-0:2017 28, from memory."""
    part = (
        "kind: electrical, part_number: PN-1, description: Instrument, marking: Ex db IIB T4 Gb, "
        "evidence: [{type: certificate, number: IECEx ABC 21.0001}], "
        f"alternates: [{{{alternate}}}]"
    )
    assert ask("evidence", part, "area: 'Zone 1, IIB, T3'").verdict is verdict


def test_another_document_that_serves_is_enough(ask: Ask) -> None:
    documents = "{type: certificate, number: A-1, covers: PN-7}, {type: certificate, number: B-1}"
    part = f"kind: electrical, part_number: PN-1, marking: Ex db IIB T4 Gb, evidence: [{documents}]"
    assert ask("evidence", part, "area: 'Zone 1, IIB, T3'").verdict is P
    useless = part.replace("certificate", "test report")
    assert ask("evidence", useless, "area: 'Zone 1, IIB, T3'").verdict is U
