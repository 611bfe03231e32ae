"""Tables load when they are first used, each once; how long it takes is for `tests/bench`."""

import json
import subprocess
import sys

COUNTED = """
import json
from areafit.tables import load
read = load.shipped
names = []
def counting(name):
    names.append(name)
    return read(name)
load.shipped = counting
import areafit
from datetime import date
bom = areafit.read({text!r}, "list.yaml")
areafit.judge(bom, areafit.Tables.shipped(), areafit.Options(as_of=date(2026, 1, 1)))
print(json.dumps(names))
"""
HEAD = "areafit: 1\nassembly: {number: T-1}\ncode: IEC\nlocations:\n  here: "
PART = "\nparts:\n  - {item: '1', location: here, kind: electrical, marking: Ex db IIB T4 Gb}\n"


def loaded(place: str) -> list[str]:
    text = (HEAD + place + PART).encode()
    done = subprocess.run(
        [sys.executable, "-c", COUNTED.format(text=text)],
        check=True,
        capture_output=True,
        text=True,
    )
    names: list[str] = json.loads(done.stdout)
    return names


def test_a_place_without_chemicals_needs_no_table_of_resistance() -> None:
    names = loaded("{area: 'Zone 1, IIB, T3', chemicals: none, substances: none}")
    assert len(names) == len(set(names))
    assert {"resistance", "incompatible", "hidden_items"}.isdisjoint(names)
    assert "clauses" in names


def test_a_substance_brings_its_tables_and_each_is_read_once() -> None:
    names = loaded("{area: 'Zone 1, IIB, T3', chemicals: none, substances: [ethanol]}")
    assert len(names) == len(set(names))
    assert {"substances", "substance_values"} <= set(names)


BUILT = """
import areafit
areafit.read({text!r}, "list.yaml")
from areafit.file import part_model
for kind in (part_model.PartModel, part_model.AlternateModel, part_model.EntryModel):
    print(kind.__pydantic_complete__)
"""


def test_a_mapping_that_no_line_holds_is_not_made_ready_to_be_read() -> None:
    done = subprocess.run(
        [sys.executable, "-c", BUILT.format(text=(HEAD + "{}" + PART).encode())],
        check=True,
        capture_output=True,
        text=True,
    )
    assert done.stdout.split() == ["True", "False", "False"]
