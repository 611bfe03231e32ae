"""A question asks for the fact that settles it, of the one who knows, and is true of each line."""

from datetime import date

import pytest

import areafit
from areafit.answers.causes import Cause, CauseKind, causes
from areafit.findings.report import BomReport
from areafit.verdict import Role, Verdict

HEAD = """\
areafit: 1
assembly: {number: T-9, assessment: IHA-9}
code: CODE
unless_stated:
  - document: ES-1
    role: designer
    facts: {bonded: true, drop_height: none, end_stops: none, exposure: room, contacts: none,
            materials_complete: true, loose_parts: contained}
    materials: {welded: false, crevice: false, stressed: false}
locations:
  head:
    area: AREA
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    atmosphere: normal
    chemicals: [{name: citric acid, concentration: 5 %, temperature: 45 °C, rinsed: true}]
  safe: {area: unclassified, document: AC-1, substances: none, ambient: 5..40 °C,
         atmosphere: controlled, chemicals: none}
parts:
"""


def _judged(lines: str, code: str = "IEC", area: str = "'Zone 2, IIB, T3'") -> BomReport:
    text = HEAD.replace("CODE", code).replace("AREA", area) + lines
    return areafit.judge(
        areafit.read(text.encode(), "t.yaml"),
        areafit.Tables.shipped(),
        areafit.Options(as_of=date(2026, 1, 1)),
    )


def _answers(lines: str, code: str = "IEC", area: str = "'Zone 2, IIB, T3'") -> list[Cause]:
    found = causes(_judged(lines, code, area))
    return [one for one in found if one.kind is CauseKind.ANSWER]


def _told(lines: str, code: str = "IEC", area: str = "'Zone 2, IIB, T3'") -> list[str]:
    return [one.what for one in _answers(lines, code, area)]


# ISO 80079-36:2016 4, from memory: what a hand moves slowly has no effective source of its own.
VALVE = (
    '  - {item: "1", location: head, kind: mechanical, electrical_content: none, vendor: V-1,'
    ' materials: [{component: body, material: "316L"}]MORE}\n'
)


@pytest.mark.parametrize(
    ("stated", "asked"),
    [
        ("drive: manual", "How fast do surfaces rub?"),
        ("rubbing_speed: 0.05 m/s", "What moves the part?"),
    ],
)
def test_what_a_hand_may_move_slowly_is_asked_for_that_one_fact(stated: str, asked: str) -> None:
    (one,) = _answers(VALVE.replace("MORE", f", {stated}"))
    assert (one.what, one.who) == (asked, Role.DESIGNER)
    rules = {bearer.finding.rule.id for bearer in one.bearers}
    assert {"ignition-hazard", "hot-surface"} <= rules


def test_the_one_fact_settles_it() -> None:
    assert not _answers(VALVE.replace("MORE", ", drive: manual, rubbing_speed: 0.05 m/s"))


@pytest.mark.parametrize("stated", ["drive: electric", "rubbing_speed: 4 m/s", "bonded: true"])
def test_of_others_the_documents_are_asked_for(stated: str) -> None:
    told = " ".join(_told(VALVE.replace("MORE", f", {stated}")))
    assert "Which documents are on file for the part?" in told


def test_in_zone_0_a_hand_is_no_answer() -> None:
    """Directive 2014/34/EU Annex II 1, from memory: rare malfunctions count in category 1."""
    told = " ".join(_told(VALVE.replace("MORE", ", drive: manual"), area="'Zone 0, IIB, T3'"))
    assert "Which documents are on file for the part?" in told


PUMP = (
    '  - {item: "1", location: head, kind: [mechanical, electrical], electrical_content: motor,'
    ' materials: [{component: housing, material: "316L"}], marking: MARK,'
    " evidence: [{type: assessment, number: IHA-1, level: Gc}]}\n"
)


@pytest.mark.parametrize(
    ("marking", "open_"),
    [
        ("Ex h ec IIC T4 Gc", False),
        ("Ex ec h IIC T4 Gc", False),
        ("Ex ec IIC T4 Gc", True),  # of the electrical half
        ("Ex h ec IIC Gc", True),  # no class
    ],
)
def test_one_marking_of_both_halves_gives_the_class_of_what_moves(
    marking: str,
    open_: bool,  # noqa: FBT001 - a parameter of the case
) -> None:
    """ISO 80079-36:2016 11, from memory: the h stands among the types of one marking."""
    report = _judged(PUMP.replace("MARK", marking))
    found = [f for f in report.parts[0].open_findings() if f.rule.id == "hot-surface"]
    assert bool(found) is open_


def test_a_combined_marking_of_a_lower_level_is_no_cover() -> None:
    """Zone 1 asks for Gb (IEC 60079-14:2013 5.3); the plate gives Gc.

    The part is to be replaced, so its surface is not asked for; nor does its class pass for one.
    """
    report = _judged(PUMP.replace("MARK", "Ex h ec IIC T4 Gc"), area="'Zone 1, IIB, T3'")
    found = {f.rule.id: f for f in report.parts[0].findings()}
    assert found["protection-level"].verdict is Verdict.FLAG
    assert found["ignition-hazard"].verdict is Verdict.FLAG
    assert "assessment" not in found["ignition-hazard"].remedy  # the plate would stay flagged
    assert "hot-surface" not in found


def test_a_figure_speaks_against_a_part_of_a_lower_level() -> None:
    """T3 is 200 °C (IEC 60079-0:2017 5.3.2.2); the T4 of the plate is for Gc."""
    surface = "surface_temperature: {value: 250 °C, at_ambient: 40 °C, case: normal}, marking"
    line = PUMP.replace("marking", surface).replace("MARK", "Ex h ec IIC T4 Gc")
    report = _judged(line, area="'Zone 1, IIB, T3'")
    found = {f.rule.id: f.verdict for f in report.parts[0].open_findings()}
    assert found["hot-surface"] is Verdict.FLAG


def test_what_the_surface_may_keep_is_asked_without_what_is_stated() -> None:
    line = (
        '  - {item: "1", location: head, kind: structural,'
        " materials: [{component: window, material: toughened glass, surface_area: 600 cm²}]}\n"
    )
    (one,) = _answers(line)
    assert one.what.startswith("Which resistance does its surface have?")
    assert "How large" not in one.what


def test_metals_of_one_part_that_may_touch_are_told() -> None:
    line = (
        '  - {item: "1", location: head, kind: mechanical, drive: manual, rubbing_speed: 0.1 m/s,'
        ' exposure: splash, materials: [{component: sheath, material: "316L"},'
        " {component: box, material: C-steel}]}\n"
    ).replace("C-steel", "S235JR")
    told = [one for one in causes(_judged(line)) if "whether they touch" in one.what]
    assert len(told) == 1
    assert told[0].first.verdict is Verdict.UNPROVEN
    assert not [one for one in _told(line) if "made of" in one]


def test_what_is_merged_is_true_of_each_line() -> None:
    plate = (
        '  - {item: "N", location: head, kind: electrical, vendor: V-1, ingress: IP66,'
        " entries: none, inverter_fed: false, materials: [{material: 316L}], marking: MARK,"
        " evidence: [{type: certificate, number: A-1}, {type: declaration, number: D-1}]}\n"
    )
    lines = plate.replace("N,", "1,").replace('"N"', '"1"').replace("MARK", "II 1G Ex ma IIC T4 Ga")
    lines += plate.replace('"N"', '"2"').replace("MARK", "II 2G Ex mb IIC T4 Gb")
    named = {
        word: one.names
        for one in _answers(lines, "ATEX")
        for word in ("Category 1G", "Category 2G")
        if word in one.what
    }
    assert named == {"Category 1G": ("1",), "Category 2G": ("2",)}


def test_a_range_that_does_not_count_is_named() -> None:
    line = (
        '  - {item: "1", location: head, kind: electrical, marking: II 2G Ex mb IIC T4 Gb,'
        " materials: [{material: 316L}],"
        " evidence: [{type: certificate, number: A-1, ambient: -20..60 °C}]}\n"
    )
    report = _judged(line, "ATEX")
    (found,) = (f for f in report.parts[0].findings() if f.rule.id == "ambient-range")
    assert "-20..60 °C of the stated document does not count" in found.message


def test_where_no_data_is_the_supplier_of_a_bought_part_is_asked() -> None:
    line = (
        '  - {item: "1", location: head, kind: structural, exposure: immersed,'
        " materials: [{material: silicon carbide, surface_area: 1 cm²}]MORE}\n"
    )
    for more, who, vendor in (("", Role.DESIGNER, None), (", vendor: V-15", Role.SUPPLIER, "V-15")):
        asked = [one for one in _answers(line.replace("MORE", more)) if "No data" in one.what]
        assert [(one.who, one.vendor) for one in asked] == [(who, vendor)]


LOOP = """\
  - {item: "1", location: head, kind: simple apparatus, vendor: V-2, generates: none,
     materials: [{material: 316L}]}
  - {item: "2", location: safe, kind: electrical, vendor: V-14}
loops:
  - name: L
    source: {item: "2", Um: 250 V, supply: 230 V, Uo: 9 V, Io: 10 mA, Po: 20 mW, Co: 3 µF,
             Lo: 90 mH}
    devices: [{item: "1", Ui: none, Ii: none, PI Ci: 0 nF, Li: 0 µH}]
    cable: {length: 12 m, values: default}
"""


def test_a_question_on_a_loop_names_who_sells_the_device() -> None:
    asked = [one for one in _answers(LOOP.replace("PI", "")) if one.who is Role.SUPPLIER]
    vendors = {
        one.vendor for one in asked for bearer in one.bearers if bearer.name.startswith("loop")
    }
    (level,) = (one for one in asked if "item 2" in one.what)
    assert level.vendor == "V-14"
    assert vendors <= {"V-14", "V-2", None}  # None: of devices of two vendors
    assert "V-14" in vendors


def test_what_is_advised_is_not_refused() -> None:
    """IEC 60079-11:2011 5.6, from memory: simple apparatus is heated by the power it takes."""
    for power in ("", "Pi: none,"):
        told = _judged(LOOP.replace("PI", power)).loops[0].open_findings()
        (found,) = (f"{f.message} {f.remedy}" for f in told if f.rule.id == "loop-power")
        assert "Write `Pi: none`" not in found
        assert "State as `Pi` the power at which its surfaces stay" in found


CONTACT = """\
  - {item: "1", location: head, kind: structural, exposure: splash, materials: OWN,
     contacts: [{with: "2", wet: true}]}
  - {item: "2", location: head, kind: structural, exposure: splash,
     materials: [{component: plate, material: "304"}]}
"""
STAINLESS = '{component: band, material: "304"}, {component: screw, material: "316L"}'


def test_which_piece_touches_is_not_asked_where_it_decides_nothing() -> None:
    """MIL-STD-889C, from memory: austenitic stainless steels are one group."""
    alike = _judged(CONTACT.replace("OWN", f"[{STAINLESS}], materials_complete: true"))
    found = [f for f in alike.parts[0].findings() if f.rule.id == "galvanic-couple"]
    assert found
    assert {f.verdict for f in found} == {Verdict.PASS}


@pytest.mark.parametrize(
    "own",
    [
        f"[{STAINLESS}, {{component: foot, material: S235JR}}], materials_complete: true",
        f"[{STAINLESS}], materials_complete: false",
    ],
)
def test_which_piece_touches_is_asked_where_it_decides(own: str) -> None:
    report = _judged(CONTACT.replace("OWN", own))
    found = [f.message for f in report.parts[0].open_findings() if f.rule.id == "galvanic-couple"]
    assert any("makes the contact with item 2 is not clear" in one for one in found)


def test_an_unknown_substance_is_one_cause_with_the_nearest_names() -> None:
    line = (
        '  - {item: "1", location: head, kind: electrical, marking: Ex mb IIC T4 Gb,'
        " materials: [{material: 316L}]}\n"
    )
    text = (HEAD + line).replace("CODE", "IEC").replace("AREA", "'Zone 1, IIB, T3'")
    report = areafit.judge(
        areafit.read(text.replace("substances: ethanol", "substances: ethanoll").encode(), "t"),
        areafit.Tables.shipped(),
        areafit.Options(as_of=date(2026, 1, 1)),
    )
    named = [one for one in causes(report) if "'ethanoll'" in one.what]
    assert [one.who for one in named] == [Role.PROCESS_OWNER]
    assert "Nearest known: ethanol" in named[0].what


@pytest.mark.parametrize("name", ["tbd", "n.a.", "?"])
def test_a_material_to_be_named_is_asked_for(name: str) -> None:
    line = (
        '  - {item: "1", location: head, kind: structural, exposure: splash,'
        f' materials: [{{material: "{name}"}}]}}\n'
    )
    told = _told(line)
    assert [one for one in told if one.startswith("What is the part made of?")]
    assert not [one for one in told if "no known material" in one or "in no table" in one]


def test_a_number_that_lacks_its_last_digit_has_nearest_names() -> None:
    near = areafit.Tables.shipped().nearest("materials", "1.430")
    assert near[0] == "1.4301"
    assert all(name.startswith("1.430") for name in near)
