"""A part immersed in a warm process: IEC 60079-0:2017 5.1.2, from memory, as are the cases."""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]

PLACE = "area: 'Zone 1, IIA, T3', substances: [{{name: toluene, temperature: {}}}], {}"
NO_CHEMICALS = "chemicals: none"
HOT_LYE = "chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 55 °C}]"
PROBE = "kind: electrical, marking: {}, materials: [{{material: '316', exposure: {}{}}}]"
CASES = [
    ("Ex ia IIC T4 Ga", "immersed", "40 °C", P),
    ("Ex ia IIC T4 Ga", "immersed", "41 °C", U),
    ("Ex ia IIC T4 Ga", "immersed", "-30..20 °C", U),  # external cooling counts as well
    ("Ex ia IIC T4 Ga -20 °C ≤ Ta ≤ +60 °C", "immersed", "20..55 °C", P),
    ("Ex ia IIC T6 (Ta ≤ 40 °C) T4 (Ta ≤ 60 °C) Ga", "immersed", "20..55 °C", P),
    ("Ex h IIB T4 Gb", "immersed", "55 °C", U),
    ("Ex ia IIC T4 Ga", "room", "55 °C", N),
    ("'[Ex ia Ga] IIC'", "immersed", "55 °C", N),
    ("none", "immersed", "55 °C", N),
]


@pytest.mark.parametrize(("marking", "exposure", "heat", "expected"), CASES)
def test_a_warm_process_asks_for_its_temperature(
    say: Say, marking: str, exposure: str, heat: str, expected: Verdict
) -> None:
    part = PROBE.format(marking, exposure, "")
    assert say("process-temperature", part, PLACE.format(heat, NO_CHEMICALS)) is expected


def _documented(*entries: str) -> str:
    documents = ", ".join(
        f"{{type: certificate, number: C-{i}, {e}}}" for i, e in enumerate(entries)
    )
    return f"{PROBE.format('Ex ia IIC T4 Ga', 'immersed', '')}, evidence: [{documents}]"


def test_documents_say_what_is_allowed(say: Say) -> None:
    warm = PLACE.format("55 °C", NO_CHEMICALS)
    rule, allow = "process-temperature", "process_temperature: {}"
    assert say(rule, _documented(allow.format("0..80 °C")), warm) is P
    assert say(rule, _documented(allow.format("0..50 °C")), warm) is F
    assert say(rule, _documented(allow.format("0..80 °C"), allow.format("0..50 °C")), warm) is F
    assert say(rule, _documented("ambient: -20..60 °C"), warm) is P  # the Ta of the certificate


def test_what_the_surface_meets(say: Say) -> None:
    place = PLACE.format("20 °C", HOT_LYE)
    rule = "process-temperature"

    def probe(more: str) -> str:
        return PROBE.format("Ex ia IIC T4 Ga", "immersed", more)

    assert say(rule, probe(""), place) is U
    assert say(rule, probe(", to: [toluene]"), place) is P
    assert say(rule, probe(", to: [sodium hydroxide]"), place) is U
    assert say(rule, probe(", to: [toluene, what nobody lists]"), place) is U
    unstated = "area: 'Zone 1, IIA, T3', substances: [{name: toluene, temperature: 55 °C}]"
    assert say(rule, probe(""), unstated) is U
    both = PLACE.format("55 °C", "chemicals: [{name: toluene, temperature: 20 °C}]")
    assert say(rule, probe(""), both) is U
    outside = "area: unclassified, substances: [{name: toluene, temperature: 55 °C}]"
    assert say(rule, probe(""), outside) is N


def test_plates_that_have_no_range_in_common(say: Say) -> None:
    part = PROBE.format(
        "['Ex ia IIC T4 Ga -40 °C ≤ Ta ≤ +10 °C', 'Ex ia IIC T4 Ga 20 °C ≤ Ta ≤ +60 °C']",
        "immersed",
        "",
    )
    assert say("process-temperature", part, PLACE.format("25 °C", NO_CHEMICALS)) is U


@pytest.mark.parametrize(
    ("marking", "document", "process", "verdict"),
    [
        # no Ta on the plate: that of the certificate counts, not the default of the standard
        ("Ex ia IIC T4 Ga", ", ambient: -40..60 °C", "55 °C", Verdict.PASS),
        ("Ex ia IIC T4 Ga", ", ambient: -40..60 °C", "-35 °C", Verdict.PASS),
        ("Ex ia IIC T4 Ga", ", ambient: -40..60 °C", "61 °C", Verdict.UNPROVEN),
        ("Ex ia IIC T4 Ga", "", "55 °C", Verdict.UNPROVEN),
        ("Ex ia IIC T4 Ga", "", "39 °C", Verdict.PASS),
        ("Ex ia IIC T4 Ga", ", ambient: 0..30 °C", "39 °C", Verdict.UNPROVEN),
        # a document that certifies nothing never widens
        ("Ex ia IIC T4 Ga", ", ambient: -40..60 °C, valid_until: 2020-01-01", "55 °C", None),
        # a printed Ta is narrowed by the certificate and never widened
        ("Ex ia IIC T4 Ga -20°C ≤ Ta ≤ +50°C", ", ambient: -40..60 °C", "55 °C", Verdict.UNPROVEN),
        ("Ex ia IIC T4 Ga -40°C ≤ Ta ≤ +60°C", ", ambient: -20..50 °C", "55 °C", Verdict.UNPROVEN),
        ("Ex ia IIC T4 Ga -40°C ≤ Ta ≤ +60°C", "", "55 °C", Verdict.PASS),
        # what the process may be is another limit
        (
            "Ex ia IIC T4 Ga",
            ", ambient: -40..60 °C, process_temperature: -40..150 °C",
            "90 °C",
            Verdict.PASS,
        ),
        (
            "Ex ia IIC T4 Ga",
            ", ambient: -40..60 °C, process_temperature: -40..80 °C",
            "90 °C",
            Verdict.FLAG,
        ),
    ],
)
def test_the_ta_of_the_certificate_counts_where_none_is_printed(
    say: Callable[..., Verdict],
    marking: str,
    document: str,
    process: str,
    verdict: Verdict | None,
) -> None:
    # IEC 60079-0:2017 5.1.1, 29.3: the Ta stands on the plate or in the certificate, from memory
    part = (
        f"kind: electrical, marking: {marking}, evidence: [{{type: certificate, number: IECEx "
        f"ABC 21.0001{document}}}], materials: [{{component: probe, material: '316', "
        "exposure: immersed}]"
    )
    place = (
        f"area: 'Zone 1, IIA, T3', substances: [{{name: toluene, temperature: {process}}}], "
        "ambient: 5..40 °C, chemicals: none"
    )
    assert say("process-temperature", part, place) is (verdict or Verdict.UNPROVEN)
