"""How much of what designers ask is answered, and by rows that somebody read; run by hand.

python tests/tables/realistic.py [--silent] [--memory]

40 materials (`realistic_materials.csv`) stand immersed in 24 baths (`realistic_baths.csv`) at
working strength and temperature: 960 questions. The choice is the project's own: what is built
into machines, and what machines are cleaned with, pickle and dose. An answer is a verdict of the
rule `chemical-resistance` that does not say "no data", and rests on the weakest row that governs.
`--silent` lists the questions without an answer, `--memory` those that nobody read.
"""

import argparse
import csv
from collections import Counter, defaultdict
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import areafit
from areafit.tables import Tables
from areafit.values import Frozen
from areafit.verdict import Basis, Reason, Verdict, weakest

HERE = Path(__file__).parent
READ = (Basis.SEEN, Basis.REPORTED)


class Question(Frozen):
    """A material in a bath, and the answer; no `basis`: no answer."""

    material: str
    bath: str
    verdict: Verdict
    basis: Basis | None


def _rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def questions() -> Iterator[Question]:
    """Every material in every bath, as the rule answers it."""
    materials, baths = _rows("realistic_materials.csv"), _rows("realistic_baths.csv")
    for bath in baths:
        told = [bath["chemical"], bath["strength"], bath["temperature"]]
        name = ", ".join(filter(None, told))
        report = _asked([each["material"] for each in materials], bath)
        for material, part in zip(materials, report.parts, strict=True):
            [judged] = [each.judgement for block in part.blocks for each in block.judged]
            bases = [row.basis for row in judged.rows if row.governs]
            silent = judged.reason is Reason.NO_DATA
            basis = None if silent else weakest(bases)
            yield Question(material["material"], name, judged.verdict, basis)


def _asked(materials: list[str], bath: dict[str, str]) -> areafit.BomReport:
    strength = f"concentration: {bath['strength']}, " if bath["strength"] else ""
    chemical = f"name: {bath['chemical']}, {strength}temperature: {bath['temperature']}"
    lines = [
        "areafit: 1",
        "assembly: {number: T-1}",
        "code: IEC",
        "locations:",
        f"  tank: {{chemicals: [{{{chemical}}}]}}",
        "parts:",
    ]
    for number, material in enumerate(materials):
        lines.append(
            f"  - {{item: '{number}', location: tank, kind: structural, "
            f"materials: [{{material: '{material}', exposure: immersed}}]}}"
        )
    bom = areafit.read("\n".join(lines).encode(), "realistic.yaml")
    only = frozenset({"chemical-resistance"})
    options = areafit.Options(as_of=date(2026, 1, 1), only=only)
    return areafit.judge(bom, Tables.shipped(), options)


def _printed(wanted: list[Question]) -> Iterator[str]:
    by_bath: dict[str, list[str]] = defaultdict(list)
    for each in wanted:
        by_bath[each.bath].append(each.material)
    for bath, materials in by_bath.items():
        yield f"{bath}: {', '.join(materials)}"


def main() -> None:
    """Print the shares, and on request the questions behind them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--silent", action="store_true")
    parser.add_argument("--memory", action="store_true")
    asked = parser.parse_args()
    found = list(questions())
    counts = Counter("no answer" if each.basis is None else each.basis.value for each in found)
    for word, count in counts.most_common():
        print(f"{word:10} {count:4} {100 * count / len(found):5.1f} %")
    if asked.silent:
        print(*_printed([each for each in found if each.basis is None]), sep="\n")
    if asked.memory:
        unread = [each for each in found if each.basis and each.basis not in READ]
        print(*_printed(unread), sep="\n")


if __name__ == "__main__":
    main()
