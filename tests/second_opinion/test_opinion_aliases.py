"""Every name of every table gives the verdicts of its row, in all rules: chemistry goes by the row.

Source of the property: the project's own principle (names change nothing); no standard states it.
"""

import json
from collections import Counter
from datetime import date
from typing import Any

import pytest

import areafit

T = areafit.Tables.shipped()
BASES = ("304", "carbon steel", "brass", "AlMg3", "FKM", "PP", "titanium")
PLATES = ("Ex db IIA T1 Gb", "Ex db IIB T3 Gb", "Ex tb IIIB T135 °C Db", "none")


def _use(material: str, component: str = "body") -> dict[str, Any]:
    return {"material": material, "component": component, "exposure": "immersed"}


def _metals(place: str) -> list[dict[str, Any]]:
    materials = [_use(name, f"piece {number}") for number, name in enumerate(BASES)]
    return [{"location": place, "kind": "structural", "materials": materials}]


def _plates(place: str) -> list[dict[str, Any]]:
    return [{"location": place, "kind": "electrical", "marking": plate} for plate in PLATES]


def _chemical(name: str) -> dict[str, Any]:
    bath = {"name": name, "concentration": "12 %", "temperature": "30 °C"}
    partners = [{"name": other, "concentration": "60 %"} for other in ("nitric acid", "acetone")]
    return {"area": "Zone 1, IIB, T3", "chemicals": [bath, *partners], "substances": ["ethanol"]}


def _substance(name: str) -> dict[str, Any]:
    return {"area": "Zone 1", "substances": [name], "chemicals": [{"name": "nitric acid"}]}


def _dust(name: str) -> dict[str, Any]:
    return {"area": "Zone 21", "substances": [name], "layer": "5 mm", "chemicals": "none"}


KINDS = {
    "chemicals": (_chemical, _metals),
    "substances": (_substance, lambda place: _plates(place) + _metals(place)),
    "dusts": (_dust, _plates),
}


def names_of(kind: str, identity: str) -> list[str]:
    """The names that mean this row alone in every table that a list may mean."""
    row = getattr(T, kind)(identity)[0]
    told = {identity: None, row.name: None, **dict.fromkeys(row.names)}
    return [name for name in told if name and _rows(name) == _rows(identity)]


def _rows(name: str) -> dict[str, set[str]]:
    return {kind: {row.id for row in getattr(T, kind)(name)} for kind in KINDS}


def _judged(places: dict[str, Any], parts: list[dict[str, Any]]) -> areafit.BomReport:
    tree = {
        "areafit": 1,
        "assembly": {"number": "A-1"},
        "code": "IEC",
        "locations": places,
        "parts": [{"item": str(number), **part} for number, part in enumerate(parts)],
    }
    bom = areafit.read(json.dumps(tree, ensure_ascii=False).encode(), "names.yaml")
    return areafit.judge(bom, T, areafit.Options(as_of=date(2026, 1, 1)))


def differing(kind: str, identity: str) -> list[str]:
    """The names of a row that give other verdicts than its id."""
    place, lines = KINDS[kind]
    names = names_of(kind, identity)
    if len(names) < 2:
        return []
    places = {f"p{number}": place(name) for number, name in enumerate(names)}
    report = _judged(places, [line for name in places for line in lines(name)])
    told: dict[str, Counter[Any]] = {name: Counter() for name in places}
    for subject in (*report.places, *report.parts):
        for block in subject.blocks:
            for judged in block.judged:
                if block.place is not None:
                    found = (judged.rule.id, judged.ask.component, judged.judgement.verdict)
                    told[block.place][found] += 1
    first = told["p0"]
    return [name for name, each in zip(names, told.values(), strict=True) if each != first]


@pytest.mark.parametrize("kind", KINDS)
def test_every_name_gives_the_verdicts_of_its_row(kind: str) -> None:
    tried = {identity: len(names_of(kind, identity)) for identity in T.ids(kind)}
    assert sum(tried.values()) > 1.2 * len(tried)
    found = {identity: differing(kind, identity) for identity in tried}
    assert {identity: names for identity, names in found.items() if names} == {}


def test_every_name_of_a_material_gives_the_verdicts_of_its_row() -> None:
    place: dict[str, Any] = {"area": "Zone 1, IIB, T3", "atmosphere": "severe"}
    place["chemicals"] = [{"name": "hydrochloric acid", "concentration": "5 %"}, "sea water"]
    wrong: dict[str, list[str]] = {}
    for identity in T.ids("materials"):
        row = T.materials(identity)[0]
        told = dict.fromkeys((identity, row.name, *row.names))
        names = [each for each in told if [found.id for found in T.materials(each)] == [identity]]
        parts = [
            {"location": "p", "kind": "structural", "materials": [_use(name)]} for name in names
        ]
        report = _judged({"p": place}, parts)
        verdicts = [
            Counter((j.rule.id, j.judgement.verdict) for block in part.blocks for j in block.judged)
            for part in report.parts
        ]
        other = [name for name, each in zip(names, verdicts, strict=True) if each != verdicts[0]]
        if other:
            wrong[identity] = other
    assert wrong == {}
