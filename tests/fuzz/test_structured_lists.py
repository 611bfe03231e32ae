"""Lists made of trade words: a valid one gets a report in every format, any other a position.

Values are drawn from words that the reader knows and from a few that it does not, so that both
ways are taken often. Status 3, an internal error, must never come out.
"""

import json
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any
from unicodedata import category

import pytest
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from areafit_cli import render
from areafit_cli.__main__ import run

OTHERS = [name for name in render.NAMES if name not in ("text", "json")]
SLOW = [HealthCheck.too_slow, HealthCheck.function_scoped_fixture, HealthCheck.data_too_large]
ODD = st.sampled_from(["", "?", "\u00e9", "none", "0", [], {}, ["none"], {"a": "b"}, True, "-"])


def words(*good: Any) -> Any:
    return st.sampled_from(good)


def often(*good: Any) -> Any:
    """One of these, and in one of 150 cases something odd."""
    return st.integers(0, 149).flatmap(lambda n: ODD if n == 77 else words(*good))


AMBIENT = often("5..40 °C", "-40..60 °C", "113 °F", "20 °C")
CHEMICALS = st.fixed_dictionaries(
    {"name": words("sodium hydroxide", "ethanol", "brine", "unheard-of", "nitric acid")},
    optional={
        "concentration": often("2 %", "10..30 % v/v", "5 g/L"),
        "temperature": AMBIENT,
        "bath": words("one", "two"),
    },
)
SUBSTANCES = words("ethanol", "hydrogen", "sugar", {"name": "acetone"}, "unheard-of", "methane")
PLACES = st.fixed_dictionaries(
    {},
    optional={
        "area": often(
            "Zone 1, IIB, T4",
            "Class I, Division 2, Groups C and D",
            "Zone 21, IIIB, T135 °C",
            "unclassified",
            "Zone 9",
        ),
        "document": words("D-1"),
        "substances": st.one_of(words("none"), st.lists(SUBSTANCES, min_size=1, max_size=2)),
        "chemicals": st.one_of(words("none"), st.lists(CHEMICALS, min_size=1, max_size=2)),
        "ambient": AMBIENT,
        "layer": often("none", "5 mm"),
    },
)
MATERIALS = st.fixed_dictionaries(
    {
        "component": words("housing", "seal", "spring"),
        "material": words("316L", "EPDM", "brass", "x"),
    },
    optional={
        "exposure": often("splash", "immersed", "fume"),
        "surface_area": often("80 cm²", "1 m²"),
        "surface_resistance": often("1e9 ohm", "10 Gohm"),
        "welded": often("yes", "no"),
        "layer_thickness": often("0.1 mm"),
    },
)
PARTS = st.fixed_dictionaries(
    {
        "location": words("a", "b"),
        "kind": often("electrical", "mechanical", "structural", "simple apparatus", "loose item"),
    },
    optional={
        "description": st.text(max_size=20),
        "marking": often(
            "II 2G Ex db IIC T4 Gb",
            "Class I, Division 2, Groups A-D, T4",
            "Ex h IIB T3 Gb",
            "CE",
            ["Ex tb IIIC T135 °C Db IP66", "Ex ia IIC T4 Ga"],
        ),
        "ambient": AMBIENT,
        "exposure": often("splash", "room", "enclosed"),
        "materials": st.lists(MATERIALS, min_size=1, max_size=2),
        "rubbing_speed": often("0.2 m/s", "30 ft/s"),
        "electrical_content": often("none", "coil"),
        "resistance_to_earth": often("5 ohm", "2 Mohm"),
        "contacts": words("none"),
        "unit_cost": often("84.00", "2"),
        "ingress": often("IP66", "Type 4X"),
        "evidence": st.lists(
            st.fixed_dictionaries(
                {"type": often("certificate", "declaration"), "number": words("X 21 ATEX 1")},
                optional={"valid_until": often("2020-01-01", "2031-06-30")},
            ),
            min_size=1,
            max_size=2,
        ),
    },
)
LISTS = st.fixed_dictionaries(
    {
        "areafit": often("1", "1", "1", "1"),
        "assembly": st.fixed_dictionaries({"number": words("M-1", "=1+1", "x|y")}),
        "code": often("IEC", "NEC", "ATEX"),
        "locations": st.fixed_dictionaries({"a": PLACES, "b": PLACES}),
        "parts": st.lists(PARTS, min_size=1, max_size=4).map(
            lambda parts: [{"item": str(n), **part} for n, part in enumerate(parts)]
        ),
    }
)


def holds(text: str, other: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = folder / "list.yaml"
    path.write_text(text, encoding="utf-8", errors="surrogatepass")
    names = [folder / f"report.{n}" for n in range(3)]
    for name in names:
        name.unlink(missing_ok=True)
    arguments = ["check", str(path), "--as-of", "2026-01-01", "--no-config"]
    for kind, name in zip(("text", "json", other), names, strict=True):
        arguments += ["--format", kind, "--output", str(name)]
    status = run(arguments)
    told = capsys.readouterr().err
    event(f"status {status}")
    assert status in (0, 1, 2), told
    if status == 2:
        assert "list.yaml:" in told
        assert all(
            line.split("list.yaml:")[1].split(":")[0].isdigit() for line in told.splitlines()
        )
    report = json.loads(names[1].read_text(encoding="utf-8"))
    assert bool(report["errors"]) is (status == 2)
    assert (report["gate"] == "fail") is (status != 0)
    shown = names[0].read_text(encoding="utf-8").replace("\n", "")
    assert not {category(sign) for sign in shown} & {"Cc", "Cs", "Zl", "Zp"}
    whole = names[2].read_text(encoding="utf-8")
    if other == "junit":
        ET.fromstring(whole)  # noqa: S314 - our own
    if other in ("sarif", "gitlab"):
        json.loads(whole)


@settings(max_examples=25, suppress_health_check=SLOW)
@given(tree=LISTS, other=st.sampled_from(OTHERS))
def test_any_list_of_trade_words_gets_a_report_or_positions(
    tree: Any, other: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    holds(json.dumps(tree, ensure_ascii=False), other, tmp_path, capsys)


@pytest.mark.long
@settings(max_examples=5_000, suppress_health_check=SLOW)
@given(tree=LISTS, other=st.sampled_from(OTHERS))
def test_many_lists_of_trade_words_get_a_report_or_positions(
    tree: Any, other: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    holds(json.dumps(tree, ensure_ascii=False), other, tmp_path, capsys)


@settings(max_examples=25, suppress_health_check=SLOW)
@given(
    tree=LISTS, cuts=st.lists(st.tuples(st.integers(0, 10_000), st.text(max_size=2)), max_size=3)
)
def test_any_damaged_list_gets_a_report_or_positions(
    tree: Any, cuts: Any, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = json.dumps(tree, ensure_ascii=False)
    for at, put in cuts:
        place = at % len(text)
        text = text[:place] + put + text[place + 1 :]
    holds(text, "csv", tmp_path, capsys)
