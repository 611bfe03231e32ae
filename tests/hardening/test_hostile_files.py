"""Files that crash, stop or fool other readers, given to the installed command.

A crash of the C parser would end the test run itself, so each runs in a process of its own, with
1 GiB of address space. What the rows guard against is common practice, no source.
"""

from pathlib import Path

import pytest
from tests.hardening.conftest import GOOD, Run

import areafit

MIB = 1024 * 1024
SECONDS = 4.0  # of processor time; 0.3 s on an idle machine, start included
MEMORY = 120 * MIB

BOMB = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 10)
)
QUADRATIC = f"a: &a [{', '.join(['x'] * 900)}]\nb: [{', '.join(['*a'] * 900)}]\n"
MERGES = "base: &b {" + ", ".join(f"k{n}: v" for n in range(1000)) + "}\n"
MERGES += "".join(f"m{n}:\n  <<: *b\n" for n in range(1000))


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        pytest.param(BOMB, 1, 5, "anchor `&a0`", id="alias bomb"),
        pytest.param(QUADRATIC, 1, 4, "anchor `&a`", id="quadratic aliases"),
        pytest.param("a: &a [*a]\n", 1, 8, "references", id="recursive alias"),
        pytest.param(MERGES, 3, 3, "merge keys", id="merge keys"),
        pytest.param("a: " + "[" * 500, 1, 35, "nested more than 32", id="depth 500"),
        pytest.param("[" * 100_000, 1, 33, "nested more than 32", id="depth 100,000"),
        pytest.param("- " * 1_000_000, 1, 65, "nested more than 32", id="a million dashes"),
        pytest.param("{a: " * 250_000, 1, 129, "nested more than 32", id="a million braces"),
        pytest.param(
            "a: 1\na: " + "[" * 100_000, 2, 35, "nested", id="depth in a passed over node"
        ),
        pytest.param("? " * 100_000, 1, 65, "nested", id="depth of keys"),
        pytest.param(f"a: {'9' * 100_000}\n", 1, 4, "longer than 64 Ki", id="100,000 digits"),
        pytest.param(f"a: '{'x' * 5_000_000}'\n", 1, 4, "longer than 64 Ki", id="5 MB scalar"),
        pytest.param(f"{'k' * 100_000}: 1\n", 1, 1, "", id="100,000 characters of key"),
        pytest.param("1: a\n01: b\ntrue: c\n1: d\n", 4, 1, "`1` is written twice", id="int keys"),
        pytest.param("a: !!python/object/apply:os.system [x]\n", 1, 4, "tags", id="python tag"),
        pytest.param(f"{GOOD}---\n{GOOD}", 8, 1, "second document", id="two documents"),
        pytest.param("a: b\x1b]52;c;aGk=\x07\n", 1, 5, "U+001B", id="clipboard escape"),
        pytest.param('a: "\\u202e"\n', 1, 4, "U+202E", id="direction override"),
        pytest.param("x" * 200_000, 1, 1, "longer than 64 Ki", id="no YAML at all"),
        pytest.param("&" * 100_000, 1, 2, "no valid YAML", id="signs only"),
        pytest.param("a: |\n" + " x\n" * 60_000, 1, 4, "longer than 64 Ki", id="long block"),
        pytest.param("%YAML 9.9\n---\na: b\n", 1, 1, "YAML", id="foreign version"),
    ],
)
def test_it_is_2_at_once_with_a_position(
    metered: Run, text: str, line: int, column: int, says: str
) -> None:
    ran = metered("check", "-", data=text.encode())
    assert ran.status == 2, ran.err[:2000]
    assert ran.seconds < SECONDS
    assert ran.peak < MEMORY
    told = ran.err.split("\n")
    assert any(each.startswith(f"<stdin>:{line}:{column}: ") and says in each for each in told), (
        told[:5]
    )
    assert len(ran.err) < 300_000
    assert all(len(each) < 2_000 for each in told)


def test_no_byte_of_a_hostile_file_steers_the_terminal(metered: Run) -> None:
    ran = metered("check", "-", data='"\x1b]0;x\x07\u202e\u2028": [\r\n\x9b31m'.encode())
    assert ran.status == 2
    assert all(sign == "\n" or sign.isprintable() for sign in ran.err)


def test_a_file_above_the_limit_is_refused_without_being_taken_in(metered: Run, here: Path) -> None:
    with (here / "huge.yaml").open("wb") as stream:  # sparse: it takes no room on the disk
        stream.write(GOOD.encode())
        stream.truncate(20 * 1024 * MIB)
    ran = metered("check", "huge.yaml")
    assert ran.status == 2
    assert "huge.yaml:1:1: the file is larger than 64 MiB" in ran.err
    assert ran.peak < 200 * MIB


@pytest.mark.parametrize("option", ["--waivers", "--config"])
def test_other_files_above_the_limit_are_refused_too(metered: Run, here: Path, option: str) -> None:
    with (here / "huge.toml").open("wb") as stream:
        stream.truncate(20 * 1024 * MIB)
    ran = metered("check", "good.yaml", option, "huge.toml")
    assert ran.status == 2
    assert "huge.toml" in ran.err
    assert "Traceback" not in ran.err


def test_hundred_thousand_mistakes_are_told_in_few_lines(metered: Run) -> None:
    lines = "".join(f"  - {{item: '{n}', location: nowhere, kind: odd}}\n" for n in range(30_000))
    ran = metered("check", "-", data=f"{GOOD}{lines}".encode())
    assert ran.status == 2
    assert ran.err.count("\n") <= 501


def test_a_mapping_of_endless_keys_is_refused() -> None:
    text = "areafit: 1\n" + "".join(f"k{i}: 1\n" for i in range(100_001))
    with pytest.raises(areafit.InputErrors, match="a mapping of more than 100000 keys"):
        areafit.read(text.encode(), "list.yaml")


def test_equal_own_rows_cost_nothing_and_endless_ones_are_refused() -> None:
    head = "material,chemical,conc_min_pct,conc_max_pct,temp_max_c,rating,mechanism,figure,"
    head += "source_id,locator,basis,note\n"
    row = "316L,ethanol,0,100,{},suitable,none,,practice,x,memory,\n"
    equal = (head + row.format(20) * 200_000).encode()
    laid = areafit.Tables.overlaid({"resistance.csv": equal})
    assert laid.resistance("316L", "ethanol")[-1].temp_max_c == 20
    many = (head + "".join(row.format(i) for i in range(20_002))).encode()
    with pytest.raises(areafit.TableError, match="more than 20000 different rows"):
        areafit.Tables.overlaid({"resistance.csv": many})
