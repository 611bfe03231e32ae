"""Fingerprints: what voids a waiver and what does not. The project's own design, no source."""

import json
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

import areafit
from areafit.checks.ignition.sparks import Rubbing
from areafit.checks.materials.resistance import Resistance
from areafit.demands import Gap
from areafit.facts.bom import Bom
from areafit.facts.marking import Code
from areafit.facts.part import Exposure, Item
from areafit.facts.place import AreaReading
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.findings.fingerprint import SCHEME, WORDING, published
from areafit.registry import RULES
from areafit.rule import Row
from areafit.values import Frozen, replace
from areafit.verdict import Basis, Reason

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
    own = listed(*({**line, "line_id": f"L-{line['item']}"} for line in lines))
    assert published(Item("1.1"), own) == "id L-1.1 of B-1"
    assert published(Item("1.2"), own) == "id L-1.2 of no number"


def test_an_assembly_without_a_part_number_binds_no_waiver_to_its_item() -> None:
    for item in ("1", "50"):
        frame = {"item": item, "kind": "structural"}
        bom = listed(frame, {"item": "7", "part_number": "B-1", "parent": item})
        assert published(Item("7"), bom) == "B-1"


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


def _judged() -> Iterator[tuple[str, Any, Bom]]:
    """Rule and question of all that is judged in the rules' examples and in the samples."""
    texts = [example.as_list.encode() for rule in RULES for example in rule.examples]
    texts += [
        path.read_bytes()
        for path in sorted(SAMPLES.glob("*.yaml"))
        if b"\nareafit: 1" in path.read_bytes()
    ]
    for text in texts:
        bom = areafit.read(text, "case.yaml", lambda name: (SAMPLES / name).read_bytes())
        report = areafit.judge(bom, areafit.Tables.shipped(), OPTIONS)
        for subject in report.subjects():
            for block in subject.blocks:
                for judged in block.judged:
                    yield judged.rule.id, judged.ask.question, bom


def _asked() -> Iterator[tuple[Any, Bom]]:
    for _, question, bom in _judged():
        yield question, bom


def test_every_question_has_a_published_form() -> None:
    forms = [json.dumps(published(question, bom)) for question, bom in _asked()]
    assert len(set(forms)) > 1000


def test_order_voids_no_waiver() -> None:
    """Neither that of lines, nor of what a place or a part lists."""

    def turned(step: int) -> Bom:
        papers = [{"type": "certificate", "number": "IECEx ABC 21.0001"}, {"type": "declaration"}]
        metals = [
            {"material": "316L", "component": "frame", "exposure": "splash"},
            {"material": "PTFE", "component": "seal", "exposure": "splash"},
        ]
        chemicals = [
            {"name": "sodium hydroxide", "concentration": "2 %"},
            {"name": "nitric acid", "concentration": "5 %"},
        ]
        head = {
            "area": "Zone 1, IIB, T3",
            "substances": ["ethanol", "a blend", "acetone"][::step],
            "ambient": "5..40 °C",
            "chemicals": chemicals[::step],
        }
        plate: dict[str, Any] = {
            "part_number": "A-1",
            "marking": "Ex db IIA T2 Gb",
            "evidence": papers[::step],
        }
        parts: list[dict[str, Any]] = [
            {"item": "1", **plate, "materials": metals[::step], "evidence": papers[::step]},
            {"item": "2"},
        ]
        return listed(*parts[::step], locations={"head": head})

    as_written, turned_round = prints(turned(1)), prints(turned(-1))
    assert all(sorted(as_written[name]) == sorted(turned_round[name]) for name in as_written)
    assert len(as_written["head"]) > 5
    assert len(as_written["1"]) > 10


def test_what_a_place_does_not_say_is_not_the_same_of_another_substance() -> None:
    """A waiver for an unknown group of one substance is none for that of another."""

    def of(name: str) -> dict[str, Any]:
        dusty = {"area": "Zone 21, IIIC", "substances": [name], "layer": "2 mm"}
        gas = {"area": "Zone 1", "substances": [name]}
        marked = {"kind": "electrical", "marking": "Ex db tb IIC T4 T135 °C Gb Db"}
        parts = [{**marked, "item": place, "location": place} for place in ("gas", "dust")]
        bom = listed(*parts, locations={"gas": gas, "dust": dusty})
        report = areafit.judge(bom, areafit.Tables.shipped(), OPTIONS)
        asked = ("gas-group", "dust-group", "temperature-class")
        return {
            f"{part.name} {found.rule.id}": found.fingerprint
            for part in report.parts
            for found in part.open_findings()
            if found.rule.id in asked
        }

    one, another = of("blend one"), of("blend two")
    assert len(one) == 4
    assert not set(one.values()) & set(another.values())
    assert not set(one.values()) - set(of("blend one").values())


def test_advice_does_not_count(bom: Bom) -> None:
    """What is near an unknown name, and what would fare better, changes as the tables grow."""
    assert published(Gap(Reason.NAME_UNKNOWN, "x is unknown", ("a",), ("x",)), bom) == {
        "reason": "name unknown",
        "about": ["x"],
    }
    assert {"better", "nearest", "remedy"} <= WORDING


def test_of_sentences_about_a_text_their_number_counts(bom: Bom) -> None:
    read = AreaReading("Zone 9", (), ("There is no Zone 9.",))
    assert published(read, bom) == {"text": "Zone 9", "areas": [], "problems": 1}


def test_what_is_not_stated_is_left_out(bom: Bom) -> None:
    assert published(Rubbing(None, covered=False), bom) == {"covered": False}
    default = Resistance("steel", ())
    assert published(default, bom) != published(replace(default, below=None), bom)


def _records(value: object) -> Iterator[Frozen]:
    if isinstance(value, Frozen):
        yield value
        for name in value.__struct_fields__:
            yield from _records(getattr(value, name))
    elif isinstance(value, tuple | frozenset):
        for each in value:
            yield from _records(each)


def test_another_value_of_any_field_is_another_fingerprint() -> None:
    """Each field of each record of all questions, given a value that another record has there."""
    seen: dict[type[Frozen], dict[Frozen, Bom]] = {}
    for question, bom in _asked():
        for record in _records(question):
            seen.setdefault(type(record), {}).setdefault(record, bom)
    tried = 0
    for kind, records in seen.items():
        for name in kind.__struct_fields__:
            values = list({getattr(record, name): None for record in records})[:8]
            for record, bom in list(records.items())[:8]:
                before = published(record, bom)
                for value in values:
                    after = published(replace(record, **{name: value}), bom)
                    same = published(value, bom) == published(getattr(record, name), bom)
                    assert (before == after) is (name in WORDING or same), (kind, name, value)
                    tried += not same
    assert tried > 2000


def test_questions_of_two_kinds_never_share_a_fingerprint() -> None:
    """No class name is digested, so the fields themselves must tell the kinds of a rule apart."""
    kinds: dict[tuple[str, str], set[type]] = {}
    for rule, question, bom in _judged():
        form = json.dumps(published(question, bom), sort_keys=True)
        kinds.setdefault((rule, form), set()).add(type(question))
    assert len(kinds) > 1000
    assert not [key for key, found in kinds.items() if len(found) > 1]


def _own(group: str, source: str, basis: str, note: str) -> areafit.Tables:
    """Our tables with a company's own row for the group of ethanol laid over them."""
    row = "substance,property,system,value,source_id,locator,basis,note\n"
    row += f"ethanol,group,iec,{group},{source},report 7,{basis},{note}\n"
    known = f"id,title,edition,publisher,kind,read_on,note\n{source},Own test,,,practice,,\n"
    files = {"sources.csv": known.encode(), "substance_values.csv": row.encode()}
    return areafit.Tables.overlaid(files, as_of=OPTIONS.as_of)


def test_the_value_of_a_row_counts_and_not_its_source_basis_or_note() -> None:
    place = {"area": "Zone 1", "substances": ["ethanol"]}
    bom = listed({"item": "1", "marking": "Ex db IIA T2 Gb"}, locations={"head": place})

    def of(tables: areafit.Tables) -> tuple[str, str]:
        (part,) = areafit.judge(bom, tables, OPTIONS).parts
        (found,) = (each for each in part.open_findings() if each.rule.id == "gas-group")
        return found.fingerprint, str(found.sources)

    one, sources = of(_own("IIC", "test-a", "seen", "read twice"))
    same, others = of(_own("IIC", "test-b", "memory", ""))
    assert "test-a" in sources
    assert "test-b" in others
    assert one == same
    assert one != of(_own("IIB+H2", "test-a", "seen", "read twice"))[0]
    assert one != of(areafit.Tables.shipped())[0]
