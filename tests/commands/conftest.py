"""A folder with a small invented list, its next revision and a shared file of places."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from areafit_cli import words
from areafit_cli.__main__ import run

AREAS = """\
areafit-areas: 1
code: IEC
locations:
  head:
    title: Around the heads
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    ingress: IP65
    chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 60 °C}]
"""
OLD = """\
areafit: 1
assembly: {number: T-1, title: Filler, revision: A, assessment: IHA-1}
areas: site/areas.yaml
parts:
  - item: "10"
    part_number: PN-1
    description: Sensor
    location: head
    kind: electrical
    marking: Ex ia IIA T4 Gb
    ingress: IP67
    quantity: 2
    unit_cost: 84.5
    evidence: [{type: certificate, number: E-1, covers: PN-1}]
    materials: [{component: housing, material: AL-5083, exposure: splash}]
    materials_complete: true
    contacts: none
"""
NEW = OLD.replace("revision: A", "revision: B").replace("IIA", "IIC").replace("84.5", "90")
Call = Callable[..., str]


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.setattr(words, "today", lambda: date(2026, 1, 31))
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "areas.yaml").write_text(AREAS, encoding="utf-8")
    (tmp_path / "old.yaml").write_text(OLD, encoding="utf-8")
    (tmp_path / "new.yaml").write_text(NEW, encoding="utf-8")
    return tmp_path


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Call:
    """Runs a command, holds its status, and gives standard output, or both streams."""

    def call(*arguments: str, status: int | None = 0, both: bool = False) -> str:
        capsys.readouterr()
        found = run(list(arguments))
        shown = capsys.readouterr()
        assert status is None or found == status, shown.err
        return shown.out + shown.err if both else shown.out

    return call
