"""Ratios of a check against yardsticks on the same file; run by hand, never as a timed test.

    python tests/bench/bench.py [PARTS …]      (20 100 1000 10000 if none are named)

Yardsticks: a bare Python start, and a bare PyYAML C load of the same list; `yamllint` and
`check-jsonschema` where they are installed. CPU seconds of the whole process, best of three, and
peak memory; carry the ratios, not the seconds. Each size is made twice: a list of which nine
lines in ten suit their place, as one under review is, and one that is all chance, of which hardly
a line does, so that nearly every line is reported at length.
"""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
LOAD = "import sys, yaml; yaml.load(open(sys.argv[1], encoding='utf-8'), Loader=yaml.CSafeLoader)"
AREAFIT = [sys.executable, "-m", "areafit_cli"]


def spent(command: list[str], times: int = 3) -> tuple[float, float]:
    """CPU seconds and peak memory in MiB of a command, the best of some runs."""
    found = []
    for _ in range(times):
        with subprocess.Popen(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        ) as child:
            _, _, used = os.wait4(child.pid, 0)
            child.returncode = 0
        found.append((used.ru_utime + used.ru_stime, used.ru_maxrss / 1024))
    return min(found)


def row(name: str, got: tuple[float, float], base: tuple[float, float]) -> None:
    """One line: seconds, memory and both ratios."""
    print(
        f"{name:32} {got[0]:8.3f} s {got[1]:7.0f} MiB   "
        f"{got[0] / base[0]:7.2f} x time {got[1] / base[1]:6.2f} x memory"
    )


def measured(path: Path, bare: tuple[float, float], what: str, *, linters: bool) -> None:
    """The rows of one list."""
    base = spent([sys.executable, "-c", LOAD, str(path)])
    print(f"{what}, against a PyYAML C load of {base[0]:.3f} s, {base[1]:.0f} MiB")
    text = spent([*AREAFIT, "check", str(path)])
    row("check, text", text, base)
    print(f"{'':32} {text[0] / bare[0]:8.1f} bare Python starts")
    row("check, json", spent([*AREAFIT, "check", str(path), "--format", "json"]), base)
    if linters and shutil.which("yamllint"):
        row("yamllint -d relaxed", spent(["yamllint", "-d", "relaxed", str(path)], 1), base)
    if linters and shutil.which("check-jsonschema"):
        schema = path.with_name("schema.json")
        told = subprocess.run([*AREAFIT, "schema", "bom"], check=True, capture_output=True)
        schema.write_bytes(told.stdout)
        command = ["check-jsonschema", "--schemafile", str(schema), str(path)]
        row("check-jsonschema", spent(command, 1), base)


def main() -> None:
    """Print the table for each number of parts asked for."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program has its bytecode
    bare = spent([sys.executable, "-c", "pass"], 25)
    print(f"against a bare Python start of {bare[0] * 1000:.1f} ms")
    query = ["part", "Ex db IIB T4 Gb", "--area", "Zone 1, IIB, T3", "--substance", "ethanol"]
    row("--version", spent([*AREAFIT, "--version"], 25), bare)
    row("one-part query", spent([*AREAFIT, *query], 25), bare)
    with tempfile.TemporaryDirectory() as folder:
        for parts in map(int, sys.argv[1:] or ("20", "100", "1000", "10000")):
            for what, fit in (("as under review", "90"), ("at random", "0")):
                path = Path(folder) / f"{parts}-{fit}.yaml"
                make = [sys.executable, str(HERE / "make_bom.py"), str(parts), "--fit", fit]
                made = subprocess.run(make, check=True, capture_output=True)
                path.write_bytes(made.stdout)
                measured(path, bare, f"{parts} parts {what}", linters=fit != "0")


if __name__ == "__main__":
    main()
