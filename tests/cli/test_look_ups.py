"""The commands that answer without a list: marking, substance, material, rule, table.

Values expected of the tables: ethanol ignites at 400 °C by IEC 60079-20-1 and at 363 °C by
NFPA 497, both as in the published tables of the `chemicals` package; 316L is 1.4404 (EN 10088-1).
"""

import csv
import io
import json
import re
import textwrap
from pathlib import Path

import pytest

import areafit
from areafit_cli import terminal
from areafit_cli.__main__ import run
from areafit_cli.errors import Exit

SAMPLES = Path(__file__).parents[2] / "sample_bom"
Capture = pytest.CaptureFixture[str]


def told(capsys: Capture, *arguments: str, status: Exit = Exit.PASSED) -> str:
    assert run(list(arguments)) == status
    shown = capsys.readouterr()
    assert shown.err == ""
    return shown.out


def data(capsys: Capture, *arguments: str, status: Exit = Exit.PASSED) -> object:
    return json.loads(told(capsys, *arguments, "--format", "json", status=status))


def test_a_marking_is_decoded_in_the_words_of_the_contract(capsys: Capture) -> None:
    answer = data(capsys, "marking", "Class I, Zone 0, AEx ia IIC T4 Ga")
    assert isinstance(answer, dict)
    assert (answer["system"], answer["problems"]) == ("NEC zone", [])
    (code,) = answer["parts"]
    expected = {
        "class": "I",
        "division": None,
        "zone": 0,
        "category": None,
        "protection": ["ia"],
        "groups": ["IIC"],
        "temperature_class": "T4",
        "maximum_surface_temperature_c": 135,
        "epl": "Ga",
        "associated": False,
        "equipment": "electrical",
        "suffix": None,
    }
    assert {key: code[key] for key in expected} == expected


def test_of_several_temperatures_the_hottest_is_told(capsys: Capture) -> None:
    text = "Class I, Division 1, Groups C, D, T4 Ta 40 °C, T3 Ta 60 °C"
    answer = data(capsys, "marking", text)
    assert isinstance(answer, dict)
    assert answer["parts"][0]["temperature_class"] == "T3"
    assert [each["class"] for each in answer["parts"][0]["temperatures"]] == ["T4", "T3"]


@pytest.mark.parametrize("text", ["Ex db IIC T7 Gb", "words without a code", ""])
def test_a_marking_that_is_wrong_or_unread_is_1(capsys: Capture, text: str) -> None:
    answer = data(capsys, "marking", text, status=Exit.FAILED)
    assert isinstance(answer, dict)
    assert answer["problems"] or not answer["parts"]
    told(capsys, "marking", text, status=Exit.FAILED)


def test_a_marking_in_text_shows_codes_and_what_is_wrong(capsys: Capture) -> None:
    text = told(capsys, "marking", "Ex db [ia Ga] IIC T7 Gb X", "--full", status=Exit.FAILED)
    assert "code 1: IEC, gas" in text
    assert "wrong\n  There is no temperature class T7.\n" in text
    assert "clause" in text


def test_a_substance_tells_what_it_asks_for_by_each_code(capsys: Capture) -> None:
    answer = data(capsys, "substance", "64-17-5")
    assert isinstance(answer, dict)
    (ethanol,) = answer["substances"]
    assert [cited["value"] for cited in ethanol["autoignition"]] == [400, 363]
    asked = {each["code"]: each for each in ethanol["asks_for"]}
    assert asked["IEC"]["groups"] == {"zone gas": ["IIB"]}
    assert asked["NEC"]["groups"]["division gas"] == ["D"]
    assert {each["temperature_class"] for each in asked.values()} == {"T2"}
    assert {each["surface_below_c"] for each in asked.values()} == {363}


def test_a_dust_names_the_layer_that_it_was_asked_for(capsys: Capture) -> None:
    text = told(capsys, "substance", "sugar", "--full")
    assert "dust layer         5 mm" in text
    assert "Sugar\n" in text
    assert "source_id" not in text


def test_a_material_is_found_by_any_of_its_names(capsys: Capture) -> None:
    answer = data(capsys, "material", "1.4404")
    assert isinstance(answer, dict)
    (found,) = answer["materials"]
    assert found["id"] == "316L"
    assert found["resistance"]
    assert all(row["source_id"] and row["locator"] for row in found["resistance"])


def test_a_material_in_text_shows_rows_with_sources(capsys: Capture) -> None:
    text = told(capsys, "material", "316L", "--full")
    assert text.startswith("316L")
    assert "RESISTANCE" in text
    assert "hydrochloric-acid 0..37 % at any temperature: unsuitable" in text


def test_rules_are_listed_and_told(capsys: Capture) -> None:
    listed = data(capsys, "rule")
    assert isinstance(listed, list)
    assert [each["id"] for each in listed] == [rule.id for rule in areafit.RULES]
    text = told(capsys, "rule")
    assert all(f"  {rule.id} " in text for rule in areafit.RULES)


def test_every_rule_can_be_told_with_its_examples(capsys: Capture) -> None:
    for rule in areafit.RULES:
        text = told(capsys, "rule", rule.id)
        for part in (rule.title, *(example.verdict.value for example in rule.examples)):
            assert part in text
        lists = re.findall(r"^  areafit: 1\n(?:  .+\n)+", text, re.MULTILINE)
        assert len(lists) == len(rule.examples)
        for each in lists:  # as they are copied
            assert areafit.read(textwrap.dedent(each).encode(), "copied.yaml").parts
        one = data(capsys, "rule", rule.id)
        assert isinstance(one, dict)
        assert one["clause"] == rule.clause
        assert len(one["examples"]) == len(rule.examples)


def test_coverage_is_told_in_every_format(capsys: Capture) -> None:
    answer = data(capsys, "rule", "--coverage")
    assert isinstance(answer, dict)
    rows = answer["coverage"]
    assert {row["outcome"] for row in rows} == {"judged", "not judged", "no matter of a list"}
    text = told(capsys, "rule", "--coverage")
    page = told(capsys, "rule", "--coverage", "--format", "markdown")
    for document in {row["document"] for row in rows}:
        assert f"\n{document.upper()}\n" in text
        assert f"### {document}\n" in page
    assert page.count("\n| ") == len(rows) + 2 * len({row["document"] for row in rows})
    said = " ".join(text.split())
    assert "not judged: a list states neither activity nor dose; ask the supplier" in said


def test_coverage_and_a_rule_are_asked_apart(capsys: Capture) -> None:
    assert run(["rule", "kind", "--coverage"]) == Exit.WRONG_INPUT
    assert "name a rule or ask for --coverage, not both" in capsys.readouterr().err


def test_rules_are_told_in_markdown(capsys: Capture) -> None:
    page = told(capsys, "rule", "--format", "markdown")
    assert all(f"\n| {rule.id} | " in page for rule in areafit.RULES)
    one = told(capsys, "rule", "kind", "--format", "markdown")
    assert one.startswith("## kind\n")
    assert one.count("```yaml\n") == one.count("\n### ")


def test_a_table_is_exported_as_it_is_shipped(capsys: Capture) -> None:
    rows = list(csv.DictReader(io.StringIO(told(capsys, "table", "sources", "--format", "csv"))))
    answer = data(capsys, "table", "sources")
    assert isinstance(answer, list)
    assert [row["id"] for row in rows] == [row["id"] for row in answer]
    assert all(value != "" for row in answer for value in row.values())
    assert rows[0]["title"].split()[0] in told(capsys, "table", "sources")


@pytest.mark.parametrize("kind", ["text", "csv", "json"])
def test_tables_are_listed(capsys: Capture, kind: str) -> None:
    text = told(capsys, "table", "--format", kind)
    assert "substances" in text
    assert "resistance" in text


def test_what_is_judged_of_a_material_stands_first_under_the_labels_of_check(
    capsys: Capture,
) -> None:
    caustic = ("--chemical", "caustic soda, 2 %, 60 °C", "--exposure", "splash")
    text = told(capsys, "material", "AL-6061", *caustic, "--full")
    judged, data_ = text[: text.index("  id  ")], text[text.index("  id  ") :]
    assert judged.startswith("flag  chemical-resistance\n")
    for label in ("required  ", "found     ", "to pass   ", "who       ", "clause    "):
        assert f"    {label}" in judged
    assert "remedy" not in text
    assert "serves to" in data_
    assert "Mg+Ti+Zr" in data_
    assert "source_id" not in text
    assert "tmin" not in text
    passing = judged[judged.index("pass  material-temperature") :].split("\n\n")[0]
    assert "to pass" not in passing
    assert "ask " not in passing


def test_a_name_of_several_grades_says_so_and_stays_short(capsys: Capture) -> None:
    text = told(capsys, "material", "stainless", "steel")
    assert text.startswith("'stainless steel' may be any of 5 grades: 303, 304, 316, 410, 430;")
    assert "RESISTANCE" not in text
    assert len(text.splitlines()) < 12
    acid = ("--chemical", "hydrochloric acid, 5 %, 30 °C")
    text = told(capsys, "material", "stainless steel", *acid)
    (line,) = (line for line in text.splitlines() if line.startswith("  304  "))
    assert line.startswith("  304  flag  chemical-resistance: ")
    assert len(text.splitlines()) < 30
    answer = data(capsys, "material", "stainless steel")
    assert isinstance(answer, dict)
    assert all(one["resistance"] for one in answer["materials"])


def test_no_chemical_is_judged_where_there_is_none(capsys: Capture) -> None:
    answer = data(capsys, "material", "316L", "--chemical", "none")
    assert isinstance(answer, dict)
    assert answer["findings"] == []


def test_words_of_a_name_need_no_quotes(capsys: Capture) -> None:
    for command, name in (
        ("marking", "Ex ia IIC T4 Ga"),
        ("substance", "icing sugar"),
        ("material", "AISI 316L"),
    ):
        assert told(capsys, command, *name.split()) == told(capsys, command, name)


def test_a_quantity_of_two_lists_is_one_line_and_its_remark_told_once(capsys: Capture) -> None:
    text = told(capsys, "substance", "toluene", "--full")
    assert " ".join(text.split()).count("the lists differ: IEC 530 °C, NFPA 480 °C") == 1
    (line,) = [line for line in text.splitlines() if line.startswith("  autoignition")]
    assert "530 °C (" in line
    assert "stay below         480 °C (480 °C itself is too hot)" in text
    assert not text.endswith("\n\n")
    assert "stay at or below" in told(capsys, "substance", "sugar", "--full")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("substance", "caustic soda"), "is a chemical: judge a material against it by `areafit"),
        (("material", "caustic soda"), '--chemical "caustic soda, 2 %, 60 °C"'),
        (("material", "alumini"), "aluminium"),
        (("material", "Qwertylon"), "write a grade or a generic name, such as 316L, FKM or POM"),
        (("material", "316L", "--chemical", "caustc soda"), "near to it: caustic soda"),
        (("material", "316L", "--chemical", "unobtainic acid"), "CAS number"),
        (("substance", "xyzzyx"), "see `areafit table substances`"),
    ],
)
def test_an_unknown_name_is_2_and_says_where_to_look(
    capsys: Capture, arguments: tuple[str, ...], words: str
) -> None:
    assert run(list(arguments)) == Exit.WRONG_INPUT
    shown = capsys.readouterr()
    assert shown.out == ""
    assert words in shown.err


@pytest.mark.parametrize(
    ("words", "status", "first"),
    [
        (
            ("substance", "ethanol"),
            Exit.PASSED,
            "Ethanol: IEC zone gas IIB, T2, surfaces below",
        ),
        (("substance", "sugar"), Exit.PASSED, "Sugar: IEC zone dust IIIB"),
        (("marking", "Ex db IIC T4 Gb"), Exit.PASSED, "Ex db IIC T4 Gb: reads without a complaint"),
        (("marking", "Ex db IIC T7 Gb"), Exit.FAILED, "Ex db IIC T7 Gb: 1 wrong"),
        (("material", "316L"), Exit.PASSED, "316L austenitic stainless steel, serves at -196..400"),
        (
            ("material", "AL-6061", "--chemical", "caustic soda, 2 %, 60 °C"),
            Exit.PASSED,
            "flag: AL-6061 corrodes",
        ),
        (
            ("material", "316L", "--chemical", "caustic soda, 2 %, 60 °C"),
            Exit.PASSED,
            "pass (caustic soda, 2 %, 60 °C): 316L resists caustic soda",
        ),
    ],
)
def test_the_first_line_answers(
    capsys: Capture, words: tuple[str, ...], status: Exit, first: str
) -> None:
    """What was asked in the first line, and no more than a screen of it."""
    text = told(capsys, *words, status=status)
    assert text.startswith(first)
    assert len(text.splitlines()) <= 50
    assert "--full" in text


@pytest.mark.parametrize("word", ["table", "rule"])
def test_a_person_who_looks_sees_a_table_and_a_pipe_plain_text(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, word: str
) -> None:
    plain = told(capsys, word)
    monkeypatch.setattr(terminal, "looked_at", lambda: True)
    shown = told(capsys, word)
    assert "─" in shown
    assert "─" not in plain
    for name in ("chemicals", "sources") if word == "table" else ("gas-group", "bonding"):
        assert name in shown
        assert name in plain


def test_what_chemicals_give_together_is_told_in_words(capsys: Capture) -> None:
    """Group numbers and letters of the chart stand in the table alone."""
    run(["check", str(SAMPLES / "solvent_skid.yaml"), "--full"])
    text = " ".join(capsys.readouterr().out.split())
    assert "nitric acid and acetone must not share" in text
    assert "H|F" not in text
    assert "chart cell" not in text


def test_rows_of_a_material_are_those_of_the_strength_asked_about(
    capsys: pytest.CaptureFixture[str],
) -> None:
    run(["material", "316L", "--chemical", "sodium hydroxide, 2 %, 60 °C"])
    told = capsys.readouterr().out
    bands = re.findall(r"sodium-hydroxide ([\d.]+)\.\.([\d.]+) %", told)
    assert bands
    assert all(float(low) <= 2 <= float(high) for low, high in bands)
    assert "more rows, of other strengths too" in told
    assert len(told.splitlines()) <= 15
