"""What stands in a note or in the library is judged as if it stood on the line.

Source of the property: the project's own format; no standard states it. Two ways are left in which
a lifted fact may move a verdict, and each is tested by name.
"""

import json
import random
from datetime import date
from typing import Any

import pytest
from properties_lists import lists  # made importable by conftest
from properties_stated import CONFIRMED, Lifted
from properties_world import Tree

import areafit
from areafit.findings.report import BomReport

FEW, MANY = 120, 2000
Found = dict[tuple[str, ...], tuple[str, ...]]


def report(files: dict[str, Any]) -> BomReport:
    def fetch(name: str) -> bytes:
        return json.dumps(files[name]).encode()

    bom = areafit.read(fetch("list.yaml"), "list.yaml", fetch)
    options = areafit.Options(as_of=date(2026, 11, 30))
    return areafit.judge(bom, areafit.Tables.shipped(), options)


def findings(of: BomReport) -> Found:
    """What was found, by what it is about; of several alike all."""
    found: Found = {}
    for subject in of.subjects():
        for f in subject.findings():
            told = (f.verdict.value, f.message, f.required, f.found)
            about = (subject.name, f.rule.id, f.path, f.location or "", f.component or "")
            found[(*about, str(sum(key[:5] == about for key in found)))] = told
    return found


def compared(before: BomReport, after: BomReport) -> dict[tuple[str, ...], Any]:
    """Every finding that differs, but for the two that the format allows."""
    old, new = findings(before), findings(after)
    differ = {
        key: (old.get(key), new.get(key))
        for key in {*old, *new}
        if old.get(key) != new.get(key) and key[1] != "noted-contacts"
    }
    return {
        key: pair
        for key, pair in differ.items()
        if not (
            key[1] == "materials-listed"
            and pair[0] is not None
            and pair[1] is not None
            and "usually holds" in pair[0][1]
            and pair[1][0] == "pass"
        )
    }


def moves(seed: int) -> int:
    tree = lists(seed, 6)
    lifted = Lifted(tree, random.Random(seed))  # noqa: S311 - repeatable, nothing secret
    files = lifted.files()
    before, after = report({"list.yaml": tree}), report(files)
    assert compared(before, after) == {}, f"seed {seed}: {json.dumps(files, ensure_ascii=False)}"
    asked = any(f.rule.id == "noted-contacts" for p in after.places for f in p.findings())
    grounded = findings(before) != {
        key: value for key, value in findings(after).items() if key[1] != "noted-contacts"
    }
    if not (asked or grounded):
        assert after.gate == before.gate
        assert after.counts == before.counts
    return lifted.moved


def test_lifted_facts_are_judged_as_on_the_line() -> None:
    moved = [moves(seed) for seed in range(FEW)]
    assert sum(moved) > FEW * 3
    assert sum(each == 0 for each in moved) < FEW / 5


@pytest.mark.long
@pytest.mark.parametrize("hundred", range(MANY // 100))
def test_lifted_facts_are_judged_as_on_the_line_in_many_lists(hundred: int) -> None:
    for seed in range(1000 + hundred * 100, 1100 + hundred * 100):
        moves(seed)


WATER = [{"name": "tap water", "temperature": "20 °C"}]


def machine(**line: Any) -> Tree:
    plate = {
        "location": "hall",
        "kind": "structural",
        "description": "Plate",
        "exposure": "splash",
        "contacts": "none",
    }
    return {
        "areafit": 1,
        "assembly": {"number": "M-1"},
        "code": "IEC",
        "locations": {"hall": {"chemicals": WATER}},
        "parts": [
            {"item": "1", **plate, "materials": [{"material": "304"}], **line},
            {"item": "2", **plate, "materials": [{"material": "6061"}]},
        ],
    }


def test_contacts_none_of_a_note_may_ask_which_lines_touch() -> None:
    tree = machine()
    lifted = machine()
    for line in lifted["parts"]:
        del line["contacts"]
    said = {"document": "ES-1", "role": "designer", "facts": {"contacts": "none"}}
    lifted["unless_stated"] = [said]
    before, after = report({"list.yaml": tree}), report({"list.yaml": lifted})
    assert compared(before, after) == {}
    (place,) = after.places
    (asked,) = (f for f in place.findings() if f.rule.id == "noted-contacts")
    assert asked.verdict.value == "unproven"
    assert not any(f.rule.id == "noted-contacts" for p in before.places for f in p.findings())


def test_the_confirmation_of_an_entry_may_be_the_ground_of_a_complete_list() -> None:
    facts = {
        "description": "Gas spring",
        "materials": [{"material": "304", "component": "tube"}],
        "materials_complete": True,
    }
    tree = machine(part_number="GS-1", **facts)
    lifted = machine(part_number="GS-1")
    for key in ("description", "materials"):
        del lifted["parts"][0][key]
    lifted["library"] = "parts.yaml"
    library = {"areafit-parts": 1, "parts": {"GS-1": {**facts, "confirmed": CONFIRMED}}}
    before = report({"list.yaml": tree})
    after = report({"list.yaml": lifted, "parts.yaml": library})
    assert compared(before, after) == {}
    verdicts = [
        next(f.verdict.value for f in each.parts[0].findings() if f.rule.id == "materials-listed")
        for each in (before, after)
    ]
    assert verdicts == ["unproven", "pass"]
