"""What is open, each cause once: nothing is lost by folding, and nothing asked twice of a line."""

from collections import Counter
from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit.answers.causes import Cause, CauseKind, causes
from areafit.answers.questions import questions
from areafit.findings.report import BomReport
from areafit.verdict import Role, Verdict

LISTS = Path(__file__).parents[1] / "lists43"
HEAD = """\
areafit: 1
assembly: {number: T-9, assessment: IHA-9}
code: IEC
locations:
  head:
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 25 °C}]
parts:
"""


@pytest.fixture(params=["bare", "filled"])
def whole(request: pytest.FixtureRequest) -> BomReport:
    return _judged((LISTS / f"{request.param}.yaml").read_bytes())


def _report(lines: str) -> BomReport:
    return _judged((HEAD + lines).encode())


def _judged(text: bytes) -> BomReport:
    return areafit.judge(
        areafit.read(text, "t.yaml"),
        areafit.Tables.shipped(),
        areafit.Options(as_of=date(2026, 1, 1)),
    )


def test_every_open_finding_stands_in_one_cause(whole: BomReport) -> None:
    found = [bearer.finding.fingerprint for one in causes(whole) for bearer in one.bearers]
    wanted = [f.fingerprint for s in whole.subjects() for f in s.open_findings()]
    assert Counter(found) == Counter(wanted)
    assert len(causes(whole)) * 3 < len(wanted) or len(wanted) < 300


def test_a_flag_is_never_folded_into_a_question(whole: BomReport) -> None:
    for one in causes(whole):
        flags = {bearer.finding.verdict is Verdict.FLAG for bearer in one.bearers}
        assert flags == {one.kind is CauseKind.CHANGE}


def test_no_line_is_asked_the_same_twice(whole: BomReport) -> None:
    asked = Counter(
        (name, one.asks[0].row.subject, one.asks[0].row.key)
        for one in causes(whole)
        if one.kind is CauseKind.ANSWER and one.asks
        for name in one.names
    )
    assert asked
    assert set(asked.values()) == {1}


def _questions(report: BomReport) -> list[Cause]:
    return [one for one in causes(report) if one.kind is CauseKind.ANSWER]


def test_what_is_inside_is_asked_once_and_of_the_supplier() -> None:
    found = _questions(
        _report(
            '  - {item: "1", location: head, kind: mechanical, vendor: V-1, exposure: splash}\n'
        )
    )
    (inside,) = (one for one in found if "made of" in one.what)
    assert (inside.who, inside.vendor) == (Role.SUPPLIER, "V-1")
    assert len(inside.bearers) > 1


def test_how_hot_it_gets_waits_for_the_nameplate() -> None:
    bare = '  - {item: "1", location: head, kind: electrical, vendor: V-1}\n'
    first = _questions(_report(bare))
    (plate,) = (one for one in first if "nameplate" in one.what)
    assert {"temperature-class", "protection-level"} <= {
        bearer.finding.rule.id for bearer in plate.bearers
    }


def test_what_is_stated_is_not_asked_beside_its_fellow() -> None:
    line = '  - {item: "1", location: head, kind: mechanical, drop_height: none}\n'
    (stops,) = (one for one in _questions(_report(line)) if "movement" in one.what)
    assert [asked.row.key for asked in stops.asks] == ["end_stops"]


def test_the_ph_of_a_bath_is_asked_of_its_place() -> None:
    report = _judged((LISTS / "filled.yaml").read_bytes())
    (bath,) = (one for one in _questions(report) if "pH" in one.what)
    assert bath.asks[0].path == "locations/filling/chemicals/ph"
    assert bath.who is Role.PROCESS_OWNER


def _asked(lines: str) -> dict[str, tuple[Role, str]]:
    """What is asked, by the keys that answer it: who is asked, and in which words."""
    return {
        " ".join(asked.row.key for asked in one.asks): (one.who, one.what)
        for one in causes(_report(lines))
        if one.kind is CauseKind.ANSWER and one.names == ("1",)
    }


def test_what_an_assessment_may_cover_waits_for_it() -> None:
    """Common practice, no source: an assessment of a part covers rubbing and blows."""
    line = '  - {item: "1", kind: mechanical, location: head, bonded: true, materials: [], MORE}\n'
    asked = _asked(line.replace("materials: [], MORE", "vendor: V-1"))
    assert asked["evidence drive rubbing_speed"] == (
        Role.SUPPLIER,
        "Which documents are on file for the part?",
    )
    assert not [keys for keys in asked if keys.startswith(("rubbing", "drop"))]
    assert asked["drive air_supply"][1] == "What moves the part?"
    none = "drive: electric, marking: none, evidence: none"  # then speed and blows decide
    told = _asked(line.replace("materials: [], MORE", none))
    assert {"rubbing_speed", "drop_height end_stops"} <= set(told)


def test_what_a_bought_part_is_made_of_its_supplier_is_asked() -> None:
    line = '  - {item: "1", kind: structural, location: head, bonded: true, contacts: none}\n'
    bought = line.replace("contacts", "vendor: V-1, contacts")
    for lines, who in ((line, Role.DESIGNER), (bought, Role.SUPPLIER)):
        asked = _asked(lines)
        assert {one for keys, (one, _) in asked.items() if "materials" in keys} == {who}


def test_a_name_that_no_table_has_is_one_cause_that_says_it() -> None:
    """Common practice, no source: who reads of a misspelt name looks for the name."""
    used = "exposure: splash, welded: false, crevice: false, stressed: false"
    lines = "".join(
        f'  - {{item: "{item}", kind: structural, location: head, bonded: true, contacts: none,'
        f" materials: [{{material: {material}, {used}}}], materials_complete: true}}\n"
        for item, material in (("1", "unobtanium"), ("2", "316L"))
    )
    text = (HEAD + lines).replace("{name: sodium hydroxide", "{name: sodium hydroxid")
    told = {
        one.what: (one.who, one.names)
        for one in causes(_judged(text.encode()))
        if one.what.startswith("'")
    }
    assert [(who, names) for who, names in told.values()] == [
        (Role.DESIGNER, ("1",)),
        (Role.PROCESS_OWNER, ("head", "2")),
    ]
    material, chemical = told
    assert material == "'unobtanium' is no known material."
    assert chemical.startswith("'sodium hydroxid' is no known chemical. Nearest known: sodium-hydr")


@pytest.mark.parametrize(
    ("plate", "asked"),
    [
        ("CE", "What does the nameplate say beside 'CE'?"),
        ("II 2G Ex zz IIB T4 Gb", "What does the nameplate say beside 'II 2G Ex zz IIB T4 Gb'?"),
        (None, "What does the nameplate say?"),
    ],
)
def test_a_plate_that_says_too_little_is_quoted(plate: str | None, asked: str) -> None:
    said = "" if plate is None else f", marking: {plate}"
    told = [
        one.what
        for one in causes(_report(f'  - {{item: "1", kind: electrical, location: head{said}}}\n'))
        if any(each.row.key == "marking" and each.row.subject == "part" for each in one.asks)
    ]
    assert len(told) == 1
    assert told[0].startswith(asked)


def test_a_material_that_only_an_answer_states_is_asked_about_as_any() -> None:
    """The second material is no material of the line: its finding lies beyond the line's own."""
    answer = (
        "[{key: materials, value: [{component: body, material: 316L}, "
        "{component: cover, material: POM-C, exposure: splash}], role: supplier, on: 2025-11-12}]"
    )
    line = (
        '  - {item: "1", location: head, kind: mechanical, exposure: splash, '
        f"materials: [{{component: body, material: 316L}}], answered: {answer}}}\n"
    )
    found = _questions(_report(line))
    paths = {bearer.finding.path for one in found for bearer in one.bearers}
    assert any(path.startswith("parts/0/materials/1") for path in paths)
    assert any("How large is its greatest free surface, or" in one.what for one in found)


def test_what_no_table_has_data_for_is_asked_of_the_same_party_in_report_and_workbook() -> None:
    """Of a bought part its supplier can say more; of a plain one of ours we."""
    material = "materials: [{component: body, material: POM-H, exposure: immersed}]"
    bought = f"kind: mechanical, electrical_content: none, vendor: V-7, {material}"
    own = f"kind: structural, {material}"
    report = _report(
        f'  - {{item: "1", location: head, {bought}}}\n  - {{item: "2", location: head, {own}}}\n'
    )
    parties = {(one.who, one.vendor, name) for one in _questions(report) for name in one.names}
    asked = {
        (one.party.role, one.party.vendor, item)
        for one in questions(report)
        for item in one.items
        if one.key.startswith(("rule.", "part.materials"))
    }
    assert {(Role.SUPPLIER, "V-7", "1"), (Role.DESIGNER, None, "2")} <= asked
    assert asked <= parties
