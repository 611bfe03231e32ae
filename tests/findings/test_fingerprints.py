"""Fingerprints: what voids a waiver and what does not. The project's own design, no source."""

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.facts.bom import Bom
from areafit.facts.marking import Code
from areafit.facts.part import Exposure, Item
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.findings.fingerprint import SCHEME, WORDING, published
from areafit.registry import RULES
from areafit.rule import Row
from areafit.values import Frozen
from areafit.verdict import Basis

SAMPLES = Path(__file__).parents[2] / "sample_bom"
OPTIONS = areafit.Options(as_of=date(2026, 1, 1))


def listed(*parts: dict[str, Any], **more: Any) -> Bom:
    tree = {
        "areafit": 1,
        "assembly": {"number": "T-1"},
        "code": "IEC",
        "locations": {
            "head": {
                "area": "Zone 1, IIB, T3",
                "substances": ["ethanol"],
                "ambient": "5..40 °C",
                "chemicals": [{"name": "sodium hydroxide", "concentration": "2 %"}],
            }
        },
        "parts": [{"location": "head", "kind": "electrical", **part} for part in parts],
        **more,
    }
    return areafit.read(json.dumps(tree).encode(), "list.yaml")


def prints(bom: Bom) -> dict[str, list[str]]:
    """The fingerprints of all findings by item, place, loop or list."""
    report = areafit.judge(bom, areafit.Tables.shipped(), OPTIONS)
    return {each.name: [f.fingerprint for f in each.findings()] for each in report.subjects()}


class Grown(Code):
    """A fact as a later release may have it."""

    odour: str | None = None
    odourless: bool = False
    density: Decimal | None = None


@pytest.fixture
def bom() -> Bom:
    return listed({"item": "1"})


def test_an_optional_field_of_a_later_release_voids_no_waiver(bom: Bom) -> None:
    facts = (MarkingSystem.IEC, Hazard.GAS)
    assert published(Code(*facts), bom) == published(Grown(*facts), bom)
    assert published(Code(*facts, legacy=True), bom) == published(Grown(*facts, legacy=True), bom)
    assert published(Grown(*facts), bom) != published(Grown(*facts, odour="sweet"), bom)
    assert published(Grown(*facts), bom) != published(Grown(*facts, odourless=True), bom)


class Sample(Frozen):
    """A fact with defaults."""

    name: str
    said: bool = False
    share: Decimal = Decimal(0)
    notes: tuple[str, ...] = ()


def test_only_the_very_default_is_left_out(bom: Bom) -> None:
    assert published(Sample("a"), bom) == {"name": "a"}
    told = [
        published(Sample("a"), bom),
        published(Sample("a", said=True), bom),
        published(Sample("a", notes=("",)), bom),
        published(Sample("a", share=Decimal("0.1")), bom),
    ]
    assert len({json.dumps(each) for each in told}) == 4
    assert published(Sample("a", share=Decimal("0.00")), bom) == {"name": "a"}
    assert published(Sample("a", share=Decimal("1.50")), bom)["share"] == "1.5"


def test_words_and_sources_do_not_count_and_figures_do(bom: Bom) -> None:
    row = Row("figures", "rubbing speed", "a-source", "5", Basis.MEMORY, "1 m/s")
    same = Row("figures", "rubbing speed", "another", "6", Basis.SEEN, "1 m/s")
    assert published(row, bom) == published(same, bom)
    assert published(row, bom) == {
        "table": "figures",
        "key": "rubbing speed",
        "value": "1 m/s",
    }
    other = Row("figures", "rubbing speed", "a-source", "5", Basis.MEMORY, "2 m/s")
    assert published(row, bom) != published(other, bom)
    assert published(Exposure.SPLASH, bom) == "splash"
    assert {"message", "basis", "source_id"} <= WORDING


def test_a_line_is_known_by_its_part_number_and_those_it_is_mounted_in() -> None:
    lines = [
        {"item": "1", "part_number": "A-1", "kind": "structural"},
        {"item": "1.1", "part_number": "B-1", "parent": "1"},
        {"item": "1.2", "parent": "1"},
    ]
    bom = listed(*lines)
    assert published(Item("1"), bom) == "A-1"
    assert published(Item("1.1"), bom) == "B-1 in A-1"
    assert published(Item("1.2"), bom) == "item 1.2 in A-1"
    assert published("1.1", bom) == "1.1"


def test_renumbering_every_item_changes_no_fingerprint() -> None:
    def numbered(first: int) -> Bom:
        a, b, c = (str(first + n) for n in range(3))
        loop = {
            "name": "LS-1",
            "group": "IIB",
            "source": {"item": a, "Uo": "28 V", "Io": "93 mA"},
            "devices": [{"item": b, "Ui": "24 V"}],
        }
        metal = [{"material": "316L", "component": "frame", "exposure": "splash"}]
        zinc = [{"material": "zinc-plated steel", "component": "screw", "exposure": "splash"}]
        return listed(
            {"item": a, "part_number": "A-1", "marking": "[Ex ia Ga] IIC"},
            {"item": b, "part_number": "B-1", "marking": "Ex ia IIA T4 Ga", "materials": metal},
            {
                "item": c,
                "part_number": "C-1",
                "kind": "structural",
                "parent": b,
                "materials": zinc,
                "contacts": [{"with": b}],
            },
            loops=[loop],
        )

    before, after = prints(numbered(1)), prints(numbered(50))
    for old, new in (("1", "50"), ("2", "51"), ("3", "52"), ("LS-1", "LS-1"), ("head", "head")):
        assert len(before[old]) > 3
        assert before[old] == after[new]


def test_a_fact_a_demand_and_a_part_number_each_make_another_fingerprint() -> None:
    marked = {"item": "1", "part_number": "A-1", "marking": "Ex db IIA T4 Gb"}
    usual = set(prints(listed(marked))["1"])
    for changed in (
        {**marked, "marking": "Ex db IIA T3 Gb"},
        {**marked, "part_number": "A-2"},
        {**marked, "ambient": "-20..50 °C"},
    ):
        assert usual != set(prints(listed(changed))["1"])
    assert all(each.startswith(SCHEME) for each in usual)


def _asked() -> Iterator[tuple[Any, Bom]]:
    """Every question of the rules' examples and of the samples."""
    texts = [example.as_list.encode() for rule in RULES for example in rule.examples]
    texts += [
        path.read_bytes()
        for path in sorted(SAMPLES.glob("*.yaml"))
        if b"\nareafit-areas: 1" not in path.read_bytes()
    ]
    for text in texts:
        bom = areafit.read(text, "case.yaml", lambda name: (SAMPLES / name).read_bytes())
        report = areafit.judge(bom, areafit.Tables.shipped(), OPTIONS)
        for subject in report.subjects():
            for block in subject.blocks:
                for judged in block.judged:
                    yield judged.ask.question, bom


def test_every_question_has_a_published_form() -> None:
    forms = [json.dumps(published(question, bom)) for question, bom in _asked()]
    assert len(set(forms)) > 1000
