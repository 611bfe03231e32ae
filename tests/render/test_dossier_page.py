"""The dossier as markup: self-contained, accessible in structure, safe against what it shows."""

import base64
import hashlib
import re
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.answers.causes import CauseKind, causes
from areafit.engine import judge
from areafit.findings.cautions import CAUTIONS
from areafit.options import Options
from areafit.tables import Tables
from areafit.verdict import Verdict
from areafit_cli.render import Style, wording
from areafit_cli.render.html import findings

LISTS = Path(__file__).parents[1] / "lists43"
VOID = {"meta", "br", "hr", "img", "link", "input"}


class Page(HTMLParser):
    """Elements with attributes and text, and whether every one is closed in order."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.texts: dict[int, str] = {}
        self._open: list[int] = []
        self.feed(text)
        self.close()
        assert not self._open

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs)
        self.elements.append((tag, {name: value or "" for name, value in attrs}))
        if tag not in VOID:
            self._open.append(len(self.elements) - 1)

    def handle_endtag(self, tag: str) -> None:
        assert self.elements[self._open.pop()][0] == tag

    def handle_data(self, data: str) -> None:
        for number in self._open:
            self.texts[number] = self.texts.get(number, "") + data

    def of(self, *tags: str) -> list[tuple[dict[str, str], str]]:
        return [
            (attributes, self.texts.get(number, ""))
            for number, (tag, attributes) in enumerate(self.elements)
            if tag in tags
        ]


@pytest.fixture(scope="module")
def text(made: Any) -> str:
    whole = made.run(made.plain, made.rich, errors=[made.error], as_of=made.day)
    return str(made.rendered("html", whole, made.plain, made.rich))


@pytest.fixture(scope="module")
def page(text: str) -> Page:
    return Page(text)


def test_it_asks_for_nothing_and_runs_nothing(page: Page) -> None:
    tags = {tag for tag, _ in page.elements}
    assert not tags & {"script", "link", "img", "iframe", "object", "form", "base", "video"}
    for _, attributes in page.elements:
        assert not any(name.startswith("on") or name in ("src", "style") for name in attributes)
    assert "url(" not in page.of("style")[0][1]
    assert "@import" not in page.of("style")[0][1]
    assert all(attributes["href"].startswith("#") for attributes, _ in page.of("a"))


def test_the_policy_allows_this_style_only(page: Page) -> None:
    (style,) = page.of("style")
    digest = base64.b64encode(hashlib.sha256(style[1].encode()).digest()).decode()
    policy = next(a["content"] for a, _ in page.of("meta") if "http-equiv" in a)
    assert policy == (
        f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    )


def test_the_structure_serves_a_screen_reader(page: Page) -> None:
    assert page.of("html")[0][0]["lang"] == "en"
    assert page.of("title")[0][1] == "Suitability review PL-1, RF-1: fail"
    assert len(page.of("h1")) == len(page.of("main")) == 1
    levels = [int(tag[1]) for tag, _ in page.elements if re.fullmatch("h[1-6]", tag)]
    assert all(after <= before + 1 for before, after in pairwise(levels))
    tables, captions = page.of("table"), page.of("caption")
    assert len(tables) == len(captions) > 10
    assert all(said for _, said in captions)
    assert all(attributes.get("scope") in ("row", "col") for attributes, _ in page.of("th"))
    for attributes, _ in page.of("div"):
        if "scroll" in attributes.get("class", ""):  # reached and named by keyboard
            assert attributes["tabindex"] == "0"
            assert attributes["aria-label"]


def test_every_link_has_its_mark_and_marks_are_unique(page: Page) -> None:
    marks = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(marks) == len(set(marks))
    assert {attributes["href"][1:] for attributes, _ in page.of("a")} <= set(marks)


def test_no_verdict_is_a_colour_alone(page: Page) -> None:
    words = {verdict.value for verdict in Verdict}
    marks = [
        said
        for attributes, said in page.of("span")
        if attributes.get("class", "").split(" ")[0] in ("mark", "word")
    ]
    assert len(marks) > 50
    assert all(any(word in said for word in words) for said in marks)
    gates = [said for attributes, said in page.of("strong") if "gate" in attributes["class"]]
    assert gates == ["fail", "pass", "fail"]


def test_all_sections_are_there(page: Page) -> None:
    assert [said for _, said in page.of("h3")][-9:] == [
        "Findings by cause",
        "Parts against requirements",
        "Why what passes does",
        "Intrinsically safe loops",
        "Places",
        "Waivers",
        "Sources used",
        "What no rule judges here",
        "Signatures",
    ]
    said = " ".join(content for _, content in page.of("body"))
    for caution in CAUTIONS:
        assert caution in said
    for box in ("1 Must change", "2 Who must answer", "3 To accept", "6 Decided today"):
        assert box in said
    assert "head · Around the filling head" in said
    assert "Uo 28 V (item 4); Ui 24 V (item 1)" in said  # a loop's arithmetic
    assert "23.64 nF (cable, 120 m of 197 pF/m)" in said
    assert "unknown key 'mterial'" in said
    for role in ("Designer", "Process owner", "Area owner", "Installer"):
        assert role in said


def test_sources_are_named_in_full(page: Page, made: Any) -> None:
    said = " ".join(content for _, content in page.of("table"))
    tables = made.rich.places[0].demands.tables
    cited = {
        row.source_id for part in made.rich.parts for found in part.findings() for row in found.rows
    }
    assert len(cited) > 3
    for name in cited:
        assert tables.source(name).title in said


def test_the_matrix_shows_the_worst_of_each_rule(page: Page, made: Any) -> None:
    rows = [said for _, said in page.of("tr") if said.startswith("1 · RF-100")]
    (row,) = rows
    part = made.rich.parts[0]
    flags = {found.rule.id for found in part.findings() if found.verdict is Verdict.FLAG}
    assert row.count("✕") == 1 + len(flags)  # the verdict of the part, and each rule
    heads = " ".join(said for attributes, said in page.of("th") if "rule" in attributes.values())
    assert "gas-group" in heads
    assert "loop-voltage" not in heads


def test_hostile_text_is_text(made: Any) -> None:
    report = made.hostile_report()
    page = Page(made.rendered("html", made.run(report, errors=[made.error]), report))
    assert not page.of("script")
    assert {tag for tag, _ in page.elements} <= {
        *("html", "head", "meta", "title", "style", "body", "header", "main", "footer", "nav"),
        *("section", "div", "h1", "h2", "h3", "h4", "h5", "p", "ul", "li", "dl", "dt", "dd"),
        *("table", "caption", "thead", "tbody", "tr", "th", "td", "a", "bdi", "span", "strong"),
        "code",
        "br",
        "svg",
        "rect",
        "line",
        "circle",
        "text",
    }
    assert "<script>alert(1)</script>" in page.of("h2")[0][1]
    assert r"\u202egnp" in page.of("h2")[0][1]


@pytest.mark.parametrize("parts", [200, 201, 1200])
def test_a_long_list_stays_a_page(made: Any, parts: int) -> None:
    head, lines = made.listed("rich").split("parts:\n")
    first = lines.split('  - item: "2"')[1].split('  - item: "3"')[0]
    body = "".join(f'  - item: "{n}"{first}' for n in range(parts))
    report = made.judged(f"{head}parts:\n{body}")
    text = made.rendered("html", made.run(report), report)
    rows = len(re.findall(r'<tr><th scope="row">(\d+ alike|<bdi>\d+</bdi> · )', text))
    merged = parts > 200
    assert ("alike: " in text) == merged
    assert (rows < 10) == merged
    assert len(text) < 500_000
    assert f"0..{parts - 1}" in text


def test_causes_that_are_left_out_of_a_very_long_list_are_counted(
    made: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(findings, "_MOST", 2)
    page = Page(made.rendered("html", made.run(made.rich), made.rich))
    said = [text for _, text in page.of("strong") if "left out here" in text]
    counted = [int(one.split(" ")[2]) for one in said]
    assert counted
    assert [one.split(" ")[0] for one in said] == [str(count - 2) for count in counted]


def test_the_first_page_names_what_must_change_and_who_must_answer(page: Page, made: Any) -> None:
    fronts = [said for each, said in page.of("div") if each.get("class") == "front"]
    assert len(fronts) == 2
    open_ = causes(made.rich)
    assert open_[0].kind is CauseKind.CHANGE
    assert wording.short(open_[0].what) in fronts[1]
    asked = {cause.who.value for cause in open_ if cause.kind is CauseKind.ANSWER}
    assert all(who in fronts[1] for who in asked)
    assert "Nothing is flagged." in fronts[0]


def test_each_cause_stands_on_a_row_with_its_sources(page: Page, made: Any) -> None:
    rows = [said for _, said in page.of("tr") if re.match(r"[CQA]\d+ ", said)]
    numbered = [row for row in rows if "×" in row or "flag" in row or "unproven" in row]
    assert len(numbered) == len(causes(made.rich))


def test_a_figure_says_in_words_what_it_shows(page: Page) -> None:
    """Common practice, no source: nobody must need to see a drawing to know what it says."""
    figures = [each for each, _ in page.of("svg")]
    drawn = [each["aria-label"] for each in figures if each.get("role") == "img"]
    assert any("capacitance over cable length" in said.lower() for said in drawn)
    assert all(each.get("role") == "img" or each.get("aria-hidden") for each in figures)


def test_the_curve_of_a_loop_is_the_arithmetic_of_its_rule(made: Any) -> None:
    """60 nF and 180 m of 197 pF/m are 95.46 nF, over 83 nF from 116 m on: reckoned by hand."""
    report = judge(
        areafit.read((LISTS / "filled.yaml").read_bytes(), "filled.yaml"),
        Tables.shipped(),
        Options(as_of=made.day),
    )
    page = Page(made.rendered("html", made.run(report), report))
    (said,) = (
        each["aria-label"]
        for each, _ in page.of("svg")
        if each.get("aria-label", "").startswith("Capacitance")
    )
    assert "95.46 nF at 180 m" in said
    assert "limit 83 nF" in said
    assert "reached at 117 m" in said


def test_why_a_line_passes_and_who_said_so_stands_in_the_full_dossier(made: Any) -> None:
    report = made.judged(
        "areafit: 1\nassembly: {number: T, assessment: IHA-1}\ncode: IEC\nedition: 60079-14:2013\n"
        "unless_stated:\n  - {document: ES-7, role: designer, facts: {bonded: true}}\n"
        "locations:\n  a: {area: 'Zone 1, IIA, T2', substances: [isopropanol], ambient: 5..40 °C, "
        "document: D, chemicals: none}\nparts:\n"
        "  - {item: '17', location: a, kind: structural, description: Plate, contacts: none, "
        "materials: [{material: '304'}], materials_complete: true}\n"
        "  - {item: '18', location: a, kind: structural, description: Plate, contacts: none, "
        "bonded: true, materials: [{material: '304'}], materials_complete: true}\n"
    )
    run = made.run(report)
    short = Page(made.rendered("html", run, report, style=Style()))
    assert "--full --format html" in "".join(short.texts.values())
    assert "Why what passes does" not in "".join(short.texts.values())
    whole = Page(made.rendered("html", run, report))
    rows = [said for _, said in whole.of("tr") if "bonding" in said]
    assert any("17" in said and "ES-7 (designer, list)" in said for said in rows)
    assert any("18" in said and "the line itself" in said for said in rows)
    assert "--full --format html" not in "".join(whole.texts.values())
