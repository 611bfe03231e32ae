"""What people mistype is told where it stands, once, with what to write instead.

The mistakes are common practice, no source: other languages, word processors, data sheets.
"""

from pathlib import Path

import pytest

import areafit
from areafit_cli.checking import pair

LIST = """\
areafit: 1
assembly: {number: T}
code: IEC
locations:
  a:
    area: unclassified
    document: D
    substances: none
    ambient: 5..40 °C
    chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 60 °C}]
parts:
  - item: "1"
    location: a
    kind: mechanical
    drive: pneumatic
    rubbing_speed: 0.5 m/s
"""


def told(old: str, new: str) -> str:
    assert LIST.count(old) == 1
    with pytest.raises(areafit.InputErrors) as found:
        areafit.read(LIST.replace(old, new).encode(), "t.yaml")
    (error,) = found.value.errors
    return str(error)


@pytest.mark.parametrize(
    ("old", "new", "where", "said", "meant"),
    [
        ("0.5 m/s", "0,5 m/s", "16:20", "comma", "0.5 m/s"),
        ("0.5 m/s", "“0.5 m/s”", "16:20", "typographic quotes", "0.5 m/s"),
        ("2 %", "10 Vol.-%", "10:57", "not read", "10 % v/v"),
        ("2 %", "10 % vol", "10:57", "not read", "10 % v/v"),
        ("2 %", "10 Gew.-%", "10:57", "not read", "10 %"),
        ("2 %", "500 ppm", "10:57", "parts of what", "mg/L"),
        ("5..40 °C", "10 bis 40 °C", "9:14", "no range", "10..40 °C"),
        ("5..40 °C", "10 °C à 40 °C", "9:14", "no range", "10 °C..40 °C"),
        ("mechanical", "“mechanical”", "14:11", "typographic quotes", "mechanical"),
        ("    drive: pneumatic", "    drive", "15:5", "'drive' stands by itself", "`drive: …`"),
        ('  - item: "1"', '  -item: "1"', "12:3", "missing behind the dash", "write `- item:`"),
        ("60 °C}]", "60 °C", "10:17", "bracket begins here", "close it"),
        ("drive: pneumatic", "materials: [{material: A", "15:17", "bracket begins", "close it"),
        ("chemicals: [", "chemicals:[", "10:5", "missing behind the colon", "`chemicals: [`"),
        ('"1"', "“1”", "12:11", "typographic quotes", "write it without: 1"),
        ("drive: pneumatic", "drive:pneumatic", "15:5", "space is missing", "drive: pneumatic"),
        ("name: sodium", "name:sodium", "10:18", "space is missing", "name: sodium"),
        ('"1"', '"1', "12:11", "quote begins here", "close it"),
        ("location: a", "location: 'a", "13:15", "quote begins here", "close it"),
        ("    document: D", "\u00a0   document: D", "7:1", "no", "plain space"),
        ("    document: D", "    document:\u00a0D", "7:14", "none for YAML", "plain space"),
        ("name: sodium", "name:\u00a0sodium", "10:23", "none for YAML", "plain space"),
        ("    document: D", "      document: D", "7:7", "6 spaces", "with 4 spaces, as line 6"),
        ("    kind: mech", "   kind: mech", "14:4", "3 spaces", "4 spaces, as line 12 does behind"),
        ("    kind: mech", "\tkind: mech", "14:1", "a tab", "spaces"),
        ('  - item: "1"', '  -\titem: "1"', "12:4", "a tab", "spaces"),
        ("document: D", "document: D: rev B", "7:15", "a colon", "quote it: 'D: rev B'"),
        ("document: D", "document: Fan's: B", "7:15", "a colon", 'quote it: "Fan\'s: B"'),
        (
            "    drive: pneumatic",
            "  drive: pneumatic",
            "15:3",
            "line 12 begins an entry",
            "4 spaces",
        ),
        ("2 %", "5 oz/gal", "10:57", "'oz/gal' in '5 oz/gal' is no unit", "g/L"),
        ("area: unclassified", "area: [Class I, Division 2]", "6:11", "cut a text", "quote the"),
        (
            "drive: pneumatic",
            "marking: [Class I, Division 2, Groups A, B, T3C]",
            "15:14",
            "one is 'Division 2'",
            "'Class I, Division 2, Groups A, B, T3C'",
        ),
        ("drive: pneumatic", "contacts: n/a", "15:15", "", "write `none`"),
        ("drive: pneumatic", "contacts: no", "15:15", "", "write `none`"),
        ("drive: pneumatic", "materials: {material: '304'}", "15:16", "list", "in brackets"),
        ("drive: pneumatic", "atmosphere: normal", "15:5", "no key", "is a key of a place"),
        ("drive: pneumatic", "welded: no", "15:5", "no key", "`materials` of a part"),
        ("drive: pneumatic", "temperature: 5 °C", "15:5", "no key", "did you mean `surface_temp"),
        (
            "{name: sodium hydroxide,",
            "{name: “lye, strong”,",
            "10:30",
            "typographic",
            "plain quotes",
        ),
    ],
)
def test_a_slip_is_told_with_what_is_meant(
    old: str, new: str, where: str, said: str, meant: str
) -> None:
    message = told(old, new)
    assert message.startswith(f"t.yaml:{where}:")
    assert said in message
    assert meant in message


def test_an_entry_among_keys_is_told_with_the_key() -> None:
    text = LIST.replace('  - item: "1"', '  "1":') + '  - item: "2"\n'
    with pytest.raises(areafit.InputErrors) as found:
        areafit.read(text.encode(), "t.yaml")
    (error,) = found.value.errors
    assert "line 12 begins a key" in str(error)


def test_within_brackets_the_depth_of_a_line_means_nothing() -> None:
    message = told("{name: sodium hydroxide,", "{name: sodium: hydroxide,\n ")
    assert "begins with" not in message


@pytest.mark.parametrize(
    "stated",
    ["[II 2G Ex db IIC T4 Gb, II 2D Ex tb IIIC T80 °C Db]", "['Class I, Division 2', IP66]"],
)
def test_several_nameplates_are_no_text_cut_into_pieces(stated: str) -> None:
    areafit.read(LIST.replace("drive: pneumatic", f"marking: {stated}").encode(), "t.yaml")


def test_a_space_that_does_not_break_is_read_in_a_value() -> None:
    areafit.read(LIST.replace("5..40 °C", "5..40\u00a0°C").encode(), "t.yaml")


def test_an_unknown_code_is_no_slip_of_the_pen() -> None:
    message = told("code: IEC", "code: CEC")
    assert "NFPA 70" in message
    assert "perhaps" not in message


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("x.csv", b"Item,Part\n1,A\n", "areafit import x.csv"),
        ("x.xlsx", b"PK\x03\x04 rest", "areafit import x.xlsx"),
        ("x.xls", b"\xd0\xcf\x11\xe0 rest", "save the parts list as"),
        ("x.pdf", b"%PDF-1.7", "save the parts list as"),
    ],
)
def test_an_export_is_told_how_it_becomes_a_list(name: str, data: bytes, said: str) -> None:
    with pytest.raises(areafit.InputErrors) as found:
        areafit.read(data, name)
    (error,) = found.value.errors
    assert said in str(error)


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("x.html", "html"),
        ("x.JSON", "json"),
        ("x.xml", "junit"),
        ("x.md", "markdown"),
        ("x", "text"),
    ],
)
def test_a_report_without_a_format_goes_by_the_name_of_its_file(name: str, kind: str) -> None:
    (target,) = pair((), (name,), ())
    assert (target.format, target.path) == (kind, Path(name))
