"""Whether a rearrangement moved a verdict: reports of many lists, as digests; run by hand.

    python tests/digests/digests.py compare [--keep FOLDER]     what differs from digests.csv
    python tests/digests/digests.py store                       make digests.csv anew

Judged are the samples, every case set, every rule's examples, the lists of `lists/` (inputs that
killed a mutant, among others) and 3,000 generated lines each as under review and at random, all
by the command itself, in JSON and text. Fingerprints and the digest of the tables are left out.
`core` is the JSON report without sources, bases, their counts and clauses: what has to stay when
a number moves to a table. `--keep` writes the compared reports, to be read with `diff -r`. A test
compares all but most of the generated lines. Digests are stored only by a commit that says which
verdicts it changes and why.
"""

import argparse
import contextlib
import csv
import hashlib
import importlib.util
import io
import json
import os
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from areafit.registry import RULES
from areafit_cli.__main__ import run

HERE = Path(__file__).parent
TESTS = HERE.parent
STORED = HERE / "digests.csv"
COLUMNS = ("json", "text", "core")
_UNSTABLE = re.compile(
    r'(?<="fingerprint": ")[^"]*|(?<="tables": ")[0-9a-f]+|(?<=, tables )[0-9a-f]+'
)
_NOT_CORE = frozenset(
    {"sources", "basis", "by_basis", "clause", "fingerprint", "tool", "tables", "stated_by", "asks"}
)
_SIZE, _LISTS = 100, 30


def _module(path: str) -> Any:
    """A test module, for the lists that it makes."""
    spec = importlib.util.spec_from_file_location(Path(path).stem, TESTS / path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _listed(place: object, part: Mapping[str, object], law: str = "IEC") -> dict[str, object]:
    return {
        "areafit": 1,
        "assembly": {"number": "CASE-1"},
        "code": law,
        "locations": {"case": place},
        "parts": [{"item": "1", "location": "case", "kind": "structural", **part}],
    }


def _trees() -> Iterator[tuple[str, Any]]:
    """The case sets, as their own tests make lists of them."""
    first = _module("cases/test_area_cases.py")
    yield from ((f"area-{case['id']}", first.tree(case)) for case in first.CASES)
    second = _module("cases/test_area_cases_second.py")
    yield from ((f"area-second-{case['id']}", second.tree(case)) for case in second.CASES)
    loops = _module("checks_loops/test_loop_cases.py")
    for name, make in (("first", loops.first_tree), ("second", loops.second_tree)):
        yield from ((f"loop-{case['id']}", make(case)) for case in loops.SETS[name])
    ignition = _module("checks_ignition/test_ignition_cases.py")
    for number, case in enumerate(ignition.CASES):
        place = case["place"]
        place = place if isinstance(place, dict) else {"area": place}
        part = ignition.plain(case["part"])
        yield f"ignition-{number}", _listed(place, part, case.get("law", "IEC"))
    checks = json.loads((TESTS / "cases/material_checks.json").read_text("utf-8"))
    for number, case in enumerate(checks["material_checks"]):
        met = {"name": case["chemical"], "temperature": f"{case['temp_c']} °C"}
        if case["conc_pct"] is not None:
            met["concentration"] = f"{case['conc_pct']} %"
        use = {"material": case["material"], "exposure": case["exposure"]}
        yield f"material-{number}", _listed({"chemicals": [met]}, {"materials": [use]})


def lists(*, small: bool) -> Iterator[tuple[str, bytes]]:
    """Every list with its name; the small set has one of each sort of generated lists."""
    for name, tree in _trees():
        yield name, json.dumps(tree, ensure_ascii=False).encode()
    for rule in RULES:
        for number, example in enumerate(rule.examples):
            yield f"example-{rule.id}-{number}", example.as_list.encode()
    for path in sorted((HERE / "lists").glob("*.yaml")):
        yield f"list-{path.stem}", path.read_bytes()
    make = _module("bench/make_bom.py")
    for sort, fit in (("review", 90), ("random", 0)):
        for seed in range(1 if small else _LISTS):
            yield f"{sort}-{seed}", make.bom(_SIZE, seed + 1, fit=fit)


def digested(*, small: bool, keep: Path | None = None) -> dict[str, tuple[str, ...]]:
    """The digests of every list by its name, in the order of `COLUMNS`."""
    found: dict[str, tuple[str, ...]] = {}
    before = Path.cwd()
    with tempfile.TemporaryDirectory() as folder:
        samples = Path(folder, "sample_bom")
        shutil.copytree(TESTS.parent / "sample_bom", samples)
        os.chdir(folder)
        try:
            for path in sorted(samples.glob("*.yaml")):
                if path.read_text("utf-8").partition("areafit: 1")[1]:
                    found[f"sample-{path.stem}"] = _digest(
                        f"sample_bom/{path.name}", path.stem, keep
                    )
            for name, data in lists(small=small):
                Path("case.yaml").write_bytes(data)
                found[name] = _digest("case.yaml", name, keep)
        finally:
            os.chdir(before)
    return found


def _digest(path: str, name: str, keep: Path | None) -> tuple[str, ...]:
    out = ("--format", "json", "--output", "r.json", "--format", "text", "--output", "r.txt")
    said = io.StringIO()
    with contextlib.redirect_stderr(said):
        status = run(["check", path, "--no-config", "--as-of", "2026-01-01", *out])
    if status not in (0, 1):
        raise SystemExit(f"{name}: exit {status}\n{said.getvalue()}")
    whole = Path("r.json").read_text("utf-8")
    told = {
        "json": _UNSTABLE.sub("", whole),
        "text": _UNSTABLE.sub("", Path("r.txt").read_text("utf-8")),
        "core": json.dumps(_core(json.loads(whole)), ensure_ascii=False, indent=1),
    }
    if keep is not None:
        for kind, text in told.items():
            (keep / kind).mkdir(parents=True, exist_ok=True)
            (keep / kind / name).write_text(text, "utf-8")
    return tuple(hashlib.sha256(told[kind].encode()).hexdigest()[:16] for kind in COLUMNS)


def _core(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _core(each) for key, each in value.items() if key not in _NOT_CORE}
    return [_core(each) for each in value] if isinstance(value, list) else value


def stored() -> dict[str, tuple[str, ...]]:
    """The digests as they were stored."""
    with STORED.open(encoding="utf-8", newline="") as stream:
        return {row["name"]: tuple(row[kind] for kind in COLUMNS) for row in csv.DictReader(stream)}


def differing(found: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """Of each list that differs from what was stored, what of it does; a new list is whole new."""
    before = stored()
    return {
        name: tuple(k for k, a, b in zip(COLUMNS, before[name], own, strict=True) if a != b)
        if name in before
        else ("new",)
        for name, own in found.items()
        if before.get(name) != own
    }


def main() -> int:
    """Compare or store; 1 where something differs."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("what", choices=("compare", "store"))
    parser.add_argument("--small", action="store_true", help="one generated list of each sort")
    parser.add_argument("--keep", type=Path, help="a folder for the reports compared")
    given = parser.parse_args()
    keep = given.keep.resolve() if given.keep else None
    found = digested(small=given.small and given.what == "compare", keep=keep)
    if given.what == "store":
        with STORED.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream, lineterminator="\n")
            writer.writerow(("name", *COLUMNS))
            writer.writerows((name, *own) for name, own in found.items())
        return 0
    gone = [] if given.small else sorted(stored().keys() - found.keys())
    different = differing(found)
    for name, kinds in different.items():
        print(f"{name}: {', '.join(kinds)}")
    for name in gone:
        print(f"{name}: no longer there")
    print(f"{len(found)} lists, {len(different)} differ, {len(gone)} gone")
    return 1 if different or gone else 0


if __name__ == "__main__":
    sys.exit(main())
