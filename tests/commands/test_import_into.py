"""A new export laid over a completed list: the project's own rule, no source."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest

import areafit
from areafit.facts.bom import Bom
from areafit.importing import listing
from areafit.importing.lines import ExportLine
from areafit.importing.revision import revise

Call = Callable[..., str]
LIST = """\
areafit: 1
assembly: {number: DH-100, revision: A}   # the dosing head
code: IEC
locations:
  head: {}
unless_stated:
  - where: {items: ["3", '4']}
    document: ES-1
    role: designer
    facts: {bonded: true}
parts:
  # the frame
  - item: "1"
    part_number: DH-110
    description: Frame
    location: head
    kind: structural
  - item: '2'   # with its screws
    part_number: DH-111
    description: Plate
    parent: "1"
    kind: structural
    quantity: 1
    materials: [{component: plate, material: 316L, welded: false}]
    contacts: [{with: 3}]
  - {item: 3, part_number: H-0601, description: Screw, parent: 1, kind: structural, quantity: 12}
  - item: "4"
    part_number: S-2001
    description: Sensor
    location: head
    kind: electrical
    marking: Ex ia IIC T4 Gb
    note: asked the maker
  - item: "5"
    part_number: B-1
    description: Barrier
    location: head
    kind: electrical
  - item: "6"
    part_number: X-1
    description: Old cover
    location: head
    kind: structural
loops:
  - name: L-1
    group: IIC
    source: {item: "5", Uo: 28 V}
    devices: [{item: "4", Ui: 30 V}]
"""
HEADER = "Item,Part number,Description,Qty,Parent,Material\n"
SAME = (
    HEADER
    + "1,DH-110,Frame,,,\n2,DH-111,Plate,1,1,316L\n3,H-0601,Screw,12,1,\n4,S-2001,Sensor,,,\n"
    + "5,B-1,Barrier,,,\n6,X-1,Old cover,,,\n"
)


@pytest.fixture
def into(call: Call, folder: Path) -> Callable[..., tuple[str, str]]:
    (folder / "list.yaml").write_text(LIST, encoding="utf-8")

    def run(export: str, *more: str, status: int = 0) -> tuple[str, str]:
        (folder / "new.csv").write_text(export, encoding="utf-8")
        told = call("import", "new.csv", "--into", "list.yaml", *more, status=status, both=True)
        return (folder / "list.yaml").read_text(encoding="utf-8"), told

    return run


Into = Callable[..., tuple[str, str]]


def test_the_same_export_changes_no_byte(into: Into) -> None:
    text, told = into(SAME)
    assert text == LIST
    assert "list.yaml: nothing changed" in told


def test_renumbering_follows_wherever_an_item_is_named(into: Into, call: Call) -> None:
    """And is one line of `compare`; order, comments and quotes stay."""
    (Path("before.yaml")).write_text(LIST, encoding="utf-8")
    export = SAME
    for item in range(1, 7):
        export = export.replace(f"\n{item},", f"\n{item}0,").replace(
            f",{item},316L", f",{item}0,316L"
        )
    export = export.replace(",12,1,", ",12,10,").replace(",1,1,316L", ",1,10,316L")
    text, told = into(export)
    expected = LIST
    for old, new in (
        ('item: "1"', 'item: "10"'),
        ("item: '2'", 'item: "20"'),
        ("{item: 3,", '{item: "30",'),
        ("parent: 1,", 'parent: "10",'),
        ('parent: "1"', 'parent: "10"'),
        ('item: "4"', 'item: "40"'),
        ('item: "5"', 'item: "50"'),
        ('item: "6"', 'item: "60"'),
        ("with: 3", 'with: "30"'),
        ("""["3", '4']""", '["30", "40"]'),
    ):
        expected = expected.replace(old, new)
    assert text == expected
    assert "renumbered: 1 → 10, 2 → 20, 3 → 30" in told
    compared = call("compare", "before.yaml", "list.yaml", status=1)
    assert "6 lines renumbered" in compared
    assert "Nothing changed" in compared


def test_quantities_descriptions_and_new_lines(into: Into) -> None:
    export = (
        SAME.replace("Plate,1,", "Base plate,2,")
        + "7,V-1,Ball bearing,4,1,100Cr6\n8,W-1,Door,1,,\n"
    )
    text, told = into(export, "--revision", "B")
    assert text == LIST.replace("description: Plate", "description: Base plate").replace(
        "quantity: 1\n", "quantity: 2\n"
    ).replace("revision: A", "revision: B").replace(
        "loops:\n",
        '  - item: "7"\n    part_number: V-1\n    description: Ball bearing\n    quantity: 4\n'
        '    parent: "1"\n    kind: mechanical\n    electrical_content: none\n'
        '    proposed: [kind, electrical_content]\n    materials: [{material: "100Cr6"}]\n'
        '  - item: "8"\n    part_number: W-1\n    description: Door\n    quantity: 1\n'
        "    location: head\n    kind: structural\n    proposed: [kind]\nloops:\n",
    )
    for words in (
        "item 2 (DH-111, Base plate): description Plate → Base plate",
        "item 2 (DH-111, Base plate): quantity 1 → 2",
        "new: item 7 (V-1, Ball bearing)",
        "list.yaml: written",
    ):
        assert words in told


def test_another_part_at_a_position_takes_none_of_its_facts(into: Into) -> None:
    """The sensor is replaced: the line of the old one stays as it is until it is taken out."""
    text, told = into(SAME.replace("4,S-2001,Sensor", "4,S-2002,Sensor"))
    bom = read(text)
    (old,) = (part for part in bom.parts if part.part_number == "S-2001")
    (new,) = (part for part in bom.parts if part.part_number == "S-2002")
    assert (old.item, new.item) == ("4 (old)", "4")
    assert old.equipment.markings is not None
    assert new.equipment.markings is None
    assert bom.loops[0].devices[0].item == "4 (old)"
    assert "gone: item 4 (S-2001, Sensor); kept, --remove-gone takes it out" in told
    assert "item 4 gives way to another line" in told


def read(text: str) -> Bom:
    return areafit.read(text.encode(), "list.yaml")


def test_what_is_gone_is_taken_out_only_when_asked_and_not_named(into: Into) -> None:
    export = SAME.replace("6,X-1,Old cover,,,\n", "").replace("4,S-2001,Sensor,,,\n", "")
    text, told = into(export)
    assert text == LIST
    assert told.count("kept, --remove-gone takes it out") == 2
    text, told = into(export, "--remove-gone")
    assert [part.item for part in read(text).parts] == ["1", "2", "3", "4", "5"]
    assert text == LIST.replace(LIST[LIST.index('  - item: "6"') : LIST.index("loops:")], "")
    assert "gone: item 6 (X-1, Old cover); taken out" in told
    assert "gone: item 4 (S-2001, Sensor); kept, since other lines, loops or notes name it" in told


def test_what_the_export_says_otherwise_of_completed_facts_is_told(into: Into) -> None:
    export = SAME.replace(",1,316L", ",1,304").replace(
        "3,H-0601,Screw,12,1,", "3,H-0601,Screw,12,1,A4"
    )
    text, told = into(export)
    assert text == LIST.replace("quantity: 12}", "quantity: 12, materials: [{material: A4}]}")
    assert "materials is material 304 in the export and" in told
    assert "the list, which is kept" in told
    assert "materials material A4, stated by the export" in told


def test_lines_that_cannot_be_told_apart_are_told_and_left(into: Into) -> None:
    two = LIST.replace("X-1", "S-2001").replace("Old cover", "Sensor")
    Path("list.yaml").write_text(two, encoding="utf-8")
    export = SAME.replace("4,S-2001", "7,S-2001").replace("6,X-1,Old cover", "8,S-2001,Sensor")
    text, told = into(export)
    assert text == two
    assert "S-2001: items 4, 6 of the list and 7, 8 of the export cannot be told apart" in told


def test_a_line_that_moves_to_another_assembly_of_the_same_number(into: Into) -> None:
    """Its parents' part numbers make a line; one without changes its parent as the CAD says."""
    text, told = into(SAME.replace("3,H-0601,Screw,12,1,", "3,H-0601,Screw,12,2,"), "--remove-gone")
    assert "kept, since that part is a new line elsewhere" in told
    assert "new: item 3 (H-0601, Screw); H-0601 stood elsewhere as item 3" in told
    assert [part.item for part in read(text).parts if part.part_number == "H-0601"] == [
        "3 (old)",
        "3",
    ]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--code", "IEC"), "--into keeps what the list says of itself"),
        (("--output", "x.yaml"), "--into keeps what the list says of itself"),
    ],
)
def test_calls_that_contradict_themselves(into: Into, more: tuple[str, ...], words: str) -> None:
    text, told = into(SAME, *more, status=2)
    assert words in told
    assert text == LIST


def test_a_list_that_cannot_be_read_or_placed_is_left_alone(into: Into, call: Call) -> None:
    two = LIST.replace("  head: {}", "  head: {}\n  aisle: {}")
    Path("list.yaml").write_text(two, encoding="utf-8")
    text, told = into(SAME + "9,N-1,Door,1,,\n", status=2)
    assert text == two
    assert "state --location with one of head, aisle" in told
    text, told = into(SAME + "9,N-1,Door,1,,\n", "--location", "aisle")
    assert text.endswith("loops:" + two.partition("loops:")[2])
    assert "location: aisle" in text
    Path("list.yaml").write_text("areafit: 1\n", encoding="utf-8")
    text, told = into(SAME, status=2)
    assert text == "areafit: 1\n"
    assert "--remove-gone belongs to --into" in call(
        "import", "new.csv", "--code", "IEC", "--remove-gone", status=2, both=True
    )


def test_a_list_that_changed_since_it_was_read_is_left_alone(
    into: Into, monkeypatch: pytest.MonkeyPatch
) -> None:
    from areafit_cli import paths

    own = paths.replace_unchanged

    def later(path: Path, before: bytes | None, pieces: list[bytes]) -> None:
        path.write_text(LIST + "# by a colleague\n", encoding="utf-8")
        own(path, before, pieces)

    monkeypatch.setattr(paths, "replace_unchanged", later)
    text, told = into(SAME.replace("Plate,1,", "Plate,3,"), status=2)
    assert text == LIST + "# by a colleague\n"
    assert "has changed since it was read" in told


def test_a_list_of_a_thousand_lines_is_renumbered_at_once() -> None:
    """In any order; what was completed of each part is found under its new item."""
    chance = random.Random(7)  # noqa: S311 - cases, no secrets
    head = listing.Head("M-1", code="IEC")

    def lines(step: int) -> list[ExportLine]:
        return [
            ExportLine(n, str(n * step), None, ("place-1",), "place-1",
                 {"part_number": f"P-{n}", "kind": "structural"})
            for n in range(1, 1001)
        ]  # fmt: skip

    text = listing.bom_text(head, lines(1), None, [])
    text = text.replace("    kind: structural\n", "    kind: structural\n    note: \n")
    notes = iter(range(1, 1001))
    text = "".join(
        line.replace("note: ", f"note: of P-{next(notes)}") if "note: " in line else line
        for line in text.splitlines(keepends=True)
    )
    new = lines(10)
    chance.shuffle(new)
    found = revise(text.encode(), "x", new, lambda data: areafit.read(data, "x"), notes=[])
    bom = areafit.read(found.data, "x")
    assert {part.item: part.note for part in bom.parts} == {
        str(n * 10): f"of P-{n}" for n in range(1, 1001)
    }


def test_what_the_readme_shows_of_an_import_comes_of_its_export(call: Call, folder: Path) -> None:
    text = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    shown = text[text.index("## From CAD") :]
    export = shown[shown.index("Level,Item") :].partition("```")[0]
    line = shown[shown.index('  - item: "3"') :].partition("```")[0]
    (folder / "head.csv").write_text(export, encoding="utf-8")
    call("import", "head.csv", "--code", "IEC", "--output", "head.yaml")
    assert line in (folder / "head.yaml").read_text(encoding="utf-8")
    moved = export.replace(
        "1,3,B-6001,Deep groove ball bearing,2", "1,30,B-6001,Deep groove ball bearing,4"
    )
    moved = moved.replace("1,4,S-2001", "1,40,S-2001") + "1,50,V-1,Hose,1,,,,\n"
    (folder / "head_B.csv").write_text(moved, encoding="utf-8")
    told = call("import", "head_B.csv", "--into", "head.yaml", "--revision", "B", both=True)
    for each in shown[shown.index("renumbered:") :].partition("```")[0].splitlines():
        if not each.startswith("gone:"):
            assert each in told


PARTS = """\
areafit-parts: 1
parts:
  V-9:
    kind: mechanical
    electrical_content: none
    confirmed: {on: 2030-01-01, document: DS 1, role: supplier}
"""


def test_nothing_is_proposed_of_a_new_line_that_the_library_knows(into: Into) -> None:
    Path("parts.yaml").write_text(PARTS, encoding="utf-8")
    with_library = LIST.replace("code: IEC\n", "code: IEC\nlibrary: parts.yaml\n")
    Path("list.yaml").write_text(with_library, encoding="utf-8")
    text, _ = into(SAME + "7,V-9,Ball bearing,2,,\n8,V-8,Ball bearing,2,,\n")
    known, other = text[text.index('item: "7"') :].split('item: "8"')
    assert ("kind" in known, "proposed" in known) == (False, False)
    assert "proposed: [kind, electrical_content]" in other
    assert "location: head" in known


def test_notes_of_a_shared_file_do_not_follow_and_that_is_told(into: Into, folder: Path) -> None:
    shared = "areafit-areas: 1\ncode: IEC\nlocations: {head: {}}\nunless_stated:\n"
    note = "  - {where: {items: ['6']}, document: ES-9, role: designer, facts: {bonded: true}}\n"
    (folder / "areas.yaml").write_text(shared + note, encoding="utf-8")
    text = LIST.replace("code: IEC\nlocations:\n  head: {}\n", "areas: areas.yaml\n")
    Path("list.yaml").write_text(text, encoding="utf-8")
    _, told = into(SAME.replace("6,X-1", "7,X-1"))
    assert "item 7: ES-9 of the shared file of places names items" in told
    assert "correct them there" in told


LENT = """\
areafit-parts: 1
parts:
  H-0601:
    also: [V-9]
    kind: structural
    materials: [{component: screw, material: "1.4404"}, {component: ring, material: FKM}]
    materials_complete: true
    confirmed: {on: 2030-01-01, document: DS 1, role: supplier}
  V-8:
    kind: mechanical
    confirmed: {on: 2030-01-01, document: DS 2, role: supplier}
"""


def test_no_material_of_the_export_comes_beside_those_of_the_library(into: Into) -> None:
    Path("parts.yaml").write_text(LENT, encoding="utf-8")
    with_library = LIST.replace("code: IEC\n", "code: IEC\nlibrary: parts.yaml\n")
    Path("list.yaml").write_text(with_library, encoding="utf-8")
    export = SAME.replace("3,H-0601,Screw,12,1,", "3,H-0601,Screw,12,1,316L")
    text, told = into(export)
    assert text == with_library
    assert "nothing changed" in told
    assert "the library states the materials of item 3; those of the export are not" in told
    assert "correct the one" not in told  # 316L is one steel with 1.4404 (EN 10088-1, from memory)

    text, told = into(
        export.replace("316L\n4", "POM\n4") + "7,V-9,Screw,2,1,A2\n8,V-8,Pin,1,1,PA\n"
    )
    assert text.count("materials:") == 2  # of item 2, and of item 8, whose entry states none
    assert "the library states the materials of item 3, 7; those of the export" in told
    assert "H-0601: material POM in the export, 1.4404, FKM in the library; correct" in told
    assert "V-9: material A2 in the export, 1.4404, FKM in the library; correct" in told
    assert "V-8:" not in told


def test_a_line_that_states_its_materials_itself_is_kept_beside_the_library(into: Into) -> None:
    Path("parts.yaml").write_text(LENT.replace("H-0601", "DH-111"), encoding="utf-8")
    with_library = LIST.replace("code: IEC\n", "code: IEC\nlibrary: parts.yaml\n")
    Path("list.yaml").write_text(with_library, encoding="utf-8")
    text, told = into(SAME)
    assert text == with_library
    assert "the library states" not in told


def test_a_first_import_with_the_library_of_its_shared_file(call: Call, folder: Path) -> None:
    shared = "areafit-areas: 1\ncode: IEC\nlibrary: bought/\nlocations: {head: {}}\n"
    (folder / "areas.yaml").write_text(shared, encoding="utf-8")
    (folder / "bought").mkdir()
    (folder / "bought" / "screws.yaml").write_text(LENT, encoding="utf-8")
    rows = "1,H-0601,Screw,12,,POM\n2,V-9,Screw,2,,FKM\n3,V-8,Pin,1,,PA\n4,X-1,Plate,1,,POM\n"
    (folder / "new.csv").write_text(HEADER + rows, encoding="utf-8")
    more = ("--areas", "areas.yaml", "--location", "head", "--output", "made.yaml")
    told = call("import", "new.csv", *more, both=True)
    text = (folder / "made.yaml").read_text(encoding="utf-8")
    assert [part.partition('"')[0] for part in text.split("materials: ")[1:]] == [
        "[{material: PA}]\n  - item: ",
        "[{material: POM}]\n",
    ]
    assert "the library states the materials of item 1, 2; those of the export are not" in told
    assert "H-0601: material POM in the export, 1.4404, FKM in the library" in told
    assert "V-9: material" not in told


def test_an_error_in_the_library_is_told_and_leaves_no_cell_out(call: Call, folder: Path) -> None:
    shared = "areafit-areas: 1\ncode: IEC\nlibrary: parts.yaml\nlocations: {head: {}}\n"
    (folder / "areas.yaml").write_text(shared, encoding="utf-8")
    (folder / "parts.yaml").write_text(LENT.replace("structural", "screwy"), encoding="utf-8")
    (folder / "new.csv").write_text(HEADER + "1,H-0601,Screw,12,,POM\n", encoding="utf-8")
    more = ("--areas", "areas.yaml", "--location", "head", "--output", "made.yaml")
    told = call("import", "new.csv", *more, status=2, both=True)
    assert "parts.yaml:5" in told
    assert "left out" not in told
