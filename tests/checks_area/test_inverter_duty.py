"""Motors fed by an inverter: only a document that speaks of the inverter covers it.

IEC 60079-14:2013 5.11 and IEC 60079-0:2017 29.15, from memory.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, U, N = Verdict.PASS, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
ZONE = "area: 'Zone 1, IIB, T3'"
FED = "kind: electrical, marking: Ex db IIC T4 Gb X, inverter_fed: true"
COVERED = "text: operation at a frequency converter, met_by: thermistors, document: CD-5"
CONDITIONS = [
    (COVERED, P),
    ("text: Variable speed drive only with PTC, met_by: relay, document: CD-5", P),
    ("text: Only with servo drive of series 9, met_by: item 10, document: CD-5", P),
    ("text: Suitable for VFD duty 6 to 60 Hz, met_by: parameter set 4, document: CD-5", P),
    ("text: variable-frequency operation 10 to 60 Hz, met_by: limits, document: CD-5", P),
    ("text: protect from impact, met_by: guard, document: CD-5", U),
    ("text: only for belt drives with guard, met_by: guard, document: CD-5", U),
    ("text: operation at a frequency converter, met_by: thermistors", U),
    ("text: operation at a frequency converter, met_by: thermistors, document: tbd", U),
    ("text: operation at a frequency converter, document: CD-5", U),
    (f"{COVERED}, met: false", U),
    ("text: operation at a frequency converter, met_by: tbd, document: CD-5", U),
    *(
        (f"text: {text}, met_by: instruction, document: CD-5", U)
        for text in (
            "operation at a frequency converter is not permitted",
            "the motor shall not be fed by an inverter",
            "not for variable speed drives",
            "frequency converter excluded",
            "never at an inverter",
            "No converter",
            "without inverter",
            "mains operation only and no inverter",
            "frequency converters are prohibited",
            "it mustn't be fed by an inverter",
        )
    ),
]


@pytest.mark.parametrize(("condition", "expected"), CONDITIONS)
def test_conditions(say: Callable[..., Verdict], condition: str, expected: Verdict) -> None:
    document = f"{{type: certificate, number: IECEx ABC 21.0001X, conditions: [{{{condition}}}]}}"
    assert say("inverter-duty", f"{FED}, evidence: [{document}]", ZONE) is expected


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        (FED, U),
        (FED.replace("true", "false"), N),
        ("kind: electrical, marking: Ex db IIC T4 Gb, description: Motor 4 kW", U),
        ("kind: electrical, marking: Ex db IIC T4 Gb, device: squirrel-cage motor", U),
        (
            "kind: electrical, marking: Ex db IIC T4 Gb, description: Motor, inverter_fed: false",
            P,
        ),
        ("kind: electrical, marking: Ex db IIC T4 Gb, description: Motor pump", U),
        ("kind: electrical, marking: Ex db IIC T4 Gb, description: Servomotor", U),
        ("kind: electrical, marking: Ex db IIC T4 Gb, description: Motorkugelhahn", N),
        ("kind: electrical, marking: Ex db IIC T4 Gb, description: Junction box", N),
        ("kind: electrical, marking: none, inverter_fed: true", N),
    ],
)
def test_which_parts_are_asked(say: Callable[..., Verdict], part: str, expected: Verdict) -> None:
    assert say("inverter-duty", part, ZONE) is expected


def test_a_document_for_other_part_numbers_covers_nothing(say: Callable[..., Verdict]) -> None:
    document = (
        "{type: certificate, number: IECEx ABC 21.0001X, covers: PN-9, "
        f"conditions: [{{{COVERED}}}]}}"
    )
    part = f"{FED}, part_number: PN-1, evidence: [{document}]"
    assert say("inverter-duty", part, ZONE) is U


def test_one_denial_voids_what_else_permits(say: Callable[..., Verdict]) -> None:
    denial = "text: not for a frequency converter in Zone 1, met_by: instruction, document: CD-5"
    document = (
        "{type: certificate, number: IECEx ABC 21.0001X, "
        f"conditions: [{{{COVERED}}}, {{{denial}}}]}}"
    )
    assert say("inverter-duty", f"{FED}, evidence: [{document}]", ZONE) is U


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("only with drives of series 9", P),
        ("suitable for PWM operation, 6 to 60 Hz", P),
        ("guard the drive shaft", U),
        ("protect the drive end from impact", U),
        ("not with drives of series 9", U),
    ],
)
def test_a_drive_is_told_from_a_shaft(
    say: Callable[..., Verdict], text: str, expected: Verdict
) -> None:
    """What North American listings call a drive; common practice, no source."""
    met = "met_by: drive of series 9, document: DN-1, role: designer"
    number = "type: certificate, number: IECEx ABC 21.0001X"
    document = f"{{{number}, conditions: [{{text: '{text}', {met}}}]}}"
    assert say("inverter-duty", f"{FED}, evidence: [{document}]", ZONE) is expected
