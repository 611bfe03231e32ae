"""Exports as four CAD programs of our own making write them: what comes of each without a map."""

import datetime as dt
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest

import areafit
from areafit.facts.bom import Bom
from areafit.facts.part import Kind
from areafit.file.facts import FactRow, facts

EXPORTS = Path(__file__).parent / "exports"
Call = Callable[..., str]


def imported(call: Call, folder: Path, data: bytes, name: str, *more: str) -> tuple[Bom, str]:
    (folder / name).write_bytes(data)
    told = call("import", name, "--code", "IEC", *more, "--output", "made.yaml", both=True)
    return areafit.read((folder / "made.yaml").read_bytes(), "made.yaml"), told


def tree(bom: Bom) -> dict[str, str | None]:
    return {part.item: part.parent for part in bom.parts}


def kinds(bom: Bom) -> dict[str, str]:
    return {p.item: ", ".join(sorted(k.value for k in p.equipment.kinds)) for p in bom.parts}


def test_levels_from_0_with_items_that_begin_anew(call: Call, folder: Path) -> None:
    """Titles above, names of columns repeated on each page, a total below."""
    data = (EXPORTS / "indented_from_zero.csv").read_bytes()
    bom, told = imported(call, folder, data, "e.csv")
    assert tree(bom) == {
        "1": None,
        "1.1": "1",
        "1.1.1": "1.1",
        "1.1.2": "1.1",
        "1.2": "1",
        "1.2.1": "1.2",
        "1.2.2": "1.2",
        "1.2.3": "1.2",
        "1.2.4": "1.2",
    }
    assert [part.item for part in bom.parts if "location" in _written(folder, part.index)] == ["1"]
    assert {part.locations for part in bom.parts} == {("place-1",)}
    by_item = {str(part.item): part for part in bom.parts}
    assert kinds(bom) == {
        **dict.fromkeys(("1", "1.1", "1.1.1", "1.1.2", "1.2"), "structural"),
        "1.2.1": "mechanical",
        "1.2.2": "electrical",
        "1.2.3": "unknown",
        "1.2.4": "structural",
    }
    bearing, sensor, scraper = (by_item[item] for item in ("1.2.1", "1.2.2", "1.2.3"))
    assert bearing.equipment.electrical_content == "none"
    assert bearing.proposed == ("kind", "electrical_content")
    assert (bearing.vendor, bearing.maker_number) == ("V-108", "6001-X")
    assert bearing.note == "greased by the maker"
    assert sensor.equipment.surface is not None
    assert sensor.equipment.surface.value == Decimal(60)
    assert (sensor.proposed, scraper.proposed) == (("kind",), None)
    for item in ("1", "1.1", "1.2"):
        assert (by_item[item].materials, by_item[item].proposed) == ((), ("kind", "materials"))
    for words in (
        "items begin anew in each assembly",
        "row 14: a total ('Total'), and no part",
        "1 rows repeat the names of the columns",
        "surface_temperature from 'Surface temp. [°C]'",
    ):
        assert words in told


def _written(folder: Path, index: int) -> str:
    lines = (folder / "made.yaml").read_text(encoding="utf-8").split("\n  - item: ")[1:]
    return lines[index]


def test_dotted_positions_decimal_commas_and_german(call: Call, folder: Path) -> None:
    data = (EXPORTS / "dotted_german.csv").read_bytes()
    bom, told = imported(call, folder, data, "e.csv", "--encoding", "cp1252")
    first, *_ = (line for line in told.splitlines() if "e.csv: " in line and "from" not in line)
    assert "6 figures have a decimal comma, such as '1130,50' in row 5" in told
    assert "--decimal-comma" in first, "what concerns many cells is told first"
    (folder / "made.yaml").unlink()
    bom, told = imported(call, folder, data, "e.csv", "--encoding", "cp1252", "--decimal-comma")
    assert tree(bom) == {
        "1": None,
        "1.1": "1",
        "1.1.1": "1.1",
        "1.1.2": "1.1",
        "1.2": "1",
        "1.2.1": "1.2",
        "1.2.2": "1.2",
        "1.10": "1",
    }
    by_item = {str(part.item): part for part in bom.parts}
    motor, cover = by_item["1.2.1"], by_item["1.10"]
    assert motor.equipment.ambient is not None
    assert (motor.equipment.ambient.low, motor.equipment.ambient.high) == (
        Decimal(-20),
        Decimal(40),
    )
    assert (motor.body.bonded, by_item["1.1.1"].body.bonded) == (False, True)
    assert str(by_item["1.1.2"].unit_cost) == "0.14"
    assert cover.body.drop_height is None
    assert by_item["1.2.2"].equipment.electrical_content == "none"
    for words in (
        "row 11: a total ('Zwischensumme')",
        "row 12: a total ('Gesamtsumme:')",
        "row 10, drop_height: left out",
        "not taken over: 'Breite [mm]'",
    ):
        assert words in told


def test_levels_with_dots_in_spanish(call: Call, folder: Path) -> None:
    """UTF-16 with tabs; the CAD's own ids are kept, and a part with lines in it may be bought."""
    bom, told = imported(call, folder, (EXPORTS / "levels_with_dots.txt").read_bytes(), "e.txt")
    assert tree(bom) == {"1": None, "2": "1", "3": "1", "4": None, "5": "4", "6": "5", "7": "4"}
    assert [part.line_id for part in bom.parts] == [f"L-{n}" for n in range(1, 8)]
    valve = bom.parts[4]
    assert valve.equipment.markings is not None
    assert valve.equipment.kinds == {Kind.ELECTRICAL}
    assert valve.proposed == ("kind",)
    assert valve.materials is None, "its own housing is on no line below it"
    assert (valve.body.bonded, bom.parts[1].body.bonded) == (False, True)
    assert valve.equipment.evidence is not None
    assert valve.equipment.evidence[0].number == "FX 31 ATEX 0101 X"
    assert "a total ('Total general')" in told


def test_a_workbook_whose_positions_are_numbers(call: Call, folder: Path) -> None:
    """1.10 is 1.1 as a number: told apart by its format, or by the position that goes before."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Repère", "Référence", "Désignation", "Qté", "Matière", "Date", "Fabricant"])
    rows = [1, *(round(1 + n / 10, 1) for n in range(1, 10)), 1.1, 1.11, 2, 2.1, 2.2]
    for n, position in enumerate(rows):
        sheet.append([position, 4000 + n, "Roulement à billes", 1.0, None, None, "M-1"])
    sheet["A15"].number_format = "0.00"
    sheet.cell(2, 6, dt.datetime(2031, 1, 1))  # noqa: DTZ001
    sheet.append(["Total général", None, None, "=SUM(D2:D16)"])
    book.save(folder / "e.xlsx")
    bom, told = imported(call, folder, (folder / "e.xlsx").read_bytes(), "e.xlsx")
    items = [part.item for part in bom.parts]
    assert items == ["1", *(f"1.{n}" for n in range(1, 12)), "2", "2.10", "2.2"]
    assert {part.parent for part in bom.parts if part.item.startswith("1.")} == {"1"}
    assert bom.parts[1].maker == "M-1"
    assert bom.parts[0].part_number == "4000"
    assert "item: 1 had lost a zero" in told
    assert "part_number: 15 were stored as numbers" in told
    assert "a total ('Total général')" in told


@pytest.mark.parametrize(
    ("header", "cells", "written"),
    [
        ("Pos,Name,drop_height", "1,Pin,none", "drop_height: none"),
        ("Pos,Name,End stops", "1,Pin,damped", "end_stops: damped"),
        ("Pos,Name,Marking", "1,Pin,none", ""),
        ("Pos,Name,Width / mm,material_width [mm],Material", "1,Belt,5,30,PUR", 'width: "30 mm"'),
        (
            "Pos,Name,Material,Welded",
            "1,Plate,304L; PTFE,yes; no",
            "welded: true}, {material: PTFE, welded: false}",
        ),
        ("Pos,Name,Material,Finish", "1,Plate,304L,anodised", '[{material: "304L"}]'),
        ("Pos,Name,Ambient temperature (°C)", "1,Sensor,-20..60", 'ambient: "-20..60 °C"'),
        ("Pos,Name,Ambient temperature (°C)", "1,Sensor,-4 °F to 60 °F", ""),
        ("Pos,Name,Ambient temperature in °C", "1,Sensor,5 to 40", 'ambient: "5..40 °C"'),
        ("Pos,Name,wiring_method", "1,Cable,MI cable", "wiring: {method: MI cable}"),
        ("Pos,Name,Kind", "1,Pump,electrical; mechanical", "kind: [electrical, mechanical]"),
        ("Pos,Name,materials_complete", "1,Pin,oui", "materials_complete: true"),
        ("Pos,Name,Location", "1,Pin,place-1; hall", "location: [place-1, hall]"),
        ("Pos,Name,Description", "1,Bolt,Plate", "description: Plate"),
    ],
)
def test_facts_in_columns(call: Call, folder: Path, header: str, cells: str, written: str) -> None:
    imported(call, folder, f"{header}\n{cells}\n".encode(), "e.csv")
    text = (folder / "made.yaml").read_text(encoding="utf-8")
    assert written in text
    assert "anodised" not in text
    assert "marking" not in text


VALUES = {
    "": "some text",
    "number": "2",
    "date": "2031-06-30",
    "temperature": "60 °C",
    "temperature range": "-20..60 °C",
    "length": "12 mm",
    "area": "40 cm²",
    "speed": "0.2 m/s",
    "resistance": "1e6 ohm",
    "capacitance": "5 pF",
    "power": "1 W",
    "intensity": "5 mW/mm²",
    "time": "8 s",
}
OF_LINES = {"item", "parent", "inside", "process_side"}  # which name lines and places


@pytest.mark.parametrize(
    "row",
    [row for row in facts().values() if row.column and row.column not in OF_LINES],
    ids=lambda row: row.key,
)
def test_every_fact_that_the_table_gives_a_column_is_taken(
    call: Call, folder: Path, row: FactRow
) -> None:
    """Under the name that the table gives it, with blanks too; a word of the trade as it is."""
    value = next((w for w in row.choices if w != "none"), "") or VALUES[row.unit]
    if row.key == "ingress":
        value = "IP65"
    if row.key in ("surface_temperature", "marking"):
        value = "75 °C" if row.key == "surface_temperature" else "Ex db IIC T4 Gb"
    if row.choices == ("none",) and not row.unit and row.key != "marking":
        value = "none"
    for name in (row.column, row.column.replace("_", " ").capitalize()):
        beside = {"material": "316L", "certificate": "X 1", "part_number": "P-1", "item": "1"}
        beside[row.column] = value
        named = [name if key == row.column else key for key in beside]
        text = f"{';'.join(named)}\n{';'.join(beside.values())}\n"
        (folder / "made.yaml").unlink(missing_ok=True)
        _, told = imported(call, folder, text.encode(), "e.csv", "--delimiter", ";")
        assert "left out" not in told
        assert "not taken over" not in told
        assert f"{row.key.rpartition('.')[2]}: " in (folder / "made.yaml").read_text("utf-8")
