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


# Where else a list names things: under a paint, in `to`, in a contact, in both lists, on a plate
# as the gas that equipment is for, in a mixture; and beside what few places have. `row` is the
# thing under its id.

DRY = {"area": "unclassified", "document": "A", "ambient": "5..40 °C"}


def _bath(name: str) -> Line:
    return {"name": name, "concentration": "10 %", "temperature": "25 °C"}


def _use(material: str, **more: Any) -> Line:
    return {"component": "body", "material": material, "exposure": "immersed", **more}


def _touching(place: Line, one: str, other: str) -> tuple[Line, list[Line]]:
    contact = {"contacts": [{"with": "OTHER", "wet": True}]}
    parts = [{"materials": [_use(one)], **contact}, {"materials": [_use(other)]}]
    return place, [{"kind": "structural", "contacts": "none", **part} for part in parts]


def _painted(name: str, _: str) -> tuple[Line, list[Line]]:
    place = {**ZONE, "substances": ["toluene"], "chemicals": [_bath("hydrochloric acid")]}
    return place, [{"kind": "structural", "materials": [_use("epoxy coating", substrate=name)]}]


def _struck(name: str, _: str) -> tuple[Line, list[Line]]:
    lever = _use("AlMg3", exposure="room", counterface=name)
    part = {"kind": "mechanical", "drop_height": "1 m", "materials": [lever]}
    return {**ZONE, "area": "Zone 1, IIC, T3", "substances": ["hydrogen"]}, [part]


def _touched(name: str, _: str) -> tuple[Line, list[Line]]:
    return _touching({**DRY, "atmosphere": "severe", "chemicals": "none"}, "AlMg3", name)


GASES = ("acetylene", "ammonia", "hydrogen sulfide", "hydrogen")
BATHS = ("sodium hydroxide", "sea water", "hydrofluoric acid")


def _in_gas_and_bath(name: str, _: str) -> tuple[Line, list[Line]]:
    place = {**DRY, "chemicals": [*map(_bath, BATHS), *({"name": gas} for gas in GASES)]}
    uses = [_use(name, welded=True, stressed=True), _use(name, exposure="room")]
    return place, [{"kind": "structural", "materials": uses, "contacts": "none"}]


def _wetted(name: str, _: str) -> tuple[Line, list[Line]]:
    return _touching({**DRY, "chemicals": [_bath(name)]}, "316", "titanium")


def _on_what_cracks(name: str, _: str) -> tuple[Line, list[Line]]:
    metals = ("12.9", "alloy 400", "hard chrome", "silver", "304", "zinc-plated steel")
    uses = [_use(one, welded=True, stressed=True) for one in metals]
    uses += [
        _use(one, exposure=how) for one in ("12.9", "304", "alloy 400") for how in ("fume", "room")
    ]
    return {**DRY, "chemicals": [_bath(name)]}, [{"kind": "structural", "materials": uses}]


def _met_alone(name: str, row: str) -> tuple[Line, list[Line]]:
    uses = [_use(one, to=[name]) for one in ("304", "brass")]
    place = {**DRY, "chemicals": [_bath(row), _bath("citric acid")]}
    return place, [{"kind": "structural", "materials": uses, "contacts": "none"}]


def _listed_twice(name: str, row: str) -> tuple[Line, list[Line]]:
    uses = [_use(one, exposure="room") for one in ("304", "PC")]
    part = {"kind": "electrical", "marking": "Ex db IIB T4 Gb", "materials": uses}
    return {**ZONE, "chemicals": [_bath(name)], "substances": [row]}, [part]


def _on_a_plate(name: str, row: str) -> tuple[Line, list[Line]]:
    plate = {"kind": "electrical", "marking": f"Ex db II ({name}) T4 Gb"}
    return {**ZONE, "area": "Zone 1", "substances": [row], "chemicals": "none"}, [plate]


def _beside_iib(name: str, _: str) -> tuple[Line, list[Line]]:
    plate = {"kind": "electrical", "marking": "Ex db IIB+H2 T1 Gb"}
    place = {**ZONE, "area": "Zone 1, IIB+H2, T1", "substances": [name], "chemicals": "none"}
    return place, [plate]


def _mixed_in(name: str, _: str) -> tuple[Line, list[Line]]:
    blend = {"name": "blend 7", "mixture": {name: "20 %", "water": "rest"}, "temperature": "40 °C"}
    plate = {"kind": "electrical", "marking": "Ex db IIA T4 Gb"}
    return {**ZONE, "substances": [blend], "chemicals": "none"}, [plate]


ELSEWHERE = {
    "materials": (_painted, _struck, _touched, _in_gas_and_bath),
    "chemicals": (_wetted, _met_alone, _listed_twice, _on_what_cracks),
    "substances": (_listed_twice, _on_a_plate, _beside_iib, _mixed_in),
}
_TABLES = (T.chemicals, T.dusts, T.materials, T.substances)


def _of_one_row(kind: str) -> Iterator[tuple[str, str]]:
    """Each id with each name that means its row alone, and elsewhere what the id does."""
    for identity in T.ids(kind):
        row = T.row(kind, identity)
        meant = [[found.id for found in find(identity)] for find in _TABLES]
        for name in dict.fromkeys((row.id, row.name, *row.names)):
            if [[found.id for found in find(name)] for find in _TABLES] == meant:
                yield identity, name


def _judged(made: list[tuple[Line, list[Line]]]) -> list[Told]:
    """What the rules say of each place with its parts."""
    places = {f"p{i}": place for i, (place, _) in enumerate(made)}
    parts = [
        json.loads(json.dumps(part).replace("OTHER", f"{i}-1"))
        | {"item": f"{i}-{j}", "location": f"p{i}"}
        for i, (_, lines) in enumerate(made)
        for j, part in enumerate(lines)
    ]
    whole = {"areafit": 1, "assembly": {"number": "T-1"}, "code": "IEC"}
    whole |= {"locations": places, "parts": parts}
    bom = areafit.read(json.dumps(whole, ensure_ascii=False).encode(), "names.yaml")
    report = areafit.judge(bom, T, areafit.Options(as_of=date(2026, 1, 1)))
    told: dict[str, list[Told]] = {name: [] for name in places}
    for subject in (*report.places, *report.parts):
        told[subject.name if subject.name in told else f"p{subject.name.split('-')[0]}"].append(
            _told(subject)
        )
    return [tuple(one for each in told[name] for one in each) for name in places]


@pytest.mark.parametrize(
    ("kind", "use"), [(kind, use) for kind, uses in ELSEWHERE.items() for use in uses]
)
def test_every_name_counts_alike_wherever_a_list_names_things(
    kind: str, use: Callable[[str, str], tuple[Line, list[Line]]]
) -> None:
    named = list(_of_one_row(kind))
    if use is _on_a_plate:  # an id is no word of a plate, nor is a comma or a bracket
        named = [(row, name) for row, name in named if name.replace(" ", "").isalpha()]
    assert len(named) > 400
    told = _judged([use(name, row) for row, name in named])
    first = dict(zip(reversed([row for row, _ in named]), reversed(told), strict=True))
    wrong = {name: row for (row, name), each in zip(named, told, strict=True) if each != first[row]}
    assert wrong == {}
