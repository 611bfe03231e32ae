"""The JSON document of a decoded marking, and levels of codes built by hand."""

import json
from decimal import Decimal
from typing import Any

import pytest

from areafit.facts.marking import Code
from areafit.facts.protection import Hazard, Level, MarkingSystem
from areafit.marking import decode, effective_level
from areafit_cli.__main__ import run

Capture = pytest.CaptureFixture[str]

REQUIRED = {
    "class": None,
    "division": None,
    "zone": None,
    "category": "2G",
    "protection": ["eb"],
    "groups": ["IIC"],
    "temperature_class": "T4",
    "maximum_surface_temperature_c": 135,
    "epl": "Gb",
    "ambient_c": [-20, 50],
    "associated": False,
    "equipment": "electrical",
    "suffix": "X",
}


def document(capsys: Capture, text: str) -> dict[str, Any]:
    run(["marking", text, "--format", "json"])
    read = json.loads(capsys.readouterr().out)
    assert isinstance(read, dict)
    assert read["text"] == text
    return read


def test_a_zone_code_as_the_contract_has_it(capsys: Capture) -> None:
    found = document(capsys, "II 2 (1) G Ex eb [ia Ga] IIC T4 Gb Ta -20..50 X")
    assert found["system"] == "ATEX"
    assert found["problems"] == []
    assert REQUIRED.items() <= found["parts"][0].items()
    assert found["parts"][0]["outputs"] == [
        {"protection": ["ia"], "groups": ["IIC"], "epl": "Ga", "divisions": []}
    ]


def test_a_division_code_says_its_class_and_leaves_the_rest_null(capsys: Capture) -> None:
    part = document(capsys, "Class I, Divisions 1 and 2, Groups C, D")["parts"][0]
    assert (part["class"], part["division"], part["divisions"]) == ("I", 1, [1, 2])
    for name in ("zone", "category", "epl", "temperature_class", "ambient_c", "suffix", "purge"):
        assert part[name] is None


def test_classes_by_ambient_are_listed_and_the_hottest_is_claimed(capsys: Capture) -> None:
    text = "Ex h IIC T6 (Ta<=40) T4 (Ta<=60) Ga/Gb"
    part = document(capsys, text)["parts"][0]
    assert part["temperature_class"] == "T4"
    assert [row["ambient_c"] for row in part["temperatures"]] == [[-20, 40], [-20, 60]]
    assert part["inner_epl"] == "Ga"
    assert effective_level(decode(text).codes[0]) is Level.GB
    assert part["equipment"] == "non-electrical"


def test_problems_and_broken_figures(capsys: Capture) -> None:
    found = document(capsys, "Type Z purged, bla, Class I, Division 2, 131.5 °F")
    assert found["parts"][0]["maximum_surface_temperature_c"] == float(Decimal("55.28"))
    assert found["parts"][0]["purge"] == "Z"
    assert found["problems"][0]["unread"] is True
    assert document(capsys, "bla")["system"] is None


def test_a_type_that_is_none_promises_nothing() -> None:
    code = Code(MarkingSystem.IEC, Hazard.GAS, protection=("db", "zz"), level=Level.GB)
    assert effective_level(code) is None


@pytest.mark.parametrize(
    ("plate", "told"),
    [
        ("II 2G/- Ex h IIB T4 Gb", "no protection on the side of the place around it"),
        ("II -/2G Ex h IIB T4 Gb", "no protection on the side of the process"),
        ("II 1/2G Ex h IIB T4 Ga/Gb", "towards the process 1G"),
        ("Ex db IIC T6 Ga/Gb", "towards the process Ga"),
    ],
)
def test_both_sides_of_a_pair_are_told(capsys: Capture, plate: str, told: str) -> None:
    """EN 14986:2017 7, IEC 60079-26:2014, from memory: the first half is that of the process."""
    assert run(["marking", plate]) == 0
    assert told in " ".join(capsys.readouterr().out.split())
