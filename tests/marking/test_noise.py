"""Letters of noise on a plate never widen what it promises: level, group, temperature, ambient.

Where noise takes the ambient range itself, the standard's holds and the plate is unread.
"""

import csv
import random
from decimal import Decimal
from pathlib import Path

import pytest

from areafit.facts.groups import Cover, Group, covers
from areafit.facts.marking import Code
from areafit.facts.protection import Hazard, MarkingSystem
from areafit.facts.quantity import Range
from areafit.marking import decode, effective_level
from areafit.marking.limits import default_ambient

HERE = Path(__file__).parent
# No word of a plate has these letters, so noise is never another plate.
NOISE = "jwyJWöß"


# The zone or the level that these print is below their type's; lost, the type alone counts, as
# `faulty.csv` has it of `Zone X AEx db …`, and the plate is unread.
CAPPED = {"Class I, Zone 2, AEx db IIB T4 Gb", "Ex de IIC T4 Gc"}


def clean_plates() -> list[str]:
    found = []
    for name in ("plates.csv", "spellings.csv"):
        with (HERE / name).open(encoding="utf-8", newline="") as file:
            found += [row["text"] for row in csv.DictReader(file) if not row.get("says")]
    return [text for text in found if text not in CAPPED]


# What a place can ask for: a bare `II` or `III` covers nothing, and no place here is a mine.
ASKED = [group for group in Group if group not in {Group.I, Group.II, Group.III}]


def reach(code: Code) -> set[Group]:
    asked = [group for group in ASKED if group.hazard is code.hazard]
    return {group for group in asked if covers(code.groups, group) is Cover.YES}


def hottest(code: Code) -> Decimal:
    return max((mark.maximum or Decimal(999) for mark in code.temperatures), default=Decimal(999))


def ambient(code: Code) -> Range:
    return code.ambient or default_ambient(code.system)


def no_wider(code: Code, base: Code) -> bool:
    level, known = effective_level(code), effective_level(base)
    if level is not None and (known is None or level.rank < known.rank):
        return False
    division, usual = MarkingSystem.NEC_DIVISION, default_ambient(code.system)
    return (
        code.hazard is base.hazard
        and (code.system is division) is (base.system is division)
        and min(code.divisions, default=3) >= min(base.divisions, default=3)
        and reach(code) <= reach(base)
        and hottest(code) >= hottest(base)
        and any(ambient(code).within(span) for span in (ambient(base), usual))
    )


def noisy(pick: random.Random, text: str) -> str:
    # Two letters may hide both words that tell a circuit from a housing.
    feeds = any(word in text for word in ("circuits", "connections", "outputs"))
    for _ in range(1 if feeds else pick.randint(1, 2)):
        at = pick.randrange(len(text) + 1)
        text = text[:at] + pick.choice(NOISE) + text[at:]
    return text


def widened(seed: int, count: int) -> list[str]:
    pick = random.Random(seed)  # noqa: S311 - no secret
    plates = clean_plates()
    wrong = []
    for _ in range(count):
        plate = pick.choice(plates)
        base, marking = decode(plate), decode(noisy(pick, plate))
        # A gas code without a group promises nothing to any place; of dust old ones print none.
        codes = [c for c in marking.codes if reach(c) or c.hazard is not Hazard.GAS]
        if not all(any(no_wider(code, each) for each in base.codes) for code in codes):
            wrong.append(f"{plate!r} {marking.text!r}")
    return wrong


def test_noise_never_widens_what_a_plate_promises() -> None:
    assert widened(11, 3_000) == []


@pytest.mark.long
def test_much_noise_never_widens_what_a_plate_promises() -> None:
    assert widened(12, 100_000) == []
