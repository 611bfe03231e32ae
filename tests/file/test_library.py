"""A library of bought parts: what an entry may say, what a line takes of it, and where they differ.

The format is the project's own; that a part number stands for one article, and that a spreadsheet
turns `1.0` into `1`, are common practice, no source.
"""

import posixpath
from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.answers.compare import compare
from areafit.facts.bom import Bom, StatedAt
from areafit.facts.part import Exposure, Kind
from areafit.findings.report import BomReport
from areafit.options import Options

SAID = "confirmed: {on: 2026-11-01, document: data sheet 7, role: supplier}"
CYLINDER = f"""\
  CY-1:
    also: [CY-2, CY-3]
    description: Cylinder 32 x 100
    kind: mechanical
    electrical_content: none
    marking: II 2G Ex h IIC T4 Gb
    evidence:
      - {{type: assessment, number: IHA-32, level: Gb, conditions: [{{text: keep from static}}]}}
    materials:
      - {{component: tube, material: 316L, welded: false}}
      - {{component: seal, material: NBR}}
      - {{component: magnet, material: NdFeB, exposure: enclosed}}
    materials_complete: true
    maker: M-7
    {SAID}
"""
LINE = "part_number: CY-1, location: hall"


def library(*entries: str) -> str:
    return "areafit-parts: 1\nparts:\n" + "".join(entries)


def entry(facts: str, number: str = "CY-1") -> str:
    return f"  {number}: {{{facts}{', ' if facts else ''}{SAID}}}\n"


def read(
    files: Mapping[str, str] | str, *lines: str, named: str = "parts.yaml", site: str = ""
) -> Bom:
    """A list of these lines, read with a library of one or several files."""
    known = {"parts.yaml": files} if isinstance(files, str) else dict(files)
    known |= {"site/places.yaml": site} if site else {}
    parts = "".join(f"  - {{item: {i}, {line}}}\n" for i, line in enumerate(lines, 1))
    where = (
        "areas: site/places.yaml\n"
        if site
        else f"code: IEC\nlibrary: {named}\nlocations:\n  hall: {{area: unclassified}}\n"
    )
    text = f"areafit: 1\nassembly: {{number: L-1}}\n{where}parts:\n{parts}"

    def fetch(name: str) -> bytes:
        path = posixpath.normpath(name)
        if path not in known:
            raise OSError("does not exist")
        return known[path].encode()

    def folder(name: str) -> list[str] | None:
        inside = f"{posixpath.normpath(name)}/"
        found = sorted(each.removeprefix(inside) for each in known if each.startswith(inside))
        return found or None

    return areafit.read(text.encode(), "list.yaml", fetch, folder)


def refused(files: Mapping[str, str] | str, *lines: str, **more: str) -> dict[str, str]:
    """The messages, by file and line."""
    with pytest.raises(areafit.InputErrors) as caught:
        read(files, *(lines or (LINE,)), **more)
    return {f"{e.position.file}:{e.position.line}": e.message for e in caught.value.errors}


def judged(bom: Bom) -> BomReport:
    return areafit.judge(bom, areafit.Tables.shipped(), Options(as_of=date(2026, 11, 30)))


def differences(bom: Bom) -> list[tuple[str, str, str]]:
    """What rule `library-agreement` says: path, line, library."""
    found = [
        f for part in judged(bom).parts for f in part.findings() if f.rule.id == "library-agreement"
    ]
    assert {f.verdict.value for f in found} <= {"unproven"}
    return [(f.path, f.found, f.required.partition(": ")[2]) for f in found]


# What a line takes


def test_a_line_takes_what_it_does_not_state() -> None:
    part = read(library(CYLINDER), LINE).parts[0]
    assert part.equipment.kinds == {Kind.MECHANICAL}
    assert part.equipment.electrical_content == "none"
    assert part.description == "Cylinder 32 x 100"
    assert part.maker == "M-7"
    assert [use.component for use in part.materials or ()] == ["tube", "seal", "magnet"]
    assert (part.materials or ())[2].exposure is Exposure.ENCLOSED
    assert part.materials_complete is True


def test_the_report_names_who_confirmed_it() -> None:
    bom = read(library(CYLINDER), f"{LINE}, materials_complete: false")
    said = bom.stated_by("parts/0/marking")
    assert [(one.level, one.document, one.role) for one in said] == [
        (StatedAt.LIBRARY, "data sheet 7", "supplier")
    ]
    assert said[0].position.line == 3
    assert bom.stated_by("parts/0/materials_complete") == ()
    inner = bom.stated_by("parts/0/evidence/0/conditions")
    assert [one.path for one in inner] == ["parts/0/evidence/0"]
    assert [file.name for file in bom.library.files] == ["parts.yaml"]
    assert (bom.library.entries, [used.number for used in bom.library.used]) == (1, ["CY-1"])


def test_a_line_states_lists_whole_or_not_at_all() -> None:
    bom = read(library(CYLINDER), f"{LINE}, materials: [{{material: PTFE, component: seal}}]")
    assert [use.material for use in bom.parts[0].materials or ()] == ["PTFE"]
    assert [path for path, *_ in differences(bom)] == ["parts/0/materials"]


def test_a_number_of_also_leads_to_the_same_entry() -> None:
    bom = read(library(CYLINDER), LINE, LINE.replace("CY-1", "CY-3"))
    assert bom.parts[0].equipment == bom.parts[1].equipment
    assert len(bom.library.used) == 1


def test_an_alternate_takes_from_its_own_entry() -> None:
    other = entry("kind: mechanical, marking: II 3G Ex h IIC T4 Gc, materials: none", "CY-9")
    line = f"{LINE}, alternates: [{{part_number: CY-9}}, {{part_number: CY-8}}]"
    bom = read(library(CYLINDER, other), line)
    first, second = bom.parts[0].alternates
    assert [code.text for code in first.equipment.markings or ()] == ["II 3G Ex h IIC T4 Gc"]
    assert first.materials == ()
    assert second.materials == bom.parts[0].materials  # which has no entry: as in the line
    said = bom.stated_by("parts/0/alternates/0/materials")
    assert [one.position.line for one in said] == [18]
    assert [one.path for one in bom.stated_by("parts/0/alternates/1/marking")] == [
        "parts/0/alternates/1/marking"
    ]


def test_an_alternate_that_differs_from_its_entry_is_told() -> None:
    other = entry("kind: mechanical, device: other", "CY-9")
    line = f"{LINE}, alternates: [{{part_number: CY-9, kind: structural}}]"
    assert differences(read(library(CYLINDER, other.replace(", device: other", "")), line)) == [
        ("parts/0/alternates/0/kind", "structural", "mechanical")
    ]


def test_unknown_keeps_a_fact_of_the_entry_away() -> None:
    part = read(library(CYLINDER), f"{LINE}, marking: unknown, materials: unknown").parts[0]
    assert (part.equipment.markings, part.materials) == (None, None)
    line = f"{LINE}, alternates: [{{part_number: CY-2, marking: unknown}}]"
    assert read(library(CYLINDER), line).parts[0].alternates[0].equipment.markings is None


def test_the_kind_may_come_from_the_library() -> None:
    kindless = entry("marking: none")
    assert "without `kind`" in refused(library(kindless))["list.yaml:8"]
    assert "without `kind`" in refused(library(CYLINDER), "location: hall")["list.yaml:8"]
    bom = read(library(CYLINDER), f"{LINE}, kind: unknown")  # as an import writes it
    assert bom.parts[0].equipment.kinds == {Kind.MECHANICAL}


def test_a_note_fills_what_line_and_entry_leave_open() -> None:
    files = {"parts.yaml": library(CYLINDER)}
    text = (
        "areafit: 1\nassembly: {number: L-1}\ncode: IEC\nlibrary: parts.yaml\n"
        "unless_stated: [{document: ES-1, role: designer, materials: {welded: true}, "
        "facts: {bonded: true, end_stops: damped}}]\n"
        f"locations: {{hall: {{area: unclassified}}}}\nparts: [{{item: 1, {LINE}}}]\n"
    )
    part = areafit.read(text.encode(), "list.yaml", lambda name: files[name].encode()).parts[0]
    assert part.body.bonded is True
    assert [use.welded for use in part.materials or ()] == [False, True, True]


# Where line and entry differ


@pytest.mark.parametrize(
    ("stated", "line", "entry_says"),
    [
        ("kind: electrical", "electrical", "mechanical"),
        ("marking: II 3G Ex h IIC T4 Gc", "II 3G Ex h IIC T4 Gc", "II 2G Ex h IIC T4 Gb"),
        ("electrical_content: sensor", "sensor", "none"),
        ("materials_complete: false", "false", "true"),
    ],
)
def test_a_line_that_says_otherwise_is_judged_as_it_says_and_asked(
    stated: str, line: str, entry_says: str
) -> None:
    bom = read(library(CYLINDER), f"{LINE}, {stated}")
    key = stated.partition(":")[0]
    assert differences(bom) == [(f"parts/0/{key}", line, entry_says)]


@pytest.mark.parametrize(
    "stated",
    [
        "description: Cyl. 32x100",
        "unit_cost: 9",
        "maker_number: '4'",
        "vendor: V-1",
        "note: spare",
        "kind: mechanical",
        "marking: [II 2G Ex h IIC T4 Gb]",
        "materials_complete: yes",
    ],
)
def test_keys_that_decide_nothing_and_equal_ones_are_no_difference(stated: str) -> None:
    files = library(CYLINDER.replace("maker: M-7", "maker: M-7\n    maker_number: '5'"))
    assert differences(read(files, f"{LINE}, {stated}")) == []


DELIVERED = (
    "{component: magnet, material: NdFeB, exposure: enclosed}, "
    "{component: tube, material: 316L, welded: false, exposure: splash}, "
)


@pytest.mark.parametrize(
    ("materials", "differ"),
    [
        (f"[{DELIVERED}{{component: seal, material: NBR}}]", False),
        (f"[{DELIVERED}{{component: seal, material: NBR, surface_area: 3 cm²}}]", False),
        (f"[{DELIVERED}{{component: seal, material: FKM}}]", True),
        (f"[{DELIVERED[:-2]}]", True),
        (f"[{DELIVERED}{{component: seal, material: NBR}}, {{material: PTFE}}]", True),
        (f"[{DELIVERED.replace(', welded: false', '')}{{component: seal, material: NBR}}]", True),
        ("none", True),
    ],
)
def test_materials_stated_again_must_be_those_of_the_entry(materials: str, *, differ: bool) -> None:
    bom = read(library(CYLINDER), f"{LINE}, materials: {materials}")
    assert bool(differences(bom)) is differ


@pytest.mark.parametrize(
    ("document", "differ"),
    [
        ("{type: assessment, number: IHA-32, level: Gb, conditions: [keep from static]}", False),
        ("{type: assessment, number: IHA-32, level: Gb, conditions: none}", True),
        ("{type: assessment, number: IHA-32, ambient: -10..40 °C}", True),
        ("{type: assessment, number: IHA-33}", True),
        ("none", True),
    ],
)
def test_documents_stated_again_must_be_those_of_the_entry(document: str, *, differ: bool) -> None:
    evidence = document if document == "none" else f"[{document}]"
    bom = read(library(CYLINDER), f"{LINE}, evidence: {evidence}")
    assert bool(differences(bom)) is differ


def test_a_date_in_the_entry_is_not_lost_by_naming_the_document_again() -> None:
    """A line that leaves out what the entry says of a document would pass where that fails."""
    dated = entry(
        "kind: mechanical, evidence: [{type: certificate, number: C-1, valid_until: 2020-01-01}]"
    )
    again = f"{LINE}, evidence: [{{type: certificate, number: C-1}}]"
    taken = read(library(dated), again)
    assert (taken.parts[0].equipment.evidence or ())[0].valid_until == date(2020, 1, 1)
    more = again.replace("C-1}", "C-1, standard: EN 1}")
    assert [path for path, *_ in differences(read(library(dated), more))] == ["parts/0/evidence"]


def test_a_line_says_how_the_conditions_of_the_entry_are_met() -> None:
    met = "{text: keep from static, met_by: guard, document: DN-1, role: designer}"
    line = f"{LINE}, evidence: [{{type: assessment, number: IHA-32, conditions: [{met}]}}]"
    bom = read(library(CYLINDER), line)
    (document,) = bom.parts[0].equipment.evidence or ()
    assert document.level is not None
    assert [(each.text, each.met_by) for each in document.conditions or ()] == [
        ("keep from static", "guard")
    ]
    assert differences(bom) == []
    other = read(library(CYLINDER), line.replace("keep from static", "keep dry"))
    (document,) = other.parts[0].equipment.evidence or ()
    assert [(each.text, each.met_by) for each in document.conditions or ()] == [
        ("keep from static", None),
        ("keep dry", "guard"),
    ]


def test_two_documents_alike_are_not_taken_for_one_another() -> None:
    two = entry("kind: mechanical, evidence: [{type: test report}, {type: test report, covers: A}]")
    bom = read(library(two), f"{LINE}, evidence: [{{type: test report, conditions: none}}]")
    assert len(bom.parts[0].equipment.evidence or ()) == 1
    assert differences(bom)


def test_a_material_ordered_otherwise_replaces_that_component() -> None:
    line = f"{LINE}, materials: [{{material: FKM, instead: seal, document: order 12}}]"
    bom = read(library(CYLINDER), line)
    assert [(use.component, use.material) for use in bom.parts[0].materials or ()] == [
        ("seal", "FKM"),
        ("tube", "316L"),
        ("magnet", "NdFeB"),
    ]
    assert differences(bom) == []
    assert bom.parts[0].materials_complete is True
    assert bom.stated_by("parts/0/materials/0") == ()
    assert [one.path for one in bom.stated_by("parts/0/materials/1")] == ["parts/0/materials/1"]
    two = line.replace("order 12}", "order 12}, {material: PTFE, instead: seal, document: o 3}")
    uses = read(library(CYLINDER), two).parts[0].materials or ()
    assert [use.material for use in uses] == ["FKM", "PTFE", "316L", "NdFeB"]


@pytest.mark.parametrize(
    ("materials", "line", "says"),
    [
        ("[{material: FKM, instead: seal}]", LINE, "do not say which"),
        ("[{material: FKM, instead: rod, document: o}]", LINE, "knows no component `rod`"),
        ("[{material: FKM, instead: seal, document: o}, {material: PP}]", LINE, "do not say which"),
        ("[{material: FKM, instead: seal, document: o}]", "location: hall", "no entry for this"),
    ],
)
def test_instead_needs_an_entry_its_component_and_a_document(
    materials: str, line: str, says: str
) -> None:
    errors = refused(library(CYLINDER), f"{line}, kind: mechanical, materials: {materials}")
    assert says in errors["list.yaml:8"]


def test_a_disagreement_is_not_accepted_for_a_whole_run_without_being_named() -> None:
    bom = read(library(CYLINDER), f"{LINE}, kind: electrical")
    for accepted, verdict in (("bonding", "unproven"), ("library-agreement", "waived")):
        options = Options(as_of=date(2026, 1, 1), accept_unproven=frozenset({accepted}))
        report = areafit.judge(bom, areafit.Tables.shipped(), options)
        found = [f for f in report.parts[0].findings() if f.rule.id == "library-agreement"]
        assert [f.verdict.value for f in found] == [verdict]


# Numbers


def answered(*answers: tuple[str, str]) -> str:
    """An entry of 316L, with answers that came in for it."""
    said = ", ".join(
        f"{{key: {key}, value: {value}, document: D-2, role: supplier, on: 2026-11-12}}"
        for key, value in answers
    )
    return library(entry(f"kind: structural, materials: 316L, answered: [{said}]"))


def test_an_answer_in_an_entry_is_judged_on_every_line_that_takes_the_entry() -> None:
    """The format: nothing is overwritten, each is judged, and the worse verdict stands."""
    spares = "part_number: ZZ-9, kind: structural, materials: 316L, location: hall"
    found = read(answered(("materials", "304L")), LINE, LINE, spares)
    for part in found.parts[:2]:
        (said,) = part.answered
        assert (said.path, said.line, said.answer) == ("materials", "316L", "304L")
        (other,) = part.otherwise
        assert [use.material for use in other.materials or ()] == ["304L"]
        assert [use.material for use in part.materials or ()] == ["316L"]
    assert not found.parts[2].answered
    assert not found.parts[2].otherwise
    told = [
        [one.verdict.value for one in report.findings() if one.rule.id == "answer-agreement"]
        for report in judged(found).parts
    ]
    assert told == [["unproven"], ["unproven"], []]


def test_several_answers_of_an_entry_and_of_the_line_are_judged_together_too() -> None:
    line = f"{LINE}, answered: [{{key: ambient, value: 0..30 °C, role: supplier, on: 2026-11-12}}]"
    entry_ = answered(("materials", "304L"), ("ingress", "IP54"))
    (part,) = read(entry_, f"{line}, ambient: 0..40 °C").parts
    assert [each.path for each in part.answered] == ["ambient", "materials", "ingress"]
    together = part.otherwise[-1]
    assert len(part.otherwise) == 4
    assert [use.material for use in together.materials or ()] == ["304L"]
    assert together.equipment.ingress is not None
    assert together.equipment.ambient != part.equipment.ambient


def test_an_answer_of_an_entry_that_a_line_takes_nothing_of_says_nothing() -> None:
    entry_ = answered(("materials", "304L")).replace("kind: structural", "maker: M-1")
    line = f"{LINE}, maker: M-2, kind: structural, materials: 316L"
    (part,) = read(entry_, line).parts
    assert not part.answered
    assert not part.otherwise


def test_an_answer_of_an_entry_that_cannot_be_read_stays_open() -> None:
    """Fail closed: what was answered is told, and no verdict is taken from it."""
    (part,) = read(answered(("materials/3/material", "304L")), LINE).parts
    assert [each.agrees for each in part.answered] == [False]
    assert part.otherwise == ()


@pytest.mark.parametrize("key", ["kind", "bonded", "exposure", "nothing", "confirmed", "answered"])
def test_an_answer_for_what_no_entry_states_is_refused_where_it_stands(key: str) -> None:
    with pytest.raises(areafit.InputErrors) as told:
        read(answered((key, "x")), LINE)
    (error,) = told.value.errors
    assert error.position.file == "parts.yaml"
    assert f"`{key}` is no fact that an answer states" in error.message


@pytest.mark.parametrize(
    ("key", "number"),
    [
        ("CY-1", "' CY-1 '"),
        ("' CY-1 '", "CY-1"),
        ("'1.0'", "1.0"),
        ("'007'", "'007'"),
        ("'1e5'", "'1e5'"),
        ("Ma\u00dfblech", "Ma\u00dfblech"),
        ("'U\u0308-1'", "'\u00dc-1'"),  # NFD and NFC
    ],
)
def test_numbers_match_as_texts(key: str, number: str) -> None:
    bom = read(library(entry("kind: structural", key)), f"part_number: {number}, location: hall")
    assert bom.parts[0].equipment.kinds == {Kind.STRUCTURAL}


@pytest.mark.parametrize("number", ["cy-1", "CY-10", "1", "1.00", "CY 1", "C\u0423-1", "CY\u20111"])
def test_case_and_look_alike_letters_are_other_numbers(number: str) -> None:
    files = library(entry("kind: structural"), entry("kind: structural", "'1.0'"))
    bom = read(files, f"part_number: '{number}', kind: mechanical, location: hall")
    assert bom.library.used == ()
    alike = number in {"cy-1", "C\u0423-1", "CY\u20111", "CY 1"}
    assert any("CY-1 differs in" in remark for remark in bom.remarks) is (
        alike and number != "CY 1"
    )


NUMBERS = ["1.0", "12", "007", "1e5", "0x1F", "1_000", "+5", ".5", ".inf", "0o17", "-3"]


@pytest.mark.parametrize("number", NUMBERS)
def test_a_number_without_quotes_is_refused_in_an_entry_and_told_on_a_line(number: str) -> None:
    plain = library(entry("kind: structural", number), entry("kind: structural, also: none", "A"))
    assert "reads as a number" in refused(plain)["parts.yaml:3"]
    also = library(entry(f"kind: structural, also: [X, {number}]"))
    assert "reads as a number" in refused(also)["parts.yaml:3"]
    quoted = library(entry("kind: structural", f'"{number}"'))
    bom = read(quoted, f"part_number: {number}, location: hall")
    assert any("is read as written; quote it" in remark for remark in bom.remarks)
    assert len(bom.library.used) == 1
    told = read(quoted, f"part_number: '{number}', location: hall").remarks
    assert not any("quote it" in remark for remark in told)


@pytest.mark.parametrize(
    ("files", "at"),
    [
        (library(entry("kind: structural"), entry("kind: structural")), "parts.yaml:4"),
        (library(entry("kind: structural"), entry("kind: structural", "' CY-1'")), "parts.yaml:4"),
        (library(CYLINDER, entry("kind: structural", "CY-3")), "parts.yaml:18"),
        (library(CYLINDER, entry("kind: structural, also: CY-2", "A")), "parts.yaml:18"),
        (library(entry("kind: structural, also: CY-1")), "parts.yaml:3"),
        (
            library(entry("kind: structural", "'U\u0308'"), entry("kind: structural", "'\u00dc'")),
            "parts.yaml:4",
        ),
    ],
)
def test_a_number_leads_to_one_entry(files: str, at: str) -> None:
    errors = refused(files, "kind: structural, location: hall")
    assert any(word in errors[at] for word in ("an entry already", "twice", "again"))


def test_a_number_in_two_files_names_both() -> None:
    files = {
        "parts/a.yaml": library(CYLINDER),
        "parts/b.yaml": library(entry("kind: structural", "CY-2")),
    }
    errors = refused(files, named="parts/")
    assert "has an entry at parts/a.yaml:3" in errors["parts/b.yaml:3"]


def test_another_maker_takes_nothing_and_is_told() -> None:
    bom = read(library(CYLINDER), f"{LINE}, kind: mechanical, maker: M-8")
    assert bom.parts[0].equipment.markings is None
    assert differences(bom) == []
    assert [remark for remark in bom.remarks if "made by M-7 and not by M-8" in remark]
    assert read(library(CYLINDER), f"{LINE}, maker: M-7").parts[0].equipment.markings


# What an entry may not say


BARRED = [
    "item: 1",
    "quantity: 2",
    "location: hall",
    "parent: 1",
    "contacts: none",
    "alternates: [{part_number: A}]",
    "exposure: splash",
    "exposure: enclosed",
    "bonded: true",
    "resistance_to_earth: 1 ohm",
    "entries: none",
    "conduit_seals: {all_runs: true}",
    "inverter_fed: true",
    "air_supply: {source: outside the area}",
    "drop_height: none",
    "rubbing_speed: 1 m/s",
    "placed_on_market: 2026-01-01",
    "in_service: true",
    "proposed: kind",
    "inside: 1",
    "process_side: hall",
    "line_id: a",
    "evidence: [{type: repair record}]",
    "evidence: [{type: certificate, conditions: [{text: a, met: true}]}]",
    "evidence: [{type: certificate, conditions: [{text: a, met_by: guard}]}]",
    "evidence: [{type: certificate, conditions: [{text: a, document: D}]}]",
    "evidence: [{type: certificate, conditions: [{text: a, role: designer}]}]",
    "materials: [{material: '304', exposure: splash}]",
    "materials: [{material: '304', component: seal, exposure: room}]",
    "materials: [{material: '304', exposure: enclosed}]",
    "materials: [{material: '304', instead: seal, document: D}]",
]


@pytest.mark.parametrize("fact", BARRED)
def test_what_depends_on_the_place_or_the_piece_is_refused_with_its_line(fact: str) -> None:
    first, _, rest = fact.partition(": ")
    files = library(f"  CY-1:\n    kind: mechanical\n    {first}: {rest}\n    {SAID}\n")
    with pytest.raises(areafit.InputErrors) as caught:
        read(files, LINE)
    assert {e.position.line for e in caught.value.errors} == {5}
    assert len({(e.position, e.message) for e in caught.value.errors}) == (
        2 if "instead" in fact else 1
    )
    assert all("state it on the line" in e.remedy for e in caught.value.errors)


@pytest.mark.parametrize(
    ("text", "at", "says"),
    [
        ("  CY-1: {kind: mechanical}\n", "parts.yaml:3", "without `confirmed`"),
        ("  CY-1:\n", "parts.yaml:3", "without `confirmed`"),
        (entry("colour: red"), "parts.yaml:3", "`colour` is no key of an entry of the library"),
        (entry("part_number: CY-1"), "parts.yaml:3", "`part_number`"),
        (entry("kind: pneumatic"), "parts.yaml:3", "`kind`"),
        (entry("kind: mechanical").replace("supplier", "none"), "parts.yaml:3", "nobody"),
        (
            entry("kind: mechanical").replace("2026-11-01", "soon"),
            "parts.yaml:3",
            "`on`",
        ),
        ("  CY-1: cylinder\n", "parts.yaml:3", "where a mapping belongs"),
        (entry("kind: mechanical, also: {a: b}"), "parts.yaml:3", "`also`"),
    ],
)
def test_an_entry_that_cannot_be_read_is_refused_with_its_line(
    text: str, at: str, says: str
) -> None:
    assert says in refused(library(text))[at]


def test_only_the_entries_that_are_used_are_checked() -> None:
    files = library(CYLINDER, "  BAD: {colour: red}\n")
    bom = read(files, LINE)
    assert (bom.library.entries, len(bom.library.used)) == (2, 1)
    assert (
        "colour"
        in refused(files, "part_number: BAD, kind: mechanical, location: hall").popitem()[1]
    )


# Files


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("areafit: 1\n", "no library file"),
        ("areafit-parts: 1\n", "without `parts`"),
        ("areafit-parts: 1\nparts: [CY-1]\n", "without `parts`"),
        ("areafit-parts: 2\nparts: {}\n", "version"),
        ("areafit-parts: 1\nparts: {}\nlibrary: parts.yaml\n", "`library` is no key"),
        ("", "empty"),
        ("areafit-parts: 1\nparts: &a {CY-1: *a}\n", "not read"),
        ("- CY-1\n", "no library file"),
        ("areafit-parts: 1\nparts: {CY-1: {kind: mechanical\n", ""),
    ],
)
def test_a_file_that_is_none_is_refused(text: str, says: str) -> None:
    errors = refused(text, "kind: mechanical, location: hall")
    assert any(where.startswith("parts.yaml:") and says in said for where, said in errors.items())


def test_a_folder_gives_all_its_library_files() -> None:
    files = {
        "parts/a.yaml": library(CYLINDER),
        "parts/b.yaml": library(entry("kind: structural", "PL-1")),
        "parts/places.yaml": "areafit-areas: 1\nlocations: {}\n",
    }
    bom = read(files, LINE, "part_number: PL-1, location: hall", named="parts/")
    assert [file.name for file in bom.library.files] == ["parts/a.yaml", "parts/b.yaml"]
    assert len({file.sha256 for file in bom.library.files}) == 2
    twice = read(files, LINE, named="[parts/, parts/a.yaml, ./parts/../parts/b.yaml]")
    assert [file.name for file in twice.library.files] == ["parts/a.yaml", "parts/b.yaml"]
    stray = {**files, "parts/c.yaml": "parts: {}\n"}
    assert "no library file" in refused(stray, named="parts/")["parts/c.yaml:1"]


def test_the_shared_file_of_places_names_a_library_too() -> None:
    site = (
        "areafit-areas: 1\ncode: IEC\nlibrary: ../own.yaml\n"
        "locations: {hall: {area: unclassified}}\n"
    )
    bom = read({"own.yaml": library(CYLINDER)}, LINE, site=site)
    assert [file.name for file in bom.library.files] == ["own.yaml"]
    assert bom.parts[0].equipment.kinds == {Kind.MECHANICAL}


def test_a_file_that_is_not_there_is_told_where_it_is_named() -> None:
    assert (
        "does not exist" in refused(library(CYLINDER), named="[parts.yaml, x.yaml]")["list.yaml:4"]
    )
    text = (
        "areafit: 1\nassembly: {number: L}\ncode: IEC\nlibrary: parts.yaml\n"
        "locations: {hall: {area: unclassified}}\n"
        f"parts: [{{item: 1, kind: structural, {LINE}}}]\n"
    )
    with pytest.raises(areafit.InputErrors, match="no other file can be read here"):
        areafit.read(text.encode(), "list.yaml")


def test_ten_thousand_entries_are_read_once_and_only_the_used_are_checked() -> None:
    many = library(*(entry("colour: red", f"PN-{i}") for i in range(10_000)), CYLINDER)
    bom = read(many, LINE)
    assert (bom.library.entries, len(bom.library.used)) == (10_001, 1)
    lines = [f"part_number: pn-{i}, kind: structural, location: hall" for i in range(300)]
    assert len(read(many, *lines).remarks) == 300


# What follows


def test_a_fact_that_moved_into_the_library_is_no_change_and_a_changed_entry_is() -> None:
    plate = "kind: structural, materials: [{material: '304'}], materials_complete: true"
    lines = f"part_number: CY-1, {plate}, location: hall"
    old = judged(read(library(entry("", "OTHER")), lines))
    moved = judged(read(library(entry(plate)), LINE))
    assert not [each for each in compare(old, moved).subjects if _changed(each)]
    changed = judged(read(library(entry(plate.replace("304", "316"))), LINE))
    assert [each for each in compare(moved, changed).subjects if _changed(each)]


def _changed(change: Any) -> bool:
    """Whether anything of a line differs; that the library does is told of the list."""
    return bool(change.kind == "item" and (change.facts or change.findings))


@pytest.mark.parametrize(
    ("number", "line", "why"),
    [
        ("CY-1", "maker: M-8", "is made by M-7 and not by M-8"),
        ("cy-1", "maker: M-7", "cy-1 differs in case, dashes or look-alike letters only"),
        ("\u0421Y-1", "maker: M-7", "look-alike letters only"),
    ],
)
def test_a_line_that_an_entry_gives_nothing_is_told_why(number: str, line: str, why: str) -> None:
    held = library(entry("kind: structural, maker: M-7", number))
    with pytest.raises(areafit.InputErrors, match=why):
        read(held, f"{LINE}, {line}")


def test_an_unknown_key_of_an_entry_is_answered_by_those_it_may_hold() -> None:
    with pytest.raises(areafit.InputErrors) as refused:
        read(library(entry("kind: structural, foo: 1")), LINE)
    told = str(refused.value)
    assert "`marking`" in told
    assert "`quantity`" not in told


def test_a_library_that_cannot_be_read_is_the_only_error() -> None:
    with pytest.raises(areafit.InputErrors) as refused:
        read(library(entry("kind: structural")), LINE, LINE, named="nowhere.yaml")
    assert len(refused.value.errors) == 1
