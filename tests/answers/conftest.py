"""A small list with a part that fails, one that is open, a loop and two places; all invented."""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

import areafit
from areafit.findings.report import BomReport
from areafit.options import Options
from areafit.tables import Tables

LIST = """\
areafit: 1
assembly: {number: T-1, title: Filler, revision: A, assessment: IHA-1}
code: IEC
locations:
  head:
    area: Zone 1, IIB, T3
    document: AC-1
    substances: ethanol
    ambient: 5..40 °C
    chemicals: [{name: sodium hydroxide, concentration: 2 %, temperature: 60 °C}]
  office: {area: unclassified, document: AC-1, substances: none, chemicals: none, ambient: 5..40 °C}
parts:
  - item: "10"
    part_number: PN-1
    description: Sensor
    location: head
    kind: electrical
    marking: Ex ia IIA T4 Gb
    quantity: 2
    unit_cost: 84.5
    evidence: [{type: certificate, number: E-1, covers: PN-1}]
    materials:
      - {component: housing, material: AL-5083, exposure: splash}
      - {component: seal, material: EPDM, exposure: splash}
    contacts: none
  - {item: "20", location: [head, office], kind: structural}
  - item: "30"
    location: office
    kind: electrical
    unit_cost: 10
    quantity: 1
loops:
  - name: L-1
    group: IIB
    source: {item: "30", Uo: 28 V}
    devices: [{item: "10", Ui: 24 V}]
"""


@pytest.fixture
def text() -> str:
    return LIST


@pytest.fixture
def judged() -> Callable[..., BomReport]:
    def judged(text: str = LIST, **options: Any) -> BomReport:
        given = Options(**{"as_of": date(2026, 1, 1), **options})
        return areafit.judge(areafit.read(text.encode(), "t.yaml"), Tables.shipped(), given)

    return judged
