"""Ratios of a check against yardsticks on the same file; run by hand, never as a timed test.

    python tests/bench/bench.py [PARTS …]      (20 100 1000 10000 if none are named)

Yardsticks: a bare Python start, and a bare PyYAML C load of the same list; `yamllint` and
`check-jsonschema` where they are installed. CPU seconds of the whole process, best of three, and
peak memory; carry the ratios, not the seconds. Each size is made twice: a list of which nine
lines in ten suit their place, as one under review is, and one that is all chance, of which hardly
a line does, so that nearly every line is reported at length. Then: what notes add to the largest
list, what a library of 5,000 entries adds to a list of 15 lines, and 20 lists of 1,000 lines by two
processes, whose ratio of elapsed time tells something on two idle cores only.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parent
LOAD = "import sys, yaml; yaml.load(open(sys.argv[1], encoding='utf-8'), Loader=yaml.CSafeLoader)"
AREAFIT = [sys.executable, "-m", "areafit_cli"]
FITS = (("as under review", "90"), ("at random", "0"))


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


def made(path: Path, *how: str) -> Path:
    """A file that `make_bom.py` writes."""
    told = [sys.executable, str(HERE / "make_bom.py"), *how]
    path.write_bytes(subprocess.run(told, check=True, capture_output=True).stdout)
    return path


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


def with_notes(folder: Path, parts: int) -> None:
    """What notes add to the time and the memory of a list."""
    for what, fit in FITS:
        how = (str(parts), "--fit", fit)
        plain = spent([*AREAFIT, "check", str(made(folder / "plain.yaml", *how))])
        noted = spent([*AREAFIT, "check", str(made(folder / "notes.yaml", *how, "--notes"))])
        row(f"notes, {parts} {what}", noted, plain)


def with_library(folder: Path, entries: int) -> None:
    """What a library adds to a list of 15 lines, against a bare load of it."""
    library = made(folder / "library.yaml", str(entries), "--library")
    base = spent([sys.executable, "-c", LOAD, str(library)])
    without = spent([*AREAFIT, "check", str(made(folder / "none.yaml", "15", "--bought", ""))])
    list_ = made(folder / "bought.yaml", "15", "--bought", library.name)
    more = spent([*AREAFIT, "check", str(list_)])
    row(f"library of {entries}", (more[0] - without[0], more[1]), base)


def by_two(folder: Path) -> None:
    """20 lists of 1,000 lines by one process and by two."""
    lists = folder / "lists"
    lists.mkdir()
    for seed in range(20):
        made(lists / f"{seed}.yaml", "1000", "--fit", "90", "--seed", str(seed))
    elapsed = []
    for jobs in ("1", "2"):
        start = time.monotonic()
        subprocess.run(
            [*AREAFIT, "check", str(lists), "--jobs", jobs], capture_output=True, check=False
        )
        elapsed.append(time.monotonic() - start)
    print(f"{'20 lists of 1000, --jobs 2':32} {elapsed[0] / elapsed[1]:8.2f} times as fast")


def main() -> None:
    """Print the table for each number of parts asked for."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program has its bytecode
    bare = spent([sys.executable, "-c", "pass"], 25)
    print(f"against a bare Python start of {bare[0] * 1000:.1f} ms")
    query = ["part", "Ex db IIB T4 Gb", "--area", "Zone 1, IIB, T3", "--substance", "ethanol"]
    row("--version", spent([*AREAFIT, "--version"], 25), bare)
    row("one-part query", spent([*AREAFIT, *query], 25), bare)
    sample = HERE.parents[1] / "sample_bom" / "solvent_skid.yaml"
    row("a sample with its library", spent([*AREAFIT, "check", str(sample)], 9), bare)
    with tempfile.TemporaryDirectory() as folder:
        sizes = tuple(map(int, sys.argv[1:] or ("20", "100", "1000", "10000")))
        for parts in sizes:
            for what, fit in FITS:
                path = made(Path(folder) / f"{parts}-{fit}.yaml", str(parts), "--fit", fit)
                measured(path, bare, f"{parts} parts {what}", linters=fit != "0")
        with_notes(Path(folder), sizes[-1])
        with_library(Path(folder), 5000)
        by_two(Path(folder))


if __name__ == "__main__":
    main()
