"""Exports become lists: cells are copied, and what could not be taken over is said."""

import datetime as dt
import sys
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from ruamel.yaml import YAML

import areafit
from areafit.facts.bom import Bom
from areafit.facts.part import Kind
from areafit_cli.commands import importer

Call = Callable[..., str]
CODE = ("--code", "IEC")


def listed(
    call: Call, folder: Path, data: bytes, *more: str, name: str = "e.csv"
) -> tuple[Bom, str]:
    (folder / name).write_bytes(data)
    (folder / "made.yaml").unlink(missing_ok=True)
    given = more if "--areas" in more else (*CODE, *more)
    notes = call("import", name, *given, "--output", "made.yaml", both=True)
    made = (folder / "made.yaml").read_bytes()
    return areafit.read(made, "made.yaml", lambda name: (folder / name).read_bytes()), notes


ENGLISH = 'Item,Part number,Description,Qty\n10,007,"Sensor, inductive",2\n20,1E5,Frame: large,1\n'


@pytest.mark.parametrize(
    ("data", "more"),
    [
        (ENGLISH.encode(), ()),
        (ENGLISH.encode("utf-8-sig"), ()),
        (ENGLISH.encode("utf-16"), ()),
        (ENGLISH.encode("cp1252"), ("--encoding", "cp1252")),
        (ENGLISH.replace("\n", "\r\n").encode(), ()),
        (b"sep=,\r\n" + ENGLISH.encode(), ()),
        (b"Export of today\n\n" + ENGLISH.encode(), ("--header-row", "3")),
        (b",,,\n" + ENGLISH.encode(), ()),
        (
            ENGLISH.replace(",", "\t").replace("Sensor\t", "Sensor,").encode(),
            ("--delimiter", "tab"),
        ),
        (ENGLISH.replace(",", "|").replace("Sensor|", "Sensor,").encode(), ()),
    ],
)
def test_encodings_and_delimiters(
    call: Call, folder: Path, data: bytes, more: tuple[str, ...]
) -> None:
    bom, _ = listed(call, folder, data, *more)
    assert [part.item for part in bom.parts] == ["10", "20"]
    assert [part.part_number for part in bom.parts] == ["007", "1E5"]
    assert [part.description for part in bom.parts] == ["Sensor, inductive", "Frame: large"]
    assert [part.equipment.kinds for part in bom.parts] == [{Kind.ELECTRICAL}, {Kind.STRUCTURAL}]
    assert [part.proposed for part in bom.parts] == [("kind",), ("kind",)]
    assert bom.assembly.number == "e"


def test_what_was_written_and_what_comes_next_is_said(call: Call, folder: Path) -> None:
    _, notes = listed(call, folder, ENGLISH.encode())
    assert "areafit: wrote made.yaml; state what each of its `locations` is, confirm" in notes
    assert "run `areafit check made.yaml`" in notes
    assert "wrote" not in call("import", "e.csv", *CODE, both=True)


def test_german_columns_decimal_commas_levels_and_what_is_left(call: Call, folder: Path) -> None:
    text = (
        "Pos.;Artikel-Nr.;Bezeichnung;Menge;Werkstoff;Kennzeichnung;Ebene;Gewicht;Bescheinigung\n"
        "10;A1;Maß;1,5;1.4404; II 2G  Ex db IIC T4 Gb;1;0,4;X 21 ATEX 1 X\n"
        "20;A2;Halter;1.000,5;keine;-;2;1;\n"
        "30;A3;Deckel;viel;PA66; ;..3;3;n/a\n"
        "40;A4;Dichtung\x07;3;EPDM;;2;;\n"
        ";;;;;;;9;\n"
        "10;;Sensor;1;FKM;;1;;\n"
    )
    bom, notes = listed(call, folder, text.encode(), "--decimal-comma")
    first, second, third, fourth, last = bom.parts
    assert str(first.quantity) == "1.5"
    assert first.equipment.markings is not None
    assert first.equipment.markings[0].text == "II 2G Ex db IIC T4 Gb"
    assert first.equipment.evidence is not None
    assert first.materials is not None
    assert first.materials[0].material == "1.4404"
    assert (second.quantity, second.materials, second.equipment.markings) == (None, (), None)
    assert [part.parent for part in bom.parts] == [None, "10", "20", "10", None]
    assert (third.quantity, fourth.description, last.item) == (None, "Dichtung", "10 (2)")
    for words in (
        "not taken over: 'Gewicht'",
        "row 3, quantity: left out, since `quantity`: '1.000,5' is no plain number",
        "row 4, quantity: left out",
        "row 5, description: characters that cannot be shown",
        "row 6: nothing names the part",
        "row 7: the item '10' is not unique; taken as '10 (2)'",
        "no column says what kind",
        "marking from 'Kennzeichnung'",
    ):
        assert words in notes


def test_a_comma_stays_as_it_is_unless_asked(call: Call, folder: Path) -> None:
    bom, notes = listed(call, folder, b"Item;Name;Qty\n1;x;1,5\n")
    assert bom.parts[0].quantity is None
    assert "'1,5' is no plain number" in notes


def test_a_map_goes_before_the_usual_names(call: Call, folder: Path) -> None:
    data = (
        b"Item,Location,Service,Grade,Position,Kind,Ambient\n"
        b"1,bin 7,head,316L; FKM,P-1,structural,hot\n"
    )
    (folder / "map.yaml").write_text(
        "location: Service\nmaterial: grade\nitem: position\nkind: kind\n"
    )
    bom, notes = listed(call, folder, data, "--map", "map.yaml")
    (part,) = bom.parts
    assert (part.item, part.locations) == ("P-1", ("head",))
    assert part.materials is not None
    assert [use.material for use in part.materials] == ["316L", "FKM"]
    assert part.equipment.kinds == {Kind.STRUCTURAL}
    assert "not taken over: 'Item', 'Location'" in notes
    assert "'Ambient' holds words, such as 'hot', and no temperature range" in notes
    (folder / "map.yaml").write_text("location: none\nitem: Item\n")
    bom, _ = listed(call, folder, data, "--map", "map.yaml", "--location", "hall")
    assert bom.parts[0].locations == ("hall",)


def test_a_column_of_figures_that_holds_words_is_told_once(call: Call, folder: Path) -> None:
    """German lists call the finish of a surface `Oberfläche` (common practice, no source)."""
    data = "Pos.;Benennung;Werkstoff;Oberfläche\n1;Platte;1.4301;gebeizt\n2;Haube;1.4301;\n"
    bom, notes = listed(call, folder, data.encode())
    assert "surface_area from" not in notes
    assert "not taken over: 'Oberfläche'" in notes
    assert "'Oberfläche' holds words, such as 'gebeizt', and no area" in notes
    assert all(part.materials and part.materials[0].surface_area is None for part in bom.parts)
    one = data.replace("Haube;1.4301;", "Haube;1.4301;2 m²")
    bom, notes = listed(call, folder, one.encode())
    assert "row 2, materials.surface_area: left out" in notes


@pytest.mark.parametrize(
    ("name", "plate", "kinds"),
    [
        ("Sicherheitsschalter Tür", "II 3G Ex ec IIC T5 Gc", {Kind.ELECTRICAL}),
        ("Pumpe", "II 2G Ex db IIC T4 Gb", {Kind.ELECTRICAL, Kind.MECHANICAL}),
        ("Gehäuse", "II 2G Ex h IIC T4 Gb", {Kind.MECHANICAL}),
        ("Gehäuse", "painted", {Kind.STRUCTURAL}),
        ("Rahmen", "", {Kind.STRUCTURAL}),
    ],
)
def test_a_nameplate_proposes_a_kind_beside_the_name(
    call: Call, folder: Path, name: str, plate: str, kinds: set[Kind]
) -> None:
    """Ex h is the mark of non-electrical equipment (ISO 80079-36:2016, from memory)."""
    bom, _ = listed(call, folder, f"Pos.;Benennung;Kennzeichnung\n1;{name};{plate}\n".encode())
    assert bom.parts[0].equipment.kinds == kinds
    assert "kind" in (bom.parts[0].proposed or ())


def test_a_heading_over_lines_is_what_holds_them(call: Call, folder: Path) -> None:
    data = b"Pos.;Benennung\n1;Elektro\n1.1;Klemmenkasten\n"
    bom, _ = listed(call, folder, data)
    assert bom.parts[0].equipment.kinds == {Kind.STRUCTURAL}
    assert bom.parts[0].materials == ()


def test_a_kind_that_is_none_of_ours_is_left_out_and_proposed(call: Call, folder: Path) -> None:
    bom, notes = listed(call, folder, b"Name,Kind,Parent\nMotor,Kaufteil,99\n")
    assert bom.parts[0].equipment.kinds == {Kind.ELECTRICAL}
    assert bom.parts[0].proposed == ("kind",)
    assert bom.parts[0].item == "line 1"
    assert bom.parts[0].parent is None
    assert "row 2, kind: left out" in notes
    assert "row 2, parent: left out" in notes


def test_a_shared_file_of_places(call: Call, folder: Path) -> None:
    data = b"Item,Name,Location,Certificate,Material\n1,x,head," + b"9" * 2500 + b"," + b"8" * 2500
    bom, notes = listed(call, folder, data, "--areas", "site/areas.yaml")
    assert bom.parts[0].locations == ("head",)
    assert "row 2, evidence: left out" in notes
    assert "row 2, materials: left out" in notes
    assert bom.places["head"].document == "AC-1"


def test_titles_and_revisions(call: Call, folder: Path) -> None:
    more = ("--number", "CC-1", "--title", "A: b", "--revision", "02")
    bom, _ = listed(call, folder, b"Item,Name\n1,x\n", *more)
    assembly = bom.assembly
    assert (assembly.number, assembly.title, assembly.revision) == ("CC-1", "A: b", "02")


@pytest.mark.parametrize(
    ("data", "more", "words"),
    [
        (b"Item,Name\n1,x\n", (), "state --code"),
        (b"Item,Name\n1,x\n", ("--code", "IEC", "--areas", "site/areas.yaml"), "state either"),
        (b"Item,Name\n1,x\n", ("--code", "IECC"), "near to it: IEC"),
        (b"Item,Name\n1,x\n", (*CODE, "--output", "old.yaml"), "exists"),
        (b"a,b\n1,2\n", CODE, "no column is known by its name in row 1 (a, b)"),
        (b"", CODE, "no row 1"),
        (b"Item,Name\n1,x\n", (*CODE, "--header-row", "9"), "no row 9"),
        (b"Item,Name\n,\n", CODE, "holds a part"),
        (b"Item,Name\n1,\xe4\n", CODE, "line 2 is not in UTF-8; state its encoding"),
        (b"Item,Name\n1,\xe4\n", CODE, "--encoding cp1252"),
        (b"1,X-1,Plate\n", CODE, "--map"),
        (b"1,X-1,Plate\n", CODE, "--header-row"),
        (b"Item,Name\n1,x\n", (*CODE, "--encoding", "klingon"), "no encoding 'klingon'"),
        (b"Item,Name\n1,x\n", (*CODE, "--delimiter", ",,"), "cannot be told apart"),
        (b"Item,Name\n1," + b"x" * 140_000, CODE, "cannot be told apart"),
        (b"Item,Name\n1,x\n", (*CODE, "--map", "gone.yaml"), "cannot be read"),
        (b"Item,Name\n1,x\n", (*CODE, "--map", "list.yaml"), "no column map"),
        (b"Item,Name\n1,x\n", (*CODE, "--map", "odd.yaml"), "is no key of a column map"),
        (b"Item,Name\n1,x\n", (*CODE, "--map", "miss.yaml"), "did you mean 'Name'"),
        (b"Item,Name\n1,x\n", (*CODE, "--map", "far.yaml"), "no column is called"),
        (b"Item,Name,Place\n1,x,moon\n", ("--areas", "site/areas.yaml"), "moon"),
        (b"Item,Name\n" + b"i" * 3000 + b",x\n", CODE, "longer than"),
    ],
)
def test_what_cannot_be_imported(
    call: Call, folder: Path, data: bytes, more: tuple[str, ...], words: str
) -> None:
    (folder / "e.csv").write_bytes(data)
    (folder / "list.yaml").write_text("- a\n")
    (folder / "odd.yaml").write_text("colour: Name\n")
    (folder / "miss.yaml").write_text("item: Nmae\n")
    (folder / "far.yaml").write_text("item: Zzzzzz\n")
    assert words in call("import", "e.csv", *more, status=2, both=True)


def test_other_files_are_refused(call: Call, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importer, "_LARGEST", 4)
    (folder / "e.csv").write_bytes(b"Item,Name\n1,x\n")
    assert "larger than" in call("import", "e.csv", *CODE, status=2, both=True)
    assert "only .csv" in call("import", "old.yaml", *CODE, status=2, both=True)
    assert "cannot be read" in call("import", "gone.csv", *CODE, status=2, both=True)


def test_many_notes_are_counted(call: Call, folder: Path) -> None:
    rows = "".join(f"{n},x,odd\n" for n in range(60))
    _, notes = listed(
        call, folder, f"Item,Name,Qty\n{rows}60,x,2\n".encode(), "--delimiter", ",", name="e.tsv"
    )
    assert "more notes of this sort" in notes


def test_a_workbook(call: Call, folder: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["Item", "Part number", "Description", "Qty", "Certificate", "Remarks"])
    sheet.append(["007", 7, "Sensor", 2.0, dt.datetime(2024, 1, 1), True])  # noqa: DTZ001
    sheet.append([8, "=A2", "Frame", 1.5, dt.datetime(2024, 1, 1, 8, 30), None])  # noqa: DTZ001
    book.create_sheet("Other").append(["nothing"])
    book.save(folder / "e.xlsx")
    data = (folder / "e.xlsx").read_bytes()
    bom, notes = listed(call, folder, data, name="e.xlsx")
    assert [part.item for part in bom.parts] == ["007", "8"]
    assert [str(part.quantity) for part in bom.parts] == ["2", "1.5"]
    assert bom.parts[0].part_number == "7"
    assert bom.parts[0].equipment.evidence is not None
    assert bom.parts[0].equipment.evidence[0].number == "2024-01-01"
    for words in (
        "row 2, cell 5: a date",
        "row 3, cell 2: a formula that was never calculated",
        "part_number: 1 were stored as numbers",
    ):
        assert words in notes
    for more, words in (("Gone", "no sheet 'Gone'"), ("Other", "no column is known")):
        told = call("import", "e.xlsx", *CODE, "--sheet", more, status=2, both=True)
        assert words in told
    (folder / "bad.xlsx").write_bytes(b"PK no workbook")
    assert "no workbook" in call("import", "bad.xlsx", *CODE, status=2, both=True)


def test_no_text_needs_the_reader_of_workbooks(
    call: Call, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It takes longer to import than all else together."""
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    assert listed(call, folder, ENGLISH.encode())[0].parts


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("gone.csv", "there is no such file"),
        ("site", "is a folder; name one file"),
        ("old.yaml", "only .csv"),
    ],
)
def test_what_is_no_export_is_told_before_what_else_is_missing(
    call: Callable[..., str], name: str, words: str
) -> None:
    assert words in call("import", name, status=2, both=True)


def test_a_decimal_comma_points_to_its_option(call: Callable[..., str], folder: Path) -> None:
    (folder / "e.csv").write_text("Item;Name;Qty\n1;x;2,5\n", encoding="utf-8")
    told = call("import", "e.csv", *CODE, both=True)
    assert "e.csv: 1 line; " in told
    assert "read with --decimal-comma" in told
    assert "--decimal-comma" not in call("import", "e.csv", *CODE, "--decimal-comma", both=True)


def test_several_refused_cells_of_one_fact_are_told_once(call: Call, folder: Path) -> None:
    data = b"Item,Name,Material,Certificate,document_type,valid_until\n1,x,none,X 1,odd,soon\n"
    bom, told = listed(call, folder, data)
    assert (bom.parts[0].materials, bom.parts[0].equipment.evidence) == (None, None)
    assert "row 2, evidence: left out, since" in told


def test_an_article_with_some_of_its_pieces_below_it_stays_what_it_is(
    call: Call, folder: Path
) -> None:
    """A seal below a cylinder makes it no frame; a motor below a conveyor says what moves."""
    rows = (
        "Level,Item,Description,Material\n0,1,Filler,\n1,2,Pneumatic cylinder 32x100,\n"
        "2,3,Seal,FKM\n1,4,Belt conveyor,\n2,5,Gear motor,\n"
    )
    (folder / "e.csv").write_text(rows, encoding="utf-8")
    options = ("--code", "IEC", "--number", "E-1", "--location", "hall", "-o", "e.yaml")
    call("import", "e.csv", *options)
    parts = YAML(typ="safe").load(folder / "e.yaml")["parts"]
    kinds = {part["description"]: (part["kind"], part.get("materials")) for part in parts}
    assert kinds["Pneumatic cylinder 32x100"] == ("mechanical", None)
    assert kinds["Filler"] == kinds["Belt conveyor"] == ("structural", "none")


def test_a_level_that_is_none_is_told(call: Call, folder: Path) -> None:
    """Its line would else leave its assembly without a word."""
    data = b"Level,Item,Description\n0,1,Filler\nx,2,Plate\n,3,Plate\n1,4,Plate\n"
    bom, notes = listed(call, folder, data)
    assert "row 3, level: x is no level; taken as a line at the top" in notes
    assert "row 4, level: it is empty; taken as a line at the top" in notes
    assert [part.parent for part in bom.parts] == [None, None, None, "1"]


HEAD = "Item,Part number,Description,Qty\n"
ROWS = '1,A,Frame,1\n2,B,"Door, hinged",1\n3,C,Hinge,2\n4,D,"Tank, welded",1\n5,E,Lid,1\n'


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (HEAD + ROWS.replace('hinged"', "hinged"), "row 3: the quote before 'Door, hinged,1'"),
        (HEAD + ROWS.replace('welded"', "welded"), "row 5: the quote before 'Tank, welded,1'"),
        ('"' + HEAD + ROWS.replace('"', ""), "row 1: the quote before 'Item,Part number,"),
        ("sep=,\n" + HEAD + ROWS.replace('welded"', "welded"), "row 6: the quote"),
        (HEAD + '1,A,"a\nb",1\n2,B,"Door,1\n', "row 3: the quote before 'Door,1'"),
        (HEAD + '1,A,"x,1\n' + "2,B,y,1\n" * 20_000, "row 2: the quote before 'x,1'"),
        ((HEAD + ROWS.replace('hinged"', "hinged")).replace(",", ";"), "row 3: the quote"),
        ('Item;Name;Qty\n1;"x, y;2\n2;Rohr 1,5;3\n3;Rohr 2,5;3\n', "row 2: the quote before 'x, y"),
        ('Item;Name\n1;"x\n' + "2;Rohr 1,5\n" * 20_000, "row 2: the quote before 'x'"),
        (HEAD + '1,A,Frame,"\n2,B,Door,1\n', "row 2: the quote before '2,B,Door,1'"),
    ],
)
def test_a_quote_that_is_not_closed_swallows_no_line(
    call: Call, folder: Path, text: str, words: str
) -> None:
    """RFC 4180 (from memory): a quoted field ends with a quote, before a separator or line end."""
    (folder / "e.csv").write_text(text, encoding="utf-8")
    told = call("import", "e.csv", *CODE, status=2, both=True)
    assert words in told
    assert "is not closed in its row" in told


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_breaks_inside_of_quotes_are_read(call: Call, folder: Path, end: str) -> None:
    """RFC 4180 (from memory): fields with line breaks and doubled quotes are legitimate."""
    text = HEAD + '1,A,"Door, with\nhinge 2"" wide",1\n2,B,"Frame\n\nlarge",1\n3,C,Lid,1\n'
    bom, notes = listed(call, folder, text.replace("\n", end).encode())
    assert [part.description for part in bom.parts] == [
        'Door, with hinge 2" wide',
        "Frame large",
        "Lid",
    ]
    assert "row 2" not in notes
    assert "row 3" not in notes


def test_a_cell_that_holds_a_whole_row_is_told(call: Call, folder: Path) -> None:
    """Common practice, no source: an inch sign closes the quote of another row."""
    text = HEAD + '1,A,"Door, hinged,1\n2,B,Pipe 5",1\n3,C,Lid,1\n'
    bom, notes = listed(call, folder, text.encode())
    assert [part.item for part in bom.parts] == ["1", "3"]
    assert "row 2: the cell that begins with 'Door, hinged,1' goes on over 2 lines" in notes


def test_text_behind_a_closing_quote_is_told(call: Call, folder: Path) -> None:
    _, notes = listed(call, folder, (HEAD + '1,A,"2" pipe, black",1\n2,B,"Lid" ,1\n').encode())
    assert "row 2: 'pipe' stands behind a closing quote" in notes
    assert "row 3" not in notes
