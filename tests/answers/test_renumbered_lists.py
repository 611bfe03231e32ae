"""Renumbering every item of a list is no change of it: the project's own rule, no source."""

from datetime import date
from pathlib import Path

import pytest

import areafit
from areafit.answers.compare import compare
from areafit.facts.bom import Bom
from areafit.findings.report import BomReport
from areafit.importing.lines import ExportLine
from areafit.importing.revision import revise

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "sample_bom"
LISTS = [
    path
    for path in (*sorted(SAMPLES.glob("*.yaml")), ROOT / "tests/lists43/filled.yaml")
    if b"\nareafit: 1" in b"\n" + path.read_bytes()
]


def _folder(name: str) -> list[str] | None:
    path = SAMPLES / name
    return sorted(each.name for each in path.iterdir()) if path.is_dir() else None


def _read(data: bytes) -> Bom:
    return areafit.read(data, "list.yaml", lambda name: (SAMPLES / name).read_bytes(), _folder)


def _judged(bom: Bom) -> BomReport:
    return areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 1, 1)))


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.stem)
def test_a_renumbered_list_differs_in_nothing_and_voids_no_waiver(path: Path) -> None:
    data = path.read_bytes()
    old = _read(data)
    items = {str(part.item): f"N{part.item}" for part in old.parts}
    lines = [
        ExportLine(
            row=part.index,
            item=items[part.item],
            parent=items[part.parent] if part.parent is not None else None,
            location=() if part.parent is not None else ("x",),
            place="x",
            stated={"part_number": part.part_number, "kind": "structural"},
        )
        for part in reversed(old.parts)
    ]
    new = _read(revise(data, "list.yaml", lines, _read, notes=[]).data)
    reports = _judged(old), _judged(new)
    found = compare(*reports)
    assert {each.old: each.new for each in found.renumbered} == items
    assert (found.subjects, found.unclear) == ((), ())
    prints = [
        sorted(f.fingerprint for each in report.subjects() for f in each.findings())
        for report in reports
    ]
    assert prints[0] == prints[1]
