"""A gland is equipment too: its range, its X, and adapters without one, all from memory.

IEC 60079-0:2017 5.1.1, 29.3 e); IEC 60079-14:2013 10.2.
"""

from collections.abc import Callable

import pytest

from areafit.verdict import Verdict

P, F, U = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN
Say = Callable[..., Verdict]
BOX = "kind: electrical, marking: Ex db IIC T4 Gb -50 °C ≤ Ta ≤ +60 °C, entries: [{}]"
FITTING = "{{type: {}, marking: {}, thread: M20, hole: M20, ingress: IP66{}}}"
PLACE = "area: 'Zone 1, IIB, T3', ambient: {}"


def gland(marking: str, more: str = "", kind: str = "cable gland") -> str:
    return FITTING.format(kind, marking, more)


@pytest.mark.parametrize(
    ("marking", "ambient", "expected"),
    [
        ("Ex db IIC Gb", "-20..40 °C", P),
        ("Ex db IIC Gb", "0..60 °C", U),
        ("Ex db IIC Gb", "-50..40 °C", U),
        ("Ex db IIC Gb -20 °C ≤ Ta ≤ +40 °C", "0..60 °C", F),
        ("Ex db IIC Gb -60 °C ≤ Ta ≤ +100 °C", "-50..60 °C", P),
    ],
)
def test_the_range_of_a_gland(say: Say, marking: str, ambient: str, expected: Verdict) -> None:
    assert say("cable-entry", BOX.format(gland(marking)), PLACE.format(ambient)) is expected


@pytest.mark.parametrize(
    ("conditions", "expected"),
    [
        ("", U),
        (", conditions: none", U),
        (", conditions: [fix the cable]", U),
        (", conditions: [{text: fix the cable, met: false}]", F),
        (", conditions: [{text: fix the cable, met_by: clamp, document: tbd}]", U),
        (", conditions: [{text: fix the cable, met_by: clamp, document: D-1}]", P),
    ],
)
def test_the_x_of_a_gland(say: Say, conditions: str, expected: Verdict) -> None:
    part = BOX.format(gland("Ex db IIC Gb X", conditions))
    assert say("cable-entry", part, PLACE.format("0..40 °C")) is expected


def test_an_adapter_closes_nothing(say: Say) -> None:
    adapter, own = gland("Ex db IIC Gb", kind="adapter"), gland("Ex db IIC Gb")
    plug = gland("Ex db IIC Gb", kind="plug")
    for fittings, expected in (
        ((adapter,), U),
        ((adapter, own), P),
        ((adapter, adapter, own), U),
        ((adapter, adapter, own, plug), P),
    ):
        part = BOX.format(", ".join(fittings))
        assert say("cable-entry", part, PLACE.format("0..40 °C")) is expected
