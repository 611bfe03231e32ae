"""From an export of 200 lines to a compared revision, as a designer and a pipeline would go."""

import json
import random
from collections.abc import Callable
from pathlib import Path

from ruamel.yaml import YAML

Call = Callable[..., str]
_NAMES = ("Halter", "Sensor", "Deckel", "Motor", "Ventil", "Schlauch")
_WIRED = ("Sens", "Mot")
_MATERIALS = ("1.4404", "EPDM", "PTFE", "PP", "keine Angabe")


def export(lines: int = 200) -> bytes:
    """An export such as stock systems write: cp1252, semicolons, decimal commas, gaps."""
    chance = random.Random(7)  # noqa: S311 - repeatable, nothing secret
    rows = ["sep=;", "Pos.;Ebene;Sachnummer;Benennung;Menge;Stückpreis;Werkstoff;Ex-Kennzeichnung"]
    for n in range(1, lines + 1):
        name = chance.choice(_NAMES)
        electrical = name in {"Sensor", "Motor", "Ventil"}
        marking = chance.choice(("II 2G Ex db IIC T4 Gb", "", "-")) if electrical else ""
        price = f"{chance.randint(1, 400)},{chance.randint(0, 99):02d}"
        cells = (f"{n * 10:04d}", 1, f"00{n}-{n % 7}", f"{name} für Füller", chance.randint(1, 9))
        rows.append(";".join(map(str, (*cells, price, chance.choice(_MATERIALS), marking))))
    return "\r\n".join(rows).encode("cp1252")


def complete(source: Path, target: Path, *, revision: str, better: bool) -> None:
    """What a designer adds to an imported list: the place, kinds, and what each part is made of."""
    yaml = YAML(typ="safe")
    yaml.default_flow_style = False
    bom = yaml.load(source)
    bom["assembly"] |= {"revision": revision, "assessment": "IHA-7"}
    bom["locations"]["place-1"] = {
        "area": "Zone 2, IIB, T3",
        "document": "AC-7",
        "substances": ["ethanol"],
        "ambient": "5..40 °C",
        "chemicals": [{"name": "ethanol", "concentration": "96 %", "temperature": "5..30 °C"}],
    }
    for part in bom["parts"]:
        electrical = "marking" in part or (better and part["description"].startswith(_WIRED))
        part.pop("proposed", None)  # confirmed
        part["kind"] = "electrical" if electrical else "structural"
        if electrical:
            part.setdefault("marking", "II 2G Ex db IIC T4 Gb")
            part["evidence"] = [
                {"type": "declaration", "number": "DoC-1", "covers": part["part_number"]},
                {"type": "certificate", "number": "X 21 ATEX 1", "covers": part["part_number"]},
            ]
        part |= {"contacts": "none", "materials_complete": True, "bonded": True}
        part["exposure"] = "fume"
    yaml.dump(bom, target)


def test_an_export_is_imported_completed_checked_waived_and_compared(
    call: Call, folder: Path
) -> None:
    (folder / "export.csv").write_bytes(export())
    options = ("--encoding", "cp1252", "--decimal-comma", "--code", "ATEX", "--number", "F-7")
    notes = call("import", "export.csv", *options, "--output", "f7.yaml", both=True)
    assert "200 lines" in notes
    assert "part_number from 'Sachnummer'" in notes

    raw = json.loads(call("check", "f7.yaml", "--format", "json", status=1))
    (bom,) = raw["boms"]
    assert bom["counts"]["parts"] == 200
    assert raw["gate"] == "fail"
    assert bom["locations"][0]["verdict"] == "unproven"
    passing = {f["rule"] for p in bom["parts"] for f in p["findings"] if f["verdict"] == "pass"}
    assert passing <= {"marking-consistency"}  # nothing is stated of the place
    assert bom["parts"][0]["item"] == "0010"
    assert bom["parts"][0]["part_number"] == "001-1"

    complete(folder / "f7.yaml", folder / "a.yaml", revision="A", better=False)
    complete(folder / "f7.yaml", folder / "b.yaml", revision="B", better=True)
    report = json.loads(call("check", "a.yaml", "--format", "json", status=1))
    (bom,) = report["boms"]
    assert bom["counts"]["parts"] == 200
    still_open = [
        (part["item"], finding)
        for part in bom["parts"]
        for finding in part["findings"]
        if finding["verdict"] in {"flag", "unproven"}
    ]
    assert still_open
    assert len(call("actions", "a.yaml", "--format", "csv").splitlines()) > len(still_open) / 2

    item, finding = still_open[0]
    why = ("--reason", "accepted for one season", "--approved-by", "process owner")
    until = ("--until", "2026-12-31", "--document", "DN-1", "--file", "waivers.yaml")
    which = ("--item", item, "--rule", finding["rule"], "--fingerprint", finding["fingerprint"])
    call("waiver", "add", "a.yaml", *which, *why, *until)
    waived = json.loads(
        call("check", "a.yaml", "--waivers", "waivers.yaml", "--format", "json", status=1)
    )
    (bom,) = waived["boms"]
    assert bom["waivers"]["used"] == 1
    assert bom["counts"]["waived"] + bom["counts"]["pass"] >= 1

    told = json.loads(
        call(
            "compare", "a.yaml", "b.yaml", "--waivers", "waivers.yaml", "--format", "json", status=1
        )
    )
    assert told["old"]["assembly"]["revision"] == "A"
    assert told["new"]["certified"] > told["old"]["certified"]
    items = [change for change in told["subjects"] if change["kind"] == "item"]
    assert items
    assert all(change["facts"] for change in items)
    kinds = {fact["fact"] for change in items for fact in change["facts"]}
    assert "kinds" in kinds
    assert set(told["old"]["cost"]) == {"electrical", "structural"}
