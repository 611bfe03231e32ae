"""Every style of nameplate, decoded as the marking clause named in its row has it."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from areafit.facts.marking import Marking, facing
from areafit.facts.protection import Level
from areafit.marking import decode, effective_level
from areafit.marking.canonical import canonical

HERE = Path(__file__).parent


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


PLATES = rows("plates.csv")
FAULTY = rows("faulty.csv")


def kinds(marking: Marking) -> set[str]:
    """`none` where nothing is wrong."""
    found = {"unread" if problem.unread else "contradiction" for problem in marking.problems}
    return found or {"none"}


def test_the_tables_are_as_large_as_promised() -> None:
    assert len(PLATES) >= 120
    assert len([row for row in FAULTY if row["problem"] != "none"]) >= 60
    assert all(row["source"] for row in PLATES + FAULTY)


@pytest.mark.parametrize("row", PLATES, ids=lambda row: row["text"])
def test_a_good_plate_is_read_whole(row: dict[str, str], summary: Callable[[Marking], str]) -> None:
    marking = decode(row["text"])
    assert marking.problems == ()
    assert summary(marking) == row["expected"]


@pytest.mark.parametrize("row", FAULTY, ids=lambda row: row["text"])
def test_a_faulty_plate_says_what_is_wrong(row: dict[str, str]) -> None:
    marking = decode(row["text"])
    assert row["problem"] in kinds(marking)
    if row["problem"] == "none":
        assert kinds(marking) == {"none"}
    else:
        unread = row["problem"] == "unread"
        said = [p.message for p in marking.problems if p.unread is unread]
        assert row["says"] in said
        assert all(problem.clause for problem in marking.problems)


@pytest.mark.parametrize("row", FAULTY, ids=lambda row: row["text"])
def test_a_faulty_plate_promises_the_weaker_level(row: dict[str, str]) -> None:
    levels = [effective_level(code) for code in decode(row["text"]).codes]
    assert " ".join(level.value if level else "-" for level in levels) == row["level"]


@pytest.mark.parametrize("row", PLATES, ids=lambda row: row["text"])
def test_printing_a_code_and_reading_it_gives_it_back(row: dict[str, str]) -> None:
    for code in decode(row["text"]).codes:
        again = decode(canonical(code))
        assert again.problems == ()
        assert again.codes == (code,)


# First the side of the process, then that of the place; ATEX guidelines, EN 14986, from memory.
@pytest.mark.parametrize(
    ("text", "process", "place"),
    [
        ("II 1/2G Ex h IIC T4 Ga/Gb", Level.GA, Level.GB),
        ("II 2/3G Ex h IIC T4 Gb/Gc", Level.GB, Level.GC),
        ("II -/2G Ex h IIC T4 Gb", None, Level.GB),
        ("II -/2G Ex h IIC T4 -/Gb", None, Level.GB),
        ("II -/2 G c IIC T4", None, Level.GB),
        ("Ex h IIC T4 -/Gb", None, Level.GB),
        ("Ex db IIC T4 -/Gb", None, Level.GB),
        ("II 2G/- Ex h IIC T4 Gb", Level.GB, None),
        ("II 2/- G Ex h IIC T4 Gb/-", Level.GB, None),
        ("Ex db IIC T4 Gb/-", Level.GB, None),
        ("II 2G/3G c IIB T3", Level.GB, Level.GC),
        ("II 2G Ex h IIC T4 Gb", Level.GB, Level.GB),
    ],
)
def test_each_side_of_a_pair_has_its_own_level(
    text: str, process: Level | None, place: Level | None
) -> None:
    marking = decode(text)
    assert not marking.problems
    assert [effective_level(code) for code in marking.codes] == [place]
    assert [effective_level(code) for code in facing((marking,))[0].codes] == [process]


@pytest.mark.parametrize(
    ("text", "groups"),
    [
        ("Class I, Div 1, Groups A, B, C, D; NEMA 7CD; T4", "CD"),
        ("Class I, Div 1, Groups C, D; NEMA 7BCD; T4", "CD"),
        ("Class I, Div 1, Groups C, D; NEMA 9EFG; T4", "CD"),
        ("Class I, Div 1, Group B; NEMA 7CD; T4", ""),
    ],
)
def test_the_groups_of_an_enclosure_type_narrow_those_of_the_class(text: str, groups: str) -> None:
    """NEMA 250 tells types 7 and 9 by class and groups; the narrower governs. From memory."""
    (code,) = decode(text).codes
    assert "".join(sorted(group.value for group in code.groups)) == groups


def test_the_zones_of_two_sides_each_count_for_theirs() -> None:
    """UL 60079-26, from memory: Ga towards Zone 0, Gb in Zone 1."""
    marking = decode("Class I, Zone 0/1, AEx ia/db IIC T4 Ga/Gb")
    (inner,) = facing((marking,))
    assert effective_level(marking.codes[0]) is Level.GB
    assert effective_level(inner.codes[0]) is Level.GA
    (same,) = facing((decode("Class I, Zone 1, AEx ia/db IIC T4 Ga/Gb"),))
    assert effective_level(same.codes[0]) is Level.GB
