"""Milder own values of a listed substance never decide, whoever states them and by which name.

ISO/IEC 80079-20-1:2017 fixes group and autoignition temperature of a substance by tests of the pure
substance (from memory); hydrogen is IIC, carbon disulfide IIC and ignites at 90 °C in its annex B
(from memory, rows of the tables). That a role may answer for another value is common practice.
"""

from collections.abc import Callable
from datetime import date

import pytest

import areafit
from areafit.engine import judge
from areafit.findings.report import BomReport, Finding
from areafit.findings.waivers import WaiverState, apply
from areafit.options import Options
from areafit.tables import Tables
from areafit.tables.catalogue import CATALOGUE
from areafit.tables.load import columns
from areafit.verdict import Basis, Verdict

P, F, U, N = Verdict.PASS, Verdict.FLAG, Verdict.UNPROVEN, Verdict.NOT_APPLICABLE
Say = Callable[..., Verdict]
OWN = "source: x, document: X"
IN = "area: 'Zone 1{}', substances: [{{name: {}, {}}}]"


def _in(name: str, values: str, more: str = "") -> str:
    return IN.format(more, name, f"{values}, {OWN}")


GROUPS = [
    # the row of the review, and by alias, formula, CAS number
    ("Ex db IIA T1 Gb", _in("hydrogen", "group: IIA", ", T1"), U),
    ("Ex db IIA T1 Gb", _in("H2", "group: IIA"), U),
    ("Ex db IIA T1 Gb", _in("1333-74-0", "group: IIA"), U),
    # what fails even the value stated is refused
    ("Ex db IIA T1 Gb", _in("hydrogen", "group: IIB"), F),
    ("Ex db IIB T1 Gb", _in("hydrogen", "group: IIB"), U),
    ("Ex db IIA T4 Gb", _in("acetylene", "group: IIB"), F),
    ("Ex db IIA T4 Gb", _in("ethylene", "group: IIA"), U),
    # what meets the row needs nobody's word
    ("Ex db IIC T1 Gb", _in("hydrogen", "group: IIA"), P),
    ("Ex db IIB+H2 T1 Gb", _in("hydrogen", "group: IIA"), P),
    # a more onerous value decides
    ("Ex db IIB T4 Gb", _in("ethanol", "group: IIC"), F),
    ("Ex db IIC T4 Gb", _in("ethanol", "group: IIC"), P),
    # a declared group that the part does not cover is refused whatever the substance is said to be
    ("Ex db IIA T1 Gb", _in("hydrogen", "group: IIA", ", IIC"), F),
    # a blend that is nobody's row has its own values
    ("Ex db IIA T3 Gb", _in("blend 7", "group: IIA, autoignition: 300 °C"), P),
    # names of one's own that hold a listed name
    ("Ex db IIA T1 Gb", _in("hydrogen technical", "group: IIA"), U),
    ("Ex db IIA T1 Gb", _in("works hydrogen 5.0", "group: IIA, autoignition: 600 °C"), U),
    ("Ex db IIA T1 Gb", _in("'H2/N2 5/95'", "group: IIA, autoignition: 600 °C"), U),
    ("Ex db IIA T1 Gb", _in("hydrogen-rich off-gas", "group: IIA, autoignition: 600 °C"), U),
    ("Ex db IIC T1 Gb", _in("hydrogen technical", "group: IIA"), P),
    ("Ex db IIA T2 Gb", "area: Zone 1, substances: [works hydrogen 5.0]", F),
    ("Ex db IIC T2 Gb", "area: Zone 1, substances: [works hydrogen 5.0]", U),
    # and that hold letters of one only, or name another compound
    ("Ex db IIA T3 Gb", _in("hydrogenated oil", "group: IIA, autoignition: 300 °C"), P),
    ("Ex db IIA T3 Gb", _in("hydrogen-free purge", "group: IIA, autoignition: 300 °C"), P),
    ("Ex db IIA T3 Gb", _in("Co 4 thinner", "group: IIA, autoignition: 300 °C"), P),
    ("Ex db IIB T3 Gb", _in("works glycol ether", "group: IIB, autoignition: 230 °C"), P),
]


@pytest.mark.parametrize(("marking", "place", "expected"), GROUPS)
def test_a_milder_group_never_decides(
    say: Say, marking: str, place: str, expected: Verdict
) -> None:
    assert say("gas-group", f"kind: electrical, marking: {marking}", place) is expected


HEATS = [
    ("T3", _in("carbon disulfide", "autoignition: 220 °C"), U),
    ("T3", _in("CS2", "autoignition: 220 °C"), U),
    ("T3", _in("carbon disulphide", "autoignition: 220 °C"), U),
    ("T3", _in("75-15-0", "autoignition: 220 °C"), U),
    ("T3", _in("Schwefelkohlenstoff", "autoignition: 220 °C"), U),
    ("T3", _in("disulfuro de carbono", "autoignition: 220 °C"), U),
    ("T2", _in("carbon disulfide", "autoignition: 220 °C"), F),
    ("T3", _in("carbon disulfide", "autoignition: 200 °C"), F),
    ("T6", _in("carbon disulfide", "autoignition: 220 °C"), P),
    ("T6", _in("carbon disulfide", "autoignition: 80 °C"), F),
    ("T1", _in("acetaldehyde", "autoignition: 500 °C"), U),
    ("T3", _in("stabilised carbon disulfide", "group: IIA, autoignition: 220 °C"), U),
    # dusts are tested by the sample: a documented figure of one's own decides
    ("T3", _in("methane", "autoignition: 700 °C"), P),
]


@pytest.mark.parametrize(("mark", "place", "expected"), HEATS)
def test_a_milder_temperature_never_decides(
    say: Say, mark: str, place: str, expected: Verdict
) -> None:
    part = f"kind: electrical, marking: Ex db IIC {mark} Gb"
    assert say("temperature-class", part, place) is expected


DIVISION = "area: 'Class I, Division 1', substances: [{{name: {}, {}, source: x, document: X}}]"


def test_division_letters_and_hot_surfaces_alike(say: Say) -> None:
    part = "kind: electrical, marking: 'Class I, Division 1, Groups C, D T3'"
    assert say("gas-group", part, DIVISION.format("acetylene", "group: D"), "NEC") is U
    assert say("gas-group", part, DIVISION.format("acetylene", "group: B"), "NEC") is F
    heat = DIVISION.format("carbon disulfide", "autoignition: 220 °C")
    assert say("temperature-class", part, heat, "NEC") is U
    hot = "kind: mechanical, electrical_content: none, rubbing_speed: 2 m/s, surface_temperature: "
    hot += "{{value: {} °C, at_ambient: 40 °C, case: expected malfunction, source: TR-1}}"
    place = _in("carbon disulfide", "autoignition: 220 °C") + ", ambient: 5..40 °C"
    assert say("hot-surface", hot.format(150), place) is U
    assert say("hot-surface", hot.format(230), place) is F
    assert say("hot-surface", hot.format(60), place) is P


def test_a_declared_area_is_held_to_the_row(say: Say) -> None:
    place = f"area: 'Zone 1, {{}}', substances: [{{{{name: {{}}, {{}}, {OWN}}}}}], document: A"
    assert say("declared-area", place=place.format("IIA, T1", "hydrogen", "group: IIA")) is U
    assert say("declared-area", place=place.format("IIA, T1", "hydrogen", "group: IIB")) is F
    assert say("declared-area", place=place.format("IIC, T1", "hydrogen", "group: IIA")) is P
    heat = "carbon disulfide", "autoignition: 220 °C"
    assert say("declared-area", place=place.format("IIC, T3", *heat)) is U
    assert say("declared-area", place=place.format("IIC, T2", *heat)) is F


def test_a_declared_class_is_told_one_thing_of_a_milder_value(
    tell: Callable[..., str],
) -> None:
    place = f"area: 'Zone 1, IIC, {{}}', document: A, substances: [{{{{name: CS2, {{}}, {OWN}}}}}]"
    lax = "autoignition: 220 °C"
    meets_it, fails_it, meets_both = (
        [
            line
            for line in tell("declared-area", place=place.format(t, lax)).split("\n")
            if "°C" in line
        ]
        for t in ("T4", "T2", "T6")
    )
    assert len(meets_it) == len(fails_it) == len(meets_both) == 1
    assert "too hot: CS2 ignites at 90 °C" in meets_it[0]
    assert "which decides nothing" in meets_it[0]
    assert "by its row, and at 220 °C by that stated in the list" in fails_it[0]
    assert "low enough: CS2 ignites at 90 °C." in meets_both[0]


def test_a_documented_test_of_a_dust_decides(say: Say) -> None:
    """ISO/IEC 80079-20-2:2016 tests the sample (from memory); its group is what it is made of."""
    part = "kind: electrical, marking: Ex tb IIIB T{}°C Db"
    flour = "area: 'Zone 21', substances: [{{name: wheat flour, {}, source: TR, {}}}]"
    values = "group: IIIB, cloud_ignition: 600 °C, layer_ignition: 500 °C"
    assert say("temperature-class", part.format(380), flour.format(values, "document: TR-1")) is P
    metal = f"area: Zone 21, substances: [{{name: aluminium dust, group: IIIB, {OWN}}}]"
    assert say("dust-group", part.format(100), metal) is U
    assert say("dust-group", "kind: electrical, marking: Ex tb IIIA T100°C Db", metal) is F


LIST = """areafit: 1
assembly: {number: T-1}
code: IEC
locations:
  cell: {area: Zone 1, substances: [{name: carbon disulfide, autoignition: 220 °C, source: x,
         document: X}]}
parts:
  - {item: '1', location: cell, kind: electrical, marking: Ex db IIC T3 Gb}
"""


def _report(text: str = LIST, tables: Tables | None = None, **options: object) -> BomReport:
    given = Options(as_of=date(2026, 1, 1), **options)  # type: ignore[arg-type]
    return judge(areafit.read(text.encode(), "t.yaml"), tables or Tables.shipped(), given)


def _finding(report: BomReport, rule: str) -> Finding:
    [found] = [f for part in report.parts for f in part.open_findings() if f.rule.id == rule]
    return found


def test_the_value_is_shown_and_never_counts_as_seen() -> None:
    found = _finding(_report(), "temperature-class")
    assert "220 °C stated in the list (x; X, substances/0)" in found.message
    assert found.basis is Basis.JUDGEMENT
    assert any(row.value == "220 °C" for row in found.rows)


def test_it_is_accepted_by_a_waiver_with_a_document_alone() -> None:
    report = _report()
    found = _finding(report, "temperature-class")
    for document, state in ((None, WaiverState.INCOMPLETE), ("DN-7", WaiverState.USED)):
        line = f", document: {document}" if document else ""
        text = (
            "areafit-waivers: 1\nwaivers:\n"
            f"  - {{item: '1', rule: temperature-class, fingerprint: '{found.fingerprint}', "
            f"reason: tested, approved_by: area owner, until: 2027-01-01{line}}}\n"
        )
        waivers = areafit.read_waivers(text.encode(), "w.yaml")
        [outcome] = apply(report, waivers, date(2026, 1, 1)).waiver_outcomes
        assert outcome.state is state
    accepted = _report(accept_unproven=frozenset({"temperature-class"}))
    assert _finding(accepted, "temperature-class").verdict is U


SOURCES = b"id,title,edition,publisher,kind,read_on,note\nlab,Works laboratory TR-7,,,practice,,\n"


def _own(approved: str = "area owner,2025-01-01", **files: str) -> Tables:
    """Own tables, the rows of each as written, with a source and an approval behind."""
    made = {"own/sources.csv": SOURCES}
    for table, rows in files.items():
        header = ",".join((*columns(CATALOGUE[table].row_type), "approved_by", "approved_on"))
        lines = [header, *(f"{row},lab,p. 3,seen,,{approved}" for row in rows.splitlines())]
        made[f"own/{table}.csv"] = ("\n".join(lines) + "\n").encode()
    return Tables.overlaid(made)


def _at(tables: Tables, substance: str, marking: str, rule: str, code: str = "IEC") -> Verdict:
    text = LIST.replace("Ex db IIC T3 Gb", marking).replace("IEC", code)
    start, end = text.index("substances: ["), text.index("parts:")
    text = f"{text[:start]}substances: [{substance}]}}\n{text[end:]}"
    report = _report(text, tables, only=frozenset({rule}))
    return report.parts[0].verdict


def test_own_tables_are_held_alike() -> None:
    heat = "carbon-disulfide,autoignition_c,,220"
    tables = _own(substance_values=heat)
    for name in ("carbon disulfide", "CS2", "75-15-0"):
        assert _at(tables, name, "Ex db IIC T3 Gb", "temperature-class") is U
        assert _at(tables, name, "Ex db IIC T2 Gb", "temperature-class") is F
        assert _at(tables, name, "Ex db IIC T6 Gb", "temperature-class") is P
    assert _at(_own(",", substance_values=heat), "CS2", "Ex db IIC T3 Gb", "temperature-class") is F
    [told] = tables.laxer
    assert told.approved
    assert not told.governs
    group = _own(substance_values="hydrogen,group,iec,IIA")
    assert _at(group, "H2", "Ex db IIA T1 Gb", "gas-group") is U
    assert _at(group, "H2", "Ex db IIC T1 Gb", "gas-group") is P


def test_a_declared_area_is_accepted_over_a_milder_value_by_a_document_too() -> None:
    text = LIST.replace("{area: Zone 1,", "{area: 'Zone 1, IIC, T3', document: AC-1,")
    report = _report(text, only=frozenset({"declared-area"}))
    [found] = [each for each in report.places[0].open_findings() if "220 °C" in each.message]
    for document, state in ((None, WaiverState.INCOMPLETE), ("DN-7", WaiverState.USED)):
        line = f", document: {document}" if document else ""
        waived = (
            "areafit-waivers: 1\nwaivers:\n"
            f"  - {{place: cell, rule: declared-area, fingerprint: '{found.fingerprint}', "
            f"reason: tested, approved_by: area owner, until: 2027-01-01{line}}}\n"
        )
        waivers = areafit.read_waivers(waived.encode(), "w.yaml")
        [outcome] = apply(report, waivers, date(2026, 1, 1)).waiver_outcomes
        assert outcome.state is state
    tables = _own(substance_values="carbon-disulfide,autoignition_c,,220")
    plain = text.replace(", autoignition: 220 °C, source: x,\n         document: X", "")
    [place] = _report(plain, tables, only=frozenset({"declared-area"})).places
    assert any("220 °C of own tables" in each.message for each in place.open_findings())


def test_own_tables_take_no_listed_name_for_a_milder_row() -> None:
    blend = "substance_values"
    row = {"substances": "blend-4,{},{},{},,,", blend: "blend-4,group,iec,IIA"}

    def own(name: str, cas: str = "", names: str = "") -> Tables:
        identity = row["substances"].format(name, cas, names)
        return _own(substances=identity, substance_values=row[blend])

    part = "Ex db IIA T1 Gb", "gas-group"
    assert _at(own("Blend 4"), "Blend 4", *part) is P
    assert _at(own("Hydrogen blend"), "Hydrogen blend", *part) is F
    assert _at(own("Blend 4", cas="1333-74-0"), "Blend 4", *part) is F
    assert _at(own("Blend 4", names="hydrogen works"), "hydrogen works", *part) is F
    shared = _own(
        substances=row["substances"].format("Blend 4", "", ""),
        substance_values=row[blend],
        shared_names="substances,H2,blend-4",
    )
    assert _at(shared, "H2", *part) is F


def test_own_tables_grant_no_exception_for_seals() -> None:
    """NFPA 70-2023 500.6(A) exceptions name the substances (from memory); hydrogen is none."""
    tables = _own(substance_values="hydrogen,group_with_seals,nec,D")
    assert tables.substance("hydrogen") == Tables.shipped().substance("hydrogen")
    assert [entry.governs for entry in tables.laxer] == [False]
