"""Every name of every table gives the verdict of its row, in every rule. Own design, no source.

A list with one place and one part for each name is judged by all rules; places and parts whose
names mean the same rows must be told the same.
"""

import json
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.findings.report import BomReport
from areafit.tables import Tables
from areafit.tables.names import SharedName, key

T = Tables.shipped()
Line = dict[str, Any]
Told = tuple[tuple[str, str, str], ...]
MATERIALS = ("CW614N", "FKM")
ZONE = {"area": "Zone 1, IIB, T3", "document": "AC-1", "ambient": "5..40 °C"}
DUSTY = {"area": "Zone 21, IIIB", "document": "AC-1", "ambient": "5..40 °C", "layer": "5 mm"}


# What a place lists as a substance may be a vapour or a dust, and counts as a chemical too.
_PRESENT = (T.substances, T.dusts, T.chemicals)
FOUND_IN: dict[str, tuple[Callable[[str], tuple[Any, ...]], ...]] = {
    "chemicals": (T.chemicals,),
    "dusts": _PRESENT,
    "materials": (T.materials,),
    "substances": _PRESENT,
}


def _names(kind: str) -> Iterator[tuple[tuple[tuple[str, ...], ...], str]]:
    """Each name of a table with the ids that it means."""
    written = [
        name
        for identity in T.ids(kind)
        for row in (T.row(kind, identity),)
        for name in (row.id, row.name, *row.names)
        if name
    ]
    written += [row.name for row in T.rows("shared_names", SharedName) if row.table == kind]
    spelled = {key(name): name for name in written}
    for name in dict.fromkeys((*T.ids(kind), *spelled.values())):
        yield tuple(tuple(sorted(row.id for row in find(name))) for find in FOUND_IN[kind]), name


def _with_chemical(name: str) -> tuple[Line, Line]:
    strong = {"name": name, "concentration": "10 %", "temperature": "25 °C"}
    bleach = {"name": "sodium hypochlorite", "concentration": "5 %", "temperature": "20 °C"}
    uses = [{"component": "body", "material": one, "exposure": "immersed"} for one in MATERIALS]
    place = {**ZONE, "substances": "none", "chemicals": [strong, bleach]}
    return place, {"kind": "structural", "materials": uses, "contacts": "none"}


def _with_substance(name: str) -> tuple[Line, Line]:
    uses = [{"component": "body", "material": one, "exposure": "fume"} for one in MATERIALS]
    part = {"kind": "electrical", "marking": "Ex db IIB T4 Gb", "materials": uses}
    return {**ZONE, "substances": [name], "chemicals": "none"}, part


def _with_dust(name: str) -> tuple[Line, Line]:
    part = {"kind": "electrical", "marking": "Ex tb IIIB T120°C Db"}
    return {**DUSTY, "substances": [name], "chemicals": "none"}, part


def _with_material(name: str) -> tuple[Line, Line]:
    acid = {"name": "hydrochloric acid", "concentration": "5 %", "temperature": "25 °C"}
    place = {**ZONE, "substances": ["toluene"], "chemicals": [acid]}
    use = {"component": "body", "material": name, "exposure": "splash"}
    return place, {"kind": ["mechanical", "structural"], "materials": [use]}


def _report(lines: list[tuple[Line, Line]]) -> BomReport:
    places = {f"p{i}": place for i, (place, _) in enumerate(lines)}
    parts = [{"item": f"{i}", "location": f"p{i}", **part} for i, (_, part) in enumerate(lines)]
    whole = {
        "areafit": 1,
        "assembly": {"number": "T-1"},
        "code": "IEC",
        "locations": places,
        "parts": parts,
    }
    bom = areafit.read(json.dumps(whole, ensure_ascii=False).encode(), "names.yaml")
    return areafit.judge(bom, T, areafit.Options(as_of=date(2026, 1, 1)))


def _told(subject: Any) -> Told:
    return tuple(
        sorted(
            (each.rule.id, each.judgement.verdict.value, str(each.judgement.reason))
            for block in subject.blocks
            for each in block.judged
        )
    )


WITH: dict[str, Callable[[str], tuple[Line, Line]]] = {
    "chemicals": _with_chemical,
    "dusts": _with_dust,
    "materials": _with_material,
    "substances": _with_substance,
}


@pytest.mark.parametrize("kind", WITH)
def test_every_name_gives_the_verdict_of_its_rows(kind: str) -> None:
    named = list(_names(kind))
    assert all(any(meant) for meant, _ in named)
    report = _report([WITH[kind](name) for _, name in named])
    places = {place.name: _told(place) for place in report.places}
    by_rows: dict[tuple[tuple[str, ...], ...], tuple[str, Told]] = {}
    for i, ((meant, name), part) in enumerate(zip(named, report.parts, strict=True)):
        told = (*_told(part), *places[f"p{i}"])
        first, expected = by_rows.setdefault(meant, (name, told))
        assert told == expected, (name, first, set(told) ^ set(expected))
    assert len(named) > len(by_rows)
