"""Who said it, where the line did not: notes and entries of a library in the dossier."""

from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit_cli import render
from areafit_cli.render import Style

SAMPLES = Path(__file__).parents[2] / "sample_bom"
DESCRIBED = {"item", "part_number", "description", "quantity", "unit_cost"}


def read(name: str) -> areafit.Bom:
    return areafit.read((SAMPLES / name).read_bytes(), name, lambda n: (SAMPLES / n).read_bytes())


def test_the_dossier_names_each_note_and_entry_with_its_lines() -> None:
    options = areafit.Options(as_of=date(2026, 3, 31))
    report = areafit.judge(read("sugar_bagging.yaml"), areafit.Tables.shipped(), options)
    text = "".join(render.find("html").body(report, Style()))
    section = text[text.index("Notes and library entries that the verdicts rest on") :]
    for said in ("ES-12 rev B", "data sheet SB-0040", "bought_parts.yaml", "designer", "supplier"):
        assert said in section, said


def test_a_list_that_says_all_itself_has_no_such_table() -> None:
    text = (
        "areafit: 1\nassembly: {number: M}\ncode: IEC\nlocations: {a: {area: unclassified}}\n"
        "parts: [{item: 1, kind: structural, location: a}]\n"
    )
    options = areafit.Options(as_of=date(2026, 3, 31))
    report = areafit.judge(areafit.read(text.encode(), "l.yaml"), areafit.Tables.shipped(), options)
    assert "Notes and library" not in "".join(render.find("html").body(report, Style()))


@pytest.mark.parametrize(
    ("item", "keys"),
    [
        ("10", {"location", "kind", "materials"}),
        ("40", {"location", "rubbing_speed"}),
        ("50", {"location", "entries"}),
    ],
)
def test_the_sample_shows_how_little_a_line_says(item: str, keys: set[str]) -> None:
    """A plate, a bought cylinder, a sensor."""
    text = (SAMPLES / "sugar_bagging.yaml").read_text(encoding="utf-8")
    start = text.index(f'  - item: "{item}"')
    line = text[start : text.find("  - item:", start + 1)].splitlines()
    stated = {each.split(":")[0].strip(" -") for each in line if each[4:5] not in (" ", "#")}
    assert stated - DESCRIBED == keys
