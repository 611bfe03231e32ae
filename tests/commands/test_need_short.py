"""What to buy for a place, in short: forty lines a place, and text for an order.

Limits in the sentences are those of the rules: each is compared with the finding of a line.
"""

import json
from pathlib import Path

import pytest

from areafit.tables import Tables
from areafit_cli.__main__ import run

LIST = Path(__file__).parents[1] / "lists43" / "filled.yaml"


def told(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    with_status = run(["need", *words])
    assert with_status == status
    done = capsys.readouterr()
    return done.out if status == 0 else done.err


def test_a_place_takes_forty_lines_at_most(capsys: pytest.CaptureFixture[str]) -> None:
    text = told(capsys, str(LIST))
    blocks = text.split("\n\n")
    assert len(blocks) == 4  # three places, and what outranks them
    assert all(3 < len(block.splitlines()) <= 40 for block in blocks[:2])
    assert blocks[0].index("suit ") < blocks[0].index("limited") < blocks[0].index("avoid")


@pytest.mark.parametrize("sort", ["mechanical parts", "fasteners", "hoses", "hand tools"])
def test_what_has_no_nameplate_is_spoken_of(sort: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert sort in told(capsys, str(LIST), "filling")


def test_its_limits_are_those_of_the_rules(capsys: pytest.CaptureFixture[str]) -> None:
    """The place turns IIC by the hydrogen of the list's own parts: 20 cm², as the rule has it."""
    found = json.loads(told(capsys, str(LIST), "filling", "--format", "json"))
    (place,) = found["locations"]
    asks = {one["sort"]: " ".join(one["asks"]) for one in place["parts"]}
    run(["check", str(LIST), "--format", "json"])
    report = json.loads(capsys.readouterr().out)["boms"][0]
    carrier = next(part for part in report["parts"] if part["item"] == "18")
    (static,) = (one for one in carrier["findings"] if one["rule"] == "static-surface")
    assert static["required"] in asks["mechanical parts"]
    assert "20 cm²" in static["required"]


def test_an_order_names_the_lines_of_one_vendor_alone(capsys: pytest.CaptureFixture[str]) -> None:
    text = " ".join(told(capsys, str(LIST), "--vendor", "V-104").split())
    for number in ("S-1001", "S-2001", "S-2002", "S-2003"):
        assert number in text
    assert "With the goods come:" in text
    assert "C-2032" not in text
    assert "VF-2700" not in text
    assert "filled.yaml" not in text


def test_an_unknown_vendor_is_told_with_those_that_are_near(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert "V-110" in told(capsys, str(LIST), "--vendor", "V-140", status=2)


def test_an_order_needs_a_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert "list" in told(capsys, "--area", "Zone 1", "--vendor", "V-1", status=2)


def test_usual_materials_come_first_and_every_sort_finds_room(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """304 and 316L are what wet machines are made of; the order is the project's own judgement."""
    text = told(capsys, str(LIST.parents[2] / "sample_bom" / "solvent_skid.yaml"))
    blocks = text.split("\n\n")[:2]
    for block in blocks:
        assert len(block.splitlines()) <= 40
        for sort in ("mechanical parts", "fasteners", "hoses", "hand tools", "suit", "avoid"):
            assert f"{sort} " in block or f"{sort}:" in block
    assert "suit     metals 304, 316L, 304L, 316; plastics PTFE" in blocks[0]
    assert "anodised" not in blocks[0]


def test_the_order_of_materials_is_a_table_and_decides_nothing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    found = json.loads(told(capsys, str(LIST), "filling", "--format", "json"))
    (place,) = found["locations"]
    usual = {name: Tables.shipped().row("usual_materials", name).rank for name in USUAL}
    assert usual["304"] < usual["316L"] < usual["2205"]
    names = [suit["material"].split()[0] for suit in place["exposures"][0]["suits"]]
    ranks = [usual[name] for name in names if name in usual]
    assert ranks == sorted(ranks)
    assert len(ranks) > 5


USUAL = Tables.shipped().ids("usual_materials")
